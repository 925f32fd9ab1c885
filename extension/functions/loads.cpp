// ATHLETE.LOADS: what goes on the bar for one person.
#include "family.h"
#include "load_cells.h"
#include "planning.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

void add_cells(const std::vector<TableCell>& from, std::vector<Cell>& to) {
    for (const auto& cell : from)
        if (const auto* number = std::get_if<double>(&cell))
            to.emplace_back(*number);
        else if (const auto* text = std::get_if<std::string>(&cell))
            to.emplace_back(*text);
        else
            to.emplace_back(Blank{});
}

Result<Answer> athlete_loads(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete,
                             std::optional<Whole> row, std::optional<Whole> column, std::optional<Number> weight,
                             std::optional<Text> unit) {
    const auto which = unit ? parse_load_unit(unit->value) : LoadUnit::kilograms;
    if (!which)
        return which.error();
    const Bar bar{*which, value_or(weight, usual_bar(*which))};
    if (!(bar.weight >= 0 && bar.weight <= heaviest_load))
        return out_of_domain("The bar must weigh 0 to %1; got %2.", heaviest_load, bar.weight);
    const auto cell = plan_in(workout, tests, keys, athlete);
    if (!cell)
        return cell.error();
    if (!cell->planned)
        return Answer{Cell{Blank{}}};
    const auto& task = *cell->planned->workout;
    const auto language = task.settings.language;
    const auto lines = load_table(task, cell->planned->athlete, bar);
    if (lines.empty() && value_or(row, 1) > 0)
        return Answer{Cell{Blank{}}};
    Range table{static_cast<int>(lines.size()), load_columns, {}};
    for (const auto& line : lines)
        add_cells(load_cells(task, line, bar, language), table.cells);
    std::vector<Cell> headings;
    add_cells(load_headings(bar, language), headings);
    return part_of(std::move(headings), std::move(table), row, column);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&athlete_loads>(
        "athleteLoads", "ATHLETE.LOADS",
        "What goes on the bar for an athlete: a row for each movement with a load, with loads at shares of the "
        "maximum.",
        {{"workout", "The block of the workout: the range named workout."},
         {"tests", "Everybody's tests: the range named tests; found by name."},
         {"keys", "The row of keys over the athletes."},
         {"athlete", "The row of the athlete, as wide as the keys."},
         {"row", "Row wanted, 0 for the headings; all rows if left out."},
         {"column", "Column wanted: 1 movement, 2 maximum, 3 reps per round, 4 load, 5 its share of the maximum, 6 "
                    "each side of the bar, 7 reps unbroken, 8 the heaviest for these reps, 9 to 18 loads at 50 to 90% "
                    "of the maximum with each side, 19 what to fix; all if left out."},
         {"bar", "Weight of the bar, 0 for the plates alone; the usual bar if left out."},
         {"unit", "\"kg\" or \"lb\".", "kg"}},
        "Loads go in steps of 2.5 kg or 5 lb. Empty without a name, for those who are not here today, and where "
        "nothing "
        "has a load.",
        "Reps: between Brzycki 1993 and Epley 1985, which differ, most beyond 10 reps; a person may be a quarter off. "
        "The "
        "heaviest load for the reps, plates and bars: common practice, no source.",
        {"workout;tests;B$1:H$1;B2:H2;0;4", "Load, kg"}),
};

} // namespace

std::span<const Row> load_rows() { return rows; }

} // namespace pacecells
