// A usual pace where the gym has not said its own: what people of the middle group do, fresh.
//
// An announcement says what to do, not how long it takes. These numbers are a start, to be looked at and replaced by what
// the gym sees. They are common practice, no source.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/stations.h"

#include <optional>
#include <string_view>

namespace pacecells {

struct UsualPace {
    double rate = 0;     // as Station::usual_rate
    Seconds handling{0}; // each round
    bool known = true;   // false: the movement is not known, and a middling pace is taken
};

// None for holds and rests. A load has to be picked up.
// Example: reps of "hang cleans" take 3 s each; 15 cal of the rower go at 850 cal/h.
[[nodiscard]] std::optional<UsualPace> usual_pace(Unit unit, std::string_view movement, bool loaded = false);

} // namespace pacecells
