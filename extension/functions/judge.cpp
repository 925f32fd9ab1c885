// HEAT.SHEET: the table of a judge's sheet, cell by cell.
#include "family.h"
#include "judge_cells.h"
#include "workout_division.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<std::string> heat_sheet(AreaPointer workout, NumberOrText division, Count row, Count column,
                               std::optional<CountNumber> goal) {
    const auto in = division_of(workout, division);
    if (!in)
        return in.error();
    if (row.value < 0 || column.value < 0)
        return out_of_domain("Rows and columns of a judge's sheet are whole numbers from 0.");
    return judge_cell(*in->workout, in->division, row.value, column.value, value_or(goal, 0.0));
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&heat_sheet>("heatSheet", "HEAT.SHEET",
                     "A cell of a judge's sheet: stations, and the running count by the end of each in every round.",
                     {{"workout", "The block of the workout: the range named workout."},
                      {"division", "Name of the division."},
                      {"row", "Row wanted: 0 the headings, then the stations."},
                      {"column", "Column wanted: 0 the stations, then the rounds."},
                      {"goal", "Goal in rounds; the sheet has two rounds more. All of them if it is 0.", 0}},
                     "The workout must be complete: WORKOUT.CHECK says what is missing.", arithmetic,
                     {"workout;\"scaled\";0;2;6", "R2"}),
};

} // namespace

std::span<const Row> judge_rows() { return rows; }

} // namespace pacecells
