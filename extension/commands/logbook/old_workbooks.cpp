#include "old_workbooks.h"

#include "logbook_tests.h"
#include "results.h"

#include "pacecells/athlete.h"
#include "pacecells/words.h"

#include <algorithm>
#include <array>

namespace pacecells {

namespace {

constexpr std::array<std::string_view, 4> kinds{"row", "ski", "bike", "armbike"};

std::string name_of(std::size_t kind, const std::vector<MachineName>& machines) {
    const auto found = std::ranges::find(machines, static_cast<Machine>(kind), &MachineName::machine);
    return found == machines.end() ? std::string(kinds[kind]) : found->name;
}

std::optional<double> number_in(const Rows& rows, sal_Int32 row, sal_Int32 column = 0) {
    double number = 0;
    const bool there = row < rows.getLength() && column < rows[row].getLength() && (rows[row][column] >>= number);
    return there && number > 0 ? std::optional(number) : std::nullopt;
}

LogbookRow test_row(const std::string& name, std::optional<double> date, const std::string& what) {
    return {{"name", {name, {}}}, {"date", {{}, date}}, {"what", {what, {}}}};
}

void add(LogbookRow& row, std::string_view key, std::optional<double> number) {
    if (number)
        row.emplace_back(key, LogbookValue{{}, number});
}

// --- the tests workbook ------------------------------------------------------------------------------------------

// Each column of a machine is a test of its own; the heading has the other half of the result.
struct TestColumn {
    std::string_view typed;   // key of what is typed
    std::string_view heading; // key of what the heading says
};
constexpr TestColumn machine_tests_typed[] = {
    {"time", "metres"}, {"time", "metres"}, {"time", "calories"}, {"calories", "time"}, {"watts", "time"}};
constexpr TestColumn fan_bike_tests_typed[] = {{"time", "calories"}, {"calories", "time"}};

Rows named(const Document& document, const std::string& name) { return values_of(named_range(document, name)); }

void read_machine(const Document& document, std::size_t kind, const std::string& machine, OldWorkbook& found) {
    const std::string key(kinds[kind]);
    const auto names = named(document, "athlete_name");
    const auto typed = named(document, "athlete_" + key);
    const auto headings = named(document, "header_" + key);
    const auto dates = named(document, "athlete_" + key + "_date");
    const auto columns = key == "armbike" ? std::span<const TestColumn>(fan_bike_tests_typed)
                                          : std::span<const TestColumn>(machine_tests_typed);
    for (sal_Int32 row = 0; row < names.getLength(); ++row)
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const auto value = number_in(typed, row, static_cast<sal_Int32>(i));
            if (!value || blank(names[row][0]))
                continue;
            auto test = test_row(text_of(names[row][0]), number_in(dates, row), machine);
            add(test, columns[i].typed, value);
            add(test, columns[i].heading, number_in(headings, 0, static_cast<sal_Int32>(i)));
            found.tests.push_back(std::move(test));
        }
}

void read_sets(const Document& document, OldWorkbook& found) {
    constexpr sal_Int32 of_each = 4; // longest set, load, reps at that load, seconds per rep
    const auto names = named(document, "athlete_name");
    const auto movements = named(document, "athlete_movements");
    const auto sets = named(document, "athlete_sets");
    const auto dates = named(document, "athlete_sets_date");
    for (sal_Int32 row = 0; row < names.getLength(); ++row)
        for (sal_Int32 k = 0; k + of_each <= movements[0].getLength(); k += of_each) {
            const auto movement = text_of(movements[0][k]);
            if (movement.empty() || blank(names[row][0]))
                continue;
            const auto start = test_row(text_of(names[row][0]), number_in(dates, row), movement);
            const auto longest = number_in(sets, row, k);
            const auto rep = number_in(sets, row, k + 3);
            if (longest || rep) {
                auto test = start;
                add(test, "reps", longest);
                add(test, "rep_s", rep);
                found.tests.push_back(std::move(test));
            }
            if (const auto load = number_in(sets, row, k + 1)) {
                auto test = start;
                add(test, "load", load);
                add(test, "reps", number_in(sets, row, k + 2));
                found.tests.push_back(std::move(test));
            }
        }
}

OldWorkbook read_tests_workbook(const Document& document, const std::vector<MachineName>& machines) {
    OldWorkbook found;
    for (const auto& row : named(document, "athlete_name"))
        if (!blank(row[0]))
            found.people.push_back({{"name", {text_of(row[0]), {}}}});
    for (std::size_t kind = 0; kind < kinds.size(); ++kind)
        read_machine(document, kind, name_of(kind, machines), found);
    read_sets(document, found);
    return found;
}

// --- an event workbook -------------------------------------------------------------------------------------------

void read_event_tests(const EventCells& event, const std::vector<MachineName>& machines, OldWorkbook& found) {
    const auto file = read_results_workbook(event.document());
    const auto day = event.number("workout.date"); // sets have no day of their own: that of the event
    for (const auto& person : file.people) {
        for (std::size_t kind = 0; kind < machine_count; ++kind) {
            const auto& values = person.machines[kind].values;
            if (!person.machines[kind].known())
                continue;
            auto test =
                test_row(person.name, values[date_of_test] ? values[date_of_test] : day, name_of(kind, machines));
            add(test, "critical", values[0]);
            add(test, "reserve", values[1]);
            add(test, "time", values[date_of_test + 1]);
            add(test, "calories", values[date_of_test + 2]);
            found.tests.push_back(std::move(test));
        }
        for (std::size_t k = 0; k < file.movements.size(); ++k) {
            const auto& values = person.movements[k].values;
            const auto start = test_row(person.name, day, file.movements[k]);
            const auto value = [&](std::size_t i) { return i < values.size() ? values[i] : std::nullopt; };
            if (value(0) || value(2) || value(3)) {
                auto test = start;
                add(test, "reps", value(0));
                add(test, "rep_s", value(2));
                add(test, "recovery", value(3));
                found.tests.push_back(std::move(test));
            }
            if (value(1)) {
                auto test = start;
                add(test, "load", value(1));
                add(test, "reps", 1.0);
                found.tests.push_back(std::move(test));
            }
        }
    }
}

OldWorkbook read_event_workbook(const Document& document, const std::vector<MachineName>& machines) {
    const EventCells event(document);
    OldWorkbook found;
    const auto names = event.texts("roster_name");
    const auto divisions = event.texts("roster_division");
    const auto groups = event.texts("roster_group");
    for (std::size_t row = 0; row < names.size(); ++row) // a plan for the day was for that day
        if (!names[row].empty())
            found.people.push_back(
                {{"name", {names[row], {}}}, {"division", {divisions[row], {}}}, {"group", {groups[row], {}}}});
    read_event_tests(event, machines, found);
    try {
        found.results = results_of(event);
    } catch (const Refusal& refusal) {
        found.remarks += "\n" + tr("No results are taken over: %1", refusal.sentence);
    }
    return found;
}

} // namespace

std::string neither_kind() { return tr("This is neither an event workbook nor an older tests workbook of Pacecells."); }

OldWorkbook read_old_workbook(const Document& document, const std::vector<MachineName>& machines) {
    if (find_name(document, "athlete_name").is())
        return read_tests_workbook(document, machines);
    if (find_name(document, "workout").is())
        return read_event_workbook(document, machines);
    throw Refusal{tr("This is neither an event workbook nor an older tests workbook of Pacecells.")};
}

} // namespace pacecells
