// The core of the running heat, by keys at known times. Expected numbers are arithmetic that can be done on paper;
// targets are the plan's, forecasts are held against the functions that the sheets use.
#include "pacecells/forecast.h"
#include "pacecells/heat_log.h"
#include "pacecells/running_heat.h"
#include "pacecells/score.h"

#include "block.h"
#include "clocks.h"
#include "expect.h"
#include "random.h"

#include <cmath>

namespace pacecells {
namespace {

// 20 minutes of 30 reps a round, goal 8 rounds of 2:30; the clock of the computer shows 5000 at the start.
RunningHeat eight_rounds() {
    RunningHeat heat({HeatFormat::rounds, at(1200), 0});
    heat.add_lane({every(150, 8), at(150), {}, {30}});
    heat.add_lane({every(150, 8), at(150), {}, {30}});
    heat.start_at(at(5000));
    return heat;
}

TEST(RunningHeat, AKeyIsTheClockToAMillisecond) {
    auto heat = eight_rounds();
    const auto first = heat.stamp(0, at(5000 + 149.9996));
    EXPECT_EQ(first.verdict, Verdict::taken);
    EXPECT_EQ(first.round, 1);
    EXPECT_DOUBLE_EQ(first.clock.value(), 150);
    EXPECT_EQ(heat.stamp(0, at(5301.25)).round, 2);
    ASSERT_EQ(heat.record(0).clocks.size(), 2u);
    EXPECT_DOUBLE_EQ(heat.record(0).clocks[1].value(), 301.25);
    EXPECT_TRUE(heat.record(1).clocks.empty());
}

TEST(RunningHeat, NothingIsStampedBeforeTheStart) {
    RunningHeat heat({HeatFormat::rounds, at(1200), 0});
    heat.add_lane({});
    EXPECT_EQ(heat.stamp(0, at(10)).verdict, Verdict::not_running);
    heat.start_at(at(20)); // counting in
    EXPECT_EQ(heat.stamp(0, at(19.9)).verdict, Verdict::not_running);
    EXPECT_EQ(heat.stamp(0, at(20)).verdict, Verdict::not_running);
    EXPECT_DOUBLE_EQ(heat.clock(at(13)).value(), -7);
    EXPECT_EQ(heat.stamp(0, at(20.5)).verdict, Verdict::taken);
}

TEST(RunningHeat, TheCapClosesAfterASecondOfGrace) {
    auto heat = eight_rounds();
    const auto late = heat.stamp(0, at(5000 + 1200.9));
    EXPECT_EQ(late.verdict, Verdict::taken);
    EXPECT_DOUBLE_EQ(late.clock.value(), 1200);
    EXPECT_EQ(heat.stamp(0, at(6200.95)).verdict, Verdict::not_later);
    EXPECT_EQ(heat.stamp(1, at(6201.1)).verdict, Verdict::over);
    EXPECT_TRUE(heat.over(at(6200.1)));
    EXPECT_FALSE(heat.over(at(6199.9)));
}

TEST(RunningHeat, TheLastMomentOfTheCapAndOfItsGrace) {
    auto heat = eight_rounds();
    EXPECT_FALSE(heat.over(at(6200)));
    EXPECT_FALSE(heat.over(0, at(6200)));
    EXPECT_EQ(heat.stamp(0, at(6201)).verdict, Verdict::taken);
    EXPECT_EQ(heat.stamp(1, at(5000.0004)).verdict, Verdict::not_running) << "0:00.000";
    EXPECT_EQ(heat.stamp(1, at(5000.001)).verdict, Verdict::taken);
    EXPECT_EQ(heat.stamp(1, at(5000.0014)).verdict, Verdict::not_later) << "the same thousandth";
    EXPECT_EQ(heat.stamp(1, at(5000.0016)).verdict, Verdict::taken);
}

TEST(RunningHeat, HoldsFortyRounds) {
    RunningHeat heat({HeatFormat::rounds, at(1200), 0});
    heat.add_lane({});
    heat.start_at(at(0));
    for (int round = 1; round <= 40; ++round)
        EXPECT_EQ(heat.stamp(0, at(10.0 * round)).round, round);
    EXPECT_EQ(heat.stamp(0, at(410)).verdict, Verdict::full);
    EXPECT_EQ(heat.take_back(0).round, 40);
}

TEST(RunningHeat, ALaneThatStartsLaterHasItsOwnClockAndCap) {
    auto heat = eight_rounds();
    heat.set_offset(1, at(45));
    EXPECT_EQ(heat.stamp(1, at(5044.9)).verdict, Verdict::not_running);
    EXPECT_EQ(heat.stamp(0, at(5044.9)).verdict, Verdict::taken);
    const auto first = heat.stamp(1, at(5000 + 45 + 151.5));
    EXPECT_DOUBLE_EQ(first.clock.value(), 151.5);
    EXPECT_DOUBLE_EQ(heat.ahead(1, at(5197)).value().value(), -1.5);
    EXPECT_DOUBLE_EQ(heat.clock(1, at(5030)).value(), -15);
    EXPECT_DOUBLE_EQ(heat.clock(at(5030)).value(), 30);
    EXPECT_DOUBLE_EQ(heat.tiebreak(1, at(5345)).clock.value(), 300);
    EXPECT_FALSE(heat.too_soon(1, at(5196.5 + 60.1)));
    EXPECT_TRUE(heat.too_soon(1, at(5196.5 + 59.9)));
    EXPECT_TRUE(heat.over(0, at(6200.1)));
    EXPECT_FALSE(heat.over(1, at(6244.9)));
    EXPECT_FALSE(heat.over(at(6244.9)));
    EXPECT_TRUE(heat.over(at(6245.1)));
    EXPECT_EQ(heat.stamp(0, at(6201.1)).verdict, Verdict::over);
    const auto last = heat.stamp(1, at(6245.9));
    EXPECT_EQ(last.verdict, Verdict::taken);
    EXPECT_DOUBLE_EQ(last.clock.value(), 1200);
}

TEST(RunningHeat, TheLastStampCanBeTakenBack) {
    auto heat = eight_rounds();
    EXPECT_EQ(heat.take_back(0).verdict, Verdict::nothing_there);
    heat.stamp(0, at(5150));
    heat.stamp(0, at(5160));
    const auto gone = heat.take_back(0);
    EXPECT_EQ(gone.round, 2);
    EXPECT_DOUBLE_EQ(gone.clock.value(), 160);
    EXPECT_EQ(heat.stamp(0, at(5310)).round, 2);
}

TEST(RunningHeat, ARoundOfAMinuteIsTooSoonWhereItIsPlannedInMore) {
    auto heat = eight_rounds(); // of 150 s: 40 % are 60 s
    EXPECT_FALSE(heat.too_soon(0, at(5010)));
    heat.stamp(0, at(5140));
    EXPECT_TRUE(heat.too_soon(0, at(5199)));
    EXPECT_FALSE(heat.too_soon(0, at(5201)));
    EXPECT_FALSE(heat.too_soon(0, at(6205))); // the cap has passed
    EXPECT_FALSE(heat.too_soon(1, at(5150)));
    heat.set_record(0, {{at(140)}, {}, {}, {}, {}, true}); // withdrawn
    EXPECT_FALSE(heat.too_soon(0, at(5150)));

    RunningHeat unlike({HeatFormat::rounds, at(1200), 0}); // the second round is planned in 50 s
    unlike.add_lane({{at(200), at(250)}, at(125), {}, {30}});
    unlike.start_at(at(0));
    unlike.stamp(0, at(200));
    EXPECT_TRUE(unlike.too_soon(0, at(219)));
    EXPECT_FALSE(unlike.too_soon(0, at(221)));
    unlike.stamp(0, at(250));
    EXPECT_TRUE(unlike.too_soon(0, at(299))); // beyond the goal: 40 % of the mean
    EXPECT_FALSE(unlike.too_soon(0, at(301)));
}

TEST(RunningHeat, TargetsAreThoseOfThePlan) {
    auto heat = eight_rounds();
    EXPECT_DOUBLE_EQ(heat.target(0, 8)->value(), 1200);
    EXPECT_FALSE(heat.target(0, 9));
    EXPECT_FALSE(heat.target(0, 0));
    EXPECT_DOUBLE_EQ(heat.next_target(0)->value(), 150);
    heat.set_record(0, {every(150, 8), {}, {}, {}, {}, false});
    EXPECT_FALSE(heat.next_target(0));
}

TEST(RunningHeat, ALaneHasTheClocksAndRepsOfItsPlan) {
    const auto workout = value_of(read_workout(block::table(std::string(block::tide_table))));
    const Table keys = block::table("name | division\n");
    const auto athlete =
        value_of(read_athlete(workout, block::table("name\nName\n"), keys, block::table("Ida Quellmann | scaled\n")));
    const Plan plan = plan_for(workout, athlete);
    ASSERT_TRUE(plan.goal);
    const auto lane = lane_plan(workout, plan);
    std::size_t whole = 0;
    for (const auto& round : plan.goal->rounds)
        whole += round.whole;
    ASSERT_GT(whole, 2u);
    ASSERT_EQ(lane.targets.size(), whole);
    for (std::size_t k = 0; k < whole; ++k)
        EXPECT_DOUBLE_EQ(lane.targets[k].value(), plan.goal->rounds[k].clock.value());
    ASSERT_TRUE(lane.planned);
    EXPECT_DOUBLE_EQ(lane.planned->value(), plan.goal->target.value());
    EXPECT_EQ(lane.reps, std::vector<double>{12 + 6 + 8 + 6}); // every round alike
    EXPECT_TRUE(lane.work.empty());
    EXPECT_TRUE(lane_plan(workout, Plan{}).targets.empty());
    const auto task = value_of(heat_task(workout));
    EXPECT_EQ(task.format, HeatFormat::rounds);
    EXPECT_DOUBLE_EQ(task.cap.value(), 17 * 60);
}

TEST(RunningHeat, AheadAndBehind) {
    auto heat = eight_rounds();
    EXPECT_FALSE(heat.ahead(0, at(5100)));
    EXPECT_DOUBLE_EQ(heat.ahead(0, at(5157))->value(), -7); // round 1 was due at 2:30
    heat.stamp(0, at(5146));
    EXPECT_DOUBLE_EQ(heat.ahead(0, at(5157))->value(), 4);
    EXPECT_DOUBLE_EQ(heat.ahead(0, at(5299))->value(), 4);
    EXPECT_DOUBLE_EQ(heat.ahead(0, at(5303))->value(), -3); // round 2 is late by now
    heat.set_record(0, {{at(146)}, {}, {}, {}, {}, true});
    EXPECT_DOUBLE_EQ(heat.ahead(0, at(5400))->value(), 4); // withdrawn: no longer late
}

TEST(RunningHeat, TheOutlookIsTheForecastOfTheSheets) {
    auto heat = eight_rounds();
    EXPECT_FALSE(heat.outlook(0).expected);
    heat.stamp(0, at(5120));
    EXPECT_GT(*heat.outlook(0).expected, 240); // between 8 rounds as planned and 10 of 2:00
    EXPECT_LT(*heat.outlook(0).expected, 300);
    EXPECT_LT(*heat.outlook(0).low, *heat.outlook(0).expected);
    heat.stamp(0, at(5242));
    heat.stamp(0, at(5366));
    const std::vector<double> reps{30};
    const std::vector<Seconds> clocks{at(120), at(242), at(366)};
    const auto want =
        value_of(forecast(at(1200), clocks, value_of(RepsPerRound::by_round(reps)), usual_confidence, at(150)));
    EXPECT_DOUBLE_EQ(*heat.outlook(0).low, value_of(want.low).value());
    EXPECT_DOUBLE_EQ(*heat.outlook(0).expected, value_of(want.expected).value());
    EXPECT_DOUBLE_EQ(*heat.outlook(0).high, value_of(want.high).value());
    EXPECT_LT(*heat.outlook(0).low, *heat.outlook(0).expected);
}

TEST(RunningHeat, TheOutlookOfALadderCarriesTheWorkOn) {
    // Rounds of 60, 120, 180 s of usual work; evened to 60 s each. Where 1 and 2 took twice that they count as rounds of
    // 120 and 120 s, where round 2 took two and a half times the usual, of 120 and 150 s. What the forecast of these
    // has beyond two rounds is a share of the 180 s of round 3.
    const auto more = [](double left, double second) {
        const std::vector<Seconds> evened{at(120), at(120 + second)};
        const auto one = value_of(RepsPerRound::every_round(1));
        return value_of(value_of(forecast(evened.back() + at(left), evened, one)).expected).value() - 2;
    };
    RunningHeat heat({HeatFormat::rounds, at(720), 0});
    heat.add_lane({{}, {}, {60, 180, 360, 600}, {10, 20, 30, 40}});
    heat.set_record(0, {{at(120), at(360)}, {}, {}, {}, {}, false});
    EXPECT_NEAR(*heat.outlook(0).expected, 30 + 30 * more(360, 120) / 3, 1e-9);
    heat.set_record(0, {{at(120), at(420)}, {}, {}, {}, {}, false});
    EXPECT_NEAR(*heat.outlook(0).expected, 30 + 30 * more(300, 150) / 3, 1e-9);
    EXPECT_LT(*heat.outlook(0).low, *heat.outlook(0).expected);
    heat.set_record(0, {{at(120)}, {}, {}, {}, {}, false});
    EXPECT_LT(*heat.outlook(0).low, *heat.outlook(0).expected);
    heat.set_record(0, {{at(10)}, {}, {}, {}, {}, false}); // beyond the list
    EXPECT_FALSE(heat.outlook(0).expected);

    // A goal of three such rounds in 12 minutes is 240 s a round, of which the first has 60 of 120 s of mean work.
    RunningHeat planned({HeatFormat::rounds, at(720), 0});
    planned.add_lane({{at(120), at(360), at(720)}, at(240), {60, 180, 360, 600}, {10, 20, 30, 40}});
    planned.set_record(0, {{at(100)}, {}, {}, {}, {}, false});
    const std::vector<Seconds> clocks{at(100)};
    const auto one = value_of(RepsPerRound::every_round(1));
    const auto rounds = value_of(value_of(forecast(at(720), clocks, one, usual_confidence, at(120))).expected).value();
    // 100 s for 60 s of work: between the ends of rounds 2 and 3, 30 reps and a share of 30.
    ASSERT_GT(rounds, 3);
    ASSERT_LT(rounds, 6 + 4);
    const double work = 60 * rounds;
    const double want = work < 360 ? 30 + 30 * (work - 180) / 180 : 60 + 40 * (work - 360) / 240;
    EXPECT_NEAR(*planned.outlook(0).expected, want, 1e-9);
}

TEST(RunningHeat, ForTimeEndsWithTheLastRound) {
    RunningHeat heat({HeatFormat::for_time, at(900), 3});
    heat.add_lane({every(240, 3), at(240), {}, {50, 40, 40}});
    heat.start_at(at(0));
    heat.stamp(0, at(250));
    const std::vector<Seconds> clocks{at(250)};
    const auto finish = value_of(forecast_finish(3, clocks, usual_confidence, at(240)));
    EXPECT_DOUBLE_EQ(*heat.outlook(0).low, finish.early.value());
    EXPECT_DOUBLE_EQ(*heat.outlook(0).expected, finish.expected.value());
    EXPECT_DOUBLE_EQ(*heat.outlook(0).high, finish.late.value());
    EXPECT_DOUBLE_EQ(heat.next_target(0)->value(), 480);
    EXPECT_DOUBLE_EQ(*heat.left(0, 12), 40 + 40 - 12);
    EXPECT_TRUE(heat.fits_open_round(0, 39));
    EXPECT_FALSE(heat.fits_open_round(0, 40));
    heat.stamp(0, at(490));
    const auto last = heat.stamp(0, at(731.5));
    EXPECT_TRUE(last.finishes);
    EXPECT_DOUBLE_EQ(heat.record(0).finish->value(), 731.5);
    EXPECT_EQ(heat.stamp(0, at(740)).verdict, Verdict::finished);
    EXPECT_TRUE(heat.take_back(0).finishes);
    EXPECT_FALSE(heat.record(0).finish);
}

TEST(RunningHeat, RoundsArePutRightAfterwards) {
    auto heat = eight_rounds();
    heat.set_record(0, {{at(150), at(450)}, {}, {}, {}, {}, false});
    EXPECT_EQ(heat.insert(0, at(300)).round, 2);
    EXPECT_EQ(heat.record(0).clocks, (std::vector<Seconds>{at(150), at(300), at(450)}));
    for (const auto& [clock, verdict] : {std::pair(at(300), Verdict::not_later), std::pair(at(0), Verdict::over),
                                         std::pair(at(1200.5), Verdict::over)})
        EXPECT_EQ(heat.insert(0, clock).verdict, verdict) << clock.value();
    EXPECT_EQ(heat.remove(0, 4).verdict, Verdict::nothing_there);
    EXPECT_EQ(heat.remove(0, 0).verdict, Verdict::nothing_there);
    EXPECT_EQ(heat.record(0).clocks.size(), 3u);
    const auto gone = heat.remove(0, 1);
    EXPECT_DOUBLE_EQ(gone.clock.value(), 150);
    EXPECT_EQ(heat.insert(1, gone.clock).round, 1); // given to the other lane
    EXPECT_EQ(heat.record(0).clocks, (std::vector<Seconds>{at(300), at(450)}));
    EXPECT_EQ(heat.record(1).clocks, (std::vector<Seconds>{at(150)}));

    RunningHeat three({HeatFormat::for_time, at(900), 3});
    three.add_lane({});
    three.set_record(0, {{at(250), at(700)}, {}, {}, {}, {}, false});
    EXPECT_TRUE(three.insert(0, at(500)).finishes);
    EXPECT_DOUBLE_EQ(three.record(0).finish->value(), 700);
    EXPECT_EQ(three.insert(0, at(800)).verdict, Verdict::finished);
    three.remove(0, 3);
    EXPECT_FALSE(three.record(0).finish);
}

TEST(RunningHeat, PartialScoresAreWholeAndBelowTheRound) {
    auto heat = eight_rounds();
    EXPECT_TRUE(heat.fits_open_round(0, 0));
    EXPECT_TRUE(heat.fits_open_round(0, 29));
    for (const double bad : {30.0, 2.5, -1.0, not_a_number, infinite})
        EXPECT_FALSE(heat.fits_open_round(0, bad)) << bad;
    heat.stamp(0, at(5150));
    heat.set_record(0, {{at(150)}, 21, {}, {}, {}, false});
    EXPECT_DOUBLE_EQ(*heat.total(0), 51);
    heat.stamp(0, at(5300)); // the round is complete: the partial score goes
    EXPECT_DOUBLE_EQ(*heat.total(0), 60);
}

TEST(RunningHeat, WithdrawnAndFullLanes) {
    auto heat = eight_rounds();
    heat.set_record(0, {{}, {}, {}, {}, {}, true});
    EXPECT_EQ(heat.stamp(0, at(5100)).verdict, Verdict::out);
    EXPECT_EQ(heat.tiebreak(0, at(5100)).verdict, Verdict::out);
    for (int round = 1; round <= 40; ++round)
        EXPECT_EQ(heat.stamp(1, at(5000 + 10 * round)).round, round);
    EXPECT_EQ(heat.stamp(1, at(5500)).verdict, Verdict::full);
    EXPECT_EQ(heat.tiebreak(1, at(5501)).verdict, Verdict::taken);
    EXPECT_DOUBLE_EQ(heat.record(1).tiebreak->value(), 501);
}

TEST(RunningHeat, RandomKeysNeverBreakARecord) {
    Random random;
    for (int run = 0; run < 300; ++run) {
        RunningHeat heat({HeatFormat(random.whole(0, 1)), at(random.between(60, 2000)), random.whole(1, 9)});
        for (int lane = 0; lane < 8; ++lane)
            heat.add_lane({every(random.between(1, 300), random.whole(0, 20)),
                           random.whole(0, 1) ? std::optional(at(random.between(1, 300))) : std::nullopt,
                           {},
                           {double(random.whole(1, 200))}});
        double now = random.between(0, 1e6);
        heat.start_at(at(now + random.between(-300, 10)));
        for (int key = 0; key < 200; ++key) {
            now += random.between(0, 20);
            const auto lane = std::size_t(random.whole(0, 7));
            const auto before = heat.record(lane).clocks.size();
            if (random.whole(0, 4) == 0) {
                const bool gone = heat.take_back(lane).verdict == Verdict::taken;
                ASSERT_EQ(heat.record(lane).clocks.size(), before - (gone ? 1 : 0));
            } else {
                const bool taken = heat.stamp(lane, at(now)).verdict == Verdict::taken;
                ASSERT_EQ(heat.record(lane).clocks.size(), before + (taken ? 1 : 0));
            }
            const auto& clocks = heat.record(lane).clocks;
            for (std::size_t i = 0; i < clocks.size(); ++i) {
                ASSERT_GT(clocks[i].value(), i ? clocks[i - 1].value() : 0);
                ASSERT_LE(clocks[i], heat.task().cap);
            }
            (void)heat.outlook(lane);
            const auto ahead = heat.ahead(lane, at(now));
            ASSERT_TRUE(!ahead || std::isfinite(ahead->value()));
        }
    }
}

TEST(KeyGuard, AHeldKeyCountsOnce) {
    KeyGuard guard;
    EXPECT_TRUE(guard.accept(1, at(10)));
    double now = 10.66; // a held key repeats after 0.66 s, then 25 times a second
    for (int i = 0; i < 200; ++i, now += 0.04)
        EXPECT_FALSE(guard.accept(1, at(now)));
    EXPECT_TRUE(guard.accept(2, at(now)));
    EXPECT_TRUE(guard.accept(1, at(now + 1)));
    EXPECT_FALSE(guard.accept(3, at(10)) && guard.accept(3, at(10.999)));
    EXPECT_TRUE(guard.accept(4, at(10)) && guard.accept(4, at(11))) << "quiet for just a second";
}

TEST(HeatLog, ReadsBackWhatWasWritten) {
    const std::string text =
        heat_line("Tide\tTable\\n\n", 3) + start_line(1234.567, "run-1", 1.7e9 + 0.25, 1200) +
        lane_line(2, "Ada \"A\" B") + lane_line(1, "Bela") + set_line({"day_clocks", "Bela", 0, 150.25 / 86400}) +
        set_line({"day_out", "Bela", 0, std::string("ja\t=")}) + set_line({"day_clocks", "Ada \"A\" B", 4, 0.1}) +
        set_line({"day_clocks", "Ada \"A\" B", 4, CellValue{}}) + end_line();
    const auto log = read_heat_log(text);
    ASSERT_TRUE(log);
    EXPECT_EQ(log->event, "Tide\tTable\\n\n");
    EXPECT_EQ(log->heat, 3);
    EXPECT_EQ(log->boot_start, 1234.567);
    EXPECT_EQ(log->boot, "run-1");
    EXPECT_EQ(log->day_start, 1.7e9 + 0.25);
    EXPECT_EQ(log->cap, 1200);
    EXPECT_EQ(log->lanes, (std::vector<std::string>{"Bela", "Ada \"A\" B"}));
    EXPECT_EQ(log->cells.size(), 3u);
    EXPECT_EQ(log->cells.at({"day_clocks", "Bela", 0}), CellValue{150.25 / 86400});
    EXPECT_EQ(log->cells.at({"day_out", "Bela", 0}), CellValue{std::string("ja\t=")});
    EXPECT_EQ(log->cells.at({"day_clocks", "Ada \"A\" B", 4}), CellValue{});
    EXPECT_TRUE(log->ended);
}

TEST(HeatLog, WhatWasChangedAfterTheEndIsBesideWhatWas) {
    const CellChange then{"results_clocks", "Ada\tBrimsole", 2, 0.25};
    const Fix moved{{"results_clocks", "Ada\tBrimsole", 2, 0.375}, 0.25, 1764000000.5, "Nobodal, R."};
    const Fix gone{{"results_clocks", "Ada\tBrimsole", 2, {}}, 0.375, 1764000060, ""};
    const auto lines = heat_line("e", 1) + set_line(then) + end_line() + fix_line(moved) + fix_line(gone);
    const auto log = read_heat_log(lines);
    ASSERT_TRUE(log);
    const auto place = std::make_tuple(std::string("results_clocks"), std::string("Ada\tBrimsole"), 2);
    EXPECT_EQ(log->cells.at(place), CellValue{0.25});
    EXPECT_EQ(log->fixed().at(place), CellValue{});
    ASSERT_EQ(log->fixes.size(), 2u);
    EXPECT_EQ(log->fixes[0].before, CellValue{0.25});
    EXPECT_EQ(log->fixes[0].change.value, CellValue{0.375});
    EXPECT_DOUBLE_EQ(log->fixes[0].day, 1764000000.5);
    EXPECT_EQ(log->fixes[0].who, "Nobodal, R.");
    EXPECT_EQ(log->fixes[1].who, "");
    const auto renamed = read_heat_log(lines + name_line("Ada\tBrimsole", "Ada Nobodal"));
    EXPECT_EQ(renamed->fixes[1].change.athlete, "Ada Nobodal");
}

TEST(HeatLog, ACorrectedNameTakesItsEntriesAlong) {
    const auto log =
        read_heat_log(heat_line("e", 1) + lane_line(1, "Ada") + lane_line(2, "Bela") +
                      set_line({"results_clocks", "Ada", 0, 0.25}) + set_line({"results_clocks", "Bela", 0, 0.5}) +
                      name_line("Ada", "A\tda") + set_line({"results_clocks", "A\tda", 1, 0.75}));
    ASSERT_TRUE(log);
    EXPECT_EQ(log->lanes, (std::vector<std::string>{"A\tda", "Bela"}));
    EXPECT_EQ(log->cells.size(), 3u);
    EXPECT_EQ(log->cells.at({"results_clocks", "A\tda", 0}), CellValue{0.25});
    EXPECT_EQ(log->cells.at({"results_clocks", "A\tda", 1}), CellValue{0.75});
    EXPECT_EQ(log->cells.at({"results_clocks", "Bela", 0}), CellValue{0.5});
}

TEST(HeatLog, AnyTornEndLosesAtMostTheTornLine) {
    const std::string head = heat_line("e", 1);
    const std::string one = set_line({"day_clocks", "Ada", 0, 0.5});
    const std::string two = set_line({"day_clocks", "Ada", 1, 0.625});
    const std::string whole = head + one + two;
    for (std::size_t length = 0; length <= whole.size(); ++length) {
        const auto log = read_heat_log(whole.substr(0, length));
        ASSERT_EQ(log.has_value(), length >= head.size()) << length;
        if (log) {
            const std::size_t lines = (length >= head.size() + one.size()) + std::size_t(length == whole.size());
            ASSERT_EQ(log->cells.size(), lines) << length;
        }
    }
}

TEST(HeatLog, RubbishIsPassedOver) {
    EXPECT_FALSE(read_heat_log(""));
    EXPECT_FALSE(read_heat_log("hello\n"));
    EXPECT_FALSE(read_heat_log("heat\t2\te\t1\n"));
    EXPECT_FALSE(read_heat_log("heat\t1\te\tx\n"));
    const auto log =
        read_heat_log(heat_line("e", 1) + "set\ta\tb\tc\t1\nset\ta\tb\t1\tnan\nset\ta\tb\t1\n\nlane\t-1\tx\n"
                                          "lane\t999999999\tx\nstart\tx\ty\tz\tw\nend\tnow\n");
    ASSERT_TRUE(log);
    EXPECT_TRUE(log->cells.empty());
    EXPECT_TRUE(log->lanes.empty());
    EXPECT_FALSE(log->boot_start);
    EXPECT_FALSE(log->ended);
}

TEST(HeatLog, ALineOfAnotherLengthIsPassedOver) {
    const auto head = heat_line("e", 1) + lane_line(1, "Ada");
    const Fix fix{{"results_clocks", "Ada", 2, 0.375}, 0.25, 1764000000.5, "Bela"};
    for (const auto& line :
         {start_line(1, "run", 2, 3), lane_line(2, "Bela"), set_line({"results_clocks", "Ada", 0, 1.0}),
          name_line("Ada", "Bela"), end_line(), fix_line(fix)}) {
        const auto whole = line.substr(0, line.size() - 1);
        for (const auto& other : {whole.substr(0, std::min(whole.rfind('\t'), whole.size() - 1)), whole + "\tmore"}) {
            const auto log = read_heat_log(head + other + "\n");
            ASSERT_TRUE(log) << other;
            EXPECT_EQ(log->lanes, std::vector<std::string>{"Ada"}) << other;
            EXPECT_TRUE(log->cells.empty() && log->fixes.empty()) << other;
            EXPECT_FALSE(log->ended || log->boot_start || log->cap) << other;
        }
    }
    EXPECT_FALSE(read_heat_log("heat\t1\te\n"));
    EXPECT_FALSE(read_heat_log("heat\t1\te\t1\tmore\n"));
    EXPECT_EQ(read_heat_log(heat_line("e", 1) + lane_line(200, "Ada"))->lanes.size(), 200u);
    EXPECT_TRUE(read_heat_log(heat_line("e", 1) + lane_line(201, "Ada") + lane_line(0, "Ada"))->lanes.empty());
}

} // namespace
} // namespace pacecells
