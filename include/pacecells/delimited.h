// Lists as people have them: pasted from a sheet or a message, or a CSV file. No office types.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

using TextRows = std::vector<std::vector<std::string>>;

// Rows and fields of a text. Fields are separated by tab, semicolon or comma, whichever the first line that has any
// has most of (so that decimal commas survive beside semicolons); a quoted field may hold separators, line ends and,
// doubled, quotes. Outer spaces and a byte order mark go, rows without content too. Whatever a field says, it is text.
[[nodiscard]] TextRows delimited_rows(std::string_view text);

// The columns that a list has. A row that names a column is a heading; without one the columns are taken in the order
// given, as far as the list goes.
struct ColumnNames {
    std::vector<std::vector<std::string>> spellings; // of each column, in all languages, folded
};

struct ColumnTable {
    bool heading = false;
    TextRows rows;                    // without the heading; every row has a text for each column of ColumnNames
    std::vector<std::string> unknown; // headings that name no column, as written
};

[[nodiscard]] ColumnTable columns_of(const TextRows& rows, const ColumnNames& names);

// A date as Calc counts days: 2026-11-30 and 30.11.2026; 11/30/2026 only where it can be but one day.
[[nodiscard]] std::optional<double> typed_date(std::string_view text);

} // namespace pacecells
