#include "pacecells/hits.h"

#include "pacecells/athlete_plan.h"

#include "quiet.h"

#include <boost/math/distributions/binomial.hpp>

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr double luck = 0.025; // on each side

} // namespace

Hits hits_of(std::span<const Forecasted> forecasts) {
    Hits hits;
    for (const auto& [one, other, came] : forecasts) {
        if (!std::isfinite(one) || !std::isfinite(other) || !std::isfinite(came))
            continue;
        const auto [low, high] = std::minmax(one, other);
        ++(came < low ? hits.below : came > high ? hits.above : hits.inside);
    }
    return hits;
}

Said verdict(const Hits& hits) {
    if (hits.all() == 0)
        return say("No forecast has a result yet.");
    const boost::math::binomial_distribution<double, Quiet> right(static_cast<double>(hits.all()), told_share);
    const auto inside = static_cast<double>(hits.inside);
    const double expected = std::round(told_share * static_cast<double>(hits.all()));
    if (boost::math::cdf(right, inside) < luck)
        return say("%1 of %2 results lay in the range, where %3 should: the ranges are too narrow.", hits.inside,
                   hits.all(), expected);
    if (hits.inside > 0 && boost::math::cdf(boost::math::complement(right, inside - 1)) < luck)
        return say("%1 of %2 results lay in the range, where %3 should: the ranges are wider than they need to be.",
                   hits.inside, hits.all(), expected);
    return say("%1 of %2 results lay in the range, where %3 should: that is within luck.", hits.inside, hits.all(),
               expected);
}

Result<std::vector<Forecasted>> told_rates(std::span<const Observation> results) {
    std::vector<Forecasted> told;
    for (std::size_t i = 0; i < results.size(); ++i) {
        const auto factor = personal_factor(results.first(i));
        if (!factor)
            return factor.error();
        const double error = range_sd * std::hypot(factor->error, tests_error, results[i].error);
        told.push_back({.low = factor->value * std::exp(-error),
                        .high = factor->value * std::exp(error),
                        .came = results[i].ratio});
    }
    return told;
}

} // namespace pacecells
