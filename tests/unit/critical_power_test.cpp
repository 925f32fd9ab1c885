#include "pacecells/critical_power.h"

#include "pacecells/clock.h"
#include "pacecells/ergometer.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <cmath>
#include <iterator>
#include <vector>

namespace pacecells {
namespace {

Result<CriticalPowerFit> fit(std::vector<double> times, std::vector<double> watts) {
    const std::vector<Seconds> t(times.begin(), times.end());
    const std::vector<Watts> p(watts.begin(), watts.end());
    return fit_critical_power(t, p);
}

constexpr CriticalPower athlete{.critical = Watts{230}, .reserve = Joules{18000}};

TEST(CriticalPower, FitsTheTestsOfAnAthlete) {
    const auto table = data::table("critical_power_tests");
    std::vector<double> times;
    std::vector<double> watts;
    for (const auto& row : table.rows) {
        times.push_back(row.number("time_s"));
        watts.push_back(row.number("watts"));
    }
    const auto got = value_of(fit(times, watts));
    EXPECT_NEAR(got.values.critical.value(), 251.095238, 5e-7);
    EXPECT_NEAR(got.values.reserve.value(), 20134.2857, 5e-5);
    EXPECT_NEAR(got.critical_error.value().value(), 1.222761, 5e-7);
    EXPECT_NEAR(got.reserve_error.value().value(), 593.3102, 5e-5);
    EXPECT_GT(got.r_squared.value(), 0.9999);
    EXPECT_LT(got.r_squared.value(), 1);
}

TEST(CriticalPower, TwoTestsGiveTheExactLineAndNoErrors) {
    const auto got = value_of(fit({300, 900}, {320, 260}));
    EXPECT_NEAR(got.values.critical.value(), 230, 1e-9);
    EXPECT_NEAR(got.values.reserve.value(), 27000, 1e-6);
    EXPECT_FALSE(got.critical_error);
    const std::vector<Seconds> times{Seconds{180}, Seconds{300}, Seconds{900}};
    const std::vector<Watts> watts{Watts{350}, Watts{320}, Watts{260}};
    EXPECT_TRUE(value_of(fit_critical_power(times, watts)).critical_error) << "three have an error";
    EXPECT_FALSE(got.reserve_error);
    EXPECT_FALSE(got.r_squared);
}

TEST(CriticalPower, TheOrderOfTheTestsDoesNotMatter) {
    const auto one = value_of(fit({180, 420, 900}, {400, 330, 290}));
    const auto other = value_of(fit({900, 180, 420}, {290, 400, 330}));
    EXPECT_NEAR(one.values.critical.value(), other.values.critical.value(), 1e-9);
    EXPECT_NEAR(one.values.reserve.value(), other.values.reserve.value(), 1e-6);
}

TEST(CriticalPower, RefusesTestsThatGiveNoLine) {
    EXPECT_REFUSED(fit({}, {}));
    EXPECT_REFUSED(fit({300}, {320}));
    EXPECT_REFUSED(fit({300, 900}, {320}));
    EXPECT_REFUSED(fit({300, 900, 300}, {320, 260, 321})) << "equal times";
    EXPECT_REFUSED(fit({0, 900}, {320, 260}));
    EXPECT_REFUSED(fit({300, -900}, {320, 260}));
    EXPECT_REFUSED(fit({300, 900}, {320, 0}));
    for (const double bad : {not_a_number, infinite, -infinite}) {
        EXPECT_REFUSED(fit({300, bad}, {320, 260}));
        EXPECT_REFUSED(fit({300, 900}, {320, bad}));
    }
    EXPECT_REFUSED(fit({1e300, 2e300}, {1e300, 2e300}));
}

TEST(CriticalPower, TestsThatContradictEachOtherHaveNoSolution) {
    EXPECT_UNSOLVABLE(fit({300, 900}, {260, 320})) << "more power for longer: a negative reserve";
    EXPECT_UNSOLVABLE(fit({300, 900}, {320, 100})) << "less work in more time: no critical power";
    EXPECT_UNSOLVABLE(fit({300, 900}, {280, 280})) << "equal power: no reserve, only what rounding leaves";
    EXPECT_UNSOLVABLE(fit({310, 900, 1111.1}, {283.3, 283.3, 283.3}));
    EXPECT_UNSOLVABLE(fit({300, 900}, {300, 100})) << "equal work: no critical power";
}

TEST(CriticalPower, TestsOutsideTheHonestWindowAreAnswered) { EXPECT_TRUE(fit({60, 3600}, {450, 240})); }

TEST(CriticalPower, PowerFallsTowardsTheCriticalPower) {
    EXPECT_NEAR(value_of(power_for(Seconds{300}, athlete)).value(), 230 + 60, 1e-12);
    double before = infinite;
    for (const double time : {1.0, 60.0, 120.0, 1200.0, 1e5}) {
        const double watts = value_of(power_for(Seconds{time}, athlete)).value();
        EXPECT_LT(watts, before);
        EXPECT_GT(watts, 230);
        before = watts;
    }
    EXPECT_NEAR(value_of(power_for(Seconds{1e12}, athlete)).value(), 230, 1e-6);
}

TEST(CriticalPower, TheRatesForSeventeenMinutes) {
    // On paper: 230 W and 18000 J over 1020 s are 247.647 W, or 300 + 3.4416 * 247.647 = 1152.3 cal/h; three quarters
    // of the watts are 939.2 cal/h.
    const Seconds cap{1020};
    EXPECT_NEAR(value_of(rate_alone(cap, athlete)).value(), 1152.3, 0.05);
    EXPECT_NEAR(value_of(rate_floor(cap, athlete)).value(), 939.2, 0.05);
    const double alone = value_of(power(value_of(rate_alone(cap, athlete)))).value();
    const double floor = value_of(power(value_of(rate_floor(cap, athlete)))).value();
    EXPECT_NEAR(floor, 0.75 * alone, 1e-9);
    EXPECT_EQ(value_of(rate_floor(cap, athlete, 1)), value_of(rate_alone(cap, athlete)));
}

TEST(CriticalPower, PredictsAnotherDistance) {
    // P. Riegel 1981: 20:00 over 5 km is 20:00 * 2 ^ 1.06 over 10 km.
    const auto ten = predict_time(Seconds{1200}, Metres{5000}, Metres{10000});
    EXPECT_NEAR(value_of(ten).value(), 2501.918, 5e-4);
    EXPECT_NEAR(value_of(predict_time(value_of(ten), Metres{10000}, Metres{5000})).value(), 1200, 1e-9);
    EXPECT_NEAR(value_of(predict_time(Seconds{1200}, Metres{5000}, Metres{10000}, 1)).value(), 2400, 1e-9);
    EXPECT_EQ(value_of(predict_time(Seconds{1200}, Metres{5000}, Metres{5000})), Seconds{1200});
}

TEST(OneTest, PredictsWhatTheRuleForDistancesSays) {
    // The naive way: Riegel's rule gives the time over any distance; the distance that takes the wanted time is found by
    // halving, and its mean split is the power.
    Random random;
    for (int i = 0; i < 200; ++i) {
        const Seconds known{random.between(120, 1200)};
        const Seconds wanted{random.between(120, 2400)};
        const double split_s = random.between(90, 180);
        const double metres = 500 * known.value() / split_s;
        double shortest = 1;
        double longest = 100000;
        while (longest - shortest > 1e-9) {
            const double middle = (shortest + longest) / 2;
            (value_of(predict_time(known, Metres{metres}, Metres{middle})) < wanted ? shortest : longest) = middle;
        }
        const double expected = 2.80 / std::pow(wanted.value() / shortest, 3);
        const Watts test = value_of(power_over(Metres{metres}, known));
        ASSERT_NEAR(value_of(predict_power(test, known, wanted)).value(), expected, 1e-6 * expected);
    }
    EXPECT_NEAR(value_of(predict_power(Watts{300}, Seconds{480}, Seconds{1200})).value(), 256.8, 0.05);
}

TEST(OneTest, FallsWithTimeAndComesBack) {
    Random random;
    for (int i = 0; i < 10000; ++i) {
        const Watts power{random.between(50, 600)};
        const Seconds known{random.between(60, 3600)};
        const Seconds time{random.between(60, 3600)};
        const Watts there = value_of(predict_power(power, known, time));
        ASSERT_EQ(there<power, time> known);
        ASSERT_NEAR(value_of(predict_power(there, time, known)).value(), power.value(), 1e-9 * power.value());
    }
    EXPECT_EQ(value_of(predict_power(Watts{300}, Seconds{480}, Seconds{480})), Watts{300});
    for (const double bad : {0.0, -1.0, not_a_number, infinite, -infinite}) {
        EXPECT_REFUSED(predict_power(Watts{bad}, Seconds{480}, Seconds{1200}));
        EXPECT_REFUSED(predict_power(Watts{300}, Seconds{bad}, Seconds{1200}));
        EXPECT_REFUSED(predict_power(Watts{300}, Seconds{480}, Seconds{bad}));
    }
}

TEST(OneTest, MoreThanTheBestInTheWorldHoldHasAWrongUnit) {
    // Judgement, from memory.
    constexpr double best[][2] = {{1, 1000}, {4, 650}, {6, 600}, {15, 480}, {60, 400}};
    const auto most = [](double minutes) { return value_of(most_watts(Seconds{60 * minutes})).value(); };
    for (const auto& [minutes, watts] : best)
        EXPECT_NEAR(most(minutes), watts, 1e-9);
    // Straight in logarithms: half-way between two times is the geometric mean of their watts.
    for (std::size_t i = 0; i + 1 < std::size(best); ++i)
        EXPECT_NEAR(most(std::sqrt(best[i][0] * best[i + 1][0])), std::sqrt(best[i][1] * best[i + 1][1]), 1e-9);
    EXPECT_NEAR(most(0.25), 1000 * 1000 / 650.0, 1e-9) << "the first line goes on";
    EXPECT_NEAR(most(240), 400 * 400 / 480.0, 1e-9) << "and the last one";
    for (double minutes = 0.1; minutes < 200; minutes *= 1.01)
        ASSERT_GT(most(minutes), most(1.01 * minutes));

    EXPECT_EQ(value_of(believable(Watts{600}, Seconds{360})), Watts{600});
    EXPECT_REFUSED(believable(Watts{600.001}, Seconds{360}));
    // 600 cal in 10:00, where 600 kJ or 600 m were meant.
    const Watts mistaken = value_of(power(value_of(rate_for(Kilocalories{600}, Seconds{600}))));
    EXPECT_EQ(believable(mistaken, Seconds{600}).error().message(),
              "959 W for 10:00 is more than the best in the world hold, about 530 W. Is the unit right?");
    EXPECT_REFUSED(most_watts(Seconds{0}));
    EXPECT_REFUSED(most_watts(Seconds{not_a_number}));
    EXPECT_REFUSED(believable(Watts{0}, Seconds{60}));
    EXPECT_REFUSED(believable(Watts{not_a_number}, Seconds{60}));
    EXPECT_REFUSED(believable(Watts{300}, Seconds{-60}));
}

TEST(OneTest, AShareOfWhatCanBeHeldAloneIsTheRateOfAMixedTask) {
    EXPECT_NEAR(value_of(rate_in_mixed_task(Watts{245}, 0.75)).value(), 300 + 3.4416 * 245 * 0.75, 1e-9);
    EXPECT_EQ(value_of(rate_in_mixed_task(Watts{245}, 1)), value_of(rate_alone(Seconds{1200}, athlete)));
    for (const double bad : {0.0, -1.0, 1.001, not_a_number})
        EXPECT_REFUSED(rate_in_mixed_task(Watts{245}, bad));
}

TEST(CriticalPower, RefusesWhatCannotBeMeant) {
    const CriticalPower no_power{.critical = Watts{0}, .reserve = Joules{20000}};
    const CriticalPower no_reserve{.critical = Watts{250}, .reserve = Joules{-1}};
    for (const CriticalPower& values : {no_power, no_reserve}) {
        EXPECT_REFUSED(power_for(Seconds{300}, values));
        EXPECT_REFUSED(rate_alone(Seconds{300}, values));
        EXPECT_REFUSED(rate_floor(Seconds{300}, values));
    }
    for (const double bad : {0.0, -1.0, not_a_number, infinite, -infinite}) {
        EXPECT_REFUSED(power_for(Seconds{bad}, athlete));
        EXPECT_REFUSED(rate_floor(Seconds{bad}, athlete));
        EXPECT_REFUSED(rate_floor(Seconds{300}, athlete, bad));
        EXPECT_REFUSED(power_for(Seconds{300}, {.critical = Watts{bad}, .reserve = Joules{1}}));
        EXPECT_REFUSED(power_for(Seconds{300}, {.critical = Watts{1}, .reserve = Joules{bad}}));
        EXPECT_REFUSED(predict_time(Seconds{bad}, Metres{1}, Metres{1}));
        EXPECT_REFUSED(predict_time(Seconds{1}, Metres{bad}, Metres{1}));
        EXPECT_REFUSED(predict_time(Seconds{1}, Metres{1}, Metres{bad}));
        EXPECT_REFUSED(predict_time(Seconds{1}, Metres{1}, Metres{1}, bad));
    }
    EXPECT_REFUSED(rate_floor(Seconds{300}, athlete, 1.01));
    EXPECT_REFUSED(power_for(Seconds{1e-306}, athlete)) << "overflows";
    EXPECT_REFUSED(predict_time(Seconds{1}, Metres{1e-300}, Metres{1e300}));
}

} // namespace
} // namespace pacecells
