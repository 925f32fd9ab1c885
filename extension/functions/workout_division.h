// A workout and one of its divisions, as cells name them.
#pragma once

#include "reader.h"
#include "workout_block.h"

#include <cstddef>
#include <optional>

namespace pacecells {

struct InDivision {
    WorkoutPointer workout;
    std::size_t division = 0;
};

// A blank cell, which is a 0 when it is handed over alone.
[[nodiscard]] bool names_none(const NumberOrText& division);

// The first division if left out.
[[nodiscard]] Result<InDivision> division_of(const AreaPointer& workout, const std::optional<NumberOrText>& name);

} // namespace pacecells
