// The table of a judge's sheet: the running count as a judge counts aloud, station by station and round by round.
#pragma once

#include "pacecells/workout.h"

#include <cstddef>
#include <string>

namespace pacecells {

// Reps counted by the end of a station of a round; each window of intervals by itself.
[[nodiscard]] double running_count(const Workout& workout, std::size_t division, int round, std::size_t station);

inline constexpr int judge_columns = 12, judge_lines = 12; // below the headings; what half a page holds (judgement)

// Column 0 has the stations, line 0 the headings; empty where there is nothing, a space where the judge writes. Rounds up to
// the goal and two more, all where it is 0. A workout of one round has a column for clocks. Stations in turn have a column
// for each time that they come round. Rounds beyond the last column go on below, where there is room for all of them;
// otherwise the line below the stations, or the first heading where no line is left, says which rounds are not there.
[[nodiscard]] std::string judge_cell(const Workout& workout, std::size_t division, int line, int column, double goal);

} // namespace pacecells
