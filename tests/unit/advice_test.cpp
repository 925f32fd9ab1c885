#include "pacecells/advice.h"

#include "pacecells/ergometer.h"
#include "pacecells/learning.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace pacecells {
namespace {

constexpr int cases = 10'000;

double watts_of(CaloriesPerHour rate) { return value_of(power(rate)).value(); }
CaloriesPerHour rate_of(double watts) { return value_of(calorie_rate(Watts{watts})); }

OtherStations some_stations(Random& random) {
    OtherStations some{.time = Seconds{random.between(0, 600)}};
    some.rest = some.time * random.between(0, 1);
    some.walk = (some.time - some.rest) * random.between(0, 1);
    return some;
}

// ---- the share to plan with ----

TEST(Share, IsWhatWasWorkedOutApart) {
    const auto table = data::table("planned_share");
    for (const auto& row : table.rows) {
        const OtherStations other{.time = Seconds{row.number("other")},
                                  .walk = Seconds{row.number("walk")},
                                  .rest = Seconds{row.number("rest")}};
        const double want = row.number("share");
        EXPECT_NEAR(value_of(planned_share(other, row.number("factor"))), want, table.tolerance * want);
    }
}

TEST(Share, MoreRestNeverLowersIt) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const OtherStations some = some_stations(random);
        const double factor = random.between(least_factor, most_factor);
        const double keep = random.between(0, 0.9);
        const double before = value_of(planned_share(some, factor, keep));
        EXPECT_GT(before, 0);
        EXPECT_LE(before, 1 - keep);
        OtherStations rested = some;
        const Seconds more{random.between(0, 300)};
        rested.time += more;
        rested.rest += more;
        EXPECT_GE(value_of(planned_share(rested, factor, keep)), before - 1e-12);
        OtherStations seated = some;
        const Seconds turned = some.walk * random.between(0, 1);
        seated.walk -= turned;
        seated.rest += turned;
        EXPECT_GE(value_of(planned_share(seated, factor, keep)), before - 1e-12);
    }
}

TEST(Share, TheRateToPlanWithIsNeverAboveTheGuardRail) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const MixedTask some{
            .cap = Seconds{random.between(60, 7200)},
            .calories = Kilocalories{random.between(1, 200)},
            .other = some_stations(random),
            .values = {.critical = Watts{random.between(50, 500)}, .reserve = Joules{random.between(1000, 60000)}},
            .work_share = random.between(0.1, 1)};
        const double keep = random.between(0, 0.9);
        const double share = value_of(planned_share(some.other, random.between(least_factor, most_factor), keep));
        const auto floor = value_of(rate_floor(some.cap, some.values, share));
        const auto ceiling = value_of(hold_rate(some, keep));
        EXPECT_LE(floor.value(), ceiling.value() * (1 + 1e-12));
        EXPECT_LE(ceiling, value_of(rate_alone(some.cap, some.values)));
    }
}

TEST(Share, RefusesWhatCannotBeMeant) {
    const OtherStations other{.time = Seconds{90}};
    for (const double bad : {0.79, 1.21, 0.0, not_a_number, infinite})
        EXPECT_REFUSED(planned_share(other, bad));
    for (const double bad : {-0.1, 1.0, not_a_number})
        EXPECT_REFUSED(planned_share(other, 1, bad));
    EXPECT_REFUSED(planned_share({.time = Seconds{-1}}));
    EXPECT_REFUSED(planned_share({.time = Seconds{60}, .walk = Seconds{50}, .rest = Seconds{20}}));
    for (const Shares bad : {Shares{0, 0.9}, Shares{0.9, 0.75}, Shares{0.75, 1.1}, Shares{not_a_number, 0.9}})
        EXPECT_REFUSED(planned_share(other, 1, usual_keep, bad));
    EXPECT_NEAR(value_of(planned_share(other, 1, usual_keep, {.all_work = 0.7, .all_rest = 0.8})), 0.7, 1e-15);
    EXPECT_NEAR(value_of(planned_share({.time = Seconds{0}})), 0.9, 1e-15);
    // What is just allowed. All of the 90 s is work: 0.75 times the factor.
    EXPECT_NEAR(value_of(planned_share(other, 0.8)), 0.6, 1e-15);
    EXPECT_NEAR(value_of(planned_share(other, 1.2)), 0.9, 1e-15);
    EXPECT_NEAR(value_of(planned_share({.time = Seconds{0}}, 1.2, 0)), 1, 1e-15) << "no more than all of it";
    EXPECT_NEAR(value_of(planned_share(other, 1, 0, {.all_work = 1, .all_rest = 1})), 1, 1e-15);
}

// ---- hold, limit, situation, chance ----

TEST(Advice, AChanceIsWhatSimulationCounted) {
    // A million draws of an athlete who holds 200.8125 W, known to 0.10 and 0.05 (day and tests apart): 19.6704 %
    // reached the watts of 1060 cal/h. Worked out apart from the program.
    const auto advice =
        value_of(advise(CaloriesPerHour{1060}, rate_of(200.8125), CaloriesPerHour{1200}, std::hypot(0.10, 0.05)));
    EXPECT_NEAR(advice.chance, 0.196704, 0.002);
}

TEST(Advice, OrdersAndTurningPoints) {
    Random random;
    int each[4] = {};
    for (int i = 0; i < cases; ++i) {
        const CaloriesPerHour floor{random.between(310, 1500)};
        const CaloriesPerHour ceiling = floor + CaloriesPerHour{random.between(0, 400)};
        const double doubt = random.between(0.01, 0.4);
        const CaloriesPerHour needed{random.between(0, 2000)};
        const auto advice = value_of(advise(needed, floor, ceiling, doubt));
        EXPECT_LE(advice.hold, advice.never_above);
        EXPECT_LE(advice.never_above, ceiling);
        const double limit = std::min(watts_of(floor) * std::exp(0.6745 * doubt), watts_of(ceiling));
        EXPECT_NEAR(watts_of(advice.never_above), limit, 1e-9 * limit);
        ++each[static_cast<int>(advice.situation)];
        EXPECT_EQ(advice.hold, advice.situation == Situation::stretch ? needed : floor);
        EXPECT_GE(advice.chance, 0);
        EXPECT_LE(advice.chance, 1);
        if (needed > CaloriesPerHour{300.001} && needed < floor) {
            EXPECT_GT(advice.chance, 0.5);
        }

        const auto situation = [&](double rate) {
            return value_of(advise(CaloriesPerHour{rate}, floor, ceiling, doubt)).situation;
        };
        const double above = 1 + 1e-12;
        EXPECT_EQ(situation(floor.value()), Situation::goal_fits);
        if (advice.never_above.value() > floor.value() * above) {
            EXPECT_EQ(situation(floor.value() * above), Situation::stretch);
            EXPECT_EQ(situation(advice.never_above.value()), Situation::stretch);
        }
        EXPECT_EQ(situation(advice.never_above.value() * above), Situation::out_of_reach);
    }
    EXPECT_GT(each[1], 100);
    EXPECT_GT(each[2], 100);
    EXPECT_GT(each[3], 100);
}

TEST(Advice, WithoutAGoal) {
    for (const double none : {0.0, 250.0, 300.0}) {
        const auto advice = value_of(advise(CaloriesPerHour{none}, CaloriesPerHour{960}, CaloriesPerHour{1180}, 0.112));
        EXPECT_EQ(advice.situation, Situation::goal_fits);
        EXPECT_EQ(advice.hold, CaloriesPerHour{960});
        EXPECT_EQ(advice.chance, 1);
    }
}

// 240 W, 18 kJ, 18 min, 13 cal, 88 s of stations, no results: what a card says of three goals.
struct Example {
    MixedTask task{.cap = Seconds{1080},
                   .calories = Kilocalories{13},
                   .other = {.time = Seconds{88}},
                   .values = {.critical = Watts{240}, .reserve = Joules{18000}}};
    CaloriesPerHour floor = value_of(rate_floor(task.cap, task.values, value_of(planned_share(task.other))));
    CaloriesPerHour ceiling = value_of(hold_rate(task));
    [[nodiscard]] Card card_for(double needed, double doubt = 0.112) const {
        return value_of(card(CaloriesPerHour{needed}, floor, ceiling, doubt, task.calories));
    }
};

TEST(Card, SaysTheThreeSituations) {
    const Example example;
    EXPECT_NEAR(example.floor.value(), 963, 0.5);
    EXPECT_NEAR(example.ceiling.value(), 1183, 0.5);

    const Card fits = example.card_for(800);
    EXPECT_EQ(fits.advice.situation, Situation::goal_fits);
    EXPECT_EQ(fits.advice.hold, CaloriesPerHour{960});
    EXPECT_EQ(fits.advice.never_above, CaloriesPerHour{1010});
    EXPECT_NEAR(fits.in_hand.value().value(), 9.75, 1e-9) << "58.5 s at 800, 48.75 s at 960";
    EXPECT_FALSE(fits.to_find);

    const Card stretch = example.card_for(998);
    EXPECT_EQ(stretch.needed, CaloriesPerHour{1000});
    EXPECT_EQ(stretch.advice.situation, Situation::stretch);
    EXPECT_EQ(stretch.advice.hold, CaloriesPerHour{1000});
    EXPECT_EQ(stretch.from, CaloriesPerHour{1000});
    EXPECT_EQ(stretch.in_ten, 3);

    const Card beyond = example.card_for(1070);
    EXPECT_EQ(beyond.advice.situation, Situation::out_of_reach);
    EXPECT_EQ(beyond.advice.hold, CaloriesPerHour{960});
    EXPECT_NEAR(beyond.to_find.value().value(), 48.75 - 46800.0 / 1070, 1e-9);
    EXPECT_FALSE(beyond.in_hand);
    EXPECT_EQ(example.card_for(1500).in_ten, 0) << "fewer than one in ten";
    for (double goal = 700; goal < 1200; goal += 5) {
        const Card card = example.card_for(goal);
        EXPECT_EQ(card.in_ten, std::floor(10 * card.advice.chance)) << goal;
    }

    const Card none = example.card_for(0);
    EXPECT_FALSE(none.needed || none.in_hand || none.to_find || none.in_ten);
    EXPECT_EQ(none.advice.hold, CaloriesPerHour{960});
}

TEST(Card, TheRangeNarrowsAsResultsComeIn) {
    const Example example;
    const std::vector<Observation> confirmed(2, {.ratio = 1, .error = std::hypot(0.04, 0.05)});
    const double doubt = value_of(doubt_of(value_of(personal_factor(confirmed)).error));
    EXPECT_NEAR(doubt, 0.064, 0.001);
    const Card before = example.card_for(1000);
    const Card after = example.card_for(1000, doubt);
    EXPECT_EQ(before.advice.situation, Situation::stretch);
    EXPECT_EQ(after.advice.situation, Situation::out_of_reach);
    EXPECT_EQ(after.advice.never_above, CaloriesPerHour{990});
    EXPECT_GT(after.from, example.card_for(1100).from);
}

TEST(Card, RoundingNeverPromisesMore) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const CaloriesPerHour floor{random.between(310, 1500)};
        const CaloriesPerHour ceiling = floor + CaloriesPerHour{random.between(0, 400)};
        const double doubt = random.between(0.01, 0.4);
        const CaloriesPerHour needed{random.between(1, 2000)};
        const auto exact = value_of(advise(needed, floor, ceiling, doubt));
        const auto shown = value_of(card(needed, floor, ceiling, doubt, Kilocalories{15}));
        EXPECT_LE(shown.floor, floor);
        EXPECT_GT(shown.floor, floor - CaloriesPerHour{5});
        EXPECT_GE(shown.needed.value().value(), needed.value() - 1e-6);
        EXPECT_LE(shown.advice.never_above, exact.never_above);
        EXPECT_LE(shown.advice.hold, shown.advice.never_above);
        EXPECT_GE(shown.advice.situation, exact.situation);
        for (const double rate : {shown.floor.value(), shown.needed->value(), shown.advice.never_above.value()})
            EXPECT_EQ(std::fmod(rate, 5), 0);
        EXPECT_TRUE(shown.in_hand.has_value() != shown.to_find.has_value());
        EXPECT_GE(shown.in_hand.value_or(shown.to_find.value_or(Seconds{-1})), Seconds{0});
    }
}

TEST(Advice, RefusesWhatCannotBeMeant) {
    const CaloriesPerHour floor{960};
    const CaloriesPerHour ceiling{1180};
    const auto refused = [](CaloriesPerHour needed, CaloriesPerHour low, CaloriesPerHour high, double doubt) {
        EXPECT_REFUSED(advise(needed, low, high, doubt));
        EXPECT_REFUSED(card(needed, low, high, doubt, Kilocalories{13}));
    };
    for (const double bad : {not_a_number, infinite, -1.0}) {
        refused(CaloriesPerHour{bad}, floor, ceiling, 0.1);
        refused(CaloriesPerHour{900}, CaloriesPerHour{bad}, ceiling, 0.1);
        refused(CaloriesPerHour{900}, floor, CaloriesPerHour{bad}, 0.1);
        refused(CaloriesPerHour{900}, floor, ceiling, bad);
        EXPECT_REFUSED(card(CaloriesPerHour{900}, floor, ceiling, 0.1, Kilocalories{bad}));
    }
    refused(CaloriesPerHour{900}, floor, ceiling, 0);
    refused(CaloriesPerHour{900}, CaloriesPerHour{300}, ceiling, 0.1);
    refused(CaloriesPerHour{900}, floor, CaloriesPerHour{959}, 0.1);
    EXPECT_REFUSED(advise(CaloriesPerHour{900}, floor, ceiling, 0.1, 0));
    EXPECT_EQ(value_of(advise(CaloriesPerHour{900}, floor, floor, 0.1)).never_above, floor) << "nothing to stretch";
}

} // namespace
} // namespace pacecells
