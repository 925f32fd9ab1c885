// A plan for a cell: the workout and the athlete are read from the cells, and a plan is kept as long as their contents
// stay the same. It is known by those contents, never by where they are: rows may be moved, sorted or copied.
#pragma once

#include "reader.h"
#include "recorded.h"
#include "workout_block.h"

#include "pacecells/athlete.h"
#include "pacecells/athlete_plan.h"
#include "pacecells/workout.h"

#include <memory>
#include <string>

namespace pacecells {

struct Planned {
    WorkoutPointer workout;
    Athlete athlete;
    Plan plan;
};

struct PlannedCell {
    std::shared_ptr<const Planned> planned; // none: nobody in this row
    Origin origin;

    [[nodiscard]] bool has_goal() const { return planned && planned->plan.planned; }
    [[nodiscard]] std::string notes() const; // in the workbook's language
};

[[nodiscard]] Result<PlannedCell> plan_in(const AreaPointer& workout, const AreaPointer& tests, const RawCells& keys,
                                          const RawCells& athlete);
[[nodiscard]] Result<PlannedCell> plan_in(const AreaPointer& workout, const AreaPointer& tests, const Table& keys,
                                          const Table& athlete);
[[nodiscard]] Table table_of(const RawCells& range);

// A rate in the unit of the workout; that of a fan bike is always cal/h.
[[nodiscard]] Cell rate_cell(const Workout& workout, Machine machine, CaloriesPerHour rate);

} // namespace pacecells
