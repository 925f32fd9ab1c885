// Cards beside arithmetic that can be done on paper, and scores as they are written.
#include "pacecells/athlete_plan.h"
#include "pacecells/text.h"

#include "block.h"
#include "expect.h"

#include <cmath>
#include <string>

namespace pacecells {
namespace {

using block::table;

// An ergometer with 12 calories and 10 swings of 2 s; no fade, no steps, no slack before the cap.
Plan plan(const std::string& unit, const std::string& goal, const std::string& tests, const std::string& pacing = "",
          const std::string& cap = "17:00") {
    const auto workout = value_of(read_workout(
        table("pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | " + cap +
              "\nfade | 0\nsteps | 0\nslip_s | 0\n"
              "stations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
              "station | 1 | Ergometer | " +
              unit +
              " | | 12\nstation | 2 | Kettle swings | rep | | 10\n"
              "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
              "pace | 1 | | 1000 | | 0 | | | | |\npace | 2 | 2 | | | 0 | | | | |\nend |\n")));
    return plan_for(workout, value_of(read_athlete(workout, table(tests), table("name | division | goal | pacing\n"),
                                                   table("Ida Quellmann | open | " + goal + " | " + pacing + "\n"))));
}

const std::string arm_bike = "name | armbike.time | armbike.calories\nName\nIda Quellmann | 5:00 | 100\n";
const std::string ski = "name | ski.critical | ski.reserve\nName\nIda Quellmann | 200 | 15000\n";

void expect_consistent(const std::string& unit, const std::string& tests) {
    int seen[4] = {};
    int just_fits = 0;
    int just_a_stretch = 0;
    for (double rounds = 4; rounds < 24; rounds += 0.02) {
        const Plan made = plan(unit, std::to_string(rounds), tests);
        if (!made.card || !made.card->needed || made.no_room)
            continue;
        const Card& card = *made.card;
        const double needed = card.needed->value();
        EXPECT_GE(needed, made.needs->value() - 1e-6) << rounds;
        EXPECT_LT(needed, made.needs->value() + 5) << rounds;
        EXPECT_EQ(std::fmod(needed, 5), 0);
        EXPECT_EQ(std::fmod(card.floor.value(), 5), 0);
        const auto situation = needed <= card.floor.value()                ? Situation::goal_fits
                               : needed <= card.advice.never_above.value() ? Situation::stretch
                                                                           : Situation::out_of_reach;
        EXPECT_EQ(card.advice.situation, situation) << rounds;
        ++seen[static_cast<int>(situation)];
        just_fits += needed == card.floor.value() ? 1 : 0;
        just_a_stretch += needed == card.advice.never_above.value() ? 1 : 0;
        EXPECT_EQ(card.in_ten, std::floor(10 * card.advice.chance + 1e-9)) << rounds;
        const double time_needed = 12 * 3600 / needed; // of 12 calories
        const double time_planned = 12 * 3600 / card.floor.value();
        if (situation == Situation::goal_fits) {
            EXPECT_NEAR(card.in_hand->value(), time_needed - time_planned, 1e-9);
            EXPECT_GE(card.from.value(), needed);
        } else {
            EXPECT_NEAR(card.to_find->value(), time_planned - time_needed, 1e-9);
            EXPECT_EQ(card.in_hand, std::nullopt);
        }
        if (situation == Situation::stretch) {
            EXPECT_EQ(card.from, *card.needed);
            EXPECT_EQ(card.advice.hold, *card.needed);
        } else {
            EXPECT_EQ(card.advice.hold, card.floor);
        }
        if (situation == Situation::out_of_reach) {
            EXPECT_LT(card.from, *card.needed);
        }
    }
    for (const auto situation : {Situation::goal_fits, Situation::stretch, Situation::out_of_reach})
        EXPECT_GT(seen[static_cast<int>(situation)], 0) << unit;
    EXPECT_GT(just_fits, 0);
    EXPECT_GT(just_a_stretch, 0);
}

TEST(PlanCard, SaysWhatAGoalTakesOnAFanBike) { expect_consistent("armbike cal", arm_bike); }
TEST(PlanCard, SaysWhatAGoalTakesOnASkiErgometer) { expect_consistent("ski cal", ski); }

// 20 s of swings a round: 51 rounds leave no second for the ergometer, 50 leave 0.4 s each.
TEST(PlanCard, WhereTheOtherStationsTakeItAll) {
    EXPECT_TRUE(plan("armbike cal", "51", arm_bike).no_room);
    EXPECT_FALSE(plan("armbike cal", "50", arm_bike).no_room);
    EXPECT_NEAR(plan("armbike cal", "50", arm_bike).needs->value(), 12 * 3600 / 0.4, 1e-3);
    // 15 rounds in 1020 s: 68 s each, 48 of them on the bike.
    EXPECT_NEAR(plan("armbike cal", "15", arm_bike).needs->value(), 900, 1e-6);
    EXPECT_NEAR(plan("ski cal", "15", ski).needs->value(), 900, 1e-6);
}

TEST(PlanCard, SaysWhatAPacingCosts) {
    const Plan made = plan("ski cal", "17", ski, "fade");
    ASSERT_TRUE(made.pacing_cost);
    const double lost = made.pacing_cost->value();
    std::string said;
    for (const auto& note : made.notes)
        if (note.message().starts_with("Pacing: "))
            said = note.message();
    const auto change = number_text(std::round(1000 * std::abs(made.drift)) / 10);
    if (lost < 0.5)
        EXPECT_NE(said.find("(" + change + "%), which costs nothing"), std::string::npos) << said;
    else // at 374 reps in 1020 s
        EXPECT_NE(said.find("(" + change + "%), which costs " + number_text(std::round(10 * lost / 1020 * 374) / 10)),
                  std::string::npos)
            << said << " " << lost;
}

TEST(PlanCard, AGoalIsWrittenAsItIsUsual) {
    const auto text = [](const std::string& goal) {
        return plan("armbike cal", goal, "name\nName\n").goal->goal.score.text;
    };
    EXPECT_EQ(text("3"), "3");
    EXPECT_EQ(text("3+0"), "3");
    EXPECT_EQ(text("3+1"), "3+1");
    EXPECT_EQ(text("3+11"), "3+11");
    EXPECT_EQ(text("3+12"), "3 + Ergometer") << "all of its calories";
    EXPECT_EQ(text("3+13"), "3+13");
    EXPECT_EQ(text("0+12"), "Ergometer");
    EXPECT_EQ(text("Ergometer"), "Ergometer");
    EXPECT_EQ(text("1 + Ergometer"), "1 + Ergometer");
    EXPECT_EQ(text("2 + Kettle swings"), "3") << "the last station";
    EXPECT_EQ(text("0.5"), "0+11") << "of 22";
}

TEST(PlanCard, AScoreIsRoundsAndTheRepsOfTheNext) {
    // At the usual 1000 cal/h the ergometer takes 43.2 s and a round 63.2 s; 12 + 10 reps.
    const auto text = [](const std::string& cap) {
        return plan("armbike cal", "", "name\nName\n", "", cap).expected.text;
    };
    EXPECT_EQ(text("3:10"), "3") << "189.6 s, and not the 3.6 s of a calorie more";
    EXPECT_EQ(text("3:13"), "3") << "3.4 s";
    EXPECT_EQ(text("3:14"), "3+1") << "4.4 s";
    EXPECT_EQ(text("3:56"), "3+13") << "46.4 s: all calories, and a rep at 45.2";
}

} // namespace
} // namespace pacecells
