// Round-time targets: a fixed time (the cap), as many rounds as possible in it.
//
// Rounds are a double throughout: 9.5 rounds is half of the tenth. Tables hold at most max_table_rows rows.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <optional>
#include <vector>

namespace pacecells {

inline constexpr int max_table_rows = 10000;

// Time a round for a goal. Formula: cap / rounds. Domain: cap > 0, rounds > 0.
// Source: common practice. Example: 8 rounds in 18:00 are 2:15 each.
[[nodiscard]] Result<Seconds> round_time(Seconds cap, double rounds);

// Rounds that a round time makes, decimal. Formula: cap / round_time. Domain: 0 < round_time <= cap.
// Example: 2:15 in 18:00 is 8.
[[nodiscard]] Result<double> rounds_in(Seconds cap, Seconds round_time);

// What the clock shows at the end of round k (k may be decimal).
//
// Drift is the change of the round time from start to end, as a share of the mean: 0 even, 0.06 fading by 6 %, negative
// finishing faster.
// Formula: T(k) = (cap / n) k (1 + (drift / 2) (k / n - 1)), so T(n) is the cap.
// Domain: cap > 0, 0 < k <= n (1e-9 slack, so that computed rounds serve), -1 <= drift <= 1.
// Source: a straight line of round times; own derivation.
// Example: 8 rounds in 20:00, after 4: 10:00; with drift 0.06: 9:51.
[[nodiscard]] Result<Seconds> clock_after(Seconds cap, double rounds, double k, double drift = 0);

struct Split {
    double round;  // 1, 2, ...; a last partial round is the decimal number of rounds, such as 9.5
    Seconds time;  // for this round alone
    Seconds clock; // at its end
};

// Every round with its time and the clock at its end; the last clock is the cap. Domain: as clock_after, and at most
// max_table_rows rounds.
[[nodiscard]] Result<std::vector<Split>> splits(Seconds cap, double rounds, double drift = 0);

// Round time when rehearsing at a share of the planned pace.
//
// Formula: round_time / effort. Domain: round_time > 0, 0 < effort <= 1.
// Source: common practice: 0.80 to 0.85, three rounds.
// Example: 2:12 at 0.825 is 2:40.
inline constexpr double usual_rehearsal = 0.825;
[[nodiscard]] Result<Seconds> rehearsal_time(Seconds round_time, double effort = usual_rehearsal);

// Rate of calories that the round leaves room for; other is all else in the round.
//
// Formula: 3600 calories / (round_time - other - spin_up).
// Domain: round_time > 0, calories > 0, other >= 0, spin_up >= 0; no solution where no room is left.
// Source: the definition of a rate.
// Example: 2:15 with 15 calories and 81 s of all else: 1000 cal/h.
[[nodiscard]] Result<CaloriesPerHour> erg_need(Seconds round_time, Kilocalories calories, Seconds other,
                                               Seconds spin_up = Seconds{0});

struct GoalRow {
    double goal; // rounds
    Seconds round_time;
    Seconds half_clock;                  // at the end of round ceil(goal / 2), at even pace
    std::optional<CaloriesPerHour> need; // none without calories, or where the round has no room
};

// The table for the wall: goals from, from + step, ... to (included within 1e-9), each with what it asks for.
//
// Domain: cap > 0, 1 <= from <= to, step > 0, at most max_table_rows rows; calories > 0 where given, other >= 0.
[[nodiscard]] Result<std::vector<GoalRow>> goal_table(Seconds cap, double from, double to, double step = 1,
                                                      std::optional<Kilocalories> calories = std::nullopt,
                                                      Seconds other = Seconds{0});

} // namespace pacecells
