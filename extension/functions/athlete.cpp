// The ATHLETE family: what the plan of one person says, from the block of the workout, the tests and a row of the roster.
#include "card_wording.h"
#include "family.h"
#include "planning.h"
#include "wording.h"

#include "pacecells/ergometer.h"
#include "pacecells/tiebreak.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

using Index = std::optional<Whole>;
using StationArgument = std::optional<NumberOrText>;

// What of an answer is asked for, from 1; the first if left out.
Result<int> index_in(const Index& index, int most, int first = 1) {
    const int which = value_or(index, first);
    if (which < 1 || which > most)
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", most, which);
    return which;
}

Cell nothing() { return Blank{}; }

// One cell of the plan of a person who has a goal; empty text for others.
template <class Given = Cell, class Answer>
Result<Given> with_goal(const AreaPointer& workout, const AreaPointer& tests, const RawCells& keys,
                        const RawCells& athlete, Answer answer) {
    const auto cell = plan_in(workout, tests, keys, athlete);
    if (!cell)
        return cell.error();
    if (!cell->has_goal() || !cell->planned->plan.goal)
        return Given{};
    return answer(*cell->planned->workout, cell->planned->plan);
}

// A station of the plan, by its number in order or its name; none beyond the last.
Result<const StationPlan*> station_in(const Workout& workout, const Plan& plan, const NumberOrText& station) {
    if (const auto* number = std::get_if<double>(&station.value)) {
        if (*number < 1 || *number != static_cast<int>(*number))
            return out_of_domain("A station is a whole number from 1, or its name; got %1.", *number);
        const auto index = static_cast<std::size_t>(*number) - 1;
        return index < plan.stations.size() ? &plan.stations[index] : nullptr;
    }
    const auto found = workout.station(*std::get_if<std::string>(&station.value));
    if (!found)
        return found.error();
    const auto same = std::ranges::find(plan.stations, *found, &StationPlan::station);
    return same == plan.stations.end() ? nullptr : &*same;
}

// What the athlete does at an ergometer in the first round there: "12 cal", "500 m".
// The main ergometer unless a station is asked for.
Result<const StationPlan*> ergometer_in(const Workout& workout, const Plan& plan, const StationArgument& station) {
    if (station)
        return station_in(workout, plan, *station);
    const auto main =
        plan.main ? std::ranges::find(plan.stations, *plan.main, &StationPlan::station) : plan.stations.end();
    return main == plan.stations.end() ? nullptr : &*main;
}

Cell score_cell(const Score& score) {
    if (score.time)
        return to_cell(*score.time);
    return score.reps > 0 ? to_cell(score.reps) : to_cell(score.rounds);
}

// Higher is better.
Cell rank_cell(const Score& score) {
    if (score.time)
        return to_cell(Seconds{-score.time->value()});
    return score_cell(score);
}

Result<Cell> athlete_goal(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index index) {
    const auto which = index_in(index, 4);
    if (!which)
        return which.error();
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        const bool suggested = *which == 2;
        const bool next = *which == 4;
        answer_is_about(suggested ? Fact::suggested : next ? Fact::next_down : Fact::goal);
        if ((suggested && !plan.suggested) || (next && !plan.next_down))
            return nothing();
        const auto& goal = suggested ? *plan.suggested : next ? plan.next_down->goal : plan.goal->goal;
        if (*which > 2)
            return to_cell(goal.score.text);
        if (task.settings.format == Format::time && goal.score.time)
            return to_cell(*goal.score.time);
        return to_cell(goal.score.rounds);
    });
}

Result<Cell> athlete_score(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index index) {
    const auto which = index_in(index, 6, 2);
    if (!which)
        return which.error();
    if (*which == 6) { // an error in one row would keep everybody from a heat
        const auto cell = plan_in(workout, tests, keys, athlete);
        return cell && cell->has_goal() && cell->planned->plan.goal ? rank_cell(cell->planned->plan.expected)
                                                                    : nothing();
    }
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        answer_is_about(*which == 1 ? Fact::low : *which == 3 ? Fact::high : Fact::predicted);
        if (*which == 4)
            return to_cell(plan.expected.text);
        if (*which == 5)
            return to_cell(spoken(say("%1 to %2", plan.low.text, plan.high.text), task.settings.language));
        return score_cell(*which == 1 ? plan.low : *which == 3 ? plan.high : plan.expected);
    });
}

Result<std::optional<int>> round_in(const Whole& k, const GoalLine& line) {
    if (k.value < 1)
        return out_of_domain("A round is a whole number from 1; got %1.", k.value);
    return k.value <= std::ssize(line.rounds) ? std::optional{k.value - 1} : std::nullopt;
}

using Time = std::optional<Seconds>;

Result<Time> athlete_target(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index k) {
    return with_goal<Time>(workout, tests, keys, athlete, [&](const Workout&, const Plan& plan) -> Result<Time> {
        answer_is_about(Fact::target);
        if (!k)
            return plan.goal->target;
        const auto round = round_in(*k, *plan.goal);
        if (!round)
            return round.error();
        return *round ? Time{plan.goal->rounds[static_cast<std::size_t>(**round)].time} : Time{};
    });
}

Result<Time> athlete_clock(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Whole k,
                           StationArgument station, Index goal, std::optional<AnyTime> later) {
    const auto which = index_in(goal, 2);
    if (!which)
        return which.error();
    const auto start = value_or(later, Seconds{0});
    return with_goal<Time>(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Time> {
        answer_is_about(Fact::clocks);
        if (*which == 2 && !plan.next_down)
            return Time{};
        const auto& line = *which == 2 ? *plan.next_down : *plan.goal;
        const auto found = round_in(k, line);
        if (!found)
            return found.error();
        if (!*found)
            return Time{};
        const auto& round = line.rounds[static_cast<std::size_t>(**found)];
        if (!station)
            return round.clock + start;
        const auto place = station_in(task, plan, *station);
        if (!place)
            return place.error();
        const auto clock = *place ? round.stations[(*place)->station] : Time{};
        return clock ? Time{*clock + start} : clock;
    });
}

Result<Cell> athlete_rate(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index index,
                          StationArgument station) {
    const auto which = index_in(index, 6);
    if (!which)
        return which.error();
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        const auto found = ergometer_in(task, plan, station);
        if (!found)
            return found.error();
        const auto* place = *found;
        const auto machine = place ? machine_of(task.stations[place->station].unit) : std::nullopt;
        if (!machine)
            return nothing();
        answer_is_about(*which == 2 ? Fact::needs : *which == 3 ? Fact::never_above : Fact::hold);
        if (*which == 5)
            return to_cell(machine_label(*machine, task.settings.language));
        if (*which == 6)
            return place->amounts.empty() ? nothing() : to_cell(amount_text(task, *place));
        if (plan.main != place->station) { // its rate is that of the plan; goals bear on the main ergometer alone
            answer_is_about(Fact::rate, place->station);
            if (!place->rate || *which == 2 || *which == 3)
                return nothing();
            if (*which == 4)
                return place->amounts.empty() ? nothing() : to_cell(Seconds{place->seconds_each * place->part});
            return rate_cell(task, *machine, *place->rate);
        }
        if (*which == 4)
            return to_cell(plan.on_machine);
        if (!plan.card || (*which == 2 && !plan.card->needed))
            return nothing();
        const auto& advice = plan.card->advice;
        return rate_cell(task, *machine,
                         *which == 1   ? advice.hold
                         : *which == 2 ? *plan.card->needed
                                       : advice.never_above);
    });
}

Result<Cell> athlete_check(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index index) {
    const auto which = index_in(index, 3);
    if (!which)
        return which.error();
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        answer_is_about(Fact::clocks);
        if (*which == 3) {
            const auto tiebreak = tiebreak_of(task, plan.division);
            const auto clock = tiebreak && plan.goal ? clock_of(*tiebreak, *plan.goal) : std::nullopt;
            return clock ? to_cell(*clock) : nothing();
        }
        if (!plan.check_round || !plan.check_clock)
            return nothing();
        return *which == 1 ? to_cell(*plan.check_round) : to_cell(*plan.check_clock);
    });
}

Result<Cell> athlete_needs(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete,
                           StationArgument station) {
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        answer_is_about(Fact::needs);
        const auto found = ergometer_in(task, plan, station);
        if (!found)
            return found.error();
        if (!*found || (*found)->station != plan.main)
            return nothing();
        return to_cell(plan.needs);
    });
}

Result<Cell> athlete_margin(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index index) {
    const auto which = index_in(index, 3);
    if (!which)
        return which.error();
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        answer_is_about(*which == 3 ? Fact::chance : Fact::situation);
        if (!plan.card)
            return nothing();
        const auto& advice = plan.card->advice;
        if (*which == 2)
            return to_cell(static_cast<int>(advice.situation));
        if (*which == 3)
            return to_cell(advice.chance);
        switch (advice.situation) {
        case Situation::goal_fits:
            return to_cell(spoken(say("fits"), task.settings.language));
        case Situation::stretch:
            return to_cell(spoken(say("a stretch"), task.settings.language));
        case Situation::out_of_reach:
            break;
        }
        return to_cell(spoken(say("out of reach"), task.settings.language));
    });
}

// "45 kg (56% of the maximum)"; empty where the division has no load there.
std::string load_text(const Workout& workout, const Plan& plan, const StationPlan& station) {
    const auto load = workout.stations[station.station].divisions[plan.division].load;
    if (!load)
        return {};
    const auto language = workout.settings.language;
    if (!station.load_share)
        return number_text(*load) + " kg";
    return spoken(say("%1 kg (%2 % of the maximum)", *load, std::round(100 * *station.load_share)), language);
}

std::string all_loads(const Workout& workout, const Plan& plan) {
    std::string text;
    for (const auto& station : plan.stations)
        if (const auto load = load_text(workout, plan, station); !load.empty())
            text += (text.empty() ? "" : " · ") + workout.stations[station.station].movement + " " + load;
    return text;
}

Result<Cell> athlete_sets(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, NumberOrText station,
                          Index index) {
    const auto which = index_in(index, 5);
    if (!which)
        return which.error();
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        answer_is_about(*which == 2 ? Fact::fall_back : Fact::sets);
        if (const auto* number = std::get_if<double>(&station.value); number && *number == 0)
            return to_cell(*which == 5 ? all_loads(task, plan) : all_sets_text(task, plan));
        const auto found = station_in(task, plan, station);
        if (!found)
            return found.error();
        if (*found && *which == 5)
            return to_cell(load_text(task, plan, **found));
        if (!*found || !(*found)->sets)
            return nothing();
        answer_is_about(*which == 2 ? Fact::fall_back : Fact::sets, (*found)->station);
        const auto& sets = *(*found)->sets;
        const auto language = task.settings.language;
        if (*which == 3)
            return to_cell(sets.rest.value());
        if (*which == 4)
            return to_cell(sets.to_spare);
        return to_cell(scheme_text(*which == 2 ? sets.fall_back : sets.open, language));
    });
}

Result<Cell> athlete_rehearsal(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Index index) {
    const auto which = index_in(index, 4);
    if (!which)
        return which.error();
    return with_goal(workout, tests, keys, athlete, [&](const Workout& task, const Plan& plan) -> Result<Cell> {
        answer_is_about(Fact::rehearsal);
        if (!plan.rehearsal)
            return nothing();
        if (*which == 1)
            return to_cell(plan.rehearsal->easy_time);
        if (*which == 3)
            return to_cell(plan.rehearsal->rounds());
        if (*which == 4)
            return to_cell(rehearsal_text(task, plan));
        const auto machine = plan.main ? machine_of(task.stations[*plan.main].unit) : std::nullopt;
        const auto& rate = plan.rehearsal->easy_rate;
        return machine && rate ? rate_cell(task, *machine, *rate) : nothing();
    });
}

Result<std::string> athlete_note(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete) {
    const auto cell = plan_in(workout, tests, keys, athlete);
    if (cell)
        return cell->notes();
    const auto task = workout_in(workout);
    if (!task)
        return task.error(); // WORKOUT.CHECK says it, once
    return spoken(cell.error(), (*task)->settings.language);
}

Result<std::string> athlete_text(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete) {
    const auto cell = plan_in(workout, tests, keys, athlete);
    if (!cell)
        return cell.error();
    if (!cell->planned || !cell->planned->athlete.division)
        return std::string();
    answer_is_about(Fact::goal);
    const auto& planned = *cell->planned;
    return message_text(*planned.workout, planned.athlete, planned.plan, cell->notes());
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view block_text = "The block of the workout: the range named workout.";
constexpr std::string_view tests_text = "The tests of all athletes: the range named tests; found by name.";
constexpr std::string_view keys_text =
    "The row of keys over the roster, such as B$5:H$5: name, division, goal and more.";
constexpr std::string_view row_text = "The athlete's row of the roster, as wide as the keys.";
constexpr std::string_view station_help =
    "The station by its number in order, or its movement; the main ergometer if left out.";
constexpr std::string_view domain_text =
    "The workout and the athlete's row must be complete: ATHLETE.NOTE and WORKOUT.CHECK say what is missing. Without a "
    "name or a goal the cell stays empty.";
constexpr std::string_view plan_source = "The plan of this athlete. How it is made, from which tests and by which "
                                         "rules, the command Explain this cell says.";

constexpr Row rows[] = {
    row<&athlete_goal>(
        "athleteGoal", "ATHLETE.GOAL", "The goal of an athlete: rounds of an AMRAP, or the time of a workout for time.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"index", "1 the goal, 2 the suggested one, 3 the goal as text, 4 the next goal down as text.", 1}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2;3", "6"}),
    row<&athlete_score>(
        "athleteScore", "ATHLETE.SCORE",
        "The score to expect of an athlete, with its range: reps, or the time of a workout for time.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"index",
          "1 low, 2 expected, 3 high, 4 expected as text, 5 the range as text, 6 the number that orders heats: higher "
          "is better, empty where there is none.",
          2}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2;4", "6+27"}),
    row<&athlete_target>("athleteTarget", "ATHLETE.TARGET", "Time per round for the goal: the target pace of a round.",
                         {{"workout", block_text},
                          {"tests", tests_text},
                          {"keys", keys_text},
                          {"athlete", row_text},
                          {"k", "The round; the mean of all rounds if left out."}},
                         domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2", "2:48"}),
    row<&athlete_clock>(
        "athleteClock", "ATHLETE.CLOCK",
        "What the clock shows at the end of a round or of a station in it, on the way to the goal.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"k", "The round."},
         {"station", "The station by its number in order, or its movement; the end of the round if left out."},
         {"which", "1 the goal, 2 the next goal down.", 1},
         {"later", "How much later than the clock this athlete starts; not at all if left out."}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2;3", "8:25"}),
    row<&athlete_rate>(
        "athleteRate", "ATHLETE.RATE",
        "The rate to hold on the ergometer (row, ski, bike), in the unit of the workout: cal/h, watts or "
        "split.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"index",
          "1 hold, 2 what makes the goal, 3 never above, 4 time on the machine at the rate to hold, 5 the machine, 6 "
          "the amount of a round, in words.",
          1},
         {"station", station_help}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2", "850"}),
    row<&athlete_check>(
        "athleteCheck", "ATHLETE.CHECK",
        "The round to check by: which it is, and the clock after which the next goal down is the better "
        "one.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"index", "1 the round, 2 the clock, 3 the clock at the tie-break.", 1}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2", "2"}),
    row<&athlete_needs>("athleteNeeds", "ATHLETE.NEEDS",
                        "Rate in cal/h that the goal leaves room for at the main ergometer.",
                        {{"workout", block_text},
                         {"tests", tests_text},
                         {"keys", keys_text},
                         {"athlete", row_text},
                         {"station", station_help}},
                        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2", "607.737"}),
    row<&athlete_margin>(
        "athleteMargin", "ATHLETE.MARGIN",
        "How well the goal fits the athlete: in a word, the situation, or the chance.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"index", "1 a word, 2 the situation (1 fits, 2 a stretch, 3 out of reach), 3 the chance, 0 to 1.", 1}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2", "fits"}),
    row<&athlete_sets>(
        "athleteSets", "ATHLETE.SETS",
        "How to break up the repetitions (reps) of a station: sets, breaks and what to fall back to.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"station", "The station by its number in order, or its movement; 0 is all in one line."},
         {"index", "1 how to start, 2 what to fall back to, 3 seconds between sets, 4 reps to spare, 5 the load.", 1}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2;\"Sandbags\"", "3-3"}),
    row<&athlete_rehearsal>(
        "athleteRehearsal", "ATHLETE.REHEARSAL",
        "The practice before the start: round time and rate of the easy rounds, how many there are.",
        {{"workout", block_text},
         {"tests", tests_text},
         {"keys", keys_text},
         {"athlete", row_text},
         {"index", "1 time of an easy round, 2 its rate, 3 rounds in all, 4 in words.", 1}},
        domain_text, plan_source, {"workout;tests;B$1:H$1;B2:H2", "3:24"}),
    row<&athlete_note>(
        "athleteNote", "ATHLETE.NOTE", "What to fix or to know about an athlete, in words; empty if all is well.",
        {{"workout", block_text}, {"tests", tests_text}, {"keys", keys_text}, {"athlete", row_text}},
        "The workout must be complete: WORKOUT.CHECK says what is missing.", plan_source,
        {"workout;tests;B$1:H$1;B4:H4", "Easy: stop at 8:30 or after 3 rounds, whichever comes first, at "
                                        "a pace at which you can talk."}),
    row<&athlete_text>("athleteText", "ATHLETE.TEXT",
                       "The message for the athlete's phone: goal, rate, sets and practice in one text.",
                       {{"workout", block_text}, {"tests", tests_text}, {"keys", keys_text}, {"athlete", row_text}},
                       domain_text, plan_source,
                       {"workout;tests;B$1:H$1;B4:H4",
                        "Cilla Feld, Tide: Easy: stop at 8:30 or after 3 rounds, whichever comes first, at a pace at "
                        "which you can talk. Stop on chest pain, faintness or unusual pain."}),
};

} // namespace

std::span<const Row> athlete_rows() { return rows; }

} // namespace pacecells
