// Cells: times and dates at the edges of what is taken for one.
#include "pacecells/table.h"
#include "pacecells/text.h"

#include <gtest/gtest.h>

namespace pacecells {
namespace {

TEST(Table, BeyondItsCellsIsBlank) {
    const Table one{.rows = 1, .columns = 2, .cells = {1.0, 2.0}};
    EXPECT_EQ(one.at(0, 1), TableCell{2.0});
    EXPECT_TRUE(is_blank(one.at(0, 2)));
    EXPECT_TRUE(is_blank(one.at(1, 0)));
}

// Below an hour a number is a part of a day; from 0.17 on it is seconds; between nobody can tell.
TEST(Table, SecondsAsNumbersOrAsTimes) {
    EXPECT_EQ(cell_seconds(2.5), Seconds{2.5});
    EXPECT_EQ(cell_seconds(0.5), Seconds{0.5});
    EXPECT_EQ(cell_seconds(0.17), Seconds{0.17});
    EXPECT_EQ(cell_seconds(0.18), Seconds{0.18});
    EXPECT_FALSE(cell_seconds(0.169));
    EXPECT_FALSE(cell_seconds(0.043)) << "62 minutes";
    EXPECT_FALSE(cell_seconds(1.0 / 24));
    EXPECT_NEAR(cell_seconds(0.041)->value(), 0.041 * 86400, 1e-9) << "59 minutes";
    EXPECT_NEAR(cell_seconds(0.001)->value(), 86.4, 1e-9);
    EXPECT_EQ(cell_seconds(0.0), Seconds{0});
    EXPECT_EQ(cell_seconds(std::string{"1:30"}), Seconds{90});
}

// The first and the last day that Calc shows as one of four digits of year, counted from 1899-12-30.
TEST(Table, DatesOfNumbers) {
    EXPECT_EQ(date_text(1), "1899-12-31");
    EXPECT_EQ(date_text(0), "0");
    EXPECT_EQ(date_text(46356), "2026-11-30");
    EXPECT_EQ(date_text(2'958'465), "9999-12-31");
    EXPECT_EQ(date_text(2'958'466), number_text(2'958'466)) << "no date";
}

} // namespace
} // namespace pacecells
