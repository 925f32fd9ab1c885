// Clocks and cards of small workouts, beside arithmetic on paper. No fade unless said, no steps, no slack before the cap.
#include "pacecells/athlete_plan.h"

#include "pacecells/pacing.h"
#include "pacecells/text.h"

#include "block.h"
#include "expect.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace pacecells {
namespace {

using block::table;

struct Task {
    std::string settings;              // lines
    std::vector<std::string> stations; // movement | unit | when | amount
    std::vector<std::string> paces;    // rep_s | calh | pace | handling_s | steps
    std::string fade = "0";
};

Workout workout_of(const Task& task) {
    std::string text = "pacecells.workout | value\nversion | 1\nlanguage | en\nfade | " + task.fade +
                       "\nsteps | 0\nslip_s | 0\n" + task.settings +
                       "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n";
    for (std::size_t i = 0; i < task.stations.size(); ++i)
        text += "station | " + std::to_string(i + 1) + " | " + task.stations[i] + "\n";
    text += "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n";
    for (std::size_t i = 0; i < task.paces.size(); ++i)
        text += "pace | " + std::to_string(i + 1) + " | " + task.paces[i] + "\n";
    return value_of(read_workout(table(text + "end |\n")));
}

Plan plan(const Task& task, const std::string& goal, const std::string& keys = "", const std::string& cells = "",
          const std::string& tests = "name\nName\n") {
    const auto workout = workout_of(task);
    return plan_for(workout, value_of(read_athlete(workout, table(tests), table("name | division | goal" + keys + "\n"),
                                                   table("Ida Quellmann | open | " + goal + cells + "\n"))));
}

const Task ergometer{"format | AMRAP\ncap | 16:00\n", {"Ski | ski cal | | 12"}, {"| 900 | | 0 | | | | |"}};

// Nothing else can go faster or slower: then the ergometer does.
TEST(PlanClocks, AnErgometerAloneIsStretched) {
    const auto made = plan(ergometer, "8");
    ASSERT_EQ(made.goal->rounds.size(), 8u);
    for (int k = 1; k <= 8; ++k) {
        const auto& round = made.goal->rounds[static_cast<std::size_t>(k - 1)];
        EXPECT_NEAR(round.clock.value(), 120 * k, 1e-9);
        EXPECT_NEAR(round.time.value(), 120, 1e-9);
    }
    EXPECT_NEAR(made.needs->value(), 12 * 3600 / 120.0, 1e-9);
}

TEST(PlanClocks, TheLeastOfElseTakesTheTimeThatIsLeft) {
    Task walking = ergometer;
    walking.paces = {"| 900 | | 0 | 1 | | | |"}; // a step of 0.6 s
    EXPECT_NEAR(plan(walking, "1").goal->rounds[0].stations[0]->value(), 48, 1e-9) << "at the rate to hold";
}

// 20 s of swings a round at most half as long: 8 rounds of 48 s at 900 cal/h leave 10 s each at 464 s, and less at 463.
TEST(PlanClocks, NothingIsStretchedToLessThanHalf) {
    const auto made = [](const std::string& cap) {
        return plan({"format | AMRAP\ncap | " + cap + "\n",
                     {"Ski | ski cal | | 12", "Kettle swings | rep | | 10"},
                     {"| 900 | | 0 | | | | |", "2 | | | 0 | | | | |"}},
                    "8");
    };
    const auto just = made("7:44");
    const double hold = just.card->advice.hold.value();
    ASSERT_EQ(hold, 900);
    EXPECT_NEAR(just.goal->rounds[0].stations[0]->value(), 48, 1e-9);
    EXPECT_NEAR(just.goal->rounds[0].clock.value(), 58, 1e-9);
    const auto less = made("7:43"); // 463 s for 544: all alike
    EXPECT_NEAR(less.goal->rounds[0].stations[0]->value(), 48 * 463 / 544.0, 1e-9);
    EXPECT_NEAR(less.goal->rounds[0].clock.value(), 463 / 8.0, 1e-9);
}

TEST(PlanClocks, APartOfACalorieIsAGoalToo) {
    // A tenth of a round of 1 calorie and 3 swings is 0.4 calories, within an hour.
    const auto made = plan({"format | AMRAP\ncap | 1:00:00\n",
                            {"Ski | ski cal | | 1", "Kettle swings | rep | | 3"},
                            {"| 1500 | | 0 | | | | |", "13 | | | 0 | | | | |"}},
                           "0.1");
    EXPECT_NEAR(made.needs->value(), 0.4, 1e-9);
    EXPECT_FALSE(made.no_room);
}

TEST(PlanClocks, ARoundWithoutWorkIsNotRehearsed) {
    const Task late{"format | for time\ncap | 16:00\n", {"Kettle swings | rep | | 0-10-10"}, {"2 | | | 0 | | | | |"}};
    EXPECT_FALSE(plan(late, "").rehearsal);
    const Task early{"format | for time\ncap | 16:00\n", {"Kettle swings | rep | | 10-10-0"}, {"2 | | | 0 | | | | |"}};
    EXPECT_TRUE(plan(early, "").rehearsal);
}

// At half the cap of 16 minutes: 8.9, 9 and 9.1 rounds of two stations that take the same, the first with as long again
// to walk on. Round 5 is begun, at the first station, walking, and at the second.
TEST(PlanClocks, TheWallSaysTheLastStationThatIsDone) {
    const auto half = [](const std::string& handling, double from) {
        const Task task{"format | AMRAP\ncap | 16:00\n",
                        {"Kettle swings | rep | | 10", "Floor presses | rep | | 10"},
                        {"2 | | | " + handling + " | | | | |", "2 | | | 0 | | | | |"}};
        return value_of(wall_table(workout_of(task), from, from, 1)).at(0).at_half.text;
    };
    EXPECT_EQ(half("0", 8.9), "4") << "480 s are 4 rounds of 107.9 s and 48.5 of 53.9 s";
    EXPECT_EQ(half("0", 9), "4 + Kettle swings");
    EXPECT_EQ(half("0", 9.1), "4 + Kettle swings");
    EXPECT_EQ(half("10", 9), "4 + Kettle swings") << "after 42.7 of 53.3 s, walking until 64";
    EXPECT_EQ(half("0", 8), "4");
    const Task list{
        "format | for time\ncap | 16:00\nrounds | 2\n", {"Kettle swings | rep | | 10"}, {"2 | | | 0 | | | | |"}};
    EXPECT_EQ(value_of(wall_table(workout_of(list), 60, 60, 1)).at(0).at_half.text, "2") << "done long before";
}

// 300 cal/h are shown at no power, so that 900 are 600 of effort; metres take the cube of the pace; all else goes as pace.
TEST(PlanClocks, EffortRisesMoreThanPaceOnAnErgometer) {
    const auto expect_gain = [](const std::string& station, const std::string& pace, double seconds, double gain) {
        const Task task{"format | for time\ncap | 40:00\nrounds | 2\npush | 0.5\npacing | faster\n",
                        {station, "Kettle swings | rep | last | 300"},
                        {pace, "1 | | | 0 | | | | |"}};
        const auto made = plan(task, "30:00");
        // Twice at the station, once 300 s of swings.
        const double mean = 1 + (gain - 1) * 2 * seconds / (2 * seconds + 300);
        const auto cost = value_of(pacing_cost(Seconds{1800}, -0.5, usual_reserve_time, mean));
        EXPECT_GT(cost.value(), 1) << station;
        EXPECT_NEAR(made.pacing_cost->value(), cost.value(), 1e-9) << station;
    };
    expect_gain("Ski | ski cal | | 50", "| 900 | | 0 | | | | |", 200, 900 / 600.0);
    expect_gain("Ski | ski cal | | 20", "| 320 | | 0 | | | | |", 225, 5); // and not 16
    expect_gain("Row | row m | | 1000", "| | 2:00 | 0 | | | | |", 240, 3);
    expect_gain("Fan bike | armbike cal | | 50", "| 900 | | 0 | | | | |", 200, 1);
    expect_gain("Run | run m | | 1000", "| | 5:00 | 0 | | | | |", 300, 1);
}

TEST(PlanClocks, WithoutWorkInTheRoundsExpectedThereIsNoSpread) {
    // No rep in round 1, and one of ten minutes in round 2, which the cap does not hold.
    const Task late{"format | AMRAP\ncap | 9:00\npush | 0.5\npacing | faster\n",
                    {"Kettle swings | rep | | 0-1-2-…"},
                    {"600 | | | 0 | | | | |"}};
    const auto made = plan(late, "");
    EXPECT_EQ(made.spread, 0);
    EXPECT_EQ(plan(ergometer, "").spread_below, plan(ergometer, "").spread) << "nothing to break in sets";
    EXPECT_NEAR(made.pacing_cost->value(),
                value_of(pacing_cost(made.goal->goal.clock, -0.5, usual_reserve_time, 1)).value(), 1e-9);
    EXPECT_GT(made.pacing_cost->value(), 0);
    const Task short_one{"format | for time\ncap | 9:00\n", {"Kettle swings | rep | | 1"}, {"0.5 | | | 0 | | | | |"}};
    EXPECT_NEAR(plan(short_one, "").spread, 0.08, 1e-12) << "what is no ergometer is known to 8 %";
}

// A rate of which nothing is known: slower by e in one case of six would be more than all of the time.
TEST(PlanClocks, TheUpperEndIsTwiceThePaceAtMost) {
    const Task bike{"format | AMRAP\ncap | 20:00\n", {"Fan bike | armbike cal | | 10"}, {"| 900 | | 0 | | | | |"}};
    const auto made = plan(
        bike, "", "", "", "name | armbike.time | armbike.calories | factor_sd\nName\nIda Quellmann | 5:00 | 100 | 1\n");
    const double each = made.stations[0].seconds_each;
    EXPECT_EQ(made.expected.reps, std::floor(1200 / each));
    EXPECT_EQ(made.high.reps, std::floor(2400 / each));
    const Task windows{"format | intervals\nevery_s | 60\nwindows | 2\nscoring | sum of the windows\n",
                       {"Fan bike | armbike cal | | 90"},
                       {"| 900 | | 0 | | | | |"}};
    const auto held =
        plan(windows, "", "", "",
             "name | armbike.time | armbike.calories | factor_sd\nName\nIda Quellmann | 5:00 | 100 | 1\n");
    const double one = held.stations[0].seconds_each;
    EXPECT_EQ(held.expected.reps, 2 * std::floor(60 / one));
    EXPECT_EQ(held.high.reps, 2 * std::floor(120 / one));
}

// Points of less than one in all: half a point for the one rep of a round, nothing for the metres.
TEST(PlanClocks, HalfAPointIsAScore) {
    const Task half{"format | AMRAP\ncap | 10:00\n",
                    {"Climb | rep | | 1", "Carry | carry m | | 40"},
                    {"20 | | | 0 | | | | | 0.5", "1 | | | 0 | | | | | 0"}};
    EXPECT_EQ(plan(half, "").expected.text, "10") << "600 s are 10 rounds";
    EXPECT_EQ(plan(half, "3.5").goal->goal.score.text, "3+0") << "half a rep is none";
    const Task more{"format | AMRAP\ncap | 10:30\n", half.stations, half.paces};
    EXPECT_EQ(plan(more, "").expected.text, "10+0.5") << "the climb of round 11, and 10 of the 40 m";
}

// A climb of 40 s is the only one that fits a minute, and leaves time for the ten swings of 2 s; eleven do not fit.
TEST(PlanClocks, AWindowThatIsJustFilled) {
    const auto made = [](const std::string& swings) {
        return plan({"format | intervals\nevery_s | 60\nwindows | 2\n",
                     {"Climb | rep | | 1", "Kettle swings | rep | | " + swings},
                     {"40 | | | 0 | | | | |", "2 | | | 0 | | | | |"}},
                    "");
    };
    EXPECT_EQ(made("10").windows[0].reps, 11);
    EXPECT_TRUE(made("10").windows[0].holds());
    EXPECT_EQ(made("11").windows[0].reps, 11);
    EXPECT_FALSE(made("11").windows[0].holds());
}

// 20 s of a minute are held whatever the pace; 40 s are 20 reps of 2 s, and 16 at the pace of the middle of a fade by half.
TEST(PlanClocks, AHoldTakesItsTimeBesideAsManyAsFit) {
    const auto text = [](const std::string& fade) {
        Task task{"format | intervals\nevery_s | 60\nwindows | 1\n",
                  {"Plank | hold | | 20", "Kettle swings | rep | | max"},
                  {"| | | 0 | | | | |", "2 | | | 0 | | | | |"}};
        task.fade = fade;
        return plan(task, "").goal->goal.score.text;
    };
    EXPECT_EQ(text("0"), "1 x 20");
    EXPECT_EQ(text("0.5"), "1 x 16");
}

TEST(PlanClocks, ARoundOfAListMayHaveNoReps) {
    const Task list{"format | for time\ncap | 10:00\n", {"Pull-ups | rep | | 10-0-5"}, {"2 | | | 0 | | | | 8 |"}};
    const auto made = plan(list, "");
    ASSERT_TRUE(made.stations[0].sets);
    const auto& sets = made.stations[0].sets->by_round;
    ASSERT_EQ(sets.size(), 3u);
    EXPECT_EQ(sets[0].reps, 10);
    EXPECT_GT(sets[0].open.sets(), 1) << "8 is the most";
    EXPECT_EQ(sets[1].reps, 0);
    EXPECT_EQ(sets[2].reps, 5);
}

TEST(PlanClocks, RoundsAndNoMoreAreThoseRoundsWhereNothingCounts) {
    const Task runs{"format | AMRAP\ncap | 30:00\n", {"Run | run m | | 200"}, {"| | 5:00 | 0 | | | | |"}};
    EXPECT_EQ(plan(runs, "3+0").goal->goal.score.text, "3");
    EXPECT_REFUSED(read_athlete(workout_of(runs), table("name\nName\n"), table("name | division | goal\n"),
                                table("Ida Quellmann | open | 3+1\n")));
}

// 3.75 rounds of 256 s: the ends of rounds 1 and 2 are as far from 40 % of 960 s, which is 384 s; the earlier is taken.
TEST(PlanClocks, OfTwoChecksAsNearTheEarlierIsTaken) {
    const auto made = plan(ergometer, "3.75");
    EXPECT_EQ(made.goal->rounds[0].clock.value(), 256);
    EXPECT_EQ(made.goal->rounds[1].clock.value(), 512);
    EXPECT_EQ(made.check_round, 1);
}

// One rep of ten minutes within 20, faster by half at the end: some of it is lost.
TEST(PlanClocks, ThePartOfARepIsSaid) {
    const Task one{
        "format | AMRAP\ncap | 20:00\npush | 0.5\npacing | faster\n", {"Climb | rep | | 1"}, {"600 | | | 0 | | | | |"}};
    const auto made = plan(one, "1");
    const double lost = value_of(pacing_cost(Seconds{1200}, -0.5)).value();
    ASSERT_GT(lost, 0.5);
    const auto said = "costs " + number_text(std::round(10 * lost / 1200) / 10) + " reps against even pace.";
    EXPECT_TRUE(std::ranges::any_of(made.notes, [&](const Said& note) { return note.message().ends_with(said); }))
        << said;
}

TEST(PlanClocks, TheAnswerAfterThePracticeIsTheRuleOfTheGoal) {
    const auto workout = workout_of(ergometer);
    const auto rule = [&](const std::string& answer) {
        Reasons reasons;
        const auto made =
            plan_for(workout,
                     value_of(read_athlete(workout, table("name\nName\n"), table("name | division | answer\n"),
                                           table("Ida Quellmann | open | " + answer + "\n"))),
                     &reasons);
        EXPECT_TRUE(made.goal);
        return reasons.steps()[*reasons.find(Fact::goal)].rule.message();
    };
    EXPECT_EQ(rule(""), "the suggested goal");
    EXPECT_EQ(rule("with more left"), "the suggested goal");
    EXPECT_EQ(rule("only just"), "only just: the next goal down");
    EXPECT_EQ(rule("no"), "no: the pace of the practice round is the goal");
}

TEST(PlanClocks, TheLastReasonOfAFactIsFoundAndTheFirstIsOne) {
    Reasons reasons;
    Step step;
    step.fact = Fact::goal;
    reasons.add(step);
    EXPECT_EQ(reasons.find(Fact::goal), 0u);
    EXPECT_FALSE(reasons.find(Fact::clocks));
    reasons.add(step);
    EXPECT_EQ(reasons.find(Fact::goal), 1u);
}

TEST(PlanClocks, WithoutAnErgometerNoReasonSpeaksOfOne) {
    const Task swings{"format | AMRAP\ncap | 10:00\n", {"Kettle swings | rep | | 10"}, {"2 | | | 0 | | | | |"}};
    for (const auto& [task, rates] : {std::pair{swings, 0}, {ergometer, 1}}) {
        const auto workout = workout_of(task);
        Reasons reasons;
        const auto made = plan_for(workout,
                                   value_of(read_athlete(workout, table("name\nName\n"), table("name | division\n"),
                                                         table("Ida Quellmann | open\n"))),
                                   &reasons);
        EXPECT_TRUE(made.goal);
        for (const auto fact : {Fact::round_time, Fact::clocks}) {
            int found = 0;
            for (const auto& input : reasons.steps()[*reasons.find(fact)].from)
                if (input.value.measure == Measure::cal_per_hour) {
                    ++found;
                    EXPECT_NEAR(input.value.number, 900, 1e-9);
                }
            EXPECT_EQ(found, rates);
        }
    }
}

} // namespace
} // namespace pacecells
