// What a result comes to, from what was typed of it.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/workout.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace pacecells {

struct TypedResult {
    std::span<const Seconds> clocks = {}; // of the rounds done
    std::string_view reps = {};           // of the open round; of intervals of each window, or the score alone
    std::optional<Seconds> finish = {};   // for time
    std::optional<double> reps_left = {}; // for time: not done at the cap
};

struct ReadResult {
    double reps = 0;                  // what an AMRAP or intervals rank by
    std::optional<Seconds> time = {}; // what a workout for time ranks by
    std::string text = {};            // "5+20", "10:32", "CAP+23", "148"
};

// AMRAP: the rounds done and the reps of the open one. For time: the finish, or the reps left, which count where both are
// typed. Intervals: see window_score. None where nothing of that is typed.
// Domain: clocks that increase up to the cap; whole reps, fewer than the open round has, not more left than there are;
// a finish up to the cap.
// Example: two clocks and 6 reps at 28 per round are "2+6", 62 reps.
[[nodiscard]] Result<std::optional<ReadResult>> read_result(const Workout& workout, std::size_t division,
                                                            const TypedResult& typed);

} // namespace pacecells
