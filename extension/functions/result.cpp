// WORKOUT.RESULT: what was typed of a result, as the sheet Results has it.
#include "family.h"
#include "wording.h"
#include "workout_division.h"

#include "pacecells/forecast.h"
#include "pacecells/text.h"
#include "pacecells/typed_result.h"

#include <algorithm>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

enum Typed : std::size_t { reps_cell, finish_cell, left_cell, tiebreak_cell, withdrew_cell, typed_cells };

// A cell of a row as a function reads one; none where it is blank or there is none.
template <class T>
Result<std::optional<T>> typed_in(const RawCells& row, std::size_t place) {
    if (place >= row.cells.size() || is_blank(row.cells[place]))
        return std::optional<T>{};
    auto read = Read<T>::from(row.cells[place]);
    if (!read)
        return read.error();
    return std::optional<T>{*std::move(read)};
}

// Of one row of the sheet Results: reps, finish, reps left.
Result<std::optional<ReadResult>> result_of(const InDivision& in, const RawCells& typed,
                                            const std::optional<Times>& clocks) {
    const auto first = typed_in<NumberOrText>(typed, reps_cell);
    const auto finish = typed_in<AnyTime>(typed, finish_cell);
    const auto left = typed_in<CountNumber>(typed, left_cell);
    const auto tiebreak = typed_in<AnyTime>(typed, tiebreak_cell); // for SCORE.PLACE, but it must be one
    const bool counts = clocks && in.workout->settings.format == Format::amrap;
    const auto done = counts ? clocks_in(*clocks) : Result<std::vector<Seconds>>{std::vector<Seconds>{}};
    for (const auto* refused :
         {first ? nullptr : &first.error(), finish ? nullptr : &finish.error(), left ? nullptr : &left.error(),
          tiebreak ? nullptr : &tiebreak.error(), done ? nullptr : &done.error()})
        if (refused)
            return *refused;
    std::string reps;
    if (*first) {
        const auto* number = std::get_if<double>(&(*first)->value);
        reps = number ? number_text(*number) : std::get<std::string>((*first)->value);
    }
    TypedResult result{*done, reps, {}, {}};
    if (*finish)
        result.finish = (*finish)->value;
    if (*left)
        result.reps_left = (*left)->value;
    return read_result(*in.workout, in.division, result);
}

// Of rounds that are alike; none where there is nothing to compare.
Result<Cell> slower(const InDivision& in, const std::optional<Times>& clocks) {
    const auto done = clocks ? clocks_in(*clocks) : Result<std::vector<Seconds>>{std::vector<Seconds>{}};
    if (!done || done->size() < 2 || !in.workout->alike(in.division))
        return Cell{Blank{}};
    const auto each = fade(*done);
    return each ? to_cell(*each) : Cell{Blank{}};
}

bool nothing_in(const RawCells& typed, const std::optional<Times>& clocks) {
    return std::ranges::all_of(typed.cells, [](const Cell& one) { return is_blank(one); }) &&
           (!clocks || std::ranges::none_of(clocks->values, [](const auto& one) { return one.has_value(); }));
}

Result<Cell> workout_result(AreaPointer workout, NumberOrText division, RawCells typed, std::optional<Times> clocks,
                            std::optional<Whole> index) {
    enum { score = 1, written, readable_score, fade_of };
    const int which = value_or(index, score);
    if (which < score || which > fade_of)
        return out_of_domain("The index is a whole number from 1 to %1; got %2.", static_cast<int>(fade_of), which);
    if (typed.cells.size() > typed_cells)
        return out_of_domain(
            "What was typed is at most five cells: reps, finish, reps left, tie-break, withdrew; got %1.",
            typed.cells.size());
    const auto task = workout_in(workout);
    if (!task) // the line at the top says so
        return which == readable_score || nothing_in(typed, clocks) ? Result<Cell>{Cell{Blank{}}} : task.error();
    const auto language = (*task)->settings.language;
    const auto in = division_of(workout, division);
    if (!in && (which == readable_score || which == fade_of)) // the other cells of the row say so
        return Cell{Blank{}};
    if (!in && which == written && names_none(division)) // the roster says so
        return Cell{spoken(say("! unreadable"), language)};
    if (!in)
        return in.error();
    if (which == fade_of)
        return slower(*in, clocks);
    if (typed.cells.size() > withdrew_cell && !is_blank(typed.cells[withdrew_cell]))
        return which == written ? to_cell(spoken(say("withdrew"), language)) : Cell{Blank{}};
    const auto read = result_of(*in, typed, clocks);
    if (!read) // sheets and prints say so in a word
        return which == written          ? Result<Cell>{spoken(say("! unreadable"), language)}
               : which == readable_score ? Result<Cell>{Cell{Blank{}}}
                                         : read.error();
    if (!*read)
        return Cell{Blank{}};
    if (which == written)
        return Cell{(*read)->text};
    return (*read)->time ? to_cell(*(*read)->time) : to_cell((*read)->reps);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&workout_result>(
        "workoutResult", "WORKOUT.RESULT",
        "Result from what was typed of it: the score to rank by, or as it is written; and how much slower it became.",
        {{"workout", "The block of the workout: the range named workout."},
         {"division", "Name of the division."},
         {"typed",
          "Reps of the open round, or a row of up to five: reps, finish, reps left at the cap, tie-break, and a mark "
          "where the athlete withdrew. Of intervals the reps of each window such as \"15 14 13\", or the score alone."},
         {"clocks", "Clocks at the end of each round done, without gaps; none if left out."},
         {"index",
          "1 the score: reps, or a time with 1 s for each rep left; 2 as written, such as 5+20, or that it is "
          "unreadable; 3 the score, empty where it is unreadable; 4 how much slower each round was than the one "
          "before, as a share of the mean, where all rounds are alike.",
          1}},
        "Whole reps, fewer than the open round has, none above what fits; as many numbers as windows with work; a "
        "finish "
        "up to the cap. Empty where nothing is typed.",
        practice, {"workout;\"scaled\";6;{\"1:10\"|\"2:25\"};2", "2+6"}),
};

} // namespace

std::span<const Row> result_rows() { return rows; }

} // namespace pacecells
