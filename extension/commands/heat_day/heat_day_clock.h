// The clocks of a heat.
#pragma once

#include "pacecells/quantity.h"

#include <string>

namespace pacecells {

// A clock that only goes forward, whatever is done to the time of day, and goes on while the computer sleeps: zero when
// the computer was switched on.
[[nodiscard]] Seconds steady_now();

// Which run of the computer it is: steady_now() means the same as long as this is the same.
[[nodiscard]] const std::string& computer_run();

// Seconds since 1970; then at a reading of steady_now().
[[nodiscard]] double day_now();
[[nodiscard]] double day_of(Seconds when);

// Date and time of day here, as 2026-03-01 18:05.
[[nodiscard]] std::string day_and_time(double day);

// The local time of day as the office counts it: a share of the day.
[[nodiscard]] double share_of_day(double day);

} // namespace pacecells
