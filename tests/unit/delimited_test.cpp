// Lists as people paste them.
#include "pacecells/delimited.h"

#include <gtest/gtest.h>

namespace {

using namespace pacecells;

const ColumnNames people{{{"name", "nombre"}, {"division"}, {"goal"}}};

TEST(Delimited, OneNameALine) {
    EXPECT_EQ(delimited_rows("Ida\nBo\r\n\r\n  Cy  \n"), (TextRows{{"Ida"}, {"Bo"}, {"Cy"}}));
    EXPECT_EQ(delimited_rows(""), TextRows{});
    EXPECT_EQ(delimited_rows(" \n;;\n"), TextRows{});
}

TEST(Delimited, TheSeparatorIsTheOneTheFirstLineHasMostOf) {
    EXPECT_EQ(delimited_rows("a;2:30,5\nb;1,5"), (TextRows{{"a", "2:30,5"}, {"b", "1,5"}}));
    EXPECT_EQ(delimited_rows("a,b\nc,d"), (TextRows{{"a", "b"}, {"c", "d"}}));
    EXPECT_EQ(delimited_rows("a\tb, c"), (TextRows{{"a", "b, c"}}));
    EXPECT_EQ(delimited_rows("title\na,b"), (TextRows{{"title"}, {"a", "b"}}));
    EXPECT_EQ(delimited_rows("a, b;c;d"), (TextRows{{"a, b", "c", "d"}}));
    EXPECT_EQ(delimited_rows("a;b\nc,d,e,f"), (TextRows{{"a", "b"}, {"c,d,e,f"}}));
}

TEST(Delimited, QuotedFieldsHoldSeparatorsQuotesAndLineEnds) {
    EXPECT_EQ(delimited_rows("\"Lind, Ida\",\"says \"\"go\"\"\"\n"), (TextRows{{"Lind, Ida", "says \"go\""}}));
    EXPECT_EQ(delimited_rows("\"two\nlines\";x"), (TextRows{{"two\nlines", "x"}}));
    EXPECT_EQ(delimited_rows("\"never closed;x"), (TextRows{{"never closed;x"}}));
    EXPECT_EQ(delimited_rows("\"a\" ;  \"b\"\t; c\"d ;\"\""), (TextRows{{"a", "b", "c\"d", ""}}));
    EXPECT_EQ(delimited_rows("\"a,b,c\";d"), (TextRows{{"a,b,c", "d"}})) << "what is quoted does not count";
    EXPECT_EQ(delimited_rows("\"ends with a quote\"\"\""), (TextRows{{"ends with a quote\""}}));
}

TEST(Delimited, AFormulaIsAText) { EXPECT_EQ(delimited_rows("=1+1;x"), (TextRows{{"=1+1", "x"}})); }

TEST(Delimited, AByteOrderMarkIsNoPartOfTheName) {
    EXPECT_EQ(delimited_rows("\xEF\xBB\xBFName;x"), (TextRows{{"Name", "x"}}));
}

TEST(Columns, AHeadingPutsThemInOrder) {
    const auto table = columns_of({{"Goal", "Shoe size", " NOMBRE "}, {"8", "42", "Ida"}, {"", "", "Bo"}}, people);
    EXPECT_TRUE(table.heading);
    EXPECT_EQ(table.rows, (TextRows{{"Ida", "", "8"}, {"Bo", "", ""}}));
    EXPECT_EQ(table.unknown, std::vector<std::string>{"Shoe size"});
    const auto first = columns_of({{"Shoe size", "Name"}, {"42", "Ida", "more", "and more"}}, people);
    EXPECT_EQ(first.unknown, std::vector<std::string>{"Shoe size"});
    EXPECT_EQ(first.rows, (TextRows{{"Ida", "", ""}})) << "beyond the heading is nothing";
}

TEST(Columns, WithoutOneTheyComeInTheUsualOrder) {
    const auto table = columns_of({{"Ida", "women"}, {"Bo"}, {"Cy", "men", "8", "more"}}, people);
    EXPECT_FALSE(table.heading);
    EXPECT_EQ(table.rows, (TextRows{{"Ida", "women", ""}, {"Bo", "", ""}, {"Cy", "men", "8"}}));
}

TEST(Columns, AnEmptyListHasNone) { EXPECT_TRUE(columns_of({}, people).rows.empty()); }

TEST(Dates, AreReadWhereTheyCanBeButOneDay) {
    const double november = 46356; // 30 November 2026, as Calc counts: 30 December 1899 is day 0
    EXPECT_EQ(typed_date("2026-11-30"), november);
    EXPECT_EQ(typed_date("30.11.2026"), november);
    EXPECT_EQ(typed_date("30.11.26"), november);
    EXPECT_EQ(typed_date("11/30/2026"), november);
    EXPECT_EQ(typed_date("12/11/2026"), std::nullopt);
    EXPECT_EQ(typed_date("11/12/2026"), std::nullopt);
    EXPECT_EQ(typed_date("30/11/2026"), november);
    EXPECT_EQ(typed_date("2/2/2026"), 46055);
    EXPECT_FALSE(typed_date("2/3/2026"));
    EXPECT_FALSE(typed_date("30.11"));
    EXPECT_FALSE(typed_date("30.11."));
    EXPECT_FALSE(typed_date(".11.2026"));
    EXPECT_FALSE(typed_date("30.11.2026.1"));
    EXPECT_FALSE(typed_date("30.11-2026"));
    EXPECT_FALSE(typed_date("30:11:2026"));
    EXPECT_FALSE(typed_date("30.11.02026"));
    EXPECT_EQ(typed_date("31.12.2026"), november + 31);
    EXPECT_EQ(typed_date("12/31/2026"), november + 31);
    EXPECT_EQ(typed_date("13/12/2026"), november + 13);
    EXPECT_EQ(typed_date("12/13/2026"), november + 13);
    EXPECT_EQ(typed_date("12/12/2026"), november + 12);
    EXPECT_FALSE(typed_date("11/12/2026"));
    EXPECT_FALSE(typed_date("32.12.2026"));
    EXPECT_FALSE(typed_date("13/13/2026"));
    EXPECT_EQ(typed_date("9.9.1999"), 36412);
    EXPECT_EQ(typed_date("1.1.100"), -657434) << "the first date of Basic, whose days are counted alike";
    EXPECT_EQ(typed_date("1.1.99"), 72686) << "two digits are of this century: 2099";
    EXPECT_FALSE(typed_date("2026-02-30"));
}

TEST(Dates, NoPartIsCutToFit) { // 267 and 286 are 11 and 30 in a byte
    EXPECT_FALSE(typed_date("2026-267-286"));
    EXPECT_FALSE(typed_date("286.11.2026"));
    EXPECT_FALSE(typed_date("30.267.2026"));
    EXPECT_FALSE(typed_date("2026-0-30"));
    EXPECT_FALSE(typed_date("2026-11-0"));
}

} // namespace
