#include "pacecells/season.h"

#include "expect.h"

#include <sstream>

namespace pacecells {
namespace {

// One event: "name score", a line a person, all of one division unless it is said.
SeasonEvent event(const std::string& text, Order order = Order::high_wins) {
    SeasonEvent made{.order = order, .results = {}};
    std::istringstream lines{text};
    std::string name;
    double score = 0;
    for (std::string division; lines >> name >> score;) {
        division = "scaled";
        if (name.starts_with("rx."))
            division = "as prescribed";
        made.results.push_back({.name = name, .division = division, .score = score});
    }
    return made;
}

std::string standings(const std::vector<SeasonEvent>& events, const SeasonRules& rules = {}) {
    std::string all;
    for (const auto& row : value_of(season(events, rules)))
        all += std::to_string(row.place) + " " + row.name + " " + std::to_string(row.points) + "\n";
    return all;
}

TEST(Season, PlacesAreAddedUp) {
    const std::vector<SeasonEvent> two{event("Mara 210 Teo 205 Ida 190"),
                                       event("Teo 640 Mara 655 Ida 700", Order::low_wins)};
    EXPECT_EQ(standings(two), "1 Mara 3\n1 Teo 3\n3 Ida 6\n")
        << "alike in all: they share the place, the next is third";
}

TEST(Season, TheBetterBestPlaceBreaksATie) {
    const std::vector<SeasonEvent> three{event("Mara 9 Teo 8 Ida 7"), event("Ida 9 Teo 8 Mara 7"),
                                         event("Jo 9 Teo 8 Mara 7 Ida 6")};
    // Mara 1 + 3 + 3, Teo 2 + 2 + 2, Ida 3 + 1 + 4, Jo 4 + 4 + 1.
    EXPECT_EQ(standings(three), "1 Teo 6\n2 Mara 7\n3 Ida 8\n4 Jo 9\n");
    const std::vector<SeasonEvent> two{event("Mara 9 Teo 8 Ida 7"), event("Ida 9 Teo 8 Mara 7")};
    EXPECT_EQ(standings(two), "1 Ida 4\n1 Mara 4\n3 Teo 4\n") << "1 + 3 before 2 + 2";
}

TEST(Season, OnlyTheBestCount) {
    const std::vector<SeasonEvent> three{event("Mara 9 Teo 8 Ida 7"), event("Teo 9 Mara 8 Ida 7"),
                                         event("Ida 9 Teo 8 Mara 7")};
    EXPECT_EQ(standings(three), "1 Teo 5\n2 Mara 6\n3 Ida 7\n");
    EXPECT_EQ(standings(three, {.best = 1}), "1 Ida 1\n1 Mara 1\n1 Teo 1\n");
    EXPECT_EQ(standings(three, {.best = 2}), "1 Mara 3\n1 Teo 3\n3 Ida 4\n");
    EXPECT_EQ(standings(three, {.best = 9}), standings(three));
    const auto rows = value_of(season(three, {.best = 2}));
    EXPECT_EQ(rows[0].counts, (std::vector<bool>{true, true, false}));
}

TEST(Season, AMissedEventCountsByTheRule) {
    const std::vector<SeasonEvent> two{event("Mara 9 Teo 8 Ida 7"), event("Ida 9 Mara 8")};
    EXPECT_EQ(standings(two, {.missed = Missed::behind_last}), "1 Mara 3\n2 Ida 4\n3 Teo 5\n");
    EXPECT_EQ(standings(two, {.missed = Missed::fixed, .fixed_place = 30}), "1 Mara 3\n2 Ida 4\n3 Teo 32\n");
    EXPECT_EQ(standings(two, {.missed = Missed::nothing}), "1 Mara 3\n2 Ida 4\n3 Teo 2\n")
        << "one place alone does not win a season";
    EXPECT_EQ(standings(two, {.best = 1, .missed = Missed::nothing}), "1 Ida 1\n1 Mara 1\n3 Teo 2\n");
    EXPECT_EQ(value_of(season(two, {})).back().events, 1);
}

TEST(Season, EachDivisionForItself) {
    const std::vector<SeasonEvent> two{event("rx.Jo 300 Mara 210 Teo 205"), event("Teo 9 rx.Jo 8 rx.Al 7 Mara 6")};
    EXPECT_EQ(standings(two), "1 rx.Jo 2\n2 rx.Al 4\n1 Mara 3\n1 Teo 3\n");
    // Nobody as prescribed took part in the third: nobody of them missed it.
    auto three = two;
    three.push_back(event("Mara 9 Teo 8"));
    EXPECT_EQ(standings(three), "1 rx.Jo 2\n2 rx.Al 4\n1 Mara 4\n2 Teo 5\n");
}

TEST(Season, APersonIsKnownByNameHoweverItIsTyped) {
    auto first = event("Mara 9 Teo 8");
    auto second = event("mara 9 Teo 8");
    second.results[0].name = " MARA ";
    const auto rows = value_of(season(std::vector<SeasonEvent>{first, second}, {}));
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].events, 2);
    second.results[1].name = "Mara";
    EXPECT_REFUSED(season(std::vector<SeasonEvent>{second}, {}));
}

TEST(Season, RefusesRulesThatCannotBeMeant) {
    EXPECT_REFUSED(season({}, {.best = -1}));
    EXPECT_REFUSED(season({}, {.fixed_place = 0}));
    EXPECT_TRUE(value_of(season({}, {})).empty());
    EXPECT_REFUSED(
        season(std::vector<SeasonEvent>{{.results = {{.name = "Mara", .division = "", .score = not_a_number}}}}, {}));
}

} // namespace
} // namespace pacecells
