// Pairs and teams whose people are known: who does how much, how fast they are together, how long a turn is.
//
// Each person has a plan of one's own; what it must know of the others is in one TeamPart. It comes from a first plan of
// each, in which the partners have the same pace; nothing is repeated until it agrees. With it the plans of all people of
// a team have the same clocks, goal and range.
//
// Who does how much: the shares of the workout (split), in the order of the roster; without them all the same reps; split
// any way ("any"): as many as make everybody work equally long.
//
// Seconds of the team for a unit of a station: the time of the shortest schedule in which at most m people work at once
// and nobody at two things,
//   T = max(longest own time, sum of all times / m),   own time = share x seconds of a unit,
// the longest own time with the pauses between own sets. Source: R. McNaughton, "Scheduling with deadlines and loss
// functions", Management Science 6 (1959), theorem 3.1, from memory; lecture notes on preemptive scheduling print the same
// formula. Changing over takes no time (judgement).
// Example: two people who take 2 s and 4 s a rep, one at a time, half of the reps each: 3 s for each rep of the team.
#pragma once

#include "pacecells/athlete_plan.h"
#include "pacecells/scheme.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

inline constexpr Seconds longest_turn{60}; // where no longest set is known (judgement)

// The shares of the workout as they are typed, adding up to 1; none where they are not numbers.
[[nodiscard]] std::vector<double> typed_shares(std::string_view split);

struct Member {
    const Athlete* athlete = nullptr; // without a part of a team
    const Plan* plan = nullptr;       // of that athlete
};
// One for each. Domain: people of one team, in the order of the roster, whose plans have a goal. Fewer than two are no
// team: nothing.
[[nodiscard]] std::vector<TeamPart> team_parts(const Workout& workout, std::span<const Member> members);
// The athlete with it; goal and answer become those of the team.
void join(Athlete& athlete, TeamPart part);
// All of it for the people of one team. Who has no full plan for the day, or no plan at all, is left out.
void join_team(const Workout& workout, std::span<Athlete> people);

// As text for a cell, and back; none where the text is no part of a team in a workout of so many stations.
[[nodiscard]] std::string team_part_text(const TeamPart& part);
[[nodiscard]] std::optional<TeamPart> parse_team_part(std::string_view text, std::size_t stations);

// What one person does at a station in the first round with work there: all of it or, where partners wait for their turn
// (one at a time), in turns: the sets, else equal turns of at most longest_turn. Running and carrying is done in one go.
struct Turns {
    std::size_t station = 0;      // of the workout
    double part = 0;              // whole units
    std::optional<Scheme> scheme; // none: in one go
    Seconds longest{0};           // the first turn, the longest
};
// By station in working order, of those with work for this person that are shared.
[[nodiscard]] std::vector<Turns> turns_of(const Workout& workout, const Plan& plan);

} // namespace pacecells
