// A sheet for the gym's shared computer: today's people and today's tests only, nobody's history.
#include "day_tests.h"
#include "dialog.h"
#include "logbook_tests.h"
#include "store.h"

#include "pacecells/delimited.h"
#include "pacecells/table.h"
#include "pacecells/text.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XProtectable.hpp>

#include <algorithm>

namespace pacecells {

namespace {

using css::uno::Any;

struct TestDay {
    double day = 0;
    std::vector<DayTest> tests;
    std::vector<std::string> names;
};

std::vector<std::string> parts_of(const std::string& text, std::string_view between) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    while (from <= text.size()) {
        const auto to = std::min(text.find_first_of(between, from), text.size());
        if (const auto part = trim(std::string_view{text}.substr(from, to - from)); !part.empty())
            parts.emplace_back(part);
        from = to + 1;
    }
    return parts;
}

// Who may test today: everybody on the full plan who is no minor.
std::string usual_names(const std::vector<LogbookPerson>& people) {
    std::string names;
    for (const auto& person : people)
        if (person.plan == DayPlan::full && !person.minor)
            names += person.name + "\n";
    return names;
}

struct Known { // of the logbook
    std::string gym;
    std::vector<LogbookPerson> people;
    std::vector<MachineName> machines;
    std::vector<std::string> movements;
};

double read_day(const std::string& text) {
    const auto day = typed_date(text);
    if (!day)
        throw Refusal{tr("The day cannot be read. Write it such as 2026-03-14.")};
    return *day;
}

std::vector<DayTest> read_tests(const std::string& text, const Known& known) {
    std::vector<DayTest> tests;
    for (const auto& part : parts_of(text, ";\n"))
        tests.push_back(read_day_test(part, known.machines, known.movements));
    if (tests.empty())
        throw Refusal{tr("Say what is tested, such as: %1", day_tests_example(known.machines))};
    return tests;
}

std::vector<std::string> read_names(const std::string& text, const Known& known) {
    const auto all = names_of(known.people);
    std::vector<std::string> names;
    for (const auto& part : parts_of(text, ";\n"))
        if (const auto& name = all[find_person(all, part)]; std::ranges::find(names, name) == names.end())
            names.push_back(name);
    if (names.empty())
        throw Refusal{tr("There is nobody to test.")};
    return names;
}

// Nothing where the person cancels.
std::optional<TestDay> asked(Context& context, const Known& known) {
    const auto today = date_text(today_number());
    TestDay day;
    if (!context.interactive()) {
        day.day = read_day(context.argument("Day", today));
        day.tests = read_tests(context.argument("Tests", ""), known);
        day.names = read_names(context.argument("Names", usual_names(known.people)), known);
        return day;
    }
    Dialog dialog(context, tr("Test day"), 460, 40, 180);
    const auto date = dialog.entry(tr("~Day"), with_date_order(today));
    const auto tests = dialog.entry(tr("~Tests"), "", tr("such as %1", day_tests_example(known.machines)));
    const auto names = dialog.memo(tr("~Names, one per line; minors and people on another plan are left out"),
                                   usual_names(known.people), 120, false);
    const auto read = [&](const Dialog::Field& field, const auto& reader) {
        try {
            reader(dialog.text(field));
            return true;
        } catch (const Refusal& refusal) {
            return dialog.refuse(field, refusal.sentence);
        }
    };
    const bool made = dialog.run(tr("~Make the sheet"), [&] {
        return read(date, [&](const std::string& text) { day.day = read_day(text); }) &&
               read(tests, [&](const std::string& text) { day.tests = read_tests(text, known); }) &&
               read(names, [&](const std::string& text) { day.names = read_names(text, known); });
    });
    return made ? std::optional(day) : std::nullopt;
}

void fill_row(const DayTable& table, sal_Int32 row, const std::string& name, const DayTest& test) {
    table.put(row, "name", name);
    table.put(row, "what", test.what);
    if (test.machine)
        table.put(row, "machine",
                  std::string(words_of(WordList::machine)[static_cast<std::size_t>(*test.machine)].key));
    if (test.time)
        table.put(row, "time", test.time->value() / seconds_per_day);
    if (test.metres)
        table.put(row, "metres", *test.metres);
    if (test.calories)
        table.put(row, "calories", *test.calories);
    for (const auto& key : columns_for(!test.machine))
        table.close(row, key);
    if (test.machine == Machine::armbike)
        for (const auto* key : {"metres", "watts"})
            table.close(row, key);
}

void fill(const Document& document, const TestDay& day, const std::string& gym) {
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    const auto sheet = css::uno::Reference<css::util::XProtectable>(sheets->getByIndex(0), css::uno::UNO_QUERY_THROW);
    sheet->unprotect(rtl::OUString());
    put_text(named_range(document, "day_gym"), 0, 0, gym);
    put_number(named_range(document, "day_date"), 0, 0, day.day);
    const DayTable table(document);
    const auto needed = static_cast<sal_Int32>(day.names.size() * day.tests.size());
    if (needed > table.rows())
        throw Refusal{tr("These are %1 rows, and the sheet has %2. Take fewer people or tests.", std::to_string(needed),
                         std::to_string(table.rows()))};
    sal_Int32 row = 0;
    for (const auto& test : day.tests)
        for (const auto& name : day.names)
            fill_row(table, row++, name, test);
    // Rows without anybody are neither seen nor printed.
    const auto where = address(named_range(document, "day_tests"));
    const auto from = where.StartRow + 2 + row;
    if (from <= where.EndRow) {
        const auto rest = css::uno::Reference<css::table::XCellRange>(sheet, css::uno::UNO_QUERY_THROW)
                              ->getCellRangeByPosition(0, from, 0, where.EndRow);
        set_property(need<css::table::XColumnRowRange>(rest)->getRows(), "IsVisible", Any(false));
    }
    sheet->protect(rtl::OUString());
}

void test_day(Context& context) {
    const auto place = ask_for_logbook(context);
    if (!place)
        return;
    Known known;
    {
        const Logbook logbook(context, *place, Logbook::Use::read);
        known = {logbook.gym(), people_on(logbook, today_number()), machine_names(logbook), movements_in(logbook)};
    }
    if (known.people.empty())
        throw Refusal{tr("There is nobody in the logbook yet.")};
    const auto day = asked(context, known);
    if (!day)
        return;
    const auto url = save_file(context, tr("Test day"), tr("Test day") + " " + date_text(day->day) + ".ods",
                               {{tr("Spreadsheet (.ods)"), "*.ods"}});
    if (!url)
        return;
    const auto document =
        load(context, template_url(context, "testday.ots"), {{"AsTemplate", Any(true)}, {"Hidden", Any(true)}});
    try {
        const auto sheet = need<css::sheet::XSpreadsheetDocument>(document);
        fill(sheet, *day, known.gym);
        store_whole(context, need<css::frame::XStorable>(sheet), *url, {{"FilterName", Any(rtl::OUString("calc8"))}});
    } catch (...) {
        need<css::util::XCloseable>(document)->close(true);
        throw;
    }
    need<css::util::XCloseable>(document)->close(true);
    if (context.interactive())
        load(context, *url, {});
    context.say(tr("%1 people, %2 tests each: %3. Take them into the logbook when it is filled.",
                   std::to_string(day->names.size()), std::to_string(day->tests.size()), shown_path(*url)));
}

const Command test_day_command{"test-day", test_day};

} // namespace

} // namespace pacecells
