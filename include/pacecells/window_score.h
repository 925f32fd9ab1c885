// The score of intervals, from what was counted in the windows.
#pragma once

#include "pacecells/result.h"
#include "pacecells/workout.h"

#include <cstddef>
#include <string_view>
#include <vector>

namespace pacecells {

// Judgement: what is faster was typed wrong.
inline constexpr Seconds fastest_rep{0.17};           // of any movement
inline constexpr CaloriesPerHour fastest_rate{5'000}; // of any machine

// The most that a window can come to: the points of its amounts; where a station is as many as fit, what nobody is faster
// than in the time to work. 0: the division has nothing to do in it.
// Domain: division of the workout, window from 1.
[[nodiscard]] double most_in_window(const Workout& workout, std::size_t division, int window);

struct WindowScore {
    double score = 0;            // the lowest window, or the sum of all, as the workout says
    std::vector<double> windows; // as typed; empty where the score alone is
};

// "15 14 14 13": reps of each window that has work, in order, with blanks, commas or plus signs between; or one number, the
// score itself. Refused: no intervals, other than whole reps, as many numbers as are not windows, and more reps than fit.
// Example: "15 14 14 13" is 13 where the lowest window counts, 56 where all do.
[[nodiscard]] Result<WindowScore> window_score(const Workout& workout, std::size_t division, std::string_view typed);

} // namespace pacecells
