#include "pacecells/pace.h"

#include "pacecells/clock.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <cmath>

namespace pacecells {
namespace {

Seconds clock(std::string_view text) { return value_of(parse_clock(text)); }

TEST(Pace, RoundTimeIsTheCapSharedOut) {
    EXPECT_EQ(value_of(round_time(clock("18:00"), 8)), clock("2:15"));
    EXPECT_EQ(value_of(round_time(clock("19:00"), 9.5)), clock("2:00"));
    EXPECT_EQ(value_of(rounds_in(clock("18:00"), clock("2:15"))), 8);
    EXPECT_EQ(value_of(rounds_in(clock("10:00"), clock("10:00"))), 1);
}

TEST(Pace, AgreesWithTheTargetsGymsGoBy) {
    const auto table = data::table("pace_common_targets");
    for (const auto& row : table.rows) {
        const auto computed = value_of(round_time(clock(row.text("cap")), row.number("rounds")));
        EXPECT_NEAR(computed.value(), clock(row.text("round_time")).value(), table.tolerance);
    }
}

TEST(Pace, TheClockAtEvenPace) {
    EXPECT_EQ(value_of(clock_after(clock("20:00"), 8, 1)), clock("2:30"));
    EXPECT_EQ(value_of(clock_after(clock("20:00"), 8, 4)), clock("10:00"));
    EXPECT_EQ(value_of(clock_after(clock("20:00"), 8, 0.5)), clock("1:15"));
    EXPECT_EQ(value_of(clock_after(clock("20:00"), 8, 8)), clock("20:00"));
}

TEST(Pace, DriftIsTheChangeOfTheRoundTimeFromStartToEnd) {
    const auto cap = clock("20:00");
    EXPECT_NEAR(value_of(clock_after(cap, 8, 4, 0.06)).value(), clock("9:51").value(), 1e-9) << "fading: early ahead";
    EXPECT_NEAR(value_of(clock_after(cap, 8, 4, -0.06)).value(), clock("10:09").value(), 1e-9) << "finishing faster";
    // The pace itself, at the very start and the very end, differs by that share of the mean.
    const double mean = 150;
    const double bit = 1e-6;
    const double at_start = value_of(clock_after(cap, 8, bit, 0.06)).value() / bit;
    const double at_end = (1200 - value_of(clock_after(cap, 8, 8 - bit, 0.06)).value()) / bit;
    EXPECT_NEAR((at_end - at_start) / mean, 0.06, 1e-5);
}

TEST(Pace, RoundsComputedFromCellsStillReachTheLastRound) {
    const double rounds = 1080.0 / 86400 / (135.0 / 86400) * (1 - 1e-15); // 8, or a trace less
    EXPECT_EQ(value_of(clock_after(clock("18:00"), rounds, 8)), clock("18:00"));
    const auto rows = value_of(splits(clock("18:00"), rounds));
    ASSERT_EQ(rows.size(), 8u);
    EXPECT_EQ(rows.back().clock, clock("18:00"));
}

TEST(Pace, SplitsListEveryRound) {
    const auto rows = value_of(splits(clock("19:00"), 9.5));
    ASSERT_EQ(rows.size(), 10u);
    EXPECT_EQ(rows[0].round, 1);
    EXPECT_NEAR(rows[0].time.value(), 120, 1e-9);
    EXPECT_NEAR(rows[8].clock.value(), 1080, 1e-9);
    EXPECT_EQ(rows[9].round, 9.5) << "the last half round has its own row";
    EXPECT_NEAR(rows[9].time.value(), 60, 1e-9);
    EXPECT_EQ(rows[9].clock, clock("19:00"));
}

TEST(Pace, ALessThanOneRoundGoalIsOneRow) {
    for (const double rounds : {0.5, 1e-12}) {
        const auto rows = value_of(splits(clock("10:00"), rounds));
        ASSERT_EQ(rows.size(), 1u);
        EXPECT_EQ(rows[0].round, rounds);
        EXPECT_EQ(rows[0].time, clock("10:00"));
    }
}

TEST(Pace, SplitsAddUpToTheCap) {
    Random random;
    for (int i = 0; i < 2000; ++i) {
        const double cap = random.between(60, 4 * 3600);
        const double rounds = i % 2 == 0 ? random.whole(1, 60) : random.between(0.1, 60);
        const double drift = random.between(-1, 1);
        const auto rows = value_of(splits(Seconds{cap}, rounds, drift));
        ASSERT_EQ(rows.size(), static_cast<std::size_t>(std::ceil(rounds - 1e-9)));
        double sum = 0;
        for (const auto& row : rows) {
            sum += row.time.value();
            ASSERT_GT(row.time.value(), 0);
            ASSERT_NEAR(row.clock.value(), value_of(clock_after(Seconds{cap}, rounds, row.round, drift)).value(), 1e-9);
            ASSERT_NEAR(sum, row.clock.value(), 1e-9);
        }
        ASSERT_NEAR(sum, cap, 1e-9) << "cap " << cap << " rounds " << rounds << " drift " << drift;
    }
}

TEST(Pace, AFadingPlanHasEachWholeRoundSlowerByTheSameStep) {
    const auto rows = value_of(splits(clock("20:00"), 8, 0.08));
    const double step = (rows[1].time - rows[0].time).value();
    EXPECT_NEAR(step, 150 * 0.08 / 8, 1e-9);
    for (std::size_t i = 2; i < rows.size(); ++i)
        EXPECT_NEAR((rows[i].time - rows[i - 1].time).value(), step, 1e-9);
}

TEST(Pace, RehearsalIsSlower) {
    EXPECT_NEAR(value_of(rehearsal_time(clock("2:12"))).value(), 160, 1e-9);
    EXPECT_EQ(value_of(rehearsal_time(clock("2:12"), 1)), clock("2:12"));
    EXPECT_EQ(value_of(rehearsal_time(clock("2:00"), 0.8)), clock("2:30"));
}

TEST(Pace, TheErgometerGetsWhatTheRoundLeaves) {
    EXPECT_NEAR(value_of(erg_need(clock("2:15"), Kilocalories{15}, Seconds{81})).value(), 1000, 1e-9);
    EXPECT_NEAR(value_of(erg_need(clock("2:18"), Kilocalories{15}, Seconds{81}, Seconds{3})).value(), 1000, 1e-9);
    EXPECT_UNSOLVABLE(erg_need(clock("2:15"), Kilocalories{15}, Seconds{135}));
    EXPECT_UNSOLVABLE(erg_need(clock("2:15"), Kilocalories{15}, Seconds{133}, Seconds{3}));
    EXPECT_UNSOLVABLE(erg_need(Seconds{0.1 + 0.2}, Kilocalories{15}, Seconds{0.3})) << "5e-17 s is no room";
}

TEST(Pace, TheTableForTheWall) {
    const auto rows = value_of(goal_table(clock("18:00"), 6, 9, 1, Kilocalories{15}, Seconds{125}));
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows[0].goal, 6);
    EXPECT_EQ(rows[0].round_time, clock("3:00"));
    EXPECT_EQ(rows[0].half_clock, clock("9:00"));
    ASSERT_TRUE(rows[0].need);
    EXPECT_NEAR(rows[0].need->value(), 15 * 3600 / 55.0, 1e-9);
    EXPECT_NEAR(rows[1].half_clock.value(), 4 * 1080 / 7.0, 1e-9) << "7 rounds: the end of round 4";
    EXPECT_TRUE(rows[2].need) << "2:15 leaves 10 s";
    EXPECT_FALSE(rows[3].need) << "2:00 leaves no room";
    EXPECT_EQ(rows[3].round_time, clock("2:00"));
}

TEST(Pace, TheTableReachesItsLastGoalWhateverTheStep) {
    const auto tenths = value_of(goal_table(clock("20:00"), 8, 10, 0.1));
    ASSERT_EQ(tenths.size(), 21u);
    EXPECT_EQ(tenths.back().goal, 10);
    EXPECT_FALSE(tenths.back().need);
    const auto thirds = value_of(goal_table(clock("20:00"), 1, 2, 1.0 / 3));
    ASSERT_EQ(thirds.size(), 4u);
    EXPECT_EQ(thirds.back().goal, 2);
    EXPECT_EQ(value_of(goal_table(clock("20:00"), 8, 8)).size(), 1u);
    EXPECT_EQ(value_of(goal_table(clock("20:00"), 8, 9.5)).size(), 2u) << "9.5 is not on the way";
    const auto one = value_of(goal_table(clock("20:00"), 1, 1));
    EXPECT_EQ(one[0].half_clock, clock("20:00"));
}

TEST(Pace, RefusesWhatCannotBeMeant) {
    const auto cap = clock("20:00");
    for (const double bad : {-1.0, 0.0, infinite, -infinite, not_a_number}) {
        EXPECT_REFUSED(round_time(Seconds{bad}, 8));
        EXPECT_REFUSED(round_time(cap, bad));
        EXPECT_REFUSED(rounds_in(Seconds{bad}, Seconds{120}));
        EXPECT_REFUSED(rounds_in(cap, Seconds{bad}));
        EXPECT_REFUSED(clock_after(Seconds{bad}, 8, 1));
        EXPECT_REFUSED(clock_after(cap, bad, 1));
        EXPECT_REFUSED(clock_after(cap, 8, bad));
        EXPECT_REFUSED(splits(Seconds{bad}, 8));
        EXPECT_REFUSED(splits(cap, bad));
        EXPECT_REFUSED(rehearsal_time(Seconds{bad}));
        EXPECT_REFUSED(rehearsal_time(cap, bad));
        EXPECT_REFUSED(erg_need(Seconds{bad}, Kilocalories{15}, Seconds{0}));
        EXPECT_REFUSED(erg_need(cap, Kilocalories{bad}, Seconds{0}));
        EXPECT_REFUSED(goal_table(Seconds{bad}, 8, 10));
        EXPECT_REFUSED(goal_table(cap, bad, 10));
        EXPECT_REFUSED(goal_table(cap, 8, bad));
        EXPECT_REFUSED(goal_table(cap, 8, 10, 1, Kilocalories{bad}));
    }
    for (const double bad : {-1.0, infinite, not_a_number}) {
        EXPECT_REFUSED(erg_need(cap, Kilocalories{15}, Seconds{bad}));
        EXPECT_REFUSED(erg_need(cap, Kilocalories{15}, Seconds{1}, Seconds{bad}));
        EXPECT_REFUSED(goal_table(cap, 8, 10, 1, Kilocalories{15}, Seconds{bad}));
    }
    for (const double bad : {-1.001, 1.001, infinite, not_a_number}) {
        EXPECT_REFUSED(clock_after(cap, 8, 1, bad));
        EXPECT_REFUSED(splits(cap, 8, bad));
    }
    EXPECT_REFUSED(rounds_in(cap, Seconds{1201})) << "a round time above the cap";
    EXPECT_REFUSED(clock_after(cap, 8, 8.001));
    EXPECT_REFUSED(rehearsal_time(cap, 1.01));
    EXPECT_NE(rehearsal_time(cap, 0).error().message().find("The effort"), std::string::npos);
    EXPECT_REFUSED(goal_table(cap, 10, 8));
    EXPECT_REFUSED(goal_table(cap, 0.5, 8));
    for (const double step : {0.0, -1.0, 1e-300, infinite, not_a_number})
        EXPECT_REFUSED(goal_table(cap, 8, 10, step));
}

TEST(Pace, NothingHugeIsMade) {
    const auto cap = clock("20:00");
    EXPECT_EQ(value_of(splits(cap, 10000)).size(), 10000u);
    EXPECT_REFUSED(splits(cap, 10001));
    EXPECT_REFUSED(splits(cap, 1e300));
    EXPECT_REFUSED(goal_table(cap, 1, 1e300));
    EXPECT_REFUSED(goal_table(cap, 8, 10, 1e-6));
    EXPECT_EQ(value_of(goal_table(cap, 8, 10, 1e300)).size(), 1u);
    EXPECT_REFUSED(round_time(cap, 1e-320));
    EXPECT_REFUSED(rounds_in(Seconds{1e300}, Seconds{1e-300}));
    EXPECT_REFUSED(goal_table(cap, 8, 10, 1, Kilocalories{1e308}, Seconds{149})) << "no rate that a number can hold";
}

} // namespace
} // namespace pacecells
