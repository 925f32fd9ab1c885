// The ERG family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

using UnitOption = Option<&parse_erg_unit>;

// What is rarely asked has functions of its own, so that a rate is converted in few steps.
[[gnu::noinline]] Result<double> seconds_of_split(const NumberOrText& value) {
    const auto split = Read<SplitTime>::from(as_cell(value));
    if (!split)
        return detail::about(0, split.error());
    const double seconds = split->value.value();
    const auto watts = convert(seconds, ErgUnit::split, ErgUnit::watts);
    if (watts && *watts > PowerNumber::bound)
        return out_of_domain("A split of %1 s is %2 W: nobody can mean more than %3 W.", seconds, std::round(*watts),
                             PowerNumber::bound);
    return seconds;
}

[[gnu::noinline]] Error not_a_rate(const NumberOrText& value, int most) {
    const auto* number = std::get_if<double>(&value.value);
    return number ? detail::about(0, detail::number_up_to(most, Cell{*number}).error())
                  : out_of_domain("A text is understood for a split only; other values are numbers.");
}

Result<double> erg_convert(NumberOrText value, UnitOption from, UnitOption to, std::optional<MachineOption> machine) {
    double given = 0;
    if (from.value == ErgUnit::split) {
        const auto seconds = seconds_of_split(value);
        if (!seconds)
            return seconds.error();
        given = *seconds;
    } else {
        const int most = from.value == ErgUnit::watts ? PowerNumber::bound : RateNumber::bound;
        const auto* number = std::get_if<double>(&value.value);
        if (!number || *number > most)
            return not_a_rate(value, most);
        given = *number;
    }
    auto converted = convert(given, from.value, to.value, value_or(machine, Machine::row));
    if (!converted || to.value != ErgUnit::split)
        return converted;
    return *converted / seconds_a_day;
}

Result<Watts> erg_watts(DistanceNumber distance, ShortTime time, std::optional<MachineOption> machine) {
    const auto watts = power_over(Metres{distance.value}, time.value, value_or(machine, Machine::row));
    return watts ? believable(*watts, time.value) : watts;
}

Result<Seconds> erg_time(CalorieNumber calories, RateNumber rate, std::optional<PlainSeconds> spin_up) {
    return time_for(Kilocalories{calories.value}, CaloriesPerHour{rate.value}, value_or(spin_up, Seconds{0}));
}

Result<CaloriesPerHour> erg_rate(CalorieNumber calories, Duration time, std::optional<PlainSeconds> spin_up) {
    return rate_for(Kilocalories{calories.value}, time.value, value_or(spin_up, Seconds{0}));
}

Result<Kilocalories> erg_calories(AnyTime time, RateNumber rate, std::optional<PlainSeconds> spin_up) {
    return calories_by(time.value, CaloriesPerHour{rate.value}, value_or(spin_up, Seconds{0}));
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&erg_convert>("ergConvert", "ERG.CONVERT",
                      "Converts between calories per hour, watts and split of an ergometer: rower, ski or bike.",
                      {{"value", "Value to convert; a split is a time."},
                       {"from", "Its unit: \"cal/h\", \"W\" or \"split\"."},
                       {"to", "Unit wanted: \"cal/h\", \"W\" or \"split\"."},
                       {"machine", machine_text, "row"}},
                      "300 to 5000 cal/h; exactly 300 is 0 W and has no split. 0 to 3000 W. A split is at least 0:48.9 "
                      "(3000 W) and below 10 min. \"armbike\" is refused: its calories do not follow this formula.",
                      "Power and split: A. Dudhia, The Physics of Ergometers. Calories: 300 + 4 x 0.8604 W, from "
                      "memory; within 0.4% of Dudhia's formula. Air-braked monitors of this formula only: check yours.",
                      {"1000;\"cal/h\";\"W\"", "203.394"}),
    row<&erg_time>(
        "ergTime", "ERG.TIME", "Time until that many calories are done on an ergometer.",
        {{"calories", "Calories to do."}, {"cal_per_hour", "Rate in cal/h."}, {"spin_up_s", spin_up_text, 0}},
        "calories and rate above 0.", arithmetic, {"15;1000", "0:54"}),
    row<&erg_rate>("ergRate", "ERG.RATE", "Rate in cal/h on an ergometer that completes the calories in that time.",
                   {{"calories", "Calories to do."}, {"time", "Time for them."}, {"spin_up_s", spin_up_text, 0}},
                   "calories and time above 0; Err:523 where the spin-up takes all the time.", arithmetic,
                   {"20;\"1:00\"", "1200"}),
    row<&erg_calories>(
        "ergCalories", "ERG.CALORIES",
        "Calories done by then on an ergometer, with decimals; 0 until the spin-up is over.",
        {{"time", "Time on the ergometer."}, {"cal_per_hour", "Rate in cal/h."}, {"spin_up_s", spin_up_text, 0}},
        "time at least 0, rate above 0.", arithmetic, {"\"0:54\";1000", "15"}),
    row<&erg_watts>("ergWatts", "ERG.WATTS",
                    "Mean watts of an ergometer (rower, ski or bike) over a distance done in that time.",
                    {{"distance", "Distance in metres."}, {"time", "Time for it."}, {"machine", machine_text, "row"}},
                    "distance and time above 0, time below 1 h. Watts above what the best in the world hold for that "
                    "long are refused. \"armbike\" has no formula.",
                    "A. Dudhia, The Physics of Ergometers. The most that people hold is judgement, from memory.",
                    {"1000;\"3:52\"", "224.230"}),
};

} // namespace

std::span<const Row> erg_rows() { return rows; }

} // namespace pacecells
