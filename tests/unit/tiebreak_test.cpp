#include "pacecells/tiebreak.h"

#include "block.h"
#include "expect.h"

#include <string>

namespace pacecells {
namespace {

using block::table;
using block::with;

Workout workout(const std::string& tiebreak, std::string text = std::string(block::tide_table)) {
    return value_of(read_workout(table(with(std::move(text), "steps     | Steps           | 3\n",
                                            "steps | Steps | 3\ntiebreak | Tie-break | " + tiebreak + "\n"))));
}

// 21-15-9 of two stations.
std::string scheme() {
    std::string text(block::tide_table);
    text = with(text, "| AMRAP", "| for time");
    text = with(text, "station   | 1  |            | ski cal |      | 14       | 12       |        |\n", "");
    text = with(text, "Sandbags   | rep     |      | 6        | 6        |", "Sandbags | rep | | 21-15-9 | 21-15-9 |");
    text = with(text, "station   | 3  | Box step-overs | rep |      | 10       | 8        |        |\n", "");
    return with(text, "Ring rows  | rep     |      | 8        | 6        |", "Ring rows | rep | | 21-15-9 | 21-15-9 |");
}

TEST(TieBreak, ARoundAndAStationInEveryLanguage) {
    const TieBreak third{.round = 3, .station = 1};
    for (const std::string words : {"clock after the third sandbag station", "Uhr nach der dritten Sandbag-Station",
                                    "reloj tras la tercera estación de sandbags",
                                    "chrono après la troisième station de sandbags", "sandbags, round 3"})
        EXPECT_EQ(tiebreak_of(workout(words), 0), third) << words;
    const TieBreak end{.round = 4};
    for (const std::string words :
         {"clock after round 4", "Uhr nach Runde 4", "reloj tras la ronda 4", "chrono après le tour 4", "round 4"})
        EXPECT_EQ(tiebreak_of(workout(words), 0), end) << words;
}

// As coaches write the movement in a plural or in a compound, with marks on its letters.
TEST(TieBreak, AStationInAnotherFormOfItsName) {
    const struct {
        const char* movement;
        const char* tiebreak;
    } all[] = {{"Sandsäcke", "Uhr nach der dritten Sandsack-Station"},
               {"Sacos", "reloj tras la tercera estación de saco"},
               {"Sacs", "chrono après la troisième station de sac"}};
    for (const auto& [movement, tiebreak] : all) {
        const auto text = with(std::string(block::tide_table), "Sandbags  ", movement);
        EXPECT_EQ(tiebreak_of(workout(tiebreak, text), 0), (TieBreak{.round = 3, .station = 1})) << tiebreak;
    }
    EXPECT_FALSE(tiebreak_of(workout("clock after the third rope climb"), 0)) << "no such station: no end of a round";
}

// Two letters more are an ending, three are another word; with six letters alike one may end as it likes.
TEST(TieBreak, HowMuchOfAWordHasToBeAlike) {
    const auto found = [](const std::string& movement, const std::string& said) {
        const auto text = with(std::string(block::tide_table), "Sandbags  ", movement);
        return tiebreak_of(workout("clock after the third " + said, text), 0).has_value();
    };
    EXPECT_TRUE(found("Sacs", "sac"));
    EXPECT_TRUE(found("Sacken", "sack"));
    EXPECT_FALSE(found("Sackles", "sack"));
    EXPECT_FALSE(found("Sas", "sa")) << "two letters say nothing";
    EXPECT_TRUE(found("Kettles", "kettlebells"));
    EXPECT_FALSE(found("Kettys", "kettlebells")) << "four letters alike";
}

TEST(TieBreak, AStationOfAListDoneOnceNeedsNoRound) {
    const auto once = with(with(std::string(block::tide_table), "| AMRAP", "| for time"),
                           "rounds    | Rounds          |", "rounds | | 1");
    EXPECT_EQ(tiebreak_of(workout("clock after the sandbags", once), 0), (TieBreak{.round = 1, .station = 1}));
    EXPECT_FALSE(tiebreak_of(workout("clock after round 0", once), 0));
    EXPECT_EQ(tiebreak_of(workout("clock after round 1", once), 0), TieBreak{.round = 1});
    EXPECT_FALSE(tiebreak_of(workout("clock after round 2", once), 0));
}

TEST(TieBreak, TwoStationsAsNearAreNone) {
    const auto two = with(std::string(block::tide_table), "Ring rows ", "Sandbag rows ");
    EXPECT_FALSE(tiebreak_of(workout("after the third sandbag", two), 0));
    EXPECT_EQ(tiebreak_of(workout("after the third sandbag rows", two), 0), (TieBreak{.round = 3, .station = 3}));
}

TEST(TieBreak, ByAnAmountOfTheScheme) {
    EXPECT_EQ(tiebreak_of(workout("clock after the 15 ring rows", scheme()), 0), (TieBreak{.round = 2, .station = 1}));
    EXPECT_EQ(tiebreak_of(workout("clock after the round of 9", scheme()), 0), TieBreak{.round = 3});
    EXPECT_EQ(tiebreak_of(workout("clock after the 15 sandbags", scheme()), 0), (TieBreak{.round = 2, .station = 0}));
    EXPECT_FALSE(tiebreak_of(workout("clock after the 12 ring rows", scheme()), 0)) << "no such round";
    EXPECT_FALSE(tiebreak_of(workout("clock after round 4", scheme()), 0)) << "three rounds";
}

TEST(TieBreak, NoMomentIsNone) {
    EXPECT_FALSE(tiebreak_of(workout("fewer no-reps"), 0));
    EXPECT_FALSE(tiebreak_of(workout("clock after the sandbags"), 0)) << "of which round?";
    EXPECT_FALSE(tiebreak_of(workout("sandbags of each round"), 0)) << "of which one?";
    EXPECT_FALSE(tiebreak_of(workout("the 6 sandbags"), 0)) << "every round has six";
}

TEST(TieBreak, ItsClockIsThatOfThePlan) {
    const Workout task = workout("clock after the third sandbag station");
    Athlete athlete;
    athlete.name = "Ilka Moor";
    athlete.division = 1;
    athlete.movements.resize(task.stations.size());
    const Plan plan = plan_for(task, athlete);
    const auto clock = clock_of(*tiebreak_of(task, 1), *plan.goal);
    ASSERT_TRUE(clock);
    EXPECT_EQ(*clock, *plan.goal->rounds[2].stations[1]);
    EXPECT_GT(*clock, plan.goal->rounds[1].clock);
    EXPECT_LT(*clock, plan.goal->rounds[2].clock);
    const int last = static_cast<int>(plan.goal->rounds.size());
    EXPECT_FALSE(clock_of({.round = last + 1, .station = 1}, *plan.goal)) << "the goal ends before";
}

} // namespace
} // namespace pacecells
