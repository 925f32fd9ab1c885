#include "pacecells/workout.h"

#include "pacecells/running_heat.h"

#include "block.h"
#include "expect.h"

#include <algorithm>
#include <clocale>
#include <cwctype>
#include <string>
#include <vector>

namespace pacecells {
namespace {

using block::table;
using block::tide_table;
using block::with;

const std::string tide{tide_table};

Workout read(const std::string& text) { return value_of(read_workout(table(text))); }

// The sentence of a refusal; it must name a cell or what to do.
std::string refusal(const std::string& text) {
    const auto result = read_workout(table(text));
    return result ? "read" : result.error().message();
}

TEST(Workout, ReadsATaskAsTheSheetHoldsIt) {
    const Workout workout = read(tide);
    EXPECT_EQ(workout.settings.format, Format::amrap);
    EXPECT_EQ(workout.settings.cap.value(), 17 * 60);
    EXPECT_FALSE(workout.settings.rounds) << "an empty cell is no number";
    ASSERT_EQ(workout.divisions.size(), 2u);
    EXPECT_EQ(workout.divisions[1].name, "scaled");
    ASSERT_EQ(workout.stations.size(), 4u) << "the fifth row is spare";
    const auto& bags = workout.stations[1];
    EXPECT_EQ(bags.movement, "Sandbags");
    EXPECT_EQ(bags.amount(0, 3, {}), 6);
    EXPECT_EQ(bags.divisions[1].load, 30);
    EXPECT_EQ(bags.usual_rate, 5);
    EXPECT_TRUE(bags.grip);
    EXPECT_EQ(workout.stations[0].movement, "ski cal") << "without a name the unit";
    EXPECT_EQ(workout.stations[0].handling.value(), 4);
    EXPECT_EQ(workout.machines[1], 4);
    EXPECT_EQ(workout.main_ergometer(0), 0u);
    EXPECT_TRUE(workout.alike(0));
    EXPECT_FALSE(workout.rounds(0));
}

TEST(Workout, GoalsOfTheWallAreRoundsOrTimesAsTextToo) {
    const auto lowest = [](const std::string& typed) {
        return read(with(tide, "stations", "wall_from | | " + typed + "\nstations")).settings.wall_from.value_or(-1);
    };
    EXPECT_DOUBLE_EQ(lowest("6"), 6);
    EXPECT_DOUBLE_EQ(lowest("6,5"), 6.5);
    EXPECT_DOUBLE_EQ(lowest("13:00"), 780.0 / 86400);
    EXPECT_NE(refusal(with(tide, "stations", "wall_from | | six\nstations")).find("13:00"), std::string::npos);
}

TEST(Workout, BlankRowsAndInsertedColumnsChangeNothing) {
    const Workout plain = read(tide);
    const Workout spread =
        read(with(with(tide, "station   | 3", "  |  |\nstation   | 3"), "group     | middle", "\ngroup | middle"));
    EXPECT_EQ(spread.stations.size(), plain.stations.size());
    EXPECT_EQ(spread.groups.size(), plain.groups.size());
    const Workout headed = read(with(tide, "group     | middle", "label | Pace groups | 7\ngroup | middle"));
    EXPECT_EQ(headed.groups.size(), plain.groups.size());
    // A column in between, without a key.
    std::string wide;
    for (const char c : tide)
        wide += c == '|' ? std::string("|  |") : std::string(1, c);
    const Workout moved = read(wide);
    EXPECT_EQ(moved.stations[3].amount(1, 1, {}), 6);
    EXPECT_EQ(moved.settings.cap, plain.settings.cap);
}

TEST(Workout, WordsAreReadInEveryLanguage) {
    const std::string german = with(with(tide, "| en", "| de"), "| ski cal", "| Ski cal");
    EXPECT_EQ(read(german).settings.language, parse_language("de"));
    const std::string spanish =
        with(with(tide, "| AMRAP", "| por tiempo"), "rounds    | Rounds          |", "rounds |  | 4");
    EXPECT_EQ(read(spanish).settings.format, Format::time);
    EXPECT_EQ(read(spanish).rounds(0), 4);
}

TEST(Workout, SaysWhichKeyIsWrong) {
    EXPECT_EQ(refusal(with(tide, "cap       | Cap             | 17:00\n", "")),
              "Enter the cap as minutes and seconds, such as 18:00.");
    EXPECT_EQ(refusal(with(tide, "format    |", "          |")),
              "The workout has no key \"format\". Was a row deleted?");
    EXPECT_EQ(refusal(with(tide, "rounds    |", "cap       |")), "row 6, column 1: the key \"cap\" is there twice.");
    EXPECT_EQ(refusal(with(tide, "rounds    |", "ruonds    |")),
              "row 6, column 1: the key \"ruonds\" is not known. Was a key typed over?");
    EXPECT_EQ(refusal(with(tide, "| longest", "| lonest")),
              "row 17, column 10: the key \"lonest\" is not known in this row.");
    EXPECT_EQ(refusal(with(tide, "| longest", "|")), "row 17, column 1: the key \"longest\" is missing in this row.");
    EXPECT_EQ(refusal(with(tide, "station   | 3", "          | 3")),
              "row 14, column 3: this row of the workout has no key: copy the row above it, then type.");
    EXPECT_EQ(refusal(with(tide, "end       |", "          |")),
              "The workout has no end: its last key must be \"end\". Was a row deleted?");
    EXPECT_EQ(refusal("Workout | 1\n"), "This is not a workout: its first key must be \"pacecells.workout\".");
}

TEST(Workout, SaysThatTheLayoutIsOfAnotherVersion) {
    EXPECT_NE(refusal(with(tide, "| Layout          | 1", "| | 2")).find("newer version"), std::string::npos);
    EXPECT_NE(refusal(with(tide, "| Layout          | 1", "| | 0")).find("make a new workbook"), std::string::npos);
}

TEST(Workout, SaysWhatIsWrongAtAStation) {
    EXPECT_EQ(
        refusal(with(tide, "| ski cal", "| ski calories")),
        "row 12, column 4: station 1 has the unit \"ski calories\", which is not known: choose one from the list.");
    EXPECT_EQ(refusal(with(tide, "| Sandbags   | rep", "| Sandbags   |")), "row 13, column 4: give station 2 a unit.");
    EXPECT_EQ(refusal(with(tide, "| Ring rows  | rep     |      | 8        | 6",
                           "| Ring rows  | rep     |      |          |")),
              "row 15, column 6: give station 4 an amount.");
    EXPECT_EQ(refusal(with(tide, "pace      | 3  | 3", "pace      | 3  |")),
              "row 20, column 1: station 3: give the usual seconds per rep.");
    EXPECT_EQ(refusal(with(tide, "| as prescribed | scaled", "| Scaled | scaled")),
              "row 11, column 7: there is already a division \"scaled\": give each its own name.");
    EXPECT_EQ(refusal(with(tide, "station   | 4 ", "station   | 3 ")),
              "row 15, column 2: there is already a station 3.");
    const std::string divisions = "divisions |    |            |         |      | as prescribed | scaled |        |\n";
    EXPECT_EQ(refusal(with(with(tide, divisions, ""), "station   | 2 ", divisions + "station   | 2 ")),
              "row 12, column 1: the key \"divisions\" is not in its part of the workout.")
        << "a station above them was read for none";
    EXPECT_NE(refusal(with(tide, "rep |      | 10 ", "rep |      | 46000 ")).find("made a date of it"),
              std::string::npos);
}

TEST(Workout, SaysWhatIsWrongWithATeam) {
    const auto team = [](const std::string& rows) {
        return refusal(with(tide, "rounds    | Rounds          |", rows));
    };
    EXPECT_EQ(team("team | | 2\nat_once | | 1\nsplit | | 60/40"), "read");
    EXPECT_EQ(team("team | | 2\nsplit | | any"), "read");
    EXPECT_EQ(team("at_once | Working at once | 2"), "row 6, column 3: 2 cannot work at once in a team of 1.");
    EXPECT_EQ(team("split | | 60/40"), "row 6, column 3: a team of one shares nothing: give the people per team.");
    EXPECT_EQ(team("team | | 3\nsplit | | 60/40"), "row 7, column 3: there are 2 shares for a team of 3.");
    EXPECT_EQ(team("team | | 2\nsplit | | 60/50"), "row 7, column 3: the shares add up to 110, not to 100.");
    EXPECT_EQ(team("team | | 2\nsplit | | sixty/40"), "row 7, column 3: write the shares of the team such as 60/40.");
    EXPECT_EQ(refusal(with(with(tide, "| AMRAP", "| intervals"), "rounds    | Rounds          |",
                           "windows | | 8\nevery_s | | 60\nteam | | 2")),
              "read");
}

// Rep schemes ------------------------------------------------------------------------------------------------------

std::vector<double> first_rounds(std::string_view text, int count) {
    const Amounts amounts = value_of(parse_amounts(text));
    std::vector<double> got;
    for (int k = 1; k <= count; ++k)
        got.push_back(amounts.of_round(k));
    return got;
}

TEST(Amounts, AreTypedAsACoachWritesThem) {
    EXPECT_EQ(first_rounds("21-15-9", 4), (std::vector<double>{21, 15, 9, 0}));
    EXPECT_EQ(first_rounds("1-2-3-…", 5), (std::vector<double>{1, 2, 3, 4, 5}));
    EXPECT_EQ(first_rounds("3-6-9-...", 5), (std::vector<double>{3, 6, 9, 12, 15}));
    EXPECT_EQ(first_rounds("10-9-…-1", 11), (std::vector<double>{10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0}));
    EXPECT_EQ(first_rounds("50 – 40 – 30 – 20 – 10", 5), (std::vector<double>{50, 40, 30, 20, 10})) << "en dashes";
    EXPECT_EQ(first_rounds("12", 3), (std::vector<double>{12, 12, 12}));
    EXPECT_EQ(value_of(parse_amounts("21-15-9")).rounds(), 3);
    EXPECT_EQ(value_of(parse_amounts("10-9-…-1")).rounds(), 10);
    EXPECT_FALSE(value_of(parse_amounts("3-6-9-…")).rounds());
}

TEST(Amounts, AreRefusedWhereTheyHaveNoOneReading) {
    for (const auto* bad : {"", "many", "21-", "-9", "21--9", "1-…", "…", "10-9-…", "10-8-…-1", "1-2-…-…", "1-3-4-…",
                            "21 15 9", "5/5", "1-2-…-9-8", "1-1-…-9"})
        EXPECT_REFUSED(parse_amounts(bad)) << bad;
}

TEST(Amounts, AListThatEndsBelongsToAWorkoutForTime) {
    const std::string sandbags = "| Sandbags   | rep     |      | 6 ";
    EXPECT_NE(refusal(with(tide, sandbags, "| Sandbags | rep | | 21-15-9")).find("ends after 3 rounds"),
              std::string::npos);
    const std::string timed = with(tide, "| AMRAP", "| for time");
    EXPECT_EQ(read(with(timed, sandbags, "| Sandbags | rep | | 21-15-9")).rounds(0), 3);
    EXPECT_NE(refusal(with(with(timed, sandbags, "| Sandbags | rep | | 21-15-9"), "| Ring rows  | rep     |      | 8 ",
                           "| Ring rows | rep | | 4-3-2-1"))
                  .find("station 4 has a list for 4 rounds, but station 2 has one for 3"),
              std::string::npos);
    EXPECT_EQ(read(timed).rounds(0), 1) << "a list of stations, each once";
}

TEST(Workout, FindsAStationByNumberNameOrPartOfIt) {
    const Workout workout = read(tide);
    EXPECT_EQ(value_of(workout.station("2")), 1u);
    EXPECT_EQ(value_of(workout.station("ring rows")), 3u);
    EXPECT_EQ(value_of(workout.station("bags")), 1u);
    EXPECT_REFUSED(workout.station("r")) << "two have one";
    EXPECT_REFUSED(workout.station("9"));
    EXPECT_REFUSED(workout.station(""));
}

std::string utf8(unsigned code) {
    return {static_cast<char>(0xC0 | code >> 6), static_cast<char>(0x80 | (code & 0x3F))};
}

// Against the C library, whose tables come from the Unicode standard.
TEST(Names, HaveTheLowerCaseOfUnicode) {
    ASSERT_NE(std::setlocale(LC_CTYPE, "C.UTF-8"), nullptr);
    struct Letters {
        unsigned from, to;
    };
    for (const auto [from, to] : {Letters{0xC0, 0x17E}, Letters{0x391, 0x3AB}, Letters{0x400, 0x45F}})
        for (unsigned code = from; code <= to; ++code) {
            const auto low = static_cast<unsigned>(std::towlower(static_cast<std::wint_t>(code)));
            EXPECT_EQ(fold_name(utf8(code)), low < 0x80 ? std::string(1, static_cast<char>(low)) : utf8(low))
                << std::hex << code;
        }
    std::setlocale(LC_CTYPE, "C");
}

TEST(Names, AreTheSameWhateverTheirCaseAndSpaces) {
    EXPECT_TRUE(same_name("  Ünal  BRAND ", "ünal brand"));
    EXPECT_TRUE(same_name("Ångström ŁĄCKA", "ångström łącka"));
    EXPECT_TRUE(same_name("ΓΕΩΡΓΙΟΥ", "γεωργιου"));
    EXPECT_FALSE(same_name("Unal", "Ünal")) << "another name";
}

TEST(Workout, EverySettingIsReadByItsKey) {
    const Settings settings =
        read(
            with(
                tide, "steps     | Steps           | 3\n",
                "steps | | 4\nintended_high | | 8\ngym | | Quayside Shed\nannouncement | | 2\nissued | | 0.9\n"
                "first_start | | 0.4\nchangeover | | 5:00\nplaces | | 6\nstep_s | | 0.7\nfade | | 0.05\npush | | 0.04\n"
                "slip_s | | 12\ngoal_step | | 0.5\ngoal_step_time | | 0:15\nshare_work | | 0.7\nshare_rest | | 0.85\n"
                "work_share | | 0.8\nkeep | | 0.2\nrehearsal | | 0.8\nrehearsal_rounds | | 2\ntest_weeks | | 10\n"
                "rate_unit | | W\nwall_from | | 5\nwall_to | | 9\nwall_step | | 1\nwall_most | | 1500\n"))
            .settings;
    EXPECT_EQ(settings.intended_high, 8.0);
    EXPECT_EQ(settings.gym, "Quayside Shed");
    EXPECT_EQ(settings.announcement, 2);
    EXPECT_EQ(settings.issued, 0.9);
    EXPECT_EQ(settings.first_start, 0.4);
    EXPECT_EQ(settings.changeover->value(), 300);
    EXPECT_EQ(settings.places, 6);
    EXPECT_EQ(settings.steps, 4);
    EXPECT_EQ(settings.step_s, 0.7);
    EXPECT_EQ(settings.fade, 0.05);
    EXPECT_EQ(settings.push, 0.04);
    EXPECT_EQ(settings.slip.value(), 12);
    EXPECT_EQ(settings.goal_step, 0.5);
    EXPECT_EQ(settings.goal_step_time.value(), 15);
    EXPECT_EQ(settings.share_work, 0.7);
    EXPECT_EQ(settings.share_rest, 0.85);
    EXPECT_EQ(settings.work_share, 0.8);
    EXPECT_EQ(settings.keep, 0.2);
    EXPECT_EQ(settings.rehearsal, 0.8);
    EXPECT_EQ(settings.rehearsal_rounds, 2);
    EXPECT_EQ(settings.test_weeks, 10);
    EXPECT_EQ(settings.rate_unit, ErgUnit::watts);
    EXPECT_EQ(settings.wall_to, 9.0);
    EXPECT_EQ(settings.wall_step, 1.0);
    EXPECT_EQ(settings.wall_most, 1500.0);
}

// The least and the most that a coach can mean, as the cells of the workbook say it, and what lies just outside.
struct Bounds {
    const char* key;
    const char* inside[2];
    const char* outside[2];
};
constexpr Bounds setting_bounds[] = {
    {"rounds", {"1", "200"}, {"0", "201"}},
    {"windows", {"1", "200"}, {"0", "201"}},
    {"team", {"1", "20"}, {"0", "21"}},
    {"at_once", {"1", "20"}, {"0", "21"}},
    {"announcement", {"1", "99"}, {"0", "100"}},
    {"places", {"1", "99"}, {"0", "100"}},
    {"rehearsal_rounds", {"1", "5"}, {"0", "6"}},
    {"work_s", {"1", "0:01"}, {"0", "0.5"}},
    {"every_s", {"1", "3:59:59"}, {"0", "4:00:00"}},
    {"rest_s", {"0", "3:59:59"}, {"-1", "4:00:00"}},
    {"slip_s", {"0", "0:01"}, {"-1", "4:00:00"}},
    {"changeover", {"0", "3:59:59"}, {"-1", "4:00:00"}},
    {"goal_step_time", {"0:01", "3:59:59"}, {"0", "4:00:00"}},
    {"intended_low", {"0", "200"}, {"-1", "201"}},
    {"intended_high", {"0", "200"}, {"-1", "201"}},
    {"issued", {"0", "1"}, {"-0.01", "1.01"}},
    {"first_start", {"0", "1"}, {"-0.01", "1.01"}},
    {"step_s", {"0", "5"}, {"-0.1", "5.1"}},
    {"fade", {"0", "0.5"}, {"-0.01", "0.51"}},
    {"push", {"0", "0.5"}, {"-0.01", "0.51"}},
    {"goal_step", {"0.1", "5"}, {"0.09", "5.1"}},
    {"share_work", {"0.3", "1"}, {"0.29", "1.01"}},
    {"share_rest", {"0.3", "1"}, {"0.29", "1.01"}},
    {"work_share", {"0.1", "1"}, {"0.09", "1.01"}},
    {"keep", {"0", "0.9"}, {"-0.01", "0.91"}},
    {"rehearsal", {"0.3", "1"}, {"0.29", "1.01"}},
    {"test_weeks", {"1", "104"}, {"0.9", "105"}},
    {"wall_from", {"0", "200"}, {"-1", "201"}},
    {"wall_most", {"300", "5000"}, {"299", "5001"}},
};

TEST(Workout, ASettingIsTakenUpToItsBoundsAndRefusedBeyond) {
    for (const auto& bounds : setting_bounds) {
        const auto row = std::string(bounds.key) + " | " + bounds.key + " | ";
        auto block = tide;
        if (const auto there = block.find("\n" + std::string(bounds.key) + " "); there != std::string::npos)
            block.erase(there + 1, block.find('\n', there + 1) - there);
        const auto said = [&](const char* value) {
            return refusal(with(block, "stations  |", row + value + "\nstations  |"));
        };
        const auto about_it = [&](const std::string& sentence) {
            return sentence.find("\"" + std::string(bounds.key) + "\" must be") != std::string::npos;
        };
        for (const auto* value : bounds.inside)
            EXPECT_FALSE(about_it(said(value))) << said(value);
        for (const auto* value : bounds.outside)
            EXPECT_TRUE(about_it(said(value))) << bounds.key << " " << value << ": " << said(value);
    }
}

TEST(Workout, ACellIsTakenUpToItsBoundsAndRefusedBeyond) {
    struct CellBounds {
        std::string row;   // of the block, as it begins
        std::string other; // with % for the value
        std::vector<const char*> inside, outside;
    };
    const std::string paced = "pace      | 2  | ";
    const CellBounds all[] = {
        {"station   | 2  |", "station | % | Sandbags | rep | | 6 | 6", {"2"}, {"0", "1000", "2.5", "1"}},
        {"station   | 2  |", "station | 2 | Sandbags | rep | | % | 6", {"0", "20000"}, {"-1", "20001"}},
        {"station   | 2  |", "station | 2 | Sandbags | rep | | 6 | 6 | % |", {"0", "999"}, {"-0.1", "999.5"}},
        {paced, "pace | 2 | %", {"0:00.1", "600"}, {"0:00.09", "601"}},
        {"pace      | 1  |", "pace | 1 | | %", {"301", "5000"}, {"300", "5001"}},
        {paced, "pace | 2 | 5 | | | %", {"0:00", "600"}, {"-1", "601"}},
        {paced, "pace | 2 | 5 | | | | %", {"0", "200"}, {"-1", "201"}},
        {paced, "pace | 2 | 5 | | | | | yes | %", {"0", "1"}, {"-0.1", "1.1"}},
        {paced, "pace | 2 | 5 | | | | | yes | | %", {"1", "999"}, {"0.9", "1000"}},
        {paced, "pace | 2 | 5 | | | | | yes | | | %", {"0", "99"}, {"-1", "100"}},
        {"group     | quick", "group | quick | %", {"0.2", "5"}, {"0.19", "5.01"}},
        {"group     | quick", "group | quick | 1 | %", {"0.2", "5"}, {"0.19", "5.01"}},
        {"machine   | ski", "machine | ski | %", {"0", "99"}, {"-1", "100", "1.5"}},
    };
    for (const auto& one : all) {
        const auto said = [&](std::string value) {
            auto block = tide;
            const auto from = block.find("\n" + one.row) + 1;
            block.replace(from, block.find('\n', from) - from, with(one.other, "%", value));
            return refusal(block);
        };
        for (const auto* value : one.inside)
            EXPECT_EQ(said(value), "read") << one.other << " " << value;
        for (const auto* value : one.outside)
            EXPECT_NE(said(value), "read") << one.other << " " << value;
    }
}

TEST(Workout, TheSplitOfAMovementInMetresHasBoundsToo) {
    const auto rowed = with(tide, "| ski cal |      | 14       | 12 ", "| row m | | 500 | 500");
    for (const auto& [pace, good] : {std::pair{"0:30", true}, {"59:59", true}, {"0:29", false}, {"1:00:00", false}})
        EXPECT_EQ(refusal(with(rowed, "| 620  |      | 4 ", std::string("| | ") + pace + " | 4")) == "read", good)
            << pace;
}

TEST(Workout, AStationOfTheFirstOrLastRoundIsDoneThereAlone) {
    const auto at = [](const char* when) {
        return read(
            with(with(with(tide, "| AMRAP\n", "| for time\n"), "rounds    | Rounds          |\n", "rounds | | 3\n"),
                 "rep     |      | 6        | 6 ", std::string("rep     | ") + when + " | 6 | 6 "));
    };
    const auto amounts = [](const Workout& workout) {
        std::vector<double> found;
        const auto station =
            std::ranges::find_if(workout.stations, [](const Station& one) { return one.when != When::every; });
        if (station != workout.stations.end())
            for (int round = 1; round <= 3; ++round)
                found.push_back(station->amount(0, round, 3));
        return found;
    };
    EXPECT_EQ(amounts(at("first round only")), (std::vector{6.0, 0.0, 0.0}));
    EXPECT_EQ(amounts(at("last round only")), (std::vector{0.0, 0.0, 6.0}));
}

TEST(Workout, WhatContradictsItselfIsRefused) {
    const auto has = [](const std::string& text, const char* words) {
        EXPECT_NE(refusal(text).find(words), std::string::npos) << refusal(text);
    };
    has(with(tide, "rep     |      | 6        | 6 ", "rep     | last round only | 6 | 6 "), "last round");
    has(with(tide, "| as prescribed | scaled |", "|  |  |"), "division");
    has(with(tide, "| 620  |", "| 250  |"), "300 cal/h");
    has(with(tide, "cap       | Cap             | 17:00\n", "cap | Cap | 17:00\nslip_s | | 17:00\n"), "before the cap");
    has(with(tide, "cap       | Cap             | 17:00\n", "cap | | 17:00\nshare_work | | 0.95\n"), "hard work");
}

TEST(Workout, ATaskForTimeIsOneOfRounds) {
    const auto timed = value_of(heat_task(
        read(with(with(tide, "| AMRAP\n", "| for time\n"), "rounds    | Rounds          |\n", "rounds | | 5\n"))));
    EXPECT_EQ(timed.format, HeatFormat::for_time);
    EXPECT_EQ(timed.rounds, 5);
}

} // namespace
} // namespace pacecells
