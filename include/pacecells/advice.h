// What to tell an athlete: the rate to plan with, and what to hold for a goal.
//
// The share of rate_alone that is really held in a mixed task is empirical. The numbers here are judgement until
// results replace them, first the athlete's own (learning.h). A model of the reserve cannot: see reserve.h.
#pragma once

#include "pacecells/critical_power.h"
#include "pacecells/quantity.h"
#include "pacecells/reserve.h"
#include "pacecells/result.h"

#include <optional>

namespace pacecells {

// Shares of the watts of rate_alone to plan with (judgement, both ends).
struct Shares {
    double all_work = usual_share; // all the time off the ergometer is hard work
    double all_rest = 0.90;        // all of it is rest
};

// The share of rate_alone's watts to plan with in a mixed task.
//
// Formula: min(1 - keep, factor (all_rest - (all_rest - all_work) L)), L = (work + 0.3 walk) / max(time, 30 s):
// how much of the time off the ergometer is work. Less than 30 s counts in proportion (judgement).
// Domain: times as in OtherStations; factor 0.8 to 1.2, the athlete's own (learning.h); 0 <= keep < 1;
// 0 < all_work <= all_rest <= 1.
// Order: more rest, or walking turned into rest, never lowers it. Calories and cap do not enter.
// Example: 94 s of hard work give 0.75; 154 s of which 60 s rest 0.80844.
[[nodiscard]] Result<double> planned_share(const OtherStations& other, double factor = 1, double keep = usual_keep,
                                           Shares shares = {});

enum class Situation {
    goal_fits = 1,    // the goal needs no more than the rate to plan with, or there is no goal
    stretch = 2,      // more than that, up to the limit
    out_of_reach = 3, // more than the limit
};

struct Advice {
    CaloriesPerHour hold;
    CaloriesPerHour never_above; // before the last round
    Situation situation;
    double chance; // that the athlete holds what the goal needs, 0 to 1
};

// Standard normal quantile of 0.75: one athlete in four holds a rate so many doubts above the rate to plan with.
// People chase the upper figure, so the limit is no higher (judgement).
inline constexpr double one_in_four = 0.6745;

// What to hold for a goal, and the limit.
//
// Formula: with W the watts of a rate, never above G = min(ceiling, rate of W(floor) e^(reach doubt)).
//   needed <= floor: hold the floor; floor < needed <= G: hold what is needed; beyond: hold the floor.
//   chance = Phi(-ln(W(needed) / W(floor)) / doubt); 1 where needed is 300 cal/h or less.
// Domain: needed at least 0 (0: no goal), 300 < floor <= ceiling, doubt above 0 (learning.h), reach above 0.
// Example: 240 W, 18 kJ, 18 min, 13 cal, 88 s have the floor 962.508 and the ceiling 1183.344. With doubt 0.112, 1000
// is a stretch that three in ten hold, and the limit is 1014.
[[nodiscard]] Result<Advice> advise(CaloriesPerHour needed, CaloriesPerHour floor, CaloriesPerHour ceiling,
                                    double doubt, double reach = one_in_four);

// The advice in numbers for a card: floor and limit rounded down to 5 cal/h, needed rounded up to 5.
struct Card {
    std::optional<CaloriesPerHour> needed; // none without a goal
    CaloriesPerHour floor;
    Advice advice;                  // of the rounded rates
    CaloriesPerHour from;           // what to expect: from here to the limit, unrounded
    std::optional<int> in_ten;      // whole tenths of the chance; 0 is "fewer than one"
    std::optional<Seconds> in_hand; // each round, where the goal fits: ergometer time at needed less that at the floor
    std::optional<Seconds> to_find; // each round, where it does not: the other way round, from the other stations
};

// Formula: from = max(needed, lower), needed or lower, by situation; lower is the rate of W(floor) e^(-reach doubt),
// which three in four hold. Where needed, rounded up, passes the limit, rounded down, it is out of reach.
// Domain: as advise, calories above 0.
// Example: the athlete above with 13 cal and 800 needed: hold 960, not above 1010, 9.75 s in hand.
[[nodiscard]] Result<Card> card(CaloriesPerHour needed, CaloriesPerHour floor, CaloriesPerHour ceiling, double doubt,
                                Kilocalories calories, double reach = one_in_four);

} // namespace pacecells
