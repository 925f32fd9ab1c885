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

// cal/h to plan with in a mixed task: a share of the watts of rate_alone. The usual share is judgement, no source; a
// better one is planned_share in advice.h.
// Domain: 0 < share <= 1.
inline constexpr double usual_share = 0.75;
Result<CaloriesPerHour> rate_floor(Seconds cap, CriticalPower values, double share = usual_share);

inline constexpr double riegel_exponent = 1.06; // of time over distance

// cal/h at a share of those watts, which are what can be held for the whole cap with nothing else to do.
// Domain: watts above 0, 0 < share <= 1.
Result<CaloriesPerHour> rate_in_mixed_task(Watts alone, double share);

// Time over another distance, from one known: time * (distance / known distance) ^ exponent.
// Domain: all above 0. Source: P. Riegel 1981, American Scientist 69:285.
// Example: 20:00 over 5 km gives 41:41.9 over 10 km.
Result<Seconds> predict_time(Seconds known_time, Metres known_distance, Metres distance,
                             double exponent = riegel_exponent);

// Power over another time, from one test on an ergometer: the same rule, as power grows with the cube of the speed.
//
// Formula: power * (known time / time) ^ (3 - 3 / 1.06), an exponent of 0.17.
// Domain: all above 0. Source: predict_time, and power_at_split for the cube. That the exponent of runners holds on
// ergometers is judgement; 0.13 to 0.21 is usual (judgement), so 3 min say more about 5 min than about 20.
// Example: 300 W for 8 min are 256.8 W for 20 min.
Result<Watts> predict_power(Watts known_power, Seconds known_time, Seconds time);

// About the most that the best in the world hold on an ergometer for that time. What is above it has a wrong unit.
//
// Formula: 1000 W for 1 min, 650 for 4, 600 for 6, 480 for 15, 400 for 60; between and beyond them straight lines of
// the logarithms. Domain: time above 0. Source: judgement, from memory.
// Example: 806.2 W for 2 min.
Result<Watts> most_watts(Seconds time);

// The time of 4 and 15 min for which critical power and reserve say more than the best hold; none where they may be true.
// Shorter and longer the two say too much of anybody.
std::optional<Seconds> beyond_the_best(const CriticalPower& values);

// On a fan bike, whose calories tell no watts. Source: judgement.
inline constexpr CaloriesPerHour most_on_fan_bike{6000};

// The power of a test, or a sentence that asks whether its unit is right where it is above most_watts.
Result<Watts> believable(Watts power, Seconds time);

} // namespace pacecells
