// Where a plan in a cell came from, and why it says what it says.
#pragma once

#include "cells.h"

#include "pacecells/reasons.h"
#include "pacecells/workout.h"

#include <memory>
#include <optional>
#include <vector>

namespace pacecells {

using WorkoutPointer = std::shared_ptr<const Workout>;

// Where the tables of a plan are.
struct Origin {
    AreaPointer workout;
    AreaPointer tests;
    std::vector<int> tests_rows; // of each row that the model was given

    // Of the cells that are part of an area; keys and athlete are not.
    [[nodiscard]] std::optional<Area::Address> address(const Place& place) const;
    // With cells of the areas by their names.
    [[nodiscard]] Said located(Said said) const;
    [[nodiscard]] Error located(Error error) const;
};

// What the last function asked was about, and why the plan that it took its answer from says what it says.
struct Recorded {
    struct About {
        Fact fact;
        std::optional<std::size_t> station;
    };
    std::optional<About> about;
    Origin origin;
    WorkoutPointer workout;
    Reasons reasons;
};

// For Explain: while it lives, a plan on its thread is made again and its reasons are kept, by the same code.
class Recording {
  public:
    explicit Recording(Recorded& into);
    ~Recording();
    Recording(const Recording&) = delete;
    Recording& operator=(const Recording&) = delete;
};

// What a function's answer is about, told to a recording if there is one.
void answer_is_about(Fact fact, std::optional<std::size_t> station = {});

} // namespace pacecells
