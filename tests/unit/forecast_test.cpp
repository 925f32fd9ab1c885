#include "pacecells/forecast.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace pacecells {
namespace {

#define EXPECT_UNKNOWN(result) EXPECT_TRUE(has_error(result, ErrorKind::not_available))

constexpr int cases = 10'000;

using Numbers = std::vector<double>;

RepsPerRound thirty() { return value_of(RepsPerRound::every_round(30)); }
RepsPerRound one() { return value_of(RepsPerRound::every_round(1)); }

std::vector<Seconds> clocks_of(const Numbers& rounds) {
    std::vector<Seconds> clocks;
    Seconds clock{0};
    for (const double round : rounds)
        clocks.push_back(clock += Seconds{round});
    return clocks;
}

struct Three {
    double low, expected, high;
};

Three rounds_at(double cap, const Numbers& rounds, double confidence = 0.9, std::optional<double> plan = {}) {
    const auto planned = plan ? std::optional{Seconds{*plan}} : std::nullopt;
    const auto got = value_of(forecast(Seconds{cap}, clocks_of(rounds), one(), confidence, planned));
    return {value_of(got.low).value(), value_of(got.expected).value(), value_of(got.high).value()};
}

double sum(const Numbers& numbers) { return std::accumulate(numbers.begin(), numbers.end(), 0.0); }

// ---- worked out apart ----

TEST(Forecast, IsWhatWasWorkedOutApart) {
    const auto table = data::table("forecast");
    for (const auto& row : table.rows) {
        std::istringstream words{row.text("clocks")};
        std::vector<Seconds> clocks;
        for (double clock; words >> clock;)
            clocks.emplace_back(clock);
        const auto planned = row.text("planned").empty() ? std::nullopt : std::optional{Seconds{row.number("planned")}};
        const auto got = value_of(forecast(Seconds{1200}, clocks, one(), 0.9, planned));
        EXPECT_NEAR(value_of(got.low).value(), row.number("low"), table.tolerance);
        EXPECT_NEAR(value_of(got.expected).value(), row.number("expected"), table.tolerance);
        EXPECT_NEAR(value_of(got.high).value(), row.number("high"), table.tolerance);
    }
}

// ---- the second way: least squares with two more observations, sums instead of means, a root by halving ----

struct Naive {
    double m, n, usual, level, slope, weight, stiffness, centre, jump, variance;

    static double middle(Numbers numbers) {
        std::sort(numbers.begin(), numbers.end());
        const std::size_t size = numbers.size();
        return (numbers[(size - 1) / 2] + numbers[size / 2]) / 2;
    }

    Naive(const Numbers& y, double rounds_or_cap, bool is_cap, std::optional<double> plan) : m(double(y.size())) {
        const std::size_t last = y.size() - 1;
        Numbers for_usual = y;
        if (plan && y.size() <= 2)
            for_usual = y.size() == 1 ? Numbers{*plan} : Numbers{y[0], y[1], *plan};
        usual = middle(for_usual);
        n = is_cap ? std::max(rounds_or_cap / usual, m) : rounds_or_cap;
        const double sigma = usual / 25;
        const double fade = 0.06 * usual / n;
        const auto evened = [&](std::size_t i) { return y[i] + fade * double(last - i); };
        Numbers alone, trust, w;
        for (std::size_t i = 0; i <= last; ++i) {
            if (last == 0)
                alone.push_back(plan ? std::max(0.0, std::abs(evened(0) - *plan) - 0.2 * *plan) : 0);
            else if (last == 1 && plan)
                alone.push_back(evened(i) - middle({evened(0), evened(1), *plan}));
            else if (last == 1)
                alone.push_back((evened(i) - evened(1 - i)) / 2);
            else if (i == 0)
                alone.push_back(evened(0) - middle({evened(0), evened(1), evened(2)}));
            else if (i == last)
                alone.push_back(evened(i) - middle({evened(i - 2), evened(i - 1), evened(i)}));
            else
                alone.push_back(evened(i) - middle({evened(i - 1), evened(i), evened(i + 1)}));
            const double in_sigmas = std::abs(alone[i]) / sigma;
            trust.push_back(i == last ? (in_sigmas > 1.5 ? 1.5 / in_sigmas : 1)
                                      : std::min(1.0, 5 / (4 + in_sigmas * in_sigmas)));
            w.push_back(trust[i] * std::exp(-double(last - i) / (0.35 * n)) / (i == 0 ? 2 : 1));
        }
        // Minimise sum w (y - a - b i)^2 + lambda (b - fade)^2 for a and b by Cramer's rule.
        const double lambda = std::pow(sigma * n / (0.05 * usual), 2);
        double s0 = 0, s1 = 0, s2 = 0, t0 = 0, t1 = 0;
        for (std::size_t i = 0; i <= last; ++i) {
            const double k = double(i + 1);
            s0 += w[i];
            s1 += w[i] * k;
            s2 += w[i] * k * k;
            t0 += w[i] * y[i];
            t1 += w[i] * k * y[i];
        }
        const double determinant = s0 * (s2 + lambda) - s1 * s1;
        slope = (s0 * (t1 + lambda * fade) - s1 * t0) / determinant;
        weight = s0;
        centre = s1 / s0;
        level = t0 / s0;
        stiffness = determinant / s0;
        if (plan) {
            const double w0 = std::pow(sigma / (0.1 * *plan), 2);
            level = (t0 + w0 * std::max(*plan + fade * (centre - (n + 1) / 2), *plan / 2)) / (s0 + w0);
            weight = s0 + w0;
        }
        double squares = 8 * sigma * sigma;
        for (std::size_t i = 0; i <= last; ++i)
            squares += trust[i] * std::pow(y[i] - level - slope * (double(i + 1) - centre), 2);
        variance = squares / (7 + m);
        jump = last == 0 ? 0 : alone[last] * alone[last] * (1 - trust[last]) / 4;
    }

    [[nodiscard]] double round(double after) const {
        return level + slope * (m - centre + after);
    } // a pace, at a moment
    // The time for x more rounds. A pace below half of the next one counts as three quarters all along.
    [[nodiscard]] double time(double x) const {
        const double next = std::max(round(0.5), level / 4);
        return std::max(x * (next + slope * x / 2), 0.75 * next * x);
    }
    [[nodiscard]] double rounds(double left) const {
        double low = 0;
        double high = 1e7;
        for (int i = 0; i < 100; ++i)
            (time((low + high) / 2) < left ? low : high) = (low + high) / 2;
        return low;
    }
    [[nodiscard]] double error(double x, bool slow) const {
        const double lever = m + (x + 1) / 2 - centre;
        const double a = usual * usual;
        return std::sqrt(variance * (x + x * x / weight + x * x * lever * lever / stiffness) + jump * x * x +
                         a * (0.0009 * x * x + 0.0025 * x * x * x / (3 * n)) +
                         (slow ? a * (0.0064 * x * x * x / (3 * n) + 0.0081 * x) : 0));
    }
    [[nodiscard]] double t(double confidence) const {
        return boost::math::quantile(boost::math::students_t{7 + m}, (1 + confidence) / 2);
    }
    static double up(double z) { return z < 1 ? std::exp(z) : std::exp(1) * z; }
    [[nodiscard]] Three at_cap(double cap, double last, double width) const {
        const double left = cap - last;
        const double x = rounds(left);
        return {m + x * std::exp(-width * error(x, true) / left), m + x, m + x * up(width * error(x, false) / left)};
    }
    [[nodiscard]] Three at_finish(double last, double all, double width) const {
        const double x = all - m;
        const double left = time(x);
        return {last + left * std::exp(-width * error(x, false) / left), last + left,
                last + left * up(width * error(x, true) / left)};
    }
};

Numbers some_rounds(Random& random, int least = 1, int most = 14) {
    Numbers rounds;
    const double start = random.between(30, 240);
    const double trend = random.between(-0.05, 0.05) * start;
    const double noise = random.whole(0, 3) == 0 ? 0.3 : random.between(0, 0.06);
    for (int k = random.whole(least, most); k > 0; --k)
        rounds.push_back(
            std::max(5.0, start + trend * static_cast<double>(rounds.size()) + noise * start * random.between(-1, 1)));
    return rounds;
}

std::optional<double> some_plan(Random& random, const Numbers& rounds) {
    return random.whole(0, 1) == 0 ? std::nullopt : std::optional{rounds[0] * random.between(0.7, 1.4)};
}

TEST(Forecast, AgreesWithTheSecondWay) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const Numbers rounds = some_rounds(random);
        const auto plan = some_plan(random, rounds);
        const double cap = sum(rounds) * random.between(1.01, 5);
        const double confidence = random.between(0.1, 0.99);
        const Three got = rounds_at(cap, rounds, confidence, plan);
        const Naive naive{rounds, cap, true, plan};
        const Three want = naive.at_cap(cap, sum(rounds), naive.t(confidence));
        EXPECT_NEAR(got.low, want.low, 1e-8 * want.low);
        EXPECT_NEAR(got.expected, want.expected, 1e-8 * want.expected);
        EXPECT_NEAR(got.high, want.high, 1e-8 * want.high);
    }
}

TEST(Forecast, OfAFinishAgreesWithTheSecondWay) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const Numbers rounds = some_rounds(random);
        const auto plan = some_plan(random, rounds);
        const double all = static_cast<double>(rounds.size()) + random.whole(1, 20);
        const double confidence = random.between(0.1, 0.99);
        const auto got = value_of(
            forecast_finish(all, clocks_of(rounds), confidence, plan ? std::optional{Seconds{*plan}} : std::nullopt));
        const Naive naive{rounds, all, false, plan};
        const Three want = naive.at_finish(sum(rounds), all, naive.t(confidence));
        EXPECT_NEAR(got.early.value(), want.low, 1e-8 * want.low);
        EXPECT_NEAR(got.expected.value(), want.expected, 1e-8 * want.expected);
        EXPECT_NEAR(got.late.value(), want.high, 1e-8 * want.high);
    }
}

TEST(Forecast, StudentsTIsThePublishedOne) {
    // Two bounds and their widths as published: the freedom is 7 more than the rounds.
    const auto table = data::table("student_t");
    for (const auto& row : table.rows) {
        Numbers rounds;
        for (int k = 7; k < static_cast<int>(row.number("df")); ++k)
            rounds.push_back(100 + k % 2);
        const double cap = sum(rounds) + 300;
        const Three got = rounds_at(cap, rounds, 0.95);
        const Naive naive{rounds, cap, true, {}};
        const double x = got.expected - static_cast<double>(rounds.size());
        const double width = std::log(1 + (got.high - got.expected) / x) * 300 / naive.error(x, false);
        EXPECT_NEAR(width, row.number("t"), table.tolerance) << row.number("df");
    }
}

// ---- what a coach would notice ----

TEST(Forecast, OrdersOfTheThree) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const Numbers rounds = some_rounds(random);
        const auto plan = some_plan(random, rounds);
        const double cap = sum(rounds) * random.between(1, 5);
        const double confidence = random.between(0.1, 0.95);
        const Three got = rounds_at(cap, rounds, confidence, plan);
        EXPECT_LE(static_cast<double>(rounds.size()), got.low);
        EXPECT_LE(got.low, got.expected);
        EXPECT_LE(got.expected, got.high);

        const Three wider = rounds_at(cap, rounds, confidence + 0.04, plan);
        EXPECT_LE(wider.low, got.low);
        EXPECT_GE(wider.high, got.high);
        EXPECT_EQ(wider.expected, got.expected);

        const double scale = random.between(0.1, 10); // another unit of time
        Numbers scaled = rounds;
        for (double& round : scaled)
            round *= scale;
        const Three same = rounds_at(cap * scale, scaled, confidence, plan ? std::optional{*plan * scale} : plan);
        EXPECT_NEAR(same.low, got.low, 1e-9 * got.low);
        EXPECT_NEAR(same.expected, got.expected, 1e-9 * got.expected);
        EXPECT_NEAR(same.high, got.high, 1e-9 * got.high);
    }
}

TEST(Forecast, AtTheCapTheScoreIsKnown) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const Numbers rounds = some_rounds(random);
        const auto clocks = clocks_of(rounds);
        const auto got = value_of(forecast(clocks.back(), clocks, one()));
        const Reps done{static_cast<double>(rounds.size())};
        EXPECT_EQ(value_of(got.low), done);
        EXPECT_EQ(value_of(got.expected), done);
        EXPECT_EQ(value_of(got.high), done);
        // Shortly before it is nearly known, and never out of sight.
        const Three soon = rounds_at(clocks.back().value() + 1e-6 * rounds.back(), rounds);
        EXPECT_NEAR(soon.high, done.value(), 0.01);
    }
}

TEST(Forecast, EvenRoundsGoOnNearlyEvenly) {
    // Six rounds of 100 s of 15 minutes: nine, less a little for the usual fade.
    const Three got = rounds_at(900, {100, 100, 100, 100, 100, 100});
    EXPECT_LT(got.expected, 9);
    EXPECT_GT(got.expected, 8.9);
    EXPECT_LT(got.high - got.low, 0.6);
    EXPECT_GT(got.expected - got.low, got.high - got.expected) << "it reaches further down than up";
}

TEST(Forecast, ABadRoundIsLostTimeAndNoMore) {
    Random random;
    double worst = 0;
    for (int i = 0; i < cases; ++i) {
        Numbers rounds;
        const double start = random.between(60, 200);
        for (int k = 0; k < 8; ++k)
            rounds.push_back(start * (1 + random.between(-0.01, 0.01)));
        const double left = sum(rounds) * random.between(0.7, 2);
        const double cap = sum(rounds) + left;
        const double before = rounds_at(cap, rounds).expected - 8;
        Numbers bad = rounds;
        const auto which = static_cast<std::size_t>(random.whole(0, 6)); // not the last
        const double lost = 0.5 * bad[which];
        bad[which] += lost;
        const double after = rounds_at(cap, bad).expected - 8;
        worst = std::max(worst, std::abs(after / before / ((left - lost) / left) - 1));
    }
    EXPECT_LT(worst, 0.01) << worst;
}

TEST(Forecast, ASlowerLastRoundDoesNotRaiseTheScore) {
    Random random;
    double most = 0;
    for (int i = 0; i < cases; ++i) {
        Numbers rounds;
        const double start = random.between(60, 200);
        for (int k = random.whole(1, 14); k > 0; --k)
            rounds.push_back(start * (1 + random.between(-0.06, 0.06)));
        const double cap = sum(rounds) * random.between(1.1, 3);
        const double before = rounds_at(cap, rounds).expected;
        rounds.back() *= 1.02;
        if (sum(rounds) > cap)
            continue;
        most = std::max(most, rounds_at(cap, rounds).expected - before);
    }
    EXPECT_LT(most, 0.05) << "a little it may: the round before looks less alone then";
}

TEST(Forecast, TheFifthClockBringsNoJump) {
    // 190, 131, 134, 133, 135 s of 20 minutes: the first round was a bad one.
    Numbers rounds{190, 131, 134, 133};
    const double before = rounds_at(1200, rounds).expected;
    rounds.push_back(135);
    EXPECT_NEAR(before, 8.50, 0.005);
    EXPECT_NEAR(rounds_at(1200, rounds).expected, 8.49, 0.005);
}

TEST(Forecast, APlanDrawsEarlyForecastsTowardsIt) {
    const auto expected = [](std::optional<double> plan, const Numbers& rounds) {
        return rounds_at(1200, rounds, 0.9, plan).expected;
    };
    const Numbers fast{120};
    EXPECT_GT(expected({}, fast), expected(135, fast));
    EXPECT_GT(expected(135, fast), expected(150, fast));
    const Numbers later{120, 121, 119, 122, 120};
    EXPECT_LT(std::abs(expected(135, later) - expected({}, later)), std::abs(expected(135, fast) - expected({}, fast)));
}

TEST(Forecast, FinishAndCapSayTheSame) {
    // The rounds expected at a cap are expected to be done at that cap. Nearly: the rounds of the whole task, by which
    // fade and memory are measured, come from the cap there and are given here.
    Random random;
    for (int i = 0; i < cases; ++i) {
        Numbers rounds;
        for (int k = random.whole(1, 14); k > 0; --k)
            rounds.push_back(100 * (1 + random.between(-0.05, 0.05)));
        const double cap = sum(rounds) + 100 * random.between(0.5, 10);
        const auto finish = value_of(forecast_finish(rounds_at(cap, rounds).expected, clocks_of(rounds)));
        EXPECT_NEAR(finish.expected.value(), cap, 0.01 * cap);
        EXPECT_LE(finish.early, finish.expected);
        EXPECT_LE(finish.expected, finish.late);
    }
}

TEST(Forecast, AFinishThatIsDoneIsItself) {
    const auto clocks = clocks_of({100, 110, 120});
    const auto got = value_of(forecast_finish(3, clocks));
    EXPECT_EQ(got.early, Seconds{330});
    EXPECT_EQ(got.expected, Seconds{330});
    EXPECT_EQ(got.late, Seconds{330});
    for (const double bad : {2.0, -1.0, 2e6, not_a_number, infinite})
        EXPECT_REFUSED(forecast_finish(bad, clocks));
    EXPECT_UNKNOWN(forecast_finish(5, {}));
    EXPECT_REFUSED(forecast_finish(5, clocks, 1));
    EXPECT_REFUSED(forecast_finish(5, clocks, 0.9, Seconds{0}));
}

// ---- reps ----

TEST(Forecast, BeyondTheListOfRepsThereIsNoAnswer) {
    const Numbers list{10, 20, 30, 40, 50};
    const auto ladder = value_of(RepsPerRound::by_round(list));
    const auto at = [&](double cap) { return value_of(forecast(Seconds{cap}, clocks_of({100, 100}), ladder)); };
    const auto half = at(350);
    const double rounds = rounds_at(350, {100, 100}).expected;
    EXPECT_NEAR(value_of(half.expected).value(), 60 + 40 * (rounds - 3), 1e-9) << "the reps of the fourth pro rata";
    const auto close = at(505);
    EXPECT_TRUE(close.low);
    EXPECT_TRUE(close.expected);
    EXPECT_UNSOLVABLE(close.high) << "each in its place";
    EXPECT_UNSOLVABLE(at(700).low);
    EXPECT_NEAR(value_of(value_of(forecast(Seconds{330}, clocks_of({100, 110, 120}), thirty())).low).value(), 90, 0);
}

TEST(Forecast, RefusesClocksThatDoNotRise) {
    const auto of = [](const Numbers& clocks, double cap = 900, double confidence = 0.9,
                       std::optional<Seconds> planned = {}) {
        return forecast(Seconds{cap}, std::vector<Seconds>(clocks.begin(), clocks.end()), thirty(), confidence,
                        planned);
    };
    EXPECT_UNKNOWN(of({}));
    EXPECT_REFUSED(of({100, 90})) << "falling";
    EXPECT_REFUSED(of({100, 100}));
    EXPECT_REFUSED(of({0, 100}));
    EXPECT_REFUSED(of({-10, 100}));
    EXPECT_REFUSED(of({100, 901}));
    EXPECT_REFUSED(of({1e-5, 2e-5})) << "more than a million rounds";
    EXPECT_REFUSED(of({1e-300, 2e-300}));
    for (const double bad : {not_a_number, infinite, -infinite}) {
        EXPECT_REFUSED(of({bad}));
        EXPECT_REFUSED(of({100, bad}));
        EXPECT_REFUSED(of({100}, bad));
        EXPECT_REFUSED(of({100}, 900, bad));
        EXPECT_REFUSED(of({100}, 900, 0.9, Seconds{bad}));
    }
    for (const double bad : {0.0, 1.0, -0.5, 90.0})
        EXPECT_REFUSED(of({100, 200}, 900, bad));
    for (const double bad : {0.0, -1.0, 1e-5})
        EXPECT_REFUSED(of({100, 200}, 900, 0.9, Seconds{bad}));
    EXPECT_TRUE(of({1e298, 2e298}, 1e299));
}

TEST(Forecast, WildRoundsStillGiveThreeNumbers) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        Numbers rounds;
        for (int k = random.whole(1, 40); k > 0; --k)
            rounds.push_back(std::pow(10, random.between(0, 3)));
        const std::optional<double> plan = std::pow(10, random.between(0, 3));
        if (random.whole(0, 1) == 0)
            std::sort(rounds.begin(), rounds.end(), std::greater<>{});
        const double cap = sum(rounds) * random.between(1, 10);
        const Three got = rounds_at(cap, rounds, random.whole(0, 1) == 0 ? 0.9 : 1 - 1e-15, plan);
        EXPECT_TRUE(std::isfinite(got.low) && std::isfinite(got.expected) && std::isfinite(got.high));
        EXPECT_LE(static_cast<double>(rounds.size()), got.low);
        EXPECT_LE(got.low, got.expected);
        EXPECT_LE(got.expected, got.high);
    }
}

// ---- fade, steadiness ----

TEST(Forecast, FadeAndSteadiness) {
    EXPECT_NEAR(value_of(fade(clocks_of({90, 100, 110}))), 0.1, 1e-15);
    EXPECT_NEAR(value_of(steadiness(clocks_of({90, 100, 110}))), 0.1, 1e-15);
    EXPECT_NEAR(value_of(steadiness(clocks_of({90, 110}))), std::sqrt(200) / 100, 1e-15) << "10 each from the mean";
    EXPECT_NEAR(value_of(fade(clocks_of({110, 90}))), -0.2, 1e-15);
    EXPECT_NEAR(value_of(fade(clocks_of({100, 100, 100}))), 0, 1e-15);
    EXPECT_NEAR(value_of(steadiness(clocks_of({100, 100, 100}))), 0, 1e-15);
    const Numbers bad[] = {{}, {100}};
    for (const auto& rounds : bad) {
        EXPECT_REFUSED(fade(clocks_of(rounds)));
        EXPECT_REFUSED(steadiness(clocks_of(rounds)));
    }
    const std::vector<Seconds> falling{Seconds{100}, Seconds{90}};
    EXPECT_REFUSED(fade(falling));
    EXPECT_REFUSED(steadiness(falling));
    EXPECT_REFUSED(steadiness(clocks_of({1e300, 2e300})));
}

} // namespace
} // namespace pacecells
