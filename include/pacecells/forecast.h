// What the clocks at the end of each round say: the score at the cap or the time at the finish, the fade, the spread.
//
// In words: the level of the last rounds, with the usual fade unless the rounds clearly say otherwise. A round that
// stands alone counts little. The range allows for a bad round or a slow-down to come, so it reaches further down than
// up. The constants are judgement, tuned in simulated tasks; no athlete's data was seen. How often the ranges hold
// there is a table that tests/bench prints. They are too wide where nothing happens, because they have to pay for
// slow-downs; a slow-down not yet begun at half-way, a sprint in the last seventh and a bad first round seen alone
// cannot be foreseen.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/score.h"

#include <optional>
#include <span>

namespace pacecells {

inline constexpr double usual_confidence = 0.9;

// Total reps at the cap, decimal; the reps of the last round go pro rata.
struct Forecast {
    Result<Reps> low;
    Result<Reps> expected;
    Result<Reps> high;
};

// Formula, for rounds y_1 ... y_m with the median A (with a plan: the plan for m = 1, the median of the three for
// m = 2), n = max(cap / A, m) rounds, noise s = 0.04 A and usual fade f = 0.06 A / n a round:
//   1. z_i = y_i - f (i - m); l_i, how far a round stands alone, is z_i less the median of itself and its neighbours
//      (at either end of the first or last three; of two rounds half the difference, with a plan z_i less the median of
//      both and the plan; of one round 0, with a plan how far it is more than 20 % of the plan from it).
//   2. Trust u_i = min(1, 5 / (4 + l_i^2 / s^2)), of the last round min(1, 1.5 s / |l_m|): it may begin a slow-down.
//   3. Weight w_i = u_i exp(-(m - i) / (0.35 n)), halved for the first round. W = sum w, i0 and y0 weighted means,
//      lambda = s^2 / (0.05 A / n)^2, slope b = (Sxy + lambda f) / (Sxx + lambda): the line's, drawn to the usual fade.
//   4. With a plan: it joins y0 as plan + f (i0 - (n + 1) / 2), of weight s^2 / (0.10 plan)^2.
//   5. Freedom 7 + m, variance of a round v = (8 s^2 + sum u_i (y_i - y0 - b (i - i0))^2) / (7 + m),
//      jump = 0.25 l_m^2 (1 - u_m) for m > 1.
//   6. The next round takes c = y0 + b (m - i0 + 1/2); R is left to the cap. (Wild rounds: c is at least y0 / 4, and
//      the plan in step 4 at least half of itself.)
//      expected = m + x, x = 2 R / (c + sqrt(max(c^2 + 2 b R, c^2 / 4))): no round becomes shorter than c / 2.
//   7. V = v x + x^2 (v / W + (m - i0 + (x + 1) / 2)^2 v / (Sxx + lambda) + jump) + A^2 (0.03^2 x^2 + 0.05^2 x^3 / 3n)
//      low = m + x exp(-t sqrt(V + A^2 (0.09^2 x + 0.08^2 x^3 / 3n)) / R), high = m + x exp(t sqrt(V) / R),
//      t from Student's distribution. Just before the cap that exponent has no bound, so from 1 on exp goes straight
//      on along its tangent.
// Domain: clocks increasing, above 0, the last at most the cap; 0 < confidence < 1; planned, a round time,
// above 0; no more than a million rounds in the cap.
// Not available: without a clock. No solution (each in its place): beyond the list of reps. Otherwise there are always
// three numbers.
// Source: weighted regression with a prior on slope and level, Gelman et al., Bayesian Data Analysis, 14 (from memory);
// the weights are those of Huber and of a t distribution (robust statistics, from memory); the numbers are judgement.
// Example: 20 min, rounds of 130, 134, 132, 136 s and a plan of 135: low 8.287, expected 8.861, high 9.293 rounds.
[[nodiscard]] Result<Forecast> forecast(Seconds cap, std::span<const Seconds> clocks,
                                        const RepsPerRound& reps_per_round, double confidence = usual_confidence,
                                        std::optional<Seconds> planned = {});

// When so many rounds will be done.
struct FinishForecast {
    Seconds early;
    Seconds expected;
    Seconds late;
};

// Formula: as forecast, with n = rounds and x = rounds - m: left is c x + b x^2 / 2, at least 3/4 c x. The clock at the
// end is the last one and left, left exp(-t sqrt(V) / left) early, left exp(t sqrt(V + ...) / left) late.
// Domain: as forecast; rounds at least those done, at most a million.
[[nodiscard]] Result<FinishForecast> forecast_finish(double rounds, std::span<const Seconds> clocks,
                                                     double confidence = usual_confidence,
                                                     std::optional<Seconds> planned = {});

// Least-squares change of the round time from round to round, as a share of the mean round.
// Domain: two clocks or more, increasing, above 0. Example: rounds of 90, 100, 110 s give 0.1.
[[nodiscard]] Result<double> fade(std::span<const Seconds> clocks);

// Coefficient of variation of the round times (n - 1). Domain: as fade. Example: 90, 100, 110 s give 0.1.
[[nodiscard]] Result<double> steadiness(std::span<const Seconds> clocks);

} // namespace pacecells
