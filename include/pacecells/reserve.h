// The reserve through a task of rounds: an ergometer, then other stations, again and again until the cap.
//
// Above critical power the reserve is spent at power - critical. Below it, what was spent decays:
//   spent * exp(-(critical - power) * time / reserve)
// A round: the ergometer for 3600 * calories / rate seconds at the power of that rate, then the other stations at
// effort_between * critical. Rounds counted are those begun before the cap: ceil(cap / round - 1e-9).
// What is spent at the end of an ergometer never falls from round to round, so the last one is the peak.
// Source: Skiba et al. 2015, differential W' balance (formula seen quoted); 12 591.82 J in hand after 60 s at 100 W
// below critical with 10 of 20 kJ spent.
#pragma once

#include <optional>

#include "pacecells/critical_power.h"
#include "pacecells/quantity.h"
#include "pacecells/result.h"

namespace pacecells {

// Domain of all three functions: cap and calories above 0, other at least 0, values above 0, effort finite.
struct MixedTask {
    Seconds cap;
    Kilocalories calories; // on the ergometer, each round
    Seconds other;         // all else in the round
    CriticalPower values;
    double effort_between = 1.10; // of the other stations, as a share of critical power; no source, so fit it
};

// The ceiling: the highest cal/h whose peak of spending stays within (1 - keep) of the reserve. A rate at which the
// number of rounds jumps counts itself. Powers need 300 cal/h or more, so no lower rate is looked at.
// Domain: 0 <= keep < 1.
// No solution: every rate stays within it, or none does.
Result<CaloriesPerHour> hold_rate(const MixedTask& task, double keep = 0.10);

// Share of the reserve left after the ergometer of that round (the last one if left out); negative where overdrawn.
// Domain: rate 300 cal/h or more; round whole, from 1. No solution: a round not begun before the cap.
Result<double> reserve_left(const MixedTask& task, CaloriesPerHour rate, std::optional<double> round = {});

// The effort_between that a rate really held implies: hold_rate turned round. task.effort_between is not used.
// No solution: the reserve does not bind at that rate, whatever the effort.
Result<double> effort_between(const MixedTask& task, CaloriesPerHour rate, double keep = 0.10);

} // namespace pacecells
