// The air-braked ergometer: what its monitor shows, and what that is in watts.
//
// Machines differ: all here holds for air-braked ones whose monitor counts by the formulas below. Check yours.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <string_view>

namespace pacecells {

enum class Machine { row, ski, bike, armbike }; // in the order of WordList::machine
enum class ErgUnit { calories_per_hour, watts, split };

// "row", "ski", "bike", "armbike"; case and spaces do not matter.
[[nodiscard]] Result<Machine> parse_machine(std::string_view text);
// "cal/h", "W", "split"; case and spaces do not matter.
[[nodiscard]] Result<ErgUnit> parse_erg_unit(std::string_view text);

// The distance a split is given for: 500 m, on a bike ergometer 1000 m. The fan bike shows none: refused.
[[nodiscard]] Result<Metres> split_distance(Machine machine);

// Power behind a rate of calories.
//
// Formula: P = (R - 300) / (4 * 0.8604), R in kcal/h, P in W.
// Domain: R >= 300; exactly 300 is 0 W.
// Source: from memory; 0.8604 is about 3.6 / 4.184, the thermochemical calorie (NIST SP 811, appendix B). A. Dudhia,
// "The Physics of Ergometers", University of Oxford, prints E = (4 W + 0.35 t) / 4.2, which agrees within 0.4 %.
// Example: 1000 cal/h is 203.394 W.
[[nodiscard]] Result<Watts> power(CaloriesPerHour rate);

// Rate of calories that a power shows as: the reverse. Domain: P >= 0. Example: 350 W is 1504.56 cal/h.
[[nodiscard]] Result<CaloriesPerHour> calorie_rate(Watts power);

// Power behind a split (the time for 500 m; for 1000 m on a bike, where the same figure is the same power).
//
// Formula: P = 2.80 / p^3 with p = split / 500 m in s/m; on a bike P = 0.35 / p^3 with p = split / 1000 m.
// Domain: split > 0.
// Source: A. Dudhia, "The Physics of Ergometers", section on power and splits; the bike's constant from memory.
// Example: 100 s is 350 W.
[[nodiscard]] Result<Watts> power_at_split(Seconds split);

// The split that a power is: the reverse. Domain: P >= 0; 0 W has no split. Example: 350 W is 100 s.
[[nodiscard]] Result<Seconds> split_at_power(Watts power);

// Mean power over a distance done in that time: the power at its mean split.
//
// Domain: distance > 0, time > 0; the fan bike is refused.
// Source: as power_at_split.
// Example: 1000 m in 3:52 are 224.23 W on a rower or ski ergometer, 28.03 W on a bike.
[[nodiscard]] Result<Watts> power_over(Metres distance, Seconds time, Machine machine = Machine::row);

// Any of the three units into any other. A split is a plain number of seconds.
//
// Domain: as of the conversions above, also where nothing is to be converted; the fan bike is refused, its calories
// follow no such formula.
[[nodiscard]] Result<double> convert(double value, ErgUnit from, ErgUnit to, Machine machine = Machine::row);

// Time until that many calories are done; spin_up is the time before the monitor counts.
//
// Formula: t = spin_up + 3600 cal / R.
// Domain: calories > 0, R > 0 (arithmetic: 300 cal/h mean nothing here), spin_up >= 0.
// Source: the definition of a rate.
// Example: 15 calories at 1000 cal/h take 54 s.
[[nodiscard]] Result<Seconds> time_for(Kilocalories calories, CaloriesPerHour rate, Seconds spin_up = Seconds{0});

// Rate that has the calories done in that time: the reverse.
//
// Domain: calories > 0, time > 0, spin_up >= 0; no solution where the spin-up takes up the time.
// Example: 20 calories in 60 s are 1200 cal/h.
[[nodiscard]] Result<CaloriesPerHour> rate_for(Kilocalories calories, Seconds time, Seconds spin_up = Seconds{0});

// Calories done by then, decimal; 0 before the spin-up is over. Domain: time >= 0, R > 0, spin_up >= 0.
// Example: in 54 s at 1000 cal/h 15 calories.
[[nodiscard]] Result<Kilocalories> calories_by(Seconds time, CaloriesPerHour rate, Seconds spin_up = Seconds{0});

} // namespace pacecells
