// The HEAT family: what a cell hands over, and what the model makes of it.
#include "family.h"
#include "planning.h"

#include "pacecells/heat.h"
#include "pacecells/running_heat.h"

#include <algorithm>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<Answer> heat_list_cells(RawCells names, Numbers projected, CountNumber lanes, std::optional<DayTime> first_start,
                               std::optional<Duration> every, std::optional<RawCells> groups,
                               std::optional<Whole> row_wanted, std::optional<Whole> column_wanted,
                               std::optional<RawCells> judges, std::optional<CountNumber> machines,
                               std::optional<AnyTime> later, std::optional<RawCells> teams) {
    if (names.rows > 1 && names.columns > 1)
        return out_of_domain("Names are one column or one row of cells.");
    for (const auto& cells : {names.cells, judges ? judges->cells : names.cells}) // they go out as they came in
        for (const auto& name : cells)
            if (const auto* number = std::get_if<double>(&name); number && !std::isfinite(*number))
                return out_of_domain("A name is a text or a number.");
    const auto name_texts = texts(names);
    const auto group_texts = groups ? texts(*groups) : std::vector<std::string>{};
    if (groups && group_texts.size() != name_texts.size())
        return out_of_domain("Groups have as many cells as names.");
    const auto team_texts = teams ? texts(*teams) : std::vector<std::string>{};
    const auto judge_texts = judges ? texts(*judges) : std::vector<std::string>{};
    // a blank cell is 0, and nobody starts at midnight
    const bool timed = first_start && first_start->days > 0;
    const auto places = heat_list(name_texts, projected.values, lanes.value,
                                  timed ? std::optional{Seconds{first_start->days * seconds_a_day}} : std::nullopt,
                                  value_or(every, usual_heat_interval), group_texts,
                                  judges ? std::optional<std::span<const std::string>>{judge_texts} : std::nullopt,
                                  {machines ? machines->value : 0, value_or(later, Seconds{0})}, team_texts);
    if (!places)
        return places.error();
    const auto& asked = judges ? judges->cells : names.cells;
    Range out{static_cast<int>(name_texts.size()), 7, {}};
    for (const auto& place_given : *places) {
        out.cells.push_back(to_cell(static_cast<double>(place_given.heat)));
        out.cells.push_back(to_cell(static_cast<double>(place_given.lane)));
        out.cells.push_back(to_cell(place_given.start));
        out.cells.push_back(names.cells[place_given.athlete]);
        out.cells.push_back(place_given.judge ? asked[*place_given.judge] : Cell{Blank{}});
        out.cells.push_back(to_cell(place_given.offset));
        out.cells.push_back(to_cell(static_cast<double>(place_given.machine)));
    }
    out.cells.resize(static_cast<std::size_t>(out.rows) * static_cast<std::size_t>(out.columns), Cell{Blank{}});
    return pick(std::move(out), row_wanted, column_wanted);
}

Result<Cell> heat_shared(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells people,
                         std::optional<Whole> index) {
    const int which = value_or(index, 1);
    if (which != 1 && which != 2)
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", 2, which);
    std::vector<std::optional<double>> rounds, on_machine;
    const auto width = static_cast<std::size_t>(people.columns);
    for (std::size_t row = 0; row < static_cast<std::size_t>(people.rows); ++row) {
        const auto person =
            plan_in(workout, tests, keys, {1, people.columns, people.cells.subspan(row * width, width)});
        if (!person || !person->has_goal() || !person->planned->plan.goal || !person->planned->plan.on_machine)
            continue; // what is wrong with a row, the roster says
        const auto& [task, athlete, plan] = *person->planned;
        rounds.emplace_back(plan.goal->target.value());
        // A team is on its machine until all of it is done.
        const auto main = std::ranges::find(plan.stations, *plan.main, &StationPlan::station);
        const double amount = std::ranges::max(main->amounts);
        on_machine.emplace_back(athlete.team ? amount * athlete.team->stations[*plan.main].seconds
                                             : plan.on_machine->value());
    }
    const auto share = share_machines(rounds, on_machine);
    if (!share)
        return share.error();
    return which == 1 ? to_cell(share->people) : to_cell(share->later);
}

// Where the rounds done so far lead. Intervals have no clocks of rounds to go by.
Result<Cell> athlete_forecast(AreaPointer workout, AreaPointer tests, RawCells keys, RawCells athlete, Times clocks,
                              std::optional<Whole> index) {
    const int which = value_or(index, 2);
    if (which < 1 || which > 3)
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", 3, which);
    const auto cell = plan_in(workout, tests, keys, athlete);
    if (!cell)
        return cell.error();
    if (!cell->planned)
        return Cell{Blank{}};
    const auto task = heat_task(*cell->planned->workout);
    if (!task)
        return Cell{Blank{}};
    LaneRecord record;
    for (const auto& clock : clocks.values) {
        if (!clock)
            break;
        record.clocks.push_back(*clock);
    }
    RunningHeat heat(*task);
    const auto lane = heat.add_lane(lane_plan(*cell->planned->workout, cell->planned->plan));
    heat.set_record(lane, std::move(record));
    const auto outlook = heat.outlook(lane);
    const auto& wanted = which == 1 ? outlook.low : which == 2 ? outlook.expected : outlook.high;
    if (!wanted)
        return Cell{Blank{}};
    return task->format == HeatFormat::for_time ? to_cell(Seconds{*wanted}) : to_cell(*wanted);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&heat_list_cells>("heatList", "HEAT.LIST",
                          "Heats in order: heat, lane, start, name, judge, later start and machine, in seven columns; "
                          "as many rows as names, the spare ones blank.",
                          {{"names", "Names; blanks are skipped."},
                           {"projected", "Projected scores beside them; blanks rank lowest."},
                           {"lanes", "Lanes in a heat."},
                           {"first_start", "Time of day of the first heat; without it there are no starts."},
                           {"every", "Time from start to start.", usual_heat_interval},
                           {"groups", "Groups beside the names; each has heats of its own."},
                           {"row", "Row wanted; all if left out."},
                           {"column", "Column wanted: 1 heat, 2 lane, 3 start, 4 name, 5 judge, 6 how much later this "
                                      "lane starts, 7 machine; all if left out."},
                           {"judges", "Names of those who can judge; whoever starts if left out."},
                           {"machines", "How many machines the people of a heat share; one for each if left out."},
                           {"later", "How much later each next person on a machine starts."},
                           {"teams", "Teams beside the names; people of one team share a lane, that of the first."}},
                          "lanes whole, above 0; projected and groups as long as names. One error among the scores is "
                          "Err:504 for the whole "
                          "list: hand over a column with =IFERROR(score;\"\") instead.",
                          practice, {"{\"Ann\"|\"Bo\"|\"Cy\"};{80|95|70};2;;;;1;4", "Cy"}),
    row<&heat_shared>("heatShared", "HEAT.SHARED",
                      "How people of a class share machines: so many on each, and one starts after the other.",
                      {{"workout", "The block of the workout: the range named workout."},
                       {"tests", "Everybody's tests: the range named tests; found by name."},
                       {"keys", "The row of keys over the athletes."},
                       {"people", "The rows of all athletes, as wide as the keys."},
                       {"index", "1 people per machine, 2 how much later each next one starts.", 1}},
                      "People without a plan are left out; 10 s are added for the change of places.", practice,
                      {"workout;tests;B$1:H$1;B2:H2", "2"}),
    row<&athlete_forecast>("athleteForecast", "ATHLETE.FORECAST",
                           "Where the rounds so far lead, with the range: reps at the cap, or for time the time.",
                           {{"workout", "The block of the workout: the range named workout."},
                            {"tests", "Everybody's tests: the range named tests; found by name."},
                            {"keys", "The row of keys over the athletes."},
                            {"athlete", "The row of the athlete, as wide as the keys."},
                            {"clocks", "Clock at the end of round 1, 2 and so on."},
                            {"index", "1 low, 2 expected, 3 high.", 2}},
                           "Empty where there is no clock yet, and for intervals.", practice,
                           {"workout;tests;B$1:H$1;B2:H2;{\"2:50\"|\"5:40\"}", "189.046"}),
};

} // namespace

std::span<const Row> heat_rows() { return rows; }

} // namespace pacecells
