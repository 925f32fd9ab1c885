// How clocks and goals lie on the pages of the wall. Nine rows and nine columns are what the paper holds (judgement).
#include "wall_cells.h"

#include "block.h"
#include "expect.h"

#include <set>
#include <string>

namespace pacecells {
namespace {

Workout with_stations(int count, const std::string& format) {
    return value_of(read_workout(block::of_stations(count, format + "\nfade | 0\nslip_s | 0")));
}

double number_in(const Cell& cell) {
    const auto* number = std::get_if<double>(&cell);
    return number ? *number : -1;
}

std::string text_in(const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    return text ? *text : "";
}

// Every station is in one heading of the two pages, and a page is never larger than its paper.
void expect_all(const HeadedTable& table, std::size_t stations) {
    std::multiset<std::string> moves;
    for (int page = 1; page <= clock_pages; ++page) {
        const auto part = clock_page(table, page);
        EXPECT_LE(part.headings.size(), 9u);
        EXPECT_LE(part.rows.rows, 9);
        EXPECT_EQ(part.rows.columns, static_cast<int>(part.headings.size()));
        for (const auto& heading : part.headings)
            if (text_in(heading).starts_with("Move"))
                moves.insert(text_in(heading));
    }
    EXPECT_EQ(moves.size(), stations);
    EXPECT_EQ(std::set(moves.begin(), moves.end()).size(), stations) << "each once";
}

TEST(WallPages, HaveEveryStationOfAListDoneOnce) {
    for (const int count : {1, 6, 8, 9, 12}) {
        const auto on = with_stations(count, "format | time\ncap | 20:00");
        ASSERT_TRUE(goes_once(on, 0));
        const auto table = value_of(clocks_by_goal(on, 0, {240, 300, 360}));
        expect_all(table, static_cast<std::size_t>(count));
        const auto second = clock_page(table, 2);
        EXPECT_EQ(second.rows.rows, count > 8 ? 3 : 0);
        EXPECT_EQ(clocks_title(on, 300, true, table, 2).empty(), count <= 8);
        const auto last = count > 8 ? second : clock_page(table, 1);
        for (int row = 0; row < 3; ++row)
            EXPECT_NEAR(number_in(last.rows.at(row, 0)), number_in(last.rows.at(row, last.rows.columns - 1)), 1e-9)
                << "the last clock is the goal, beside it on either page";
    }
    const auto on = with_stations(12, "format | time\ncap | 20:00");
    const auto table = value_of(clocks_by_goal(on, 0, {300}));
    EXPECT_EQ(clock_page(table, 1).headings.size(), 7u) << "six stations on each";
    EXPECT_EQ(clock_page(table, 2).headings.size(), 7u);
    EXPECT_EQ(clocks_title(on, 300, true, table, 2), "Clock after each station (2 of 2)");
}

TEST(WallPages, HaveEveryStationOfARound) {
    for (const int count : {1, 6, 8, 9, 12}) {
        const auto on = with_stations(count, "format | amrap\ncap | 30:00");
        const auto table = value_of(clocks_of(on, 0, 3));
        expect_all(table, static_cast<std::size_t>(count));
        EXPECT_EQ(clock_page(table, 2).rows.rows, count >= 8 ? 3 : 0) << "with the clock they are one more";
    }
    const auto on = with_stations(7, "format | amrap\ncap | 30:00");
    EXPECT_EQ(clocks_title(on, 3, false, value_of(clocks_of(on, 0, 3)), 1), "Clock for goal 3");
}

// The first column, also of what goes on beside it.
std::vector<double> numbered(const HeadedTable& table, int columns) {
    std::vector<double> all;
    for (int page = 1; page <= clock_pages; ++page) {
        const auto part = clock_page(table, page);
        EXPECT_LE(part.rows.rows, 9);
        EXPECT_LE(part.rows.columns, 9);
        for (int band = 0; band < part.rows.columns; band += columns)
            for (int row = 0; row < part.rows.rows; ++row)
                if (number_in(part.rows.at(row, band)) > 0)
                    all.push_back(number_in(part.rows.at(row, band)));
    }
    return all;
}

std::vector<double> up_to(int last) {
    std::vector<double> all;
    for (int i = 1; i <= last; ++i)
        all.push_back(i);
    return all;
}

TEST(WallPages, HaveEveryRoundOrSayWhich) {
    const auto on = with_stations(3, "format | amrap\ncap | 60:00"); // five columns: nothing beside them
    for (const int goal : {1, 9, 10, 18})
        EXPECT_EQ(numbered(value_of(clocks_of(on, 0, goal)), 5), up_to(goal));
    EXPECT_EQ(numbered(value_of(clocks_of(on, 0, 25)), 5),
              (std::vector<double>{2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 25}));
    const auto few = with_stations(2, "format | amrap\ncap | 60:00"); // two times four columns
    const auto table = value_of(clocks_of(few, 0, 12));
    EXPECT_EQ(numbered(table, 4), up_to(12));
    EXPECT_EQ(clocks_title(few, 12, false, table, 1), "Clock for goal 12") << "one page";
    EXPECT_EQ(numbered(value_of(clocks_of(few, 0, 36)), 4), up_to(36));
}

// The ergometer's rate for each goal from 5:00 on, by minutes; 0: no time for it.
double shown_of(const Workout& on, const std::vector<std::optional<double>>& rates) {
    std::vector<WallRow> rows(rates.size());
    for (std::size_t i = 0; i < rates.size(); ++i)
        rows[i].needs = {rates[i] ? std::optional{CaloriesPerHour{*rates[i]}} : std::nullopt, CaloriesPerHour{0}};
    return usual_wall_goal(on, {300, 300 + 60 * (static_cast<double>(rates.size()) - 1), 60}, rows) / 60;
}

TEST(WallPages, ShowAGoalThatSomebodyMakes) {
    auto on = with_stations(3, "format | time\ncap | 20:00");
    EXPECT_EQ(shown_of(on, {900, 700, 500}), 6) << "the second";
    EXPECT_EQ(shown_of(on, {0, 0, 0, 500}), 8) << "the first with a rate";
    EXPECT_EQ(shown_of(on, {{}, {}, {}}), 6) << "no ergometer on the way";
    EXPECT_EQ(shown_of(on, {700, 0, 0}), 5) << "more rounds than the first are too many";
    EXPECT_EQ(shown_of(on, {0, 0, 0}), 6) << "nobody makes any";
    EXPECT_EQ(shown_of(on, {0}), 5);
    on.settings.wall_most = 600;
    EXPECT_EQ(shown_of(on, {900, 700, 500}), 7) << "700 is more than anybody holds here";
}

TEST(WallPages, NameTheStationOfEachWindowInTurn) {
    const auto on = with_stations(12, "format | intervals\nevery_s | 60\nwindows | 24\nin_turn | yes");
    const auto table = clocks_in_turn(on, value_of(clocks_of(on, 0, 24)));
    EXPECT_EQ(numbered(table, 3), up_to(24));
    const auto part = clock_page(table, 1);
    EXPECT_EQ(text_in(part.headings[1]), "STATION");
    EXPECT_EQ(text_in(part.rows.at(2, 1)), "Move 3");
    EXPECT_EQ(text_in(part.rows.at(0, 4)), "Move 9") << "eight windows below each other";
    EXPECT_NEAR(number_in(part.rows.at(2, 2)), 140.0 / 86400, 1e-9) << "20 s into the third";
    EXPECT_EQ(clocks_title(on, 24, false, table, 2), "");
}

TEST(WallPages, SayWhatIsLeftOut) {
    HeadedTable table{{}, {13, 1, std::vector<Cell>(13, Cell{1.0})}};
    EXPECT_EQ(goals_note(table, Language::en), "The page has room for 9 of 13 goals: choose a larger step.");
    table.rows.cells[10] = std::string("–");
    EXPECT_EQ(goals_note(table, Language::en).find("No rate"), std::string::npos) << "not on the page";
    table.rows = {2, 1, {Cell{1.0}, Cell{std::string("–")}}};
    EXPECT_TRUE(goals_note(table, Language::en).starts_with("– No rate"));
    table.rows = {1, 1, {Cell{1.0}}};
    EXPECT_EQ(goals_note(table, Language::en), "");
}

} // namespace
} // namespace pacecells
