// How often results lay in the range that was told before.
#pragma once

#include "pacecells/learning.h"
#include "pacecells/result.h"

#include <cstddef>
#include <span>
#include <vector>

namespace pacecells {

inline constexpr double told_share = 0.8; // eight in ten are in the range: one in ten below it, one in ten above

struct Forecasted {
    double low = 0;
    double high = 0; // for a time the slower one may come first: the order of the two says nothing
    double came = 0;
};

struct Hits {
    std::size_t below = 0;
    std::size_t inside = 0; // the ends belong to it
    std::size_t above = 0;
    [[nodiscard]] std::size_t all() const { return below + inside + above; }
};

// Rows without three plausible numbers are left out.
[[nodiscard]] Hits hits_of(std::span<const Forecasted> forecasts);

// What the numbers say about the ranges: as many inside as told, within luck; too narrow; or too wide.
//
// Rule: too narrow where so few inside, or fewer, would come about less than once in forty times if eight in ten is
// right; too wide the same way (the binomial distribution, 95 % two-sided).
// Example: 11 of 20 are too narrow, 12 within luck, 20 wider than they need to be.
[[nodiscard]] Said verdict(const Hits& hits);

// The rates told to one person, event by event: the factor that the results before had taught, with one in ten below and
// above, and the ratio that came of it. Error: sqrt(factor's^2 + 0.03^2 of the tests + the result's own^2).
// Domain: as personal_factor, the oldest result first.
[[nodiscard]] Result<std::vector<Forecasted>> told_rates(std::span<const Observation> results);

} // namespace pacecells
