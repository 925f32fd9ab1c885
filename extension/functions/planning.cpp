#include "planning.h"

#include "binding.h"
#include "kept.h"
#include "wording.h"

#include "pacecells/text.h"

#include <algorithm>

namespace pacecells {

namespace {

thread_local Recorded* recording = nullptr;

// The athlete's name, as far as keys and athlete are well formed; the model says what is wrong with others.
const TableCell* name_in(const Table& keys, const Table& athlete) {
    if (keys.rows != 1 || athlete.rows != 1 || keys.columns != athlete.columns)
        return nullptr;
    for (std::size_t column = 0; column < keys.columns; ++column)
        if (fold(cell_text(keys.at(0, column))) == "name")
            return &athlete.at(0, column);
    return nullptr;
}

struct AthletesTests {
    Table table; // keys, labels and the rows of the athlete
    std::vector<int> rows;
};

// Of the tests only what one athlete needs is read: two rows of headings, the names, and the athlete's rows.
Result<AthletesTests> tests_of(const Area& tests, const std::string& name) {
    constexpr int most_rows = 20'000;
    constexpr int most_columns = 1000;
    constexpr int headings = 2;
    if (tests.rows() > most_rows || tests.columns() > most_columns)
        return out_of_domain("The tests have at most %1 rows and %2 columns.", most_rows, most_columns);
    auto head = tests.part(0, 0, std::min(headings, tests.rows()), tests.columns());
    if (!head)
        return head.error();
    AthletesTests result{*std::move(head), {}};
    for (int row = 0; row < static_cast<int>(result.table.rows); ++row)
        result.rows.push_back(row);
    int name_column = 0;
    while (name_column < tests.columns() &&
           fold(cell_text(result.table.at(0, static_cast<std::size_t>(name_column)))) != "name")
        ++name_column;
    if (tests.rows() <= headings || name_column == tests.columns())
        return result;
    const auto names = tests.part(headings, name_column, tests.rows() - headings, 1);
    if (!names)
        return names.error();
    const auto sought = fold_name(name);
    for (std::size_t row = 0; row < names->rows; ++row) {
        if (fold_name(cell_text(names->at(row, 0))) != sought)
            continue;
        result.rows.push_back(headings + static_cast<int>(row));
        auto cells = tests.part(result.rows.back(), 0, 1, tests.columns());
        if (!cells)
            return cells.error();
        std::ranges::move(cells->cells, std::back_inserter(result.table.cells));
        ++result.table.rows;
    }
    return result;
}

Planned planned(const WorkoutPointer& workout, Athlete athlete, Reasons* reasons) {
    auto plan = plan_for(*workout, athlete, reasons);
    return {workout, std::move(athlete), std::move(plan)};
}

std::vector<Told> located(std::vector<Told> told, const Origin& origin) {
    for (auto& one : told)
        if (const auto* place = std::get_if<Place>(&one))
            if (const auto& area = place->table == Place::Table::workout ? origin.workout : origin.tests;
                origin.address(*place)) {
                const auto row = place->table == Place::Table::workout ? static_cast<int>(place->row)
                                                                       : origin.tests_rows[place->row];
                one = area->cell_name(row, static_cast<int>(place->column));
            }
    return told;
}

} // namespace

// --- Origin ------------------------------------------------------------------------------------------------------

std::optional<Area::Address> Origin::address(const Place& place) const {
    const auto in = [&](const Area& area, int row) {
        auto cell = area.first();
        cell.row += row;
        cell.column += static_cast<int>(place.column);
        return cell;
    };
    if (place.table == Place::Table::workout && workout)
        return in(*workout, static_cast<int>(place.row));
    if (place.table == Place::Table::tests && tests && place.row < tests_rows.size())
        return in(*tests, tests_rows[place.row]);
    return std::nullopt;
}

Said Origin::located(Said said) const {
    said.told = pacecells::located(std::move(said.told), *this);
    return said;
}

Error Origin::located(Error error) const {
    error.told = pacecells::located(std::move(error.told), *this);
    return error;
}

// --- reading -----------------------------------------------------------------------------------------------------

Table table_of(const RawCells& range) {
    Table table{static_cast<std::size_t>(range.rows), static_cast<std::size_t>(range.columns), {}};
    table.cells.reserve(range.cells.size());
    for (const auto& cell : range.cells) {
        if (const auto* number = std::get_if<double>(&cell))
            table.cells.emplace_back(*number);
        else if (const auto* text = std::get_if<std::string>(&cell))
            table.cells.emplace_back(*text);
        else
            table.cells.emplace_back();
    }
    return table;
}

Result<PlannedCell> plan_in(const AreaPointer& workout, const AreaPointer& tests, const RawCells& keys,
                            const RawCells& athlete) {
    return plan_in(workout, tests, table_of(keys), table_of(athlete));
}

Result<PlannedCell> plan_in(const AreaPointer& workout, const AreaPointer& tests, const Table& key_row,
                            const Table& row) {
    thread_local Kept<Result<std::shared_ptr<const Planned>>> plans(1024);

    const auto* name = name_in(key_row, row);
    if (name && is_blank(*name))
        return PlannedCell{}; // an empty roster costs nothing
    const auto known = known_workout(workout);
    if (!known)
        return known.error();
    Origin origin{workout, tests, {}};
    if (!known->workout)
        return origin.located(known->workout.error());
    auto tested = tests_of(*tests, name ? cell_text(*name) : std::string());
    if (!tested)
        return tested.error();
    origin.tests_rows = std::move(tested->rows);

    const auto made = [&]() -> Result<std::shared_ptr<const Planned>> {
        auto read = read_athlete(**known->workout, tested->table, key_row, row);
        if (!read)
            return read.error();
        return std::make_shared<const Planned>(
            planned(*known->workout, *std::move(read), recording ? &recording->reasons : nullptr));
    };
    if (recording) {
        *recording = {{}, origin, *known->workout, {}};
        const auto fresh = made();
        if (!fresh)
            return origin.located(fresh.error());
        return PlannedCell{*fresh, std::move(origin)};
    }
    std::string contents(reinterpret_cast<const char*>(&known->number), sizeof known->number);
    append(contents, tested->table);
    append(contents, key_row);
    append(contents, row);
    const auto& kept = plans.of(std::move(contents), made);
    if (!kept)
        return origin.located(kept.error());
    return PlannedCell{*kept, std::move(origin)};
}

std::string PlannedCell::notes() const {
    std::string text;
    if (!planned)
        return text;
    const auto language = planned->workout->settings.language;
    for (const auto& note : planned->plan.notes)
        text += (text.empty() ? "" : " ") + spoken(origin.located(note), language);
    return text;
}

Cell rate_cell(const Workout& workout, Machine machine, CaloriesPerHour rate) {
    const auto unit = workout.settings.rate_unit;
    const auto converted = convert(rate.value(), ErgUnit::calories_per_hour, unit, machine);
    if (!converted || unit == ErgUnit::calories_per_hour)
        return to_cell(rate);
    return unit == ErgUnit::split ? to_cell(Seconds{*converted}) : to_cell(*converted);
}

// --- Recording ---------------------------------------------------------------------------------------------------

Recording::Recording(Recorded& into) { recording = &into; }
Recording::~Recording() { recording = nullptr; }

void answer_is_about(Fact fact, std::optional<std::size_t> station) {
    if (recording)
        recording->about = Recorded::About{fact, station};
}

} // namespace pacecells
