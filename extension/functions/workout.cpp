// The WORKOUT family: what the block of a workout says without a person, for walls, judges and results.
#include "card_wording.h"
#include "family.h"
#include "judge_cells.h"
#include "kept.h"
#include "planning.h"
#include "wall_cells.h"
#include "wording.h"
#include "workout_division.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

// By its number in working order or its movement; none beyond the last or where the division does not do it.
Result<std::optional<std::size_t>> station_in(const Workout& workout, std::size_t division,
                                              const NumberOrText& station) {
    const auto stations = stations_of(workout, division);
    if (const auto* number = std::get_if<double>(&station.value)) {
        if (*number < 1 || *number != std::floor(*number))
            return out_of_domain("A station is a whole number from 1, or its name; got %1.", *number);
        if (*number > static_cast<double>(stations.size()))
            return std::optional<std::size_t>{};
        return std::optional{stations[static_cast<std::size_t>(*number) - 1]};
    }
    const auto found = workout.station(*std::get_if<std::string>(&station.value));
    if (!found)
        return found.error();
    return does(workout, division, *found) ? std::optional{*found} : std::nullopt;
}

// "2+19", also of a workout for time, before its end.
std::string under_way(const Workout& workout, std::size_t division, const Score& score) {
    double reps = score.reps;
    for (int k = 1; k <= score.point.rounds; ++k)
        reps -= workout.points(division, k);
    auto text = std::to_string(score.point.rounds);
    return reps > 0 ? text + "+" + number_text(std::floor(reps + 1e-9)) : text;
}

Result<std::string> workout_seal(AreaPointer rows) { return seal_of(rows); }

Result<std::string> workout_check(AreaPointer workout) {
    const auto task = workout_in(workout);
    return task ? std::string() : spoken(task.error(), language_of(workout));
}

Result<Cell> workout_score(AreaPointer workout, NumberOrText division, Duration time, std::optional<Number> factor,
                           std::optional<Whole> index) {
    const auto in = division_of(workout, division);
    if (!in)
        return in.error();
    const auto score = usual_score(*in->workout, in->division, time.value, value_or(factor, 1.0));
    if (!score)
        return score.error();
    switch (value_or(index, 1)) {
    case 1:
        return to_cell(score->reps);
    case 2:
        return to_cell(score->rounds);
    case 3: {
        const bool at_the_end = score->time || time.value >= in->workout->settings.cap;
        return to_cell(at_the_end ? score->text : under_way(*in->workout, in->division, *score));
    }
    default:
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", 3, index->value);
    }
}

// Row -1 is what to say below the table.
Result<Answer> goals_part(const Workout& workout, HeadedTable table, const std::optional<Whole>& row,
                          const std::optional<Whole>& column) {
    if (row && row->value == -1)
        return Answer{to_cell(goals_note(table, workout.settings.language))};
    return part_of(std::move(table.headings), std::move(table.rows), row, column);
}

Result<Answer> windows_table(const WorkoutPointer& read, const std::optional<Whole>& row,
                             const std::optional<Whole>& column) {
    const auto& task = *read;
    thread_local Latest<WorkoutPointer, int, Result<std::vector<WallWindow>>> latest;
    const auto& rows = latest.of(read, 0, [&] { return wall_windows(task); });
    if (!rows)
        return rows.error();
    const auto language = task.settings.language;
    const auto rated = rated_divisions(task);
    std::vector<Cell> headings{spoken(say("DONE AFTER"), language), spoken(say("SPARE"), language),
                               spoken(say("PACE, %"), language)};
    add_rate_headings(task, rated, headings);
    Range table{static_cast<int>(rows->size()), static_cast<int>(headings.size()), {}};
    for (const auto& line : *rows) {
        table.cells.push_back(to_cell(line.done));
        table.cells.push_back(to_cell(line.spare));
        table.cells.push_back(to_cell(number_text(std::round(100 * line.pace))));
        for (const auto d : rated)
            table.cells.push_back(need_cell(task, d, line.needs));
    }
    return goals_part(task, {std::move(headings), std::move(table)}, row, column);
}

// Each cell of the wall asks for the same.
const Result<std::vector<WallRow>>& goals_table(const WorkoutPointer& read, const WallGoals& goals) {
    thread_local Latest<WorkoutPointer, WallGoals, Result<std::vector<WallRow>>> latest;
    return latest.of(read, goals, [&] { return wall_table(*read, goals.from, goals.to, goals.step); });
}

// The goal of the page of clocks where none is typed; of intervals all windows.
Result<double> goal_to_show(const WorkoutPointer& read) {
    if (read->settings.format == Format::intervals)
        return static_cast<double>(read->settings.windows.value_or(1));
    const auto goals = wall_goals_of(*read, {}, {}, {});
    if (!goals)
        return goals.error();
    const auto& rows = goals_table(read, *goals);
    if (!rows)
        return rows.error();
    return usual_wall_goal(*read, *goals, *rows);
}

Result<Answer> workout_table(AreaPointer workout, std::optional<NumberOrText> from, std::optional<NumberOrText> to,
                             std::optional<NumberOrText> step, std::optional<Whole> row, std::optional<Whole> column) {
    const auto read = workout_in(workout);
    if (!read)
        return read.error();
    const auto& task = **read;
    if (task.settings.format == Format::intervals)
        return windows_table(*read, row, column);
    const auto goals = wall_goals_of(task, from, to, step);
    // A page of the wall says below its table why there is none.
    const auto refuse = [&](const Error& error) -> Result<Answer> {
        if (!row || from || to || step)
            return error;
        return Answer{to_cell(row->value == -1 ? spoken(error, task.settings.language) : std::string())};
    };
    if (!goals)
        return refuse(goals.error());
    const auto& rows = goals_table(*read, *goals);
    if (!rows)
        return refuse(rows.error());
    const auto language = task.settings.language;
    const bool for_time = task.settings.format == Format::time;
    const auto rated = rated_divisions(task);
    const bool once = goes_once(task, 0); // half of each goal instead of a round and half the cap
    std::vector<Cell> headings{
        spoken(say("GOAL"), language), spoken(once ? say("HALF") : say("ROUND"), language),
        spoken(once ? say("BY THEN") : say("AT %1", *clock_text(task.settings.cap * 0.5, 0)), language)};
    add_rate_headings(task, rated, headings);
    Range table{static_cast<int>(rows->size()), static_cast<int>(headings.size()), {}};
    for (const auto& line : *rows) {
        table.cells.push_back(for_time && line.goal.score.time ? to_cell(*line.goal.score.time)
                                                               : to_cell(line.goal.score.rounds));
        table.cells.push_back(to_cell(once ? line.goal.clock / 2 : line.target));
        table.cells.push_back(to_cell(once ? point_text(task, 0, line.half) : line.at_half.text));
        for (const auto d : rated)
            table.cells.push_back(need_cell(task, d, line.needs));
    }
    return goals_part(task, {std::move(headings), std::move(table)}, row, column);
}

struct Goals {
    double shown = 0;
    std::vector<double> listed = {}; // where each station comes once
    friend bool operator==(const Goals&, const Goals&) = default;
};

Result<Goals> goals_of(const InDivision& in, const std::optional<NumberOrText>& goal,
                       const std::optional<RawCells>& list) {
    Goals goals;
    const auto& task = *in.workout;
    const auto typed = typed_wall_goal(task, as_cell(goal));
    if (!typed)
        return detail::about(1, typed.error());
    const auto shown = *typed ? Result<double>{**typed} : goal_to_show(in.workout);
    if (!shown)
        return shown.error();
    goals.shown = *shown;
    if (list && goes_once(task, in.division))
        for (const auto& cell : list->cells) {
            const auto listed = typed_wall_goal(task, cell);
            if (!listed)
                return detail::about(5, listed.error());
            if (*listed)
                goals.listed.push_back(**listed);
        }
    return goals;
}

enum Head : int { title = 1, goal_label, usual_goal, goal_refused };

// A page whose goal cannot be used is blank, but for the label of the goal and what is wrong with it.
Result<Answer> unusable(const InDivision& in, const Error& error, const std::optional<Whole>& row,
                        const std::optional<Whole>& column) {
    const auto language = in.workout->settings.language;
    const bool head = row && row->value == -1;
    if (head && column && column->value == goal_label)
        return Answer{to_cell(spoken(say("Goal shown"), language))};
    if (!head || !column || column->value != goal_refused)
        return Answer{to_cell(std::string())};
    const bool whole_sentence = error.argument < 0;
    return Answer{to_cell(
        whole_sentence ? spoken(error, language)
                       : spoken(say("Enter rounds such as 6.5, or for time a finish such as 13:00."), language))};
}

// A page of the wall has its title in row -1, and beside it the label of the goal to choose, the usual one, and what is
// wrong with the one chosen.
Result<Answer> page_head(const InDivision& in, const Goals& goals, const HeadedTable& table, int page,
                         const std::optional<Whole>& column) {
    const auto& task = *in.workout;
    const bool chosen = task.settings.format != Format::intervals && goals.listed.empty();
    switch (value_or(column, title)) {
    case title:
        return Answer{to_cell(clocks_title(task, goals.shown, !goals.listed.empty(), table, page))};
    case goal_label:
        return Answer{to_cell(chosen ? spoken(say("Goal shown"), task.settings.language) : std::string())};
    case usual_goal:
        break;
    case goal_refused:
        return Answer{to_cell(std::string())};
    default:
        return out_of_domain("There is no column %1, only 1 to %2.", column->value, static_cast<int>(goal_refused));
    }
    return Answer{task.settings.format == Format::time ? to_cell(Seconds{goals.shown}) : to_cell(goals.shown)};
}

Result<Answer> workout_clocks(AreaPointer workout, std::optional<NumberOrText> goal,
                              std::optional<NumberOrText> division, std::optional<Whole> row,
                              std::optional<Whole> column, std::optional<RawCells> goals, std::optional<Whole> page) {
    const auto in = division_of(workout, division && names_none(*division) ? std::nullopt : division);
    if (!in)
        return in.error();
    if (page && (page->value < 1 || page->value > clock_pages))
        return out_of_domain("The wall has pages 1 to %1; got %2.", clock_pages, page->value);
    if (!page && row && row->value == 0) { // whatever the goal is
        auto headings = clock_headings(*in->workout, in->division, goals && goes_once(*in->workout, in->division));
        const int columns = static_cast<int>(headings.size());
        return part_of(std::move(headings), Range{0, columns, {}}, row, column);
    }
    const auto wanted = goals_of(*in, goal, goals);
    if (!wanted)
        return page ? unusable(*in, wanted.error(), row, column) : wanted.error();
    thread_local Latest<WorkoutPointer, std::pair<Goals, std::size_t>, Result<HeadedTable>> latest;
    const auto& table = latest.of(in->workout, {*wanted, in->division}, [&] {
        return wanted->listed.empty() ? clocks_of(*in->workout, in->division, wanted->shown)
                                      : clocks_by_goal(*in->workout, in->division, wanted->listed);
    });
    if (!table)
        return page ? unusable(*in, table.error(), row, column) : table.error();
    if (!page)
        return part_of(table->headings, table->rows, row, column);
    const auto laid = in->workout->settings.in_turn ? clocks_in_turn(*in->workout, *table) : *table;
    if (row && row->value == -1)
        return page_head(*in, *wanted, laid, page->value, column);
    auto part = clock_page(laid, page->value);
    return part_of(std::move(part.headings), std::move(part.rows), row, column);
}

// How many rounds there are to list; of a workout without end as many as its amounts differ for.
int listed_rounds(const Workout& workout, std::size_t division) {
    if (const auto rounds = workout.rounds(division))
        return *rounds;
    return workout.alike(division) ? 1 : most_plan_rounds;
}

Result<Answer> workout_reps(AreaPointer workout, std::optional<NumberOrText> division, std::optional<Count> round) {
    const auto in = division_of(workout, division);
    if (!in)
        return in.error();
    if (round && round->value < 1)
        return out_of_domain("A round is a whole number from 1; got %1.", round->value);
    if (round) {
        const auto rounds = in->workout->rounds(in->division);
        if (rounds && round->value > *rounds)
            return Answer{Cell{Blank{}}};
        return Answer{to_cell(in->workout->points(in->division, round->value))};
    }
    const int count = listed_rounds(*in->workout, in->division);
    if (count == 1)
        return Answer{to_cell(in->workout->points(in->division, 1))};
    Range row{1, count, {}};
    for (int k = 1; k <= count; ++k)
        row.cells.push_back(to_cell(in->workout->points(in->division, k)));
    return Answer{std::move(row)};
}

Result<Cell> workout_count(AreaPointer workout, NumberOrText division, Count round,
                           std::optional<NumberOrText> station) {
    const auto in = division_of(workout, division);
    if (!in)
        return in.error();
    if (round.value < 0)
        return out_of_domain("A round is a whole number from 1; got %1.", round.value);
    const auto rounds = in->workout->rounds(in->division);
    if (round.value > rounds.value_or(most_plan_rounds))
        return Cell{Blank{}};
    std::size_t last = in->workout->stations.size();
    if (station && round.value > 0) {
        const auto found = station_in(*in->workout, in->division, *station);
        if (!found)
            return found.error();
        const auto& there = in->workout->stations;
        if (!*found || there[**found].amount(in->division, round.value, rounds) == 0 ||
            there[**found].divisions[in->division].amounts.most)
            return Cell{Blank{}};
        last = **found;
    }
    double sum = 0;
    // A judge counts each window of intervals by itself; without a station it is all that was done.
    const bool anew = station && in->workout->settings.format == Format::intervals;
    for (int k = 1; k < round.value && !anew; ++k)
        sum += in->workout->points(in->division, k);
    return to_cell(round.value == 0 ? 0 : sum + in->workout->points(in->division, round.value, last));
}

Result<std::string> workout_text_cell(AreaPointer workout, std::optional<NumberOrText> division,
                                      std::optional<NumberOrText> station) {
    const auto in = division_of(workout, division);
    if (!in)
        return in.error();
    if (!station)
        return workout_line(*in->workout, in->division);
    if (const auto* number = std::get_if<double>(&station->value); number && *number == 0)
        return workout_head(*in->workout, in->division);
    const auto found = station_in(*in->workout, in->division, *station);
    if (!found)
        return found.error();
    return *found ? station_line(*in->workout, in->division, **found) : std::string();
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view block_text = "The block of the workout: the range named workout.";
constexpr std::string_view division_text = "Name of the division; the first if left out.";
constexpr std::string_view row_text = "Row wanted, 0 for the headings; all rows if left out.";
constexpr std::string_view noted_row_text =
    "Row wanted, 0 for the headings, -1 for what to say below the table; all rows if left out.";
constexpr std::string_view complete = "The workout must be complete: WORKOUT.CHECK says what is missing.";
constexpr std::string_view usual_pace =
    "The usual pace of the middle group at each station, as typed with the workout; a goal stretches all but the "
    "ergometer alike (judgement).";

constexpr Row rows[] = {
    row<&workout_seal>("workoutSeal", "WORKOUT.SEAL",
                       "Text that is the same only while these cells are. In the first row of the block, over the rows "
                       "below, it spares every plan reading the whole block.",
                       {{"rows", "The rows of the block below its first."}}, "At most 1000 rows and 200 columns.",
                       "The SHA-1 name-based UUID of the cells' contents (RFC 4122, 4.3).",
                       {"workout", "seal e56e2f8f-be54-5457-a906-ff358ad7f0ef"}),
    row<&workout_check>("workoutCheck", "WORKOUT.CHECK",
                        "What keeps the workout from being planned, in a sentence; empty where it is complete.",
                        {{"workout", block_text}},
                        "A block of cells with keys in its first column, from pacecells.workout to end.", "Own layout.",
                        {"broken", "The workout has no end: its last key must be \"end\". Was a row "
                                   "deleted?"}),
    row<&workout_score>("workoutScore", "WORKOUT.SCORE", "Score at the usual pace when the clock shows that time.",
                        {{"workout", block_text},
                         {"division", "Name of the division."},
                         {"clock", "Time on the clock."},
                         {"factor", "Pace against the usual one, 1.1 is a tenth faster.", 1},
                         {"index", "1 reps, 2 rounds, 3 as text.", 1}},
                        "clock above 0; factor 0.2 to 5.", usual_pace, {"workout;\"scaled\";\"8:30\";;3", "2+19"}),
    row<&workout_table>("workoutTable", "WORKOUT.TABLE",
                        "Table of goals for the wall: goal, time per round, score at half time and the rate that each "
                        "division needs on the ergometer (row, ski, bike); – where no rate is fast enough.",
                        {{"workout", block_text},
                         {"from", "First goal in rounds, or a time; from the workout if left out."},
                         {"to", "Last goal; from the workout if left out."},
                         {"step", "From goal to goal; from the workout if left out."},
                         {"row", noted_row_text},
                         {"column", "Column wanted: 1 goal, 2 time per round, 3 score at half time, then one rate per "
                                    "division; all if left out."}},
                        complete, usual_pace, {"workout;5;7;1;2;1", "6"}),
    row<&workout_clocks>(
        "workoutClocks", "WORKOUT.CLOCKS", "Clock at the end of every round and station for a goal, for the wall.",
        {{"workout", block_text},
         {"goal", "Goal in rounds, or the time of a workout for time; the usual one if left out."},
         {"division", division_text},
         {"row", row_text},
         {"column", "Column wanted: 1 the round, then each station, the last the end of the round; all "
                    "if left out."},
         {"goals", "Goals to list, a row for each, where each station comes once; not used otherwise."},
         {"page", "Page of the wall, 1 or 2, of nine rows and columns; its row -1 has the title. A goal "
                  "that cannot be used leaves it blank. No pages if left out."}},
        complete, usual_pace, {"workout;6;\"scaled\";1;1", "1"}),
    row<&workout_reps>("workoutReps", "WORKOUT.REPS",
                       "Repetitions (reps) and calories that count in a round; in a row for round 1, 2, 3 and so on.",
                       {{"workout", block_text}, {"division", division_text}, {"round", "The round; all if left out."}},
                       complete, arithmetic, {"workout;\"scaled\";1", "32"}),
    row<&workout_count>(
        "workoutCount", "WORKOUT.COUNT",
        "Running count as a judge counts aloud: reps done at the end of a station of a round.",
        {{"workout", block_text},
         {"division", "Name of the division."},
         {"round", "The round; 0 gives 0."},
         {"station", "The station by its number in order, or its movement; the end of the round if left out."}},
        complete, arithmetic, {"workout;\"scaled\";2;1", "44"}),
    row<&workout_text_cell>(
        "workoutText", "WORKOUT.TEXT",
        "The workout in one line, or one of its stations: amounts, movements and loads of a division.",
        {{"workout", block_text},
         {"division", division_text},
         {"station", "The station by its number in order, or its movement; 0 for the form alone; all if left out."}},
        complete, practice, {"workout;\"scaled\";1", "12 ski cal"}),
};

} // namespace

std::span<const Row> workout_rows() { return rows; }

} // namespace pacecells
