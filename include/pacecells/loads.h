// Loads and the reps they allow.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <string_view>

namespace pacecells {

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
