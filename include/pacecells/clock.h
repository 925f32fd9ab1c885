// Writing and reading times as a gym clock shows them.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <string>
#include <string_view>

namespace pacecells {

// Reads minutes and seconds, or hours, minutes and seconds.
//
// Formula: "m:ss" is 60 m + ss, "h:mm:ss" is 3600 h + 60 mm + ss; the seconds may have decimals after a point or a
// comma. Minutes without hours may pass 60.
// Domain: two digits after each colon, those below 60; digits without a colon are refused (2.5 could be minutes,
// hours or reps), as are signs and anything else. Outer spaces do not matter.
// Source: common practice.
// Example: "2:30" is 150 s, "90:00" is 5400 s, "1:02:30" is 3750 s, "2:30,5" is 150.5 s.
[[nodiscard]] Result<Seconds> parse_clock(std::string_view text);

// Writes a time: m:ss below one hour, h:mm:ss from there on, always with a point before decimals.
//
// Formula: rounded half up, first to 1e-6 s, so that 5.5 s is "0:06" whatever its binary form; carries.
// Domain: 0 <= time <= 1e9 s; decimals 0 to 3.
// Source: common practice.
// Example: 150 s is "2:30"; 59.96 s with one decimal is "1:00.0"; 3599.7 s is "1:00:00".
[[nodiscard]] Result<std::string> clock_text(Seconds time, int decimals = 0);

} // namespace pacecells
