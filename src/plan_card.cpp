// Step 8: what the goal needs of the main ergometer, the rate to hold, the practice round.
#include "planner.h"

#include "pacecells/ergometer.h"
#include "pacecells/pace.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr CaloriesPerHour beyond_any{100'000}; // a rate that nobody makes

} // namespace

CaloriesPerHour down_to_five(CaloriesPerHour rate) {
    return CaloriesPerHour{5 * std::floor(rate.value() / 5 + course_slack)};
}

// PLAN.ERGNEED: all ergometers are raised or lowered by one factor, all else takes its usual time, fade included.
std::optional<CaloriesPerHour> Planner::needed_for(const Goal& goal) const {
    if (!plan_.main)
        return {};
    if (intervals())
        return needed_in_windows(goal.score.point.rounds, workout_.settings.work_time());
    double machines = 0;
    double others = 0;
    const bool team = athlete_.team.has_value(); // where all that is shared goes faster or slower together
    course_->walk_to(goal.score.point, [&](int k, const Leg& leg, double part) {
        const bool by_rate = team ? is_shared(leg.station) : machine_of(station(leg.station).unit).has_value();
        (by_rate ? machines : others) += part * leg.work;
        (by_rate && team ? machines : others) += part * leg.pause;
        others += (Course::walks_on(goal.score.point, k, leg) ? leg.walk : 0);
    });
    if (!(machines > 0))
        return {};
    const double room = goal.clock.value() * fade_factor() - others;
    if (!(room > course_slack))
        return CaloriesPerHour{0};
    const double faster = machines / room;
    return rate_at(*plan_.main, each_[*plan_.main] / faster);
}

// Calories at the main ergometer each round; metres by what they come to at the rate to plan with.
Kilocalories Planner::calories_of_main() const {
    const auto machine = machine_of(station(*plan_.main).unit);
    double calories = 0;
    int rounds = 0; // on the machine
    for (int k = 1; k <= std::min(whole_rounds_, course_->size()); ++k) {
        bool used = false;
        for (const auto& leg : course_->round(k).legs)
            if (machine_of(station(leg.station).unit) == machine) {
                calories += leg.work / 3600 * rate_at(leg.station, each_[leg.station]).value();
                used = true;
            }
        rounds += used ? 1 : 0;
    }
    return Kilocalories{calories / std::max(1, rounds)};
}

// The card of a fan bike, whose rates have no watts: factors apply to the rate itself.
Card Planner::card_of_arm_bike(CaloriesPerHour needed, const MachineRate& rate, Kilocalories calories) const {
    const auto as_watts = [](CaloriesPerHour one) { return *calorie_rate(Watts{one.value()}); };
    const auto back = [](CaloriesPerHour one) { return CaloriesPerHour{power(one)->value()}; };
    const CaloriesPerHour five_up{5 * std::ceil(needed.value() / 5 - course_slack)};
    const CaloriesPerHour floor = down_to_five(rate.rate);
    const auto raw = advise(as_watts(needed), as_watts(rate.rate),
                            as_watts(rate.alone.value_or(rate.rate * std::exp(one_in_four * rate.doubt))), rate.doubt);
    Card card{.needed = {},
              .floor = floor,
              .advice = {},
              .from = rate.rate * std::exp(-one_in_four * rate.doubt),
              .in_ten = {},
              .in_hand = {},
              .to_find = {}};
    if (!raw)
        return card;
    const CaloriesPerHour limit = down_to_five(back(raw->never_above));
    card.advice = *raw;
    card.advice.never_above = limit;
    card.advice.situation = five_up <= floor   ? Situation::goal_fits
                            : five_up <= limit ? Situation::stretch
                                               : Situation::out_of_reach;
    card.advice.hold = card.advice.situation == Situation::stretch ? five_up : floor;
    card.needed = five_up;
    card.in_ten = static_cast<int>(std::floor(10 * raw->chance + course_slack));
    const Seconds apart{3600 * calories.value() * (1 / five_up.value() - 1 / floor.value())};
    if (card.advice.situation == Situation::goal_fits) {
        card.in_hand = apart;
        card.from = std::max(five_up, card.from);
    } else {
        card.to_find = -apart;
        card.from = card.advice.situation == Situation::stretch ? five_up : card.from;
    }
    return card;
}

void Planner::set_card() {
    if (!plan_.main || !plan_.goal)
        return;
    const auto& settings = workout_.settings;
    const MachineRate& rate = *rate_of_station(*plan_.main);
    const auto needed = needed_for(plan_.goal->goal);
    if (!needed)
        return; // the goal ends before the ergometer
    plan_.no_room = !(needed->value() > 0);
    if (!plan_.no_room)
        plan_.needs = *needed;
    const Kilocalories calories = calories_of_main();
    if (rate.source == RateSource::tests && !intervals()) {
        const auto& tests = athlete_.machines[static_cast<std::size_t>(rate.machine)];
        const auto ceiling = hold_rate({.cap = task_,
                                        .calories = calories,
                                        .other = plan_.other,
                                        .values = *tests.values,
                                        .work_share = settings.work_share},
                                       settings.keep);
        if (ceiling)
            plan_.ceiling = *ceiling;
    } else if (rate.alone) {
        plan_.ceiling = rate.alone;
    }
    const CaloriesPerHour asked = plan_.no_room ? beyond_any : *needed;
    if (rate.machine == Machine::armbike) {
        plan_.card = card_of_arm_bike(asked, rate, calories);
    } else {
        const auto limit = plan_.ceiling.value_or(beyond_any); // without a test nothing limits the rate but its doubt
        const auto made = card(asked, rate.rate, std::max(limit, rate.rate), rate.doubt, calories);
        if (made)
            plan_.card = *made;
    }
    if (plan_.card && plan_.no_room) {
        plan_.card->needed.reset();
        plan_.card->to_find.reset();
    }
    if (plan_.card)
        for (const auto& one : course_->rounds())
            for (const auto& leg : one.legs)
                if (leg.station == *plan_.main && !plan_.on_machine)
                    plan_.on_machine =
                        Seconds{(athlete_.team ? own_units(leg.station, leg.amount) : share_ * leg.amount) *
                                seconds_each_at(leg.station, plan_.card->advice.hold)};
    if (!reasons_)
        return;
    const auto goal = step_input(Fact::goal, say("goal"),
                                 {Measure::text, plan_.goal->goal.score.rounds, plan_.goal->goal.score.text});
    const Value plan_rate{Measure::cal_per_hour, rate.rate.value()};
    const Value need{Measure::cal_per_hour, needed->value()};
    reason({.fact = Fact::needs,
            .what = say("What the goal needs of the ergometer"),
            .from = {goal, setting_input("fade", say("fade of round times"), {Measure::share, settings.fade}),
                     step_input(Fact::round_time, say("time per round"), {Measure::seconds, plan_.round_time.value()})},
            .rule = say("all ergometers faster or slower by one factor, everything else at its usual time"),
            .value = need});
    if (plan_.ceiling)
        reason({.fact = Fact::ceiling,
                .what = say("Ceiling"),
                .from = {setting_input("keep", say("reserve not to be touched"), {Measure::share, settings.keep}),
                         step_input(Fact::other_time, say("time off the machine"),
                                    {Measure::seconds, plan_.other.time.value()})},
                .rule = say("no higher than can be held alone for the whole task"),
                .value = {Measure::cal_per_hour, plan_.ceiling->value()}});
    if (!plan_.card)
        return;
    const std::vector<Input> from{
        step_input(Fact::rate, say("rate to plan with"), plan_rate, plan_.main),
        step_input(Fact::needs, say("what the goal needs"), need),
        step_input(Fact::doubt, say("how well the rate is known"), {Measure::share, rate.doubt})};
    const auto& advice = plan_.card->advice;
    reason({.fact = Fact::never_above,
            .what = say("Never above, before the last round"),
            .from = from,
            .rule = say("what one athlete in four holds, and never above the ceiling; rounded down to 5 cal/h"),
            .value = {Measure::cal_per_hour, advice.never_above.value()}});
    reason({.fact = Fact::hold,
            .what = say("Rate to hold"),
            .from = from,
            .rule = say("the rate to plan with, or what the goal needs where that is a stretch; steps of 5 cal/h"),
            .value = {Measure::cal_per_hour, advice.hold.value()}});
    reason({.fact = Fact::situation,
            .what = say("Margin"),
            .from = from,
            .rule = say("1: the goal fits; 2: a stretch; 3: out of reach"),
            .value = {Measure::number, static_cast<double>(advice.situation)}});
    reason({.fact = Fact::chance,
            .what = say("Chance to hold what the goal needs"),
            .from = from,
            .rule = say("a normal distribution of the logarithm of the watts"),
            .value = {Measure::share, advice.chance}});
}

// One or two easy rounds, then one at planned pace; never more than a fifth of the work (common practice).
void Planner::set_rehearsal() {
    if (!plan_.goal || intervals())
        return;
    const auto& settings = workout_.settings;
    const auto& goal = *plan_.goal;
    const Course even = stretched(goal.goal, {});
    const double work = even.seconds_to(goal.goal.score.point);
    const double round = even.round(1).time;
    if (even.round(1).legs.empty())
        return;
    const double most = rehearsed_work * work / round; // rounds
    Rehearsal rehearsal;
    rehearsal.easy_rounds =
        std::clamp(static_cast<int>(std::floor(most + course_slack)) - 1, 0, settings.rehearsal_rounds - 1);
    rehearsal.planned = std::min(1.0, most);
    rehearsal.planned_time = Seconds{round * rehearsal.planned};
    const auto easy = rehearsal_time(Seconds{round}, settings.rehearsal);
    rehearsal.easy_time = easy ? *easy : Seconds{round};
    if (plan_.card) {
        rehearsal.planned_rate = plan_.card->advice.hold;
        rehearsal.easy_rate = down_to_five(plan_.card->advice.hold * settings.rehearsal);
    }
    plan_.rehearsal = rehearsal;
    reason(
        {.fact = Fact::rehearsal,
         .what = say("Practice before the start"),
         .from = {setting_input("rehearsal_rounds", say("rounds of practice"),
                                {Measure::rounds, static_cast<double>(settings.rehearsal_rounds)}),
                  setting_input("rehearsal", say("share of the planned pace in easy rounds"),
                                {Measure::share, settings.rehearsal}),
                  step_input(Fact::goal, say("goal"), {Measure::text, goal.goal.score.rounds, goal.goal.score.text})},
         .rule = say("easy rounds, then one at planned pace; never more than a fifth of the work"),
         .value = {Measure::rounds, rehearsal.easy_rounds + rehearsal.planned}});
}

} // namespace pacecells
