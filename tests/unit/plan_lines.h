// A case of a workout and an athlete, written as text, and the lines of its plan: a name and values each. Parts of a case:
// the lines of the workout; the tests; the keys and the athlete, or the people of a team. Cells between bars, as in block.h.
#pragma once

#include "pacecells/athlete_plan.h"
#include "pacecells/team.h"

#include "block.h"

#include <iomanip>
#include <ostream>
#include <string>
#include <vector>

namespace pacecells::plan_lines {

template <class T>
void show(std::ostream& out, const T& value) {
    out << ' ' << value;
}
template <class Tag>
void show(std::ostream& out, Quantity<Tag> value) {
    out << ' ' << value.value();
}
template <class T>
void show(std::ostream& out, const std::optional<T>& value) {
    if (value)
        show(out, *value);
    else
        out << " -";
}

template <class... Values>
void line(std::ostream& out, const std::string& name, const Values&... values) {
    out << name;
    (show(out, values), ...);
    out << '\n';
}

inline void score_line(std::ostream& out, const char* name, const Score& score) {
    line(out, name, score.rounds, score.reps, score.time, score.text);
}

inline void goal_lines(std::ostream& out, const std::string& name, const GoalLine& goal) {
    line(out, name, goal.goal.score.rounds, goal.goal.clock, goal.target, goal.goal.score.text);
    for (const auto& round : goal.rounds) {
        out << name << "_clock " << round.round;
        show(out, round.clock);
        for (const auto& one : round.stations)
            show(out, one);
        out << '\n';
    }
    for (const auto& one : goal.quarters)
        line(out, name + "_quarter", one.rounds, one.station, one.amount);
}

inline void print(std::ostream& out, const Workout& workout, const Athlete& athlete) {
    out << "person\n";
    const Plan plan = plan_for(workout, athlete);
    for (const auto& one : plan.machines)
        line(out, "rate", static_cast<int>(one.machine), static_cast<int>(one.source), one.rate, one.share, one.doubt,
             one.alone);
    for (const auto& one : plan.stations) {
        line(out, "each", one.station, one.seconds_each);
        if (one.sets)
            line(out, "sets", one.station, one.sets->open.text(), one.sets->rest, one.sets->fall_back.text(),
                 one.sets->fall_back_rest, one.sets->to_spare, one.sets->away, one.sets->rounds, one.sets->max_unbroken,
                 one.sets->too_hard);
    }
    line(out, "other", plan.other.time, plan.other.walk, plan.other.rest);
    line(out, "round", plan.round_time);
    score_line(out, "low", plan.low);
    score_line(out, "expected", plan.expected);
    score_line(out, "high", plan.high);
    for (const auto& one : plan.windows)
        line(out, "window", one.window, one.start, one.needed, one.spare, one.reps);
    line(out, "failing", plan.first_failing);
    line(out, "suggested", plan.suggested->score.rounds, plan.suggested->clock, plan.suggested->score.text);
    goal_lines(out, "goal", *plan.goal);
    if (plan.next_down)
        goal_lines(out, "down", *plan.next_down);
    line(out, "check", plan.check_round, plan.check_clock);
    line(out, "pacing", plan.pacing_cost);
    line(out, "needs", plan.needs, plan.no_room);
    line(out, "ceiling", plan.ceiling);
    if (plan.card)
        line(out, "card", plan.card->advice.hold, plan.card->advice.never_above,
             static_cast<int>(plan.card->advice.situation), plan.card->advice.chance, plan.card->from,
             plan.card->in_hand, plan.card->to_find);
    line(out, "on_machine", plan.on_machine);
    if (plan.rehearsal)
        line(out, "rehearsal", plan.rehearsal->easy_rounds, plan.rehearsal->planned, plan.rehearsal->easy_time,
             plan.rehearsal->planned_time, plan.rehearsal->easy_rate, plan.rehearsal->planned_rate);
    for (const auto& note : plan.notes)
        out << "note " << note.message() << '\n';
}

inline void answer(std::ostream& out, const std::vector<std::string>& parts) {
    out << std::setprecision(17);
    const auto workout = read_workout(block::table(parts[0]));
    if (!workout) {
        out << "refused " << workout.error().message() << '\n';
        return;
    }
    const Table rows = block::table(parts[2]);
    const auto row = [&](std::size_t i) {
        Table one{.rows = 1, .columns = rows.columns, .cells = {}};
        for (std::size_t column = 0; column < rows.columns; ++column)
            one.cells.push_back(rows.at(i, column));
        return one;
    };
    std::vector<Athlete> people;
    for (std::size_t i = 1; i < rows.rows; ++i) {
        const auto athlete = read_athlete(*workout, block::table(parts[1]), row(0), row(i));
        if (!athlete) {
            out << "refused " << athlete.error().message() << '\n';
            return;
        }
        people.push_back(*athlete);
    }
    join_team(*workout, people);
    for (const auto& one : people)
        print(out, *workout, one);
}

} // namespace pacecells::plan_lines
