// A block of stations in working order, walked round by round: what the PLAN functions of cells compute.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "pacecells/quantity.h"
#include "pacecells/result.h"

namespace pacecells {

enum class Unit : std::uint8_t {
    blank,       // a spare row: skipped
    rep,         // rate: seconds a rep
    row_cal,     // rate: cal/h
    ski_cal,     // rate: cal/h
    bike_cal,    // rate: cal/h
    armbike_cal, // rate: cal/h
    row_m,       // rate: seconds for 500 m
    ski_m,       // rate: seconds for 500 m
    bike_m,      // rate: seconds for 1000 m
    run_m,       // rate: seconds for 1000 m
    carry_m,     // rate: seconds a metre
    hold,        // amount: seconds
    rest,        // amount: seconds
};

// "rep", "row cal" (short "cal"), "row m" (short "m"), ... in any case and spacing; blank text is Unit::blank.
Result<Unit> parse_unit(std::string_view text);

enum class RateKind { none, seconds_each, calories_per_hour, split };
// What the rate of a unit is: the reader of a sheet takes a split as a time, the others as plain numbers.
RateKind rate_kind(Unit unit);

// Points for one unit of amount: 1 for repetitions and calories, 0 for the rest.
double credit(Unit unit);

// A range of numbers: one row a station, one column (the same every round) or column k for round k. Cells run row by
// row. An empty cell is 0. A cell that cannot be read is NaN: refused where a round needs it.
struct Cells {
    std::span<const double> cells;
    std::size_t columns = 1;
};

// A view of the stations; the numbers live with the caller.
struct Block {
    std::span<const Unit> units;
    Cells amounts;
    Cells rates;
    Cells extras;                        // seconds after the work: walking, picking up, set rests
    std::span<const double> counts = {}; // points for one unit of amount instead of credit(); empty: credit()
};

// An amount of 0 drops the station, its extras too, for that round.
// Domain of the four: as many rows in each part; in the rounds walked: amounts, extras and counts at least 0, rates of
// stations with work above 0 (hold and rest have none).
// No solution: a round beyond the last of several columns.

// Time of round k. Domain: k whole, from 1.
Result<Seconds> round_time(const Block& block, double k = 1);

// Points when the clock shows this: station by station, whole units done by then (a billionth below counts as whole),
// extras after the work. Domain: clock at least 0. No solution: a round that takes no time.
Result<Reps> score_at(Seconds clock, const Block& block);

// Time to finish so many rounds. Domain: rounds whole, from 1.
Result<Seconds> finish_time(double rounds, const Block& block);

// cal/h at one calorie station (row of the block, from 1; the first if left out) that just makes the goal in the cap:
// every calorie station's rate is raised or lowered by one factor. Where rates differ by round, the answer is for the
// first round in which that station has work.
// The goal is in rounds; a decimal is that share of the last round's points (credit(); of its amounts where nothing
// counts), walked in order and done with the last unit.
// Domain: cap and goal above 0; station a calorie row. No solution: the other work leaves no time, or there is nothing
// to do at a calorie station.
Result<CaloriesPerHour> erg_need(Seconds cap, double goal, const Block& block, std::optional<double> station = {});

} // namespace pacecells
