// An older event workbook, or a tests workbook, into the logbook. What is there already stays as it is; what will be
// added is shown first.
#include "dialog.h"
#include "logbook_tests.h"
#include "old_workbooks.h"
#include "opened.h"
#include "results.h"
#include "results_plan.h"
#include "store.h"

#include "pacecells/names.h"
#include "pacecells/words.h"

#include <algorithm>
#include <map>

namespace pacecells {

namespace {

struct Import {
    std::vector<const LogbookRow*> people; // new ones
    std::vector<const LogbookRow*> tests;
    std::map<std::string, std::size_t> tests_of; // how many new ones, by name
    std::size_t there = 0;                       // tests that are in the logbook already
    ResultsPlan results;
    std::string remarks;

    [[nodiscard]] bool empty() const { return people.empty() && tests.empty() && results.empty(); }
    [[nodiscard]] std::string summary() const {
        return tr("%1 people, %2 tests and %3 results are new; %4 tests are there already.",
                  std::to_string(people.size()), std::to_string(tests.size()), std::to_string(results.fresh()),
                  std::to_string(there));
    }
};

TestCells cells_of(const LogbookRow& row) {
    TestCells cells;
    const std::pair<std::string_view, TableCell*> places[] = {
        {"name", &cells.name},      {"date", &cells.date},         {"what", &cells.what},
        {"time", &cells.time},      {"watts", &cells.watts},       {"calories", &cells.calories},
        {"metres", &cells.metres},  {"reps", &cells.reps},         {"load", &cells.load},
        {"rep_s", &cells.rep_s},    {"recovery", &cells.recovery}, {"critical", &cells.critical},
        {"reserve", &cells.reserve}};
    for (const auto& [key, value] : row)
        for (const auto& [name, cell] : places)
            if (name == key && (value.number || !value.text.empty()))
                *cell = value.number ? TableCell(*value.number) : TableCell(value.text);
    return cells;
}

const std::string& name_in(const LogbookRow& row) { return row.front().second.text; }

Import plan_import(const Logbook& logbook, const ResultTables& tables, const OldWorkbook& old) {
    Import plan;
    plan.remarks = old.remarks;
    std::vector<std::string> names;
    for (const auto row : tables.people.rows())
        names.push_back(tables.people.text(row, "name"));
    const NameList known(names);
    std::map<std::string, bool> sure; // whose tests are taken over
    for (const auto& person : old.people) {
        const auto match = known.find(name_in(person));
        const auto key = fold_name(name_in(person));
        if (match.same.size() > 1) {
            plan.remarks += "\n" + name_in(person) + ": " + tr("left out: in the logbook twice");
        } else if (match.same.empty() && !match.nearly.empty()) {
            plan.remarks += "\n" + name_in(person) + ": " +
                            tr("left out: is this %1 of the logbook? Write the name alike, or add the person there.",
                               names[match.nearly.front()]);
        } else if (sure.emplace(key, true).second && match.same.empty()) {
            plan.people.push_back(&person);
        }
    }
    const double today = today_number();
    auto there = tests_in(logbook, today);
    const auto machines = machine_names(logbook);
    std::vector<std::pair<std::string, std::string>> left_out; // whose, and why
    for (const auto& row : old.tests) {
        if (!sure.contains(fold_name(name_in(row))))
            continue;
        const auto test = read_test(cells_of(row), today, machines);
        if (!test) {
            left_out.push_back({name_in(row), tr(test.error())});
            continue;
        }
        auto& own = there.people[fold_name(test->name)];
        if (std::ranges::any_of(own, [&](const auto& one) { return same_test(one, *test); })) {
            ++plan.there;
            continue;
        }
        own.push_back(*test);
        plan.tests.push_back(&row);
        ++plan.tests_of[name_in(row)];
    }
    for (auto first = left_out.begin(); first != left_out.end();) {
        const auto last = std::find_if(first, left_out.end(), [&](const auto& one) { return one != *first; });
        plan.remarks +=
            "\n" + tr("Tests of %1 left out: %2. %3", first->first, std::to_string(last - first), first->second);
        first = last;
    }
    if (old.results)
        plan.results = plan_results(tables, *old.results);
    return plan;
}

bool agreed(Context& context, const Import& plan) {
    if (!context.interactive()) {
        context.say(plan.summary() + plan.remarks);
        return context.argument("Write", "true") != "false";
    }
    Dialog dialog(context, tr("Import into the logbook"), 500);
    dialog.paragraph(plan.summary(), 1);
    const auto table = dialog.table(tr("~Preview"), {tr("Name"), tr("New tests"), tr("Result")}, 120, {10, 5, 34});
    std::map<std::string, std::vector<std::string>> lines;
    for (const auto* person : plan.people)
        lines[name_in(*person)] = {name_in(*person), "", tr("new in the logbook")};
    for (const auto& [name, count] : plan.tests_of)
        lines.try_emplace(name, std::vector<std::string>{name, "", ""}).first->second[1] = std::to_string(count);
    for (const auto& line : plan.results.lines)
        lines.try_emplace(line.person->name, std::vector<std::string>{line.person->name, "", ""}).first->second[2] =
            line.happens + (line.differences.empty() ? "" : ": " + line.differences);
    Dialog::Rows rows;
    for (const auto& [name, line] : lines)
        rows.push_back(line);
    dialog.on_change([&] { dialog.set_rows(table, rows); });
    if (!plan.remarks.empty())
        dialog.memo("", plan.remarks.substr(1), 60, true);
    if (!plan.empty())
        return dialog.run(tr("~Import"), [] { return true; });
    dialog.show();
    return false;
}

void import_to_logbook(Context& context) {
    const auto place = ask_for_logbook(context);
    if (!place)
        return;
    const auto url = open_file(context, tr("An event workbook or an older tests workbook"),
                               {{tr("Workbooks"), "*.ods;*.xlsx"}, {tr("All files"), "*.*"}});
    if (!url)
        return;
    const Opened opened(context, *url);
    refuse_what_goes_elsewhere(opened.document());
    const Logbook logbook(context, *place, Logbook::Use::write);
    ResultTables tables(logbook);
    const auto old = read_old_workbook(opened.document(), machine_names(logbook));
    auto plan = plan_import(logbook, tables, old);
    if (!agreed(context, plan) || plan.empty())
        return;
    logbook.keep_copy();
    {
        Undo undo(logbook.document(), tr("Import into the logbook"));
        auto tests = logbook.table("tests");
        for (const auto* person : plan.people)
            put(tables.people, tables.people.new_row(), *person);
        for (const auto* test : plan.tests)
            put(tests, tests.new_row(), *test);
        if (!plan.results.empty()) {
            for (auto& line : plan.results.lines)
                line.new_person = false; // added above
            write_results(tables, plan.results, *old.results, true);
        }
        undo.done();
    }
    logbook.store();
}

const Command import_to_logbook_command{"import-to-logbook", import_to_logbook};

} // namespace

} // namespace pacecells
