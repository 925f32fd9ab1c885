// The heats of an event workbook: their list, what a card says of a place in it, and where a lane of it begins.
#include "family.h"
#include "planning.h"
#include "wording.h"

#include "pacecells/clock.h"
#include "pacecells/day.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

constexpr std::string_view separator = " · ";

// The people of the rows, those without a name too: each keeps its place.
Result<std::vector<Entrant>> entrants(const Table& keys, const Table& people, const Numbers& ranks,
                                      const RawCells& judges) {
    if (keys.rows != 1 || keys.columns != people.columns)
        return out_of_domain("Keys and people need ranges of equal width.");
    if (ranks.values.size() != people.rows || judges.cells.size() != people.rows)
        return out_of_domain("Ranks and judges have as many cells as there are people.");
    const auto column = [&](std::string_view key) {
        std::size_t place = 0;
        while (place < keys.columns && fold(cell_text(keys.at(0, place))) != key)
            ++place;
        return place; // beyond the last all cells are blank
    };
    const auto name = column("name"), division = column("division"), team = column("team"), plan = column("plan");
    if (name == keys.columns)
        return out_of_domain("The key %1 is missing over the roster. Was a column deleted?", quoted("name"));
    std::vector<Entrant> all;
    for (std::size_t row = 0; row < people.rows; ++row)
        all.push_back({cell_text(people.at(row, name)), cell_text(people.at(row, division)),
                       cell_text(people.at(row, team)), cell_text(people.at(row, plan)), ranks.values[row],
                       !is_blank(judges.cells[row])});
    return all;
}

std::string size_text(const Workout& workout, const std::optional<MachineShare>& shared) {
    const auto language = workout.settings.language;
    const auto size = heat_size(workout, shared ? shared->people : 1);
    const auto lanes =
        spoken(size.lanes == HeatSize::everybody
                   ? say("everybody starts together")
                   : say("%1 lanes per heat, a heat every %2, slowest first", size.lanes, *clock_text(size.every, 0)),
               language);
    return shared ? spoken(say("%1 per machine, one after the other", shared->people), language) + "; " + lanes : lanes;
}

Result<Answer> heat_day(AreaPointer workout, RawCells keys, RawCells people, Numbers ranks, RawCells judges,
                        std::optional<NumberOrText> apart, std::optional<CountNumber> per_machine,
                        std::optional<AnyTime> later, std::optional<Whole> column) {
    constexpr int columns = 8;
    const auto known = known_workout(workout);
    if (!known)
        return known.error();
    const auto all = entrants(table_of(keys), table_of(people), ranks, judges);
    if (!all)
        return all.error();
    Range out{people.rows, columns, {}};
    out.cells.reserve(static_cast<std::size_t>(out.rows) * columns);
    const double on_each = value_or(per_machine, 0.0);
    const auto shared = on_each > 0
                            ? std::optional{MachineShare{static_cast<int>(on_each), value_or(later, Seconds{0})}}
                            : std::nullopt;
    if (column && column->value == 0)
        return Answer{known->workout ? to_cell(size_text(**known->workout, shared)) : Cell{Blank{}}};
    if (known->workout) { // what is wrong, the sheet Workout says
        const auto* text = apart ? std::get_if<std::string>(&apart->value) : nullptr;
        const auto places = heats_of(**known->workout, *all, text && !trim(*text).empty(), shared);
        if (!places)
            return places.error();
        for (const auto& place : *places) {
            const auto& person = (*all)[place.athlete];
            for (const Cell& cell :
                 {to_cell(static_cast<double>(place.heat)), to_cell(static_cast<double>(place.lane)),
                  to_cell(place.start), to_cell(person.name),
                  place.judge ? to_cell((*all)[*place.judge].name) : Cell{Blank{}}, to_cell(place.offset),
                  to_cell((*known->workout)->settings.team > 1 && !person.team.empty()
                              ? person.division + std::string(separator) + person.team
                              : person.division),
                  shared ? to_cell(static_cast<double>(place.machine)) : Cell{Blank{}}})
                out.cells.push_back(cell);
        }
    }
    out.cells.resize(static_cast<std::size_t>(out.rows) * columns, Cell{Blank{}});
    return pick(std::move(out), std::nullopt, column);
}

// "Heat 2, lane 3, 18:05, start at 2:00".
Result<Cell> heat_start(AreaPointer workout, RawCells place) {
    if (place.cells.size() < 2)
        return out_of_domain("A place has a heat and a lane.");
    const auto number = [&](std::size_t column) -> double {
        const auto* value = column < place.cells.size() ? std::get_if<double>(&place.cells[column]) : nullptr;
        return value ? *value : 0;
    };
    if (!(number(0) > 0))
        return Cell{Blank{}};
    const auto language = language_of(workout);
    auto text = spoken(say("Heat %1, lane %2", number(0), number(1)), language);
    if (number(2) > 0)
        text += ", " + day_time_text(Seconds{number(2) * seconds_a_day});
    constexpr std::size_t later = 5;
    if (number(later) > 0)
        text += ", " + spoken(say("start at %1", *clock_text(Seconds{number(later) * seconds_a_day}, 0)), language);
    return to_cell(text);
}

// The row of a list of heats in which so many lanes have begun.
Result<double> heat_row(RawCells heats, RawCells lanes, Count lane) {
    if (heats.cells.size() != lanes.cells.size())
        return out_of_domain("Lanes have as many cells as heats.");
    const auto differs = [](const RawCells& list, std::size_t row) {
        const auto* value = std::get_if<double>(&list.cells[row]);
        const auto* before = std::get_if<double>(&list.cells[row - 1]);
        return value && before && *value != *before;
    };
    int begun = 0;
    for (std::size_t row = 0; row < heats.cells.size() && !is_blank(heats.cells[row]); ++row) {
        begun += row == 0 || differs(heats, row) || differs(lanes, row);
        if (begun == lane.value)
            return static_cast<double>(row + 1);
    }
    return 0.0;
}

// The row of a person by name, else of the team that starts under that name; or how many have the name.
Result<double> heat_person(Text name, RawCells names, std::optional<RawCells> lanes, std::optional<Whole> index) {
    const int which = value_or(index, 1);
    if (which != 1 && which != 2)
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", 2, which);
    if (lanes && lanes->cells.size() != names.cells.size())
        return out_of_domain("Lanes have as many cells as names.");
    const auto wanted = fold_name(name.value);
    if (wanted.empty())
        return 0.0;
    const auto is_wanted = [&](const std::string& one) { return fold_name(one) == wanted; };
    const auto people = texts(names);
    if (which == 2)
        return static_cast<double>(std::ranges::count_if(people, is_wanted));
    for (const auto& list : {people, lanes ? texts(*lanes) : std::vector<std::string>{}})
        if (const auto found = std::ranges::find_if(list, is_wanted); found != list.end())
            return static_cast<double>(found - list.begin() + 1);
    return 0.0;
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&heat_day>(
        "heatDay", "HEAT.DAY",
        "The heats of an event, from its workout and roster: a row for each person who starts, the spare ones blank.",
        {{"workout", "The block of the workout: the range named workout."},
         {"keys", "The row of keys over the athletes."},
         {"people", "The rows of all athletes, as wide as the keys."},
         {"ranks", "Number beside each of them, higher is better; blanks rank lowest."},
         {"judges", "A mark beside each who can judge."},
         {"apart", "Any text keeps divisions in heats of their own."},
         {"per_machine", "People per machine where they share them; 0 where nobody does.", 0},
         {"later", "How much later each next person on a machine starts."},
         {"column", "Column wanted: 1 heat, 2 lane, 3 start, 4 name, 5 judge, 6 how much later this lane starts, "
                    "7 division and team, 8 machine; 0 how many start together, in words; all if left out."}},
        "Lanes, starts and teams are those of the workout. Empty until the workout is complete.", practice,
        {"workout;B$1:H$1;B2:H3;{1|2};{\"\"|\"yes\"};;;;4", "Bero Tann"}),
    row<&heat_start>("heatStart", "HEAT.START", "Where and when somebody starts, in words.",
                     {{"workout", "The block of the workout: the range named workout."},
                      {"place", "A row of HEAT.DAY: heat, lane, start and, in the sixth column, how much later."}},
                     "Empty where there is no heat.", practice, {"workout;{2;3;0.75}", "Heat 2, lane 3, 18:00"}),
    row<&heat_row>("heatRow", "HEAT.ROW", "The row of a list of heats in which a lane begins.",
                   {{"heats", "Heat of each place of the list, in order."},
                    {"lanes", "Its lane."},
                    {"lane", "Which lane, counted over all heats from 1."}},
                   "0 beyond the last.", arithmetic, {"{1|1|1};{1|1|2};2", "3"}),
    row<&heat_person>("heatPerson", "HEAT.PERSON", "Where a name of the list of heats stands on the roster.",
                      {{"name", "Name as the list of heats has it."},
                       {"names", "Names on the roster."},
                       {"lanes", "What stands in the lane of each; looked at where no name is the same."},
                       {"index", "1 the row, 2 how many have that name.", 1}},
                      "Case, outer and doubled blanks do not count; 0 where nobody has that name.", practice,
                      {"\"bero tann\";{\"Ada Brimsole\"|\"Bero Tann \"};{\"Gulls\"|\"\"}", "2"}),
};

} // namespace

std::span<const Row> day_rows() { return rows; }

} // namespace pacecells
