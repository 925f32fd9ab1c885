#include "workout_block.h"

#include "kept.h"

#include "pacecells/text.h"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>

#include <memory>
#include <optional>

namespace pacecells {

namespace {

constexpr int most_rows = 1000;
constexpr int most_columns = 200;
constexpr std::size_t most_workouts = 32;
constexpr std::string_view seal_start = "seal ";

std::string seal_of(const Table& rows) {
    static const boost::uuids::name_generator_sha1 generator(boost::uuids::ns::oid());
    std::string contents;
    append(contents, rows);
    return std::string(seal_start) + to_string(generator(contents));
}

// The first row, if a formula there gives a seal.
std::optional<Table> sealed_row(const Area& block) {
    if (block.rows() < 2)
        return {};
    auto row = block.part(0, 0, 1, block.columns());
    if (!row)
        return {};
    for (std::size_t column = 0; column < row->columns; ++column)
        if (const auto* text = std::get_if<std::string>(&row->at(0, column));
            text && text->starts_with(seal_start) && block.calculated(0, static_cast<int>(column)))
            return *std::move(row);
    return {};
}

bool carries(const Table& first_row, const std::string& seal) {
    for (const auto& cell : first_row.cells)
        if (const auto* text = std::get_if<std::string>(&cell); text && *text == seal)
            return true;
    return false;
}

KnownWorkout read(std::size_t number, const Table& table) {
    auto workout = read_workout(table);
    return {number, workout ? Result<WorkoutPointer>(std::make_shared<const Workout>(*std::move(workout)))
                            : Result<WorkoutPointer>(workout.error())};
}

} // namespace

Result<KnownWorkout> known_workout(const AreaPointer& block) {
    thread_local Kept<KnownWorkout> known(most_workouts);
    thread_local Kept<KnownWorkout> sealed(most_workouts);
    thread_local std::size_t count = 0;
    if (block->rows() > most_rows || block->columns() > most_columns)
        return out_of_domain("takes the cells of a workout, at most %1 rows and %2 columns.", most_rows, most_columns);

    std::string seal;
    if (const auto first_row = sealed_row(*block)) {
        const int rows = block->rows();
        seal.append(reinterpret_cast<const char*>(&rows), sizeof rows);
        append(seal, *first_row);
        if (const auto* workout = sealed.find(seal))
            return *workout;
    }
    const auto table = block->all();
    if (!table)
        return table.error();
    std::string contents;
    append(contents, *table);
    const auto& workout = known.of(std::move(contents), [&] { return read(++count, *table); });
    if (!seal.empty()) {
        const auto split = static_cast<std::ptrdiff_t>(table->columns);
        const Table first{1, table->columns, {table->cells.begin(), table->cells.begin() + split}};
        const Table below{table->rows - 1, table->columns, {table->cells.begin() + split, table->cells.end()}};
        if (carries(first, seal_of(below))) // a seal of these cells, not of others
            sealed.of(std::move(seal), [&] { return workout; });
    }
    return workout;
}

Result<WorkoutPointer> workout_in(const AreaPointer& block) {
    const auto known = known_workout(block);
    if (!known)
        return known.error();
    if (!known->workout)
        return Origin{block, {}, {}}.located(known->workout.error());
    return known->workout;
}

Language language_of(const AreaPointer& block) {
    const auto table = block->all();
    if (!table)
        return Language::en;
    std::size_t value = table->columns;
    for (std::size_t row = 0; row < table->rows; ++row) {
        const auto key = fold(cell_text(table->at(row, 0)));
        if (key == "pacecells.workout")
            for (std::size_t column = 1; column < table->columns; ++column)
                if (fold(cell_text(table->at(row, column))) == "value")
                    value = column;
        if (key == "language")
            return parse_language(cell_text(table->at(row, value))).value_or(Language::en);
    }
    return Language::en;
}

std::string seal_of(const AreaPointer& rows) {
    if (rows->rows() > most_rows || rows->columns() > most_columns)
        return {};
    const auto table = rows->all();
    return table ? seal_of(*table) : std::string();
}

} // namespace pacecells
