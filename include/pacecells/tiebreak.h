// The moment that a tie-break names, so that a card can show its clock: "clock after the third sandbag station".
//
// A tie-break is a sentence for people. What is looked for in it are the words of a movement and a round: by its number,
// an ordinal, or an amount of that round. Where that is not one moment there is none.
#pragma once

#include "pacecells/athlete_plan.h"
#include "pacecells/workout.h"

#include <cstddef>
#include <optional>

namespace pacecells {

struct TieBreak {
    int round = 1;
    std::optional<std::size_t> station = {}; // of the workout; none: the end of the round
    friend bool operator==(const TieBreak&, const TieBreak&) = default;
};

// Example: "after round 3" is the end of round 3; of 21-15-9, "after the 15 pull-ups" is those of round 2.
[[nodiscard]] std::optional<TieBreak> tiebreak_of(const Workout& workout, std::size_t division);

// What the clock shows then on the way to the goal; none where the goal ends before.
[[nodiscard]] std::optional<Seconds> clock_of(const TieBreak& tiebreak, const GoalLine& line);

} // namespace pacecells
