// Lists of names as people send them.
#include "pacecells/announcement.h"

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

namespace pacecells {
namespace {

constexpr std::string_view kinds[] = {"not understood", "asked", "taken", "converted"};

std::string described(const AnnouncedNames& names, std::string_view text) {
    std::string all;
    for (const auto& person : names.people)
        all += person.name + (person.division.empty() ? "" : " = " + person.division) + "\n";
    for (const auto& mark : names.marks)
        all += "! " + std::string(kinds[static_cast<std::size_t>(mark.kind)]) + ": " +
               std::string(text.substr(mark.range.from, mark.range.to - mark.range.from)) + "\n";
    return all;
}

TEST(AnnouncedNames, LinesCommasAndDivisions) {
    const auto read = [](std::string_view text, std::vector<std::string> divisions = {}) {
        return described(read_names(text, divisions), text);
    };
    EXPECT_EQ(read("Ada Brunn\nOlle Tarvik (scaled)\n3. Mira Quist\tFrauen\n- Jon Wexel, men\n"),
              "Ada Brunn\nOlle Tarvik = scaled\nMira Quist = Frauen\nJon Wexel = men\n");
    EXPECT_EQ(read("Ada Brunn, Olle Tarvik; Mira Quist [women], Jon Wexel"),
              "Ada Brunn\nOlle Tarvik\nMira Quist = women\nJon Wexel\n");
    EXPECT_EQ(read("Ada Brunn (blue)"), "Ada Brunn = blue\n! asked: blue\n");
    EXPECT_EQ(read("Ada Brunn (Blue)", {"blue", "red"}), "Ada Brunn = Blue\n");
    EXPECT_EQ(read("Ada Brunn\nOlle\nADA  BRUNN"), "Ada Brunn\nOlle\nADA  BRUNN\n! asked: ADA  BRUNN\n");
    EXPECT_EQ(read("Ada Brunn\nTarvik, Olle"), "Ada Brunn\nTarvik\nOlle\n! taken: Tarvik, Olle\n");
    EXPECT_EQ(read("Ada\n12345, Olle"), "Ada\nOlle\n! taken: 12345, Olle\n! not understood: 12345\n");
    EXPECT_EQ(read(" \n,;\n"), "");
    EXPECT_EQ(read("a1\nz2\nA3\nZ4\n\u00e9\n12345"), "a1\nz2\nA3\nZ4\n\u00e9\n! not understood: 12345\n");
    EXPECT_EQ(read("-Ada Brunn\n*Olle\n\u2022Jon\n. Mira"), "Ada Brunn\nOlle\nJon\n. Mira\n");
    EXPECT_EQ(read("Ada Brunn\t\nOlle"), "Ada Brunn\nOlle\n");
    EXPECT_EQ(read("Ada (blue, dark), Olle [red; light]"),
              "Ada = blue, dark\nOlle = red; light\n! asked: blue, dark\n! asked: red; light\n");
    EXPECT_EQ(read("Tarvik, Olle\n \n"), "Tarvik\nOlle\n") << "one line alone is a list";
    EXPECT_EQ(read("Tarvik, Olle\nAda"), "Tarvik\nOlle\nAda\n! taken: Tarvik, Olle\n");
    EXPECT_EQ(read("(Ada)"), "(Ada)\n");
    EXPECT_EQ(read("10. Ada Brunn\n9) Olle Tarvik\n* Mira Quist\n\u2022 Jon Wexel\n\u2013 Nele Harp"),
              "Ada Brunn\nOlle Tarvik\nMira Quist\nJon Wexel\nNele Harp\n");
    EXPECT_EQ(read("Ada Brunn, men, Olle Tarvik, women, Mira Quist"),
              "Ada Brunn = men\nOlle Tarvik = women\nMira Quist\n");
    EXPECT_EQ(read("7 Ada Brunn\n8\tOlle Tarvik"), "Ada Brunn\nOlle Tarvik\n");
}

TEST(AnnouncedNames, ACommaInBracketsSeparatesNobody) {
    for (const auto* text : {"Ilka Moor (scaled, late)", "Ilka Moor (scaled (new), late)", "Ilka Moor) (scaled, late)"})
        EXPECT_EQ(read_names(text).people.size(), 1u) << text;
}

TEST(AnnouncedNames, InAWorkoutForTeamsPeopleBesideEachOtherAreOne) {
    const auto read = [](std::string_view text, bool teams = true) {
        std::string all;
        for (const auto& person : read_names(text, {}, teams).people)
            all += person.name + (person.division.empty() ? "" : " = " + person.division) + " / " + person.team + "\n";
        return all;
    };
    EXPECT_EQ(read("Bela Ostrevan + Goran W.\nKestrels: Ivo & Hedda (scaled)\nOdo + Runa+Cora"),
              "Bela Ostrevan / 1\nGoran W. / 1\nIvo = scaled / Kestrels\nHedda = scaled / Kestrels\n"
              "Odo / 2\nRuna / 2\nCora / 2\n");
    EXPECT_EQ(read("Ada Brunn\nTwo Herons:\n+ Jon"), "Ada Brunn / \nJon / 1\n");
    EXPECT_EQ(read("Bela + Goran", false), "Bela + Goran / \n");
    EXPECT_EQ(read("Ada +\nBela ++ Goran"), "Ada / 1\nBela / 2\nGoran / 2\n");
    EXPECT_TRUE(read_names("Bela ++ Goran", {}, true).marks.empty());
}

TEST(AnnouncedNames, AnotherWordForADivision) {
    const std::vector<std::string> divisions{"M\u00e4nner", "Frauen", "as prescribed, men", ""};
    EXPECT_EQ(meant_division("frauen", divisions), "Frauen");
    EXPECT_EQ(meant_division("w", divisions), "Frauen");
    EXPECT_EQ(meant_division("men", divisions), "M\u00e4nner");
    EXPECT_EQ(meant_division("rx", divisions), std::nullopt) << "only a part of a name";
    EXPECT_EQ(meant_division("", divisions), std::nullopt);
    EXPECT_EQ(meant_division("blue", divisions), std::nullopt);
    EXPECT_EQ(meant_division("rx", std::vector<std::string>{"prescribed", "as prescribed"}), std::nullopt) << "two";
}

} // namespace
} // namespace pacecells
