#include "results.h"

#include "pacecells/text.h"

#include <com/sun/star/sheet/XCellRangeData.hpp>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Sequence;

void take(Results& results, std::size_t value, const ResultField& field, const Any& cell) {
    double number = 0;
    if (!cell.hasValue())
        results.refuse(field, tr("an error"));
    else if (cell >>= number)
        results.put(value, field, number);
    else if (const auto text = text_of(cell); !text.empty())
        results.refuse(field, pacecells::quoted(text));
}

// The cells as they are: an error has no value, a blank is an empty text.
Rows cells_of(const Document& document, std::string_view name, sal_Int32 rows, std::size_t least_columns) {
    const auto range = find_name(document, name);
    auto cells = range.is() ? need<css::sheet::XCellRangeData>(range)->getDataArray() : Rows();
    if (!cells.hasElements() || (rows > 0 && cells.getLength() != rows) ||
        cells[0].getLength() < static_cast<sal_Int32>(least_columns))
        throw Refusal{tr("This workbook has no sheet of tests: the cells named %1 are missing or different. Choose "
                         "another event, an older tests workbook, or a list saved as CSV.",
                         std::string(name))};
    return cells;
}

} // namespace

ResultFile read_results_workbook(const Document& document) {
    ResultFile file;
    const auto names = cells_of(document, "tests_name", 0, 1);
    const auto rows = names.getLength();
    std::array<Rows, machine_count> machines;
    std::array<std::size_t, machine_count> first{}; // value in the first column of each machine
    for (std::size_t m = 0; m < machine_count; ++m) {
        machines[m] = cells_of(document, machine_cells[m].name, rows, of_machine - machine_cells[m].first);
        first[m] = static_cast<std::size_t>(machines[m][0].getLength()) < of_machine ? machine_cells[m].first : 0;
    }
    const auto headings = cells_of(document, "tests_movements", 1, of_movement - 1);
    const auto columns = static_cast<std::size_t>(headings[0].getLength());
    file.of_each_movement = columns % of_movement == 0 ? of_movement : of_movement - 1; // without their recovery
    const auto sets = cells_of(document, "tests_sets", rows, columns);
    const auto note_range = find_name(document, "tests_note");
    const auto notes = note_range.is() ? values_of(note_range) : Rows();
    for (std::size_t k = 0; k + file.of_each_movement <= columns; k += file.of_each_movement)
        file.movements.push_back(text_of(headings[0][static_cast<sal_Int32>(k)]));
    for (sal_Int32 row = 0; row < rows; ++row) {
        auto person = person_with(text_of(names[row][0]), file);
        if (person.name.empty())
            continue;
        for (std::size_t m = 0; m < machine_count; ++m)
            for (std::size_t i = first[m]; i < of_machine; ++i)
                take(person.machines[m], i, machine_fields[i], machines[m][row][static_cast<sal_Int32>(i - first[m])]);
        for (std::size_t k = 0; k < file.movements.size(); ++k)
            for (std::size_t i = 0; i < file.of_each_movement; ++i)
                take(person.movements[k], i, movement_fields[i],
                     sets[row][static_cast<sal_Int32>(k * file.of_each_movement + i)]);
        if (row < notes.getLength())
            person.note = text_of(notes[row][0]);
        file.people.push_back(std::move(person));
    }
    return file;
}

} // namespace pacecells
