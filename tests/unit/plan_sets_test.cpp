// Sets of rounds that differ from those that were planned.
#include "pacecells/athlete_plan.h"

#include "expect.h"

namespace pacecells {
namespace {

// 12 reps as 6-6 with 5 s, then 8 as 4-4; on a weaker day 12 as 4-4-4 with 10 s.
StationSets twelve() {
    StationSets sets;
    sets.reps = 12;
    sets.by_round = {{.reps = 12, .open = value_of(Scheme::near_even(12, 2)), .rest = Seconds{5}},
                     {.reps = 8, .open = value_of(Scheme::near_even(8, 2)), .rest = Seconds{5}}};
    sets.fall_back = value_of(Scheme::near_even(12, 3));
    sets.fall_back_rest = Seconds{10};
    return sets;
}

TEST(PlanSets, OfAnyRoundAreNoLongerThanThoseOfTheLast) {
    const auto sets = twelve();
    EXPECT_EQ(sets.in_round(1, 12).open.text(), "6-6");
    EXPECT_EQ(sets.in_round(2, 8).open.text(), "4-4");
    EXPECT_EQ(sets.in_round(3, 8).open.text(), "4-4") << "as the last";
    EXPECT_EQ(sets.in_round(3, 9).open.text(), "3-3-3");
    EXPECT_EQ(sets.in_round(3, 13).open.text(), "4-3-3-3");
    EXPECT_EQ(sets.in_round(3, 4).open.text(), "4");
    EXPECT_EQ(sets.in_round(3, 1).open.text(), "1");
    EXPECT_EQ(sets.in_round(3, 0.4).reps, 1) << "a part of a rep is one";
    EXPECT_EQ(sets.in_round(3, 0).reps, 0);
    EXPECT_EQ(sets.in_round(3, 999).reps, 999);
    EXPECT_EQ(sets.in_round(3, 1000).reps, 0) << "beyond what is written in sets";
    EXPECT_EQ(sets.in_round(3, 13).rest, Seconds{5});
}

TEST(PlanSets, BeyondASingleThereAreSingles) {
    StationSets sets = twelve();
    sets.by_round.back() = {.reps = 3, .open = value_of(Scheme::near_even(3, 3)), .rest = Seconds{5}};
    EXPECT_EQ(sets.in_round(3, 5).open.text(), "5x1");
    sets.by_round.back() = {}; // nothing to do in the last round
    EXPECT_EQ(sets.in_round(3, 2).open.text(), "1-1");
}

TEST(PlanSets, OfAWeakerDay) {
    const auto sets = twelve();
    EXPECT_EQ(sets.fall_back_in(12).open.text(), "4-4-4");
    EXPECT_EQ(sets.fall_back_in(12).rest, Seconds{10});
    EXPECT_EQ(sets.fall_back_in(13).open.text(), "4-3-3-3");
    EXPECT_EQ(sets.fall_back_in(4).open.text(), "4");
}

} // namespace
} // namespace pacecells
