// What it costs to leave even pace: to fade, or to start slower and end faster.
#pragma once

#include "pacecells/critical_power.h"
#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <cstdint>

namespace pacecells {

enum class Pacing : std::uint8_t { even, fade, faster }; // in the order of WordList::pacing

// The reserve in seconds of critical power, where no test tells it: judgement, in the middle of what trained people have.
inline constexpr Seconds usual_reserve_time{75};

// Time lost against even pace over a task, for somebody who could just hold the even pace to its end.
//
// Effort above critical power is paid from the reserve, and the whole reserve lasts exactly at even pace. As long as no
// part of the task is done below critical power, it does not matter when the reserve is spent: nothing is lost. What is
// done below it cannot be made up: the reserve spent in the fast part is not enough for the mean pace any more (Fukuba and
// Whipp 1999). Nothing comes back within the task, so the cost is rather too high; tired muscles are not in it. A fade and
// a faster end of the same size cost the same here.
//
// Symbols: T time, d = |drift| of the time for a unit from start to end, m = W' / (CP T), g how much faster effort rises
// than pace (1 for reps, r / (r - 300) for calories at r cal/h, 3 for metres on an air brake), B1 = 1 + (1 + m)(g - 1).
// Formula: 0 while m >= B1 d / 2. Else, with A = (1 + m) g, c = 1 - d / 2, e = A c + m d:
//   slower by k = A^2 / (B1 (e + sqrt(e^2 - A^2 c^2))), and T (k - 1) is lost.
// It is where the mean of max(0, A - B s) over s from 1 - d / 2 to 1 + d / 2 is m again, B = k B1.
// Domain: T > 0, |drift| <= 1, reserve_time > 0, gain >= 1.
// Source: critical power (Monod and Scherrer 1965, from memory); that time lost below it cannot be made up, and that the
// reserve in seconds of critical power says how much pace may differ: Fukuba and Whipp 1999, J Appl Physiol 87:853, whose
// abstract was read. The formula for a straight drift was worked out here. With a third parameter, of the highest power,
// every pace but all out loses time (Morton 2009, IMA J Manag Math 20:109, abstract).
// Example: 17 min, 20 % of fade, 75 s of reserve, effort as pace: 2.1 s; at 12 % nothing.
[[nodiscard]] Result<Seconds> pacing_cost(Seconds time, double drift, Seconds reserve_time = usual_reserve_time,
                                          double gain = 1);

// The reserve in seconds of critical power.
[[nodiscard]] inline Seconds reserve_time(const CriticalPower& values) {
    return Seconds{values.reserve.value() / values.critical.value()};
}

} // namespace pacecells
