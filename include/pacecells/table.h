// A table of plain cells, as a sheet hands it over: what the model reads a workout, tests and athletes from.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace pacecells {

// Blank, a number or text. Times of a sheet are numbers: parts of a day.
using TableCell = std::variant<std::monostate, double, std::string>;

// Rows by columns, row by row. Every read outside gives a blank.
struct Table {
    std::size_t rows = 0;
    std::size_t columns = 0;
    std::vector<TableCell> cells; // rows * columns of them

    [[nodiscard]] const TableCell& at(std::size_t row, std::size_t column) const;
};

inline constexpr double seconds_per_day = 86400;

// Blank, or text of spaces only.
[[nodiscard]] bool is_blank(const TableCell& cell);
// Text trimmed; a whole number as people write it; blank is empty.
[[nodiscard]] std::string cell_text(const TableCell& cell);
[[nodiscard]] std::optional<double> cell_number(const TableCell& cell); // none where blank or text

// A time: a number is part of a day, text is read as a clock ("2:30"). None where it is neither.
[[nodiscard]] std::optional<Seconds> cell_time(const TableCell& cell);

// Seconds: a number is seconds, but above 0 and below 1/24 it is part of a day, as is text a clock. None where it is
// neither, or from 1/24 to 0.17, which could be either.
[[nodiscard]] std::optional<Seconds> cell_seconds(const TableCell& cell);

// The day of a sheet's day number, the same in every language. Example: 46095 is "2026-03-14".
[[nodiscard]] std::string date_text(double day);

} // namespace pacecells
