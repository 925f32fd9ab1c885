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
    EXPECT_REFUSED(usual_score(on, 1, Seconds{1020.5})) << "beyond the cap";
    EXPECT_TRUE(usual_score(on, 1, Seconds{1020}, 0.2));
    EXPECT_REFUSED(usual_score(on, 1, Seconds{1020}, 0.199));
    EXPECT_TRUE(usual_score(on, 1, Seconds{1020}, 5));
    EXPECT_REFUSED(usual_score(on, 1, Seconds{1020}, 5.001));
}

TEST(Wall, HoldsGoalsUpToItsBounds) {
    const Workout on = workout();
    EXPECT_EQ(value_of(wall_table(on, 0.1, 0.1, 1)).size(), 1u) << "from and to may be one";
    EXPECT_REFUSED(wall_table(on, 0.09, 1, 1));
    EXPECT_REFUSED(wall_table(on, 0, 1, 1));
    EXPECT_EQ(value_of(wall_table(on, 1, 20.9, 0.1)).size(), 200u) << "0.1 is no binary number: none is lost";
    EXPECT_NE(wall_table(on, 1, 21, 0.1).error().message().find("at most 200 goals; got 201"), std::string::npos);
    EXPECT_EQ(value_of(wall_table(on, 199, 199.9, 1)).size(), 1u);
    EXPECT_REFUSED(wall_table(on, 199, 200, 1));
    EXPECT_EQ(value_of(wall_clocks(on, 0.1)).rounds.size(), 1u);
    const auto timed = value_of(
        read_workout(block::table(block::with(block::with(std::string{block::tide_table}, "| AMRAP", "| for time"),
                                              "rounds    | Rounds          |", "rounds | | 3"))));
    EXPECT_EQ(value_of(wall_table(timed, 600, 1020, 60)).size(), 8u);
    EXPECT_REFUSED(wall_table(timed, 600, 1021, 421)) << "beyond the cap";
    EXPECT_REFUSED(wall_clocks(timed, 0));
    EXPECT_TRUE(wall_clocks(timed, 1));
}

TEST(Wall, HasARowForEachGoal) {
    const Workout on = workout();
    const auto rows = value_of(wall_table(on, 4, 7, 1));
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows[2].goal.score.text, "6");
    EXPECT_EQ(clock_of(rows[2].target), "2:48");
    EXPECT_NEAR(rows[2].at_half.rounds, 3, 0.1) << "at 8:30 of 16:50";
    EXPECT_EQ(value_of(wall_table(on, 4.5, 4.5, 1))[0].goal.score.text, "4+19") << "half of 38, as prescribed";
    ASSERT_EQ(rows[2].needs.size(), 2u);
    EXPECT_GT(*rows[2].needs[0], *rows[2].needs[1]) << "14 calories need more than 12";
    EXPECT_GT(*rows[3].needs[1], *rows[2].needs[1]);
    EXPECT_REFUSED(wall_table(on, 7, 4, 1));
    EXPECT_NE(wall_table(on, 4, 7, 0).error().message().find("in steps above 0; got 4 to 7 by 0"), std::string::npos);
    EXPECT_REFUSED(wall_table(on, 1, 250, 1));
    const auto clocks = value_of(wall_clocks(on, 6, 1));
    EXPECT_EQ(clock_of(clocks.rounds[5].clock), "16:50");
    EXPECT_REFUSED(wall_clocks(on, 0));
    EXPECT_REFUSED(wall_clocks(on, 6, 2)) << "two divisions";
}

// The higher the goal, the faster the ergometer; from where the other stations alone take longer, no rate is enough.
TEST(Wall, SaysWhereNoRateIsFastEnough) {
    const auto rows = value_of(wall_table(workout(), 1, 40, 1));
    for (const std::size_t division : {0u, 1u}) {
        double before = 0;
        int without = 0;
        for (const auto& row : rows) {
            ASSERT_TRUE(row.needs[division]) << row.goal.score.text;
            const double need = row.needs[division]->value();
            without += need == 0 ? 1 : 0;
            EXPECT_TRUE(without > 0 ? need == 0 : need > before) << row.goal.score.text << ": " << need;
            before = need;
        }
        EXPECT_GT(without, 20) << "nobody does 20 such rounds in 17 minutes";
        EXPECT_LT(without, 34) << "anybody does 6";
    }
    // A goal that ends before the ergometer asks nothing of it.
    const std::string ski = "station   | 1  |            | ski cal |      | 14       | 12       |        |\n";
    const std::string rows_after = "station   | 5  |            |         |      |          |          |        |\n";
    auto text = block::with(std::string{block::tide_table}, ski, "");
    text = block::with(std::move(text), rows_after, rows_after + ski);
    const auto last = value_of(wall_table(value_of(read_workout(block::table(text))), 0.2, 1, 0.8));
    EXPECT_FALSE(last[0].needs[0]);
    EXPECT_TRUE(last[1].needs[0]);
}

} // namespace
} // namespace pacecells
