// Reading results, projecting them to the cap, and ranking them.
//
// A score is total reps, or text such as "7+21": 7 rounds done and 21 reps of the next.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "pacecells/quantity.h"
#include "pacecells/result.h"

namespace pacecells {

struct RoundsAndReps {
    double rounds = 0; // whole
    double reps = 0;   // whole, of the round after
};

// How many reps a round has: the same number in every round, or a number for round 1, 2, 3 ...
class RepsPerRound {
  public:
    // Domain: a whole number, 1 to 1e9.
    static Result<RepsPerRound> every_round(double reps);
    // Domain: each a whole number, 1 to 1e9, at least one. A single number means every round alike.
    // The numbers are viewed, not copied.
    static Result<RepsPerRound> by_round(std::span<const double> reps);

    // Reps of a round, from 1; no answer beyond the list.
    [[nodiscard]] std::optional<double> of_round(double round) const;
    // Reps of so many rounds; the reps of a round begun go pro rata. No answer beyond the list.
    [[nodiscard]] std::optional<double> of_rounds(double rounds) const;

    // A score of so many reps, cut to whole ones. No answer beyond the list.
    [[nodiscard]] std::optional<RoundsAndReps> split(double reps) const;

  private:
    RepsPerRound() = default;
    double every_ = 0;               // used where the list is empty
    std::span<const double> list_{}; // round 1, 2, 3 ...
};

// "7+21", spaces allowed. Digits without a + are refused: a number is total reps, so "7" could mean either.
Result<RoundsAndReps> parse_score(std::string_view text);

// Total reps of a score. Domain: the reps after + are below those of that round.
// No solution: a round beyond the list ("7+0" is fine where the list has exactly 7 rounds).
// Example: 7+21 at 30 a round is 231.
Result<Reps> reps_of(RoundsAndReps score, const RepsPerRound& reps_per_round);

// The same in decimal rounds: 7+21 at 30 a round is 7.7.
Result<double> rounds_of(RoundsAndReps score, const RepsPerRound& reps_per_round);

// Total reps written as a score, decimals cut to whole reps (a billionth below counts as whole).
// Domain: reps at least 0. Example: 231.9 at 30 a round is "7+21".
Result<std::string> score_text(Reps reps, const RepsPerRound& reps_per_round);

// Total reps at the cap at the pace so far: reps * cap / elapsed.
// Domain: 0 < elapsed <= cap, reps at least 0. Example: 90 reps after 6 of 15 minutes give 225.
Result<Reps> project(Seconds cap, Seconds elapsed, Reps reps);

// The time to rank a capped result by: the cap and 1 s for each rep not done (common practice, no source).
// Domain: cap above 0, reps left whole, at least 0. Example: 23 reps left of a 12:00 cap rank as 12:23.
Result<Seconds> capped(Reps reps_left, Seconds cap);

// A result as people read it: "11:42", or "CAP+23" where reps are left: the trade's way to write it, the same in
// every language.
// Domain: cap above 0; without reps left a time above 0, at most the cap; with reps left no time below the cap
// (0, an empty cell, is no time).
Result<std::string> result_text(Seconds time, Seconds cap, Reps reps_left = Reps{0});

enum class Order { high_wins, low_wins };
Result<Order> parse_order(std::string_view text); // "high" or "low"

// The columns that places are found in. Blank scores are skipped; groups and tiebreaks are empty or as long as scores.
struct Field {
    std::span<const std::optional<double>> scores;
    Order order = Order::high_wins;
    std::span<const std::string> groups = {};
    std::span<const std::optional<double>> tiebreaks = {};
};

// One athlete of the field. A blank tie-break ranks last; a 0 where nobody with that score has 0, but somebody has a
// blank, is that blank (an empty cell handed over alone is a 0).
struct Standing {
    double score = 0;
    std::string_view group = {};
    std::optional<double> tiebreak = {};
};

// Standard competition ranking (1 2 2 4) within the group: one more than the number of better ones. Equal scores are
// ranked by the lower tie-break, where there are tie-breaks.
// Domain: columns of one length, no NaN; the athlete stands in the field.
// Example: 44, 42, 42, 41 have the places 1, 2, 2, 4.
Result<int> place(const Standing& athlete, const Field& field);

// The same for many athletes, sorted once: n log n.
class Places {
  public:
    static Result<Places> in(const Field& field);
    [[nodiscard]] Result<int> of(const Standing& athlete) const;

  private:
    struct Rank {
        std::size_t group = 0; // number of the group
        double score = 0;      // negated where high wins, so that lower is better
        double tiebreak = 0;   // a blank is infinite
        friend auto operator<=>(const Rank&, const Rank&) = default;
    };
    Order order_ = Order::high_wins;
    bool grouped_ = false;
    bool tiebroken_ = false;
    std::unordered_map<std::string, std::size_t> groups_; // folded name, number
    std::vector<Rank> ranks_;                             // sorted, best first within a group
};

} // namespace pacecells
