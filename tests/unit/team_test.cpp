// Teams whose people are known: against people who are walked rep by rep, and order relations.
#include "pacecells/team.h"

#include "block.h"
#include "expect.h"
#include "random.h"

#include <algorithm>
#include <string>
#include <vector>

namespace pacecells {
namespace {

using block::table;
using block::with;

// 12 swings and 8 presses; nothing between the stations.
const std::string pairs =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | 20:00\nfade | 0\n"
    "team | 2\nat_once | 1\nsplit |\n"
    "stations | no | movement | unit | when | amount.1\n"
    "divisions | | | | | open\n"
    "station | 1 | Kettle swings | rep | | 12\n"
    "station | 2 | Floor presses | rep | | 8\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | 2 | | | | 0 | | | |\n"
    "pace | 2 | 3 | | | | 0 | | | |\n"
    "end |\n";
const std::string tests = "name | rep_s | rep_s\nName | Kettle swings | Floor presses\n"
                          "Ida Quellmann | 2 | 3\nTarn Overwick | 4 | 5\nAda Brimsole | 3 | 2\n";

std::vector<Athlete> people_of(const Workout& on, const std::vector<std::string>& rows,
                               const std::string& known = tests) {
    std::vector<Athlete> people;
    for (const auto& row : rows)
        people.push_back(
            value_of(read_athlete(on, table(known), table("name | division | goal | answer\n"), table(row + "\n"))));
    return people;
}

std::vector<Plan> plans_of(const Workout& on, std::vector<Athlete> people) {
    join_team(on, people);
    std::vector<Plan> plans;
    for (const auto& one : people)
        plans.push_back(plan_for(on, one));
    return plans;
}

Workout workout(const std::string& text) { return value_of(read_workout(table(text))); }

const std::vector<std::string> two{"Ida Quellmann | open | |", "Tarn Overwick | open | |"};

TEST(Team, APairWalkedRepByRep) {
    // They take turns after each rep; whose turn it is does it at the own pace.
    double seconds = 0;
    for (int rep = 0; rep < 12; ++rep)
        seconds += rep % 2 == 0 ? 2 : 4;
    for (int rep = 0; rep < 8; ++rep)
        seconds += rep % 2 == 0 ? 3 : 5;
    EXPECT_EQ(seconds, 68);
    for (const auto& plan : plans_of(workout(pairs), people_of(workout(pairs), two))) {
        EXPECT_NEAR(plan.round_time.value(), seconds, 1e-9);
        EXPECT_EQ(plan.expected.rounds, 1200 / 68 + (1200 - 17 * 68) / 3 / 20.0) << "17 rounds, 44 s at 3 s a swing";
        EXPECT_TRUE(plan.notes.empty());
    }
}

// Both at once, nobody at two stations: each does the own reps, the slower one sets the time.
TEST(Team, BothAtOnceWaitForTheSlower) {
    const Workout on = workout(with(pairs, "at_once | 1", "at_once | 2"));
    const auto plans = plans_of(on, people_of(on, two));
    EXPECT_NEAR(plans[0].round_time.value(), std::max(6 * 2, 6 * 4) + std::max(4 * 3, 4 * 5), 1e-9);
    EXPECT_EQ(plans[0].round_time, plans[1].round_time);
}

// Two of three at once, six reps of each: 12 + 24 + 18 s of work take 27 s on two mats, walked second by second.
TEST(Team, TwoOfThreeAtOnceTakeHalfOfTheWork) {
    std::vector<std::string> three = two;
    three.emplace_back("Ada Brimsole | open | |");
    const Workout eighteen =
        workout(with(with(with(with(with(pairs, "team | 2", "team | 3"), "at_once | 1", "at_once | 2"),
                               "station | 2 | Floor presses | rep | | 8\n", ""),
                          "pace | 2 | 3 | | | | 0 | | | |\n", ""),
                     "rep | | 12", "rep | | 18"));
    std::vector<int> left{6 * 2, 6 * 4, 6 * 3}; // seconds of work
    int second = 0;
    for (; left[0] + left[1] + left[2] > 0; ++second) { // always the two with the most left
        std::ranges::sort(left, std::greater{});
        --left[0];
        left[1] -= left[1] > 0 ? 1 : 0;
    }
    EXPECT_EQ(second, 27);
    for (const auto& plan : plans_of(eighteen, people_of(eighteen, three)))
        EXPECT_NEAR(plan.round_time.value(), second, 1e-9);
}

TEST(Team, SharesGoInTheOrderOfTheRoster) {
    const Workout on = workout(with(pairs, "split |", "split | 75/25"));
    auto people = people_of(on, two);
    join_team(on, people);
    EXPECT_EQ(people[0].team->stations[0].share, 0.75);
    EXPECT_EQ(people[1].team->stations[0].before, 0.75);
    EXPECT_NEAR(people[0].team->stations[0].seconds, 0.75 * 2 + 0.25 * 4, 1e-12);
    const auto plans = plans_of(on, people_of(on, two));
    EXPECT_EQ(plans[0].stations[0].part, 9);
    EXPECT_EQ(plans[1].stations[0].part, 3);
}

TEST(Team, AnyWayEverybodyWorksEquallyLong) {
    const Workout on = workout(with(pairs, "split |", "split | any"));
    const auto plans = plans_of(on, people_of(on, two));
    EXPECT_EQ(plans[0].stations[0].part, 8) << "at 2 s a rep";
    EXPECT_EQ(plans[1].stations[0].part, 4) << "at 4 s a rep";
    EXPECT_EQ(plans[0].stations[1].part + plans[1].stations[1].part, 8);
    EXPECT_NEAR(plans[0].round_time.value(), 12 * 2 * (1 / (1 / 2.0 + 1 / 4.0)) + 8 * 2 * (1 / (1 / 3.0 + 1 / 5.0)),
                1e-9);
}

TEST(Team, PartsAddUpToTheAmount) {
    Random random;
    for (int i = 0; i < 2000; ++i) {
        const int amount = random.whole(1, 60);
        const int people = random.whole(2, 6);
        std::vector<double> shares;
        double sum = 0;
        for (int j = 0; j < people; ++j)
            sum += shares.emplace_back(random.between(0.1, 1));
        double before = 0;
        double parts = 0;
        for (const double share : shares) {
            const TeamPart::Station one{before, share / sum, 1};
            before += one.share;
            EXPECT_LT(std::abs(one.units(amount) - amount * one.share), 1 + 1e-6);
            parts += one.units(amount);
        }
        ASSERT_EQ(parts, amount);
    }
}

TEST(Team, ARepThatIsHalfDoneIsWhole) {
    EXPECT_EQ((TeamPart::Station{0, 0.49, 1}.units(1)), 0);
    EXPECT_EQ((TeamPart::Station{0.49, 0.51, 1}.units(1)), 1);
    EXPECT_EQ((TeamPart::Station{0, 0.5, 1}.units(5)), 3);
    EXPECT_EQ((TeamPart::Station{0, 0.46, 1}.units(1)), 0);
}

// A partner who gets faster never makes the team slower, whatever the split; split any way is never slower than halves.
TEST(Team, MoreInAPartnerNeverMakesTheTeamSlower) {
    for (const auto* split : {"split |", "split | 60/40", "split | any"})
        for (const int at_once : {1, 2}) {
            const Workout on =
                workout(with(with(pairs, "at_once | 1", "at_once | " + std::to_string(at_once)), "split |", split));
            double before = 1e9;
            for (double rep = 8; rep >= 1; rep -= 0.25) {
                const auto known = with(tests, "Overwick | 4 |", "Overwick | " + std::to_string(rep) + " |");
                const auto plans = plans_of(on, people_of(on, two, known));
                EXPECT_LE(plans[0].round_time.value(), before + 1e-9) << split << rep;
                EXPECT_NEAR(plans[0].round_time.value(), plans[1].round_time.value(), 1e-9);
                before = plans[0].round_time.value();
                if (std::string(split) == "split | any") {
                    const Workout halves = workout(with(pairs, "at_once | 1", "at_once | " + std::to_string(at_once)));
                    EXPECT_LE(before, plans_of(halves, people_of(halves, two, known))[0].round_time.value() + 1e-9);
                }
            }
        }
}

TEST(Team, HasOneGoalAndTheMostCarefulAnswer) {
    const Workout on = workout(pairs);
    const auto plans =
        plans_of(on, people_of(on, {"Ida Quellmann | open | | with more left", "Tarn Overwick | open | 15 |"}));
    EXPECT_EQ(plans[0].goal->goal.score.text, "15");
    EXPECT_EQ(plans[1].drift, plans[0].drift);
    EXPECT_LT(plans[1].drift, 0) << "more left, says the only one who was asked";
    const auto careful = plans_of(
        on, people_of(on, {"Ida Quellmann | open | | with more left", "Tarn Overwick | open | 15 | only just"}));
    EXPECT_NE(careful[0].goal->goal.score.text, "15");
    EXPECT_EQ(careful[0].goal->goal.score.text, careful[1].goal->goal.score.text);
    EXPECT_EQ(careful[0].goal->rounds.back().clock, careful[1].goal->rounds.back().clock);
}

// The goal of a partner whose division does more: 4 rounds of 10, where one's own has 2 of 6.
TEST(Team, AGoalBeyondTheOwnWorkIsItsEnd) {
    const std::string lists = with(
        with(with(with(pairs, "format | AMRAP", "format | for time"), "amount.1\n", "amount.1 | amount.2\n"),
             "divisions | | | | | open", "divisions | | | | | long | short"),
        "station | 1 | Kettle swings | rep | | 12\nstation | 2 | Floor presses | rep | | 8",
        "station | 1 | Kettle swings | rep | | 5-5-5-5 | 3-3\nstation | 2 | Floor presses | rep | | 5-5-5-5 | 3-3");
    const Workout on = workout(lists);
    const auto text = [&](const std::string& goal) {
        return plans_of(on, people_of(on, {"Ida Quellmann | long | " + goal + " |", "Tarn Overwick | short | |"}))[1]
            .goal->goal.score.text;
    };
    EXPECT_EQ(text("1+5"), "1+5");
    EXPECT_EQ(text("0+8"), "1") << "all six reps of round 1";
    EXPECT_EQ(text("2+1"), text("3+1")) << "all there is";
    EXPECT_EQ(text("2+1"), "19:50") << "within the cap less 10 s";
}

TEST(Team, AGoalAtAStationOfAPartnerAloneIsNoGoalOfOnesOwn) {
    const Workout on =
        workout(with(with(with(pairs, "amount.1\n", "amount.1 | amount.2\n"), "divisions | | | | | open",
                          "divisions | | | | | long | short"),
                     "station | 1 | Kettle swings | rep | | 12\nstation | 2 | Floor presses | rep | | 8",
                     "station | 1 | Kettle swings | rep | | 12 | 12\nstation | 2 | Floor presses | rep | | 8 |"));
    const auto plans =
        plans_of(on, people_of(on, {"Ida Quellmann | long | 1 + Floor presses |", "Tarn Overwick | short | |"}));
    EXPECT_EQ(plans[0].goal->goal.score.text, "2");
    EXPECT_EQ(plans[1].goal->goal.score.text, plans[1].suggested->score.text);
    EXPECT_NE(plans[1].goal->goal.score.text, "1");
}

TEST(Team, IsOneTextPerPersonAndBack) {
    const Workout on = workout(pairs);
    for (const auto* goal : {"", "15", "4+10", "4 + swings"}) {
        auto people = people_of(on, {"Ida Quellmann | open | " + std::string(goal) + " | only just", two[1]});
        join_team(on, people);
        for (const auto& one : people) {
            const auto read = parse_team_part(team_part_text(*one.team), 2);
            ASSERT_TRUE(read) << team_part_text(*one.team);
            EXPECT_EQ(*read, *one.team);
        }
        // A plan from the cells of a row is the same.
        const auto from_cell =
            value_of(read_athlete(on, table(tests), table("name | division | team | team_plan\n"),
                                  table("Tarn Overwick | open | 1 | " + team_part_text(*people[1].team) + "\n")));
        EXPECT_EQ(plan_for(on, from_cell).round_time, plan_for(on, people[1]).round_time);
        EXPECT_EQ(plan_for(on, from_cell).goal->goal.score.text, plan_for(on, people[1]).goal->goal.score.text);
    }
}

TEST(Team, ATextThatIsNoPartIsRefused) {
    const Workout on = workout(pairs);
    auto people = people_of(on, two);
    join_team(on, people);
    const std::string good = team_part_text(*people[0].team);
    ASSERT_TRUE(parse_team_part(good, 2));
    EXPECT_FALSE(parse_team_part(good, 3));
    EXPECT_FALSE(parse_team_part(good + "1", 2));
    for (const auto* bad :
         {"", "x", "1", "-1 -1", "0 0 3 -1 0 0 0 0 0 1 1 0 1 1", "0 0 -1 4 0 0 0 0 0 1 1 0 1 1",
          "0 0 -1 -1 0 0 0 0 0 1.1 1 0 1 1", "0 0 -1 -1 0 0 0 0 0 0 1 0 1 1", "0 0 -1 0 0 0 0 0 0 1 1 0 1 1",
          "0 0 -1 2 1 0 7 0 0 1 1 0 1 1", "0 0 -1 2 1 0 2 0 0 1 1 0 1 1", "0 0 -1 0 200 0 0 0 0 1 1 0 1 1",
          "0 0 -1 4 5 0 0 0 0 1 1 0 1 1", "0 0 -1 2 1 0 0.5 0 0 1 1 0 1 1", "0 0 -1 3 0 0 0 0 0 1 1 0 1 1",
          "0 0 -1 0 999 0 0 0 0 1 1 0 1 1", "nan 0 -1 -1 0 0 0 0 0 1 1 0 1 1", "0 0 -1 -1 0 0 -1 0 0 1 1 0 1 1"})
        EXPECT_FALSE(parse_team_part(bad, 2)) << bad;
    EXPECT_TRUE(parse_team_part("0 0 -1 -1 0 0 0 0 0 1 1 0 1 1", 2));
    for (const auto* goal : {"0 199.5 0 0 0", "0 1 0 0 0", "1 0 1 0 0", "3 0 0 0 1"})
        EXPECT_TRUE(parse_team_part("0 0 -1 " + std::string(goal) + " 0 1 1 0 1 1", 2)) << goal;
    const auto spread = parse_team_part("0.25 0.5 -1 -1 0 0 0 0 0 1 1 0 1 1", 2);
    EXPECT_EQ(spread->spread, 0.25);
    EXPECT_EQ(spread->spread_below, 0.5);
    EXPECT_EQ(parse_team_part("0 0 0 2 1 0 1 0 0 1 1 0 1 1", 2)->answer, PracticeAnswer::more_left);
    EXPECT_FALSE(parse_team_part("0 0 -1 -1 0 0 0 0 0 1 1 0 1 1", 2)->answer);
    const auto refused =
        read_athlete(on, table(tests), table("name | division | team_plan\n"), table("Ida Quellmann | open | mine\n"));
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().message().find("not for typing"), std::string::npos);
}

TEST(Team, OneAloneIsNoTeam) {
    const Workout on = workout(pairs);
    auto people = people_of(on, {two[0]});
    join_team(on, people);
    EXPECT_FALSE(people[0].team);
    EXPECT_NE(plan_for(on, people[0]).notes[0].message().find("as if the partners"), std::string::npos);
}

// Turns: sets where a longest set is known, else equal ones of at most a minute; running in one go.
TEST(Team, TurnsAreSetsOrAMinute) {
    const std::string text =
        with(with(pairs, "pace | 2 | 3 | | | | 0 | | | |", "pace | 2 | 3 | | | | 0 | | | 4 |"),
             "station | 1 | Kettle swings | rep | | 12", "station | 1 | Kettle swings | rep | | 80");
    const Workout on = workout(text);
    const auto plans = plans_of(on, people_of(on, two));
    const auto turns = turns_of(on, plans[0]);
    ASSERT_EQ(turns.size(), 2u);
    EXPECT_EQ(turns[0].part, 40);
    EXPECT_EQ(turns[0].scheme->text(), "20-20") << "80 s of swings";
    EXPECT_EQ(turns[0].longest, Seconds{40});
    EXPECT_EQ(turns[1].part, 4);
    EXPECT_LT(turns[1].longest, Seconds{12}) << "four is all she can do once, round after round";
    EXPECT_EQ(turns[1].scheme->reps(), 4);
    const Workout both = workout(with(text, "at_once | 1", "at_once | 2"));
    EXPECT_FALSE(turns_of(both, plans_of(both, people_of(both, two))[0])[0].scheme) << "nobody waits for a turn";
}

TEST(Team, ARoundIsTheSecondWhereTheFirstIsLonger) {
    const Workout alone =
        workout(with(with(pairs, "team | 2", "team | 1"), "swings | rep | | 12", "swings | rep | first | 12"));
    const Plan plan = plan_for(alone, people_of(alone, {two[0]})[0]);
    EXPECT_NEAR(plan.fresh_rounds[0].value(), 12 * 2 + 8 * 3, 1e-9);
    EXPECT_NEAR(plan.round_time.value(), 8 * 3, 1e-9);
    EXPECT_EQ(plan.stations[0].part, 12) << "where it is done";
    EXPECT_EQ(plan.stations[1].part, 8);
}

TEST(Team, OneRepEachIsATurn) {
    const Workout on = workout(with(pairs, "Kettle swings | rep | | 12", "Kettle swings | rep | | 2"));
    const auto turns = turns_of(on, plans_of(on, people_of(on, two))[1]);
    ASSERT_EQ(turns.size(), 2u);
    EXPECT_EQ(turns[0].part, 1);
    EXPECT_EQ(turns[0].longest, Seconds{4});
    EXPECT_FALSE(turns[0].scheme) << "in one go";
}

TEST(Team, SharesAsTyped) {
    EXPECT_EQ(typed_shares("60/40"), (std::vector{0.6, 0.4}));
    EXPECT_EQ(typed_shares("0.75/0.25"), (std::vector{0.75, 0.25}));
    EXPECT_EQ(typed_shares("50 / 25/25"), (std::vector{0.5, 0.25, 0.25}));
    for (const auto* bad : {"", "any", "60/-40", "60/0", "60/x"})
        EXPECT_TRUE(typed_shares(bad).empty()) << bad;
}

} // namespace
} // namespace pacecells
