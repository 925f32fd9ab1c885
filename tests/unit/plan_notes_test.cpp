// What a plan says in words. The limits are tried on both sides.
#include "pacecells/athlete_plan.h"

#include "block.h"
#include "expect.h"

#include <algorithm>
#include <string>

namespace pacecells {
namespace {

using block::table;
using block::with;

const std::string tide{block::tide_table};

Plan plan(const std::string& text, const std::string& row, const std::string& tests) {
    const Workout on = value_of(read_workout(table(text)));
    const Table keys = table("name | division | plan | group | goal | answer | pacing\n");
    Table cells = table(row + "\n");
    cells.cells.resize(keys.columns);
    cells.columns = keys.columns;
    return plan_for(on, value_of(read_athlete(on, table(tests), keys, cells)));
}

// The note that begins so, or nothing.
std::string note(const Plan& plan, const std::string& begin) {
    for (const auto& one : plan.notes)
        if (one.message().starts_with(begin))
            return one.message();
    return {};
}

// What is said of a load of 45 kg, so many reps per round, by who lifts so much once.
std::string of_load(int reps, const std::string& maximum) {
    const auto text = with(tide, "rep     |      | 6        | 6        | 45     | 30",
                           "rep | | " + std::to_string(reps) + " | 6 | 45 | 30");
    return note(plan(text, "Ilka Moor | as prescribed | | middle",
                     "name | max\nName | Sandbags\nIlka Moor | " + maximum + "\n"),
                "Sandbags: the load");
}

TEST(Notes, TheLimitOfALoadFollowsTheReps) {
    const struct {
        int reps;
        const char* maximum; // of which 45 kg are exactly the limit
        const char* limit;
    } limits[] = {{15, "90", "50%"},
                  {14, "75", "60%"},
                  {10, "75", "60%"},
                  {5, "64.285714285714286", "70%"},
                  {9, "64.285714285714286", "70%"},
                  {4, "56.25", "80%"},
                  {1, "56.25", "80%"}};
    for (const auto& [reps, maximum, limit] : limits) {
        EXPECT_EQ(of_load(reps, std::to_string(std::stod(maximum) + 0.1)), "") << reps;
        const auto said = of_load(reps, std::to_string(std::stod(maximum) - 0.1));
        EXPECT_NE(said.find(std::string("more than ") + limit), std::string::npos) << reps << ": " << said;
        EXPECT_NE(said.find("for " + std::to_string(reps) + " reps"), std::string::npos) << said;
    }
    EXPECT_EQ(of_load(15, "90"), "") << "half is not more than half";
}

TEST(Notes, ALoadAboveTheMaximumIsToBeScaled) {
    EXPECT_EQ(of_load(6, "44.9"), "Sandbags: the load is above the athlete's maximum; scale it.");
    EXPECT_EQ(of_load(6, "45"),
              "Sandbags: the load is 100% of the maximum; for 6 reps per round more than 70% is a reason to scale.");
}

TEST(Notes, AWorkoutForMoreRoundsIsToBeScaled) {
    const auto said = [](const std::string& rounds) {
        return note(plan(with(tide, "from | 5", "from | " + rounds), "Ilka Moor | scaled | | middle", "name\nName\n"),
                    "Predicted");
    };
    const double predicted = plan(tide, "Ilka Moor | scaled | | middle", "name\nName\n").expected.rounds;
    EXPECT_EQ(said(std::to_string(predicted - 0.01)), "");
    EXPECT_NE(said(std::to_string(predicted + 0.01)), "");
}

TEST(Notes, WithoutATestAndAGroupTheRateIsTheUsualOne) {
    const std::string usual = "No test and no pace group";
    EXPECT_NE(note(plan(tide, "Ilka Moor | scaled", "name\nName\n"), usual), "");
    EXPECT_EQ(note(plan(tide, "Ilka Moor | scaled | | middle", "name\nName\n"), usual), "");
}

TEST(Notes, ATestOfBeforeTheWeeksThatCount) {
    // 12 weeks before day 46354 is day 46270.
    const auto said = [](const std::string& day) {
        return note(plan(tide, "Ilka Moor | scaled | | middle",
                         "name | ski.critical | ski.reserve | ski.date\nName\nIlka Moor | 180 | 12000 | " + day + "\n"),
                    "The test on the ski");
    };
    EXPECT_EQ(said("46270"), "");
    EXPECT_EQ(said("46269"), "The test on the ski ergometer is older than 12 weeks: it is not used.");
}

TEST(Notes, IntervalsHaveNoPacing) {
    const auto said = [](const std::string& text, const std::string& pacing) {
        return note(plan(text, "Ilka Moor | scaled | | middle | | | " + pacing, "name\nName\n"), "Intervals have");
    };
    const auto intervals = with(with(tide, "| AMRAP", "| intervals"), "cap       | Cap             | 17:00\n",
                                "every_s | Every | 240\nwindows | Windows | 4\n");
    EXPECT_EQ(said(intervals, "fade"), "Intervals have no pacing: each window has clocks of its own.");
    EXPECT_EQ(said(intervals, ""), "");
    EXPECT_EQ(said(tide, "fade"), "");
}

TEST(Notes, SayTheShareOfWhoIsInATeam) {
    const auto said = [](const std::string& team) {
        return note(plan(with(tide, "steps     |", "team | Team | " + team + "\nsteps     |"),
                         "Ilka Moor | scaled | | middle", "name\nName\n"),
                    "In a team");
    };
    EXPECT_EQ(said("1"), "");
    EXPECT_EQ(said("2"), "In a team: planned as if the partners work at the same pace; 50% of the work is yours.");
    EXPECT_EQ(said("3"), "In a team: planned as if the partners work at the same pace; 33% of the work is yours.");
}

TEST(Notes, SayTheAnswerAfterThePractice) {
    const auto said = [](const std::string& answer) {
        return plan(tide, "Ilka Moor | scaled | | middle | | " + answer, "name\nName\n").notes.back().message();
    };
    EXPECT_EQ(said("with more left"), "Goal kept: open a little slower, push in the last quarter.");
    EXPECT_EQ(said("only just"), "The next goal down, after the practice round.");
    EXPECT_EQ(said("no"), "The pace of the practice round is the goal.");
}

TEST(Notes, AGoalAboveThePredictionWithoutAnErgometer) {
    const auto text = with(tide, "station   | 1  |            | ski cal |      | 14       | 12       |        |\n", "");
    const auto said = [&](double rounds) {
        return note(plan(text, "Ilka Moor | scaled | | middle | " + std::to_string(rounds), "name\nName\n"),
                    "The goal is above");
    };
    const Plan own = plan(text, "Ilka Moor | scaled | | middle", "name\nName\n");
    EXPECT_EQ(said(own.goal->goal.score.rounds), "");
    // 3 % beyond the 1010 s of a goal are 1040 s, 2 % beyond the cap of 1020 s.
    EXPECT_EQ(said(own.expected.rounds * 1.01), "");
    EXPECT_EQ(said(own.expected.rounds * 1.03), "The goal is above the predicted score, " + own.expected.text + ".");
}

} // namespace
} // namespace pacecells
