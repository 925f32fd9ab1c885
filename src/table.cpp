#include "pacecells/table.h"

#include "pacecells/clock.h"

#include <chrono>
#include <cmath>

namespace pacecells {

const TableCell& Table::at(std::size_t row, std::size_t column) const {
    static const TableCell blank;
    return row < rows && column < columns ? cells[row * columns + column] : blank;
}

bool is_blank(const TableCell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    return text ? trim(*text).empty() : std::holds_alternative<std::monostate>(cell);
}

std::string cell_text(const TableCell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return std::string(trim(*text));
    if (const auto* number = std::get_if<double>(&cell))
        return number_text(*number);
    return {};
}

std::optional<double> cell_number(const TableCell& cell) {
    const auto* number = std::get_if<double>(&cell);
    if (!number || !std::isfinite(*number))
        return {};
    return *number;
}

std::optional<Seconds> cell_time(const TableCell& cell) {
    if (const auto number = cell_number(cell))
        return Seconds{*number * seconds_per_day};
    if (const auto* text = std::get_if<std::string>(&cell))
        if (const auto clock = parse_clock(*text))
            return *clock;
    return {};
}

std::optional<Seconds> cell_seconds(const TableCell& cell) {
    constexpr double hour = 1.0 / 24;
    constexpr double least_seconds = 0.17;
    const auto number = cell_number(cell);
    if (!number || (*number > 0 && *number < hour))
        return cell_time(cell);
    if (*number >= hour && *number < least_seconds)
        return {};
    return Seconds{*number};
}

std::string date_text(double day) {
    using namespace std::chrono;
    constexpr double farthest = 2'958'465; // the last of the year 9999
    if (!(day >= 1 && day <= farthest))
        return number_text(day);
    const year_month_day date{sys_days{1899y / December / 30} + days{static_cast<int>(day)}};
    const auto padded = [](unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); };
    return std::to_string(static_cast<int>(date.year())) + "-" + padded(static_cast<unsigned>(date.month())) + "-" +
           padded(static_cast<unsigned>(date.day()));
}

} // namespace pacecells
