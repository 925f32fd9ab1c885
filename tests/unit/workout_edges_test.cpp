// Workouts that are just allowed, and just not.
#include "pacecells/workout.h"

#include "block.h"
#include "expect.h"

#include <string>
#include <vector>

namespace pacecells {
namespace {

using block::table;
using block::with;

const std::string tide{block::tide_table};

std::string refusal(const std::string& setting, const std::string& of = tide) {
    const auto read = read_workout(table(with(of, "steps     | Steps           | 3\n", setting)));
    return read ? "" : read.error().message();
}

TEST(WorkoutEdges, BoundsMayBeOne) {
    EXPECT_EQ(refusal("intended_high | To | 5\n"), "") << "from 5 to 5 rounds";
    EXPECT_NE(refusal("intended_high | To | 4.9\n"), "");
    EXPECT_EQ(refusal("share_work | | 0.8\nshare_rest | | 0.8\n"), "");
    EXPECT_NE(refusal("share_work | | 0.81\nshare_rest | | 0.8\n"), "");
    EXPECT_EQ(refusal("steps | | 0\n"), "");
    EXPECT_EQ(refusal("steps | | 200\n"), "");
    EXPECT_NE(refusal("steps | | 201\n"), "");
    EXPECT_NE(refusal("steps | | -1\n"), "");
}

TEST(WorkoutEdges, APartIsThereOnce) {
    EXPECT_EQ(refusal("steps | | 3\n", with(tide, "machines  |", "groups    |")),
              "row 27, column 1: the key \"groups\" is there twice.");
}

// Two stations in turn over six windows: the first turn of a station has its first amount, the second its second.
TEST(WorkoutEdges, AListInTurnGoesOnTurnByTurn) {
    const auto on = value_of(read_workout(
        table("pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\nevery_s | 60\nwindows | 6\n"
              "in_turn | yes\nstations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
              "station | 1 | Kettle swings | rep | | 12-10-8\nstation | 2 | Ring rows | rep | | 5\n"
              "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
              "pace | 1 | 2 | | | | | | | |\npace | 2 | 2 | | | | | | | |\nend |\n")));
    EXPECT_EQ(on.stations[0].divisions[0].amounts.list, (std::vector<double>{12, 0, 10, 0, 8, 0}));
    EXPECT_EQ(on.stations[1].divisions[0].amounts.list, (std::vector<double>{0, 5, 0, 5, 0, 5}));
}

TEST(WorkoutEdges, SharesOfATeamAddUpToAHundred) {
    const auto split = [](const std::string& shares) { return refusal("team | | 2\nsplit | | " + shares + "\n"); };
    for (const auto* good : {"60/40", "60/39.6", "60/40.4", "any"})
        EXPECT_EQ(split(good), "") << good;
    for (const auto* bad : {"60/39.5", "60/40.5", "100/0", "60/40/0", "60"})
        EXPECT_NE(split(bad), "") << bad;
}

TEST(WorkoutEdges, AWindowMayBeAllWork) {
    const auto intervals =
        with(with(tide, "| AMRAP", "| intervals"), "cap       | Cap             | 17:00\n", "windows | | 4\n");
    EXPECT_EQ(refusal("every_s | | 240\nwork_s | | 240\n", intervals), "");
    EXPECT_NE(refusal("every_s | | 240\nwork_s | | 241\n", intervals), "");
}

TEST(WorkoutEdges, RatesThatSomebodyHolds) {
    const auto read = [](const std::string& calh) {
        return read_workout(table(with(tide, "| 620  |", "| " + calh + " |"))).has_value();
    };
    EXPECT_TRUE(read("5000"));
    EXPECT_FALSE(read("5001"));
}

} // namespace
} // namespace pacecells
