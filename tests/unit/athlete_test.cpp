#include "pacecells/athlete.h"

#include "block.h"
#include "expect.h"

#include <string>

namespace pacecells {
namespace {

using block::table;
using block::with;

Workout tide() { return value_of(read_workout(table(block::tide_table))); }
Workout timed() {
    const auto text = with(std::string{block::tide_table}, "| AMRAP", "| for time");
    return value_of(read_workout(table(with(text, "rounds    | Rounds          |", "rounds | | 5"))));
}

const std::string tests_text =
    "name | ski.critical | ski.reserve | ski.date | ski.time | ski.calories | longest | rep_s | max\n"
    "Name | W | J | Date | Time | cal | Sandbags | Sandbags | Ring rows\n"
    "Mara Lindqvarn | 190 | 14000 | 46300 |  |  | 10 | 4.5 | 60\n"
    "Teo Osterby | | | 46100 | 5:00 | 62 |  |  |\n";
const std::string keys_text = "name | division | plan | group | goal | answer | twice\n";

Result<Athlete> read(const std::string& row, const Workout& workout = tide(), const std::string& tests = tests_text,
                     const std::string& keys = keys_text) {
    Table athlete = table(row + "\n");
    const Table header = table(keys);
    athlete.cells.resize(header.columns); // trailing blanks
    athlete.columns = header.columns;
    return read_athlete(workout, table(tests), header, athlete);
}

std::string refusal(const std::string& row, const Workout& workout = tide(), const std::string& tests = tests_text,
                    const std::string& keys = keys_text) {
    const auto result = read(row, workout, tests, keys);
    return result ? "read" : result.error().message();
}

TEST(Athlete, IsReadWithTheTestsOfThatName) {
    const auto mara = value_of(read("Mara LINDQVARN | scaled | | quick | 7"));
    EXPECT_EQ(mara.division, 1u);
    EXPECT_EQ(mara.group, 0u);
    EXPECT_EQ(mara.plan, DayPlan::full) << "blank is the full plan";
    ASSERT_TRUE(mara.machines[1].values);
    EXPECT_EQ(mara.machines[1].values->critical.value(), 190);
    EXPECT_EQ(mara.movements[1].longest->value(), 10);
    EXPECT_EQ(mara.movements[1].rep->value(), 4.5);
    EXPECT_EQ(mara.movements[3].maximum, 60);
    EXPECT_TRUE(mara.notes.empty());
    const auto teo = value_of(read("Teo Osterby | as prescribed"));
    EXPECT_FALSE(teo.machines[1].values);
    EXPECT_EQ(teo.machines[1].time->value(), 300);
    const auto nobody = value_of(read(" | scaled"));
    EXPECT_TRUE(nobody.name.empty());
    EXPECT_FALSE(value_of(read("Ida Quellmann | scaled")).tested);
}

TEST(Athlete, ColumnsMayMove) {
    const auto read_moved =
        read("8 | | Mara Lindqvarn | as prescribed", tide(), tests_text, "goal | | name | division\n");
    EXPECT_EQ(value_of(read_moved).goal->rounds, 8);
}

TEST(Athlete, ATestAboveWhatTheBestHoldIsRefused) {
    const auto one = [](const std::string& keys, const std::string& cells) {
        return refusal("Mara Lindqvarn | scaled", tide(), "name | " + keys + "\n|\nMara Lindqvarn | " + cells + "\n");
    };
    EXPECT_EQ(
        one("ski.time | ski.calories", "10:00 | 600"),
        "row 3, column 2: 959 W for 10:00 is more than the best in the world hold, about 530 W. Is the unit right?");
    EXPECT_EQ(one("ski.time | ski.calories", "10:00 | 200"), "read");
    EXPECT_EQ(one("armbike.time | armbike.calories", "10:00 | 1001"),
              "row 3, column 2: 6006 cal/h on the fan bike is more than anybody holds. Is the unit right?");
    EXPECT_EQ(one("armbike.time | armbike.calories", "10:00 | 1000"), "read");
    // 480 W for 15 min and 650 W for 4 min are the most.
    EXPECT_EQ(
        one("ski.critical | ski.reserve", "455 | 27000"),
        "row 3, column 2: 485 W for 15:00 is more than the best in the world hold, about 480 W. Is the unit right?");
    EXPECT_EQ(one("ski.critical | ski.reserve", "445 | 27000"), "read");
    EXPECT_EQ(
        one("ski.critical | ski.reserve", "350 | 73000"),
        "row 3, column 2: 654 W for 4:00 is more than the best in the world hold, about 650 W. Is the unit right?");
}

TEST(Athlete, AGoalHasOneReading) {
    const auto goal = [](const std::string& typed, const Workout& workout = tide()) {
        return value_of(read("Mara Lindqvarn | scaled | | | " + typed, workout)).goal.value();
    };
    EXPECT_EQ(goal("7").rounds, 7);
    EXPECT_EQ(goal("7,5").rounds, 7.5);
    EXPECT_EQ(goal("5+20").kind, TypedGoal::Kind::score);
    EXPECT_EQ(goal("5+20").reps, 20);
    EXPECT_EQ(goal("5 + bags").kind, TypedGoal::Kind::station);
    EXPECT_EQ(goal("5 + bags").station, 1u);
    EXPECT_EQ(goal("10:30", timed()).time.value(), 630);
    EXPECT_EQ(goal("0.01", timed()).time.value(), 864) << "a time of the sheet";
    EXPECT_EQ(goal("4", timed()).rounds, 4);
    const auto refused = [](const std::string& typed, const Workout& workout = tide()) {
        return refusal("Mara Lindqvarn | scaled | | | " + typed, workout);
    };
    EXPECT_NE(refused("5+32").find("more reps than that round, which has 32"), std::string::npos);
    EXPECT_NE(refused("5 + r").find("names no one station"), std::string::npos);
    EXPECT_NE(refused("10:30").find("is a time"), std::string::npos);
    EXPECT_NE(refused("18:30", timed()).find("up to the cap"), std::string::npos);
    EXPECT_NE(refused("6", timed()).find("beyond the 5 rounds"), std::string::npos);
    EXPECT_EQ(goal("199+31").reps, 31) << "of 200 rounds at most";
    EXPECT_NE(refused("200+1").find("cannot be read"), std::string::npos);
    EXPECT_EQ(goal("199.9").rounds, 199.9);
    EXPECT_NE(refused("200").find("0.1 to 200 rounds"), std::string::npos);
    EXPECT_EQ(goal("0.1").rounds, 0.1);
    EXPECT_NE(refused("0.09"), "read");
    EXPECT_EQ(goal("5+0").rounds, 5);
    EXPECT_EQ(goal("0+1").reps, 1);
    EXPECT_EQ(goal("bags").rounds, 0) << "a station alone is one of the first round";
    EXPECT_EQ(goal("17:00", timed()).time.value(), 1020) << "up to the cap";
    EXPECT_EQ(goal("4+31", timed()).reps, 31);
    EXPECT_EQ(goal("5+0", timed()).rounds, 5);
    EXPECT_NE(refused("5+1", timed()).find("beyond the 5 rounds"), std::string::npos);
    EXPECT_EQ(goal("4 + bags", timed()).rounds, 4);
    EXPECT_NE(refused("5 + bags", timed()).find("beyond the 5 rounds"), std::string::npos);
    for (const auto* bad : {"fast", "5+", "+5", "5.5+3", "5+2.5", "-3", "0", "1e9", "0+0"})
        EXPECT_NE(refused(bad), "read") << bad;
}

TEST(Athlete, APlanEndsWithItsLastDay) {
    constexpr double today = 46000;
    EXPECT_EQ(plan_on(today, "easy", {}), DayPlan::easy) << "until it is changed";
    EXPECT_EQ(plan_on(today, "easy", today), DayPlan::easy) << "the last day is one of it";
    EXPECT_EQ(plan_on(today, "easy", today - 1), DayPlan::full);
    EXPECT_EQ(plan_on(today, "Technik", today + 1), DayPlan::technique) << "in any language";
    EXPECT_EQ(plan_on(today, " ", {}), DayPlan::full);
    EXPECT_EQ(plan_on(today, "tired", {}), DayPlan::not_today) << "nobody can read it: the most careful";
}

TEST(Athlete, SaysWhatIsWrongInTheRoster) {
    EXPECT_EQ(refusal("Mara Lindqvarn | elite"), "row 1, column 2: there is no division \"elite\" in the workout.");
    EXPECT_EQ(refusal("Mara Lindqvarn | scaled | | slow"),
              "row 1, column 4: there is no pace group \"slow\" in the workout.");
    EXPECT_EQ(refusal("Mara Lindqvarn | scaled | ready"),
              "row 1, column 3: the plan for the day \"ready\" is not known: choose one from the list.");
    EXPECT_EQ(refusal("Mara Lindqvarn | scaled | | | | maybe"),
              "row 1, column 6: the answer \"maybe\" is not known: choose one from the list.");
    EXPECT_EQ(refusal("Mara Lindqvarn | scaled | | | | | 1"),
              "row 1, column 1: the name \"Mara Lindqvarn\" is on the roster twice: add an initial.");
    const std::string keys = "name | division | goal\n";
    EXPECT_EQ(refusal("Mara Lindqvarn | scaled", tide(), tests_text, "name | division | golf\n"),
              "row 1, column 3: the key \"golf\" is not known over the roster.");
    EXPECT_EQ(refusal("Mara Lindqvarn | scaled", tide(), tests_text, "name | division | name\n"),
              "row 1, column 3: the key \"name\" is there twice.");
    EXPECT_EQ(refusal("Mara Lindqvarn", tide(), tests_text, "name | goal\n"),
              "The key \"division\" is missing over the roster. Was a column deleted?");
    const auto unequal = read_athlete(tide(), table(tests_text), table(keys), table("Mara Lindqvarn | scaled\n"));
    EXPECT_REFUSED(unequal);
}

TEST(Athlete, ATestIsTakenUpToItsBoundsAndRefusedBeyond) {
    struct Bounds {
        std::string key;
        std::string too_low, lowest, highest, too_high;
    };
    const Bounds all[] = {{"ski.critical", "19.9", "20", "900", "900.1"},
                          {"ski.reserve", "499", "500", "80000", "80001"},
                          {"ski.date", "0.9", "1", "200000", "200001"},
                          {"ski.time", "0:19", "0:20", "4:00:00", "4:00:01"},
                          {"ski.calories", "0.9", "1", "5000", "5001"},
                          {"longest", "0.9", "1", "999", "1000"},
                          {"max", "0.9", "1", "999", "1000"},
                          {"rep_s", "0:00.09", "0:00.1", "600", "601"},
                          {"recovery", "0.29", "0.3", "3", "3.01"},
                          {"factor", "0.79", "0.8", "1.2", "1.21"},
                          {"factor_sd", "0.0009", "0.001", "1", "1.01"},
                          {"result.share", "0.09", "0.1", "1", "1.01"},
                          {"result.sd", "0.0009", "0.001", "1", "1.01"},
                          {"result.calh", "300", "301", "5000", "5001"},
                          {"result.time", "0:19", "0:20", "4:00:00", "4:00:01"}};
    for (const auto& one : all) {
        const auto with_value = [&](const std::string& value) {
            return refusal("Mara Lindqvarn | scaled", tide(),
                           "name | " + one.key + "\nName | Ring rows\nMara Lindqvarn | " + value + "\n");
        };
        for (const auto& value : {one.lowest, one.highest, std::string{"0"}, std::string{}})
            EXPECT_EQ(with_value(value), "read") << one.key << " " << value; // 0: a formula whose cell is blank
        for (const auto& value : {one.too_low, one.too_high, std::string{"many"}})
            EXPECT_NE(with_value(value).find("row 3, column 2: this test"), std::string::npos)
                << one.key << " " << value << ": " << with_value(value);
    }
}

TEST(Athlete, SaysWhatIsWrongInTheTests) {
    const auto row = "Mara Lindqvarn | scaled";
    EXPECT_EQ(refusal(row, tide(), tests_text + "mara  lindqvarn | 200\n"),
              "row 3, column 1 and row 5, column 1: the tests have the name \"Mara Lindqvarn\" twice.");
    EXPECT_EQ(refusal("Teo Osterby | scaled", tide(), tests_text + "mara  lindqvarn | 200\n"), "read");
    EXPECT_EQ(refusal(row, tide(), with(tests_text, "190", "19")),
              "row 3, column 2: this test of \"Mara Lindqvarn\" cannot be read: a number from 20 to 900 is needed.");
    EXPECT_EQ(refusal(row, tide(), with(tests_text, "ski.date", "ski.day")),
              "row 1, column 4: the key \"ski.day\" is not known over the tests.");
    EXPECT_EQ(refusal(row, tide(), with(tests_text, "ski.date", "ski.time")),
              "row 1, column 5: the key \"ski.time\" is there twice over the tests.");
    const auto other =
        value_of(read(row, tide(), with(tests_text, "cal | Sandbags | Sandbags", "cal | Sacks | Sacks")));
    ASSERT_EQ(other.notes.size(), 1u);
    EXPECT_EQ(other.notes[0].message(), "Tests: \"Sacks\" is not a movement of this workout.");
    EXPECT_EQ(refusal(row, tide(), "name | ski.day\nName |\n"), "read") << "nobody was tested";
    // Nothing is missing where every movement has tests; an ergometer is none.
    const auto all =
        value_of(read(row, tide(),
                      "name | longest | longest | longest | longest\n"
                      "Name | Sandbags | Box step-overs | Ring rows | Sacks\nMara Lindqvarn | 9 | 9 | 9 | 9\n"));
    EXPECT_TRUE(all.notes.empty());
}

TypedGoal goal_of(const std::string& goal, const Workout& workout) {
    return *value_of(read("Mara Lindqvarn | scaled | | | " + goal, workout)).goal;
}

// In a workout for time a number below four hours, as part of a day, is a time; any other is rounds.
TEST(Athlete, AGoalForTimeAtTheEdges) {
    const auto five = timed();
    EXPECT_EQ(goal_of("0.0069444444444444", five).kind, TypedGoal::Kind::time);
    EXPECT_NEAR(goal_of("0.0069444444444444", five).time.value(), 600, 1e-6);
    EXPECT_EQ(goal_of("0.17", five).kind, TypedGoal::Kind::rounds);
    EXPECT_NE(refusal("Mara Lindqvarn | scaled | | | 0.165", five).find("a time up to the cap"), std::string::npos);
    EXPECT_NE(refusal("Mara Lindqvarn | scaled | | | 0", five).find("0.1 to 200 rounds"), std::string::npos);
    EXPECT_EQ(goal_of("17:00", five).time, Seconds{1020});
    EXPECT_EQ(goal_of("0:01", five).time, Seconds{1});
    for (const auto* bad : {"17:01", "0:00", "5.01", "5+1", "5 + Sandbags"})
        EXPECT_NE(refusal(std::string("Mara Lindqvarn | scaled | | | ") + bad, five), "read") << bad;
    EXPECT_EQ(goal_of("5+0", five).rounds, 5) << "all of it";
    EXPECT_EQ(goal_of("5", five).rounds, 5);
    EXPECT_EQ(goal_of("4 + Sandbags", five).kind, TypedGoal::Kind::station);
    EXPECT_EQ(goal_of("Sandbags", five).station, 1u) << "of the first round";
    EXPECT_EQ(goal_of("4+31", five).reps, 31);
    EXPECT_NE(refusal("Mara Lindqvarn | scaled | | | 4+32", five), "read") << "12 + 6 + 8 + 6";
}

TEST(Athlete, AShareOfTheTeamsWork) {
    const std::string keys = "name | division | share | team_plan\n";
    const auto pair = value_of(
        read_workout(table(with(std::string{block::tide_table}, "steps     |", "team | Team | 2\nsteps     |"))));
    const auto share = [&](const std::string& typed) {
        const auto result = read("Mara Lindqvarn | scaled | " + typed, pair, tests_text, keys);
        return result ? result->share.value_or(-1) : 0;
    };
    EXPECT_EQ(share("0.4"), 0.4);
    EXPECT_EQ(share("40"), 0.4) << "per cent";
    EXPECT_EQ(share("1.5"), 0.015);
    EXPECT_EQ(share(""), -1);
    for (const auto* bad : {"0", "-0.1", "100", "150", "half"})
        EXPECT_EQ(share(bad), 0) << bad;
    const auto alone = value_of(read("Mara Lindqvarn | scaled | 0.4 | not a plan", tide(), tests_text, keys));
    EXPECT_FALSE(alone.share) << "nobody shares";
    EXPECT_FALSE(alone.team);
}

TEST(Athlete, AConsentIsADate) {
    const std::string keys = "name | division | minor | consent\n";
    EXPECT_TRUE(read("Mara Lindqvarn | scaled | yes | 46300", tide(), tests_text, keys));
    EXPECT_NE(refusal("Mara Lindqvarn | scaled | yes | 0", tide(), tests_text, keys).find("is the date of it"),
              std::string::npos);
    EXPECT_NE(refusal("Mara Lindqvarn | scaled | yes | given", tide(), tests_text, keys).find("is the date of it"),
              std::string::npos);
}

} // namespace
} // namespace pacecells
