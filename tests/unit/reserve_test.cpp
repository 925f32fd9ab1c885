#include "pacecells/reserve.h"

#include "pacecells/ergometer.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {
namespace {

constexpr int cases = 10'000;

MixedTask task() {
    return {.cap = Seconds{1080},
            .calories = Kilocalories{13},
            .other = {.time = Seconds{88}},
            .values = {.critical = Watts{240}, .reserve = Joules{18000}}};
}

// From everyday to extreme: 50 to 500 W, 1 to 60 kJ, caps of 1 min to 2 h, up to 200 cal and 10 min of stations.
MixedTask some_task(Random& random) {
    MixedTask some{
        .cap = Seconds{random.between(60, 7200)},
        .calories = Kilocalories{random.whole(0, 3) == 0 ? random.between(1, 200) : random.between(5, 40)},
        .other = {.time = Seconds{random.whole(0, 9) == 0 ? 0 : random.between(0, 600)}},
        .values = {.critical = Watts{random.between(50, 500)}, .reserve = Joules{random.between(1000, 60000)}},
        .work_share = random.whole(0, 4) == 0 ? 1 : random.between(0.2, 1)};
    const double time = some.other.time.value();
    if (random.whole(0, 1) == 0)
        some.other.rest = Seconds{random.between(0, time)};
    if (random.whole(0, 1) == 0)
        some.other.walk = Seconds{random.between(0, time - some.other.rest.value())};
    return some;
}

double some_keep(Random& random) { return random.whole(0, 2) == 0 ? usual_keep : random.between(0, 0.95); }

double watts_of(double rate) { return value_of(power(CaloriesPerHour{rate})).value(); }
double rate_of(double watts) { return value_of(calorie_rate(Watts{watts})).value(); }
double hold(const MixedTask& some, double keep) { return value_of(hold_rate(some, keep)).value(); }
double left(const MixedTask& some, double rate, std::optional<double> round = {}) {
    return value_of(reserve_left(some, CaloriesPerHour{rate}, round));
}
double alone(const MixedTask& some) { return value_of(rate_alone(some.cap, some.values)).value(); }
double between_rate(const MixedTask& some, Random& random) {
    return rate_of(some.values.critical.value() * random.between(0.8, 1) +
                   some.values.reserve.value() / some.cap.value() * random.between(0, 2));
}

// ---- worked out apart ----

TEST(Reserve, RecoversAsPrinted) {
    // Skiba et al. 2015: of 20 kJ, 10 kJ are spent; after 60 s at 100 W below critical 12 591.82 J are in hand. An
    // ergometer of 100 s at 100 W above critical spends 10 kJ, work at 5/7 of 350 W = 150 W gives back.
    const double rate = rate_of(350);
    const MixedTask recovery{.cap = Seconds{10'000},
                             .calories = Kilocalories{100 * rate / 3600},
                             .other = {.time = Seconds{60}},
                             .values = {.critical = Watts{250}, .reserve = Joules{20000}},
                             .work_share = 150.0 / 350};
    EXPECT_NEAR(left(recovery, rate, 1), 0.5, 1e-12);
    EXPECT_NEAR(left(recovery, rate, 2) * 20000 + 10000, 12591.82, 0.005) << "the second spends 10 kJ again";
}

std::optional<double> optional_number(const data::Row& row, std::string_view column) {
    return row.text(column).empty() ? std::nullopt : std::optional{row.number(column)};
}

MixedTask task_of(const data::Row& row) {
    return {.cap = Seconds{row.number("cap")},
            .calories = Kilocalories{row.number("calories")},
            .other = {.time = Seconds{row.number("other")},
                      .walk = Seconds{row.number("walk")},
                      .rest = Seconds{row.number("rest")}},
            .values = {.critical = Watts{row.number("critical")}, .reserve = Joules{row.number("reserve")}},
            .work_share = row.number("work_share")};
}

TEST(Reserve, LeftIsWhatWasWorkedOutApart) {
    const auto table = data::table("reserve_left");
    for (const auto& row : table.rows) {
        const double want = row.number("left");
        EXPECT_NEAR(left(task_of(row), row.number("rate"), optional_number(row, "round")), want,
                    table.tolerance * std::abs(want));
    }
}

TEST(Reserve, HoldIsWhatWasWorkedOutApart) {
    const auto table = data::table("hold_rate");
    for (const auto& row : table.rows) {
        const double want = row.number("cal_per_hour");
        EXPECT_NEAR(hold(task_of(row), row.number("keep")), want, table.tolerance * want);
    }
}

// Half a second after the work of the first round, with a long rest before the next: E f(m) of the header.
TEST(Reserve, JustAfterTheWorkOfARound) {
    const double critical = 300;
    const double rate = rate_of(400);
    const MixedTask one{.cap = Seconds{200.5},
                        .calories = Kilocalories{100 * rate / 3600},
                        .other = {.time = Seconds{700}, .rest = Seconds{600}},
                        .values = {.critical = Watts{critical}, .reserve = Joules{25000}},
                        .work_share = 395.0 / 400};
    const double spent_in_a_round = 100 * 100 + 95 * 100; // 100 W above critical for 100 s, 95 W for 100 s
    const double decay = critical * 600 / 25000;
    const double rounds = 1 + 0.5 / 800;
    const double spent = spent_in_a_round * std::expm1(-rounds * decay) / std::expm1(-decay);
    EXPECT_NEAR(left(one, rate), 1 - spent / 25000, 1e-12);
}

// ---- the second way: stepped through in seconds ----

struct Spell {
    double seconds;
    double watts;
};

std::vector<Spell> spells_of(const MixedTask& some, double rate) {
    const double watts = watts_of(rate);
    const auto& [time, walk, rest] = some.other;
    return {{3600 * some.calories.value() / rate, watts},
            {(time - walk - rest).value(), some.work_share * watts},
            {walk.value(), walking_effort * some.values.critical.value()},
            {rest.value(), 0}};
}

// Most spent at any moment before the cap. Each step is exact for its power; steps end where spells do.
double stepped(const MixedTask& some, double rate) {
    const auto spells = spells_of(some, rate);
    const double critical = some.values.critical.value();
    double clock = 0;
    double spent = 0;
    double most = 0;
    while (true)
        for (const auto& [seconds, watts] : spells)
            for (double gone = 0; gone < seconds;) {
                const double step = std::min({1.0, seconds - gone, some.cap.value() - clock});
                spent += watts > critical ? (watts - critical) * step
                                          : spent * std::expm1((watts - critical) * step / some.values.reserve.value());
                most = std::max(most, spent);
                gone += step;
                clock += step;
                if (clock >= some.cap.value() - 1e-9)
                    return most;
            }
}

TEST(Reserve, IsHardlyEverMoreThanSteppingSaysAndTheSameAtTheEndOfASpell) {
    Random random;
    double loosest = 0;
    for (int i = 0; i < cases; ++i) {
        MixedTask some = some_task(random);
        some.cap = Seconds{random.between(60, 2400)};
        const double rate = between_rate(some, random);
        const double reserve = some.values.reserve.value();
        const double spent = stepped(some, rate);
        EXPECT_LE(spent / reserve, 1 - left(some, rate) + 0.002);
        loosest = std::max(loosest, 1 - left(some, rate) - spent / reserve);

        // Exact at the end of an ergometer where the work spends nothing, and of work as hard as the ergometer.
        if (some.work_share * watts_of(rate) > some.values.critical.value())
            some.work_share = 1;
        const auto spells = spells_of(some, rate);
        const double round = spells[0].seconds + some.other.time.value();
        some.cap = Seconds{std::floor(some.cap.value() / round) * round + spells[0].seconds +
                           (some.work_share == 1 ? spells[1].seconds : 0)};
        EXPECT_NEAR(1 - left(some, rate), stepped(some, rate) / reserve, 1e-7);
    }
    EXPECT_GT(loosest, 0) << "between the ends of spells it is a bound";
}

// ---- orders that a coach would notice ----

TEST(Hold, LiesBetweenWhatNeverTouchesTheKeepAndTheRateAlone) {
    Random random;
    int bound = 0;
    for (int i = 0; i < cases; ++i) {
        const MixedTask some = some_task(random);
        const double keep = some_keep(random);
        const double rate = hold(some, keep);
        const double lowest =
            rate_of(some.values.critical.value() + (1 - keep) * some.values.reserve.value() / some.cap.value());
        EXPECT_LE(rate, alone(some));
        EXPECT_GE(rate, lowest * (1 - 1e-12));
        EXPECT_GE(left(some, rate), keep - 1e-9);
        EXPECT_GE(left(some, alone(some)), -1e-9);
        if (rate < alone(some) * (1 - 1e-9)) {
            ++bound;
            EXPECT_LT(left(some, rate + (alone(some) - rate) * 1e-3), keep) << "the highest that keeps it";
        }
    }
    EXPECT_GT(bound, cases / 100);
}

TEST(Hold, MoreRestNeverLowersIt) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        MixedTask some = some_task(random);
        const double keep = some_keep(random);
        const double before = hold(some, keep);
        MixedTask rested = some;
        const Seconds more{random.between(0, 300)};
        rested.other.time += more;
        rested.other.rest += more;
        EXPECT_GE(hold(rested, keep), before * (1 - 1e-11));
        MixedTask seated = some; // part of the walking turned into rest
        const Seconds turned = seated.other.walk * random.between(0, 1);
        seated.other.walk -= turned;
        seated.other.rest += turned;
        EXPECT_GE(hold(seated, keep), before * (1 - 1e-11));
    }
}

TEST(Hold, AShorterCapNeverLowersIt) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        MixedTask some = some_task(random);
        const double keep = some_keep(random);
        const double before = hold(some, keep);
        some.cap = some.cap * random.between(0.2, 1);
        EXPECT_GE(hold(some, keep), before * (1 - 1e-11));
    }
}

TEST(Hold, MoreCaloriesOrHarderStationsNeverRaiseIt) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const MixedTask some = some_task(random);
        const double keep = some_keep(random);
        const double before = hold(some, keep);
        MixedTask longer = some;
        longer.calories = longer.calories * random.between(1, 3);
        EXPECT_LE(hold(longer, keep), before * (1 + 1e-11));
        MixedTask harder = some;
        harder.work_share = random.between(harder.work_share, 1);
        EXPECT_LE(hold(harder, keep), before * (1 + 1e-11));
    }
}

TEST(Hold, WithoutRecoveryItIsTheRateThatNeverTouchesTheKeep) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        MixedTask some = some_task(random);
        const double keep = some_keep(random);
        const double lowest =
            rate_of(some.values.critical.value() + (1 - keep) * some.values.reserve.value() / some.cap.value());
        MixedTask even = some; // as hard everywhere as on the ergometer
        even.work_share = 1;
        even.other.walk = even.other.rest = Seconds{0};
        EXPECT_NEAR(hold(even, keep), lowest, 1e-9 * lowest);
        some.calories = Kilocalories{alone(some) * some.cap.value() / 3600}; // one ergometer fills the cap
        EXPECT_NEAR(hold(some, keep), lowest, 1e-9 * lowest);
    }
}

TEST(Reserve, FallsWithTheRateAndIsWholeUpToCriticalPower) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        const MixedTask some = some_task(random);
        const double critical = rate_of(some.values.critical.value());
        EXPECT_EQ(left(some, random.between(300, critical * (1 - 1e-12))), 1);
        const double rate = random.between(300, 3000);
        const double before = left(some, rate);
        EXPECT_LE(left(some, rate * random.between(1, 1.2)), before + 1e-11 * (1 + std::abs(before)));
    }
}

TEST(Reserve, OfLaterRoundsIsLessAsARowOfPowers) {
    Random random;
    for (int i = 0; i < cases; ++i) {
        MixedTask some = some_task(random);
        const double rate = random.between(400, 2000);
        some.cap = Seconds{4 * (3600 * some.calories.value() / rate + some.other.time.value())};
        const double one = 1 - left(some, rate, 1);
        const double two = 1 - left(some, rate, 2);
        const double three = 1 - left(some, rate, 3);
        EXPECT_GE(two, one);
        EXPECT_GE(three, two);
        if (one > 1e-6) {
            const double q = two / one - 1; // E, E (1 + q), E (1 + q + q^2)
            EXPECT_NEAR(three, one * (1 + q + q * q), 1e-9 * three);
            EXPECT_LE(q, 1 + 1e-9);
        }
        EXPECT_TRUE(reserve_left(some, CaloriesPerHour{rate}, 4));
        EXPECT_UNSOLVABLE(reserve_left(some, CaloriesPerHour{rate}, 5));
    }
}

TEST(Reserve, HasNoJumps) {
    Random random;
    const auto close = [](const MixedTask& a, double rate_a, const MixedTask& b, double rate_b) {
        const double left_a = left(a, rate_a);
        EXPECT_NEAR(left_a, left(b, rate_b), 1e-5 * (1 + std::abs(left_a)));
    };
    for (int i = 0; i < cases; ++i) {
        const MixedTask some = some_task(random);
        const double rate = rate_of(some.values.critical.value() * random.between(1, 1.5));
        const double ergometer = 3600 * some.calories.value() / rate;
        for (const double edge :
             {ergometer, ergometer + some.other.work().value(), ergometer + some.other.time.value()}) {
            MixedTask before = some;
            MixedTask after = some;
            before.cap = Seconds{edge * (1 - 1e-8)};
            after.cap = Seconds{edge * (1 + 1e-8)};
            close(before, rate, after, rate);
        }
        const double critical = rate_of(some.values.critical.value());
        close(some, critical * (1 - 1e-9), some, critical * (1 + 1e-9));
        const double work_at_critical = rate_of(some.values.critical.value() / some.work_share);
        close(some, work_at_critical * (1 - 1e-9), some, work_at_critical * (1 + 1e-9));
    }
}

// ---- what is refused ----

TEST(Reserve, TheNumberOfRoundsIsFixedByTheCapAlone) {
    // 20 calories at 1200 cal/h and 60 s are two minutes: 20 minutes begin ten of them, not an eleventh.
    MixedTask even = task();
    even.cap = Seconds{1200};
    even.calories = Kilocalories{20};
    even.other.time = Seconds{60};
    EXPECT_TRUE(reserve_left(even, CaloriesPerHour{1200}, 10));
    EXPECT_UNSOLVABLE(reserve_left(even, CaloriesPerHour{1200}, 11));
}

TEST(Reserve, NoStationCountsHarderThanTheErgometer) {
    MixedTask hard = task();
    hard.work_share = 1.10;
    const auto refused = hold_rate(hard);
    ASSERT_TRUE(has_error(refused, ErrorKind::out_of_domain));
    EXPECT_NE(refused.error().message().find("no station counts harder than the ergometer"), std::string::npos);
    EXPECT_REFUSED(reserve_left(hard, CaloriesPerHour{1200}));
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
        some = task();
        some.calories = Kilocalories{bad};
        refused(some);
        some = task();
        some.values.critical = Watts{bad};
        refused(some);
        some = task();
        some.values.reserve = Joules{bad};
        refused(some);
        some = task();
        some.work_share = bad;
        refused(some);
        EXPECT_REFUSED(reserve_left(task(), rate, bad));
        EXPECT_REFUSED(reserve_left(task(), CaloriesPerHour{bad}));
    }
    for (const double bad : {-1.0, not_a_number, infinite}) {
        MixedTask some = task();
        some.other.time = Seconds{bad};
        refused(some);
        some = task();
        some.other.walk = Seconds{bad};
        refused(some);
        some = task();
        some.other.rest = Seconds{bad};
        refused(some);
        EXPECT_REFUSED(hold_rate(task(), bad));
    }
    MixedTask some = task();
    some.other.walk = some.other.rest = Seconds{45};
    refused(some); // more than the 88 s they are part of
    some.other.walk = some.other.rest = Seconds{44};
    EXPECT_TRUE(hold_rate(some)) << "nothing but walking and rest";
    EXPECT_REFUSED(hold_rate(task(), 1));
    EXPECT_REFUSED(reserve_left(task(), CaloriesPerHour{299.9})) << "no power below 300 cal/h";
    EXPECT_TRUE(reserve_left(task(), CaloriesPerHour{300}));
    EXPECT_REFUSED(reserve_left(task(), rate, 1.5));
}

TEST(Reserve, ExtremeNumbersGiveAnAnswerOrAnError) {
    const double extremes[] = {1e-300, 1e-9, 1, 1e9, 1e300};
    int answers = 0;
    for (const double cap : extremes)
        for (const double calories : extremes)
            for (const double other : {0.0, 1e-300, 1.0, 1e300})
                for (const double critical : extremes)
                    for (const double reserve : extremes)
                        for (const double share : {1e-300, 0.5, 1.0}) {
                            const MixedTask some{.cap = Seconds{cap},
                                                 .calories = Kilocalories{calories},
                                                 .other = {.time = Seconds{other}, .rest = Seconds{other / 2}},
                                                 .values = {.critical = Watts{critical}, .reserve = Joules{reserve}},
                                                 .work_share = share};
                            if (const auto rate = hold_rate(some)) {
                                ++answers;
                                EXPECT_TRUE(std::isfinite(rate->value()) && rate->value() >= 300);
                            }
                            for (const double rate : {300.0, 1200.0, 1e300}) {
                                if (const auto share_left = reserve_left(some, CaloriesPerHour{rate})) {
                                    EXPECT_TRUE(std::isfinite(*share_left) && *share_left <= 1);
                                }
                            }
                        }
    EXPECT_GT(answers, 1000);
}

} // namespace
} // namespace pacecells
