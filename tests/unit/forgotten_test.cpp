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

} // namespace
} // namespace pacecells
