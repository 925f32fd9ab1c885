// Cells of the wall's table of goals: which goals it has, and the rates that they need.
#pragma once

#include "reader.h"

#include "pacecells/athlete_plan.h"
#include "pacecells/workout.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

// Goals for the wall where none are typed: around what is usual, so far apart that the page has room for all (judgement).
struct WallGoals {
    double from = 0;
    double to = 0;
    double step = 0;
    friend bool operator==(const WallGoals&, const WallGoals&) = default;
};

// A goal in a cell: rounds, as a number or a text such as 6.5, or for time seconds. None where nothing is typed, or 0.
[[nodiscard]] Result<std::optional<double>> typed_wall_goal(const Workout& workout, const Cell& cell);

[[nodiscard]] Result<WallGoals> wall_goals_of(const Workout& workout, const std::optional<NumberOrText>& from,
                                              const std::optional<NumberOrText>& to,
                                              const std::optional<NumberOrText>& step);

struct HeadedTable {
    std::vector<Cell> headings;
    Range rows;
};
// What stands below the table of goals: what a dash means, and that the page has no room for all of them.
[[nodiscard]] std::string goals_note(const HeadedTable& table, Language language);

// The goal of a page that has one: the second of those, or the next one that some division has a rate for. rows: their table.
[[nodiscard]] double usual_wall_goal(const Workout& workout, const WallGoals& goals, const std::vector<WallRow>& rows);

// The divisions whose main ergometer has a rate.
[[nodiscard]] std::vector<std::size_t> rated_divisions(const Workout& workout);
// "SKI scaled"
void add_rate_headings(const Workout& workout, const std::vector<std::size_t>& rated, std::vector<Cell>& headings);
// The rate of a division. A dash where none is fast enough: the other stations leave no time, or so little that nobody
// holds what it takes; "any" where the slowest is. Empty text where the goal ends before the ergometer.
[[nodiscard]] Cell need_cell(const Workout& workout, std::size_t division,
                             const std::vector<std::optional<CaloriesPerHour>>& needs);

// --- clocks ------------------------------------------------------------------------------------------------------

[[nodiscard]] bool does(const Workout& workout, std::size_t division, std::size_t station);
// The stations of a division in working order.
[[nodiscard]] std::vector<std::size_t> stations_of(const Workout& workout, std::size_t division);
// For time, each station once: half of a goal stands for half of the workout, and a page has all goals.
[[nodiscard]] bool goes_once(const Workout& workout, std::size_t division);

// The same for every goal.
[[nodiscard]] std::vector<Cell> clock_headings(const Workout& workout, std::size_t division, bool by_goal);
// A row for each round or window: its number, the clock after each station, and the clock at its end.
[[nodiscard]] Result<HeadedTable> clocks_of(const Workout& workout, std::size_t division, double goal);
// A row for each goal: the goal, and the clock after each station; the last is the goal itself.
[[nodiscard]] Result<HeadedTable> clocks_by_goal(const Workout& workout, std::size_t division,
                                                 const std::vector<double>& goals);

// Of stations in turn: window, station and clock, from the table above.
[[nodiscard]] HeadedTable clocks_in_turn(const Workout& workout, const HeadedTable& table);

inline constexpr int clock_pages = 2;
// A page of the wall has nine columns and nine rows. More columns are shared out evenly to the pages, the first on both. More
// rows go beside the others where the columns are few, then to the second page; where that is too little, every second or
// third is listed, and the last. The second page of a table that one page holds is empty.
[[nodiscard]] HeadedTable clock_page(const HeadedTable& table, int page);
// Empty for a page that is.
[[nodiscard]] std::string clocks_title(const Workout& workout, double goal, bool by_goal, const HeadedTable& table,
                                       int page);

} // namespace pacecells
