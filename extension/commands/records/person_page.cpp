// One person's page, in a file of its own: tests, records, what is out of date, the next test, what results taught. Nobody
// else's data are in it, and a second sheet takes new tests that come back.
#include "curves.h"
#include "day_tests.h"
#include "form.h"
#include "logbook_tests.h"
#include "past_results.h"
#include "prints.h"
#include "store.h"

#include "pacecells/learning.h"
#include "pacecells/table.h"
#include "pacecells/test_history.h"
#include "pacecells/words.h"

#include <com/sun/star/awt/Point.hpp>
#include <com/sun/star/awt/Size.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XProtectable.hpp>

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr Seconds common_length{600}; // the length that powers of all tests are carried over to, for the curve
constexpr std::size_t most_machines = 4;
constexpr std::size_t most_movements = 3;
constexpr sal_Int32 movements_from = 5; // column of the chart's data

struct Page {
    std::string gym;
    LogbookPerson person;
    std::vector<TestEntry> tests;
    std::vector<MachineName> machines;
    std::vector<Machine> owned; // the most used first
    std::vector<Observation> observations;
    double today = 0;
};

// Machines that the gym has, those with most tests in the logbook first.
std::vector<Machine> owned_machines(const Logbook& logbook, const LogbookTests& all) {
    std::vector<std::pair<std::size_t, Machine>> owned;
    const auto table = logbook.table("machines");
    for (const auto row : table.rows()) {
        const auto kind = find_word(WordList::machine, table.text(row, "machine"));
        if (!kind || table.number(row, "count") == 0.0)
            continue;
        std::size_t used = 0;
        for (const auto& [name, tests] : all.people)
            used +=
                static_cast<std::size_t>(std::ranges::count(tests, static_cast<Machine>(*kind), &TestEntry::machine));
        owned.emplace_back(used, static_cast<Machine>(*kind));
    }
    std::ranges::stable_sort(owned, std::greater{}, [](const auto& one) { return one.first; });
    std::vector<Machine> machines;
    std::ranges::transform(owned, std::back_inserter(machines), [](const auto& one) { return one.second; });
    return machines;
}

// --- sentences -----------------------------------------------------------------------------------------------------

// The setting of a person's newest test on a machine that says one: rates at another setting do not compare.
std::string last_damper(const Page& page, std::optional<Machine> machine) {
    const TestEntry* last = nullptr;
    for (const auto& test : page.tests)
        if (machine && test.machine == machine && !test.damper.empty() && (!last || test.date > last->date))
            last = &test;
    return last ? last->damper : std::string();
}

std::string next_of(const Page& page) {
    const auto next =
        next_test(page.tests,
                  {.today = page.today, .plan = page.person.plan, .minor = page.person.minor, .machines = page.owned});
    auto text = tr(next.sentence);
    if (next.any()) {
        const TestEntry subject{.name = {}, .machine = next.machine, .movement = next.movement};
        text = tr("%1: %2", what_of(subject, page.machines), text);
    }
    if (const auto damper = last_damper(page, next.machine); !damper.empty())
        text += " " + tr("Damper %1, as last time.", damper);
    if (next.not_before)
        text += " " + tr("Not before %1, two days after the last maximal test.", date_text(*next.not_before));
    return text;
}

std::vector<std::string> sentences_of(const Page& page) {
    std::vector<std::string> all{next_of(page)};
    if (!page.observations.empty())
        if (const auto learnt = learnt_from(page.observations))
            all.push_back(tr(learnt->sentence));
    for (const auto& misfit : misfits(page.tests, page.today))
        all.push_back(tr("%1: %2", what_of(page.tests[misfit.test], page.machines), tr(misfit.sentence)));
    std::string old;
    for (const auto i : out_of_date(page.tests, page.today))
        old += (old.empty() ? "" : ", ") + what_of(page.tests[i], page.machines);
    if (!old.empty())
        all.push_back(tr("Out of date, so that plans do not use it: %1.", old));
    return all;
}

// --- the table -------------------------------------------------------------------------------------------------------

struct TestLine {
    const TestEntry* newest;
    const TestEntry* best;
};

std::vector<TestLine> lines_of(const Page& page) {
    std::vector<TestLine> lines;
    for (const auto i : records(page.tests, page.today)) {
        TestLine line{&page.tests[i], &page.tests[i]};
        for (const auto& test : page.tests)
            if (one_kind(test, *line.best) && test.date > line.newest->date)
                line.newest = &test;
        lines.push_back(line);
    }
    std::ranges::stable_sort(lines,
                             [](const TestLine& a, const TestLine& b) { return a.newest->date > b.newest->date; });
    return lines;
}

// How many of the rows of a range are used; the others go, and their height with them.
sal_Int32 hide_rest(const Range& cells, sal_Int32 used) {
    const auto where = address(cells);
    const auto rows = where.EndRow - where.StartRow + 1;
    sal_Int32 height = 0;
    for (auto row = used; row < rows; ++row) {
        const auto one = need<css::table::XColumnRowRange>(cells->getCellRangeByPosition(0, row, 0, row))->getRows();
        sal_Int32 its = 0;
        get_property(one, "Height") >>= its;
        height += its;
        set_property(one, "IsVisible", Any(false));
    }
    return height;
}

// Gives the rows of the curves so much more height.
void grow(const Range& cells, sal_Int32 more) {
    const auto where = address(cells);
    const auto rows = where.EndRow - where.StartRow + 1;
    for (sal_Int32 row = 0; row < rows; ++row) {
        const auto one = need<css::table::XColumnRowRange>(cells->getCellRangeByPosition(0, row, 0, row))->getRows();
        sal_Int32 its = 0;
        get_property(one, "Height") >>= its;
        set_property(one, "Height", Any(its + more / rows));
    }
}

// Gives how many rows were filled.
sal_Int32 put_table(const Range& cells, const Page& page) {
    sal_Int32 row = 0;
    for (const auto& [newest, best] : lines_of(page)) {
        if (row == address(cells).EndRow - address(cells).StartRow + 1)
            return row; // the oldest stay out
        put_text(cells, 0, row, what_of(*newest, page.machines));
        put_text(cells, 1, row, result_text(*newest));
        put_number(cells, 2, row, newest->date);
        if (counts_on(*newest, page.today))
            put_number(cells, 3, row, newest->date + 7 * usual_test_weeks);
        else
            put_text(cells, 3, row, tr("out of date"));
        put_text(cells, 4, row, result_text(*best));
        put_number(cells, 5, row, best->date);
        ++row;
    }
    return row;
}

// --- the curves ------------------------------------------------------------------------------------------------------

void add_point(std::vector<Curve>& curves, const std::string& name, double day, double value) {
    auto curve = std::ranges::find(curves, name, &Curve::name);
    if (curve == curves.end())
        curve = curves.insert(curve, {name, {}});
    curve->points.emplace_back(day, std::round(10 * value) / 10);
}

// Those with most points, where there is more than one point to draw a line through.
void keep_longest(std::vector<Curve>& curves, std::size_t most) {
    std::erase_if(curves, [](const Curve& curve) { return curve.points.size() < 2; });
    std::ranges::stable_sort(curves, std::greater{}, [](const Curve& curve) { return curve.points.size(); });
    curves.resize(std::min(curves.size(), most), Curve{});
}

std::vector<Curve> machine_curves(const Page& page) {
    std::vector<Curve> curves;
    for (const auto& test : page.tests) {
        if (!test.machine || test.kind == TestKind::known || test.machine == Machine::armbike)
            continue;
        const auto power = power_of(test);
        const auto held = power ? held_by_one_test(*power, test.time, common_length) : Result<Held>{power.error()};
        if (held)
            add_point(curves, what_of(test, page.machines), test.date, held->power.value());
    }
    keep_longest(curves, most_machines);
    return curves;
}

std::vector<Curve> movement_curves(const Page& page) {
    std::vector<Curve> curves;
    for (const auto& test : page.tests) {
        if (test.kind == TestKind::longest_set)
            add_point(curves, tr("%1, reps", test.movement), test.date, test.amount);
        else if (test.kind == TestKind::load)
            add_point(curves, tr("%1, kg", test.movement), test.date, maximum_of(test));
    }
    keep_longest(curves, most_movements);
    return curves;
}

void put_curves(const Document& document, const Page& page) {
    const auto data = named_range(document, "person_data");
    const auto area = named_range(document, "person_chart");
    css::awt::Point corner;
    css::awt::Size size;
    get_property(area, "Position") >>= corner;
    get_property(area, "Size") >>= size;
    const auto machines = machine_curves(page);
    const auto movements = movement_curves(page);
    constexpr sal_Int32 between = 300;
    constexpr sal_Int32 least_height = 5500; // of one above the other
    const sal_Int32 height = size.Height - between;
    const bool both = !machines.empty() && !movements.empty();
    const bool stacked = both && height >= 2 * least_height + between;
    const sal_Int32 half_width = both && !stacked ? (size.Width - between) / 2 : size.Width;
    const sal_Int32 half_height = stacked ? (height - between) / 2 : height;
    if (!machines.empty())
        draw_curves(data, "machines", tr("Watts held for 10:00, as each test says"), machines,
                    {corner.X, corner.Y, half_width, half_height});
    const auto where = address(data);
    const auto beside = data->getCellRangeByPosition(movements_from, 0, where.EndColumn - where.StartColumn,
                                                     where.EndRow - where.StartRow);
    if (!movements.empty())
        draw_curves(beside, "movements", tr("Longest sets, and maxima of loads"), movements,
                    {both && !stacked ? corner.X + half_width + between : corner.X,
                     stacked ? corner.Y + half_height + between : corner.Y, half_width, half_height});
}

// --- the file --------------------------------------------------------------------------------------------------------

void unprotect(const Document& document, bool on) {
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    for (sal_Int32 i = 0; i < sheets->getCount(); ++i) {
        const Reference<css::util::XProtectable> sheet(sheets->getByIndex(i), css::uno::UNO_QUERY_THROW);
        if (on)
            sheet->unprotect(rtl::OUString());
        else
            sheet->protect(rtl::OUString());
    }
}

void fill(const Document& document, const Page& page, bool for_print) {
    unprotect(document, true);
    put_text(named_range(document, "person_name"), 0, 0, page.person.name);
    const auto gym = page.gym.empty() ? std::string() : page.gym + ": ";
    put_text(named_range(document, "person_stamp"), 0, 0, gym + tr("tests as of %1", date_text(page.today)));
    const auto said = named_range(document, "person_said");
    sal_Int32 row = 0;
    for (const auto& sentence : sentences_of(page))
        if (row <= address(said).EndRow - address(said).StartRow)
            put_text(said, 0, row++, sentence);
    auto freed = hide_rest(said, row);
    const auto tests = named_range(document, "person_tests");
    freed += hide_rest(tests, std::max(put_table(tests, page), sal_Int32(1)));
    grow(named_range(document, "person_chart"), freed);
    put_curves(document, page);
    if (for_print) {
        const auto sheets = document->getSheets();
        const auto names = sheets->getElementNames();
        for (sal_Int32 i = 1; i < names.getLength(); ++i)
            sheets->removeByName(names[i]);
        return;
    }
    put_text(named_range(document, "day_gym"), 0, 0, page.gym);
    const DayTable table(document);
    for (sal_Int32 i = 0; i < table.rows(); ++i)
        table.put(i, "name", page.person.name);
    unprotect(document, false);
}

Page page_of(const Logbook& logbook, const LogbookPerson& person, double today) {
    Page page;
    page.gym = logbook.gym();
    page.person = person;
    page.today = today;
    page.machines = machine_names(logbook);
    const auto all = tests_in(logbook, today_number());
    if (const auto own = all.people.find(fold_name(page.person.name)); own != all.people.end())
        page.tests = own->second;
    std::ranges::stable_sort(page.tests, {}, &TestEntry::date);
    page.owned = owned_machines(logbook, all);
    const auto observations = observations_in(logbook.table("results"));
    if (const auto own = observations.find(fold_name(page.person.name)); own != observations.end())
        page.observations = own->second;
    return page;
}

// Nothing where the person cancels.
std::optional<Page> asked(Context& context, const Logbook& logbook) {
    const auto today = today_number();
    const auto people = people_on(logbook, today);
    if (people.empty())
        throw Refusal{tr("There is nobody in the logbook yet.")};
    Form form(context, tr("Person's page"));
    const auto names = names_of(people);
    ask_for_person(context, form, names);
    std::optional<Page> page;
    const bool made = form.fill(tr("~Make the page"), [&](const Form& typed) {
        page = page_of(logbook, people[person_in(typed, names)], today);
    });
    return made ? page : std::nullopt;
}

void person_page(Context& context) {
    const auto place = ask_for_logbook(context);
    if (!place)
        return;
    std::optional<Page> page;
    {
        const Logbook logbook(context, *place, Logbook::Use::read);
        page = asked(context, logbook);
    }
    if (!page)
        return;
    const auto url = save_file(context, tr("Person's page"), page->person.name + ".pdf",
                               {{tr("PDF, to print or to send"), "*.pdf"}, {tr("Spreadsheet (.ods)"), "*.ods"}});
    if (!url)
        return;
    const bool pdf = url->ends_with(".pdf");
    if (!pdf && !url->ends_with(".ods"))
        throw Refusal{tr("The file name must end in .pdf or .ods.")};
    const auto document =
        load(context, template_url(context, "person.ots"), {{"AsTemplate", Any(true)}, {"Hidden", Any(true)}});
    try {
        const auto sheet = need<css::sheet::XSpreadsheetDocument>(document);
        fill(sheet, *page, pdf);
        if (pdf) {
            stamp_prints(sheet, *parse_language(interface_language()));
            store_pdf(context, sheet, *url, page->person.name);
        } else {
            store_whole(context, need<css::frame::XStorable>(sheet), *url,
                        {{"FilterName", Any(rtl::OUString::createFromAscii("calc8"))}});
        }
    } catch (...) {
        need<css::util::XCloseable>(document)->close(true);
        throw;
    }
    need<css::util::XCloseable>(document)->close(true);
    context.say(tr("%1's page: %2", page->person.name, shown_path(*url)));
}

const Command person_page_command{"person-page", person_page};

} // namespace

} // namespace pacecells
