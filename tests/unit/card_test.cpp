// What a card says, by form of workout. Numbers are worked out from the plan beside them, or by hand.
#include "card_wording.h"
#include "wording.h"

#include "block.h"
#include "expect.h"

#include "pacecells/athlete_plan.h"

#include <string>

namespace pacecells {
namespace {

using block::table;
using block::with;

struct Made {
    Workout workout;
    Plan plan;
};

Made made(const std::string& text, const std::string& goal = "") {
    Workout on = value_of(read_workout(table(text)));
    const auto athlete = read_athlete(on, table("name\nName\n"), table("name | division | goal\n"),
                                      table("Ida Quellmann | open | " + goal + "\n"));
    Plan plan = plan_for(on, value_of(athlete));
    return {std::move(on), std::move(plan)};
}

// 30 swings at 2 s, 20 presses at 3 s, 600 m run at 5:00 for 1000 m; nothing between, no fade.
const std::string chipper =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | time\ncap | 10:00\nfade | 0\n"
    "slip_s | 0\ntiebreak | clock after the 20 presses\n"
    "stations | no | movement | unit | when | amount.1\n"
    "divisions | | | | | open\n"
    "station | 1 | Kettle swings | rep | | 30\n"
    "station | 2 | Floor presses | rep | | 20\n"
    "station | 3 | Running | run m | | 600\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | 2 | | | | 0 | | | |\n"
    "pace | 2 | 3 | | | | 0 | | | |\n"
    "pace | 3 | | | 5:00 | | 0 | | | |\n"
    "end |\n";

TEST(AthleteCard, AListDoneOnceGoesByStationsAndQuarters) {
    // 60 + 60 + 180 s: a goal of 5:00 is exactly the usual pace. A quarter is 1:15, 15 s into the presses: 5 of them.
    const auto [workout, plan] = made(chipper, "5:00");
    EXPECT_TRUE(card_by_station(workout, plan));
    EXPECT_EQ(card_goal_text(workout, plan, Seconds{0}), "goal: finish · tie-break 2:00");
    EXPECT_EQ(card_time(workout, plan, Seconds{0}), Seconds{150});
    EXPECT_EQ(card_goal_text(workout, plan, Seconds{60}), "goal: finish · tie-break 3:00") << "on the clock of all";
    EXPECT_EQ(card_time(workout, plan, Seconds{60}), Seconds{210});
    EXPECT_EQ(card_time_text(workout, plan), "half: 100/600 Running") << "30 s of running at 0.3 s a metre";
    EXPECT_EQ(card_rule(workout, plan, Seconds{0}), "1:15: 5/20 Floor presses · 3:45: 350/600 Running");
    EXPECT_EQ(card_rule(workout, plan, Seconds{60}), "2:15: 5/20 Floor presses · 4:45: 350/600 Running");
    EXPECT_EQ(card_table_label(workout, plan), "after station");
    const double ends[] = {60, 120, 300};
    for (int k = 1; k <= 3; ++k) {
        const auto column = card_column(workout, plan, k);
        ASSERT_TRUE(column);
        EXPECT_EQ(column->heading, k);
        EXPECT_NEAR(column->clock->value(), ends[k - 1], 1e-9);
        EXPECT_NEAR(card_station(workout, plan, k)->time->value(), ends[k - 1], 1e-9);
        EXPECT_GT(*column->lower, *column->clock) << "the next goal down is slower";
    }
    EXPECT_FALSE(card_column(workout, plan, 4));
    EXPECT_EQ(card_station(workout, plan, 1)->name, "Kettle");
}

TEST(AthleteCard, ForTimeTheLastClockIsTheGoal) {
    // Five steps of 0.6 s from one station to the next, and none after the last: 60, 63 + 60, 126 + 180 s.
    std::string walked = chipper;
    for (const auto* paces : {"pace | 1 | 2 | | | | ", "pace | 2 | 3 | | | | ", "pace | 3 | | | 5:00 | | "})
        walked = with(walked, paces + std::string{"0"}, paces + std::string{"5"});
    const auto [workout, plan] = made(walked, "5:06");
    const double ends[] = {60, 123, 306};
    for (int k = 1; k <= 3; ++k)
        EXPECT_NEAR(card_column(workout, plan, k)->clock->value(), ends[k - 1], 1e-9) << k;
}

TEST(AthleteCard, RoundsHaveATimePerRoundAndARoundToCheckBy) {
    const auto [workout, plan] =
        made(with(with(chipper, "format | time", "format | amrap"), "cap | 10:00", "cap | 21:00"), "4");
    EXPECT_FALSE(card_by_station(workout, plan));
    EXPECT_EQ(card_goal_text(workout, plan, Seconds{0}), "goal: rounds") << "the tie-break names no round";
    EXPECT_EQ(card_time(workout, plan, Seconds{0}), Seconds{21 * 60 / 4.0});
    EXPECT_EQ(card_time(workout, plan, Seconds{60}), Seconds{21 * 60 / 4.0}) << "a round takes no longer";
    EXPECT_EQ(card_time_text(workout, plan), "per round");
    ASSERT_TRUE(plan.check_round);
    EXPECT_EQ(card_rule(workout, plan, Seconds{0}).find("Round " + std::to_string(*plan.check_round) + " after "), 0u);
    EXPECT_EQ(card_table_label(workout, plan), "after round");
    EXPECT_EQ(card_column(workout, plan, 4)->clock, Seconds{21 * 60});
}

TEST(AthleteCard, MoreRoundsThanColumnsGoEverySecondOrThird) {
    const auto [workout, plan] =
        made(with(with(chipper, "format | time", "format | amrap"), "cap | 10:00", "cap | 100:00"), "20");
    ASSERT_EQ(plan.goal->rounds.size(), 20u);
    EXPECT_EQ(card_column(workout, plan, 1)->heading, 2);
    EXPECT_EQ(card_column(workout, plan, 10)->clock, plan.goal->goal.clock);
    EXPECT_FALSE(card_column(workout, plan, 11));
}

// A minute each in turn: 20 swings of 2 s; as many presses of 3 s as fit.
const std::string minutes =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\nfade | 0\n"
    "every_s | 60\nwindows | 6\nin_turn | yes\n"
    "stations | no | movement | unit | when | amount.1\n"
    "divisions | | | | | open\n"
    "station | 1 | Kettle swings | rep | | 20\n"
    "station | 2 | Floor presses | rep | | max\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | 2 | | | | 0 | | | |\n"
    "pace | 2 | 2.9 | | | | 0 | | | |\n"
    "end |\n";

TEST(AthleteCard, IntervalsHaveSecondsOfWorkAndToSpare) {
    const auto [workout, plan] = made(minutes); // 20 presses of 2.9 s are 58 s, 21 are 60.9 s
    EXPECT_EQ(plan.goal->goal.score.text, "6 x 20");
    EXPECT_EQ(card_goal_text(workout, plan, Seconds{0}), "goal: windows x Floor");
    EXPECT_NEAR(card_time(workout, plan, Seconds{0}).value(), 58, 1e-9);
    EXPECT_EQ(card_time_text(workout, plan), "of work per window, 0:02 to spare");
    EXPECT_EQ(card_rule(workout, plan, Seconds{30}), "All windows hold.");
    EXPECT_EQ(card_stations_label(workout), "per window");
    EXPECT_NEAR(card_station(workout, plan, 1)->time->value(), 40, 1e-9);
    EXPECT_NEAR(card_station(workout, plan, 2)->time->value(), 58, 1e-9) << "from the start of its window, the second";
    EXPECT_EQ(card_table_label(workout, plan), "after window");
    EXPECT_NEAR(card_column(workout, plan, 4)->clock->value(), 180 + 58, 1e-9);

    const auto [heavy, slow] = made(with(minutes, "| rep | | 20", "| rep | | 31"));
    EXPECT_EQ(card_rule(heavy, slow, Seconds{0}), "Window 1 is the first that does not hold.") << "62 s";
    EXPECT_EQ(card_time_text(heavy, slow), "of work per window, 0:02 too long");
}

TEST(AthleteCard, AWholeMinuteIsOneWhateverTheCellHolds) {
    for (const auto* cap : {"13:00", "0.009027777777777777", "0.00902777777777778"}) {
        const auto text =
            with(with(chipper, "format | time", "format | amrap"), "cap | 10:00", std::string{"cap | "} + cap);
        EXPECT_EQ(format_text(value_of(read_workout(table(text))), 0), "13 min AMRAP") << cap;
    }
    const auto text = with(with(chipper, "format | time", "format | amrap"), "cap | 10:00", "cap | 12:30");
    EXPECT_EQ(format_text(value_of(read_workout(table(text))), 0), "12:30 AMRAP");
}

TEST(AthleteCard, StationsHaveAWordOfTheirOwn) {
    const auto named = [](const std::string& first, const std::string& second) {
        const auto [workout, plan] = made(with(with(chipper, "Kettle swings", first), "Floor presses", second), "5:00");
        return card_station(workout, plan, 1)->name + ", " + card_station(workout, plan, 2)->name;
    };
    EXPECT_EQ(named("Box jumps", "Wall balls"), "Box, Wall");
    EXPECT_EQ(named("Dumbbell snatches", "Dumbbell thrusters"), "snatches, thrusters");
    EXPECT_EQ(named("Box jumps", "box step-overs"), "jumps, overs");
    EXPECT_EQ(named("Box", "Box jumps"), "Box, jumps") << "the whole name where no word is its own";
    EXPECT_EQ(named("Air squats", "Air squats"), "Air, Air") << "the same twice, in the order of the work";
}

TEST(AthleteCard, TheRateIsSaidWithItsLimits) {
    const auto rated = [](const std::string& setting, const std::string& goal) {
        auto text = with(with(chipper, "Kettle swings | rep | | 30", "Row | row cal | | 20"), "pace | 1 | 2 |",
                         "pace | 1 |  | 900");
        text = with(text, "pace | 1 |  | 900 | | |", "pace | 1 |  | 900 | |");
        return made(with(text, "slip_s | 0\n", "slip_s | 0\n" + setting), goal);
    };
    const auto [workout, plan] = rated("", "5:30");
    ASSERT_TRUE(plan.card && plan.card->needed);
    EXPECT_TRUE(card_rate(workout, plan).starts_with("ROW ") && card_rate(workout, plan).ends_with(" cal/h"));
    EXPECT_TRUE(card_rate_text(workout, plan).starts_with("20 cal in ")) << card_rate_text(workout, plan);
    EXPECT_NE(card_rate_text(workout, plan).find(" makes it; max "), std::string::npos);
    const auto [split, planned] = rated("rate_unit | split\n", "5:30");
    EXPECT_TRUE(card_rate(split, planned).ends_with(" split")) << card_rate(split, planned);
    // 8:30 leaves the row 4:30 and more: 20 cal at less than the 300 cal/h that the monitor counts by itself.
    const auto [slow, easy] = rated("rate_unit | W\n", "9:30");
    EXPECT_NE(card_rate_text(slow, easy).find("(any pace makes it; max "), std::string::npos)
        << card_rate_text(slow, easy);
    const auto [without, none] = made(chipper, "5:00");
    EXPECT_EQ(card_rate(without, none) + card_rate_text(without, none), "") << "no ergometer";
}

TEST(AthleteCard, SetsGiveUpDetailBeforeTheyAreCut) {
    std::string many = chipper;
    for (const std::string no : {"1", "2"})
        many = with(many, "pace | " + no + " | " + (no == "1" ? "2" : "3") + " | | | | 0 | | | |",
                    "pace | " + no + " | " + (no == "1" ? "2" : "3") + " | | | | 0 | | | 24 |");
    const auto [workout, plan] = made(many, "9:00");
    EXPECT_NE(card_sets(workout, plan).find("if that is too much"), std::string::npos) << card_sets(workout, plan);
    const std::string word(120, 'x');
    const auto [wide, of_wide] = made(with(many, "Kettle swings", "Kettle swings " + word), "9:00");
    EXPECT_EQ(card_sets(wide, of_wide).find("if that is too much"), std::string::npos) << card_sets(wide, of_wide);
    EXPECT_NE(card_sets(wide, of_wide).find("Floor presses"), std::string::npos);
}

} // namespace
} // namespace pacecells
