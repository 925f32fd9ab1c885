#include "pacecells/usual_pace.h"

#include "pacecells/stations.h"

#include <gtest/gtest.h>

#include <string>

namespace pacecells {
namespace {

double seconds(std::string_view movement) { return usual_pace(Unit::rep, movement)->rate; }

TEST(UsualPace, NamesTheMovementInEveryLanguage) {
    for (const std::string cleans :
         {"hang cleans", "Umsetzen", "cargadas", "\u00e9paul\u00e9s", "dumbbell hang cleans"})
        EXPECT_DOUBLE_EQ(seconds(cleans), 3) << cleans;
    for (const std::string skips :
         {"double-unders", "Doppelspr\u00fcnge", "Doppelspruenge", "saltos dobles", "doubles sauts"})
        EXPECT_DOUBLE_EQ(seconds(skips), 0.4) << skips;
}

TEST(UsualPace, TheLongestPhraseThenTheSlowerOne) {
    EXPECT_GT(seconds("handstand push-ups"), seconds("push-ups")) << "the longest phrase";
    EXPECT_DOUBLE_EQ(seconds("cleans and push-ups"), seconds("cleans")) << "the slower of two";
    EXPECT_DOUBLE_EQ(seconds("push-ups and cleans"), seconds("cleans")) << "in either order";
}

TEST(UsualPace, SaysWhatItDoesNotKnow) {
    EXPECT_FALSE(usual_pace(Unit::rep, "plinth vaults")->known);
    EXPECT_TRUE(usual_pace(Unit::rep, "burpees")->known);
    EXPECT_GT(seconds("plinth vaults"), seconds("push-ups")) << "a middling pace";
    EXPECT_LT(seconds("plinth vaults"), seconds("rope climbs"));
}

TEST(UsualPace, EveryUnitWithARateHasOne) {
    for (int unit = 1; unit <= static_cast<int>(Unit::rest); ++unit) {
        const auto of = static_cast<Unit>(unit);
        const auto pace = usual_pace(of, "");
        ASSERT_EQ(pace.has_value(), rate_kind(of) != RateKind::none) << unit;
        if (rate_kind(of) == RateKind::calories_per_hour) {
            EXPECT_GT(pace->rate, 300) << "what the monitor counts at rest";
        }
        if (rate_kind(of) == RateKind::split) {
            EXPECT_TRUE(pace->rate >= 60 && pace->rate <= 600) << "for 500 m or 1000 m";
        }
    }
}

// Judgement: arms alone make the least, arms and legs together the most.
TEST(UsualPace, OfErgometersTheFanBikeIsTheFastest) {
    const auto rate = [](Unit unit) { return usual_pace(unit, "")->rate; };
    EXPECT_LT(rate(Unit::ski_cal), rate(Unit::row_cal));
    EXPECT_EQ(rate(Unit::row_cal), rate(Unit::bike_cal));
    EXPECT_GT(rate(Unit::armbike_cal), rate(Unit::row_cal));
}

TEST(UsualPace, ALoadIsPickedUp) {
    EXPECT_GT(usual_pace(Unit::rep, "thrusters", true)->handling, usual_pace(Unit::rep, "thrusters", false)->handling);
}

} // namespace
} // namespace pacecells
