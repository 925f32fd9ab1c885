#include "family.h"

#include <charconv>
#include <iterator>

namespace pacecells {

Result<Answer> pick(Range range, const std::optional<Whole>& row, const std::optional<Whole>& column) {
    if (row && (row->value < 1 || row->value > range.rows))
        return out_of_domain("There is no row %1, only 1 to %2.", row->value, range.rows);
    if (column && (column->value < 1 || column->value > range.columns))
        return out_of_domain("There is no column %1, only 1 to %2.", column->value, range.columns);
    if (!row && !column)
        return Answer{std::move(range)};
    if (row && column)
        return Answer{range.at(row->value - 1, column->value - 1)};
    Range part{row ? 1 : range.rows, column ? 1 : range.columns, {}};
    for (int r = 0; r < part.rows; ++r)
        for (int c = 0; c < part.columns; ++c)
            part.cells.push_back(range.at(row ? row->value - 1 : r, column ? column->value - 1 : c));
    if (part.single())
        return Answer{std::move(part.cells.front())};
    return Answer{std::move(part)};
}

Result<Answer> part_of(std::vector<Cell> headings, Range table, const std::optional<Whole>& row,
                       const std::optional<Whole>& column) {
    for (const auto& part : {row, column})
        if (part && part->value < 0)
            return out_of_domain("Rows and columns are counted from 1; got %1.", part->value);
    if (column && column->value == 0)
        return out_of_domain("Rows and columns are counted from 1; got %1.", column->value);
    if ((row && row->value > table.rows) || (column && column->value > table.columns))
        return Answer{Cell{Blank{}}};
    if (row && row->value == 0)
        return pick(Range{1, static_cast<int>(headings.size()), std::move(headings)}, std::nullopt, column);
    return pick(std::move(table), row, column);
}

Result<RoundReps> RoundReps::from(const Numbers& numbers) {
    RoundReps result;
    bool ended = false;
    for (const auto& number : numbers.values) {
        if (!number) {
            ended = true;
            continue;
        }
        if (ended)
            return out_of_domain("The reps per round have a blank cell between them.");
        result.numbers_.push_back(*number);
    }
    if (const auto checked = result.view(); !checked)
        return checked.error();
    return result;
}

Result<RepsPerRound> RoundReps::view() const {
    if (numbers_.size() == 1)
        return RepsPerRound::every_round(numbers_.front());
    return RepsPerRound::by_round(numbers_);
}

std::string group_text(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) {
        char digits[32];
        return {digits, std::to_chars(digits, std::end(digits), *number).ptr};
    }
    if (const auto* text = std::get_if<std::string>(&cell))
        return *text;
    return {};
}

std::vector<std::string> texts(const RawCells& range) {
    std::vector<std::string> result;
    result.reserve(range.cells.size());
    for (const auto& cell : range.cells)
        result.push_back(group_text(cell));
    return result;
}

} // namespace pacecells
