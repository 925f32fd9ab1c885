// Rates: seconds of a unit at every station, for ergometers by the best that is known of the athlete.
#include "planner.h"

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr double lowest_rate = 305; // cal/h; below it the watts of a rate mean nothing

bool is_calories(Unit unit) { return rate_kind(unit) == RateKind::calories_per_hour; }

} // namespace

CaloriesPerHour scaled_rate(Machine machine, CaloriesPerHour rate, double factor) {
    if (machine == Machine::armbike)
        return rate * factor;
    const CaloriesPerHour resting{300};
    return resting + (rate - resting) * factor;
}

double Planner::seconds_each_at(std::size_t i, CaloriesPerHour rate) const {
    const auto unit = station(i).unit;
    if (is_calories(unit))
        return 3600 / rate.value();
    const auto watts = power(rate);
    if (!watts)
        return base_each_[i];
    const auto split = split_at_power(*watts);
    return split ? split->value() / metres_per_split(unit) : base_each_[i];
}

CaloriesPerHour Planner::rate_at(std::size_t i, double seconds_each) const {
    const auto unit = station(i).unit;
    if (is_calories(unit))
        return CaloriesPerHour{3600 / seconds_each};
    const auto watts = power_at_split(Seconds{seconds_each * metres_per_split(unit)});
    const auto rate = watts ? calorie_rate(*watts) : Result<CaloriesPerHour>{watts.error()};
    return rate ? *rate : CaloriesPerHour{0};
}

// Step 1: own seconds, else the usual pace times the factor of the pace group.
void Planner::set_base_pace() {
    base_each_.assign(workout_.stations.size(), 1);
    for (std::size_t i = 0; i < workout_.stations.size(); ++i) {
        const auto& one = station(i);
        const auto& own = athlete_.movements[i].rep;
        Step step{.fact = Fact::usual_time,
                  .station = i,
                  .what = say("Time of a unit at %1", one.movement),
                  .from = {},
                  .rule = say("the usual pace times the factor of the pace group"),
                  .value = {}};
        const Place place{.row = one.pace_row.value_or(one.row)};
        const auto usual = [&](double factor, const Value& value) {
            step.from.push_back({say("usual pace"), value, place});
            if (athlete_.group)
                step.from.push_back(
                    {say("factor of the pace group %1", group_.name), {Measure::number, factor}, group_.place});
        };
        const auto kind = rate_kind(one.unit);
        if (kind == RateKind::none)
            continue;
        const double usually = usual_seconds_each(one);
        if (machine_of(one.unit)) {
            base_each_[i] = usually / group_.erg;
            usual(group_.erg, {kind == RateKind::split ? Measure::seconds : Measure::cal_per_hour, one.usual_rate});
        } else if (own && kind == RateKind::seconds_each) {
            base_each_[i] = own->value();
            step.rule = say("the athlete's own seconds from the tests");
            step.from.push_back(
                {say("own seconds"), {Measure::seconds, own->value()}, athlete_.movements[i].rep_place});
        } else {
            base_each_[i] = usually * group_.rep;
            usual(group_.rep, {Measure::seconds, one.usual_rate});
        }
        step.value = {Measure::seconds, base_each_[i]};
        reason(std::move(step));
    }
}

int Planner::rounds_on(Machine machine) const {
    int count = 0;
    for (int k = 1; k <= std::min(whole_rounds_, base_->size()); ++k)
        count += std::ranges::any_of(base_->round(k).legs,
                                     [&](const Leg& leg) { return machine_of(station(leg.station).unit) == machine; })
                     ? 1
                     : 0;
    return std::max(1, count);
}

// Off this machine, for each round in which it is used: the mean of the rounds expected, at the usual pace of the group.
// Pauses and the rest of a window are rest.
OtherStations Planner::other_of(Machine machine) const {
    double all = 0;
    double walk = 0;
    double rest = 0;
    for (int k = 1; k <= std::min(whole_rounds_, base_->size()); ++k) {
        double pauses = 0;
        double idle = 0;
        for (const auto& leg : base_->round(k).legs) {
            double pause = leg.pause;
            if (leg.station < pauses_.size() && !pauses_[leg.station].empty())
                pause = std::max(
                    pause, pauses_[leg.station][std::min(static_cast<std::size_t>(k), pauses_[leg.station].size()) - 1]
                               .value());
            pauses += pause;
            idle += leg.idle;
            walk += leg.walk;
            all += leg.walk;
            if (machine_of(station(leg.station).unit) == machine)
                continue;
            all += leg.work;
            if (station(leg.station).unit == Unit::rest)
                rest += leg.work;
        }
        rest += std::max(pauses, idle); // pauses are taken out of the rest of a window
        all += std::max(pauses, idle);
    }
    const double rounds = rounds_on(machine);
    return {.time = Seconds{all / rounds}, .walk = Seconds{walk / rounds}, .rest = Seconds{rest / rounds}};
}

bool Planner::too_old(const MachineTests& tests) const {
    const auto& settings = workout_.settings;
    return settings.date && tests.date && *settings.date - *tests.date > 7 * settings.test_weeks;
}

// From tests or one test; none where neither counts.
std::optional<MachineRate> Planner::tested_rate(Machine machine, double share) {
    const auto& tests = athlete_.machines[static_cast<std::size_t>(machine)];
    MachineRate made{.machine = machine, .share = share};
    const double factor_error = athlete_.factor_error.value_or(usual_spread);
    if (too_old(tests))
        return {};
    if (tests.values && machine != Machine::armbike) {
        auto held = power_for(task_, *tests.values);
        double test_error = tests_error;
        if (const auto with_rests = watts_with_rests(machine); held && with_rests && *with_rests > *held) {
            held = *with_rests;
            test_error = std::hypot(test_error, recovery_error);
        }
        const auto alone = held ? calorie_rate(*held) : Result<CaloriesPerHour>{held.error()};
        const auto rate = held ? calorie_rate(*held * share) : Result<CaloriesPerHour>{held.error()};
        const auto doubt = doubt_of(factor_error, test_error);
        if (alone && rate && doubt) {
            made.source = RateSource::tests;
            made.alone = *alone;
            made.rate = *rate;
            made.doubt = *doubt;
            return made;
        }
    }
    if (!tests.time)
        return {};
    const auto shown = rate_for(*tests.calories, *tests.time);
    if (!shown)
        return {};
    // The rule is one of powers: what is held for longer falls with the time. For the fan bike it is taken for calories.
    const auto watts = machine == Machine::armbike ? Result<Watts>{Watts{shown->value()}} : power(*shown);
    if (!watts || !(watts->value() > 0))
        return {};
    const auto held = held_by_one_test(*watts, *tests.time, task_);
    if (!held)
        return {};
    const auto as_rate = [&](Watts value) {
        return machine == Machine::armbike ? Result<CaloriesPerHour>{CaloriesPerHour{value.value()}}
                                           : calorie_rate(value);
    };
    const auto alone = as_rate(held->power);
    const auto rate = as_rate(held->power * share);
    const auto doubt = doubt_of(factor_error, held->error);
    if (!alone || !rate || !doubt || !(rate->value() > lowest_rate || machine == Machine::armbike))
        return {};
    made.source = RateSource::one_test;
    made.alone = *alone;
    made.rate = *rate;
    made.doubt = *doubt;
    return made;
}

MachineRate Planner::rate_of(Machine machine, Reasons* reasons) {
    const auto& settings = workout_.settings;
    const OtherStations other = other_of(machine);
    const auto share = planned_share(other, athlete_.factor, settings.keep, {settings.share_work, settings.share_rest});
    MachineRate made;
    const auto& tests = athlete_.machines[static_cast<std::size_t>(machine)];
    const bool main = plan_.main && machine_of(station(*plan_.main).unit) == machine;
    if (auto tested = share ? tested_rate(machine, *share) : std::optional<MachineRate>{}) {
        made = *tested;
    } else if (main && athlete_.result_rate && share) {
        const auto watts = power(*athlete_.result_rate);
        const double error = athlete_.result_error.value_or(std::hypot(day_error, round_error));
        const auto held = watts ? carried_over({.held = {.power = *watts, .error = error},
                                                .cap = *athlete_.result_cap,
                                                .share = athlete_.result_share.value_or(*share)},
                                               task_, *share)
                                : Result<Held>{watts.error()};
        const auto rate = held ? calorie_rate(held->power) : Result<CaloriesPerHour>{held.error()};
        if (rate && machine != Machine::armbike && held->error < group_error) // else the group is known better
            made = {
                .machine = machine, .source = RateSource::result, .rate = *rate, .share = *share, .doubt = held->error};
    }
    if (made.source == RateSource::none) {
        made.machine = machine;
        made.source = athlete_.group ? RateSource::group : RateSource::usual;
        made.share = share ? *share : 0;
        made.doubt = group_error;
        for (std::size_t i = workout_.stations.size(); i-- > 0;)
            if (machine_of(station(i).unit) == machine)
                made.rate = rate_at(i, base_each_[i]);
    }
    if (!reasons)
        return made;

    // Why, from here on.
    reason({.fact = Fact::other_time,
            .what = say("Time off the machine, each round"),
            .from = {{say("work"), {Measure::seconds, other.work().value()}},
                     {say("walking and handling"), {Measure::seconds, other.walk.value()}},
                     {say("rest and pauses"), {Measure::seconds, other.rest.value()}}},
            .rule = say("the mean of the rounds expected, at the usual pace of the pace group"),
            .value = {Measure::seconds, other.time.value()}});
    Step step{.fact = Fact::rate,
              .what = say("Rate to plan with"),
              .from = {},
              .rule = say("the usual pace of the pace group"),
              .value = {Measure::cal_per_hour, made.rate.value()}};
    for (std::size_t i = workout_.stations.size(); i-- > 0;)
        if (machine_of(station(i).unit) == machine)
            step.station = i;
    if (made.source == RateSource::tests || made.source == RateSource::one_test) {
        reason(
            {.fact = Fact::share,
             .station = step.station,
             .what = say("Share of the watts alone"),
             .from = {setting_input("share_work", say("share where everything else is hard work"),
                                    {Measure::share, settings.share_work}),
                      setting_input("share_rest", say("share where everything else is rest"),
                                    {Measure::share, settings.share_rest}),
                      step_input(Fact::other_time, say("time off the machine"), {Measure::seconds, other.time.value()}),
                      {say("what past results say"), {Measure::number, athlete_.factor}, athlete_.factor_place}},
             .rule = say("in proportion to how much of the time off the machine is work"),
             .value = {Measure::share, made.share}});
        step.from.push_back(
            step_input(Fact::share, say("share of the watts alone"), {Measure::share, made.share}, step.station));
        step.from.push_back({say("time that the rate is for"), {Measure::seconds, task_.value()}});
    }
    switch (made.source) {
    case RateSource::tests:
        step.from.push_back(
            {say("critical power"), {Measure::watts, tests.values->critical.value()}, tests.values_place});
        step.from.push_back({say("rate that can be held alone"), {Measure::cal_per_hour, made.alone->value()}});
        step.rule = say("the watts that can be held alone for the task, times the share");
        break;
    case RateSource::one_test:
        step.from.push_back({say("time of the test"), {Measure::seconds, tests.time->value()}, tests.single_place});
        step.from.push_back({say("calories of the test"), {Measure::number, tests.calories->value()}});
        step.rule = say("one test, carried over to the time of the task by Riegel's rule, times the share");
        break;
    case RateSource::result:
        step.from.push_back({say("rate held in an earlier event"),
                             {Measure::cal_per_hour, athlete_.result_rate->value()},
                             athlete_.result_place});
        step.rule = say("an earlier result, carried over to the time of the task");
        break;
    default:
        if (step.station)
            step.from.push_back(step_input(Fact::usual_time, say("time of a unit"),
                                           {Measure::seconds, base_each_[*step.station]}, step.station));
        break;
    }
    reason(std::move(step));
    reason({.fact = Fact::doubt,
            .what = say("How well the rate is known"),
            .from = {},
            .rule = say("one standard error: the day, the test and what past results say, or a fifth for a group"),
            .value = {Measure::share, made.doubt}});
    return made;
}

void Planner::set_rates(Reasons* reasons) {
    each_ = base_each_;
    plan_.machines.clear();
    for (const auto machine : {Machine::row, Machine::ski, Machine::bike, Machine::armbike}) {
        const bool used = std::ranges::any_of(workout_.stations, [&](const Station& one) {
            return machine_of(one.unit) == machine && !one.divisions[division_].amounts.list.empty();
        });
        if (used)
            plan_.machines.push_back(rate_of(machine, reasons));
    }
    for (std::size_t i = 0; i < workout_.stations.size(); ++i)
        if (const auto* rate = rate_of_station(i);
            rate && rate->source != RateSource::group && rate->source != RateSource::usual)
            each_[i] = seconds_each_at(i, rate->rate);
}

const MachineRate* Planner::rate_of_station(std::size_t i) const {
    const auto machine = machine_of(station(i).unit);
    const auto found = std::ranges::find_if(plan_.machines, [&](const auto& one) { return one.machine == machine; });
    return machine && found != plan_.machines.end() ? &*found : nullptr;
}

} // namespace pacecells
