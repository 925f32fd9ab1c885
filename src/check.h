// Guards that every subject uses, and the sentence for a value that fails one.
#pragma once

#include "pacecells/result.h"
#include "pacecells/text.h"

#include <cmath>
#include <optional>
#include <string>

namespace pacecells {

// Written so that NaN fails both.
[[nodiscard]] inline bool positive(double value) { return value > 0 && std::isfinite(value); }
[[nodiscard]] inline bool not_negative(double value) { return value >= 0 && std::isfinite(value); }

// "The cap must be above 0 s; got -5."
[[nodiscard]] inline Error refused(const char* what, const char* need, double got) {
    return out_of_domain(std::string{what} + " must be " + need + "; got " + number_text(got) + ".");
}

// A result that left the range of numbers is no answer.
template <class Quantity>
[[nodiscard]] Result<Quantity> finite(Quantity result) {
    if (!std::isfinite(result.value()))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return result;
}

} // namespace pacecells
