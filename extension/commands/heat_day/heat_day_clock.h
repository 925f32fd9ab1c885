// The clocks of a heat.
#pragma once

#include "pacecells/quantity.h"

#include <string>

namespace pacecells {

// A clock that only goes forward, whatever is done to the time of day, and goes on while the computer sleeps: zero when
// the computer was switched on.
[[nodiscard]] Seconds steady_now();

// When the event that is being handled happened, in steady_now(), for a key that had to wait while the sheet was
// calculated. Known where the office stands on GTK and the display is this computer's; else it is now.
[[nodiscard]] Seconds event_now();

// Which run of the computer it is: steady_now() means the same as long as this is the same.
[[nodiscard]] const std::string& computer_run();

// Seconds since 1970.
[[nodiscard]] double day_now();

// Date and time of day here, as 2026-03-01 18:05.
[[nodiscard]] std::string day_and_time(double day);

// The local time of day as the office counts it: a share of the day.
[[nodiscard]] double share_of_day(double day);

} // namespace pacecells
