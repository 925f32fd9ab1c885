// Loads and the reps they allow.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

enum class LoadFormula { epley, brzycki };

// "epley", "brzycki"; case and spaces do not matter.
[[nodiscard]] Result<LoadFormula> parse_load_formula(std::string_view text);

// Unbroken reps expected at a load, decimal, at least 1 up to the maximum itself. Both weights in the same unit.
//
// Formula: Epley r = 30 (max / load - 1); Brzycki r = 37 - 36 load / max.
// Domain: 0 < load <= one_rep_max.
// Source: Epley 1985; Brzycki 1993, J Phys Educ Recreat Dance 64(1):88. Neither was read: the formulas are as later texts
// print them, Epley's as max = load (1 + r / 30), Brzycki's as load / (1.0278 - 0.0278 r), which 36 / (37 - r) is to four
// figures. Handbooks disagree beyond 10 reps.
// Example: 80 of 100 is 7.5 (Epley), 8.2 (Brzycki).
[[nodiscard]] Result<Reps> max_reps(double load, double one_rep_max, LoadFormula formula = LoadFormula::epley);

// The load that could be lifted once, from a load and the reps done with it: the reverse. 1 rep is the load itself.
//
// Formula: Epley load (1 + r / 30); Brzycki 36 load / (37 - r). Domain: load > 0, reps >= 1, for Brzycki below 37.
// Example: 5 reps with 100 is 116.667 (Epley), 112.5 (Brzycki).
[[nodiscard]] Result<double> one_rep_max(double load, Reps reps, LoadFormula formula = LoadFormula::epley);

enum class LoadUnit { kilograms, pounds };
// "kg", "lb"; case and spaces do not matter.
[[nodiscard]] Result<LoadUnit> parse_load_unit(std::string_view text);

// What a pair of the smallest plates adds: 2.5 kg (1.25 each side), 5 lb (2.5 each side). Common practice, no source.
[[nodiscard]] double load_step(LoadUnit unit);
inline constexpr double heaviest_load = 1000; // of a bar too, in any unit
// A bar alone: 20 kg, 45 lb. Common practice, no source.
[[nodiscard]] double usual_bar(LoadUnit unit);

// The load nearest to a share of the maximum that plates make; the lower of two as near.
// Domain: one_rep_max > 0, 0 < share <= 1.5. Example: 72 % of 100 kg is 72.5.
[[nodiscard]] Result<double> share_of_maximum(double one_rep_max, double share, LoadUnit unit = LoadUnit::kilograms);

// The plates on each side of the bar, the heaviest first: of 25, 20, 15, 10, 5, 2.5 and 1.25 kg, or 45, 35, 25, 10, 5 and
// 2.5 lb, as many as there must be. Common practice, no source.
// Domain: bar >= 0, load the bar and whole steps of load_step() more, up to 1000.
// Example: 72.5 kg on a bar of 20 kg are 25 and 1.25.
[[nodiscard]] Result<std::vector<double>> plates_each_side(double load, double bar,
                                                           LoadUnit unit = LoadUnit::kilograms);
// "25 + 1.25"; none: "0".
[[nodiscard]] std::string plates_text(const std::vector<double>& plates);

} // namespace pacecells
