#include "pacecells/critical_power.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "pacecells/ergometer.h"
#include "pacecells/line.h"
#include "pacecells/text.h"

namespace pacecells {
namespace {

bool positive(double value) { return value > 0 && std::isfinite(value); }

Error needs_positive(const char* what, double got, const char* unit) {
    return out_of_domain(std::string("The ") + what + " is " + number_text(got) + unit +
                         "; a number above 0 is needed.");
}

} // namespace

Result<CriticalPower> checked(CriticalPower values) {
    if (!positive(values.critical.value()))
        return needs_positive("critical power", values.critical.value(), " W");
    if (!positive(values.reserve.value()))
        return needs_positive("reserve", values.reserve.value(), " J");
    return values;
}

Result<CriticalPowerFit> fit_critical_power(std::span<const Seconds> times, std::span<const Watts> watts) {
    if (times.size() != watts.size())
        return out_of_domain("There are " + std::to_string(times.size()) + " test times and " +
                             std::to_string(watts.size()) + " powers; each test needs both.");
    if (times.size() < 2)
        return out_of_domain("Two tests or more are needed, of different length.");
    for (const Seconds time : times)
        if (!positive(time.value()))
            return needs_positive("test time", time.value(), " s");
    for (const Watts power : watts)
        if (!positive(power.value()))
            return needs_positive("power of a test", power.value(), " W");
    std::vector<Seconds> sorted(times.begin(), times.end());
    std::sort(sorted.begin(), sorted.end());
    if (const auto twice = std::adjacent_find(sorted.begin(), sorted.end()); twice != sorted.end())
        return out_of_domain("Two tests last " + number_text(twice->value()) +
                             " s; tests of different length are needed.");

    const Line line = fit_line(
        times.size(), [times](std::size_t i) { return times[i].value(); },
        [times, watts](std::size_t i) { return watts[i].value() * times[i].value(); });
    const CriticalPower values{.critical = Watts{line.slope}, .reserve = Joules{line.intercept()}};
    if (!std::isfinite(values.critical.value()) || !std::isfinite(values.reserve.value()))
        return out_of_domain("The tests are too large to compute with.");
    // What arithmetic leaves of an exact 0 (tests of equal power, or of equal work) is not above 0.
    constexpr double nothing = 1e-12;
    if (!(values.reserve.value() > nothing * line.mean_y))
        return no_solution("The tests leave no reserve above the critical power: the longer ones have too much power "
                           "for the shorter ones. Were all of them maximal?");
    if (!(values.critical.value() > nothing * line.mean_y / line.mean_x))
        return no_solution("The tests leave no critical power: the longer ones have too little for the shorter ones. "
                           "Were all of them maximal?");
    CriticalPowerFit fit{.values = values, .critical_error = {}, .reserve_error = {}, .r_squared = {}};
    if (times.size() > 2) {
        fit.critical_error = Watts{line.slope_error()};
        fit.reserve_error = Joules{line.intercept_error()};
        fit.r_squared = line.r_squared();
    }
    return fit;
}

Result<Watts> power_for(Seconds time, CriticalPower values) {
    if (!positive(time.value()))
        return needs_positive("time", time.value(), " s");
    if (auto valid = checked(values); !valid)
        return valid.error();
    const Watts power{values.critical.value() + values.reserve.value() / time.value()};
    if (!std::isfinite(power.value()))
        return out_of_domain("The time of " + number_text(time.value()) + " s is too short for a power.");
    return power;
}

Result<CaloriesPerHour> rate_alone(Seconds cap, CriticalPower values) { return rate_floor(cap, values, 1); }

Result<CaloriesPerHour> rate_floor(Seconds cap, CriticalPower values, double share) {
    if (!(share > 0) || !(share <= 1))
        return out_of_domain("The share is " + number_text(share) + "; above 0 and at most 1 is needed.");
    const auto alone = power_for(cap, values);
    if (!alone)
        return alone.error();
    return calorie_rate(share * *alone);
}

Result<Seconds> predict_time(Seconds known_time, Metres known_distance, Metres distance, double exponent) {
    if (!positive(known_time.value()))
        return needs_positive("known time", known_time.value(), " s");
    if (!positive(known_distance.value()))
        return needs_positive("known distance", known_distance.value(), " m");
    if (!positive(distance.value()))
        return needs_positive("distance", distance.value(), " m");
    if (!positive(exponent))
        return needs_positive("exponent", exponent, "");
    const Seconds time = known_time * std::pow(distance / known_distance, exponent);
    if (!positive(time.value()))
        return out_of_domain("The distances are too far apart to predict from.");
    return time;
}

} // namespace pacecells
