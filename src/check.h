// Guards that every subject uses.
#pragma once

#include "pacecells/result.h"

#include <cmath>

namespace pacecells {

// Written so that NaN fails both.
[[nodiscard]] inline bool positive(double value) { return value > 0 && std::isfinite(value); }
[[nodiscard]] inline bool not_negative(double value) { return value >= 0 && std::isfinite(value); }

// A result that left the range of numbers is no answer.
template <class Quantity>
[[nodiscard]] Result<Quantity> finite(Quantity result) {
    if (!std::isfinite(result.value()))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return result;
}

} // namespace pacecells
