// What an athlete's past results say, and how sure a rate to plan with is.
//
// All errors here are standard errors of a logarithm of watts: 0.04 is 4 %. Their sizes are judgement; that the rules
// help was seen in simulations only, no athlete's data. There, timing the ergometer in two rounds halves the error of
// the next event's watts; a result known only by its total helps little.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <optional>
#include <span>

namespace pacecells {

// Judgement, all of them.
inline constexpr double usual_spread = 0.10; // of athletes about what their tests promise
inline constexpr double day_error = 0.04;    // of one athlete from day to day
inline constexpr double round_error = 0.05;  // of one timed ergometer round
inline constexpr double least_ratio = 0.4;   // of a result to what the tests promised; beyond it something is wrong
inline constexpr double most_ratio = 2.5;
inline constexpr double tests_error = 0.03; // of two tests or more
inline constexpr double group_error = 0.20; // of a rate taken from the group
inline constexpr double least_factor = 0.8; // no factor is believed beyond these
inline constexpr double most_factor = 1.2;

// Watts that an athlete held, or is taken to hold, and how well they are known.
struct Held {
    Watts power;
    double error;
};

// From ergometer times of single rounds: error sqrt(0.04^2 + 0.05^2 / rounds). Each round has the same calories.
// Domain: calories and times above 0, one or more; not slower than 300 cal/h, which is no power.
// Example: 13 cal in 47 and 49 s are 975 cal/h, 196.13 W, error 0.0534.
[[nodiscard]] Result<Held> held_when_timed(Kilocalories calories, std::span<const Seconds> ergometer_times);

// From the total alone, by the rate that the total needed (PLAN.ERGNEED). The rate is as wrong as the times of the
// other stations are: error sqrt(0.04^2 + (rate / (rate - 300) unsure / ergometer time)^2). At 1000 cal/h 6 s are 17 %
// of the watts. Domain: rate above 300, calories above 0, unsure (a round; 6 s, or 10 s where stations were guessed)
// at least 0. Example: 13 cal at 1000 cal/h: 203.39 W, error 0.1875.
[[nodiscard]] Result<Held> held_by_total(Kilocalories calories, CaloriesPerHour rate, Seconds unsure = Seconds{6});

// A past result beside what the tests promised for it.
struct Observation {
    double ratio; // watts held / (share at factor 1 * watts alone)
    double error;
};

// Leave out injured athletes and other machines.
// Domain: promised above 0, as planned_share at factor 1 times power_for the cap.
[[nodiscard]] Result<Observation> observed(const Held& held, Watts promised);

// Whether a result says what a person can hold. Who could have gone on held back, so that what was held says too little;
// only where it is more than the tests promised is it known that they promise too little. Without tests there is no ratio.
[[nodiscard]] constexpr bool says_what_can_be_held(std::optional<double> ratio, bool could_go_on) {
    return !could_go_on || (ratio && *ratio > 1);
}

// What an athlete holds against what the tests promise (1: exactly that), and its standard error.
struct Factor {
    double value = 1;
    double error = usual_spread;
};

// Formula: ln factor = sum(ln ratio / error^2) / (1 / spread^2 + sum(1 / error^2)), held to 0.8 to 1.2;
// its error is (1 / spread^2 + sum(1 / error^2))^-1/2. The spread keeps one lucky result from counting in full.
// Domain: ratios 0.4 to 2.5, errors and spread above 0. No results: 1 and the spread.
// Source: mean of a normal distribution with a normal prior, Gelman et al., Bayesian Data Analysis, 2.5 (from memory).
// Example: a ratio of 1.1 with error 0.05 is a factor of 1.0792.
[[nodiscard]] Result<Factor> personal_factor(std::span<const Observation> results, double spread = usual_spread);

// What results taught about one person, and the sentence for the person's page.
struct Learnt {
    Factor factor;
    std::size_t results = 0;
    double ratio = 1; // of the results alone: their mean weighted by 1 / error^2, in logarithms
    Said sentence;
};

// Domain: as personal_factor.
// Example: a ratio of 1.1 with error 0.05: "Your last result says that you hold 10 % more than your tests promise; since
// one result can be luck, we count 8 %."
[[nodiscard]] Result<Learnt> learnt_from(std::span<const Observation> results, double spread = usual_spread);

// The watts of one test for the cap, without a second test: predict_power, with the error 0.04 |ln(cap / time)| of its
// exponent (judgement). A test about as long as the cap needs no rule. Domain: all above 0.
// Example: 300 W for 8 min are 256.8 W for 20 min, error 0.0367.
[[nodiscard]] Result<Held> held_by_one_test(Watts power, Seconds time, Seconds cap);

// No tests, but a result of an earlier event: the watts to plan with for the next.
//
// Formula: predict_power from the earlier cap to this one, times share / earlier share; error
// sqrt(error^2 + 0.04^2 + (0.04 ln(cap / earlier cap))^2). Shares by planned_share at factor 1.
// Domain: all above 0.
struct EarlierEvent {
    Held held;
    Seconds cap;
    double share;
};
[[nodiscard]] Result<Held> carried_over(const EarlierEvent& earlier, Seconds cap, double share);

// All results of a person without tests, carried over to the cap and share of the last of them: what that person is taken
// to have held there. One result is as it was held. Domain: one or more, the last one last; as carried_over.
[[nodiscard]] Result<Held> held_lately(std::span<const EarlierEvent> results);

// Several of these: their mean weighted by 1 / error^2. Its error is (sum 1 / error^2)^-1/2, at least the day's.
// Domain: one or more, powers and errors above 0.
[[nodiscard]] Result<Held> mean_of(std::span<const Held> results);

// How well the rate to plan with is known: sqrt(factor's error^2 + 0.04^2 + test error^2). The test error is
// tests_error with two tests or more, the error of held_by_one_test with one.
// Domain: both at least 0. Example: no results and two tests: 0.1118.
[[nodiscard]] Result<double> doubt_of(double factor_error, double test_error = tests_error);

} // namespace pacecells
