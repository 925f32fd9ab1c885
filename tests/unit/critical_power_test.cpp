#include "pacecells/critical_power.h"

#include "pacecells/clock.h"
#include "pacecells/ergometer.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <cmath>
#include <vector>

namespace pacecells {
namespace {

Result<CriticalPowerFit> fit(std::vector<double> times, std::vector<double> watts) {
    const std::vector<Seconds> t(times.begin(), times.end());
    const std::vector<Watts> p(watts.begin(), watts.end());
    return fit_critical_power(t, p);
}

constexpr CriticalPower athlete{.critical = Watts{251}, .reserve = Joules{20100}};

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
    EXPECT_NEAR(value_of(power_for(Seconds{300}, athlete)).value(), 251 + 67, 1e-12);
    double before = infinite;
    for (const double time : {1.0, 60.0, 120.0, 1200.0, 1e5}) {
        const double watts = value_of(power_for(Seconds{time}, athlete)).value();
        EXPECT_LT(watts, before);
        EXPECT_GT(watts, 251);
        before = watts;
    }
    EXPECT_NEAR(value_of(power_for(Seconds{1e12}, athlete)).value(), 251, 1e-6);
}

TEST(CriticalPower, TheRatesForTwentyMinutes) {
    // Worked out apart from the program, from a critical power and a reserve rounded to 1 W and 0.1 kJ.
    const Seconds cap{1200};
    EXPECT_NEAR(value_of(rate_alone(cap, athlete)).value(), 1222, 1);
    EXPECT_NEAR(value_of(rate_floor(cap, athlete)).value(), 991, 1);
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
