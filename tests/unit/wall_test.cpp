#include "pacecells/athlete_plan.h"

#include "pacecells/clock.h"

#include "block.h"
#include "expect.h"

#include <string>

namespace pacecells {
namespace {

Workout workout() { return value_of(read_workout(block::table(std::string{block::tide_table}))); }

std::string clock_of(Seconds time) { return value_of(clock_text(time)); }

TEST(Wall, ShowsWhatAPaceComesTo) {
    const Workout on = workout();
    const auto half = value_of(usual_score(on, 1, Seconds{510}));
    const auto whole = value_of(usual_score(on, 1, Seconds{1020}));
    EXPECT_NEAR(whole.rounds / half.rounds, 2, 0.1);
    EXPECT_GT(value_of(usual_score(on, 1, Seconds{1020}, 1.1)).rounds, whole.rounds);
    EXPECT_REFUSED(usual_score(on, 2, Seconds{510}));
    EXPECT_REFUSED(usual_score(on, 1, Seconds{0}));
    EXPECT_REFUSED(usual_score(on, 1, Seconds{510}, 9));
}

TEST(Wall, HasARowForEachGoal) {
    const Workout on = workout();
    const auto rows = value_of(wall_table(on, 4, 7, 1));
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows[2].goal.score.text, "6");
    EXPECT_EQ(clock_of(rows[2].target), "2:48");
    EXPECT_NEAR(rows[2].at_half.rounds, 3, 0.1) << "at 8:30 of 16:50";
    ASSERT_EQ(rows[2].needs.size(), 2u);
    EXPECT_GT(*rows[2].needs[0], *rows[2].needs[1]) << "14 calories need more than 12";
    EXPECT_GT(*rows[3].needs[1], *rows[2].needs[1]);
    EXPECT_REFUSED(wall_table(on, 7, 4, 1));
    EXPECT_REFUSED(wall_table(on, 4, 7, 0));
    EXPECT_REFUSED(wall_table(on, 1, 250, 1));
    const auto clocks = value_of(wall_clocks(on, 6, 1));
    EXPECT_EQ(clock_of(clocks.rounds[5].clock), "16:50");
    EXPECT_REFUSED(wall_clocks(on, 0));
}

} // namespace
} // namespace pacecells
