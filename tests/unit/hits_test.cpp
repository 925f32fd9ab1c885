#include "pacecells/hits.h"

#include "expect.h"

#include <cmath>

namespace pacecells {
namespace {

TEST(Hits, AreCountedAtBothEnds) {
    const std::vector<Forecasted> past{{180, 210, 195}, {180, 210, 180},         {180, 210, 210}, {180, 210, 179},
                                       {180, 210, 211}, {640, 600, 655}, // seconds, the slower end first
                                       {640, 600, 620}, {180, not_a_number, 190}};
    const auto hits = hits_of(past);
    EXPECT_EQ(hits.below, 1u);
    EXPECT_EQ(hits.inside, 4u);
    EXPECT_EQ(hits.above, 2u);
    EXPECT_EQ(hits.all(), 7u);
}

std::string said(std::size_t inside, std::size_t outside) {
    return verdict({.below = outside, .inside = inside, .above = 0}).message();
}

TEST(Hits, SayWhetherTheRangesAreRight) {
    // Of 20, each inside with 0.8: at most 11 come in 1.0 % of all cases, at most 12 in 3.2 %, all 20 in 1.2 %, 19 or
    // more in 6.9 % (sums of binomial terms, worked out apart).
    EXPECT_EQ(said(11, 9), "11 of 20 results lay in the range, where 16 should: the ranges are too narrow.");
    EXPECT_EQ(said(12, 8), "12 of 20 results lay in the range, where 16 should: that is within luck.");
    EXPECT_EQ(said(19, 1), "19 of 20 results lay in the range, where 16 should: that is within luck.");
    EXPECT_EQ(said(20, 0),
              "20 of 20 results lay in the range, where 16 should: the ranges are wider than they need to be.");
    // At most 9 of 16 come in 2.67 %, 24 or more of 25 in 2.74 %, by scipy: 2.5 % on each side is luck.
    EXPECT_EQ(said(9, 7), "9 of 16 results lay in the range, where 13 should: that is within luck.");
    EXPECT_EQ(said(24, 1), "24 of 25 results lay in the range, where 20 should: that is within luck.");
    EXPECT_EQ(said(0, 0), "No forecast has a result yet.");
    EXPECT_EQ(said(0, 1), "0 of 1 results lay in the range, where 1 should: that is within luck.");
    EXPECT_EQ(said(0, 3), "0 of 3 results lay in the range, where 2 should: the ranges are too narrow.");
}

TEST(Rates, AreToldFromTheResultsBefore) {
    const std::vector<Observation> results{{.ratio = 1.1, .error = 0.05}, {.ratio = 1.2, .error = 0.05}};
    const auto told = value_of(told_rates(results));
    ASSERT_EQ(told.size(), 2u);
    // Before the first result: factor 1, error sqrt(0.10^2 + 0.03^2 + 0.05^2) = 0.1158, times 1.2816.
    EXPECT_NEAR(told[0].high, std::exp(1.2816 * 0.115758), 1e-5);
    EXPECT_NEAR(told[0].low, std::exp(-1.2816 * 0.115758), 1e-5);
    EXPECT_EQ(told[0].came, 1.1);
    // Then the factor is 1.0792, its error (100 + 400)^-1/2 = 0.0447.
    EXPECT_NEAR(told[1].high, 1.079230 * std::exp(1.2816 * std::sqrt(0.002 + 0.0009 + 0.0025)), 1e-5);
    EXPECT_EQ(hits_of(told).inside, 1u);
    EXPECT_EQ(hits_of(told).above, 1u);
    EXPECT_TRUE(value_of(told_rates({})).empty());
    EXPECT_REFUSED(told_rates(std::vector<Observation>{{.ratio = 0.1, .error = 0.05}, {.ratio = 1, .error = 0.05}}));
}

} // namespace
} // namespace pacecells
