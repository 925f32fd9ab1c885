// The running heat at its edges: the last of what counts, and the first that does not.
#include "pacecells/running_heat.h"

#include "pacecells/forecast.h"

#include "block.h"
#include "clocks.h"
#include "expect.h"

#include <string>
#include <vector>

namespace pacecells {
namespace {

// One lane of 20 minutes, planned in rounds of 150 s and 30 reps.
RunningHeat one_lane(HeatFormat format = HeatFormat::rounds, int rounds = 0) {
    RunningHeat heat({format, at(1200), rounds});
    heat.add_lane({every(150, 8), at(150), {}, {30}});
    heat.start_at(at(0));
    return heat;
}

TEST(HeatEdges, FortyPercentOfARoundIsNotTooSoon) {
    auto heat = one_lane();
    heat.stamp(0, at(140));
    EXPECT_FALSE(heat.too_soon(0, at(140))) << "the key that was just read";
    EXPECT_TRUE(heat.too_soon(0, at(140.5)));
    EXPECT_TRUE(heat.too_soon(0, at(199.999)));
    EXPECT_FALSE(heat.too_soon(0, at(200)));
}

TEST(HeatEdges, ARoundThatIsPutInIsWithinTheCap) {
    auto heat = one_lane();
    EXPECT_EQ(heat.insert(0, at(0)).verdict, Verdict::over);
    EXPECT_EQ(heat.insert(0, at(0.5)).verdict, Verdict::taken);
    EXPECT_EQ(heat.insert(0, at(1200)).verdict, Verdict::taken);
    EXPECT_EQ(heat.insert(0, at(1200.001)).verdict, Verdict::over);
    heat.set_record(0, {every(20, 40), {}, {}, {}, {}, false});
    EXPECT_EQ(heat.insert(0, at(810)).verdict, Verdict::full);
    heat.set_record(0, {every(20, 39), {}, {}, {}, {}, false});
    EXPECT_EQ(heat.insert(0, at(810)).round, 40);
}

TEST(HeatEdges, AllRoundsAreAFinishEvenIfNobodySaidSo) {
    auto heat = one_lane(HeatFormat::for_time, 3);
    heat.set_record(0, {every(150, 3), {}, {}, {}, {}, false});
    EXPECT_EQ(heat.stamp(0, at(700)).verdict, Verdict::finished);
    heat.set_record(0, {every(150, 2), {}, {}, {}, {}, false});
    EXPECT_TRUE(heat.stamp(0, at(700)).finishes);
}

TEST(HeatEdges, RepsOfAnOpenRound) {
    auto heat = one_lane();
    EXPECT_TRUE(heat.running(0, at(0.001)));
    EXPECT_FALSE(heat.running(0, at(0)));
    RunningHeat unknown({HeatFormat::rounds, at(1200), 0});
    unknown.add_lane({});
    EXPECT_TRUE(unknown.fits_open_round(0, 99'999)) << "as many as a sheet takes";
    EXPECT_FALSE(unknown.fits_open_round(0, 100'000));
    EXPECT_FALSE(unknown.total(0));
    EXPECT_EQ(heat.total(0), 0);
    EXPECT_EQ(one_lane(HeatFormat::for_time, 3).left(0, 0), 90);
    EXPECT_EQ(one_lane(HeatFormat::for_time, 3).left(0, 89), 1);
    EXPECT_EQ(one_lane(HeatFormat::for_time, 3).left(0, 91), 0);
}

Workout timed(const std::string& rounds) {
    return value_of(
        read_workout(block::table(block::with(block::with(std::string{block::tide_table}, "| AMRAP", "| for time"),
                                              "rounds    | Rounds          |", "rounds | | " + rounds))));
}

TEST(HeatEdges, ATaskForTimeHasItsRounds) {
    const auto task = value_of(heat_task(timed("3")));
    EXPECT_EQ(task.format, HeatFormat::for_time);
    EXPECT_EQ(task.rounds, 3);
    EXPECT_EQ(value_of(heat_task(timed("1"))).rounds, 1);
    const auto with_lists = value_of(heat_task(value_of(read_workout(block::table(
        "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | for time\ncap | 0:01\nslip_s | 0\n"
        "stations | no | movement | unit | when | amount.1 | amount.2\n"
        "divisions | | | | | open | short\n"
        "station | 1 | Kettle swings | rep | | 21-15-9 | 15-9\n"
        "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
        "pace | 1 | 2 | | | | | | | |\nend |\n")))));
    EXPECT_EQ(with_lists.rounds, 3) << "of the division that does most";
    EXPECT_EQ(with_lists.cap, at(1));
    auto capless = timed("3");
    capless.settings.cap = Seconds{0};
    EXPECT_EQ(heat_task(capless).error().message(), "Enter the cap on the sheet Workout first.");
    Plan stranger;
    stranger.division = 2; // of two
    EXPECT_TRUE(lane_plan(timed("3"), stranger).reps.empty());
}

// Rounds of 60, 120, 180 s of usual work for time: what is left counts in rounds like the first.
TEST(HeatEdges, TheFinishOfRoundsThatGrow) {
    RunningHeat heat({HeatFormat::for_time, at(1200), 3});
    heat.add_lane({{}, {}, {60, 180, 360}, {10, 20, 30}});
    const auto expect_finish = [&](const std::vector<Seconds>& clocks, const std::vector<Seconds>& evened,
                                   double rounds, std::optional<Seconds> planned = {}) {
        heat.set_record(0, {clocks, {}, {}, {}, {}, false});
        const auto finish = value_of(forecast_finish(rounds, evened, usual_confidence, planned));
        const double later = (clocks.back() - evened.back()).value();
        EXPECT_NEAR(*heat.outlook(0).low, finish.early.value() + later, 1e-9);
        EXPECT_NEAR(*heat.outlook(0).expected, finish.expected.value() + later, 1e-9);
        EXPECT_NEAR(*heat.outlook(0).high, finish.late.value() + later, 1e-9);
    };
    expect_finish({at(120)}, {at(120)}, 1 + (120 + 180) / 60.0);
    expect_finish({at(120), at(360)}, {at(120), at(240)}, 2 + 180 / 60.0); // 240 s for twice the work are 120 s
    // A goal of 240 s a round is 120 s for the first, which has 60 of 360 s of the work of three.
    heat = RunningHeat({HeatFormat::for_time, at(1200), 3});
    heat.add_lane({{at(120), at(360), at(720)}, at(240), {60, 180, 360}, {10, 20, 30}});
    expect_finish({at(130)}, {at(130)}, 6, at(120));
    heat = RunningHeat({HeatFormat::for_time, at(1200), 4});
    heat.add_lane({{}, {}, {60, 180, 360}, {10, 20, 30}});
    heat.set_record(0, {{at(120)}, {}, {}, {}, {}, false});
    EXPECT_FALSE(heat.outlook(0).expected) << "a fourth round that nobody knows";
    // Without work every round is like the first, and a task needs a round at least.
    heat = RunningHeat({HeatFormat::for_time, at(1200), 0});
    heat.add_lane({});
    heat.set_record(0, {{at(120)}, {}, {}, {}, {}, false});
    EXPECT_NEAR(*heat.outlook(0).expected, 120, 1e-9);
}

// 120 s for 60 s of work; as long again is another 60 s or so, half of round 2.
TEST(HeatEdges, TheOutlookInTheSecondRound) {
    RunningHeat heat({HeatFormat::rounds, at(240), 0});
    heat.add_lane({{}, {}, {60, 180, 360}, {10, 20, 30}});
    heat.set_record(0, {{at(120)}, {}, {}, {}, {}, false});
    const std::vector<Seconds> clocks{at(120)};
    const auto rounds = value_of(value_of(forecast(at(240), clocks, value_of(RepsPerRound::every_round(1)))).expected);
    ASSERT_GT(rounds.value(), 1);
    ASSERT_LT(rounds.value(), 3);
    EXPECT_NEAR(*heat.outlook(0).expected, 10 + 20 * (60 * rounds.value() - 60) / 120, 1e-9);
}

TEST(HeatEdges, LateIsWhatIsPastTheTarget) {
    const auto heat = one_lane();
    EXPECT_FALSE(heat.ahead(0, at(149.5)));
    EXPECT_FALSE(heat.ahead(0, at(150)));
    EXPECT_NEAR(heat.ahead(0, at(150.5))->value(), -0.5, 1e-9);
    EXPECT_NEAR(heat.ahead(0, at(1500))->value(), 150 - 1200, 1e-9) << "no later than the cap";
}

TEST(HeatEdges, NoRepsNoOutlook) {
    RunningHeat heat({HeatFormat::rounds, at(1200), 0});
    heat.add_lane({{}, {}, {60, 180, 360}, {}});
    heat.set_record(0, {{at(120)}, {}, {}, {}, {}, false});
    EXPECT_FALSE(heat.outlook(0).expected);
    EXPECT_FALSE(heat.left(0, 0));
    // Of three rounds that are known no more than three can be told.
    heat = RunningHeat({HeatFormat::rounds, at(1200), 0});
    heat.add_lane({{}, {}, {60, 180, 360}, {10, 20, 30}});
    heat.set_record(0, {{at(100), at(200), at(300)}, {}, {}, {}, {}, false});
    EXPECT_EQ(heat.total(0), 60);
    EXPECT_TRUE(heat.fits_open_round(0, 500)) << "nobody knows round 4";
    heat.set_record(0, {{at(100), at(200), at(300), at(400)}, {}, {}, {}, {}, false});
    EXPECT_FALSE(heat.total(0));
    EXPECT_FALSE(heat.outlook(0).expected);
    heat.set_record(0, {{at(100), at(200)}, {}, {}, {}, {}, false});
    EXPECT_TRUE(heat.fits_open_round(0, 29));
    EXPECT_FALSE(heat.fits_open_round(0, 30));
}

// Of 8 rounds of 1 to 8 reps round 1 is planned in a 36th of their clock; a goal inside round 1 plans no round.
TEST(HeatEdges, TheFirstRoundOfALadderAsPlanned) {
    const auto ladder = value_of(read_workout(block::table(
        "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | 20:00\nslip_s | 0\nsteps | 0\n"
        "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
        "station | 1 | Kettle swings | rep | | 1-2-3-…\nstation | 2 | Floor presses | rep | | 1-2-3-…\n"
        "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
        "pace | 1 | 10 | | | | | | | |\npace | 2 | 10 | | | | | | | |\nend |\n")));
    const auto expected = [&](const std::string& goal) {
        const auto athlete =
            value_of(read_athlete(ladder, block::table("name\nName\n"), block::table("name | division | goal\n"),
                                  block::table("Ida Quellmann | open | " + goal + "\n")));
        RunningHeat heat(value_of(heat_task(ladder)));
        heat.add_lane(lane_plan(ladder, plan_for(ladder, athlete)));
        heat.set_record(0, {{at(30)}, {}, {}, {}, {}, false});
        return *heat.outlook(0).expected;
    };
    const auto reps_at = [](std::optional<Seconds> planned) {
        const std::vector<Seconds> clocks{at(30)};
        const auto one = value_of(RepsPerRound::every_round(1));
        double left = value_of(value_of(forecast(at(1200), clocks, one, usual_confidence, planned)).expected).value();
        double reps = 0;
        for (double k = 1; left > 0; left -= k, ++k) // a round of k reps each is k rounds like the first
            reps += 2 * std::min(left, k);
        return reps;
    };
    EXPECT_NEAR(expected("8"), reps_at(at(1200.0 / 36)), 1e-6);
    EXPECT_NEAR(expected("Kettle swings"), reps_at({}), 1e-6);
}

// A first round without work has no time: nothing is planned for a round then.
TEST(HeatEdges, APlannedTimeIsAboveZero) {
    const auto planned = [](const std::string& amounts, const std::string& goal) {
        const auto workout = value_of(read_workout(block::table(
            "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | for time\ncap | 10:00\nsteps | 0\n"
            "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
            "station | 1 | Kettle swings | rep | | " +
            amounts +
            "\npaces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
            "pace | 1 | 0.5 | | | | | | | |\nend |\n")));
        const auto athlete =
            value_of(read_athlete(workout, block::table("name\nName\n"), block::table("name | division | goal\n"),
                                  block::table("Ida Quellmann | open | " + goal + "\n")));
        return lane_plan(workout, plan_for(workout, athlete)).planned;
    };
    EXPECT_FALSE(planned("0-10-10", "1:00"));
    EXPECT_NEAR(planned("10-10", "1:00")->value(), 30, 1e-9);
    EXPECT_NEAR(planned("10", "0:01")->value(), 1, 1e-9);
}

// A ladder: its rounds have their own reps, and a first one of a single rep counts too.
TEST(HeatEdges, ALadderHasRepsAndWorkOfEachRound) {
    const auto ladder = value_of(read_workout(
        block::table("pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | 20:00\nsteps | 0\n"
                     "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
                     "station | 1 | Kettle swings | rep | | 1-2-3-…\n"
                     "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
                     "pace | 1 | 0.5 | | | | | | | |\nend |\n")));
    Plan plan;
    plan.division = 0;
    const auto lane = lane_plan(ladder, plan);
    ASSERT_EQ(lane.reps.size(), 40u);
    EXPECT_EQ(lane.reps[0], 1);
    EXPECT_EQ(lane.reps[39], 40);
    EXPECT_NEAR(lane.work[2], 0.5 + 1 + 1.5, 1e-9);
    EXPECT_FALSE(lane.planned);
}

} // namespace
} // namespace pacecells
