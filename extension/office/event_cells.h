// The cells of an event workbook, found as templates/NAMES.md writes them: by a name such as "roster_name", or by keys in
// the block `workout` such as "workout.cap" and "workout.stations.amount.1". Never by position, so that rows and columns
// may be inserted and moved.
#pragma once

#include "office.h"

#include "pacecells/words.h"

#include <map>
#include <set>

namespace pacecells {

using Document = css::uno::Reference<css::sheet::XSpreadsheetDocument>;
using Range = css::uno::Reference<css::table::XCellRange>;

// What is in a cell as text, without outer spaces; a number as people write it; a blank is empty.
[[nodiscard]] std::string text_of(const css::uno::Any& value);
[[nodiscard]] bool blank(const css::uno::Any& value);

// Writes one cell, so that it can be undone. A text stays a text: it never becomes a formula.
void put_text(const Range& range, sal_Int32 column, sal_Int32 row, const std::string& text);
void put_number(const Range& range, sal_Int32 column, sal_Int32 row, double value);
void put_blank(const Range& range, sal_Int32 column, sal_Int32 row);

class EventCells {
  public:
    // Refuses a workbook without a block `workout`, and one whose block has no first or last row.
    explicit EventCells(Document document);

    [[nodiscard]] const Document& document() const { return document_; }

    // A null reference where there are no such cells; at() refuses.
    [[nodiscard]] Range find(std::string_view spelling) const;
    [[nodiscard]] Range at(std::string_view spelling) const;

    [[nodiscard]] Rows values(std::string_view spelling) const { return values_of(at(spelling)); }
    // The first column, or of a single row all of it.
    [[nodiscard]] std::vector<std::string> texts(std::string_view spelling) const;
    [[nodiscard]] std::string text(std::string_view spelling) const;
    [[nodiscard]] std::optional<double> number(std::string_view spelling) const;

    [[nodiscard]] Language language() const;
    // A word of one of the lists list_… by its place, counted from 0, in the language of the workbook.
    [[nodiscard]] std::string word(std::string_view list, std::size_t place) const;

  private:
    // Places in the block; none where a key is missing. A doubled key is refused.
    [[nodiscard]] std::optional<sal_Int32> row_of(std::string_view key) const;
    [[nodiscard]] std::optional<sal_Int32> column_of(sal_Int32 row, std::string_view key) const;
    [[nodiscard]] Range in_block(std::string_view spelling) const;

    Document document_;
    Range block_;
    Rows cells_;
    std::map<std::string, sal_Int32, std::less<>> rows_; // the first row of each key
    std::set<std::string, std::less<>> doubled_;
    sal_Int32 width_ = 0;
};

// Of a table with keys over its columns, as roster and results are: the cells below a key and its heading; a null reference
// where there is no such key.
[[nodiscard]] Range column_by_key(const Range& table, std::string_view key);

// What is not shown in public, in the form that is compared: the names of minors, and of lanes
// with people of a team that has one.
[[nodiscard]] std::set<std::string> private_names(const Document& document);

// The rows of a list of people that a name is in, by the rule for the same name.
using NamedRows = std::map<std::string, std::vector<sal_Int32>>;
[[nodiscard]] NamedRows rows_by_name(const Rows& names);

} // namespace pacecells
