// Cells of the wall's table of goals: which goals it has, and the rates that they need.
#pragma once

#include "reader.h"

#include "pacecells/athlete_plan.h"
#include "pacecells/workout.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace pacecells {

// Goals for the wall where none are typed: around what is usual, so far apart that the page has room for all (judgement).
struct WallGoals {
    double from = 0;
    double to = 0;
    double step = 0;
    friend bool operator==(const WallGoals&, const WallGoals&) = default;
};

[[nodiscard]] Result<WallGoals> wall_goals_of(const Workout& workout, const std::optional<NumberOrText>& from,
                                              const std::optional<NumberOrText>& to,
                                              const std::optional<NumberOrText>& step);

// The divisions whose main ergometer has a rate.
[[nodiscard]] std::vector<std::size_t> rated_divisions(const Workout& workout);
// "SKI scaled"
void add_rate_headings(const Workout& workout, const std::vector<std::size_t>& rated, std::vector<Cell>& headings);
// The rate of a division. A dash where none is fast enough: the other stations leave no time, or so little that nobody
// holds what it takes. Empty text where the goal ends before the ergometer.
[[nodiscard]] Cell need_cell(const Workout& workout, std::size_t division,
                             const std::vector<std::optional<CaloriesPerHour>>& needs);

} // namespace pacecells
