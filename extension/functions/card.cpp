// ATHLETE.CARD: the lines of a card, from the plan of one person.
#include "card_wording.h"
#include "family.h"
#include "planning.h"
#include "wording.h"

#include "pacecells/words.h"

#include <array>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

struct Asked {
    const Workout& workout;
    const Plan& plan;
    int column;
    Seconds later;

    [[nodiscard]] Cell words(const Said& said) const { return to_cell(spoken(said, workout.settings.language)); }
};
using Line = Cell (*)(const Asked&);

Cell clock_cell(const std::optional<Seconds>& clock, Seconds later) {
    return clock ? to_cell(*clock + later) : Cell{Blank{}};
}

// In the order of the index.
constexpr std::array<Line, 18> lines{
    [](const Asked& to) { return to_cell(card_goal_text(to.workout, to.plan, to.later)); },
    [](const Asked& to) { return to_cell(card_time(to.workout, to.plan, to.later)); },
    [](const Asked& to) { return to_cell(card_time_text(to.workout, to.plan)); },
    [](const Asked& to) { return to_cell(card_rule(to.workout, to.plan, to.later)); },
    [](const Asked& to) { return to_cell(card_sets(to.workout, to.plan)); },
    [](const Asked& to) { return to_cell(card_stations_label(to.workout)); },
    [](const Asked& to) {
        const auto station = card_station(to.workout, to.plan, to.column);
        return station ? to_cell(station->name) : Cell{Blank{}};
    },
    [](const Asked& to) {
        const bool from_start = to.workout.settings.format != Format::intervals;
        const auto station = card_station(to.workout, to.plan, to.column);
        return station ? clock_cell(station->time, from_start ? to.later : Seconds{0}) : Cell{Blank{}};
    },
    [](const Asked& to) { return to_cell(card_table_label(to.workout, to.plan)); },
    [](const Asked& to) {
        const auto column = card_column(to.workout, to.plan, to.column);
        return column ? to_cell(column->heading) : Cell{Blank{}};
    },
    [](const Asked& to) {
        const auto column = card_column(to.workout, to.plan, to.column);
        return column ? clock_cell(column->clock, to.later) : Cell{Blank{}};
    },
    [](const Asked& to) {
        const auto column = card_column(to.workout, to.plan, to.column);
        return column ? clock_cell(column->lower, to.later) : Cell{Blank{}};
    },
    [](const Asked& to) { return to_cell(card_rate(to.workout, to.plan)); },
    [](const Asked& to) { return to_cell(card_rate_text(to.workout, to.plan)); },
    [](const Asked& to) { return to_cell(to.plan.goal->goal.score.text); },
    [](const Asked& to) { return card_sets(to.workout, to.plan).empty() ? Cell{Blank{}} : to.words(say("sets")); },
    [](const Asked& to) { return to.words(say("for %1", to.plan.goal->goal.score.text)); },
    [](const Asked& to) {
        return to.plan.next_down ? to.words(say("for %1", to.plan.next_down->goal.score.text)) : Cell{Blank{}};
    },
};

enum : int { goal_is = 1, time_beside, time_is, rule, of_the_sets, of_the_rate = 13, limits, goal_line };

// An easy or technique plan has an end in place of the goal.
Cell easy_line(int index, const Asked& to) {
    const auto& rounds = to.plan.end_rounds;
    switch (index) {
    case goal_is:
        return to.words(say("plan for the day"));
    case time_beside:
        return to_cell(*to.plan.end + to.later);
    case time_is:
        return to.words(say("stop at this clock"));
    case rule:
        return to.words(say("at a pace at which you can talk"));
    case of_the_rate:
        return rounds ? to.words(say("or after %1 rounds", *rounds)) : Cell{Blank{}};
    case limits:
        return rounds ? to.words(say("whichever comes first")) : Cell{Blank{}};
    case goal_line:
        return to_cell(
            std::string(word(WordList::day_plan, static_cast<std::size_t>(to.plan.day), to.workout.settings.language)));
    default:
        return Blank{};
    }
}

Result<Cell> athlete_card(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Whole index,
                          std::optional<Whole> column, std::optional<AnyTime> later) {
    if (index.value < 1 || index.value > std::ssize(lines))
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", static_cast<int>(lines.size()),
                             index.value);
    const int which = value_or(column, 1);
    if (which < 1)
        return out_of_domain("A column is a whole number from 1; got %1.", which);
    const auto cell = plan_in(workout, tests, keys, athlete);
    if (!cell) { // what is wrong with a row, the roster says
        const auto task = workout_in(workout);
        return task ? Result<Cell>{Cell{Blank{}}} : task.error();
    }
    if (!cell->planned)
        return Cell{Blank{}};
    const auto& plan = cell->planned->plan;
    const Asked asked{*cell->planned->workout, plan, which, value_or(later, Seconds{0})};
    if (plan.end)
        return easy_line(index.value, asked);
    if (!cell->has_goal() || !plan.goal)
        return Cell{Blank{}};
    answer_is_about(index.value == of_the_sets                            ? Fact::sets
                    : index.value == of_the_rate || index.value == limits ? Fact::hold
                    : index.value == goal_line                            ? Fact::goal
                                                                          : Fact::clocks);
    return lines[static_cast<std::size_t>(index.value) - 1](asked);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&athlete_card>(
        "athleteCard", "ATHLETE.CARD", "What a card says, line by line, in the form of the workout.",
        {{"workout", "The block of the workout: the range named workout."},
         {"tests", "Everybody's tests: the range named tests; found by name."},
         {"keys", "The row of keys over the athletes."},
         {"athlete", "The row of the athlete, as wide as the keys."},
         {"index",
          "1 what the goal is, 2 the time beside it, 3 what that is, 4 what to go by, 5 the sets, 6 the label "
          "of the stations, 7 their names, 8 their times, 9 the label of the table of clocks, 10 its headings, "
          "11 its clocks, 12 those of the next goal down, 13 the rate, 14 what there is to do and its limits, "
          "15 the goal, or what the plan for the day is, 16 the label of the sets, 17 that of the clocks, 18 that of "
          "those of the next goal down."},
         {"column", "Of stations and table, from 1.", 1},
         {"later", "How much later than the clock this athlete starts; not at all if left out."}},
        "Empty for a person without a plan, and where the row cannot be read.", practice,
        {"workout;tests;B$1:H$1;B2:H2;4", "Round 2 after 5:47? Take the lower row."}),
};

} // namespace

std::span<const Row> card_rows() { return rows; }

} // namespace pacecells
