#include "wall_cells.h"

#include "binding.h"
#include "planning.h"
#include "wording.h"

#include "pacecells/clock.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace pacecells {

namespace {

constexpr int page_columns = 9;
constexpr int page_rows = 9; // below the headings
constexpr std::string_view no_rate = "–";

// From which of so many to before which a page goes, where the first page has the larger half.
std::pair<int, int> on_page(int count, int most, int page) {
    const int first = count <= most ? count : std::min((count + 1) / 2, most);
    return page == 1 ? std::pair{0, first} : std::pair{first, std::min(count, first + most)};
}

// At most so many rows: where there are more every second or third, and the last.
std::vector<int> listed_rows(int count, int most) {
    const int step = std::max((count + most - 1) / most, 1);
    std::vector<int> rows;
    for (int row = step - 1; row < count; row += step)
        rows.push_back(row);
    if (count > 0 && rows.back() != count - 1)
        rows.push_back(count - 1);
    return rows;
}

} // namespace

Result<std::optional<double>> typed_wall_goal(const Workout& workout, const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    const auto* value = std::get_if<double>(&cell);
    const auto number = text ? plain_number(*text) : std::nullopt;
    if (is_blank(cell) || (value && *value == 0) || (number && *number == 0))
        return std::optional<double>{};
    if (workout.settings.format == Format::time) {
        const auto time = Read<Duration>::from(cell);
        return time ? Result<std::optional<double>>{time->value.value()} : time.error();
    }
    const auto rounds = Read<CountNumber>::from(number ? Cell{*number} : cell);
    return rounds ? Result<std::optional<double>>{rounds->value} : rounds.error();
}

Result<WallGoals> wall_goals_of(const Workout& workout, const std::optional<NumberOrText>& from,
                                const std::optional<NumberOrText>& to, const std::optional<NumberOrText>& step) {
    const bool for_time = workout.settings.format == Format::time;
    const auto& settings = workout.settings;
    const double unit = for_time ? seconds_per_day : 1; // a time of the block is a part of a day
    WallGoals goals{settings.wall_from.value_or(0) * unit, settings.wall_to.value_or(0) * unit,
                    settings.wall_step.value_or(0) * unit};
    constexpr double least_rounds = 0.1; // every time of the block is below
    const auto misread = [&](const std::optional<NumberOrText>& instead, const std::optional<double>& goal) {
        return !instead && goal && *goal > 0 && (for_time ? *goal * unit > settings.cap.value() : *goal < least_rounds);
    };
    if (misread(from, settings.wall_from) || misread(to, settings.wall_to) || misread(step, settings.wall_step))
        return out_of_domain(
            "The goals of the wall must be rounds such as 6.5, or for time finishes up to the cap such "
            "as 13:00: correct them on the sheet Workout.");
    const auto take = [&](const std::optional<NumberOrText>& typed, double& goal) -> std::optional<Error> {
        const auto read = typed_wall_goal(workout, as_cell(typed));
        if (!read)
            return read.error();
        goal = read->value_or(goal);
        return std::nullopt;
    };
    for (const auto& error : {take(from, goals.from), take(to, goals.to), take(step, goals.step)})
        if (error)
            return *error;
    if (goals.from > 0 && goals.to > 0 && goals.step > 0)
        return goals;
    const auto usual = usual_score(workout, 0, workout.settings.cap);
    if (!usual)
        return usual.error();
    const double middle = for_time ? (usual->time ? usual->time->value() : settings.cap.value()) : usual->rounds;
    const double least = 0.7 * middle;
    const double most = 1.3 * middle;
    const auto with_step = [&](double apart) {
        WallGoals made{goals.from, goals.to, apart};
        if (made.from <= 0)
            made.from = std::max(apart, std::floor(least / apart) * apart);
        if (made.to <= 0) {
            made.to = std::ceil(most / apart) * apart;
            if (for_time)
                made.to = std::min(made.to, std::floor(settings.cap.value() / apart) * apart);
            made.to = std::max(made.from, made.to);
        }
        return made;
    };
    if (goals.step > 0)
        return with_step(goals.step);
    WallGoals made;
    for (const double apart : for_time ? std::array{30.0, 60.0, 120.0, 300.0} : std::array{1.0, 2.0, 5.0, 10.0}) {
        made = with_step(apart);
        if ((made.to - made.from) / apart + 1 <= page_rows)
            break;
    }
    return made;
}

std::string goals_note(const HeadedTable& table, Language language) {
    const int listed = std::min(table.rows.rows, page_rows);
    bool dashes = false;
    for (int row = 0; row < listed; ++row)
        for (int column = 0; column < table.rows.columns; ++column) {
            const auto* text = std::get_if<std::string>(&table.rows.at(row, column));
            dashes |= text && *text == no_rate;
        }
    std::string note;
    if (dashes)
        note = spoken(say("– No rate on the ergometer is fast enough: the other stations leave too little time."),
                      language);
    if (listed < table.rows.rows)
        note += (note.empty() ? "" : " ") +
                spoken(say("The page has room for %1 of %2 goals: choose a larger step.", listed, table.rows.rows),
                       language);
    return note;
}

namespace {

bool in_reach(const Workout& workout, CaloriesPerHour need) {
    return need.value() > 0 && !(workout.settings.wall_most && need.value() > *workout.settings.wall_most);
}

} // namespace

double usual_wall_goal(const Workout& workout, const WallGoals& goals, const std::vector<WallRow>& rows) {
    const auto somebody_makes = [&](const WallRow& row) {
        return std::ranges::any_of(row.needs, [&](const auto& need) { return !need || in_reach(workout, *need); });
    };
    const auto second = std::min<std::size_t>(1, rows.size() - 1);
    auto shown = second;
    while (shown < rows.size() && !somebody_makes(rows[shown]))
        ++shown;
    if (shown == rows.size()) // more rounds take more than fewer do
        shown = somebody_makes(rows[0]) ? 0 : second;
    return goals.from + static_cast<double>(shown) * goals.step;
}

std::vector<std::size_t> rated_divisions(const Workout& workout) {
    std::vector<std::size_t> rated;
    for (std::size_t d = 0; d < workout.divisions.size(); ++d)
        if (const auto main = workout.main_ergometer(d); main && machine_of(workout.stations[*main].unit))
            rated.push_back(d);
    return rated;
}

void add_rate_headings(const Workout& workout, const std::vector<std::size_t>& rated, std::vector<Cell>& headings) {
    for (const auto d : rated)
        headings.emplace_back(
            machine_label(*machine_of(workout.stations[*workout.main_ergometer(d)].unit), workout.settings.language) +
            " " + workout.divisions[d].name);
}

Cell need_cell(const Workout& workout, std::size_t division, const std::vector<std::optional<CaloriesPerHour>>& needs) {
    const auto need = division < needs.size() ? needs[division] : std::nullopt;
    if (!need)
        return Blank{};
    if (!in_reach(workout, *need))
        return to_cell(std::string{no_rate});
    const auto machine = *machine_of(workout.stations[*workout.main_ergometer(division)].unit);
    return any_rate_makes(machine, *need) ? to_cell(spoken(say("any"), workout.settings.language))
                                          : rate_cell(workout, machine, *need);
}

bool does(const Workout& workout, std::size_t division, std::size_t station) {
    return !workout.stations[station].divisions[division].amounts.list.empty();
}

std::vector<std::size_t> stations_of(const Workout& workout, std::size_t division) {
    std::vector<std::size_t> stations;
    for (std::size_t i = 0; i < workout.stations.size(); ++i)
        if (does(workout, division, i))
            stations.push_back(i);
    return stations;
}

bool goes_once(const Workout& workout, std::size_t division) {
    return workout.settings.format == Format::time && workout.rounds(division) == 1;
}

std::vector<Cell> clock_headings(const Workout& workout, std::size_t division, bool by_goal) {
    const auto language = workout.settings.language;
    const bool windows = workout.settings.format == Format::intervals;
    std::vector<Cell> headings{spoken(by_goal ? say("GOAL") : windows ? say("WINDOW") : say("ROUND"), language)};
    for (const auto station : stations_of(workout, division))
        headings.emplace_back(workout.stations[station].movement);
    if (!by_goal) // the last station's is the goal itself
        headings.emplace_back(spoken(say("CLOCK"), language));
    return headings;
}

Result<HeadedTable> clocks_of(const Workout& workout, std::size_t division, double goal) {
    const auto line = wall_clocks(workout, goal, division);
    if (!line)
        return line.error();
    const auto stations = stations_of(workout, division);
    auto headings = clock_headings(workout, division, false);
    Range rows{static_cast<int>(line->rounds.size()), static_cast<int>(headings.size()), {}};
    for (const auto& round : line->rounds) {
        rows.cells.push_back(to_cell(round.round));
        for (const auto station : stations)
            rows.cells.push_back(station < round.stations.size() ? to_cell(round.stations[station]) : Cell{Blank{}});
        rows.cells.push_back(to_cell(round.clock));
    }
    return HeadedTable{std::move(headings), std::move(rows)};
}

Result<HeadedTable> clocks_by_goal(const Workout& workout, std::size_t division, const std::vector<double>& goals) {
    const auto stations = stations_of(workout, division);
    auto headings = clock_headings(workout, division, true);
    Range rows{static_cast<int>(goals.size()), static_cast<int>(headings.size()), {}};
    for (const double goal : goals) {
        const auto line = wall_clocks(workout, goal, division);
        if (!line)
            return line.error();
        rows.cells.push_back(to_cell(Seconds{goal}));
        for (const auto station : stations)
            rows.cells.push_back(to_cell(line->rounds.front().stations[station]));
    }
    return HeadedTable{std::move(headings), std::move(rows)};
}

HeadedTable clocks_in_turn(const Workout& workout, const HeadedTable& table) {
    const int last = table.rows.columns - 1;
    HeadedTable listed{
        {table.headings.front(), spoken(say("STATION"), workout.settings.language), table.headings.back()},
        {table.rows.rows, 3, {}}};
    for (int row = 0; row < table.rows.rows; ++row) {
        int column = 1;
        while (column < last && std::holds_alternative<Blank>(table.rows.at(row, column)))
            ++column;
        listed.rows.cells.push_back(table.rows.at(row, 0));
        listed.rows.cells.push_back(column < last ? table.headings[static_cast<std::size_t>(column)] : Cell{Blank{}});
        listed.rows.cells.push_back(table.rows.at(row, last));
    }
    return listed;
}

namespace {

// These rows, those that do not fit below beside the others.
HeadedTable folded(const HeadedTable& table, std::span<const int> rows) {
    const int count = static_cast<int>(rows.size());
    const int bands = std::max((count + page_rows - 1) / page_rows, 1);
    const int deep = (count + bands - 1) / bands;
    HeadedTable part{{}, {deep, bands * table.rows.columns, {}}};
    for (int band = 0; band < bands; ++band)
        part.headings.insert(part.headings.end(), table.headings.begin(), table.headings.end());
    for (int row = 0; row < deep; ++row)
        for (int band = 0; band < bands; ++band)
            for (int column = 0; column < table.rows.columns; ++column) {
                const auto at =
                    static_cast<std::size_t>(band) * static_cast<std::size_t>(deep) + static_cast<std::size_t>(row);
                part.rows.cells.push_back(at < rows.size() ? table.rows.at(rows[at], column) : Cell{Blank{}});
            }
    return part;
}

// The first column, and those from one to before another.
HeadedTable with_columns(const HeadedTable& table, int from, int to) {
    HeadedTable part{{table.headings.front()}, {table.rows.rows, to - from + 1, {}}};
    for (int column = from; column < to; ++column)
        part.headings.push_back(table.headings[static_cast<std::size_t>(column)]);
    for (int row = 0; row < table.rows.rows; ++row) {
        part.rows.cells.push_back(table.rows.at(row, 0));
        for (int column = from; column < to; ++column)
            part.rows.cells.push_back(table.rows.at(row, column));
    }
    return part;
}

} // namespace

HeadedTable clock_page(const HeadedTable& table, int page) {
    const int columns = static_cast<int>(table.headings.size());
    if (columns > page_columns) { // the pages share the columns
        const auto rows = listed_rows(table.rows.rows, page_rows);
        const auto [from, to] = on_page(columns - 1, page_columns - 1, page);
        return from < to ? folded(with_columns(table, from + 1, to + 1), rows) : HeadedTable{};
    }
    const int most = page_columns / columns * page_rows;
    const auto rows = listed_rows(table.rows.rows, clock_pages * most);
    const auto [from, to] = on_page(static_cast<int>(rows.size()), most, page);
    return from < to ? folded(table, std::span(rows).subspan(static_cast<std::size_t>(from),
                                                             static_cast<std::size_t>(to - from)))
                     : HeadedTable{};
}

std::string clocks_title(const Workout& workout, double goal, bool by_goal, const HeadedTable& table, int page) {
    const auto language = workout.settings.language;
    const bool two = !clock_page(table, clock_pages).headings.empty();
    if (page > 1 && !two)
        return {};
    const bool windows = workout.settings.format == Format::intervals;
    const auto shown = workout.settings.format == Format::time ? *clock_text(Seconds{goal}, 0) : spoken(goal, language);
    const auto title = spoken(windows   ? say("Clock of every window")
                              : by_goal ? say("Clock after each station")
                                        : say("Clock for goal %1", shown),
                              language);
    return two ? spoken(say("%1 (%2 of %3)", title, page, clock_pages), language) : title;
}

} // namespace pacecells
