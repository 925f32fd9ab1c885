// Rows of a logbook for tests, written as a coach would.
#pragma once

#include "pacecells/clock.h"
#include "pacecells/test_entry.h"

#include "expect.h"

#include <chrono>
#include <string>

namespace pacecells::logbook {

// "2026-03-14" as the day number of a sheet.
inline double day(const std::string& text) {
    using namespace std::chrono;
    const year_month_day date{year{std::stoi(text.substr(0, 4))},
                              month{static_cast<unsigned>(std::stoi(text.substr(5, 2)))},
                              std::chrono::day{static_cast<unsigned>(std::stoi(text.substr(8, 2)))}};
    return static_cast<double>((sys_days{date} - sys_days{1899y / December / 30}).count());
}

inline const double today = day("2026-06-01");

inline TestCells on_machine(const std::string& date, const std::string& machine, const std::string& time) {
    TestCells cells;
    cells.name = "Mara Lindqvarn";
    cells.date = day(date);
    cells.what = machine;
    cells.time = time;
    return cells;
}

inline TestEntry watts(const std::string& date, double amount, const std::string& time,
                       const std::string& machine = "Rower") {
    auto cells = on_machine(date, machine, time);
    cells.watts = amount;
    return value_of(read_test(cells, today));
}
inline TestEntry metres(const std::string& date, double amount, const std::string& time,
                        const std::string& machine = "Rower") {
    auto cells = on_machine(date, machine, time);
    cells.metres = amount;
    return value_of(read_test(cells, today));
}
inline TestEntry calories(const std::string& date, double amount, const std::string& time,
                          const std::string& machine = "Rower") {
    auto cells = on_machine(date, machine, time);
    cells.calories = amount;
    return value_of(read_test(cells, today));
}
inline TestCells of_movement(const std::string& date, const std::string& movement) {
    TestCells cells;
    cells.name = "Mara Lindqvarn";
    cells.date = day(date);
    cells.what = movement;
    return cells;
}
inline TestEntry longest(const std::string& date, const std::string& movement, double reps) {
    auto cells = of_movement(date, movement);
    cells.reps = reps;
    return value_of(read_test(cells, today));
}
inline TestEntry load(const std::string& date, const std::string& movement, double kilograms, double reps) {
    auto cells = of_movement(date, movement);
    cells.load = kilograms;
    cells.reps = reps;
    return value_of(read_test(cells, today));
}

} // namespace pacecells::logbook
