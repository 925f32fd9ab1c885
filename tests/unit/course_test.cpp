// Courses through stations that count nothing: parts of a round go by time.
#include "pacecells/athlete_plan.h"

#include "block.h"
#include "expect.h"

#include <string>

namespace pacecells {
namespace {

using block::table;

// 400 m at 5:00 per km are 120 s, 30 s of rest before it or behind it; nothing between.
Plan plan(const std::string& cap, const std::string& goal, const std::string& before, const std::string& behind) {
    const auto workout = value_of(read_workout(
        table("pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | " + cap +
              "\nfade | 0\nsteps | 0\nslip_s | 0\n"
              "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n" +
              before + "station | 2 | Running | run m | | 400\n" + behind +
              "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
              "pace | 2 | | | 5:00 | 0 | | | | |\nend |\n")));
    return plan_for(workout, value_of(read_athlete(workout, table("name\nName\n"), table("name | division | goal\n"),
                                                   table("Ida Quellmann | open | " + goal + "\n"))));
}

TEST(Course, WithoutPointsAPartIsOfTheTime) {
    EXPECT_NEAR(plan("20:00", "", "", "").expected.rounds, 10, 1e-9);
    EXPECT_NEAR(plan("20:30", "", "", "").expected.rounds, 10.25, 1e-9) << "100 m of the eleventh";
    EXPECT_EQ(plan("20:30", "", "", "").expected.text, "10.2") << "no more than what is done";
    EXPECT_EQ(plan("20:00", "3.5", "", "").goal->goal.score.text, "3.5");
    EXPECT_EQ(plan("20:00", "Running", "", "").goal->goal.score.text, "1") << "all of the first round";
    const auto point = plan("20:00", "3.5", "", "").goal->goal.score.point;
    EXPECT_EQ(point.rounds, 3);
    EXPECT_EQ(point.station, 0u);
    EXPECT_NEAR(point.amount, 200, 1e-9);
}

TEST(Course, ARestIsNoPlaceToEnd) {
    const std::string rest = "station | 1 | Rest | rest | | 30\n";
    const std::string last = "station | 3 | Rest | rest | | 30\n";
    EXPECT_NEAR(plan("20:00", "", rest, "").expected.rounds, 8, 1e-9) << "150 s each";
    EXPECT_NEAR(plan("20:30", "", rest, "").expected.rounds, 8 + 30 / 150.0, 1e-9);
    const Plan behind = plan("20:00", "", "", last);
    EXPECT_NEAR(behind.expected.rounds, 8, 1e-9);
    EXPECT_EQ(behind.goal->rounds.size(), 8u);
    EXPECT_NEAR(behind.round_time.value(), 150, 1e-9);
}

} // namespace
} // namespace pacecells
