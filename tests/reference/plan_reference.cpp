// Prints the plans of cases for tests/reference/naive_plan.py. A case on standard input: the lines of the workout, a
// line "--", the tests, "--", the keys and the athlete, or the people of a team, "==". Cells between bars, as in tests/unit/block.h. Answers are
// lines of a name and values; the last of each case is "==".
#include "pacecells/athlete_plan.h"
#include "pacecells/team.h"

#include "../unit/block.h"

#include <iomanip>
#include <iostream>
#include <string>
#include <vector>

using namespace pacecells;

namespace {

template <class T>
void show(const T& value) {
    std::cout << ' ' << value;
}
template <class Tag>
void show(Quantity<Tag> value) {
    std::cout << ' ' << value.value();
}
template <class T>
void show(const std::optional<T>& value) {
    if (value)
        show(*value);
    else
        std::cout << " -";
}

template <class... Values>
void line(const char* name, const Values&... values) {
    std::cout << name;
    (show(values), ...);
    std::cout << '\n';
}

void score_line(const char* name, const Score& score) { line(name, score.rounds, score.reps, score.time, score.text); }

void goal_lines(const char* name, const GoalLine& goal) {
    line(name, goal.goal.score.rounds, goal.goal.clock, goal.target, goal.goal.score.text);
    for (const auto& round : goal.rounds) {
        std::cout << name << "_clock " << round.round;
        show(round.clock);
        for (const auto& one : round.stations)
            show(one);
        std::cout << '\n';
    }
    for (const auto& one : goal.quarters)
        line((std::string(name) + "_quarter").c_str(), one.rounds, one.station, one.amount);
}

void print(const Workout& workout, const Athlete& athlete) {
    std::cout << "person\n";
    const Plan plan = plan_for(workout, athlete);
    for (const auto& one : plan.machines)
        line("rate", static_cast<int>(one.machine), static_cast<int>(one.source), one.rate, one.share, one.doubt,
             one.alone);
    for (const auto& one : plan.stations) {
        line("each", one.station, one.seconds_each);
        if (one.sets)
            line("sets", one.station, one.sets->open.text(), one.sets->rest, one.sets->fall_back.text(),
                 one.sets->fall_back_rest, one.sets->to_spare, one.sets->away, one.sets->rounds, one.sets->max_unbroken,
                 one.sets->too_hard);
    }
    line("other", plan.other.time, plan.other.walk, plan.other.rest);
    line("round", plan.round_time);
    score_line("low", plan.low);
    score_line("expected", plan.expected);
    score_line("high", plan.high);
    line("suggested", plan.suggested->score.rounds, plan.suggested->clock, plan.suggested->score.text);
    goal_lines("goal", *plan.goal);
    if (plan.next_down)
        goal_lines("down", *plan.next_down);
    line("check", plan.check_round, plan.check_clock);
    line("pacing", plan.pacing_cost);
    line("needs", plan.needs, plan.no_room);
    line("ceiling", plan.ceiling);
    if (plan.card)
        line("card", plan.card->advice.hold, plan.card->advice.never_above,
             static_cast<int>(plan.card->advice.situation), plan.card->advice.chance, plan.card->from,
             plan.card->in_hand, plan.card->to_find);
    line("on_machine", plan.on_machine);
    if (plan.rehearsal)
        line("rehearsal", plan.rehearsal->easy_rounds, plan.rehearsal->planned, plan.rehearsal->easy_time,
             plan.rehearsal->planned_time, plan.rehearsal->easy_rate, plan.rehearsal->planned_rate);
    for (const auto& note : plan.notes)
        std::cout << "note " << note.message() << '\n';
}

void answer(const std::vector<std::string>& parts) {
    const auto workout = read_workout(block::table(parts[0]));
    if (!workout) {
        std::cout << "refused " << workout.error().message() << '\n';
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
            std::cout << "refused " << athlete.error().message() << '\n';
            return;
        }
        people.push_back(*athlete);
    }
    join_team(*workout, people);
    for (const auto& one : people)
        print(*workout, one);
}

} // namespace

int main() {
    std::cout << std::setprecision(17);
    std::vector<std::string> parts(1);
    for (std::string text; std::getline(std::cin, text);) {
        if (text == "--") {
            parts.emplace_back();
        } else if (text == "==") {
            answer(parts);
            std::cout << "==\n";
            parts.assign(1, {});
        } else {
            parts.back() += text + "\n";
        }
    }
}
