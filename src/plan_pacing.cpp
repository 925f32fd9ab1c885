// Even, with a fade, or faster at the end: the drift of the clocks, and what it costs against even.
#include "planner.h"

#include "pacecells/pacing.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr CaloriesPerHour without_work{300}; // what a monitor counts at no power
constexpr double steepest = 5;               // gain, of a rate near that
constexpr double least_said = 0.5;           // seconds: less is nothing
constexpr double on_an_air_brake = 3;        // watts rise with the cube of the pace

} // namespace

// The mean over the time of the rounds expected. Pauses and walking rise as pace does.
double Planner::effort_gain() const {
    double total = 0;
    double gained = 0;
    for (int k = 1; k <= std::min(whole_rounds_, course_->size()); ++k)
        for (const auto& leg : course_->round(k).legs) {
            const auto unit = station(leg.station).unit;
            const auto machine = machine_of(unit);
            double gain = 1;
            if (machine && rate_kind(unit) != RateKind::calories_per_hour)
                gain = on_an_air_brake;
            else if (machine && *machine != Machine::armbike) {
                const double rate = rate_at(leg.station, each_[leg.station]).value();
                const double above = rate - without_work.value();
                gain = above * steepest > rate ? rate / above : steepest;
            }
            total += leg.busy();
            gained += (gain - 1) * leg.work;
        }
    return total > 0 ? 1 + gained / total : 1;
}

// Lost over so much time at even pace. The people of a team share their clocks, so theirs is of a usual person.
Seconds Planner::pacing_cost_of(Seconds time) const {
    const bool alone = workout_.settings.team == 1;
    Seconds reserve = usual_reserve_time;
    const auto* main = alone && plan_.main ? rate_of_station(*plan_.main) : nullptr;
    if (main && main->source == RateSource::tests)
        reserve = reserve_time(*athlete_.machines[static_cast<std::size_t>(main->machine)].values);
    const auto cost = pacing_cost(time, plan_.drift, reserve, alone ? effort_gain() : 1);
    return cost ? *cost : Seconds{0};
}

Pacing Planner::wanted_pacing() const {
    const auto& settings = workout_.settings;
    return settings.team == 1 ? athlete_.pacing.value_or(settings.pacing) : settings.pacing;
}

void Planner::set_pacing(Pacing pacing) {
    plan_.pacing = pacing;
    plan_.drift = pacing == Pacing::fade     ? workout_.settings.fade
                  : pacing == Pacing::faster ? -workout_.settings.push
                                             : 0;
}

void Planner::explain_pacing() {
    if (plan_.pacing == Pacing::even)
        return;
    const auto& goal = plan_.goal->goal;
    plan_.pacing_cost = pacing_cost_of(goal.clock);
    reason(
        {.fact = Fact::pacing,
         .what = say("What the pacing costs against even"),
         .from = {{say("pacing"),
                   {Measure::text, 0,
                    std::string(
                        word(WordList::pacing, static_cast<std::size_t>(plan_.pacing), workout_.settings.language))},
                   athlete_.pacing_place ? athlete_.pacing_place : workout_.place("pacing")},
                  {say("change of round times from start to end"), {Measure::share, std::abs(plan_.drift)}},
                  step_input(Fact::goal, say("goal"), {Measure::text, goal.score.rounds, goal.score.text})},
         .rule = say("what is done below critical power cannot be made up from the reserve; nothing comes back within "
                     "the task, and tired muscles are not counted"),
         .value = {Measure::seconds, plan_.pacing_cost->value()}});
}

// In the unit of the goal: seconds for time, else reps, or rounds where nothing counts.
Said Planner::pacing_said() const {
    const auto& goal = plan_.goal->goal;
    const std::string how(word(WordList::pacing, static_cast<std::size_t>(plan_.pacing), workout_.settings.language));
    const double change = std::round(1000 * std::abs(plan_.drift)) / 10;
    const double lost = plan_.pacing_cost->value();
    const double part = lost / goal.clock.value(); // more would be done at even pace
    if (!(lost >= least_said))
        return say("Pacing: %1 (%2%), which costs nothing against even pace.", how, change);
    if (goal.score.time)
        return say("Pacing: %1 (%2%), which costs %3 s against even pace.", how, change, std::round(lost));
    if (goal.score.reps > 0)
        return say("Pacing: %1 (%2%), which costs %3 reps against even pace.", how, change,
                   std::round(10 * part * goal.score.reps) / 10);
    return say("Pacing: %1 (%2%), which costs %3 rounds against even pace.", how, change,
               std::round(100 * part * goal.score.rounds) / 100);
}

} // namespace pacecells
