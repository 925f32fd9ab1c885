// HEAT.TEAM: the people of a team. Who has the same text in the column "team" of the roster is in one team.
#include "card_wording.h"
#include "family.h"
#include "planning.h"
#include "wording.h"

#include "pacecells/team.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

struct Person {
    int row; // of the people, from 0
    std::string name;
    std::shared_ptr<const Planned> planned; // none: the row cannot be read, and says why
    [[nodiscard]] bool starts() const { return !planned || planned->plan.day != DayPlan::not_today; }
    [[nodiscard]] bool has_plan() const { return planned && planned->plan.planned; }
};

std::string first_name(const std::string& name) { return name.substr(0, name.find(' ')); }

// Of those who start: "Bela + Goran".
std::string names_of(const std::vector<Person>& people, bool first_names) {
    std::string text;
    for (const auto& one : people)
        if (one.starts())
            text += (text.empty() ? "" : " + ") + (first_names ? first_name(one.name) : one.name);
    return text;
}

// What is wrong with a team; each sentence names it.
std::string faults_of(const Workout& workout, const std::string& team, const std::vector<Person>& people) {
    const auto& settings = workout.settings;
    std::vector<Said> faults;
    const auto starting = std::ranges::count_if(people, &Person::starts);
    if (starting != settings.team)
        faults.push_back(say("%1: people who start: %2; the workout is for teams of %3.", quoted(team),
                             static_cast<int>(starting), settings.team));
    const Person* goal = nullptr;
    const Person* other_goal = nullptr;
    const Person* other_amounts = nullptr;
    const Plan* first = nullptr;
    for (const auto& one : people) {
        if (!one.starts())
            faults.push_back(say("%1: %2 does not start today.", quoted(team), one.name));
        else if (!one.has_plan())
            faults.push_back(say("%1: %2 has no full plan; the others are planned without.", quoted(team), one.name));
        if (!one.starts() || !one.has_plan())
            continue;
        const auto& typed = one.planned->athlete.goal;
        if (typed && goal && *typed != *goal->planned->athlete.goal)
            other_goal = &one;
        if (typed && !goal)
            goal = &one;
        const auto& plan = one.planned->plan;
        first = first ? first : &plan;
        for (const auto& station : workout.stations)
            if (station.amount(plan.division, 1, workout.rounds(plan.division)) !=
                station.amount(first->division, 1, workout.rounds(first->division)))
                other_amounts = &one;
    }
    if (other_goal)
        faults.push_back(say("%1: two goals are entered; that of %2 counts.", quoted(team), goal->name));
    if (other_amounts)
        faults.push_back(
            say("%1: the division of %2 has other amounts, so the clocks on the cards of this team differ.",
                quoted(team), other_amounts->name));
    std::string text;
    for (const auto& one : faults)
        text += (text.empty() ? "" : " ") + spoken(one, settings.language);
    return text;
}

// "Bela: Row 20 (1:10), Wall balls 8-7 (0:24)", of everybody.
std::string all_turns(const Workout& workout, const std::vector<const Person*>& people,
                      const std::vector<TeamPart>& parts) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        auto athlete = people[i]->planned->athlete;
        join(athlete, parts[i]);
        text += (text.empty() ? "" : " · ") + spoken(say("%1: %2", first_name(people[i]->name),
                                                         turns_text(workout, plan_for(workout, athlete), ", ")),
                                                     workout.settings.language);
    }
    return text;
}

// Where a column stands, by its key.
std::optional<int> column_of(const Table& keys, std::string_view key) {
    for (std::size_t column = 0; column < keys.columns; ++column)
        if (fold(cell_text(keys.at(0, column))) == key)
            return static_cast<int>(column);
    return {};
}

// The people are an object, so that where the workout is not for teams only one row of them is read.
Result<Cell> heat_team(AreaPointer workout, AreaPointer tests, RawCells keys, AreaPointer people, Whole row,
                       std::optional<Whole> index) {
    enum { lane = 1, names, first_names, turns, part, faults, on_card, card_turns };
    const int which = value_or(index, lane);
    if (which < lane || which > card_turns)
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", static_cast<int>(card_turns), which);
    if (row.value < 1 || row.value > people->rows())
        return out_of_domain("The row is a whole number from 1 to %1; got %2.", people->rows(), row.value);
    if (keys.rows != 1 || keys.columns != people->columns())
        return out_of_domain("Keys and people need ranges of equal width.");
    const auto key_row = table_of(keys);
    const auto name = column_of(key_row, "name");
    const auto team = column_of(key_row, "team");
    if (!name)
        return out_of_domain("The key %1 is missing over the roster. Was a column deleted?", quoted("name"));
    const int self = row.value - 1;
    const auto own_row = people->part(self, 0, 1, people->columns());
    if (!own_row)
        return own_row.error();
    const auto text_in = [](const Table& table, int r, int column) {
        return cell_text(table.at(static_cast<std::size_t>(r), static_cast<std::size_t>(column)));
    };
    const auto own_name = text_in(*own_row, 0, *name);
    if (own_name.empty())
        return Cell{Blank{}};
    const auto alone = which == lane || which == names || which == on_card ? to_cell(own_name) : Cell{Blank{}};
    const auto read = known_workout(workout);
    if (!read)
        return read.error();
    if (!read->workout)
        return alone; // what is wrong, the sheet Workout says
    const Workout& task = **read->workout;
    const auto label = team ? text_in(*own_row, 0, *team) : std::string();
    if (task.settings.team < 2 || label.empty())
        return alone;
    const auto table = people->all();
    if (!table)
        return table.error();
    std::vector<Person> all;
    for (int r = 0; r < people->rows(); ++r) {
        const auto called = text_in(*table, r, *name);
        if (called.empty() || !same_name(text_in(*table, r, *team), label))
            continue;
        const auto first = table->cells.begin() + static_cast<std::ptrdiff_t>(r) * people->columns();
        const auto cell = plan_in(workout, tests, key_row, {1, table->columns, {first, first + people->columns()}});
        all.push_back({r, called, cell ? cell->planned : nullptr});
    }
    if (which == lane) { // a number alone tells nobody who that is
        const bool number = label.find_first_not_of("0123456789") == std::string::npos;
        const auto first = std::ranges::find_if(all, &Person::starts);
        return first != all.end() && first->row == self ? to_cell(number ? label + ": " + names_of(all, true) : label)
                                                        : Cell{Blank{}};
    }
    if (which == faults)
        return to_cell(faults_of(task, label, all));
    if (which == names)
        return to_cell(spoken(say("%1: %2", label, names_of(all, false)), task.settings.language));
    if (which == first_names)
        return to_cell(names_of(all, true));
    if (which == on_card)
        return to_cell(own_name + " (" + names_of(all, true) + ")");
    std::vector<Member> members;
    std::vector<const Person*> planned;
    for (const auto& one : all)
        if (one.has_plan()) { // who does not start has none
            members.push_back({&one.planned->athlete, &one.planned->plan});
            planned.push_back(&one);
        }
    const auto parts = team_parts(task, members);
    if (which == turns)
        return to_cell(all_turns(task, planned, parts));
    const auto own = std::ranges::find(planned, self, &Person::row);
    const auto place = static_cast<std::size_t>(own - planned.begin());
    if (place >= parts.size())
        return Cell{Blank{}};
    if (which == part)
        return to_cell(team_part_text(parts[place]));
    const auto text = all_turns(task, planned, parts);
    return fits_card(text) ? to_cell(text) : Cell{Blank{}};
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&heat_team>(
        "heatTeam", "HEAT.TEAM", "The people of a team: its name, who is in it, who does what, how long a turn is.",
        {{"workout", "The block of the workout: the range named workout."},
         {"tests", "Everybody's tests: the range named tests; found by name."},
         {"keys", "The row of keys over the athletes."},
         {"people", "The rows of all athletes, as wide as the keys."},
         {"row", "The row of the person, from 1."},
         {"index",
          "1 what the lane is called, with the first person of the team, else nothing; 2 the team with all names; 3 "
          "first "
          "names; 4 who does what and how long a turn is; 5 what the plan of the person must know of the "
          "team, for the column team_plan; 6 what is wrong with the team; 7 the name on the person's card; 8 who does "
          "what, "
          "where the card has room for it.",
          1}},
        "People with the same text in the column team are one team. Without a team, and where the workout is not for "
        "teams, the lane is called by the person.",
        practice, {"workout;tests;B$1:H$1;B2:H4;1", "Ilka Moorvane"}),
};

} // namespace

std::span<const Row> team_rows() { return rows; }

} // namespace pacecells
