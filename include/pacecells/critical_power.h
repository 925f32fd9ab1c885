// What the tests of an athlete say: the power that can be held for long, and the work in reserve above it.
#pragma once

#include <optional>
#include <span>

#include "pacecells/quantity.h"
#include "pacecells/result.h"

namespace pacecells {

struct CriticalPower {
    Watts critical;
    Joules reserve; // work that can be done above the critical power, W'
};

// Both are above 0 and finite, or an error that says which is not.
Result<CriticalPower> checked(CriticalPower values);

struct CriticalPowerFit {
    CriticalPower values;
    // Not known from two tests, through which the line is exact.
    std::optional<Watts> critical_error;
    std::optional<Joules> reserve_error;
    std::optional<double> r_squared;
};

// Critical power and reserve from maximal efforts: the least-squares line of work over time,
//   work = reserve + critical * time, work = watts * time.
// Domain: as many watts as times, two tests or more, all above 0, times all different. Tests outside 2 to 20 minutes
// are answered, though the line is honest only inside.
// No solution: either value not above 0 (the tests contradict each other).
// Source: Gaesser et al. 1995, Med Sci Sports Exerc 27:1430 (work-time form).
// Example: 300 s at 320 W and 900 s at 260 W give 230 W and 27000 J.
Result<CriticalPowerFit> fit_critical_power(std::span<const Seconds> times, std::span<const Watts> watts);

// Power that can be held for that time: critical + reserve / time. Domain: time above 0.
Result<Watts> power_for(Seconds time, CriticalPower values);

// cal/h that can be held for the whole cap with nothing else to do. Domain: cap above 0.
Result<CaloriesPerHour> rate_alone(Seconds cap, CriticalPower values);

// cal/h to hold to the end of a mixed task: a share of the watts of rate_alone. The share 0.75 is judgement, no source.
// Domain: 0 < share <= 1.
Result<CaloriesPerHour> rate_floor(Seconds cap, CriticalPower values, double share = 0.75);

// Time over another distance, from one known: time * (distance / known distance) ^ exponent.
// Domain: all above 0. Source: P. Riegel 1981, American Scientist 69:285.
// Example: 20:00 over 5 km gives 41:41.9 over 10 km.
Result<Seconds> predict_time(Seconds known_time, Metres known_distance, Metres distance, double exponent = 1.06);

} // namespace pacecells
