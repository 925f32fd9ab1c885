#include "pacecells/athlete_plan.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/pace.h"

#include "block.h"
#include "expect.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace pacecells {
namespace {

using block::table;
using block::with;

const std::string tide{block::tide_table};
const std::string no_tests = "name\nName\n";

Workout workout(const std::string& text = tide) { return value_of(read_workout(table(text))); }

Athlete athlete(const Workout& on, const std::string& row, const std::string& tests = no_tests) {
    const Table keys = table("name | division | plan | group | goal | answer\n");
    Table cells = table(row + "\n");
    cells.cells.resize(keys.columns);
    cells.columns = keys.columns;
    return value_of(read_athlete(on, table(tests), keys, cells));
}

Plan plan(const std::string& row, const std::string& text = tide, const std::string& tests = no_tests) {
    const Workout on = workout(text);
    return plan_for(on, athlete(on, row, tests));
}

const std::string mara_tests = "name | ski.critical | ski.reserve | ski.date | longest | rep_s\n"
                               "Name | W | J | Date | Sandbags | Sandbags\n"
                               "Mara Lindqvarn | 120 | 9000 | 46300 | 10 | 4.5\n";

std::string clock_of(Seconds time) { return value_of(clock_text(time)); }

std::vector<std::string> notes(const Plan& plan) {
    std::vector<std::string> texts;
    for (const auto& note : plan.notes)
        texts.push_back(note.message());
    return texts;
}

const std::string ski_tests = "name | ski.critical | ski.reserve\nName\nMara Lindqvarn | 120 | 9000\n";

// Without longest sets, so without pauses: what they need changes by whole sets and rounds.
const std::string no_sets =
    with(with(tide, "| yes  |            | 8 ", "| yes | | "), "| yes  |            | 12 ", "| yes | | ");

// A coach's example: 17 minutes; 12 calories ski, 6 sandbags, 8 box step-overs, 6 ring rows; scaled, no tests --------

TEST(AthletePlan, ARoundOfTheMiddleGroupByHand) {
    // Ski 12 cal at 620 cal/h 69.7 s and 4 s to strap in, sandbags 6 x 5 s, box 8 x 3 s, rings 6 x 2 s, and from each
    // station 3 steps of 0.6 s. Only the pauses that the sets need come on top.
    const Plan one = plan("Ida Quellmann | scaled | | middle");
    double pauses = 0;
    for (const auto& station : one.stations)
        if (!station.pauses.empty())
            pauses += station.pauses[0].value();
    const double work = 12 * 3600.0 / 620 + 4 + 6 * 5 + 8 * 3 + 6 * 2 + 4 * 3 * 0.6;
    EXPECT_NEAR(one.round_time.value(), work + pauses, 1e-9);
    // In 17 minutes, with the usual fade of 6 %, that many rounds and reps: by the walk from station to station.
    const double rounds = 17 * 60 * 0.97 / one.round_time.value();
    EXPECT_EQ(std::floor(one.expected.rounds), std::floor(rounds));
    EXPECT_EQ(one.machines[0].source, RateSource::group);
    EXPECT_NEAR(one.machines[0].rate.value(), 620, 1e-9);
    EXPECT_NEAR(plan("Ida Quellmann | scaled | | quick").machines[0].rate.value(), 620 * 1.15, 1e-9);
}

TEST(AthletePlan, TestsGiveTheShareOfTheWattsAlone) {
    const Plan mara = plan("Mara Lindqvarn | scaled", tide, mara_tests);
    ASSERT_EQ(mara.machines[0].source, RateSource::tests);
    const double alone = 120 + 9000 / (17.0 * 60);
    const auto share = value_of(planned_share(mara.other));
    EXPECT_NEAR(mara.machines[0].share, share, 1e-12);
    EXPECT_NEAR(mara.machines[0].rate.value(), value_of(calorie_rate(Watts{alone * share})).value(), 1e-9);
    EXPECT_NEAR(mara.machines[0].doubt, std::sqrt(0.01 + 0.0016 + 0.0009), 1e-12);
    EXPECT_EQ(mara.stations[1].seconds_each, 4.5) << "her own seconds at the sandbags";
    EXPECT_EQ(mara.stations[2].seconds_each, 3) << "the usual ones at the box";
}

TEST(AthletePlan, ATestThatIsTooOldIsNotUsedAndSaidSo) {
    const Plan mara = plan("Mara Lindqvarn | scaled | | middle", tide, with(mara_tests, "46300", "46200"));
    EXPECT_EQ(mara.machines[0].source, RateSource::group);
    EXPECT_EQ(notes(mara),
              std::vector<std::string>{"The test on the ski ergometer is older than 12 weeks: it is not used."});
}

TEST(AthletePlan, OneTestIsCarriedOverToTheTimeOfTheTask) {
    const std::string tests = "name | ski.time | ski.calories\nName\nTeo Osterby | 5:00 | 62\n";
    const Plan teo = plan("Teo Osterby | scaled", tide, tests);
    ASSERT_EQ(teo.machines[0].source, RateSource::one_test);
    const double watts = value_of(power(CaloriesPerHour{62 * 12})).value() * std::pow(300.0 / 1020, 3 * (1 - 1 / 1.06));
    EXPECT_NEAR(teo.machines[0].rate.value(), 300 + 4 * 0.8604 * watts * teo.machines[0].share, 1e-6);
    EXPECT_GT(teo.machines[0].doubt, plan("Mara Lindqvarn | scaled", tide, mara_tests).machines[0].doubt);
}

TEST(AthletePlan, AnEarlierResultIsCarriedOverWhereThereAreNoTests) {
    const std::string tests = "name | result.calh | result.time\nName\nTeo Osterby | 700 | 10:00\n";
    const Plan teo = plan("Teo Osterby | scaled | | quick", tide, tests);
    ASSERT_EQ(teo.machines[0].source, RateSource::result);
    const double watts = value_of(power(CaloriesPerHour{700})).value() * std::pow(600.0 / 1020, 3 * (1 - 1 / 1.06));
    EXPECT_NEAR(teo.machines[0].rate.value(), 300 + 4 * 0.8604 * watts, 1e-6) << "held for 10 minutes, less for 17";
    EXPECT_LT(teo.machines[0].doubt, group_error);
    EXPECT_FALSE(teo.ceiling) << "nothing says what could be held alone";
    ASSERT_TRUE(teo.card);
}

TEST(AthletePlan, AnEarlierResultCountsByItsShareAndItsError) {
    const auto with_error = [](const std::string& error) {
        return plan("Teo Osterby | scaled | | quick", tide,
                    "name | result.calh | result.time | result.share | result.sd\nName\n"
                    "Teo Osterby | 700 | 10:00 | 0.9 | " +
                        error + "\n");
    };
    const Plan teo = with_error("0.05");
    ASSERT_EQ(teo.machines[0].source, RateSource::result);
    const double watts = value_of(power(CaloriesPerHour{700})).value() * std::pow(600.0 / 1020, 3 * (1 - 1 / 1.06));
    EXPECT_NEAR(teo.machines[0].rate.value(), 300 + 4 * 0.8604 * watts * teo.machines[0].share / 0.9, 1e-6)
        << "more rest there, so more was held";
    const double carried = 0.04 * std::log(1020.0 / 600);
    EXPECT_NEAR(teo.machines[0].doubt, std::sqrt(0.05 * 0.05 + 0.04 * 0.04 + carried * carried), 1e-9);
    EXPECT_EQ(with_error("0.3").machines[0].source, RateSource::group) << "the group is known better than that";
}

TEST(AthletePlan, AnArmBikeKnowsItsCaloriesOnly) {
    const std::string arms = with(tide, "ski cal", "armbike cal");
    const std::string tests =
        "name | armbike.time | armbike.calories | armbike.critical\nName\nTeo Osterby | 5:00 | 50 | 200\n";
    const Plan teo = plan("Teo Osterby | scaled", arms, tests);
    ASSERT_EQ(teo.machines[0].source, RateSource::one_test);
    EXPECT_NEAR(teo.machines[0].rate.value(), 600 * std::pow(300.0 / 1020, 3 * (1 - 1 / 1.06)) * teo.machines[0].share,
                1e-6);
    ASSERT_TRUE(teo.card);
    EXPECT_LE(teo.card->advice.hold, teo.card->advice.never_above);
}

// A card adds up ---------------------------------------------------------------------------------------------------

void expect_to_add_up(const Workout& on, const Plan& made) {
    const auto& line = *made.goal;
    ASSERT_FALSE(line.rounds.empty());
    EXPECT_NEAR(line.rounds.back().clock.value(), line.goal.clock.value(), 1e-9);
    // Within a round of even pace: the ergometer takes the time that the rate to hold needs, pauses theirs, and the rest
    // takes the same factor on its usual time everywhere.
    std::optional<double> factor;
    Seconds before{0};
    for (const auto& round : line.rounds) {
        Seconds at = before;
        double after = 0; // walking on from the station before
        for (const auto& station : made.stations) {
            const auto& off = round.stations[station.station];
            if (!off)
                continue;
            const std::size_t k = static_cast<std::size_t>(round.round) - 1;
            const double amount =
                on.stations[station.station].amount(made.division, round.round, on.rounds(made.division));
            const double took = (*off - at).value() - after * factor.value_or(0);
            if (machine_of(on.stations[station.station].unit)) {
                if (station.station == *made.main && factor) {
                    EXPECT_NEAR(took, amount * 3600 / made.card->advice.hold.value(), 1e-6);
                }
            } else {
                const double usual = amount * station.seconds_each;
                const double pause = station.pauses[k].value();
                if (factor) {
                    EXPECT_NEAR((took - pause) / usual, *factor, 1e-9);
                }
            }
            at = *off;
            after = station.extra.value();
        }
        if (!factor && round.whole) // from the way back to the start of the round
            factor = (round.clock - at).value() / after;
        before = round.clock;
    }
}

TEST(AthletePlan, TheClocksOfACardAddUpFromRatesAndSets) {
    const Workout on = workout();
    for (const char* row :
         {"Mara Lindqvarn | scaled", "Mara Lindqvarn | scaled | | | 7", "Ida Q. | as prescribed | | quick"}) {
        const Plan made = plan_for(on, athlete(on, row, mara_tests));
        expect_to_add_up(on, made);
        ASSERT_TRUE(made.card && made.on_machine);
        const double calories = on.stations[0].amount(made.division, 1, {});
        EXPECT_NEAR(made.on_machine->value(), calories * 3600 / made.card->advice.hold.value(), 1e-9);
    }
}

TEST(AthletePlan, TheCardOfTheExample) {
    const Plan mara = plan("Mara Lindqvarn | scaled", tide, mara_tests);
    EXPECT_EQ(mara.goal->goal.score.text, "6");
    EXPECT_EQ(clock_of(mara.goal->goal.clock), "16:50") << "10 s before the cap";
    EXPECT_EQ(clock_of(mara.goal->target), "2:48");
    EXPECT_EQ(clock_of(mara.goal->rounds[5].clock), "16:50");
    EXPECT_EQ(mara.next_down->goal.score.text, "5 + Sandbags");
    ASSERT_TRUE(mara.check_round);
    const auto k = static_cast<std::size_t>(*mara.check_round) - 1;
    EXPECT_NEAR(mara.check_clock->value(), (mara.goal->rounds[k].clock + mara.next_down->rounds[k].clock).value() / 2,
                1e-9);
    EXPECT_EQ(mara.check_round, 2) << "5:37 is nearest to 40 % of 17:00, 6:48; 8:25 is farther";
    EXPECT_EQ(mara.card->advice.situation, Situation::goal_fits);
    EXPECT_LE(mara.needs->value(), mara.card->advice.hold.value());
    EXPECT_LE(mara.card->advice.hold, mara.card->advice.never_above);
    EXPECT_LE(mara.card->advice.never_above, *mara.ceiling);
}

// Goals ------------------------------------------------------------------------------------------------------------

TEST(AthletePlan, ALongNameIsOneWordInAGoal) {
    const auto goal = [](const std::string& bags, const std::string& box, const std::string& typed) {
        const auto task = with(with(tide, "Sandbags", bags), "Box step-overs", box);
        return plan("Ida Q. | scaled | | | 4 + " + typed, task).goal->goal.score.text;
    };
    EXPECT_EQ(goal("Sandbags", "Box step-overs", "box"), "4 + Box step-overs") << "14 characters";
    EXPECT_EQ(goal("Sandbag-over-shoulder throws", "Box step-overs", "throws"), "4 + Sandbag");
    EXPECT_EQ(goal("Sandbags", "Box step-overs with a twist", "twist"), "4 + Box");
    EXPECT_EQ(goal("Sandbag throws over the box", "Box step-overs with a twist", "twist"), "4 + twist")
        << "box is in another name, and would find neither";
}

TEST(AthletePlan, TheCoachsGoalWinsAndMayEndAnywhere) {
    EXPECT_EQ(plan("Ida Q. | scaled | | | 4").goal->goal.score.text, "4");
    EXPECT_EQ(plan("Ida Q. | scaled | | | 4 + box").goal->goal.score.text, "4 + Box step-overs");
    EXPECT_EQ(plan("Ida Q. | scaled | | | 4+26").goal->goal.score.text, "4 + Box step-overs") << "12, 6 and 8 reps";
    EXPECT_EQ(plan("Ida Q. | scaled | | | 4+14").goal->goal.score.text, "4+14") << "two sandbags";
}

TEST(AthletePlan, TheAnswerAfterThePracticeRoundMovesTheGoal) {
    const Plan before = plan("Mara Lindqvarn | scaled", tide, mara_tests);
    const Plan just = plan("Mara Lindqvarn | scaled | | | | only just", tide, mara_tests);
    EXPECT_EQ(just.goal->goal.score.text, before.next_down->goal.score.text);
    const Plan no = plan("Mara Lindqvarn | scaled | | | | no", tide, mara_tests);
    EXPECT_LE(no.goal->goal.score.rounds, before.goal->goal.score.rounds * 0.825 + 0.05);
    EXPECT_GT(no.goal->goal.score.rounds, before.goal->goal.score.rounds * 0.825 - 0.5);
    const Plan more = plan("Mara Lindqvarn | scaled | | | | with more left", tide, mara_tests);
    EXPECT_EQ(more.goal->goal.score.text, "6");
    EXPECT_GT(more.goal->rounds[0].time, more.goal->rounds[5].time) << "faster at the end";
    EXPECT_NEAR(more.goal->rounds[2].clock.value(), value_of(clock_after(Seconds{1010}, 6, 3, -0.06)).value(), 1e-6);
}

TEST(AthletePlan, AnEasyPlanSaysWhereToEndAndHasNoGoal) {
    const Plan easy = plan("Mara Lindqvarn | scaled | easy", tide, mara_tests);
    EXPECT_FALSE(easy.planned);
    EXPECT_FALSE(easy.goal);
    EXPECT_EQ(easy.end->value(), 510);
    EXPECT_EQ(notes(easy)[0],
              "Easy: stop at 8:30 or after 3 rounds, whichever comes first, at a pace at which you can talk.");
    EXPECT_EQ(notes(plan("Mara Lindqvarn | scaled | not today", tide, mara_tests)),
              std::vector<std::string>{"Not today."});
    EXPECT_EQ(notes(plan("Mara Lindqvarn |")), std::vector<std::string>{"Enter a division."});
    EXPECT_TRUE(notes(plan(" | scaled")).empty()) << "an empty row says nothing";
}

TEST(AthletePlan, PracticeIsNoMoreThanAFifthOfTheWork) {
    for (const auto* goal : {"1", "2", "4", "6", "11", "16"}) {
        const Plan made = plan(std::string("Mara Lindqvarn | scaled | | | ") + goal, tide, mara_tests);
        const auto& rehearsal = *made.rehearsal;
        EXPECT_LE(rehearsal.easy_rounds + rehearsal.planned, made.goal->goal.score.rounds / 5 + 1e-9) << goal;
        EXPECT_LE(rehearsal.rounds(), 3);
        EXPECT_GE(rehearsal.easy_time, made.goal->target) << goal;
    }
    EXPECT_EQ(plan("Mara Lindqvarn | scaled | | | 16", tide, mara_tests).rehearsal->easy_rounds, 2);
}

TEST(AthletePlan, SaysWhenTheLoadOrThePredictionSpeaksForTheScaledVersion) {
    const std::string tests = "name | max\nName | Sandbags\nMara Lindqvarn | 50\n";
    const auto said = notes(plan("Mara Lindqvarn | as prescribed | | steady", tide, tests));
    EXPECT_TRUE(std::ranges::any_of(said, [](const auto& one) {
        return one ==
               "Sandbags: the load is 90% of the maximum; for 6 reps per round more than 70% is a reason to scale.";
    }));
    const auto slow = notes(plan("Mara Lindqvarn | as prescribed | | steady", with(tide, "from | 5", "from | 9")));
    EXPECT_TRUE(std::ranges::any_of(slow, [](const auto& one) {
        return one.find("the workout is meant for 9 rounds or more: scale it.") != std::string::npos;
    }));
}

TEST(AthletePlan, AGoalThatNoRateMakesIsToldWithANumber) {
    const auto far = plan("Mara Lindqvarn | scaled | | | 7", tide, mara_tests);
    EXPECT_EQ(far.card->advice.situation, Situation::out_of_reach);
    EXPECT_EQ(far.card->advice.hold, far.card->floor) << "what she can hold is still the rate on the card";
    EXPECT_TRUE(std::ranges::any_of(notes(far), [](const auto& one) {
        return one.find("The goal needs ") == 0 && one.find("take the next lower goal") != std::string::npos;
    }));
    const auto absurd = plan("Mara Lindqvarn | scaled | | | 14", tide, mara_tests);
    EXPECT_TRUE(absurd.no_room);
    EXPECT_FALSE(absurd.needs);
}

// For time, rep schemes, chippers ----------------------------------------------------------------------------------

const std::string timed_tide =
    with(with(tide, "| AMRAP", "| for time"), "rounds    | Rounds          |", "rounds | | 5");

TEST(AthletePlan, ForTimeTheGoalIsATime) {
    const Plan mara = plan("Mara Lindqvarn | scaled", timed_tide, mara_tests);
    ASSERT_TRUE(mara.expected.time);
    const double last_walk = 3 * 0.6; // after the last station of a round, not after the last unit of all
    EXPECT_NEAR(mara.expected.time->value() * 0.97, 5 * mara.round_time.value() - last_walk, 1e-6);
    ASSERT_TRUE(mara.goal->goal.score.time);
    EXPECT_EQ(std::fmod(mara.goal->goal.clock.value(), 10), 0) << "goals go in steps of 10 s";
    EXPECT_GE(mara.goal->goal.clock, *mara.expected.time);
    EXPECT_EQ(mara.goal->goal.score.text, clock_of(mara.goal->goal.clock));
    EXPECT_EQ(mara.goal->rounds.size(), 5u);
    EXPECT_GT(mara.next_down->goal.clock.value(), 1.04 * mara.goal->goal.clock.value() - 1e-9);
    const Plan own = plan("Mara Lindqvarn | scaled | | | 12:40", timed_tide, mara_tests);
    EXPECT_EQ(clock_of(own.goal->goal.clock), "12:40");
}

TEST(AthletePlan, WhoDoesNotFinishHasAScoreAndAGoalByStation) {
    const Plan slow = plan("Ida Q. | as prescribed | | steady", with(timed_tide, "17:00", "10:00"));
    EXPECT_FALSE(slow.expected.time);
    EXPECT_EQ(slow.expected.text.substr(0, 4), "CAP+");
    EXPECT_FALSE(slow.goal->goal.score.time);
    EXPECT_EQ(clock_of(slow.goal->goal.clock), "9:50");
}

TEST(ForTime, AnEasyPlanOfAFewRoundsEndsByTheClockAlone) {
    for (const auto& [rounds, clock_alone] : {std::pair{"1", true}, {"3", true}, {"4", false}}) {
        const auto text = with(with(tide, "| AMRAP", "| for time"), "rounds    | Rounds          |",
                               std::string("rounds | | ") + rounds);
        const Plan easy = plan("Mara Lindqvarn | scaled | easy", text, mara_tests);
        EXPECT_EQ(easy.end_rounds, clock_alone ? std::optional<int>() : 3) << rounds;
        EXPECT_EQ(notes(easy)[0] == "Easy: stop at 8:30, at a pace at which you can talk.", clock_alone) << rounds;
        EXPECT_EQ(notes(plan("Mara Lindqvarn | scaled | technique", text, mara_tests))[0] ==
                      "Technique: stop at 8:30; every rep clean, at a pace at which you can talk.",
                  clock_alone)
            << rounds;
    }
}

// 21-15-9 of two movements, for time in 9 minutes.
const std::string three_rounds =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | time\ncap | 9:00\n"
    "stations | no | movement | unit | when | amount.1\n"
    "divisions | | | | | open\n"
    "station | 1 | Kettle swings | rep | | 21-15-9\n"
    "station | 2 | Floor presses | rep | | 21-15-9\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | 2 | | | | | yes | | 20 |\n"
    "pace | 2 | 2 | | | | | | | 16 |\n"
    "end |\n";

TEST(AthletePlan, ARepSchemeHasAClockForEveryRoundAndSetsForEach) {
    const Plan made = plan("Ida Q. | open", three_rounds);
    ASSERT_EQ(made.goal->rounds.size(), 3u) << "three rounds, 90 reps";
    EXPECT_EQ(made.stations[0].amounts, (std::vector<double>{21, 15, 9}));
    ASSERT_TRUE(made.stations[1].sets);
    const auto& sets = *made.stations[1].sets;
    EXPECT_EQ(sets.reps, 21);
    EXPECT_EQ(sets.open.reps(), 21);
    EXPECT_EQ(sets.in_round(2, 15).open.reps(), 15);
    EXPECT_EQ(sets.in_round(3, 9).open.reps(), 9);
    EXPECT_GT(made.goal->rounds[1].time, made.goal->rounds[2].time) << "the clocks go with the work";
    // The goal is sensible: a few minutes, not half a round.
    ASSERT_TRUE(made.goal->goal.score.time);
    EXPECT_GT(made.goal->goal.clock.value(), 90 * 2);
    EXPECT_LT(made.goal->goal.clock.value(), 9 * 60);
}

TEST(AthletePlan, AChipperHasAClockForEveryStation) {
    const std::string list = with(with(tide, "| AMRAP", "| for time"), "| Ring rows  | rep     |      | 8        | 6",
                                  "| Ring rows | rep | | 50 | 40");
    const Plan made = plan("Ida Q. | scaled | | middle", list);
    ASSERT_EQ(made.goal->rounds.size(), 1u);
    const auto& stations = made.goal->rounds[0].stations;
    for (std::size_t i = 0; i < 4; ++i) {
        ASSERT_TRUE(stations[i]);
        if (i > 0) {
            EXPECT_GT(*stations[i], *stations[i - 1]);
        }
    }
    ASSERT_TRUE(made.stations[3].sets);
    EXPECT_EQ(made.stations[3].sets->rounds, 1);
    EXPECT_GT(made.stations[3].sets->open.sets(), 2) << "40 ring rows with a longest set of 12";
}

TEST(AthletePlan, ALadderGoesOn) {
    const std::string ladder = with(with(three_rounds, "format | time", "format | amrap"),
                                    "| Kettle swings | rep | | 21-15-9", "| Kettle swings | rep | | 3-6-9-…");
    const Plan made =
        plan("Ida Q. | open", with(ladder, "| Floor presses | rep | | 21-15-9", "| Floor presses | rep | | 4"));
    // 3 swings and 4 presses, 6 and 4, ... at 2 s: more than 6 rounds in 9 minutes, each longer than the one before.
    ASSERT_GT(made.goal->rounds.size(), 5u);
    EXPECT_LT(made.goal->rounds[0].time, made.goal->rounds[4].time);
    EXPECT_EQ(made.stations[0].amounts[3], 12);
}

// Pairs and teams --------------------------------------------------------------------------------------------------

Plan in_team(const std::string& team, const std::string& share = "") {
    const Workout on = workout(with(no_sets, "rounds    | Rounds          |", team));
    const Table keys = table("name | division | share\n");
    const auto row = table("Mara Lindqvarn | scaled | " + (share.empty() ? std::string("x") : share) + "\n");
    Table cells = row;
    if (share.empty())
        cells.cells[2] = {};
    return plan_for(on, value_of(read_athlete(on, table(ski_tests), keys, cells)));
}

TEST(AthletePlan, OneOfAPairWorksAtATime) {
    const Plan alone = plan("Mara Lindqvarn | scaled", no_sets, ski_tests);
    const Plan pair = in_team("team | | 2\nat_once | | 1");
    // The pair does the round that one would do alone, but each rests for half of it: so at a higher rate.
    EXPECT_EQ(pair.share, 0.5);
    EXPECT_GT(pair.machines[0].rate, alone.machines[0].rate);
    EXPECT_GE(pair.expected.rounds, alone.expected.rounds);
    const double off = alone.round_time.value() - 12 * alone.stations[0].seconds_each;
    EXPECT_NEAR(pair.round_time.value(), off + 12 * pair.stations[0].seconds_each, 1e-9);
    EXPECT_NEAR(pair.on_machine->value(), 6 * 3600 / pair.card->advice.hold.value(), 1e-9) << "6 of the 12 calories";
    EXPECT_EQ(notes(pair)[0], "In a team: planned as if the partners work at the same pace; 50% of the work is yours.");
}

TEST(AthletePlan, BothOfAPairAtOnceTakeHalfTheTime) {
    const Plan alone = plan("Mara Lindqvarn | scaled | | | 6", no_sets, ski_tests);
    const Plan pair = in_team("team | | 2\nat_once | | 2");
    EXPECT_GT(pair.expected.rounds, 1.6 * alone.expected.rounds) << "walking and strapping in stay";
    EXPECT_LT(pair.expected.rounds, 2 * alone.expected.rounds);
    // Who takes the larger share of a pair works more and rests less.
    const auto rate = [](const std::string& share) {
        return in_team("team | | 2\nat_once | | 1", share).machines[0].rate;
    };
    EXPECT_GT(rate("0.3"), rate("0.5"));
    EXPECT_GT(rate("0.5"), rate("70")) << "per cent";
}

// Order ------------------------------------------------------------------------------------------------------------

TEST(AthletePlan, MoreRestNeverLowersTheRateToHold) {
    double before = 0;
    for (const int rest : {0, 10, 20, 40, 80}) {
        const std::string text = with(with(no_sets, "station   | 5  |            |         |      |          |",
                                           "station | 5 | Rest | rest | | " + std::to_string(rest) + " | "),
                                      "divisions |    |            |         |      | as prescribed | scaled",
                                      "divisions | | | | | as prescribed | scaled");
        const Plan made = plan("Mara Lindqvarn | as prescribed", text, ski_tests);
        EXPECT_GE(made.machines[0].rate.value(), before - 1e-9) << rest;
        before = made.machines[0].rate.value();
    }
}

TEST(AthletePlan, ALongerCapNeverLowersTheGoal) {
    double before = 0;
    double with_sets = 0;
    for (int minutes = 5; minutes <= 40; ++minutes) {
        const std::string cap = std::to_string(minutes) + ":00";
        const Plan made = plan("Mara Lindqvarn | scaled", with(no_sets, "17:00", cap), ski_tests);
        EXPECT_GE(made.goal->goal.score.rounds, before) << minutes;
        before = made.goal->goal.score.rounds;
        // One more round can ask for one more break in each round: then by half a round at most.
        const Plan broken = plan("Mara Lindqvarn | scaled", with(tide, "17:00", cap), mara_tests);
        EXPECT_GE(broken.goal->goal.score.rounds, with_sets - 0.5) << minutes;
        with_sets = broken.goal->goal.score.rounds;
    }
}

// Reasons ----------------------------------------------------------------------------------------------------------

TEST(AthletePlan, ReasonsLeadFromTheGoalBackToTheCells) {
    const Workout on = workout();
    const Athlete mara = athlete(on, "Mara Lindqvarn | scaled", mara_tests);
    Reasons reasons;
    const Plan with_reasons = plan_for(on, mara, &reasons);
    EXPECT_EQ(with_reasons.goal->goal.score.text, plan_for(on, mara).goal->goal.score.text) << "the same code";
    const auto goal = reasons.find(Fact::goal);
    ASSERT_TRUE(goal);
    // Walk back from the goal; the cap and the athlete's critical power must be among what is found.
    std::vector<std::size_t> open{*goal};
    bool cap = false;
    bool tests = false;
    for (std::size_t i = 0; i < open.size() && i < 1000; ++i)
        for (const auto& input : reasons.steps()[open[i]].from) {
            if (input.step)
                open.push_back(*input.step);
            if (input.place)
                cap = cap || (input.place->table == Place::Table::workout && input.place->row == 4);
            if (input.place)
                tests = tests || input.place->table == Place::Table::tests;
        }
    EXPECT_TRUE(cap);
    EXPECT_TRUE(tests);
    for (const auto& step : reasons.steps()) {
        EXPECT_FALSE(step.what.message().empty());
        EXPECT_FALSE(step.rule.message().empty());
        for (const auto& input : step.from)
            if (input.step) {
                EXPECT_LT(*input.step, reasons.steps().size());
            }
    }
}

} // namespace
} // namespace pacecells
