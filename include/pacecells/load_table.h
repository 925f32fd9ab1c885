// What goes on the bar, person by person: loads at shares of the maximum, and the division's load against it.
#pragma once

#include "pacecells/athlete_plan.h"
#include "pacecells/loads.h"
#include "pacecells/words.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace pacecells {

inline constexpr std::array load_shares{0.5, 0.6, 0.7, 0.8, 0.9}; // of the maximum: those that workouts are made of
inline constexpr double pounds_per_kilogram = 1 / 0.45359237;     // exact, by definition

struct Bar {
    LoadUnit unit = LoadUnit::kilograms;
    double weight = 20; // in that unit
};

// Whole reps unbroken, fresh. Two formulas are published, and they differ: 90 % of the maximum is 3 reps by Epley, 4 by
// Brzycki, 60 % is 20 and 15 (loads.h says where they are from). Beyond 10 reps neither is well founded; a person may be a quarter off either way (sets.h).
struct RepsExpected {
    int from = 1;
    int to = 1;
};
// Domain: 0 < share <= 1. Example: 0.6 is 15 to 20.
[[nodiscard]] Result<RepsExpected> reps_expected(double share);

// The largest share of the maximum for so many reps per round; above it a load speaks for the scaled version (common
// practice, no source). Example: 70 % for 5 to 9 reps.
[[nodiscard]] double load_limit(double reps);
// What there is to say of a load that is too heavy for its reps; nothing of others.
[[nodiscard]] std::optional<Said> load_caution(std::string_view movement, double share, double reps);

// What a movement is done with where that is no barbell, by its name: a key of the list "implement" in announcement.json,
// such as kettlebell; loose where it is none of those. None for a barbell (judgement).
[[nodiscard]] std::optional<std::string_view> implement_of(std::string_view movement);
// "1 sandbag, 45 kg": what to fetch of an implement. Of dumbbells and kettlebells it is not known whether one or two.
[[nodiscard]] Said fetched(std::string_view implement, double load, LoadUnit unit, Language language);

// What plates make of a load.
struct OnBar {
    double load = 0;                                   // in the unit of the bar, bar included
    std::optional<std::vector<double>> each_side = {}; // none: no barbell, or lighter than the bar alone
};

struct LoadLine {
    std::size_t station = 0; // of the workout
    double reps = 0;         // the athlete's own in the largest round
    std::optional<double> maximum = {};
    std::optional<double> load = {};                // the division's
    std::optional<std::string_view> implement = {}; // in place of a bar
    std::optional<OnBar> made = {};                 // nearest to it
    std::optional<double> share = {};               // of the maximum
    std::optional<RepsExpected> unbroken = {};
    std::optional<OnBar> up_to = {}; // the heaviest that is not too heavy for these reps
    std::array<std::optional<OnBar>, load_shares.size()> steps = {};
    std::optional<Said> caution = {};
};

// A line for each movement counted in reps that the division does with a barbell or whose maximum is known, once for a
// load; nothing for those who have no plan for today. Weights are in the unit of the bar, and steps 2.5 kg or 5 lb.
[[nodiscard]] std::vector<LoadLine> load_table(const Workout& workout, const Athlete& athlete, const Bar& bar = {});

} // namespace pacecells
