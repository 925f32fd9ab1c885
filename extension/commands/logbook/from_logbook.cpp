#include "from_logbook.h"

#include "logbook_place.h"
#include "logbook_tests.h"
#include "past_results.h"
#include "tests_plan.h"

#include "pacecells/athlete.h"
#include "pacecells/test_history.h"
#include "pacecells/words.h"

#include <algorithm>
#include <set>

namespace pacecells {

namespace {

// --- people ------------------------------------------------------------------------------------------------------

struct Person {
    std::string name, division, group, plan;
    bool judge = false;
    bool minor = false;
    std::optional<double> consent; // the day of it
};

// As the event writes a plan; empty where it is full.
std::string plan_word(DayPlan plan, const EventCells& event) {
    return plan == DayPlan::full ? std::string() : event.word("list_plan", static_cast<std::size_t>(plan));
}

// Who took part in the event with the latest date.
std::set<std::string> people_of_last_event(const Logbook& logbook) {
    const auto results = logbook.table("results");
    std::set<std::string> names;
    double last = 0;
    for (const auto row : results.rows()) {
        const double date = results.number(row, "date").value_or(0);
        if (date > last) {
            last = date;
            names.clear();
        }
        if (date == last)
            names.insert(fold_name(results.text(row, "name")));
    }
    return names;
}

// All of them, or those of these names.
std::vector<Person> people_in(const Logbook& logbook, const std::optional<std::set<std::string>>& wanted,
                              const EventCells& event, double day) {
    std::vector<Person> people;
    const auto table = logbook.table("people");
    const auto yes = [&](sal_Int32 row, std::string_view key) {
        return find_word(WordList::yes, table.text(row, key)).has_value();
    };
    for (const auto row : table.rows()) {
        Person person;
        person.name = table.text(row, "name");
        if (person.name.empty() || (wanted && !wanted->contains(fold_name(person.name))))
            continue;
        person.division = table.text(row, "division");
        person.group = table.text(row, "group");
        person.plan = plan_word(plan_on(day, table.text(row, "plan"), table.number(row, "until")), event);
        person.judge = yes(row, "judge");
        person.minor = yes(row, "minor");
        person.consent = table.number(row, "consent");
        people.push_back(std::move(person));
    }
    return people;
}

// As the list spells it; empty where it is none of the list.
std::string in_list(const std::vector<std::string>& list, const std::string& text) {
    const auto found = std::ranges::find_if(list, [&](const auto& one) { return same_name(one, text); });
    return text.empty() || found == list.end() ? std::string() : *found;
}

// --- tests -------------------------------------------------------------------------------------------------------

std::vector<std::optional<double>> machine_values(const MachineTests& tests) {
    std::vector<std::optional<double>> values(of_machine);
    if (tests.values) {
        values[0] = tests.values->critical.value();
        values[1] = tests.values->reserve.value();
    }
    values[date_of_test] = tests.date;
    if (tests.time && tests.calories) {
        values[date_of_test + 1] = tests.time->value() / seconds_per_day;
        values[date_of_test + 2] = tests.calories->value();
    }
    return values;
}

std::vector<std::optional<double>> movement_values(const MovementTests& tests) {
    std::vector<std::optional<double>> values(of_movement);
    if (tests.longest)
        values[0] = tests.longest->value();
    values[1] = tests.maximum;
    if (tests.rep)
        values[2] = tests.rep->value();
    values[3] = tests.recovery;
    return values;
}

// As a file of results has them, so that they go the same way into the event.
ResultFile results_of(const std::vector<Person>& people, const LogbookTests& tests, const EventCells& event, double day,
                      double weeks) {
    ResultFile file;
    for (const auto& movement : event.texts("workout.stations.movement"))
        if (!movement.empty() && in_list(file.movements, movement).empty())
            file.movements.push_back(movement);
    for (const auto& one : people) {
        const auto found = tests.people.find(fold_name(one.name));
        if (found == tests.people.end())
            continue;
        auto person = person_with(one.name, file);
        for (std::size_t m = 0; m < machine_count; ++m)
            person.machines[m].values =
                machine_values(machine_tests(found->second, static_cast<Machine>(m), day, weeks));
        for (std::size_t k = 0; k < file.movements.size(); ++k)
            person.movements[k].values = movement_values(movement_tests(found->second, file.movements[k], day, weeks));
        file.people.push_back(std::move(person));
    }
    return file;
}

double day_of(const EventCells& event) { return event.number("workout.date").value_or(today_number()); }

// A column of the roster that has no name of its own, by its key.
std::optional<sal_Int32> roster_column(const EventCells& event, std::string_view key) {
    const auto roster = event.at("roster");
    const auto where = address(roster);
    const auto keys = values_of(roster->getCellRangeByPosition(0, 0, where.EndColumn - where.StartColumn, 0));
    for (sal_Int32 i = 0; i < keys[0].getLength(); ++i)
        if (text_of(keys[0][i]) == key)
            return i;
    return std::nullopt;
}

// What the roster has blank in a row. What is to be told, each in a line.
std::string write_person(const EventCells& event, const Person& person, sal_Int32 row) {
    const auto text = [&](const char* column, const std::string& value) {
        if (const auto cells = event.find(column); cells.is() && !value.empty() && blank(event.values(column)[row][0]))
            put_text(cells, 0, row, value);
    };
    const auto division = in_list(event.texts("list_divisions"), person.division);
    text("roster_division", division);
    text("roster_plan", person.plan);
    text("roster_group", in_list(event.texts("list_groups"), person.group));
    constexpr sal_Int32 first_row = 2; // below keys and headings
    const auto roster = event.at("roster");
    if (const auto column = roster_column(event, "judge"); column && person.judge)
        put_text(roster, *column, first_row + row, event.word("list_yes", 0));
    if (const auto column = roster_column(event, "minor"); column && person.minor)
        put_text(roster, *column, first_row + row, event.word("list_yes", 0));
    if (const auto column = roster_column(event, "consent"); column && person.consent)
        put_number(roster, *column, first_row + row, *person.consent);
    std::string remarks;
    if (division.empty() && !person.division.empty())
        remarks += "\n" + tr("%1: this event has no division %2, so it stays blank.", person.name, person.division);
    if (person.minor && !person.consent)
        remarks += "\n" + tr("%1 is a minor, and no guardian's consent is noted in the logbook.", person.name);
    return remarks;
}

struct TakenTests {
    std::size_t people = 0;
    std::string remarks;
};

TakenTests take_tests(const EventCells& event, const Logbook& logbook, const std::vector<Person>& people) {
    const double weeks = event.number("workout.test_weeks").value_or(usual_test_weeks);
    const auto tests = tests_in(logbook, today_number());
    const auto plan = plan_tests(event, results_of(people, tests, event, day_of(event), weeks));
    if (!plan.empty())
        write_tests(event, plan);
    std::vector<std::string> names;
    std::ranges::transform(people, std::back_inserter(names), &Person::name);
    write_past_results(event, logbook, names);
    TakenTests taken;
    for (const auto& line : plan.lines)
        taken.people += line.happens == tr("new") || line.happens == tr("changed") ? 1 : 0;
    for (const auto& unread : tests.unread)
        if (std::ranges::any_of(people, [&](const auto& person) { return same_name(person.name, unread.name); }))
            taken.remarks += "\n" + tr("A test of %1 in the logbook is not used: %2", unread.name, unread.why);
    return taken;
}

} // namespace

std::unique_ptr<Logbook> logbook_to_take_from(Context& context) {
    const auto place = logbook_place(context);
    if (!place)
        return nullptr;
    try {
        return std::make_unique<Logbook>(context, *place, Logbook::Use::read);
    } catch (const Refusal& refusal) {
        context.say(refusal.sentence);
        return nullptr;
    }
}

Offer offer_of(const Logbook& logbook) {
    Offer offer;
    offer.gym = logbook.gym();
    const auto people = logbook.table("people");
    std::vector<std::pair<std::string, std::size_t>> divisions;
    for (const auto row : people.rows()) {
        if (people.text(row, "name").empty())
            continue;
        ++offer.people;
        const auto division = people.text(row, "division");
        const auto found =
            std::ranges::find_if(divisions, [&](const auto& one) { return same_name(one.first, division); });
        if (found != divisions.end())
            ++found->second;
        else if (!division.empty())
            divisions.emplace_back(division, 1);
    }
    std::ranges::stable_sort(divisions, std::ranges::greater{}, [](const auto& one) { return one.second; });
    for (const auto& [name, count] : divisions)
        offer.divisions.push_back(name);
    const auto movements = logbook.table("movements");
    for (const auto row : movements.rows())
        if (auto name = movements.text(row, "name"); !name.empty())
            offer.movements.push_back(std::move(name));
    return offer;
}

std::string take_people(const EventCells& event, const Logbook& logbook, WhichPeople which) {
    std::optional<std::set<std::string>> wanted;
    if (which == WhichPeople::last_event)
        wanted = people_of_last_event(logbook);
    else if (which == WhichPeople::nobody)
        wanted.emplace();
    const auto people = people_in(logbook, wanted, event, day_of(event));
    const auto names = event.values("roster_name");
    const auto there = rows_by_name(names);
    std::string remarks;
    std::size_t taken = 0;
    std::size_t no_row = 0;
    sal_Int32 row = 0;
    std::set<std::string> seen;
    for (const auto& person : people) {
        const auto key = fold_name(person.name);
        if (there.contains(key))
            continue;
        if (!seen.insert(key).second) {
            remarks +=
                "\n" + tr("%1 is in the logbook twice: taken once. Add a letter to one of the names.", person.name);
            continue;
        }
        while (row < names.getLength() && !blank(names[row][0]))
            ++row;
        if (row == names.getLength()) {
            ++no_row;
            continue;
        }
        put_text(event.at("roster_name"), 0, row, person.name);
        remarks += write_person(event, person, row);
        ++taken;
        ++row;
    }
    const auto tests = take_tests(event, logbook, people);
    auto said = tr("%1 people from the logbook, %2 of them with tests that count.", std::to_string(taken),
                   std::to_string(tests.people));
    if (no_row > 0)
        said += " " + tr("No free row for %1.", std::to_string(no_row));
    return said + remarks + tests.remarks;
}

std::string complete_people(const EventCells& event, const Logbook& logbook, const std::vector<std::string>& names) {
    std::set<std::string> wanted;
    const auto tested = rows_by_name(event.values("tests_name"));
    for (const auto& name : names)
        if (!tested.contains(fold_name(name))) // whose tests are typed already
            wanted.insert(fold_name(name));
    const auto people = people_in(logbook, wanted, event, day_of(event));
    const auto rows = rows_by_name(event.values("roster_name"));
    std::string remarks;
    std::size_t known = 0;
    std::set<std::string> seen;
    for (const auto& person : people)
        if (const auto found = rows.find(fold_name(person.name));
            found != rows.end() && found->second.size() == 1 && seen.insert(found->first).second) {
            remarks += write_person(event, person, found->second.front());
            ++known;
        }
    if (known == 0)
        return {};
    const auto tests = take_tests(event, logbook, people);
    return tr("%1 of them are in the logbook, %2 with tests that count.", std::to_string(known),
              std::to_string(tests.people)) +
           remarks + tests.remarks;
}

} // namespace pacecells
