#include "pacecells/text.h"

#include <gtest/gtest.h>

namespace pacecells {
namespace {

TEST(Text, TrimTakesOuterSpacesAway) {
    EXPECT_EQ(trim("  5-4 \t\r\n"), "5-4");
    EXPECT_EQ(trim("\u00A0 2:30\u00A0"), "2:30") << "the no-break space of a web page";
    EXPECT_EQ(trim(" \u00A0 "), "");
    EXPECT_EQ(trim(""), "");
    EXPECT_EQ(trim("a b"), "a b");
}

TEST(Text, FoldMakesOptionsAlike) {
    EXPECT_EQ(fold("  Row   CAL "), "row cal");
    EXPECT_EQ(fold("row\u00A0cal"), "row cal");
    EXPECT_EQ(fold("\tW\n"), "w");
    EXPECT_EQ(fold("   "), "");
    EXPECT_EQ(fold("Ä"), "Ä") << "letters beyond A to Z stay as they are";
}

TEST(Text, FoldingTwiceChangesNothing) {
    for (const char* text : {"  Bike  M ", "", "\u00A0\u00A0", "x\u00A0 \u00A0y"})
        EXPECT_EQ(fold(fold(text)), fold(text));
}

TEST(Text, QuotedCutsLongTextBetweenCharacters) {
    EXPECT_EQ(pacecells::quoted("5-"), "\"5-\"");
    EXPECT_EQ(pacecells::quoted(std::string(1000, 'a')), '"' + std::string(40, 'a') + "...\"");
    EXPECT_EQ(pacecells::quoted(std::string(39, 'a') + "\u00E9tc"), '"' + std::string(39, 'a') + "...\"");
    EXPECT_EQ(pacecells::quoted(std::string(100, '\x80')), "\"...\"") << "no character starts here";
}

TEST(Text, PlainNumbersAreAsPeopleWriteThem) {
    EXPECT_EQ(plain_number(" 7 "), 7);
    EXPECT_EQ(plain_number("7,5"), 7.5);
    EXPECT_EQ(plain_number("-0.25"), -0.25);
    for (const char* text : {"", " ", "7 5", "7+5", "7:30", "seven", "1,5,5", "1e999"})
        EXPECT_FALSE(plain_number(text)) << text;
}

TEST(Text, NumbersInMessagesAreShort) {
    EXPECT_EQ(number_text(2.5), "2.5");
    EXPECT_EQ(number_text(1200), "1200");
    EXPECT_EQ(number_text(-1.0 / 3), "-0.333333");
    EXPECT_EQ(number_text(1e300), "1e+300");
}

} // namespace
} // namespace pacecells
