#include "pacecells/outcome.h"

#include "pacecells/athlete_plan.h"

#include "block.h"
#include "expect.h"

#include <cmath>

namespace pacecells {
namespace {

// 17 minutes: 12 cal ski, 6 sandbags, 8 box step-overs, 6 ring rows, scaled: 32 reps a round.
Workout workout(const std::string& text = std::string{block::tide_table}) {
    return value_of(read_workout(block::table(text)));
}

Athlete mara(const Workout& on, const std::string& plan = "full") {
    const auto keys = block::table("name | division | plan | goal\n");
    auto row = block::table("Mara Lindqvarn | scaled | " + plan + " | \n");
    row.cells.resize(keys.columns);
    row.columns = keys.columns;
    return value_of(read_athlete(
        on, block::table("name | ski.critical | ski.reserve\nName | W | J\nMara Lindqvarn | 120 | 9000\n"), keys, row));
}

TEST(Outcome, OfTimedRounds) {
    const auto on = workout();
    const auto athlete = mara(on);
    // 12 cal in 61 and 63 s are 24 / 124 * 3600 = 696.8 cal/h, 115.3 W.
    const auto came = outcome_of(on, athlete, {.reps = 192, .ergometer_times = {Seconds{61}, Seconds{63}}});
    EXPECT_EQ(came.machine, Machine::ski);
    EXPECT_EQ(came.calories, Kilocalories{12});
    EXPECT_TRUE(came.timed);
    EXPECT_NEAR(came.held->power.value(), (24.0 / 124 * 3600 - 300) / (4 * 0.8604), 1e-9);
    EXPECT_NEAR(came.held->error, std::hypot(0.04, 0.05 / std::sqrt(2)), 1e-12);
    ASSERT_TRUE(came.observation);
    // Promised: (120 + 9000 / 1020) W times the share at factor 1.
    const double promised = (120 + 9000.0 / 1020) * came.share;
    EXPECT_NEAR(came.observation->ratio, came.held->power.value() / promised, 1e-9);
    EXPECT_GT(came.share, 0.75);
    EXPECT_LT(came.share, 0.9);
}

TEST(Outcome, DoesNotCountTwiceWhatWasLearntBefore) {
    const auto on = workout();
    auto athlete = mara(on);
    const CameOf result{.reps = 192, .ergometer_times = {Seconds{61}}};
    const auto fresh = outcome_of(on, athlete, result);
    athlete.factor = 1.15;
    EXPECT_NEAR(outcome_of(on, athlete, result).observation->ratio, fresh.observation->ratio, 1e-12);
}

// A ladder whose first round is empty: 40, 80, 120 and 50 calories in 17 minutes with nothing else to do.
TEST(Outcome, OfTheTotalOfALadder) {
    const auto on = workout(
        "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | 17:00\nfade | 0\nsteps | 0\n"
        "stations | no | movement | unit | when | amount.1\ndivisions | | | | | scaled\n"
        "station | 1 | Ski | ski cal | | 0-40-80-…\n"
        "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
        "pace | 1 | | 800 | | 0 | | | | |\nend |\n");
    const auto came = outcome_of(on, mara(on), {.reps = 40 + 80 + 120 + 50});
    ASSERT_TRUE(came.held);
    EXPECT_NEAR(came.held->power.value(), (290 * 3600 / 1020.0 - 300) / (4 * 0.8604), 1e-9);
}

TEST(Outcome, OfTheTotal) {
    const auto on = workout();
    const auto athlete = mara(on);
    const auto came = outcome_of(on, athlete, {.reps = 6 * 32});
    ASSERT_TRUE(came.held && came.observation);
    EXPECT_FALSE(came.timed);
    // As if it had been the goal, without the seconds that a goal keeps before the cap.
    auto as_goal = athlete;
    as_goal.goal = TypedGoal{.kind = TypedGoal::Kind::rounds, .rounds = 6};
    auto no_slip = on;
    no_slip.settings.slip = Seconds{0};
    const auto needs = plan_for(no_slip, as_goal).needs;
    EXPECT_NEAR(came.held->power.value(), (needs->value() - 300) / (4 * 0.8604), 1e-6);
    EXPECT_NEAR(came.held->error, value_of(held_by_total(Kilocalories{12}, *needs, Seconds{10})).error, 1e-9)
        << "the other stations are the group's";
    EXPECT_GT(came.held->error, outcome_of(on, athlete, {.reps = 192, .ergometer_times = {Seconds{61}}}).held->error);
    EXPECT_GT(outcome_of(on, athlete, {.reps = 6 * 32 + 10}).held->power, came.held->power) << "more reps, more watts";
}

TEST(Outcome, OwnRepsMakeATotalSurer) {
    const auto on = workout();
    auto athlete = mara(on);
    for (std::size_t i = 1; i <= 3; ++i) // the ergometer is 0
        athlete.movements[i].rep = Seconds{3};
    const auto came = outcome_of(on, athlete, {.reps = 6 * 32});
    auto goal = athlete;
    goal.goal = TypedGoal{.kind = TypedGoal::Kind::rounds, .rounds = 6};
    auto no_slip = on;
    no_slip.settings.slip = Seconds{0};
    const auto needs = plan_for(no_slip, goal).needs;
    EXPECT_NEAR(came.held->error, value_of(held_by_total(Kilocalories{12}, *needs, Seconds{6})).error, 1e-9);
}

TEST(Outcome, CaloriesAreThoseOfTheTimedRounds) {
    auto text = block::with(std::string{block::tide_table}, "| AMRAP", "| for time");
    text = block::with(text, "| 14       | 12       |", "| 14 | 12-10-8 |");
    const auto on = workout(text);
    const auto athlete = mara(on);
    EXPECT_EQ(outcome_of(on, athlete, {.ergometer_times = {Seconds{61}}}).calories, Kilocalories{12});
    EXPECT_EQ(outcome_of(on, athlete, {.ergometer_times = {Seconds{61}, Seconds{52}}}).calories, Kilocalories{11});
    EXPECT_EQ(outcome_of(on, athlete, {.time = Seconds{900}}).calories, Kilocalories{10}) << "of all rounds";
}

TEST(Outcome, OfRepsLeftAtTheCap) {
    auto text = block::with(std::string{block::tide_table}, "| AMRAP", "| for time");
    const auto on = workout(block::with(text, "rounds    | Rounds          |", "rounds | | 7"));
    const auto athlete = mara(on); // 7 rounds of 32 reps
    const auto came = outcome_of(on, athlete, {.reps_left = 7 * 32 - 180});
    ASSERT_TRUE(came.held);
    EXPECT_NEAR(came.held->power.value(), outcome_of(on, athlete, {.reps = 180}).held->power.value(), 1e-9);
    EXPECT_TRUE(outcome_of(on, athlete, {.reps_left = 10}).held) << "in the last round";
    EXPECT_LT(came.held->power, outcome_of(on, athlete, {.time = Seconds{1020}}).held->power)
        << "all done by the cap is more";
}

TEST(Outcome, LearnsNothingWhereThereIsNothingToLearn) {
    const auto on = workout();
    const auto slow = CameOf{.reps = 150, .ergometer_times = {Seconds{75}}};
    EXPECT_TRUE(outcome_of(on, mara(on), slow).observation);
    auto more_left = slow;
    more_left.could_go_on = true;
    EXPECT_FALSE(outcome_of(on, mara(on), more_left).observation) << "it was not all she had";
    EXPECT_TRUE(
        outcome_of(on, mara(on), {.reps = 192, .ergometer_times = {Seconds{50}}, .could_go_on = true}).observation)
        << "more than promised counts all the same";
    for (const auto* plan : {"easy", "technique", "not today"})
        EXPECT_FALSE(outcome_of(on, mara(on, plan), slow).held) << plan;
    auto untested = mara(on);
    untested.machines = {};
    const auto came = outcome_of(on, untested, slow);
    EXPECT_TRUE(came.held) << "what was held is known";
    EXPECT_NEAR(came.share, outcome_of(on, mara(on), slow).share, 1e-3) << "and for which share of the watts alone";
    EXPECT_FALSE(came.observation) << "but nothing was promised";
    EXPECT_FALSE(outcome_of(on, mara(on), {}).held) << "no result at all";
    EXPECT_FALSE(outcome_of(on, mara(on), {.ergometer_times = {Seconds{200}}}).held) << "216 cal/h are no power";
}

} // namespace
} // namespace pacecells
