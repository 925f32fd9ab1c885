// What an announcement says besides its stations, and for whom: small texts whose reading is plain.
#include "pacecells/announcement.h"

#include "expect.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {
namespace {

Announcement reading(const std::string& text) { return read_announcement(text); }

using Loads = std::vector<std::optional<double>>;

bool any_mark(const Announcement& read, MarkKind kind) {
    return std::ranges::any_of(read.marks, [&](const Mark& mark) { return mark.kind == kind; });
}

TEST(AnnouncementSettings, AllWorkWhereverTheTeamIsNamed) {
    for (const auto* text :
         {"teams of 3, all work, AMRAP 10: 5 burpees", "all work, teams of 3, AMRAP 10: 5 burpees",
          "AMRAP 10: 5 burpees, all work, 3 person teams", "alle arbeiten, 3er-Teams, AMRAP 10: 5 burpees",
          "todos trabajan, equipos de 3, AMRAP 10: 5 burpees", "tous travaillent, équipes de 3, AMRAP 10: 5 burpees"}) {
        const auto read = reading(text);
        EXPECT_EQ(read.team, 3) << text;
        EXPECT_EQ(read.at_once, 3) << text;
        EXPECT_TRUE(read.marks.empty()) << text;
    }
    EXPECT_EQ(reading("both work, in pairs, AMRAP 10: 5 burpees").at_once, 2);
    const auto both_said = reading("one works, all work, teams of 3, AMRAP 10: 5 burpees");
    EXPECT_EQ(both_said.at_once, 1) << "what was said first";
    EXPECT_TRUE(any_mark(both_said, MarkKind::asked));
    const auto alone = reading("all work, AMRAP 10: 5 burpees");
    EXPECT_EQ(alone.team, 1);
    EXPECT_TRUE(any_mark(alone, MarkKind::asked)) << "more than there are";
}

TEST(AnnouncementSettings, ANumberOfSomethingInBracketsIsNoLoad) {
    const auto read = reading("AMRAP 10: 5 burpees (slow, 3 dips)");
    ASSERT_EQ(read.stations.size(), 1u);
    EXPECT_EQ(read.stations[0].amounts, std::vector<std::string>{"5"});
    EXPECT_EQ(read.stations[0].loads, Loads{std::nullopt});
    EXPECT_TRUE(any_mark(read, MarkKind::not_understood));
    for (const auto* text :
         {"AMRAP 10: 5 cleans (45/30)", "AMRAP 10: 5 cleans (45 men, 30 women)", "AMRAP 10: 5 cleans (heavy, 45/30)"})
        EXPECT_EQ(reading(text).stations.at(0).loads, (Loads{45, 30})) << text;
    EXPECT_EQ(reading("AMRAP 10: 5 cleans (45").stations.at(0).loads, Loads{45}) << "a bracket that nobody closed";
}

TEST(AnnouncementSettings, ATitleIsBetweenQuotationMarks) {
    EXPECT_EQ(reading("\"\" \"Harbour\" AMRAP 10: 5 burpees").title, "Harbour") << "nothing is no title";
    const auto last = reading("AMRAP 10: 5 burpees, \"Harbour\"");
    EXPECT_EQ(last.title, "Harbour");
    EXPECT_EQ(last.stations.size(), 1u);
    EXPECT_EQ(reading("AMRAP 10: 5 burpees \"Harbour").title, "") << "it does not end";
}

// A window of no length, or of hours: no other length is taken for it, and the time of all windows is asked about too.
TEST(AnnouncementSettings, WindowsThatCannotBe) {
    for (const std::string_view digits : {"0", "999", "1111111111", "11111111111"}) {
        const auto window = "E" + std::string(digits) + "MOM";
        const auto text = window + " 10: 5 burpees";
        const auto read = reading(text);
        EXPECT_FALSE(read.every || read.windows || read.cap) << text;
        for (const auto& part : {window, std::string("10")})
            EXPECT_TRUE(std::ranges::any_of(read.marks, [&](const Mark& mark) {
                return mark.kind == MarkKind::asked &&
                       text.substr(mark.range.from, mark.range.to - mark.range.from) == part;
            })) << text;
    }
    EXPECT_EQ(reading("EMOM 10: 5 burpees").every, Seconds{60});
}

// One setting after the other, with nothing between them.
TEST(AnnouncementSettings, FollowEachOther) {
    EXPECT_EQ(reading("E2MOM 20 in turn: 10 cal row, 5 burpees").windows, 10);
    EXPECT_EQ(reading("E2MOM 20 in turn: 10 cal row, 5 burpees").in_turn, true);
    EXPECT_EQ(reading("E2MOM x 10 in turn: 10 cal row, 5 burpees").in_turn, true);
    EXPECT_EQ(reading("teams of 3 all work, AMRAP 10: 5 burpees").at_once, 3);
    const auto expect_intervals = [](const std::string& text, int windows, double work, double rest) {
        const auto read = reading(text);
        EXPECT_EQ(read.format, Format::intervals) << text;
        EXPECT_EQ(read.windows, windows) << text;
        EXPECT_EQ(read.work.value_or(Seconds{0}).value(), work) << text;
        EXPECT_EQ(read.rest.value_or(Seconds{0}).value(), rest) << text;
    };
    expect_intervals("1 min x 10 rest 30 s: 5 burpees", 10, 60, 30);
    expect_intervals("40 s work x 8 rest 20 s: 5 burpees", 8, 40, 20);
    expect_intervals("8 x 20 s of rest, 40 s of work: 5 burpees", 8, 40, 20);
    expect_intervals("5 burpees, rest 30 s, 1 min x 10", 10, 60, 30);
    expect_intervals("3 x 5 min - AMRAP, rest 1 min: 5 burpees", 3, 300, 60);
    expect_intervals("3 x 5 min of AMRAP, rest 1 min: 5 burpees", 3, 300, 60);
    EXPECT_EQ(reading("every 1 s x 1: 1 burpee").cap, Seconds{1});
}

TEST(AnnouncementSettings, AmountsOfEachAtTheEnd) {
    EXPECT_EQ(reading("AMRAP 10: thrusters 12/10").stations.at(0).amounts, (std::vector<std::string>{"12", "10"}));
    EXPECT_EQ(reading("AMRAP 10: 5 thrusters @ 40/30").stations.at(0).loads, (Loads{40, 30}));
    EXPECT_EQ(reading("AMRAP 10: thrusters 12/").stations.at(0).amounts, std::vector<std::string>{"12"});
}

// Two dumbbells are their sum: 30 lb are 13.6 kg (0.45359237 kg each).
TEST(AnnouncementSettings, SeveralWeightsAreTheirSum) {
    EXPECT_EQ(reading("AMRAP 10: 8 lunges 2 x 16 kg").stations.at(0).loads, Loads{32});
    EXPECT_EQ(reading("AMRAP 10: 8 lunges 2 x 15 lb").stations.at(0).loads, Loads{13.6});
    EXPECT_EQ(reading("AMRAP 10: 8 lunges 2 x 16/2 x 12 kg").stations.at(0).loads, (Loads{32, 24}));
    const auto metres = reading("AMRAP 10: 5 lunges 2 x 400 m");
    EXPECT_EQ(metres.stations.at(0).loads, Loads{std::nullopt});
    EXPECT_TRUE(any_mark(metres, MarkKind::not_understood));
}

TEST(AnnouncementSettings, AUnitBehindAHyphen) {
    for (const auto* text : {"AMRAP 10: 400-m run", "AMRAP 10: run 400-m", "AMRAP 10: run 400 m"}) {
        EXPECT_EQ(reading(text).stations.at(0).unit, Unit::run_m) << text;
        EXPECT_EQ(reading(text).stations.at(0).amounts, std::vector<std::string>{"400"}) << text;
    }
}

TEST(AnnouncementSettings, AColonAtTheEndIsFollowedByNothing) {
    const auto read = reading("AMRAP 10: 5 burpees, Harbour steps:");
    EXPECT_EQ(read.stations.size(), 1u);
    EXPECT_TRUE(any_mark(read, MarkKind::not_understood));
    EXPECT_EQ(reading("EMOM 6: 5 burpees, minute 2:").in_turn, true);
    const auto plank = reading("AMRAP 10: 5 burpees, plank 1:00");
    EXPECT_EQ(plank.stations.at(1).amounts, std::vector<std::string>{"60"});
    EXPECT_EQ(plank.stations.at(1).unit, Unit::hold);
}

// A letter for either, in the letters of each language: men and women, Männer und Frauen, hombres y mujeres, hommes et
// femmes.
TEST(AnnouncementSettings, LettersSayWhoseLoadItIs) {
    for (const auto* loads :
         {"40 kg m / 30 kg w", "40 kg M/30 kg W", "40 kg m / 30 kg f", "40 kg m, 30 kg w", "40 kg (m) / 30 kg (w)",
          "m 40 kg / w 30 kg", "m: 40 kg / w: 30 kg", "(m = 40 kg, w = 30 kg)", "@ m 40 kg, w 30 kg", "40/30 kg m/w",
          "40 kg h / 30 kg f", "40 kg h / 30 kg m", "h 40 kg / m 30 kg", "40/30 kg h/m", "30 kg m / 40 kg h"}) {
        const auto read = reading(std::string("AMRAP 10: 12 thrusters ") + loads);
        ASSERT_EQ(read.stations.size(), 1u) << loads;
        EXPECT_EQ(read.stations[0].movement, "thrusters") << loads;
        EXPECT_EQ(read.stations[0].amounts, (std::vector<std::string>{"12", "12"})) << loads;
        const bool women_first = read.divisions == std::vector<std::string>{"women", "men"};
        EXPECT_EQ(read.stations[0].loads, women_first ? (Loads{30, 40}) : (Loads{40, 30})) << loads;
        EXPECT_EQ(read.divisions.size(), 2u) << loads;
        EXPECT_TRUE(women_first || read.divisions == (std::vector<std::string>{"men", "women"})) << loads;
        EXPECT_TRUE(read.marks.empty()) << loads;
    }
    EXPECT_EQ(reading("AMRAP 1 h: 12 thrusters 40 kg m / 30 kg w").stations.at(0).loads, (Loads{40, 30}))
        << "an hour is nobody";
    const auto calories = reading("AMRAP 10: 12 cal m / 10 cal w row, 5 burpees");
    EXPECT_EQ(calories.stations.at(0).amounts, (std::vector<std::string>{"12", "10"}));
    EXPECT_EQ(calories.stations.at(0).movement, "row");
    EXPECT_EQ(reading("AMRAP 10: 5 plan f jumps").stations.at(0).movement, "plan f jumps");
    EXPECT_EQ(reading("AMRAP 10: 400 m run, 5 burpees").stations.at(0).amounts, std::vector<std::string>{"400"});
}

// A list of its own is the scheme of stations without amounts; where there are none, all of it is asked about.
TEST(AnnouncementSettings, AListThatNoStationUsesIsMarkedWithItsUnit) {
    for (const std::string list : {"2-4 reps", "2-4", "2-4 rounds"}) {
        const std::string text = "for time, cap 10:00: 5 burpees, 6 dips\n" + list;
        const auto read = reading(text);
        EXPECT_TRUE(std::ranges::any_of(read.marks, [&](const Mark& mark) {
            return mark.kind == MarkKind::asked &&
                   text.substr(mark.range.from, mark.range.to - mark.range.from) == list;
        })) << list;
    }
}

} // namespace
} // namespace pacecells
