// Local fatigue: how many reps an athlete has in hand, and which sets and rests keep enough of them.
//
// An athlete does max_unbroken reps from fresh. Each rep adds 1 to what is spent, shared out to three pools. Off the
// station each pool empties exponentially; during a set none does. In hand is max_unbroken less all three.
//
//   pool      share   time constant   interpretation, not measured here
//   quick     0.38    10 s            blood flow back, first breaths
//   middle    0.55    90 s            phosphocreatine and by-products
//   lasting   0.07    3600 s          what an hour gives back
//
// Published: the form. Recovery of local endurance follows a three-component exponential (Stull & Kearney 1978, Med Sci
// Sports 10:109).
// Fitted for this program: shares and time constants, to 25 figures of twelve studies of repeated sets (tests/data).
// Refitted without a study they miss its sets to failure by 14 % (root mean square); without one study of nine athletes
// the lasting pool has no support.
// Judged: 3600 s (left free it grows, without a gain), the margin, the least rest at a break, the band of the planner,
// the noise of a maximum taken from a load.
// Known weaknesses: presses recover slower and short-range leg work faster than this, and people differ as much, hence
// the factor of recovery; too strict near the one-repetition maximum and for sets above 50 reps, since nothing recovers
// during a set; grip, breath and skin are not in it.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/scheme.h"

#include <optional>
#include <string_view>

namespace pacecells {

inline constexpr double most_rounds = 9'999;

// The least rest at a break: put down, a breath, pick up (judgement).
inline constexpr Seconds least_rest_at_a_break{3};

// Reps of one movement, the same in each round.
//
// Domain: 1 <= reps <= Scheme::max_reps; 0 < rounds <= most_rounds; max_unbroken >= 1; away >= 0; margin >= 0;
// recovery >= 0.001.
struct SetWork {
    int reps;
    double rounds; // a part of one counts as a whole one (1e-9 slack)
    Reps max_unbroken;
    Seconds away;                 // off the station between two rounds
    std::optional<Reps> margin{}; // to keep in hand; default_margin if left out
    double recovery = 1;          // multiplies every rest and the time away: 1 is the athlete of the studies
};

// Reps in hand at the worst moment of all rounds; negative: failure before the end.
//
// Formula: the pools above, a rest between sets, away between rounds, 0 s at a change of sides (one shared pool).
// The worst moment is in the last round: all pools start each round at least as full as the one before. One round
// is an affine map of each pool, x -> D x + c, so that the start of round n is c (1 - D^(n-1)) / (1 - D).
// Domain: as SetWork; rest >= 0.
// Example: 9 unbroken, 9 rounds, 30 unbroken at most, 80 s away: 12.980.
[[nodiscard]] Result<Reps> reps_left(const Scheme& scheme, double rounds, Reps max_unbroken, Seconds away,
                                     Seconds rest = least_rest_at_a_break, double recovery = 1);

// The margin where none is given: a tenth of max_unbroken - 1 (judgement). With the half rep that a count of whole reps
// hides, it covers the noise of a test of the maximum (see max_noise) in 79 % (3 reps) to 93 % (50 reps) of cases.
[[nodiscard]] Reps default_margin(Reps max_unbroken);

struct SetPlan {
    Scheme scheme;
    Seconds rest; // between sets; 0 where there is one set
    friend bool operator==(const SetPlan&, const SetPlan&) = default;
};

// Near-even sets that keep the margin (1e-9 slack) in every round.
//
// With a rest: the fewest such sets. Left out or 0: sets and rest together. Each number of sets k needs a rest r(k),
// see rest_needed, and costs (k - 1) max(3 s, r(k)) of rests per round; the answer is the fewest sets that cost at most
// max(5 s, 10 %) more than the cheapest number does (judgement: two seconds are not worth three more breaks).
// Domain: as SetWork; rest >= 0.
// No solution: no such scheme keeps the margin, with a rest left out not even singles with endless rests.
// Example: 9 reps, 9 rounds, 80 s away: with 20 unbroken "9", with 18 "5-4" and 3 s, with 15 "5-4" and 18.24 s.
[[nodiscard]] Result<SetPlan> plan_sets(const SetWork& work, std::optional<Seconds> rest = std::nullopt);

// Rest between sets with which the near-even scheme of so many sets just keeps the margin: 0 where none is needed, else
// at least 0.5 s. Without a number of sets it is the rest of plan_sets.
//
// Domain: as SetWork; 1 <= sets <= reps. No solution: even endless rest does not keep the margin.
// Example: 9 reps in 3 sets, 9 rounds, 80 s away, 15 unbroken: 9.21 s.
[[nodiscard]] Result<Seconds> rest_needed(const SetWork& work, std::optional<int> sets = std::nullopt);

// Where a maximum is known from: reps counted to failure, or a formula for the load (see loads.h).
enum class MaximumFrom { test, load };

// "test", "load"; case and spaces do not matter.
[[nodiscard]] Result<MaximumFrom> parse_maximum_from(std::string_view text);

// How far the day's maximum may lie from the one that is known: one standard deviation.
//
// Formula: 0.7 + 0.06 U from a test; 0.25 U from a load.
// Source: Mitter et al. 2022 (PMC9070879), standard error of a test of repetitions 0.7 at 90 % and 1.1 at 70 % of the
// maximum, here as a line through both in U, times the root of 2, as test and event both vary. People differ far
// more at one load: Silva et al. 2014, J Trainology 3:41, 20 to 31 % of the reps; a quarter of them is judgement.
// Domain: max_unbroken >= 1. Example: 20 unbroken by test: 1.9.
[[nodiscard]] Result<Reps> max_noise(Reps max_unbroken, MaximumFrom from = MaximumFrom::test);

// The plan for a day on which the maximum is one standard deviation lower: what to change to when the first sets feel
// too long. The maximum counts as at least 1.5, or itself where that is less; where no plan keeps the margin,
// singles with the rest of plan_sets (judgement).
//
// Domain, no solution: as plan_sets.
// Example: 9 reps, 9 rounds, 80 s away, 18 unbroken: 5-4 with 10 s, where the plan is 5-4 with 3 s.
[[nodiscard]] Result<SetPlan> plan_fall_back(const SetWork& work, std::optional<Seconds> rest = std::nullopt,
                                             MaximumFrom from = MaximumFrom::test);

// The athlete's own factor of recovery that two sets to failure imply, a rest between them.
//
// Formula: the root of (first + 1/2) (1 - w(recovery rest)) = second + 1/2, where w(t) = sum of share exp(-t / tau) is
// what a rep still weighs after t. The halves: whoever counts n whole reps has n to n + 1 in hand.
// Domain: 1 <= second < first; rest > 0. One rep more or less in the second set moves it by a quarter.
// Example: 20 reps, then 12 after 60 s: 0.820; 10, then 6 after 120 s: 0.431.
[[nodiscard]] Result<double> recovery_from(Reps first, Reps second, Seconds rest);

// The factor to plan with after one such pair of sets: its square root, within 0.6 and 1.6 (judgement: a single pair
// is worth half of what it says).
[[nodiscard]] double cautious_recovery(double fitted);

} // namespace pacecells
