// WORKOUT.USUAL: what the logbook says of a movement or a machine, from the list that a new event takes from it.
#include "family.h"

#include "pacecells/table.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

// The value beside the name; blank where there is none.
Result<TableCell> beside(const Area& list, const Table& names, int column, const std::optional<NumberOrText>& name) {
    const auto* text = name ? std::get_if<std::string>(&name->value) : nullptr; // a blank cell alone is 0
    if (!text || trim(*text).empty())
        return TableCell{};
    for (std::size_t row = 1; row < names.rows; ++row)
        if (same_name(cell_text(names.at(row, 0)), *text)) {
            const auto found = list.part(static_cast<int>(row), column, 1, 1);
            return found ? Result<TableCell>{found->at(0, 0)} : found.error();
        }
    return TableCell{};
}

// The list is an object: of it the keys, the names and one cell are read.
Result<Cell> workout_usual(AreaPointer list, Text key, std::optional<NumberOrText> movement,
                           std::optional<NumberOrText> unit) {
    const auto keys = list->part(0, 0, 1, list->columns());
    const auto names = list->part(0, 0, list->rows(), 1);
    if (!keys || !names)
        return !keys ? keys.error() : names.error();
    int column = 0;
    while (column < list->columns() && !same_name(cell_text(keys->at(0, static_cast<std::size_t>(column))), key.value))
        ++column;
    if (column == list->columns())
        return out_of_domain("The list has no column %1.", quoted(key.value));
    for (const auto& name : {movement, unit}) {
        const auto value = beside(*list, *names, column, name);
        if (!value)
            return value.error();
        if (const auto* number = std::get_if<double>(&*value))
            return to_cell(*number);
        if (!is_blank(*value))
            return to_cell(cell_text(*value));
    }
    return Cell{Blank{}};
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&workout_usual>("workoutUsual", "WORKOUT.USUAL",
                        "Usual value of a movement, or of the machine that a unit is for, from a list with keys.",
                        {{"list", "Keys in the first row, names in the first column."},
                         {"key", "The key of the column wanted."},
                         {"movement", "Name of the movement."},
                         {"unit", "What to look for where the list has no value for the movement, such as a unit."}},
                        "Empty where the list has no value.", practice,
                        {"tests;\"ski.critical\";\"Ilka Moorvane\"", "190"}),
};

} // namespace

std::span<const Row> usual_rows() { return rows; }

} // namespace pacecells
