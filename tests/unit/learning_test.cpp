#include "pacecells/learning.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

namespace pacecells {
namespace {

constexpr int cases = 10'000;

std::vector<double> numbers_in(const std::string& text) {
    std::vector<double> numbers;
    std::istringstream words{text};
    for (double number; words >> number;)
        numbers.push_back(number);
    return numbers;
}

TEST(Factor, IsWhatWasWorkedOutApart) {
    const auto table = data::table("personal_factor");
    for (const auto& row : table.rows) {
        const auto ratios = numbers_in(row.text("ratios"));
        const auto errors = numbers_in(row.text("errors"));
        std::vector<Observation> results;
        for (std::size_t i = 0; i < ratios.size(); ++i)
            results.push_back({.ratio = ratios[i], .error = errors[i]});
        const auto factor = value_of(personal_factor(results));
        EXPECT_NEAR(factor.value, row.number("factor"), table.tolerance * factor.value);
        if (!row.text("error").empty()) {
            EXPECT_NEAR(factor.error, row.number("error"), table.tolerance * factor.error);
        }
    }
}

// The second way: the most likely factor, looked for in steps of its logarithm.
double stepped_factor(const std::vector<Observation>& results, double spread) {
    double best = 0;
    double least = infinite;
    for (int step = -10'000; step <= 10'000; ++step) {
        const double log = step * 1e-4;
        double off = log * log / (spread * spread);
        for (const auto& [ratio, error] : results)
            off += (std::log(ratio) - log) * (std::log(ratio) - log) / (error * error);
        if (off < least) {
            least = off;
            best = log;
        }
    }
    return std::clamp(std::exp(best), 0.8, 1.2);
}

std::vector<Observation> some_results(Random& random) {
    std::vector<Observation> results(static_cast<std::size_t>(random.whole(1, 6)));
    for (auto& result : results)
        result = {.ratio = random.between(0.4, 2.5), .error = random.between(0.01, 0.5)};
    return results;
}

TEST(Factor, IsTheMostLikelyOne) {
    Random random;
    for (int i = 0; i < 200; ++i) {
        const auto results = some_results(random);
        const double spread = random.between(0.02, 0.3);
        EXPECT_NEAR(value_of(personal_factor(results, spread)).value, stepped_factor(results, spread), 1e-4);
    }
}

TEST(Factor, OrdersOfResults) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        auto results = some_results(random);
        const auto factor = value_of(personal_factor(results));
        double low = 1;
        double high = 1;
        for (const auto& result : results) {
            low = std::min(low, result.ratio);
            high = std::max(high, result.ratio);
        }
        EXPECT_GE(factor.value, std::max(low, 0.8) - 1e-12);
        EXPECT_LE(factor.value, std::min(high, 1.2) + 1e-12);
        EXPECT_LT(factor.error, usual_spread);

        const auto reversed = value_of(personal_factor(std::vector(results.rbegin(), results.rend())));
        EXPECT_NEAR(factor.value, reversed.value, 1e-12) << "the order of results is irrelevant";
        results.push_back({.ratio = random.between(0.4, 2.5), .error = 1e9});
        EXPECT_NEAR(factor.value, value_of(personal_factor(results)).value, 1e-9) << "an endless error changes nothing";
        for (auto& result : results)
            result.ratio = 1;
        EXPECT_EQ(value_of(personal_factor(results)).value, 1);
    }
}

TEST(Factor, WithoutResultsIsOneAndTheSpread) {
    EXPECT_EQ(value_of(personal_factor({})).value, 1);
    EXPECT_NEAR(value_of(personal_factor({})).error, 0.10, 1e-15);
}

TEST(Factor, RefusesWhatCannotBeMeant) {
    const auto of = [](double ratio, double error, double spread = usual_spread) {
        return personal_factor(std::vector<Observation>{{.ratio = ratio, .error = error}}, spread);
    };
    EXPECT_TRUE(of(0.4, 1));
    EXPECT_TRUE(of(2.5, 1));
    for (const double bad : {0.39, 2.51, 0.0, -1.0, not_a_number, infinite})
        EXPECT_REFUSED(of(bad, 0.05));
    for (const double bad : {0.0, -0.05, not_a_number, infinite}) {
        EXPECT_REFUSED(of(1, bad));
        EXPECT_REFUSED(of(1, 0.05, bad));
    }
    EXPECT_REFUSED(of(1, 1e-200));
}

// ---- what results and tests say ----

TEST(Held, TimedRoundsAreSurerThanTheTotal) {
    const std::vector<Seconds> two{Seconds{47}, Seconds{49}};
    const auto timed = value_of(held_when_timed(Kilocalories{13}, two));
    EXPECT_NEAR(timed.power.value(), (975 - 300) / (4 * 0.8604), 1e-9) << "26 cal in 96 s are 975 cal/h";
    EXPECT_NEAR(timed.error, std::sqrt(0.04 * 0.04 + 0.05 * 0.05 / 2), 1e-12);
    const auto total = value_of(held_by_total(Kilocalories{13}, CaloriesPerHour{1000}));
    EXPECT_NEAR(total.power.value(), 203.394, 0.0005);
    // At 1000 cal/h 6 s are about 17 % of the watts: the same 13 cal in 6 s less or more.
    const double fast = (13 * 3600 / (46.8 - 0.006) - 300) / (4 * 0.8604);
    const double per_second = (fast / total.power.value() - 1) / 0.006;
    EXPECT_NEAR(total.error, std::hypot(0.04, 6 * per_second), 1e-4);
    EXPECT_NEAR(6 * per_second, 0.18, 0.01);
    EXPECT_GT(value_of(held_by_total(Kilocalories{13}, CaloriesPerHour{1000}, Seconds{10})).error, total.error);

    EXPECT_REFUSED(held_when_timed(Kilocalories{13}, {}));
    EXPECT_REFUSED(held_when_timed(Kilocalories{0}, two));
    EXPECT_REFUSED(held_when_timed(Kilocalories{3}, two)) << "225 cal/h are no power";
    EXPECT_REFUSED(held_when_timed(Kilocalories{13}, std::vector<Seconds>{Seconds{not_a_number}}));
    EXPECT_REFUSED(held_by_total(Kilocalories{13}, CaloriesPerHour{300}));
    EXPECT_REFUSED(held_by_total(Kilocalories{13}, CaloriesPerHour{1000}, Seconds{-1}));
    EXPECT_REFUSED(held_by_total(Kilocalories{-13}, CaloriesPerHour{1000}));
}

TEST(Held, BesideWhatTheTestsPromised) {
    const auto seen = value_of(observed({.power = Watts{220}, .error = 0.05}, Watts{200}));
    EXPECT_NEAR(seen.ratio, 1.1, 1e-15);
    EXPECT_EQ(seen.error, 0.05);
    EXPECT_REFUSED(observed({.power = Watts{220}, .error = 0.05}, Watts{0}));
    EXPECT_REFUSED(observed({.power = Watts{0}, .error = 0.05}, Watts{200}));
    EXPECT_REFUSED(observed({.power = Watts{220}, .error = 0}, Watts{200}));
}

TEST(Held, OneTestGoesByRiegel) {
    // Shares of a 3, 7.5 and 12 min test's watts for 20 min, and the errors of 3, 8 and 12 min, worked out apart.
    const auto of = [](double minutes) {
        return value_of(held_by_one_test(Watts{300}, Seconds{60 * minutes}, Seconds{1200}));
    };
    EXPECT_NEAR(of(3).power.value() / 300, 0.725, 0.0005);
    EXPECT_NEAR(of(7.5).power.value() / 300, 0.847, 0.0005);
    EXPECT_NEAR(of(12).power.value() / 300, 0.917, 0.0005);
    EXPECT_NEAR(of(3).error, 0.076, 0.0005);
    EXPECT_NEAR(of(8).error, 0.037, 0.0005);
    EXPECT_NEAR(of(12).error, 0.020, 0.0005);
    EXPECT_EQ(of(20).power, Watts{300});
    EXPECT_EQ(of(20).error, 0);
    for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
        EXPECT_REFUSED(held_by_one_test(Watts{bad}, Seconds{480}, Seconds{1200}));
        EXPECT_REFUSED(held_by_one_test(Watts{300}, Seconds{bad}, Seconds{1200}));
        EXPECT_REFUSED(held_by_one_test(Watts{300}, Seconds{480}, Seconds{bad}));
    }
}

TEST(Held, AResultCarriesOverToTheNextEvent) {
    const EarlierEvent earlier{.held = {.power = Watts{200}, .error = 0.05}, .cap = Seconds{720}, .share = 0.75};
    const auto same = value_of(carried_over(earlier, Seconds{720}, 0.75));
    EXPECT_EQ(same.power, Watts{200});
    EXPECT_NEAR(same.error, std::hypot(0.05, 0.04), 1e-15);
    const auto longer = value_of(carried_over(earlier, Seconds{1440}, 0.825));
    EXPECT_NEAR(longer.power.value(), 200 * 1.1 * std::pow(0.5, 0.17), 0.05);
    EXPECT_NEAR(longer.error, std::sqrt(0.0025 + 0.0016 + std::pow(0.04 * std::log(2), 2)), 1e-12);
    for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
        EXPECT_REFUSED(carried_over(earlier, Seconds{bad}, 0.75));
        EXPECT_REFUSED(carried_over(earlier, Seconds{720}, bad));
    }
}

TEST(Held, TheMeanCountsTheSurerOneMore) {
    const std::vector<Held> results{{.power = Watts{200}, .error = 0.06}, {.power = Watts{220}, .error = 0.12}};
    const auto mean = value_of(mean_of(results));
    EXPECT_NEAR(mean.power.value(), 204, 1e-9) << "four to one";
    EXPECT_NEAR(mean.error, 0.06 / std::sqrt(1.25), 1e-12);
    EXPECT_NEAR(value_of(mean_of(std::vector<Held>(100, results[0]))).error, day_error, 1e-15)
        << "no number of results foresees the day";
    EXPECT_REFUSED(mean_of({}));
    EXPECT_REFUSED(mean_of(std::vector<Held>{{.power = Watts{200}, .error = 0}}));
}

TEST(Held, AllResultsSpeakForTheLast) {
    const EarlierEvent first{.held = {.power = Watts{220}, .error = 0.05}, .cap = Seconds{720}, .share = 0.75};
    const EarlierEvent last{.held = {.power = Watts{200}, .error = 0.05}, .cap = Seconds{1440}, .share = 0.75};
    const auto held = value_of(held_lately(std::vector<EarlierEvent>{first, last}));
    const double carried = 220 * std::pow(0.5, 3 - 3 / 1.06);
    EXPECT_GT(held.power.value(), std::min(carried, 200.0));
    EXPECT_LT(held.power.value(), std::max(carried, 200.0));
    EXPECT_LT(held.error, std::hypot(0.05, 0.04)) << "two are surer than one";
    const auto alone = value_of(held_lately(std::vector<EarlierEvent>{last}));
    EXPECT_EQ(alone.power, Watts{200});
    EXPECT_EQ(alone.error, 0.05) << "one result is as it was held";
    EXPECT_REFUSED(held_lately({}));
}

TEST(Held, WhoCouldGoOnSaysSomethingOnlyAboveThePromise) {
    EXPECT_TRUE(says_what_can_be_held(0.9, false));
    EXPECT_TRUE(says_what_can_be_held(1.1, false));
    EXPECT_FALSE(says_what_can_be_held(0.9, true));
    EXPECT_FALSE(says_what_can_be_held(1, true));
    EXPECT_TRUE(says_what_can_be_held(1.1, true));
    EXPECT_TRUE(says_what_can_be_held({}, false)) << "without tests";
    EXPECT_FALSE(says_what_can_be_held({}, true));
}

std::string sentence(const std::vector<Observation>& results) {
    return value_of(learnt_from(results)).sentence.message();
}

TEST(Learnt, IsOneSentence) {
    EXPECT_EQ(sentence({{.ratio = 1.1, .error = 0.05}}),
              "Your last result says that you hold 10% more than your tests promise; since one result can be luck, we "
              "count 8%.")
        << "the factor of 1.0792 that was worked out apart";
    // Two of them: 10 % each, (2 / 0.05^2) / (1 / 0.10^2 + 2 / 0.05^2) = 8 / 9 of it.
    EXPECT_EQ(sentence({{.ratio = 1.1, .error = 0.05}, {.ratio = 1.1, .error = 0.05}}),
              "Your last results say that you hold 10% more than your tests promise; since one result can be luck, we "
              "count 9%.");
    EXPECT_EQ(sentence({{.ratio = 0.9, .error = 0.1875}}),
              "Your last result says that you hold 10% less than your tests promise; since one result can be bad luck, "
              "we count 2%.")
        << "a total alone says little";
    // 2 % with an error of 0.2: 0.02 * 0.1^2 / (0.1^2 + 0.2^2) is 0.4 %.
    EXPECT_EQ(sentence({{.ratio = 0.98, .error = 0.2}}),
              "Your last result says that you hold 2% less than your tests promise; it can be bad luck, and changes "
              "almost nothing.");
    EXPECT_EQ(sentence({{.ratio = 1.02, .error = 0.2}}),
              "Your last result says that you hold 2% more than your tests promise; it can be luck, and changes almost "
              "nothing.");
    EXPECT_EQ(sentence({{.ratio = 0.98, .error = 0.4}, {.ratio = 0.98, .error = 0.4}}),
              "Your last results say that you hold 2% less than your tests promise; they can be bad luck, and change "
              "almost nothing.");
    EXPECT_EQ(
        sentence({{.ratio = 1.02, .error = 0.4}, {.ratio = 1.02, .error = 0.4}}),
        "Your last results say that you hold 2% more than your tests promise; they can be luck, and change almost "
        "nothing.");
    EXPECT_EQ(sentence({{.ratio = 1.004, .error = 0.05}}),
              "Your last result says that you hold what your tests promise.");
    EXPECT_EQ(sentence({}), "No result says yet what you hold beside your tests.");
    EXPECT_NEAR(value_of(learnt_from(std::vector<Observation>{{1.1, 0.05}, {1.0, 0.1}})).ratio,
                std::exp(0.8 * std::log(1.1)), 1e-12)
        << "four to one";
    EXPECT_REFUSED(learnt_from(std::vector<Observation>{{.ratio = 3, .error = 0.05}}));
}

TEST(Doubt, OfARateToPlanWith) {
    EXPECT_NEAR(value_of(doubt_of(usual_spread)), 0.112, 0.0005) << "no results, two tests";
    EXPECT_NEAR(value_of(doubt_of(0, 0)), day_error, 1e-15);
    EXPECT_REFUSED(doubt_of(-0.1));
    EXPECT_REFUSED(doubt_of(0.1, not_a_number));
}

} // namespace
} // namespace pacecells
