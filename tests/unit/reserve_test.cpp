#include "pacecells/reserve.h"

#include "pacecells/ergometer.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <cmath>
#include <utility>
#include <vector>

namespace pacecells {
namespace {

constexpr CriticalPower athlete{.critical = Watts{251}, .reserve = Joules{20100}};

MixedTask task(double effort = 1.10) {
    return {.cap = Seconds{1200},
            .calories = Kilocalories{14},
            .other = Seconds{94},
            .values = athlete,
            .effort_between = effort};
}

// The second way: what is spent, stretch by stretch and round by round.
double after(double spent, double watts, double seconds, CriticalPower values) {
    const double above = watts - values.critical.value();
    return above > 0 ? spent + above * seconds : spent * std::exp(above * seconds / values.reserve.value());
}

std::vector<double> peaks(const MixedTask& task, double rate) {
    const double watts = value_of(power(CaloriesPerHour{rate})).value();
    const double ergometer = 3600 * task.calories.value() / rate;
    std::vector<double> peaks;
    double spent = 0;
    for (double begin = 0; begin < task.cap.value() - 1e-9 * (ergometer + task.other.value());
         begin += ergometer + task.other.value()) {
        spent = after(spent, watts, ergometer, task.values);
        peaks.push_back(spent);
        spent = after(spent, task.effort_between * task.values.critical.value(), task.other.value(), task.values);
    }
    return peaks;
}

TEST(Reserve, RecoversAsPrinted) {
    // Skiba et al. 2015: of 20 kJ, 10 kJ are spent; after 60 s at 100 W below critical 12 591.82 J are in hand.
    const double critical = 250;
    const double rate = 1200;
    const double watts = value_of(power(CaloriesPerHour{rate})).value();
    const double seconds = 10000 / (watts - critical); // spends 10 kJ
    const MixedTask recovery{.cap = Seconds{1000},
                             .calories = Kilocalories{seconds * rate / 3600},
                             .other = Seconds{60},
                             .values = {.critical = Watts{critical}, .reserve = Joules{20000}},
                             .effort_between = (critical - 100) / critical};
    EXPECT_NEAR(value_of(reserve_left(recovery, CaloriesPerHour{rate}, 1)), 0.5, 1e-12);
    // The second ergometer spends the 10 kJ again.
    EXPECT_NEAR(value_of(reserve_left(recovery, CaloriesPerHour{rate}, 2)) * 20000 + 10000, 12591.82, 0.005);
}

TEST(Reserve, CeilingsOfAnAthleteByEffortBetween) {
    const auto table = data::table("reserve_ceiling");
    for (const auto& row : table.rows)
        EXPECT_NEAR(value_of(hold_rate(task(row.number("effort")))).value(), row.number("cal_per_hour"),
                    table.tolerance);
}

TEST(Reserve, LeftIsTheStepwiseBalance) {
    Random random;
    for (int i = 0; i < 2000; ++i) {
        const MixedTask some{
            .cap = Seconds{random.between(60, 3600)},
            .calories = Kilocalories{random.between(1, 60)},
            .other = Seconds{random.whole(0, 5) == 0 ? 0 : random.between(0, 300)},
            .values = {.critical = Watts{random.between(80, 400)}, .reserve = Joules{random.between(4000, 40000)}},
            .effort_between = random.between(-1, 1.6)};
        const double rate = random.between(300, 2500);
        const auto steps = peaks(some, rate);
        const double reserve = some.values.reserve.value();
        const double tolerance = 1e-9 * (1 + steps.back() / reserve);
        EXPECT_NEAR(value_of(reserve_left(some, CaloriesPerHour{rate})), 1 - steps.back() / reserve, tolerance);
        const int round = random.whole(1, static_cast<int>(steps.size()));
        EXPECT_NEAR(value_of(reserve_left(some, CaloriesPerHour{rate}, round)),
                    1 - steps[static_cast<std::size_t>(round) - 1] / reserve, tolerance);
        EXPECT_UNSOLVABLE(reserve_left(some, CaloriesPerHour{rate}, static_cast<double>(steps.size()) + 1));
    }
}

TEST(Reserve, HoldIsTheHighestRateThatFits) {
    Random random;
    int held = 0;
    int jumps = 0;
    for (int i = 0; i < 3000; ++i) {
        const MixedTask some{
            .cap = Seconds{random.between(60, 3600)},
            .calories = Kilocalories{random.between(1, 60)},
            .other = Seconds{random.whole(0, 5) == 0 ? 0 : random.between(0, 300)},
            .values = {.critical = Watts{random.between(80, 400)}, .reserve = Joules{random.between(4000, 40000)}},
            .effort_between = random.whole(0, 9) == 0 ? 1 : random.between(-0.5, 1.6)};
        const double keep = random.between(0, 0.5);
        const double limit = (1 - keep) * some.values.reserve.value();
        const auto fits = [&](double rate) { return peaks(some, rate).back() <= limit * (1 + 1e-9); };
        const auto hold = hold_rate(some, keep);
        if (hold) {
            ++held;
            const double rate = hold->value();
            EXPECT_TRUE(fits(rate)) << rate;
            if (rate < 1e4) { // beyond, the peak hardly grows with the rate
                EXPECT_FALSE(fits(rate * (1 + 1e-6))) << rate;
            }
            EXPECT_TRUE(fits(random.between(300, rate)));
            EXPECT_FALSE(peaks(some, rate * random.between(1.001, 10)).back() <= limit);
            jumps += peaks(some, rate).size() < peaks(some, rate * (1 + 1e-6)).size() ? 1 : 0;
        } else {
            EXPECT_UNSOLVABLE(hold);
            EXPECT_EQ(fits(300), fits(1e9)) << "none or every";
        }
    }
    EXPECT_GT(held, 1000);
    EXPECT_GT(jumps, 10) << "some stop where the count jumps";
}

TEST(Reserve, ARateWhereTheCountJumpsCountsItself) {
    // 10 calories and 80 s: at 1800 cal/h a round takes 100 s, and 12 of them fill 20 minutes. Any faster begins a
    // 13th.
    MixedTask jumping = task();
    jumping.calories = Kilocalories{10};
    jumping.other = Seconds{80};
    const auto at = [&](double rate) { return value_of(reserve_left(jumping, CaloriesPerHour{rate})); };
    EXPECT_TRUE(reserve_left(jumping, CaloriesPerHour{1800}, 12));
    EXPECT_UNSOLVABLE(reserve_left(jumping, CaloriesPerHour{1800}, 13));
    EXPECT_TRUE(reserve_left(jumping, CaloriesPerHour{1800.001}, 13));
    ASSERT_GT(at(1800) - at(1800.001), 0.01);
    // A limit between the two: the ceiling is the jump itself.
    const double between = 1 - (at(1800) + at(1800.001)) / 2; // what is spent, as a share of the reserve
    jumping.values.reserve = athlete.reserve * between;
    EXPECT_NEAR(value_of(hold_rate(jumping, 0)).value(), 1800, 1e-6);
}

TEST(Reserve, FullRecoveryLeavesEachRoundAlone) {
    MixedTask recovered = task(-1000);
    const auto one = value_of(reserve_left(recovered, CaloriesPerHour{1500}, 1));
    EXPECT_NEAR(value_of(reserve_left(recovered, CaloriesPerHour{1500})), one, 1e-12);
    // Then the ceiling spends (1 - keep) of the reserve in one go; 14 calories cannot, 60 can.
    EXPECT_UNSOLVABLE(hold_rate(recovered));
    recovered.calories = Kilocalories{60};
    const double rate = value_of(hold_rate(recovered)).value();
    const double watts = value_of(power(CaloriesPerHour{rate})).value();
    EXPECT_NEAR((watts - athlete.critical.value()) * 3600 * 60 / rate, 0.9 * athlete.reserve.value(), 1e-6);
}

TEST(Reserve, AtOrBelowCriticalPowerNothingIsSpent) {
    const double critical_rate = value_of(calorie_rate(athlete.critical)).value();
    for (const double effort : {-2.0, 0.5, 1.0})
        for (const double rate : {300.0, 800.0, critical_rate * (1 - 1e-12)})
            EXPECT_EQ(value_of(reserve_left(task(effort), CaloriesPerHour{rate})), 1) << effort << " " << rate;
}

TEST(Reserve, MoreEffortHigherRateAndLaterRoundsLeaveLess) {
    double before = 2;
    for (double round = 1; round <= 9; ++round) {
        const double left = value_of(reserve_left(task(), CaloriesPerHour{1300}, round));
        EXPECT_LT(left, before);
        before = left;
    }
    before = 2;
    for (double rate = 300; rate < 2000; rate += 7) {
        const double left = value_of(reserve_left(task(), CaloriesPerHour{rate}));
        EXPECT_LE(left, before);
        before = left;
    }
    before = infinite;
    for (double effort = 0.5; effort < 1.3; effort += 0.01) {
        const double rate = value_of(hold_rate(task(effort))).value();
        EXPECT_LE(rate, before);
        before = rate;
    }
}

TEST(Reserve, TheNumberOfRoundsIsFixedByTheCapAlone) {
    // 20 calories at 1200 cal/h and 60 s are two minutes: 20 minutes begin ten of them, not an eleventh.
    MixedTask even = task();
    even.calories = Kilocalories{20};
    even.other = Seconds{60};
    EXPECT_TRUE(reserve_left(even, CaloriesPerHour{1200}, 10));
    EXPECT_UNSOLVABLE(reserve_left(even, CaloriesPerHour{1200}, 11));
}

TEST(Reserve, OneRoundOnly) {
    MixedTask single = task();
    single.other = Seconds{2000};
    single.calories = Kilocalories{60};
    const double rate = value_of(hold_rate(single)).value();
    EXPECT_NEAR(value_of(reserve_left(single, CaloriesPerHour{rate})), 0.1, 1e-12);
    EXPECT_UNSOLVABLE(reserve_left(single, CaloriesPerHour{rate}, 2));
    EXPECT_UNSOLVABLE(effort_between(single, CaloriesPerHour{rate}))
        << "what comes after the only ergometer is no matter";
}

TEST(Reserve, NothingBetweenTheErgometers) {
    MixedTask straight = task();
    straight.other = Seconds{0};
    // The count of rounds jumps, and the work with it, around what can be held for the cap alone.
    const double rate = value_of(hold_rate(straight)).value();
    const double alone = value_of(calorie_rate(athlete.critical + Watts{0.9 * athlete.reserve.value() / 1200})).value();
    EXPECT_NEAR(rate, alone, 0.05 * alone);
    EXPECT_UNSOLVABLE(effort_between(straight, CaloriesPerHour{rate}));
    straight.calories = Kilocalories{1e-6}; // so many rounds that the steps vanish
    EXPECT_NEAR(value_of(hold_rate(straight)).value(), alone, 1e-3);
}

TEST(Reserve, NoRateOrEveryRate) {
    MixedTask hard = task(2);
    hard.calories = Kilocalories{3};
    EXPECT_UNSOLVABLE(hold_rate(hard))
        << "the rest alone spends 24 kJ a round, and the ergometer gives no time to recover";
    MixedTask light = task(0.5);
    light.calories = Kilocalories{3};
    EXPECT_UNSOLVABLE(hold_rate(light)) << "3 calories are 3.1 kJ at any rate";
    EXPECT_GT(value_of(reserve_left(light, CaloriesPerHour{1e9})), 0.1);
}

TEST(Reserve, EffortUndoesHold) {
    Random random;
    int undone = 0;
    for (int i = 0; i < 3000; ++i) {
        MixedTask some{
            .cap = Seconds{random.between(300, 3600)},
            .calories = Kilocalories{random.between(3, 40)},
            .other = Seconds{random.between(20, 200)},
            .values = {.critical = Watts{random.between(150, 350)}, .reserve = Joules{random.between(8000, 30000)}},
            .effort_between = random.between(0.3, 1.4)};
        const auto hold = hold_rate(some, 0.2);
        if (!hold)
            continue;
        const auto effort = effort_between(some, *hold, 0.2);
        if (!effort) {
            EXPECT_UNSOLVABLE(effort);
            EXPECT_EQ(peaks(some, hold->value()).size(), 1u);
            continue;
        }
        ++undone;
        // At a jump of the count a range of efforts has the same ceiling; the highest of them is given.
        EXPECT_GE(*effort, some.effort_between - 1e-9);
        some.effort_between = *effort;
        EXPECT_NEAR(value_of(reserve_left(some, *hold)), 0.2, 1e-9);
        EXPECT_NEAR(value_of(hold_rate(some, 0.2)).value(), hold->value(), 1e-6 * hold->value());
    }
    EXPECT_GT(undone, 1500);
}

TEST(Reserve, EffortWithoutAnAnswer) {
    MixedTask big = task();
    big.calories = Kilocalories{60};
    EXPECT_UNSOLVABLE(effort_between(big, CaloriesPerHour{2500})) << "one ergometer overdraws the reserve";
}

TEST(Reserve, RefusesWhatCannotBeMeant) {
    const CaloriesPerHour rate{1200};
    const auto refused = [&](const MixedTask& bad) {
        EXPECT_REFUSED(hold_rate(bad));
        EXPECT_REFUSED(reserve_left(bad, rate));
    };
    for (const double bad : {0.0, -1.0, not_a_number, infinite, -infinite}) {
        MixedTask some = task();
        some.cap = Seconds{bad};
        refused(some);
        EXPECT_REFUSED(effort_between(some, rate));
        some = task();
        some.calories = Kilocalories{bad};
        refused(some);
        some = task();
        some.values.critical = Watts{bad};
        refused(some);
        some = task();
        some.values.reserve = Joules{bad};
        refused(some);
        EXPECT_REFUSED(reserve_left(task(), rate, bad));
        EXPECT_REFUSED(reserve_left(task(), CaloriesPerHour{bad}));
        EXPECT_REFUSED(effort_between(task(), CaloriesPerHour{bad}));
    }
    for (const double bad : {-1.0, not_a_number, infinite}) {
        MixedTask some = task();
        some.other = Seconds{bad};
        refused(some);
        EXPECT_REFUSED(hold_rate(task(), bad));
        EXPECT_REFUSED(effort_between(task(), rate, bad));
    }
    refused(task(not_a_number));
    refused(task(infinite));
    EXPECT_REFUSED(hold_rate(task(), 1));
    EXPECT_REFUSED(reserve_left(task(), CaloriesPerHour{299.9})) << "no power below 300 cal/h";
    EXPECT_TRUE(reserve_left(task(), CaloriesPerHour{300}));
    EXPECT_REFUSED(reserve_left(task(), rate, 1.5));
}

TEST(Reserve, ExtremeNumbersGiveAnAnswerOrAnError) {
    const double extremes[] = {1e-300, 1e-9, 1, 1e9, 1e300};
    for (const double cap : extremes)
        for (const double calories : extremes)
            for (const double other : {0.0, 1e-300, 1.0, 1e300})
                for (const double critical : extremes)
                    for (const double reserve : extremes)
                        for (const double effort : {-1e300, -1.0, 1.0, 1.1, 1e300}) {
                            const MixedTask some{.cap = Seconds{cap},
                                                 .calories = Kilocalories{calories},
                                                 .other = Seconds{other},
                                                 .values = {.critical = Watts{critical}, .reserve = Joules{reserve}},
                                                 .effort_between = effort};
                            if (const auto hold = hold_rate(some)) {
                                EXPECT_TRUE(std::isfinite(hold->value()) && hold->value() >= 300 * (1 - 1e-9))
                                    << hold->value() << " for " << cap << " " << calories << " " << other << " "
                                    << critical << " " << reserve << " " << effort;
                            }
                            for (const double rate : {300.0, 1200.0, 1e300}) {
                                if (const auto left = reserve_left(some, CaloriesPerHour{rate})) {
                                    EXPECT_TRUE(std::isfinite(*left) && *left <= 1);
                                }
                                if (const auto implied = effort_between(some, CaloriesPerHour{rate})) {
                                    EXPECT_TRUE(std::isfinite(*implied));
                                }
                            }
                        }
}

} // namespace
} // namespace pacecells
