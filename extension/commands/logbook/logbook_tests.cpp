#include "logbook_tests.h"

#include "pacecells/words.h"

#include <osl/time.h>

#include <cmath>

namespace pacecells {

namespace {

TableCell cell_of(const css::uno::Any& value) {
    if (double number = 0; value >>= number)
        return number;
    if (blank(value))
        return {};
    return text_of(value);
}

} // namespace

TestCells test_cells(const LogbookTable& tests, sal_Int32 row) {
    const auto cell = [&](std::string_view key) { return cell_of(tests.value(row, key)); };
    TestCells cells;
    cells.name = cell("name");
    cells.date = cell("date");
    cells.what = cell("what");
    cells.time = cell("time");
    cells.calories = cell("calories");
    cells.metres = cell("metres");
    cells.watts = cell("watts");
    cells.reps = cell("reps");
    cells.load = cell("load");
    cells.second = cell("second");
    cells.rest_s = cell("rest_s");
    cells.damper = cell("damper");
    cells.rep_s = cell("rep_s");
    cells.recovery = cell("recovery");
    cells.critical = cell("critical");
    cells.reserve = cell("reserve");
    return cells;
}

std::vector<MachineName> machine_names(const Logbook& logbook) {
    std::vector<MachineName> names;
    const auto machines = logbook.table("machines");
    for (const auto row : machines.rows())
        if (const auto kind = find_word(WordList::machine, machines.text(row, "machine")))
            names.push_back({machines.text(row, "name"), static_cast<Machine>(*kind)});
    return names;
}

LogbookTests tests_in(const Logbook& logbook, double today) {
    LogbookTests all;
    const auto table = logbook.table("tests");
    const auto machines = machine_names(logbook);
    for (const auto row : table.rows()) {
        auto test = read_test(test_cells(table, row), today, machines);
        if (!test) {
            all.unread.push_back({row, table.text(row, "name"), tr(test.error())});
            continue;
        }
        auto& own = all.people[fold_name(test->name)];
        if (const auto there = refused_as_there(*test, own)) // a copy would give it the weight of two
            all.unread.push_back({row, test->name, tr(*there)});
        else
            own.push_back(*std::move(test));
    }
    return all;
}

Table table_of(const Rows& rows) {
    Table table{static_cast<std::size_t>(rows.getLength()),
                static_cast<std::size_t>(rows.hasElements() ? rows[0].getLength() : 0),
                {}};
    for (const auto& row : rows)
        for (const auto& value : row)
            table.cells.push_back(cell_of(value));
    return table;
}

double now_number() {
    TimeValue now{};
    TimeValue local{};
    osl_getSystemTime(&now);
    osl_getLocalTimeFromSystemTime(&now, &local);
    constexpr double days_to_1970 = 25569; // of the sheet, from 1899-12-30
    return days_to_1970 + static_cast<double>(local.Seconds) / seconds_per_day;
}

double today_number() { return std::floor(now_number()); }

} // namespace pacecells
