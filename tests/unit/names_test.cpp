#include "pacecells/names.h"

#include "pacecells/words.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace pacecells {
namespace {

using Places = std::vector<std::size_t>;

TEST(Names, TheSameByRuleAreNotAskedAbout) {
    const NameList list{std::vector<std::string>{"Mara Lindqvarn", "Teo Osterby", "", "José Brandel"}};
    for (const auto* typed : {"Mara Lindqvarn", "  mara   LINDQVARN ", "Mara\u00A0Lindqvarn"}) {
        const auto match = list.find(typed);
        EXPECT_EQ(match.same, Places{0}) << typed;
        EXPECT_TRUE(match.sure());
        EXPECT_TRUE(match.nearly.empty());
        EXPECT_FALSE(nearly_same_name(typed, "Mara Lindqvarn"));
    }
    EXPECT_EQ(list.find("JOSÉ brandel").same, Places{3});
    EXPECT_TRUE(list.find("").same.empty()) << "a blank row is nobody";
    EXPECT_TRUE(list.find(" ").nearly.empty());
}

TEST(Names, NearlyTheSameAreAskedAbout) {
    const NameList list{std::vector<std::string>{"José Brandel", "Jürgen Weißmoor", "Ana-Lena Tiefental"}};
    for (const auto* typed : {"Jose Brandel", "Brandel José", "Brandel, Jose", "José Brendel", "José Brandell",
                              "José Bradel", "José Barndel", "José Brandle"}) {
        const auto match = list.find(typed);
        EXPECT_FALSE(match.sure());
        EXPECT_EQ(match.nearly, Places{0}) << typed;
    }
    EXPECT_EQ(list.find("Juergen Weissmoor").nearly, Places{1});
    EXPECT_TRUE(nearly_same_name("Mueller Baecker-Oehm", "Müller Bäcker Öhm"));
    EXPECT_TRUE(nearly_same_name("Jo Lis", "Jo Lus")) << "five letters";
    EXPECT_TRUE(nearly_same_name("Quellmann Al", "Quellmann Ab")) << "a word of two";
    EXPECT_EQ(list.find("Jurgen Weissmoor").nearly, Places{1});
    EXPECT_EQ(list.find("Ana Lena Tiefental").nearly, Places{2});
    EXPECT_EQ(list.find("Analena Tiefental").nearly, Places{2});
}

TEST(Names, OtherPeopleAreNot) {
    const auto other = [](const char* a, const char* b) {
        EXPECT_FALSE(nearly_same_name(a, b)) << a << " / " << b;
        EXPECT_FALSE(nearly_same_name(b, a)) << a << " / " << b;
    };
    other("José Brandel", "Joséfa Brandel");     // two letters
    other("José Brandel", "Jorge Brandel");      // two letters
    other("José Brandel", "José");               // a word less
    other("Jo Li", "Jo Lu");                     // too short for a slip
    other("Ida Quellmann A", "Ida Quellmann B"); // told apart on purpose
    other("Ida Quellmann 1", "Ida Quellmann 2");
    other("Ida Quellmann", "Ida Quellmann B");
    other("Mara Lindqvarn", "Teo Osterby");
}

TEST(Names, TwoPeopleOfOneNameAreBothShown) {
    const NameList list{std::vector<std::string>{"Ida Quellmann", "Teo Osterby", "ida  quellmann"}};
    const auto match = list.find("Ida Quellmann");
    EXPECT_EQ(match.same, (Places{0, 2}));
    EXPECT_FALSE(match.sure());
}

TEST(Names, AreNearToEachOtherBothWays) {
    const std::vector<std::string> names{"Søren Ågard", "Soren Agard", "Agard Soren", "Sören Aagard", "Maël Dùpont",
                                         "Mael Dupond", "Łucja Żak",   "Lucja Zak",   "Zak Lucya",    "Ann Ott"};
    for (const auto& a : names)
        for (const auto& b : names) {
            EXPECT_EQ(nearly_same_name(a, b), nearly_same_name(b, a)) << a << " / " << b;
            EXPECT_FALSE(nearly_same_name(a, b) && same_name(a, b));
        }
}

} // namespace
} // namespace pacecells
