#include "pacecells/forgotten.h"

#include "pacecells/heat_log.h"

#include <gtest/gtest.h>

namespace pacecells {
namespace {

TEST(Forgotten, NoLineOfALogIsAboutThePerson) {
    const std::string log =
        heat_line("Tide", 2) + start_line(10, "run", 1000, 1020) + lane_line(1, "Mara Lindqvarn") +
        lane_line(2, "Teo Osterby") +
        set_line({.range = "results_clocks", .athlete = "Mara Lindqvarn", .column = 0, .value = 0.002}) +
        set_line({.range = "results_clocks", .athlete = "Teo Osterby", .column = 0, .value = 0.003}) +
        name_line("Mara Lindqvarn", "Mara Lindqvarn A") +
        set_line({.range = "results_clocks", .athlete = "Mara Lindqvarn A", .column = 1, .value = 0.004}) + end_line();
    const auto without = log_without(log, "mara  LINDQVARN a");
    EXPECT_EQ(without.find("Lindqvarn"), std::string::npos) << without;
    const auto read = read_heat_log(without);
    ASSERT_TRUE(read);
    EXPECT_TRUE(read->ended);
    EXPECT_EQ(read->heat, 2);
    EXPECT_EQ(read->lanes, (std::vector<std::string>{"", "Teo Osterby"}));
    EXPECT_EQ(read->cells.size(), 1u);
    EXPECT_EQ(log_without(log, "Ida Quellmann"), log) << "who is not in it";
    EXPECT_EQ(log_without("", "Ida Quellmann"), "");
}

// Teams are in the log by first names, and after the end by what was put right.
TEST(Forgotten, NoTeamAndNoCorrectionNamesThePerson) {
    const auto fixed = [](const std::string& who, const std::string& by) {
        return fix_line({.change = {.range = "results_clocks", .athlete = who, .column = 0, .value = 0.003},
                         .before = 0.002,
                         .day = 1.7e9,
                         .who = by});
    };
    const std::string log =
        heat_line("Tide", 1) + lane_line(1, "3: Milo + Paloma") + lane_line(2, "4: Milos + Ada") +
        lane_line(3, "MILO + Runa") + lane_line(4, "Milo Hargrisle") + lane_line(5, "5: Milo") +
        lane_line(6, "Milo Tide") +
        set_line({.range = "results_clocks", .athlete = "3: Milo + Paloma", .column = 0, .value = 0.002}) +
        name_line("3: Milo + Paloma", "3: Milo + Paloma + Jon") + end_line() + fixed("Milo Hargrisle", "Ada") +
        fixed("3: Paloma + milo", "milo hargrisle") + fixed("Ada Brimsole", "Ada");
    EXPECT_EQ(log_without(log, "milo hargrisle"),
              heat_line("Tide", 1) + lane_line(1, "3: Paloma") + lane_line(2, "4: Milos + Ada") + lane_line(3, "Runa") +
                  lane_line(6, "Milo Tide") +
                  set_line({.range = "results_clocks", .athlete = "3: Paloma", .column = 0, .value = 0.002}) +
                  name_line("3: Paloma", "3: Paloma + Jon") + end_line() + fixed("3: Paloma", "") +
                  fixed("Ada Brimsole", "Ada"));
    EXPECT_EQ(log_without(log, "Ida Quellmann"), log);
}

} // namespace
} // namespace pacecells
