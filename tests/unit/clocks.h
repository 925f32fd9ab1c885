// Clocks of rounds, for tests of a heat.
#pragma once

#include "pacecells/quantity.h"

#include <vector>

namespace pacecells {

constexpr Seconds at(double value) { return Seconds{value}; }

// Of so many rounds, each of so many seconds.
inline std::vector<Seconds> every(double time, int rounds) {
    std::vector<Seconds> clocks;
    for (int k = 1; k <= rounds; ++k)
        clocks.push_back(at(time * k));
    return clocks;
}

} // namespace pacecells
