// The reserve through a task of rounds: an ergometer, then other stations, again and again until the cap.
//
// Above the critical power CP the reserve W' is spent at power - CP. Below it, what was spent decays:
//   spent * exp(-(CP - power) * time / W')
// What follows from the two rules alone: if no station is harder than the ergometer, and the ergometer is at or below
// the power that can be held alone for the cap (CP + W' / cap), the reserve cannot run out before the cap, whatever
// the task, even if nothing is ever recovered. So hold_rate is a guard rail and not a target: it moves within a few
// cal/h below rate_alone. The rate to plan with is advice.h.
// Source: Skiba et al. 2015, differential form of the W' balance (formula seen quoted); 12 591.82 J in hand after 60 s
// at 100 W below critical with 10 of 20 kJ spent. How fast a reserve comes back is uncertain: measured recoveries
// after 2, 6, 15 min are 37, 65, 86 % (Ferguson et al. 2010, from memory) where this gives 67, 89, 96 %. So show the
// reserve left in words. The ceiling does not depend on it.
#pragma once

#include "pacecells/critical_power.h"
#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <optional>

namespace pacecells {

// Judgement, no source: a tenth of the reserve is not to be touched; the other stations are worked at 90 % of the
// ergometer's watts (loaded circuits are done near the second ventilatory threshold, L. Smith et al. 2022, abstract
// read); walking and handling cost 30 % of the critical power.
inline constexpr double usual_keep = 0.10;
inline constexpr double usual_work_share = 0.90;
inline constexpr double walking_effort = 0.3;

// The time off the ergometer, each round. Domain: all at least 0, walk and rest together at most the time.
struct OtherStations {
    Seconds time;
    Seconds walk{0}; // of time: walking, picking up
    Seconds rest{0}; // of time

    [[nodiscard]] Seconds work() const;
};

[[nodiscard]] std::optional<Error> refused(const OtherStations& other);

// Domain of both functions: cap and calories above 0, values above 0, 0 < work_share <= 1.
struct MixedTask {
    Seconds cap;
    Kilocalories calories; // on the ergometer, each round
    OtherStations other;
    CriticalPower values;
    double work_share = usual_work_share; // power at the other stations, as a share of the ergometer's own
};

// The guard rail: the highest cal/h at which the reserve left at its lowest moment before the cap is at least keep.
//
// Formula: the largest P from Q = CP + (1 - keep) W' / cap to CP + W' / cap that spends at most (1 - keep) W'. Q always
// does, so there is always an answer.
// Domain: 0 <= keep < 1.
// Order: never above rate_alone. A shorter cap, more rest or less walking never lower it; more calories or harder
// stations never raise it.
// Example: 240 W, 18 kJ, 18 min, 13 cal, 88 s of stations: 1183.344, the rate alone; at work_share 1 1177.608.
[[nodiscard]] Result<CaloriesPerHour> hold_rate(const MixedTask& task, double keep = usual_keep);

// Share of the reserve left at the lowest moment before the cap, or within that many rounds; negative where overdrawn.
//
// Formula, a round in its least favourable order (ergometer, work, walking, rest), p = P - CP, v = work_share P - CP:
//   E = p t_e + max(v, 0) t_w                                       spent in a round
//   d = (max(-v, 0) t_w + 0.7 CP walk + CP rest) / W', q = exp(-d)  decays in a round
//   f(m) = 1 + q + ... + q^(m-1) = expm1(-m d) / expm1(-d)          m need not be whole
//   at the end of an ergometer at the cap: p t_e + q E f((cap - t_e) / T), T the round time
//   at the end of the work at the cap, where v > 0: E f((cap - t_e - t_w) / T + 1)
// The larger is spent; within n rounds it is E f(n). Nothing is spent at or below the critical power. This is smooth in
// every input, because m need not be whole, and a bound: stepped through in 0.1 s, 1 of 8000 random cases spent more,
// by 0.03 % of the reserve. It is exact where the cap is the end of an ergometer and the work spends nothing, or the
// end of work as hard as the ergometer.
// Domain: rate 300 cal/h or more; round whole, from 1. No solution: a round not begun before the cap.
// Example: 240 W, 18 kJ, 18 min, 13 cal, 103 s of which 15 s rest, work_share 0.95, 1280 cal/h: 0.76 after 1 round.
[[nodiscard]] Result<double> reserve_left(const MixedTask& task, CaloriesPerHour rate,
                                          std::optional<double> round = {});

} // namespace pacecells
