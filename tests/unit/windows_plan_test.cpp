// Plans of intervals.
#include "pacecells/athlete_plan.h"

#include "block.h"
#include "expect.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace pacecells {
namespace {

using block::table;
using block::with;

// A row, presses and ring rows in turn, a minute each, four times.
const std::string in_turn =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\n"
    "every_s | 60\nwindows | 12\nin_turn | yes\nscoring | sum of the windows\n"
    "stations | no | movement | unit | when | amount.1\n"
    "divisions | | | | | open\n"
    "station | 1 | Rowing | row cal | | 14\n"
    "station | 2 | Floor presses | rep | | 12\n"
    "station | 3 | Ring rows | rep | | max\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | | 1000 | | 4 | | | | |\n"
    "pace | 2 | 2 | | | | | | | 20 |\n"
    "pace | 3 | 2 | | | | | | | 18 |\n"
    "end |\n";
const std::string tests = "name | row.critical | row.reserve\nName\nIda Quellmann | 200 | 15000\n";

std::string refusal(const std::string& text) {
    const auto result = read_workout(table(text));
    return result ? "read" : result.error().message();
}

Plan plan(const std::string& text, const std::string& goal = "", const std::string& on_tests = tests) {
    const Workout on = value_of(read_workout(table(text)));
    const auto row = table("Ida Quellmann | open | " + goal + " | x\n");
    const auto athlete = read_athlete(on, table(on_tests), table("name | division | goal |\n"), row);
    return plan_for(on, value_of(athlete));
}

TEST(Windows, EachStationHasItsTurn) {
    const Plan made = plan(in_turn);
    ASSERT_EQ(made.windows.size(), 12u);
    ASSERT_EQ(made.goal->rounds.size(), 12u);
    const auto& rows = made.goal->rounds[3]; // the fourth minute is the second row
    EXPECT_TRUE(rows.stations[0]);
    EXPECT_FALSE(rows.stations[1]);
    EXPECT_GT(rows.clock.value(), 180);
    EXPECT_LT(rows.clock.value(), 240);
    // 14 calories at the rate to hold, from the start of the minute on.
    EXPECT_NEAR(rows.stations[0]->value(), 180 + 14 * 3600 / made.card->advice.hold.value(), 1e-9);
    EXPECT_NEAR(made.windows[1].needed.value(), 24 * (1 + 0.06 * 1.5 / 12), 1e-9) << "12 presses in the second of 12";
}

TEST(Windows, AsManyAsFitIsHeldFromFirstToLast) {
    const Plan made = plan(in_turn);
    const double reps = made.stations[2].amounts[2];
    EXPECT_GT(reps, 5);
    EXPECT_LE(reps * 2, 60) << "2 s each";
    for (const auto& window : made.windows) {
        EXPECT_TRUE(window.holds()) << window.window;
        if (window.window % 3 == 0) {
            EXPECT_GE(window.reps, reps) << "fresher windows hold more";
        }
    }
    EXPECT_EQ(made.goal->goal.score.text, "12 x " + std::to_string(static_cast<int>(reps)));
    EXPECT_EQ(made.goal->goal.score.reps, 4 * (14 + 12 + reps));
    EXPECT_EQ(made.next_down->goal.score.text, "12 x " + std::to_string(static_cast<int>(reps) - 1));
    EXPECT_EQ(plan(in_turn, "9").goal->goal.score.text, "12 x 9") << "the coach's own";
    EXPECT_EQ(plan(in_turn, "13").goal->goal.score.text, "12 x 13") << "reps, not windows";
}

// A rep of 2 s takes 2 (1 + 0.3 (k - 1/2) / n) in window k of n: 2.525 s in the last of four, where 23 fit in 60 s, and 11
// after twelve others; 2.3 s in the only one of one.
TEST(Windows, AsManyAsFitInTheLastAtItsPace) {
    const auto plan_of = [](const std::string& turn, int windows, const std::string& before, double rep_s = 2,
                            const std::string& goal = "") {
        return plan("pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\nfade | 0.3\nsteps | 0\n"
                    "every_s | 60\nwindows | " +
                        std::to_string(windows) + "\nin_turn | " + turn +
                        "\nstations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n" + before +
                        "station | 3 | Ring rows | rep | | max\n"
                        "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
                        "pace | 2 | 2 | | | | | | | |\npace | 3 | " +
                        std::to_string(rep_s) + " | | | | | | | |\nend |\n",
                    goal);
    };
    const Plan four = plan_of("yes", 4, "");
    EXPECT_EQ(four.goal->goal.score.text, "4 x 23");
    EXPECT_EQ(four.windows[3].start, Seconds{180});
    EXPECT_NEAR(four.windows[3].needed.value(), 23 * 2.525, 1e-9);
    EXPECT_EQ(plan_of("yes", 1, "").goal->goal.score.text, "1 x 26");
    // Fades by a quarter up to the middle of a single window of 0.5: 24 of 2.5 s, or 23 where a rep takes a bit longer.
    const auto halved = [](const std::string& rep_s, const std::string& fade = "0.5", const std::string& window = "60",
                           const std::string& own = "name\nName\n") {
        return plan("pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\nfade | " + fade +
                        "\nsteps | 0\nevery_s | " + window +
                        "\nwindows | 1\n"
                        "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
                        "station | 1 | Ring rows | rep | | max\n"
                        "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
                        "pace | 1 | " +
                        rep_s + " | | | | | | | |\nend |\n",
                    "", own);
    };
    EXPECT_EQ(halved("2").goal->goal.score.text, "1 x 24");
    EXPECT_EQ(halved("2.001").goal->goal.score.text, "1 x 23");
    EXPECT_EQ(halved("0.4", "0", "240").goal->goal.score.text, "1 x 600") << "skips";
    EXPECT_EQ(halved("4", "0", "60").goal->goal.score.text, "1 x 15");
    EXPECT_EQ(halved("1", "0", "60").next_down->goal.score.text, "1 x 57") << "60 slower by 4 %";
    EXPECT_EQ(halved("4", "0", "60", "name | rep_s\nName | Ring rows\nIda Quellmann | 1.5\n").goal->goal.score.text,
              "1 x 40")
        << "her own 1.5 s";
    const Plan mixed = plan_of("", 4, "station | 2 | Floor presses | rep | | 12\n");
    EXPECT_EQ(mixed.goal->goal.score.text, "4 x 11");
    EXPECT_EQ(mixed.goal->goal.score.reps, 4 * 23);
    const Plan slow = plan_of("yes", 4, "", 40);
    EXPECT_EQ(slow.goal->goal.score.text, "4 x 1") << "of 50.5 s";
    const Plan careful = plan_of("yes", 4, "", 2, "1");
    EXPECT_EQ(careful.goal->goal.score.text, "4 x 1") << "the coach's own";
    EXPECT_EQ(careful.goal->goal.score.reps, 4);
    EXPECT_NEAR(slow.windows[3].needed.value(), 50.5, 1e-9);
    EXPECT_FALSE(slow.next_down) << "none is no goal";
    EXPECT_EQ(plan_of("yes", 4, "", 40, "2").goal->goal.score.text, "4 x 2") << "the coach's own";
}

TEST(Windows, TheGoalOfACoachIsAReasonWhereThereIsOne) {
    const Workout on = value_of(read_workout(table(in_turn)));
    for (const auto& [goal, inputs] : {std::pair{"", 1u}, {"9", 2u}}) {
        Reasons reasons;
        const Plan made = plan_for(on,
                                   value_of(read_athlete(on, table(tests), table("name | division | goal\n"),
                                                         table("Ida Quellmann | open | " + std::string(goal) + "\n"))),
                                   &reasons);
        EXPECT_TRUE(made.goal);
        const auto& from = reasons.steps()[*reasons.find(Fact::goal)].from;
        ASSERT_EQ(from.size(), inputs);
        if (inputs > 1) {
            EXPECT_EQ(from[1].value.number, 9);
        }
    }
}

// Never more than a fifth of the work: of four windows 0.8 of one; of twelve 2.4, an easy one and one as planned; of 25
// no more than three.
TEST(Windows, AreRehearsedByAFifthAtMost) {
    const auto rehearsed = [](int windows) {
        return *plan(with(with(in_turn, "windows | 12", "windows | " + std::to_string(windows)), "max", "4")).rehearsal;
    };
    EXPECT_EQ(rehearsed(4).easy_rounds, 0);
    EXPECT_NEAR(rehearsed(4).planned, 0.8, 1e-12);
    EXPECT_EQ(rehearsed(5).easy_rounds, 0);
    EXPECT_EQ(rehearsed(5).planned, 1);
    EXPECT_EQ(rehearsed(12).easy_rounds, 1);
    EXPECT_EQ(rehearsed(12).planned, 1);
    EXPECT_EQ(rehearsed(25).easy_rounds, 2);
    const Rehearsal easy = rehearsed(12);
    EXPECT_EQ(std::fmod(easy.easy_rate->value(), 5), 0);
    EXPECT_LE(*easy.easy_rate, *easy.planned_rate * 0.825);
    EXPECT_GT(*easy.easy_rate, *easy.planned_rate * 0.825 - CaloriesPerHour{5}) << "82.5 %, down to 5 cal/h";
}

TEST(Windows, TheFirstWindowThatDoesNotHoldIsTold) {
    // 30 presses at 2 s are 60 s before any pause: no minute holds them. 25 fit at first, slower ones do not.
    const Plan hopeless = plan(with(in_turn, "| rep | | 12", "| rep | | 30"));
    EXPECT_EQ(hopeless.first_failing, 2);
    EXPECT_EQ(hopeless.goal->goal.score.point.rounds, 1);
    EXPECT_TRUE(std::ranges::any_of(hopeless.notes, [](const Said& note) {
        return note.message().find("Window 2 is the first that does not hold") == 0;
    }));
    const std::string light = with(with(in_turn, "| rep | | 12", "| rep | | 29"), "pace | 2 | 2 | | | | | | | 20",
                                   "pace | 2 | 2 | | | | | | |");
    const Plan late = plan(with(light, "version | 1", "version | 1\nfade | 0.12"));
    ASSERT_TRUE(late.first_failing);
    EXPECT_GT(*late.first_failing, 2) << "29 presses take 58 s fresh, and longer as the fade comes";
}

TEST(Windows, LongRestsAllowMoreThanTheRateAlone) {
    const auto rate = [](const std::string& text) { return plan(text).machines[0]; };
    const std::string alone = with(with(in_turn, "station | 2 | Floor presses | rep | | 12\n", ""),
                                   "station | 3 | Ring rows | rep | | max\n", "");
    const double no_rest = 200 + 15000.0 / 720;
    const auto few = rate(with(alone, "every_s | 60", "every_s | 75"));
    const auto many = rate(with(with(alone, "every_s | 60", "every_s | 180"), "windows | 12", "windows | 4"));
    EXPECT_GT(few.alone->value(), 300 + 4 * 0.8604 * no_rest) << "four windows of twelve minutes, with rests";
    EXPECT_GT(*many.alone, *few.alone);
    EXPECT_GT(many.doubt, 0.14) << "how fast the reserve comes back is uncertain";
}

TEST(Windows, ALongerWindowNeverLowersTheRepsAndMoreRestNotTheRate) {
    double reps = 0;
    double rate = 0;
    for (int seconds = 40; seconds <= 120; seconds += 10) {
        // Without longest sets: what breaks ask for comes in whole sets.
        std::string text = with(in_turn, "pace | 3 | 2 | | | | | | | 18", "pace | 3 | 2 | | | | | | |");
        text = with(text, "pace | 2 | 2 | | | | | | | 20", "pace | 2 | 2 | | | | | | |");
        const Plan longer = plan(with(text, "every_s | 60", "every_s | " + std::to_string(seconds)));
        EXPECT_GE(longer.stations[2].amounts[2], reps) << seconds;
        reps = longer.stations[2].amounts[2];
        const Plan rested = plan(with(text, "every_s | 60", "work_s | 60\nrest_s | " + std::to_string(seconds - 40)));
        EXPECT_GE(rested.machines[0].rate.value(), rate - 1e-9) << seconds;
        rate = rested.machines[0].rate.value();
    }
}

// Two people, one at a time: each rows half of the calories, and rests while the other does.
TEST(Windows, InPairsEachDoesAShare) {
    const std::string usual = "name\nName\n";
    const std::string pairs = with(in_turn, "version | 1", "version | 1\nteam | 2\nat_once | 1");
    const Plan alone = plan(in_turn, "", usual);
    const Plan pair = plan(pairs, "", usual);
    EXPECT_DOUBLE_EQ(pair.share, 0.5);
    EXPECT_NEAR(pair.windows[0].needed.value(), alone.windows[0].needed.value(), 1e-9) << "at the same pace";
    EXPECT_GE(pair.stations[2].amounts[2], alone.stations[2].amounts[2]) << "shorter sets";
    const Plan both = plan(with(pairs, "at_once | 1", "at_once | 2"), "", usual);
    EXPECT_NEAR(both.windows[0].needed.value(), alone.windows[0].needed.value() / 2, 1e-9);
    EXPECT_GE(both.stations[2].amounts[2], 2 * alone.stations[2].amounts[2] - 1);
    EXPECT_GT(plan(pairs).machines[0].rate, plan(in_turn).machines[0].rate) << "half of the work, twice the rest";
}

// The work of a window at the rate that the wall asks for takes the time that the wall says.
TEST(Windows, TheWallSaysWhatBeingDoneEarlierTakes) {
    const Workout workout = value_of(read_workout(table(in_turn)));
    const auto rows = value_of(wall_windows(workout));
    ASSERT_EQ(rows.size(), 9u);
    EXPECT_DOUBLE_EQ(rows.back().done.value(), 60);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_DOUBLE_EQ(rows[i].done.value() + rows[i].spare.value(), 60);
        ASSERT_TRUE(rows[i].needs[0]);
        EXPECT_NEAR(14 * 3600 / rows[i].needs[0]->value(), rows[i].done.value(), 1e-6)
            << "14 calories alone in a window";
        if (i > 0) {
            EXPECT_LT(rows[i].pace, rows[i - 1].pace);
        }
    }
    EXPECT_FALSE(wall_windows(value_of(read_workout(
        table(with(with(with(in_turn, "format | intervals", "format | amrap\ncap | 12:00"), "in_turn | yes\n", ""),
                   "max", "8"))))));
}

// Nine rows, a multiple of 5 s apart: the first is a fifth faster than usual or more, as far as there is time. 14 calories
// at the usual 1000 cal/h are 50.4 s, a fifth less is 40.3 s. No fade, and nothing as many as fit.
TEST(Windows, TheWallGoesInStepsOfWholeFiveSeconds) {
    const auto rows = [](int seconds) {
        return value_of(wall_windows(
            value_of(read_workout(table(with(with(with(in_turn, "max", "5"), "version | 1", "version | 1\nfade | 0"),
                                             "every_s | 60", "every_s | " + std::to_string(seconds)))))));
    };
    EXPECT_EQ(rows(60).front().done, Seconds{20});
    EXPECT_NEAR(rows(60).front().pace, 50.4 / 20, 1e-9);
    EXPECT_EQ(rows(122).front().done, Seconds{2}) << "81.7 s in eight steps: 15 s, not 10";
    EXPECT_EQ(rows(121).front().done, Seconds{1}) << "80.7 s";
    EXPECT_EQ(rows(120).front().done, Seconds{40}) << "79.7 s";
    EXPECT_EQ(rows(41).front().done, Seconds{1});
    EXPECT_EQ(rows(40).size(), 8u) << "nobody is done in 0 s";
    EXPECT_EQ(rows(40).front().done, Seconds{5});
}

TEST(Windows, SaysWhatContradictsItself) {
    EXPECT_NE(refusal(with(in_turn, "windows | 12", "windows |")).find("number of windows"), std::string::npos);
    EXPECT_NE(refusal(with(in_turn, "every_s | 60", "every_s | 60\nrest_s | 70")).find("give either work and rest"),
              std::string::npos);
    EXPECT_NE(refusal(with(in_turn, "every_s | 60", "every_s | 60\nwork_s | 70")).find("longer than its window"),
              std::string::npos);
    EXPECT_NE(refusal(with(in_turn, "every_s | 60\n", "")).find("seconds of work and rest"), std::string::npos);
    EXPECT_NE(refusal(with(with(in_turn, "in_turn | yes", "in_turn |"), "| row cal | | 14", "| row cal | | max"))
                  .find("no station can come after it"),
              std::string::npos);
    EXPECT_NE(refusal(with(with(in_turn, "format | intervals", "format | amrap\ncap | 12:00"), "in_turn | yes\n", ""))
                  .find("\"max\" is for intervals"),
              std::string::npos);
}

TEST(Windows, ARestLongerThanItsWindowNamesItsStation) {
    const auto resting = [](const std::string& unit, const std::string& amount, const std::string& turn) {
        return refusal(with(with(in_turn, "| rep | | 12", "| " + unit + " | | " + amount), "in_turn | yes", turn));
    };
    EXPECT_NE(resting("rest", "61", "in_turn | yes")
                  .find("by the end of station 2 rests and holds alone take 61 s, and its window has 60 s."),
              std::string::npos);
    EXPECT_NE(resting("hold", "61", "in_turn |").find("station 2 rests and holds"), std::string::npos);
    EXPECT_EQ(resting("rest", "60", "in_turn | yes"), "read");
    EXPECT_EQ(resting("hold", "60", "in_turn |").find("rests and holds"), std::string::npos);
    // Two of 40 s: each is a turn, but not both in one window.
    const auto both = [&](const std::string& turn) {
        return refusal(with(with(with(in_turn, "| rep | | 12", "| rest | | 40"), "| rep | | max", "| hold | | 40"),
                            "in_turn | yes", turn));
    };
    EXPECT_EQ(both("in_turn | yes"), "read");
    EXPECT_NE(both("in_turn |").find("by the end of station 3 rests and holds alone take 80 s"), std::string::npos);
}

} // namespace
} // namespace pacecells
