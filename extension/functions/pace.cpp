// The PACE family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/pace.h"
#include "pacecells/pacing.h"
#include "pacecells/score.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<Seconds> pace_round(Duration cap, CountOrText goal, std::optional<Counts> reps_per_round) {
    if (const auto* rounds = std::get_if<double>(&goal.value))
        return round_time(cap.value, *rounds);
    const auto score = parse_score(*std::get_if<std::string>(&goal.value));
    if (!score)
        return score.error();
    if (!reps_per_round)
        return out_of_domain("A goal written as a score needs the reps per round as well.");
    const auto reps = RoundReps::from(*reps_per_round);
    if (!reps)
        return reps.error();
    const auto rounds = rounds_of(*score, *reps->view());
    if (!rounds)
        return rounds.error();
    return round_time(cap.value, *rounds);
}

Result<double> pace_rounds(Duration cap, ShortTime time) { return rounds_in(cap.value, time.value); }

Result<Seconds> pace_clock(Duration cap, CountNumber rounds, CountNumber k, std::optional<Number> drift) {
    return clock_after(cap.value, rounds.value, k.value, value_or(drift, 0.0));
}

Result<Range> pace_splits(Duration cap, CountNumber rounds, std::optional<Number> drift) {
    const auto rows = splits(cap.value, rounds.value, value_or(drift, 0.0));
    if (!rows)
        return rows.error();
    Range out{static_cast<int>(rows->size()), 3, {}};
    for (const auto& row : *rows) {
        out.cells.push_back(to_cell(row.round));
        out.cells.push_back(to_cell(row.time));
        out.cells.push_back(to_cell(row.clock));
    }
    return out;
}

Result<Seconds> pace_rehearsal(ShortTime time, std::optional<Number> effort) {
    return rehearsal_time(time.value, value_or(effort, usual_rehearsal));
}

Result<CaloriesPerHour> pace_ergneed(ShortTime time, CalorieNumber calories, PlainSeconds other,
                                     std::optional<PlainSeconds> spin_up) {
    return erg_need(time.value, Kilocalories{calories.value}, other.value, value_or(spin_up, Seconds{0}));
}

Result<Range> pace_table(Duration cap, CountNumber from, CountNumber to, std::optional<CountNumber> step,
                         std::optional<CalorieNumber> calories, std::optional<PlainSeconds> other) {
    const auto rows =
        goal_table(cap.value, from.value, to.value, value_or(step, 1.0),
                   calories ? std::optional{Kilocalories{calories->value}} : std::nullopt, value_or(other, Seconds{0}));
    if (!rows)
        return rows.error();
    Range out{static_cast<int>(rows->size()), 4, {}};
    for (const auto& row : *rows) {
        out.cells.push_back(to_cell(row.goal));
        out.cells.push_back(to_cell(row.round_time));
        out.cells.push_back(to_cell(row.half_clock));
        out.cells.push_back(to_cell(row.need));
    }
    return out;
}

Result<Seconds> pace_cost(Duration cap, Number drift, std::optional<PowerNumber> critical,
                          std::optional<ReserveNumber> reserve, std::optional<FactorNumber> gain) {
    if (critical.has_value() != reserve.has_value())
        return out_of_domain("Critical power and reserve go together: give both, or neither.");
    Seconds lasting = usual_reserve_time;
    if (critical) {
        const auto values = checked(values_in(*critical, *reserve));
        if (!values)
            return values.error();
        lasting = reserve_time(*values);
    }
    return pacing_cost(cap.value, drift.value, lasting, value_or(gain, 1.0));
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view gain_text = "How much faster effort rises than pace: 1 for reps, 3 for metres on an air "
                                       "brake; for calories the rate over the rate "
                                       "less 300.";
constexpr std::string_view drift_text =
    "Change of the round time from start to end, as a share of the mean; negative: finishing faster.";

constexpr Row rows[] = {
    row<&pace_round>("paceRound", "PACE.ROUND", "Pace: time per round for a goal.",
                     {{"cap", cap_text},
                      {"goal", "Goal in rounds (8 or 9.5), or a score such as \"7+21\" with the reps per round."},
                      {"reps_per_round", reps_per_round_text}},
                     "cap and goal above 0.", arithmetic, {"\"18:00\";8", "2:15"}),
    row<&pace_rounds>("paceRounds", "PACE.ROUNDS",
                      "Rounds completed by the cap at a pace (time per round), with decimals.",
                      {{"cap", cap_text}, {"round_time", "Time per round."}},
                      "round_time above 0, below 1 h and not above the cap.", arithmetic, {"\"18:00\";\"2:15\"", "8"}),
    row<&pace_clock>(
        "paceClock", "PACE.CLOCK", "What the clock shows at the end of round k.",
        {{"cap", cap_text}, {"rounds", "Total rounds."}, {"k", "Round, may be decimal."}, {"drift", drift_text, 0}},
        "k above 0 and at most rounds; drift from -1 to 1.", "A straight line of round times; own derivation.",
        {"\"18:00\";8;4", "9:00"}),
    row<&pace_splits>("paceSplits", "PACE.SPLITS", "Every round, its time and the clock at its end, in three columns.",
                      {{"cap", cap_text},
                       {"rounds", "Rounds in all; a last partial round has a row of its own."},
                       {"drift", drift_text, 0}},
                      "rounds above 0, at most 10000; drift from -1 to 1.",
                      "A straight line of round times; own derivation.", {"\"18:00\";8", "1"}),
    row<&pace_cost>(
        "paceCost", "PACE.COST",
        "Time lost by a fade or a faster end, against even pace, by whoever could just hold that.",
        {{"cap", "Time of the task at even pace."},
         {"drift", drift_text},
         {"critical_W", critical_text},
         {"reserve_J", reserve_text},
         {"gain", gain_text, 1}},
        "drift from -1 to 1; critical_W and reserve_J together, without them a reserve of 75 s at critical power "
        "(judgement); gain at least 1.",
        "Critical power; what is done below it cannot be made up (Fukuba and Whipp 1999). Nothing comes back within "
        "the "
        "task, and tired muscles are not counted.",
        {"\"40:00\";0.2;240;18000", "0:49"}),
    row<&pace_rehearsal>(
        "paceRehearsal", "PACE.REHEARSAL", "Round time at a share of the planned pace.",
        {{"round_time", "Planned time per round."}, {"effort", "Share of the planned pace.", usual_rehearsal}},
        "effort above 0, at most 1.", "Common practice, no source: 0.80 to 0.85 for three rounds.",
        {"\"2:12\"", "2:40"}),
    row<&pace_ergneed>("paceErgneed", "PACE.ERGNEED",
                       "Rate in cal/h needed on the ergometer to fit the time per round.",
                       {{"round_time", "Time per round."},
                        {"calories", erg_calories_text},
                        {"other_s", other_text},
                        {"spin_up_s", spin_up_text, 0}},
                       "Err:523 if the round leaves no time.", arithmetic, {"\"2:15\";15;81", "1000"}),
    row<&pace_table>("paceTable", "PACE.TABLE",
                     "Table of goals for the wall: goal, round time, clock at half-way and cal/h needed.",
                     {{"cap", cap_text},
                      {"from_rounds", "First goal in rounds."},
                      {"to_rounds", "Last goal in rounds."},
                      {"step", "From goal to goal.", 1},
                      {"calories", "Calories in each round; without them the last column stays empty."},
                      {"other_s", "Seconds for everything else in the round.", 0}},
                     "from_rounds at least 1 and at most to_rounds; step above 0; at most 10000 rows.", arithmetic,
                     {"\"18:00\";8;10", "8"}),
};

} // namespace

std::span<const Row> pace_rows() { return rows; }

} // namespace pacecells
