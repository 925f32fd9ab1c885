// The HEAT family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/heat.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<Answer> heat_list_cells(RawCells names, Numbers projected, Number lanes, std::optional<DayTime> first_start,
                               std::optional<Duration> every, std::optional<RawCells> groups,
                               std::optional<Whole> row_wanted, std::optional<Whole> column_wanted) {
    if (names.rows > 1 && names.columns > 1)
        return out_of_domain("Names are one column or one row of cells.");
    for (const auto& name : names.cells) // they go out as they came in
        if (const auto* number = std::get_if<double>(&name); number && !std::isfinite(*number))
            return out_of_domain("A name is a text or a number.");
    const auto name_texts = texts(names);
    const auto group_texts = groups ? texts(*groups) : std::vector<std::string>{};
    if (groups && group_texts.size() != name_texts.size())
        return out_of_domain("Groups have as many cells as names.");
    const auto places =
        heat_list(name_texts, projected.values, lanes.value,
                  first_start ? std::optional{Seconds{first_start->days * seconds_a_day}} : std::nullopt,
                  value_or(every, usual_heat_interval), group_texts);
    if (!places)
        return places.error();
    if (places->empty())
        return out_of_domain("There is no name to put into a heat.");
    Range out{static_cast<int>(places->size()), 5, {}};
    for (const auto& place_given : *places) {
        out.cells.push_back(to_cell(static_cast<double>(place_given.heat)));
        out.cells.push_back(to_cell(static_cast<double>(place_given.lane)));
        out.cells.push_back(to_cell(place_given.start));
        out.cells.push_back(names.cells[place_given.athlete]);
        out.cells.push_back(place_given.judge ? names.cells[*place_given.judge] : Cell{Blank{}});
    }
    return pick(std::move(out), row_wanted, column_wanted);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&heat_list_cells>("heatList", "HEAT.LIST",
                          "Heats in order: heat, lane, start, name and judge, in five columns.",
                          {{"names", "Names; blanks are skipped."},
                           {"projected", "Projected scores beside them; blanks rank lowest."},
                           {"lanes", "Lanes in a heat."},
                           {"first_start", "Time of day of the first heat; without it there are no starts."},
                           {"every", "Time from start to start.", usual_heat_interval},
                           {"groups", "Groups beside the names; each has heats of its own."},
                           {"row", "Row wanted; all if left out."},
                           {"column", "Column wanted: 1 heat, 2 lane, 3 start, 4 name, 5 judge; all if left out."}},
                          "lanes whole, above 0; projected and groups as long as names. One error among the scores is "
                          "Err:504 for the whole "
                          "list: hand over a column with =IFERROR(score;\"\") instead.",
                          practice, {"{\"Ann\"|\"Bo\"|\"Cy\"};{80|95|70};2;;;;1;4", "Cy"}),
};

} // namespace

std::span<const Row> heat_rows() { return rows; }

} // namespace pacecells
