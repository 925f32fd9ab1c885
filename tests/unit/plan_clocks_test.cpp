// Clocks and cards of small workouts, beside arithmetic on paper. No fade, no steps, no slack before the cap.
#include "pacecells/athlete_plan.h"

#include "block.h"
#include "expect.h"

#include <string>
#include <vector>

namespace pacecells {
namespace {

using block::table;

struct Task {
    std::string settings;              // lines
    std::vector<std::string> stations; // movement | unit | when | amount
    std::vector<std::string> paces;    // rep_s | calh | pace | handling_s | steps
};

Workout workout_of(const Task& task) {
    std::string text = "pacecells.workout | value\nversion | 1\nlanguage | en\nfade | 0\nsteps | 0\nslip_s | 0\n" +
                       task.settings + "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n";
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
    for (int k = 1; k <= 8; ++k)
        EXPECT_NEAR(made.goal->rounds[static_cast<std::size_t>(k - 1)].clock.value(), 120 * k, 1e-9);
    EXPECT_NEAR(made.needs->value(), 12 * 3600 / 120.0, 1e-9);
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
                            {"| 1500 | | 0 | | | | |", "2 | | | 0 | | | | |"}},
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

} // namespace
} // namespace pacecells
