// The workout in a block of cells: read once and kept as long as its contents stay the same.
//
// Every plan depends on the block, and each cell with a plan asks for it. To read some two thousand cells through the
// office takes longer than a plan, so that the block may carry a seal: a formula in its first row, WORKOUT.SEAL over the
// rows below. The office calculates it again when one of them changes, as it does every formula. Whoever knows the
// workout of a seal reads the first row alone. A block without a seal, or with one of other cells, is read whole.
#pragma once

#include "recorded.h"

#include "pacecells/workout.h"

#include <string>

namespace pacecells {

struct KnownWorkout {
    std::size_t number; // one for each content, as long as the office runs
    Result<WorkoutPointer> workout;
};

[[nodiscard]] Result<KnownWorkout> known_workout(const AreaPointer& block);
[[nodiscard]] Result<WorkoutPointer> workout_in(const AreaPointer& block);
// The language of a block, also of one that cannot be read otherwise.
[[nodiscard]] Language language_of(const AreaPointer& block);

// Text that is the same for the same contents only, like "seal 8a6e0804-2bd0-…"; empty where a cell shows an error.
[[nodiscard]] std::string seal_of(const AreaPointer& rows);

} // namespace pacecells
