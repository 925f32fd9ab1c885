// What the families of cell functions share: reading options, picking from an answer, and texts of parameters that
// mean the same everywhere.
//
// A family is one file: adapters, which read options and defaults and call the model, then their rows.
#pragma once

#include "binding.h"
#include "catalog.h"

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/score.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

[[nodiscard]] std::span<const Row> clock_rows();
[[nodiscard]] std::span<const Row> erg_rows();
[[nodiscard]] std::span<const Row> pace_rows();
[[nodiscard]] std::span<const Row> sets_rows();
[[nodiscard]] std::span<const Row> score_rows();
[[nodiscard]] std::span<const Row> test_rows();
[[nodiscard]] std::span<const Row> plan_rows();
[[nodiscard]] std::span<const Row> heat_rows();
[[nodiscard]] std::span<const Row> workout_rows();
[[nodiscard]] std::span<const Row> athlete_rows();
[[nodiscard]] std::span<const Row> card_rows();
[[nodiscard]] std::span<const Row> load_rows();
[[nodiscard]] std::span<const Row> team_rows();
[[nodiscard]] std::span<const Row> day_rows();
[[nodiscard]] std::span<const Row> result_rows();
[[nodiscard]] std::span<const Row> usual_rows();
[[nodiscard]] std::span<const Row> judge_rows();

template <class T, class Fallback>
[[nodiscard]] auto value_or(const std::optional<T>& argument, Fallback fallback) {
    return argument ? argument->value : fallback;
}

// One cell of an answer, where a row or a column is asked for; counted from 1.
[[nodiscard]] Result<Answer> pick(Range range, const std::optional<Whole>& row, const std::optional<Whole>& column);

// The same of a table whose row 0 is the headings; empty text beyond its end.
[[nodiscard]] Result<Answer> part_of(std::vector<Cell> headings, Range table, const std::optional<Whole>& row,
                                     const std::optional<Whole>& column);

// The reps of each round, with the numbers they view: blanks at the end are spare cells.
class RoundReps {
  public:
    static Result<RoundReps> from(const Numbers& numbers);
    [[nodiscard]] Result<RepsPerRound> view() const;

  private:
    std::vector<double> numbers_;
};

[[nodiscard]] inline CriticalPower values_in(PowerNumber critical, ReserveNumber reserve) {
    return {Watts{critical.value}, Joules{reserve.value}};
}

using MachineOption = Option<&parse_machine>;

// A group is known by its text; a number serves as all its digits.
[[nodiscard]] std::string group_text(const Cell& cell);
[[nodiscard]] std::vector<std::string> texts(const RawCells& range);

// --- texts of several families -----------------------------------------------------------------------------------

inline constexpr std::string_view arithmetic = "Arithmetic.";
inline constexpr std::string_view practice = "Common practice, no source.";
inline constexpr std::string_view cap_text = "Time cap of the workout.";
inline constexpr std::string_view reps_per_round_text =
    "Reps of a round, or a range with those of round 1, 2, 3 and so on.";
inline constexpr std::string_view critical_text = "Critical power in watts.";
inline constexpr std::string_view reserve_text = "Reserve above critical power in joules.";
inline constexpr std::string_view spin_up_text = "Seconds before the monitor counts.";
inline constexpr std::string_view machine_text = "\"row\", \"ski\" or \"bike\".";
inline constexpr std::string_view erg_calories_text = "Calories on the ergometer in each round.";
inline constexpr std::string_view other_text = "Seconds for everything else in the round.";

} // namespace pacecells
