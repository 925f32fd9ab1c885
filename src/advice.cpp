#include "pacecells/advice.h"

#include "pacecells/ergometer.h"
#include "pacecells/learning.h"

#include "check.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace pacecells {
namespace {

constexpr CaloriesPerHour resting{300}; // no power
constexpr CaloriesPerHour step{5};      // of rates on a card

double normal_below(double z) { return std::erfc(-z / std::numbers::sqrt2) / 2; }

// The rate whose watts are those of this rate times a factor. Domain: rate above 300.
CaloriesPerHour scaled(CaloriesPerHour rate, double factor) { return resting + (rate - resting) * factor; }

std::optional<Error> refused(CaloriesPerHour needed, CaloriesPerHour floor, CaloriesPerHour ceiling, double doubt,
                             double reach) {
    if (!not_negative(needed.value()))
        return out_of_domain("The rate needed must be 0 cal/h or more; got %1.", needed.value());
    if (!(floor > resting) || !std::isfinite(floor.value()))
        return out_of_domain("The rate to plan with must be above 300 cal/h; got %1.", floor.value());
    if (!(ceiling >= floor) || !std::isfinite(ceiling.value()))
        return out_of_domain("The ceiling is %1 cal/h; at least the rate to plan with of %2 is needed.",
                             ceiling.value(), floor.value());
    if (!positive(doubt))
        return out_of_domain("The doubt must be above 0, such as 0.112; got %1.", doubt);
    if (!positive(reach))
        return out_of_domain("The reach must be above 0, such as 0.6745; got %1.", reach);
    return {};
}

Advice advice_for(CaloriesPerHour needed, CaloriesPerHour floor, CaloriesPerHour limit, double chance) {
    const Situation situation = needed <= floor   ? Situation::goal_fits
                                : needed <= limit ? Situation::stretch
                                                  : Situation::out_of_reach;
    return {.hold = situation == Situation::stretch ? needed : floor,
            .never_above = limit,
            .situation = situation,
            .chance = chance};
}

CaloriesPerHour limit_of(CaloriesPerHour floor, CaloriesPerHour ceiling, double doubt, double reach) {
    return std::min(ceiling, scaled(floor, std::exp(reach * doubt)));
}

double chance_of(CaloriesPerHour needed, CaloriesPerHour floor, double doubt) {
    return needed <= resting ? 1 : normal_below(-std::log((needed - resting) / (floor - resting)) / doubt);
}

double rounded_down(double value) { return std::floor(value + 1e-9); }

} // namespace

Result<double> planned_share(const OtherStations& other, double factor, double keep, Shares shares) {
    if (auto error = refused(other))
        return *error;
    if (!(factor >= least_factor) || !(factor <= most_factor))
        return out_of_domain("The factor must be from 0.8 to 1.2; got %1.", factor);
    if (!(keep >= 0) || !(keep < 1))
        return out_of_domain("The share to keep must be from 0 to below 1; got %1.", keep);
    if (!(shares.all_work > 0) || !(shares.all_work <= shares.all_rest) || !(shares.all_rest <= 1))
        return out_of_domain(
            "The shares to plan with are %1 for all work and %2 for all rest; they must be above 0, at "
            "most 1, and the second not below the first.",
            shares.all_work, shares.all_rest);
    constexpr double least_time = 30;
    const double work =
        (other.work().value() + walking_effort * other.walk.value()) / std::max(other.time.value(), least_time);
    return std::min(1 - keep, factor * (shares.all_rest - (shares.all_rest - shares.all_work) * work));
}

Result<Advice> advise(CaloriesPerHour needed, CaloriesPerHour floor, CaloriesPerHour ceiling, double doubt,
                      double reach) {
    if (auto error = refused(needed, floor, ceiling, doubt, reach))
        return *error;
    return advice_for(needed, floor, limit_of(floor, ceiling, doubt, reach), chance_of(needed, floor, doubt));
}

Result<Card> card(CaloriesPerHour needed, CaloriesPerHour floor, CaloriesPerHour ceiling, double doubt,
                  Kilocalories calories, double reach) {
    if (auto error = refused(needed, floor, ceiling, doubt, reach))
        return *error;
    if (!positive(calories.value()))
        return out_of_domain("The calories must be above 0; got %1.", calories.value());
    const auto down = [](CaloriesPerHour rate) { return step * rounded_down(rate / step); };
    const CaloriesPerHour goal = -down(-needed);
    const CaloriesPerHour plan = down(floor);
    const CaloriesPerHour lower = scaled(floor, std::exp(-reach * doubt));
    const Advice advice =
        advice_for(goal, plan, down(limit_of(floor, ceiling, doubt, reach)), chance_of(goal, floor, doubt));
    Card card{.needed = {}, .floor = plan, .advice = advice, .from = lower, .in_ten = {}, .in_hand = {}, .to_find = {}};
    if (goal.value() == 0)
        return card;
    const Seconds apart{3600 * calories.value() * (1 / goal.value() - 1 / plan.value())};
    card.needed = goal;
    card.in_ten = static_cast<int>(rounded_down(10 * advice.chance));
    if (advice.situation == Situation::goal_fits) {
        card.in_hand = apart;
        card.from = std::max(goal, lower);
    } else {
        card.to_find = -apart;
        card.from = advice.situation == Situation::stretch ? goal : lower;
    }
    return card;
}

} // namespace pacecells
