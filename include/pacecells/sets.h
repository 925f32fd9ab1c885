// Breaking up repetitions: schemes of sets, and how many reps an athlete has in hand with each.
//
// The model of local fatigue. An athlete does max_unbroken reps from fresh. Each rep adds 1 to what is spent: 0.5067
// to a fast pool, 0.4933 to a slow one. Off the station both pools empty, with time constants 21.5 s and 388 s; during
// a set they do not. In hand is max_unbroken less both pools, at its worst at the end of a set.
// Source: the two-phase recovery with the constants of Chorley et al. 2022, printed for whole-body work and used for
// local muscle by analogy. One rep of test noise can move a plan, hence the margin (judgement, no source).
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

// How the reps of one round are broken up.
//
// Written "9" (unbroken), "5-4", "3-3-3"; "/" changes sides without a rest ("3-2/3-2"); sets by reps where it
// shortens: "4x2" is 2-2-2-2, "9x1" is singles. Always at least one set, at most max_reps reps in all.
class Scheme {
  public:
    static constexpr int max_reps = 999;

    // Equal sets in a row, a rest between them.
    struct Run {
        int reps; // of each set
        int sets;
        bool after_side_change; // reached from the run before by "/" and not by a rest
        friend bool operator==(const Run&, const Run&) = default;
    };

    // Reads every written form; spaces between the parts, X for x, and the en dash and multiplication sign that
    // autocorrection puts in, are understood. A leading zero is refused: 05-04 is a date.
    [[nodiscard]] static Result<Scheme> parse(std::string_view text);

    // A number given as a scheme: that many reps unbroken. Domain: whole, 1 to max_reps.
    [[nodiscard]] static Result<Scheme> from_number(double reps);

    // The near-even descending scheme: sets differ by one rep at most, the larger first.
    // Domain: 1 <= sets <= reps <= max_reps. Example: 20 reps in 3 sets is 7-7-6, 10 in 3 is 4-3-3.
    [[nodiscard]] static Result<Scheme> near_even(int reps, int sets);

    [[nodiscard]] int sets() const;
    [[nodiscard]] int reps() const;
    [[nodiscard]] int side_changes() const;
    [[nodiscard]] int rests() const { return sets() - 1 - side_changes(); }

    // The written form, runs of four or more equal sets as sets by reps: "2-2-5x1". parse() reads it back unchanged.
    [[nodiscard]] std::string text() const;

    // Longest possible runs in working order.
    [[nodiscard]] const std::vector<Run>& runs() const { return runs_; }

    friend bool operator==(const Scheme&, const Scheme&) = default;

  private:
    void add(Run run);
    std::vector<Run> runs_;
};

// Time for a scheme: a rest at every "-", none at "/", none after the last set.
//
// Formula: reps * rep + rests * rest. Domain: rep >= 0, rest >= 0. Source: common practice.
// Example: 3-3-3 at 2 s a rep with 5 s rests is 28 s.
[[nodiscard]] Result<Seconds> set_time(const Scheme& scheme, Seconds rep, Seconds rest);

// Reps in hand at the worst moment of all rounds; negative: failure before the end.
//
// Formula: the pools above, a rest between sets, away between rounds, 0 s at a change of sides (one shared pool).
// The worst moment is in the last round: both pools start each round at least as full as the one before. One round
// is an affine map of each pool, x -> D x + c, so that the start of round n is c (1 - D^(n-1)) / (1 - D).
// Domain: rounds >= 1, max_unbroken >= 1, away >= 0, rest >= 0.
// Example: 9 unbroken, 9 rounds, 30 unbroken at most, 80 s away: 5.223.
[[nodiscard]] Result<Reps> reps_left(const Scheme& scheme, int rounds, Reps max_unbroken, Seconds away,
                                     Seconds rest = Seconds{3});

// The margin where none is given: the larger of 2 reps and 15 % of max_unbroken (judgement, no source).
[[nodiscard]] Reps default_margin(Reps max_unbroken);

// The near-even scheme with the fewest sets that keeps at least the margin (1e-9 slack) in every round.
//
// Domain: 1 <= reps <= Scheme::max_reps, rounds >= 1, max_unbroken >= 1, away >= 0, rest >= 0, margin >= 0; no
// solution where no such scheme keeps it.
// Example: 9 reps, 9 rounds, 80 s away: with 30 unbroken "9", with 28 "3-3-3", with 24 "2-2-5x1".
[[nodiscard]] Result<Scheme> plan_sets(int reps, int rounds, Reps max_unbroken, Seconds away, Seconds rest = Seconds{3},
                                       std::optional<Reps> margin = std::nullopt);

// Rest between sets with which the near-even scheme of so many sets keeps just the margin; 0 where none is needed.
//
// Domain: as plan_sets, 1 <= sets <= reps; no solution where even endless rest does not keep it.
[[nodiscard]] Result<Seconds> rest_needed(int reps, int rounds, Reps max_unbroken, Seconds away, int sets,
                                          std::optional<Reps> margin = std::nullopt);

enum class LoadFormula { epley, brzycki };

// "epley", "brzycki"; case and spaces do not matter.
[[nodiscard]] Result<LoadFormula> parse_load_formula(std::string_view text);

// Unbroken reps expected at a load, decimal, at least 1 up to the maximum itself. Both weights in the same unit.
//
// Formula: Epley r = 30 (max / load - 1); Brzycki r = 37 - 36 load / max.
// Domain: 0 < load <= one_rep_max.
// Source: Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.
// Example: 80 of 100 is 7.5 (Epley), 8.2 (Brzycki).
[[nodiscard]] Result<Reps> max_reps(double load, double one_rep_max, LoadFormula formula = LoadFormula::epley);

// The load that could be lifted once, from a load and the reps done with it: the reverse. 1 rep is the load itself.
//
// Formula: Epley load (1 + r / 30); Brzycki 36 load / (37 - r). Domain: load > 0, reps >= 1, for Brzycki below 37.
// Example: 5 reps with 100 is 116.667 (Epley), 112.5 (Brzycki).
[[nodiscard]] Result<double> one_rep_max(double load, Reps reps, LoadFormula formula = LoadFormula::epley);

} // namespace pacecells
