#include "pacecells/test_history.h"

#include "pacecells/critical_power.h"
#include "pacecells/learning.h"
#include "pacecells/sets.h"

#include "logbook_kit.h"

#include <algorithm>
#include <cmath>

namespace pacecells {
namespace {

using namespace logbook;
using Tests = std::vector<TestEntry>;

// Today is 2026-06-01, so that tests count from 2026-03-09 on.

TEST(WhatCounts, IsTwelveWeeksOld) {
    EXPECT_TRUE(counts_on(longest("2026-03-09", "Ring rows", 20), today));
    EXPECT_FALSE(counts_on(longest("2026-03-08", "Ring rows", 20), today));
    EXPECT_TRUE(counts_on(longest("2026-03-08", "Ring rows", 20), today, 13));
    EXPECT_FALSE(counts_on(longest("2026-05-31", "Ring rows", 20), today - 2)) << "a day to come";
    EXPECT_TRUE(counts_on(longest("2026-06-01", "Ring rows", 20), today + 0.4)) << "today";
}

TEST(WhatCounts, TwoTestsAreCriticalPowerAndReserve) {
    // 300 s at 320 W and 900 s at 260 W are 230 W and 27,000 J: the example of critical_power.h.
    const Tests tests{watts("2026-04-20", 320, "5:00"), watts("2026-05-04", 260, "15:00"),
                      watts("2025-01-10", 400, "5:00"), watts("2026-05-05", 150, "15:00", "Ski ergometer")};
    const auto row = machine_tests(tests, Machine::row, today);
    ASSERT_TRUE(row.values);
    EXPECT_NEAR(row.values->critical.value(), 230, 1e-9);
    EXPECT_NEAR(row.values->reserve.value(), 27'000, 1e-6);
    EXPECT_EQ(row.date, day("2026-04-20")) << "the oldest that is used";
    EXPECT_EQ(row.time, Seconds{900}) << "the longest";
    EXPECT_NEAR(row.calories->value(), 900.0 / 3600 * (300 + 4 * 0.8604 * 260), 1e-9);

    const auto ski = machine_tests(tests, Machine::ski, today);
    EXPECT_FALSE(ski.values) << "one test is no line";
    EXPECT_EQ(ski.time, Seconds{900});
    EXPECT_FALSE(machine_tests(tests, Machine::bike, today).time);

    const auto later = machine_tests(tests, Machine::row, day("2026-07-20"));
    EXPECT_FALSE(later.values) << "the shorter test counts no longer";
    EXPECT_EQ(later.date, day("2026-05-04"));
}

TEST(WhatCounts, OfOneLengthTheNewest) {
    const Tests tests{watts("2026-04-20", 260, "15:00"), watts("2026-05-20", 250, "14:00"),
                      watts("2026-05-04", 320, "5:00")};
    const auto row = machine_tests(tests, Machine::row, today);
    ASSERT_TRUE(row.values);
    EXPECT_EQ(row.time, Seconds{840});
    // Through 5:00 at 320 W and 14:00 at 250 W: (250 * 840 - 320 * 300) / 540 = 211.1 W.
    EXPECT_NEAR(row.values->critical.value(), (250 * 840 - 320 * 300) / 540.0, 1e-9);
}

TEST(WhatCounts, BetweenTwoAndTwentyMinutesWhereThereAreTwo) {
    Tests tests{watts("2026-05-04", 600, "0:30"), watts("2026-05-11", 320, "5:00"), watts("2026-05-18", 260, "15:00")};
    EXPECT_NEAR(machine_tests(tests, Machine::row, today).values->critical.value(), 230, 1e-9);
    tests.pop_back();
    EXPECT_NEAR(machine_tests(tests, Machine::row, today).values->critical.value(), (320 * 300 - 600 * 30) / 270.0,
                1e-9);
}

TEST(WhatCounts, TwoAndTwentyMinutesThemselvesAreInside) {
    // 2:00 at 500 W and 20:00 at 300 W: (300 * 1200 - 500 * 120) / 1080 = 277.8 W.
    const Tests tests{watts("2026-05-04", 600, "0:30"), watts("2026-05-11", 500, "2:00"),
                      watts("2026-05-18", 300, "20:00")};
    EXPECT_NEAR(machine_tests(tests, Machine::row, today).values->critical.value(), 300'000 / 1080.0, 1e-9);
    EXPECT_TRUE(one_length(tests[1], watts("2026-05-11", 500, "2:11")));
    EXPECT_FALSE(one_length(watts("2026-05-11", 300, "3:20"), watts("2026-05-11", 290, "3:40.1")));
}

TEST(WhatCounts, OfAMovementTheNewest) {
    auto cells = of_movement("2026-05-04", "Ring rows");
    cells.reps = 20.0;
    cells.second = 12.0;
    cells.rest_s = 60.0;
    const Tests tests{value_of(read_test(cells, today)), longest("2026-05-20", "ring rows", 22),
                      load("2026-05-04", "Ring rows", 60, 5), longest("2026-01-04", "Ring rows", 30)};
    const auto rows = movement_tests(tests, "Ring Rows", today);
    EXPECT_EQ(rows.longest, Reps{22});
    EXPECT_NEAR(*rows.maximum, 70, 1e-9) << "60 (1 + 5 / 30)";
    // 20 reps, then 12 after 60 s are 0.820 (sets.h); a single pair is worth half of that: its square root.
    EXPECT_NEAR(*rows.recovery, std::sqrt(0.820), 0.001);
    EXPECT_FALSE(movement_tests(tests, "Box step-overs", today).longest);
}

TEST(WhatCounts, WhatIsKnownWhereNoLineIsToBeDrawn) {
    auto cells = on_machine("2026-05-20", "Rower", "");
    cells.critical = 200.0;
    cells.reserve = 15'000.0;
    Tests tests{value_of(read_test(cells, today)), watts("2026-05-04", 260, "15:00")};
    EXPECT_EQ(machine_tests(tests, Machine::row, today).values->critical, Watts{200});
    EXPECT_EQ(machine_tests(tests, Machine::row, today).time, Seconds{900});
    tests.push_back(watts("2026-05-11", 320, "5:00"));
    EXPECT_NEAR(machine_tests(tests, Machine::row, today).values->critical.value(), 230, 1e-9) << "tests go first";
    auto pace = of_movement("2026-05-20", "Ring rows");
    pace.rep_s = 1.9;
    pace.recovery = 0.8;
    const auto rows = movement_tests(Tests{value_of(read_test(pace, today))}, "Ring rows", today);
    EXPECT_EQ(rows.rep, Seconds{1.9});
    EXPECT_EQ(rows.recovery, 0.8);
}

std::string said(const std::vector<Misfit>& found) {
    std::string all;
    for (const auto& misfit : found)
        all += (all.empty() ? "" : "\n") + misfit.sentence.message();
    return all;
}

TEST(Misfit, OfThreeTheOneOffTheCurveIsWrong) {
    // By Riegel's rule 300 W for 3:00 are 266.7 W for 6:00 and 237.1 W for 12:00.
    const auto short_one = watts("2026-05-04", 300, "3:00");
    const auto middle = watts("2026-05-11", 267, "6:00");
    const auto long_one = watts("2026-05-18", 237, "12:00");
    EXPECT_EQ(said(misfits(Tests{short_one, middle, long_one}, today)), "");

    const auto slow = misfits(Tests{short_one, middle, watts("2026-05-18", 190, "12:00")}, today);
    ASSERT_EQ(slow.size(), 1u);
    EXPECT_EQ(slow[0].test, 2u);
    EXPECT_NEAR(slow[0].ratio, 190 / 237.0, 0.01);
    EXPECT_EQ(said(slow), "190 W, 12:00 on 2026-05-18 contradicts the other tests: it is 20% below what they say. More "
                          "likely it is wrong than they are, and was perhaps not maximal: repeat it.");

    const auto high = misfits(Tests{short_one, watts("2026-05-11", 340, "6:00"), long_one}, today);
    ASSERT_EQ(high.size(), 1u);
    EXPECT_EQ(high[0].test, 1u);
    EXPECT_NE(said(high).find("are its number, time and unit right?"), std::string::npos) << said(high);
    EXPECT_EQ(said(high).find("epeat"), std::string::npos) << "what is too good is not repeated to be put right";
}

TEST(Misfit, OfTwoTheOneThatIsTooLow) {
    // Who holds 250 W for 12 minutes has more than 230 W for 3.
    const auto found = misfits(Tests{watts("2026-05-04", 230, "3:00"), watts("2026-05-11", 250, "12:00")}, today);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].test, 0u) << "never the good one is to be repeated";
    const auto kept =
        machine_tests(Tests{watts("2026-05-04", 230, "3:00"), watts("2026-05-11", 250, "12:00")}, Machine::row, today);
    EXPECT_FALSE(kept.values);
    EXPECT_EQ(kept.time, Seconds{720}) << "the good one counts alone";
    // The other way round: far too little for 12 minutes.
    const auto other = misfits(Tests{watts("2026-05-04", 300, "3:00"), watts("2026-05-11", 120, "12:00")}, today);
    ASSERT_EQ(other.size(), 1u);
    EXPECT_EQ(other[0].test, 1u);
}

TEST(Misfit, AnOlderTestSaysWhichOfTwo) {
    const Tests two{watts("2026-05-04", 340, "3:00"), watts("2026-05-11", 200, "12:00")};
    EXPECT_EQ(misfits(two, today).at(0).test, 1u);
    Tests three = two;
    three.push_back(watts("2026-02-16", 202, "11:00")); // counts no longer, but speaks
    const auto found = misfits(three, today);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].test, 0u);
    EXPECT_FALSE(found[0].too_low());
}

TEST(Misfit, AFewPercentAreTheDay) {
    EXPECT_TRUE(misfits(Tests{watts("2026-05-04", 300, "3:00"), watts("2026-05-11", 250, "12:00")}, today).empty());
    EXPECT_TRUE(misfits(Tests{watts("2026-05-04", 300, "10:00"), watts("2026-05-25", 285, "10:00")}, today).empty());
    EXPECT_TRUE(misfits(Tests{watts("2025-05-04", 300, "3:00"), watts("2024-05-11", 120, "12:00")}, today).empty())
        << "what counts no longer contradicts nothing";
    // Equal power for 5 and for 6 minutes leaves no reserve: no line fits, whatever the day.
    EXPECT_EQ(misfits(Tests{watts("2026-05-04", 300, "5:00"), watts("2026-05-11", 301, "6:00")}, today).at(0).test, 0u);
}

// A maximum from a load is known to 5 %; 12 weeks between two tests add a tenth, as people change. Three errors of the
// two together are 0.212 on one day and 0.367 after 12 weeks: factors of 1.236 and 1.444.
TEST(Misfit, TestsFarApartMayDifferMore) {
    const auto found = [](const std::string& first_day, double later) {
        return misfits(Tests{load(first_day, "Deadlift", 100, 1), load("2026-06-01", "Deadlift", later, 1)}, today);
    };
    EXPECT_TRUE(found("2026-06-01", 123).empty());
    const auto one = found("2026-06-01", 124);
    ASSERT_EQ(one.size(), 1u);
    EXPECT_NE(one[0].sentence.message().find("it is 19% below"), std::string::npos) << "100 kg are 80.65 % of 124";
    EXPECT_TRUE(found("2026-03-09", 144).empty());
    EXPECT_EQ(found("2026-03-09", 145).size(), 1u);
}

// Errors of 0.05 and 0.05 / root 2: 116 kg are 3.5 of them above the others, 88 kg are 3.3 below.
TEST(Misfit, OfTwoAboutAsFarTheLower) {
    const auto wrong = [](double low, double high) {
        const Tests tests{load("2026-06-01", "Deadlift", 100, 1), load("2026-06-01", "Deadlift", high, 1),
                          load("2026-06-01", "Deadlift", low, 1)};
        return misfits(tests, today).at(0).test;
    };
    EXPECT_EQ(wrong(88, 116), 2u);
    EXPECT_EQ(wrong(92, 120), 1u) << "3.7 above and 2.8 below";
}

TEST(Misfit, OfAMovement) {
    const Tests tests{load("2026-05-04", "Deadlift", 100, 5), load("2026-05-11", "Deadlift", 115, 1),
                      load("2026-05-18", "Deadlift", 60, 3), longest("2026-05-18", "Deadlift", 9)};
    const auto found = misfits(tests, today);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].test, 2u) << "66 kg beside 117 and 115";
    EXPECT_EQ(movement_tests(tests, "Deadlift", today).maximum, 115);
    const auto slip = misfits(Tests{longest("2026-05-04", "Ring rows", 20), longest("2026-05-11", "Ring rows", 22),
                                    longest("2026-05-18", "Ring rows", 220)},
                              today);
    ASSERT_EQ(slip.size(), 1u);
    EXPECT_EQ(slip[0].test, 2u);
}

TEST(Records, TheBestOfEachKind) {
    const Tests tests{metres("2024-03-01", 2000, "7:55"),     metres("2025-03-01", 2000, "7:41"),
                      metres("2026-05-04", 2000, "7:45"),     calories("2025-03-10", 150, "10:00"),
                      calories("2026-05-10", 158, "10:00"),   calories("2025-04-10", 50, "2:41"),
                      calories("2025-05-10", 50, "2:38"),     longest("2025-04-10", "Ring rows", 25),
                      longest("2026-04-10", "ring rows", 25), load("2025-04-10", "Deadlift", 110, 1),
                      load("2026-04-10", "Deadlift", 100, 5)};
    std::vector<std::string> best;
    for (const auto i : records(tests, today))
        best.push_back(result_text(tests[i]) + " " + date_text(tests[i].date));
    std::ranges::sort(best);
    EXPECT_EQ(best, (std::vector<std::string>{"158 cal, 10:00 2026-05-10", "2000 m, 7:41 2025-03-01", "25 2025-04-10",
                                              "5 × 100 kg 2026-04-10", "50 cal, 2:38 2025-05-10"}))
        << "116.7 kg by Epley are more than 110; who had 25 first keeps them";
}

TEST(Records, AreOfOneKind) {
    EXPECT_TRUE(one_kind(metres("2024-03-01", 2000, "7:55"), metres("2025-03-01", 2000, "8:00")));
    EXPECT_FALSE(one_kind(metres("2024-03-01", 2000, "7:55"), metres("2025-03-01", 1000, "3:40")));
    EXPECT_TRUE(one_kind(calories("2024-03-01", 150, "10:00"), watts("2025-03-01", 210, "10:00")))
        << "both say the power";
    EXPECT_FALSE(one_kind(longest("2024-03-01", "Deadlift", 9), load("2024-03-01", "Deadlift", 100, 1)));
}

TEST(Records, OfEqualOnesTheFirst) {
    const Tests tests{longest("2026-04-10", "Ring rows", 25), longest("2025-04-10", "Ring rows", 25),
                      longest("2025-04-10", "Ring rows", 25)};
    EXPECT_EQ(records(tests, today), std::vector<std::size_t>{1});
    EXPECT_EQ(records(Tests(2, tests[0]), today), std::vector<std::size_t>{0});
}

TEST(Records, WhatCannotBeTrueIsNone) {
    const Tests tests{longest("2026-05-04", "Ring rows", 20), longest("2026-05-11", "Ring rows", 22),
                      longest("2026-05-18", "Ring rows", 220)};
    EXPECT_EQ(records(tests, today), std::vector<std::size_t>{1});
}

TEST(OutOfDate, IsTheNewestThatCountsNoLonger) {
    const Tests tests{watts("2024-05-04", 300, "3:00"), watts("2025-05-04", 310, "3:00"),
                      watts("2025-05-04", 280, "3:00", "Ski ergometer"),
                      watts("2026-05-04", 290, "3:00", "Ski ergometer"), longest("2025-05-04", "Ring rows", 20)};
    EXPECT_EQ(out_of_date(tests, today), (std::vector<std::size_t>{1, 4}));
    const Tests one_day{longest("2025-05-04", "Ring rows", 20), longest("2025-05-04", "Ring rows", 18)};
    EXPECT_EQ(out_of_date(one_day, today), std::vector<std::size_t>{1}) << "the lower row of one day";
}

std::string next(const Tests& tests, ToTest who = {}) {
    static constexpr Machine machines[] = {Machine::ski, Machine::row};
    who.today = who.today == 0 ? today : who.today;
    if (who.machines.empty())
        who.machines = machines;
    const auto found = next_test(tests, who);
    std::string all =
        found.machine ? std::string(words_of(WordList::machine)[static_cast<std::size_t>(*found.machine)].key) + ": "
                      : "";
    all += found.movement.empty() ? "" : found.movement + ": ";
    all += found.sentence.message();
    return all + (found.not_before ? " Not before " + date_text(*found.not_before) : "");
}

TEST(NextTest, InTheOrderOfWhatHelpsMost) {
    EXPECT_EQ(next({}), "ski: A first test: 10:00, calories.");
    EXPECT_EQ(next({calories("2026-05-04", 150, "10:00")}),
              "row: Test 3:00: a second test of another length makes the rate surer.");
    EXPECT_EQ(next({watts("2026-05-04", 300, "3:00")}),
              "row: Test 12:00: a second test of another length makes the rate surer.");
    EXPECT_EQ(next({metres("2026-05-04", 2000, "7:45")}),
              "row: Test 20:00: a second test of another length makes the rate surer.");
    // Three times as long in whole minutes, from 12 to 20; from nine minutes on a short one.
    EXPECT_EQ(next({watts("2026-05-04", 300, "4:50")}).substr(0, 16), "row: Test 15:00:");
    EXPECT_EQ(next({watts("2026-05-04", 300, "8:59")}).substr(0, 16), "row: Test 20:00:");
    EXPECT_EQ(next({watts("2026-05-04", 300, "9:00")}).substr(0, 15), "row: Test 3:00:");
    EXPECT_EQ(next({calories("2025-05-04", 150, "10:00")}), "row: Test 10:00 again: the last test is 56 weeks old.");
    EXPECT_EQ(next({metres("2025-05-04", 2000, "7:45")}), "row: Test 2000 m again: the last test is 56 weeks old.");
    EXPECT_EQ(next({watts("2026-05-04", 230, "3:00"), watts("2026-05-11", 250, "12:00")}),
              "row: Repeat 230 W, 3:00 of 2026-05-04: it does not fit the other tests.");
    const Tests both{watts("2026-05-04", 320, "5:00"), watts("2026-05-11", 260, "15:00")};
    EXPECT_EQ(next(both), "No test is due before 2026-07-28.");
    Tests more = both;
    more.push_back(longest("2026-01-10", "Ring rows", 20));
    EXPECT_EQ(next(more), "Ring rows: Test again: the last test is 20 weeks old.");
}

TEST(NextTest, NotBeforeTwoDaysAreOver) {
    EXPECT_EQ(next({calories("2026-05-31", 150, "10:00")}),
              "row: Test 3:00: a second test of another length makes the rate surer. Not before 2026-06-02");
    EXPECT_EQ(next({calories("2026-05-30", 150, "10:00")}),
              "row: Test 3:00: a second test of another length makes the rate surer.");
}

TEST(NextTest, NoneForWhomItIsNotMeant) {
    const Tests old{calories("2025-05-04", 150, "10:00")};
    EXPECT_EQ(next(old, {.minor = true}), "No maximal test: minors train in a pace group.");
    for (const auto plan : {DayPlan::easy, DayPlan::technique, DayPlan::not_today})
        EXPECT_EQ(next(old, {.plan = plan}), "No maximal test at the moment.") << "no reason is told";
    EXPECT_EQ(next(old, {.event = today}), "No maximal test in the three days before an event.");
    EXPECT_EQ(next(old, {.event = today + 3}), "No maximal test in the three days before an event.");
    EXPECT_EQ(next(old, {.event = today + 4}).substr(0, 9), "row: Test");
    EXPECT_EQ(next(old, {.event = today - 1}).substr(0, 9), "row: Test") << "an event that is over";
}

TEST(History, IsOfOnePerson) {
    auto other = longest("2026-05-04", "Ring rows", 40);
    other.name = "Teo Osterby";
    const Tests all{longest("2026-05-04", "Ring rows", 20), other};
    EXPECT_EQ(tests_of("mara  lindqvarn", all).size(), 1u);
    EXPECT_EQ(tests_of("Mara", all).size(), 0u);
}

} // namespace
} // namespace pacecells
