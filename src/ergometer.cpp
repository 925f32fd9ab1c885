// Symbols: P power in W, R rate in kcal/h, s split in s.
#include "pacecells/ergometer.h"

#include "check.h"

#include <cmath>
#include <optional>

namespace pacecells {

namespace {

constexpr double resting_rate = 300;              // kcal/h that the monitor counts at 0 W
constexpr double rate_per_watt = 4 * 0.8604;      // kcal/h for each W
constexpr double power_times_split_cubed = 3.5e8; // 2.80 * 500^3 and 0.35 * 1000^3 alike, W s^3
constexpr double seconds_per_hour = 3600;
constexpr double no_room = 1e-9; // s; what is left of a time that came out of day fractions is no room to work in

Result<Watts> to_watts(double value, ErgUnit from) {
    switch (from) {
    case ErgUnit::calories_per_hour:
        return power(CaloriesPerHour{value});
    case ErgUnit::split:
        return power_at_split(Seconds{value});
    case ErgUnit::watts:
        break;
    }
    if (!not_negative(value))
        return out_of_domain("The power must be 0 W or more; got %1.", value);
    return Watts{value};
}

template <class Quantity>
Result<double> plain(const Result<Quantity>& result) {
    if (!result)
        return result.error();
    return result->value();
}

std::optional<Error> refuse_rate(CaloriesPerHour rate) {
    if (positive(rate.value()))
        return std::nullopt;
    return out_of_domain("The rate must be above 0 cal/h; got %1.", rate.value());
}

std::optional<Error> refuse_calories(Kilocalories calories) {
    if (positive(calories.value()))
        return std::nullopt;
    return out_of_domain("The calories must be above 0; got %1.", calories.value());
}

std::optional<Error> refuse_spin_up(Seconds spin_up) {
    if (not_negative(spin_up.value()))
        return std::nullopt;
    return out_of_domain("The spin-up must be 0 s or more; got %1.", spin_up.value());
}

} // namespace

Result<Machine> parse_machine(std::string_view text) {
    const auto name = fold(text);
    if (name == "row")
        return Machine::row;
    if (name == "ski")
        return Machine::ski;
    if (name == "bike")
        return Machine::bike;
    if (name == "armbike")
        return Machine::armbike;
    return out_of_domain("%1 is not a machine: write row, ski, bike or armbike.", quoted(text));
}

Result<ErgUnit> parse_erg_unit(std::string_view text) {
    const auto name = fold(text);
    if (name == "cal/h")
        return ErgUnit::calories_per_hour;
    if (name == "w")
        return ErgUnit::watts;
    if (name == "split")
        return ErgUnit::split;
    return out_of_domain("%1 is not a unit here: write cal/h, W or split.", quoted(text));
}

Result<Metres> split_distance(Machine machine) {
    switch (machine) {
    case Machine::row:
    case Machine::ski:
        return Metres{500};
    case Machine::bike:
        return Metres{1000};
    case Machine::armbike:
        break;
    }
    return out_of_domain("A fan bike has no split: enter its rate in cal/h.");
}

Result<Watts> power(CaloriesPerHour rate) {
    if (!(rate.value() >= resting_rate)) {
        return out_of_domain("The rate must be at least 300 cal/h, which the monitor counts at no power; got %1.",
                             rate.value());
    }
    return finite(Watts{(rate.value() - resting_rate) / rate_per_watt});
}

Result<CaloriesPerHour> calorie_rate(Watts power) {
    if (!not_negative(power.value()))
        return out_of_domain("The power must be 0 W or more; got %1.", power.value());
    return finite(CaloriesPerHour{resting_rate + rate_per_watt * power.value()});
}

Result<Watts> power_at_split(Seconds split) {
    const double s = split.value();
    if (!positive(s))
        return out_of_domain("The split must be above 0 s; got %1.", s);
    return finite(Watts{power_times_split_cubed / (s * s * s)});
}

Result<Seconds> split_at_power(Watts power) {
    if (!not_negative(power.value()))
        return out_of_domain("The power must be 0 W or more; got %1.", power.value());
    if (power.value() == 0)
        return no_solution("At 0 W (300 cal/h) nothing moves, so there is no split.");
    return finite(Seconds{std::cbrt(power_times_split_cubed / power.value())});
}

Result<Watts> power_over(Metres distance, Seconds time, Machine machine) {
    const auto base = split_distance(machine);
    if (!base)
        return base.error();
    if (!positive(distance.value()))
        return out_of_domain("The distance must be above 0 m; got %1.", distance.value());
    if (!positive(time.value()))
        return out_of_domain("The time must be above 0 s; got %1.", time.value());
    return power_at_split(time * (*base / distance));
}

Result<double> convert(double value, ErgUnit from, ErgUnit to, Machine machine) {
    if (machine == Machine::armbike) {
        return out_of_domain("A fan bike does not count calories by this formula: convert for row, ski or bike.");
    }
    const auto watts = to_watts(value, from);
    if (!watts)
        return watts.error();
    if (from == to)
        return value;
    switch (to) {
    case ErgUnit::calories_per_hour:
        return plain(calorie_rate(*watts));
    case ErgUnit::split:
        return plain(split_at_power(*watts));
    case ErgUnit::watts:
        break;
    }
    return watts->value();
}

Result<Seconds> time_for(Kilocalories calories, CaloriesPerHour rate, Seconds spin_up) {
    if (auto error = refuse_calories(calories))
        return *std::move(error);
    if (auto error = refuse_rate(rate))
        return *std::move(error);
    if (auto error = refuse_spin_up(spin_up))
        return *std::move(error);
    return finite(spin_up + Seconds{seconds_per_hour * calories.value() / rate.value()});
}

Result<CaloriesPerHour> rate_for(Kilocalories calories, Seconds time, Seconds spin_up) {
    if (auto error = refuse_calories(calories))
        return *std::move(error);
    if (!positive(time.value()))
        return out_of_domain("The time must be above 0 s; got %1.", time.value());
    if (auto error = refuse_spin_up(spin_up))
        return *std::move(error);
    const auto left = time - spin_up;
    if (!(left.value() > no_room)) {
        return no_solution("No rate is high enough: the spin-up leaves no time for the calories.");
    }
    return finite(CaloriesPerHour{seconds_per_hour * calories.value() / left.value()});
}

Result<Kilocalories> calories_by(Seconds time, CaloriesPerHour rate, Seconds spin_up) {
    if (!not_negative(time.value()))
        return out_of_domain("The time must be 0 s or more; got %1.", time.value());
    if (auto error = refuse_rate(rate))
        return *std::move(error);
    if (auto error = refuse_spin_up(spin_up))
        return *std::move(error);
    if (time <= spin_up)
        return Kilocalories{0};
    return finite(Kilocalories{(time - spin_up).value() * rate.value() / seconds_per_hour});
}

} // namespace pacecells
