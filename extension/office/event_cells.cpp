#include "event_cells.h"

#include "pacecells/text.h"
#include "pacecells/words.h"

#include <com/sun/star/text/XText.hpp>

#include <array>

namespace pacecells {

namespace {

constexpr std::string_view block_name = "workout";
constexpr std::string_view first_key = "pacecells.workout";
constexpr std::string_view last_key = "end";
constexpr std::string_view value_key = "value";

struct Part {
    std::string_view header; // key of the row that holds the keys of the columns
    std::string_view row;    // key of each of its rows
};
constexpr std::array<Part, 4> parts{
    {{"stations", "station"}, {"paces", "pace"}, {"groups", "group"}, {"machines", "machine"}}};
constexpr Part divisions{"stations", "divisions"}; // shares the columns of the stations

const Part* part_named(std::string_view name) {
    if (name == divisions.row)
        return &divisions;
    const auto* found = std::ranges::find(parts, name, &Part::header);
    return found == parts.end() ? nullptr : found;
}

// Keys of rows that may come more than once.
bool repeats(std::string_view key) {
    return key == "label" || std::ranges::any_of(parts, [&](const Part& part) { return part.row == key; });
}

} // namespace

std::string text_of(const css::uno::Any& value) {
    rtl::OUString text;
    if (value >>= text)
        return std::string(trim(utf8(text)));
    if (double number = 0; value >>= number)
        return number_text(number);
    return {};
}

bool blank(const css::uno::Any& value) {
    rtl::OUString text;
    return !value.hasValue() || ((value >>= text) && trim(utf8(text)).empty());
}

void put_text(const Range& range, sal_Int32 column, sal_Int32 row, const std::string& text) {
    need<css::text::XText>(range->getCellByPosition(column, row))->setString(utf16(text));
}

void put_number(const Range& range, sal_Int32 column, sal_Int32 row, double value) {
    range->getCellByPosition(column, row)->setValue(value);
}

void put_blank(const Range& range, sal_Int32 column, sal_Int32 row) {
    range->getCellByPosition(column, row)->setFormula({});
}

EventCells::EventCells(Document document) : document_(std::move(document)), block_(find_name(document_, block_name)) {
    if (!block_.is())
        throw Refusal{tr("This is not an event workbook, or it was made before its sheets changed: there are no cells "
                         "named %1.",
                         block_name)};
    cells_ = values_of(block_);
    width_ = cells_[0].getLength();
    for (sal_Int32 row = 0; row < cells_.getLength(); ++row) {
        const auto key = text_of(cells_[row][0]);
        if (!key.empty() && !rows_.emplace(key, row).second && !repeats(key))
            doubled_.insert(key);
    }
    for (const auto key : {first_key, last_key})
        if (!rows_.contains(key))
            throw Refusal{tr("The sheet Workout has no row with the key %1. Undo what was deleted there.", key)};
}

std::optional<sal_Int32> EventCells::row_of(std::string_view key) const {
    if (doubled_.contains(key))
        throw Refusal{tr("The sheet Workout has two rows with the key %1. Delete the one that was copied.", key)};
    const auto found = rows_.find(key);
    return found == rows_.end() ? std::nullopt : std::optional(found->second);
}

std::optional<sal_Int32> EventCells::column_of(sal_Int32 row, std::string_view key) const {
    std::optional<sal_Int32> found;
    for (sal_Int32 column = 1; column < width_; ++column)
        if (text_of(cells_[row][column]) == key) {
            if (found)
                throw Refusal{
                    tr("The sheet Workout has two columns with the key %1. Delete the one that was copied.", key)};
            found = column;
        }
    return found;
}

Range EventCells::in_block(std::string_view spelling) const {
    const auto dot = spelling.find('.');
    if (dot == std::string_view::npos) {
        const auto row = row_of(spelling);
        const auto column = column_of(rows_.find(first_key)->second, value_key);
        return row && column ? block_->getCellRangeByPosition(*column, *row, *column, *row) : Range();
    }
    const auto* part = part_named(spelling.substr(0, dot));
    const auto header = part ? row_of(part->header) : std::nullopt;
    const auto first = header ? row_of(part->row) : std::nullopt;
    const auto column = first ? column_of(*header, spelling.substr(dot + 1)) : std::nullopt;
    if (!column)
        return {};
    auto last = *first;
    while (last + 1 < cells_.getLength() && text_of(cells_[last + 1][0]) == part->row)
        ++last;
    return block_->getCellRangeByPosition(*column, *first, width_ - 1, last);
}

Range EventCells::find(std::string_view spelling) const {
    const bool keyed =
        spelling.size() > block_name.size() && spelling.starts_with(block_name) && spelling[block_name.size()] == '.';
    return keyed ? in_block(spelling.substr(block_name.size() + 1)) : find_name(document_, spelling);
}

Range EventCells::at(std::string_view spelling) const {
    auto range = find(spelling);
    if (!range.is())
        throw Refusal{tr("This workbook has no cells named %1. Is it a Pacecells workbook?", spelling)};
    return range;
}

std::vector<std::string> EventCells::texts(std::string_view spelling) const {
    const auto rows = values(spelling);
    std::vector<std::string> all;
    if (rows.getLength() == 1)
        for (const auto& value : rows[0])
            all.push_back(text_of(value));
    else
        for (const auto& row : rows)
            all.push_back(text_of(row[0]));
    return all;
}

std::string EventCells::text(std::string_view spelling) const { return text_of(values(spelling)[0][0]); }

std::optional<double> EventCells::number(std::string_view spelling) const {
    double number = 0;
    return (values(spelling)[0][0] >>= number) ? std::optional(number) : std::nullopt;
}

Language EventCells::language() const { return parse_language(text("workout.language")).value_or(Language::en); }

std::string EventCells::word(std::string_view list, std::size_t place) const {
    const auto words = texts(list);
    if (place >= words.size() || words[place].empty())
        throw Refusal{tr("This workbook has no cells named %1. Is it a Pacecells workbook?", list)};
    return words[place];
}

Range column_by_key(const Range& table, std::string_view key) {
    const auto where = address(table);
    const auto last = where.EndColumn - where.StartColumn;
    const auto keys = values_of(table->getCellRangeByPosition(0, 0, last, 0))[0];
    for (sal_Int32 column = 0; column <= last; ++column)
        if (text_of(keys[column]) == key)
            return table->getCellRangeByPosition(column, 2, column, where.EndRow - where.StartRow);
    return {};
}

std::set<std::string> private_names(const Document& document) {
    const auto roster = find_name(document, "roster");
    const auto texts = [&](const Range& column) {
        std::vector<std::string> all;
        if (column.is())
            for (const auto& row : values_of(column))
                all.push_back(fold_name(text_of(row[0])));
        return all;
    };
    const auto by_key = [&](std::string_view key) {
        return roster.is() ? texts(column_by_key(roster, key)) : std::vector<std::string>{};
    };
    const auto names = texts(find_name(document, "roster_name")), lanes = texts(find_name(document, "roster_lane"));
    const auto ticks = by_key("minor"), labels = by_key("team");
    const auto is_minor = [&](std::size_t row) { return row < ticks.size() && !ticks[row].empty(); };
    std::set<std::string> kept, teams;
    for (std::size_t row = 0; row < names.size(); ++row)
        if (is_minor(row)) {
            kept.insert(names[row]);
            if (row < labels.size() && !labels[row].empty())
                teams.insert(labels[row]);
        }
    for (std::size_t row = 0; row < std::min({names.size(), lanes.size(), labels.size()});
         ++row) // a lane is called by people or by a label
        if (lanes[row] != names[row] && lanes[row] != labels[row] && teams.contains(labels[row]))
            kept.insert(lanes[row]);
    return kept;
}

NamedRows rows_by_name(const Rows& names) {
    NamedRows rows;
    for (sal_Int32 row = 0; row < names.getLength(); ++row)
        if (!blank(names[row][0]))
            rows[fold_name(text_of(names[row][0]))].push_back(row);
    return rows;
}

} // namespace pacecells
