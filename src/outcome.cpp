#include "pacecells/outcome.h"

#include "pacecells/athlete_plan.h"
#include "pacecells/ergometer.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr Seconds unsure_of_own{6}; // a round, of the other stations (judgement)
constexpr Seconds unsure_of_group{10};

// A result in reps as the coach would type it as a goal. None where it is beyond the rounds of the workout.
std::optional<TypedGoal> as_goal(const Workout& workout, std::size_t division, double reps) {
    const auto rounds = workout.rounds(division);
    for (int round = 1; round <= rounds.value_or(most_plan_rounds); ++round) {
        const double of_round = workout.points(division, round);
        if (reps < of_round)
            return TypedGoal{.kind = TypedGoal::Kind::score, .rounds = round - 1.0, .reps = reps};
        reps -= of_round;
    }
    return {};
}

// All reps of a workout whose rounds are given.
std::optional<double> reps_in_all(const Workout& workout, std::size_t division) {
    const auto rounds = workout.rounds(division);
    if (!rounds)
        return {};
    double all = 0;
    for (int round = 1; round <= *rounds; ++round)
        all += workout.points(division, round);
    return all;
}

// The calories of the station in the first rounds, on average.
std::optional<Kilocalories> calories_at(const StationPlan& station, std::size_t rounds) {
    double all = 0;
    std::size_t counted = 0;
    for (const double amount : station.amounts)
        if (amount > 0 && (rounds == 0 || counted < rounds)) {
            all += amount;
            ++counted;
        }
    if (counted == 0)
        return {};
    return Kilocalories{all / static_cast<double>(counted)};
}

// The rate that the total leaves room for at the ergometer.
std::optional<CaloriesPerHour> needed_by(Workout workout, Athlete athlete, const CameOf& result) {
    if (result.time)
        athlete.goal = TypedGoal{.kind = TypedGoal::Kind::time, .time = *result.time};
    else if (result.reps)
        athlete.goal = as_goal(workout, *athlete.division, *result.reps);
    else if (const auto all = reps_in_all(workout, *athlete.division); all && result.reps_left)
        athlete.goal = as_goal(workout, *athlete.division, *all - *result.reps_left);
    if (!athlete.goal || workout.settings.format == Format::intervals)
        return {};
    workout.settings.slip = Seconds{0}; // a result ends with the cap
    return plan_for(workout, athlete).needs;
}

bool group_is_guessed(const Workout& workout, const Athlete& athlete) {
    for (std::size_t i = 0; i < workout.stations.size(); ++i)
        if (workout.stations[i].unit == Unit::rep && !athlete.movements[i].rep)
            return true;
    return false;
}

} // namespace

Outcome outcome_of(const Workout& workout, const Athlete& athlete, const CameOf& result) {
    Outcome outcome;
    if (athlete.plan != DayPlan::full || !athlete.division)
        return outcome;
    Athlete tested = athlete; // as the tests alone see it
    tested.factor = 1;
    tested.goal.reset();
    tested.answer.reset();
    const Plan plan = plan_for(workout, tested);
    if (!plan.planned || !plan.main || rate_kind(workout.stations[*plan.main].unit) != RateKind::calories_per_hour)
        return outcome;
    const auto main = std::ranges::find(plan.stations, *plan.main, &StationPlan::station);
    const auto machine = machine_of(workout.stations[*plan.main].unit);
    const auto rate =
        std::ranges::find(plan.machines, machine, [](const MachineRate& one) { return std::optional{one.machine}; });
    if (main == plan.stations.end() || rate == plan.machines.end())
        return outcome;
    outcome.machine = machine;
    outcome.calories = calories_at(*main, result.ergometer_times.size());
    outcome.share = rate->share;
    if (!outcome.calories || machine == Machine::armbike)
        return outcome;

    if (!result.ergometer_times.empty()) {
        const auto held = held_when_timed(*outcome.calories, result.ergometer_times);
        outcome.timed = held.has_value();
        if (held)
            outcome.held = *held;
    } else if (const auto needed = needed_by(workout, tested, result)) {
        const auto held = held_by_total(*outcome.calories, *needed,
                                        group_is_guessed(workout, athlete) ? unsure_of_group : unsure_of_own);
        if (held)
            outcome.held = *held;
    }
    if (!outcome.held || (rate->source != RateSource::tests && rate->source != RateSource::one_test))
        return outcome;
    const auto promised = power(rate->rate);
    const auto seen = promised ? observed(*outcome.held, *promised) : Result<Observation>{promised.error()};
    if (seen && seen->ratio >= least_ratio && seen->ratio <= most_ratio &&
        says_what_can_be_held(seen->ratio, result.could_go_on))
        outcome.observation = *seen;
    return outcome;
}

} // namespace pacecells
