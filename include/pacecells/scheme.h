// Schemes: how the reps of one round are broken up into sets.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

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

// What a coach calls a scheme, in parts from which a sentence of any language can be made.
//
// A near-even scheme has two sizes of set at most, the larger first, and words follow from how many there are of each:
// few sets are listed ("5-4"), many are counted ("2 sets of 9, then 4 of 8"), and single reps are never counted
// ("2, then singles"; never "2-10x1"), since nobody counts them. Source: common practice, no source.
struct SchemeWords {
    enum class Kind {
        unbroken,     // first: one set
        listed,       // a short scheme as it is written, or one that has no shorter words: see written
        singles,      // first: all sets are single reps
        equal_sets,   // first: four or more equal sets
        then_singles, // first, then single reps: second
        then_sets,    // first, then smaller sets: second
    };
    Kind kind;
    Scheme::Run first;
    Scheme::Run second;  // no sets where there are none
    std::string written; // Scheme::text()
};

// Example: 9 is unbroken; 5-4 and 3-3-2-2 are listed; 9x1 is singles; 6x2 is equal sets; 2-2-6x1 is 2-2, then singles;
// 9-9-4x8 is two sets of 9, then four of 8. A scheme with a change of sides, a third size, or the smaller first is
// listed.
[[nodiscard]] SchemeWords scheme_words(const Scheme& scheme);

} // namespace pacecells
