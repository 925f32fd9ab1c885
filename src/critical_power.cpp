#include "pacecells/critical_power.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "pacecells/clock.h"
#include "pacecells/ergometer.h"
#include "pacecells/line.h"
#include "pacecells/text.h"

#include "check.h"

namespace pacecells {
Result<CriticalPower> checked(CriticalPower values) {
    if (!positive(values.critical.value()))
        return out_of_domain("The critical power must be above 0 W; got %1.", values.critical.value());
    if (!positive(values.reserve.value()))
        return out_of_domain("The reserve must be above 0 J; got %1.", values.reserve.value());
    return values;
}

Result<CriticalPowerFit> fit_critical_power(std::span<const Seconds> times, std::span<const Watts> watts) {
    if (times.size() != watts.size())
        return out_of_domain("There are %1 test times and %2 powers; each test needs both.", times.size(),
                             watts.size());
    if (times.size() < 2)
        return out_of_domain("Two tests or more are needed, of different length.");
    for (const Seconds time : times)
        if (!positive(time.value()))
            return out_of_domain("A test time must be above 0 s; got %1.", time.value());
    for (const Watts power : watts)
        if (!positive(power.value()))
            return out_of_domain("The power of a test must be above 0 W; got %1.", power.value());
    std::vector<Seconds> sorted(times.begin(), times.end());
    std::sort(sorted.begin(), sorted.end());
    if (const auto twice = std::adjacent_find(sorted.begin(), sorted.end()); twice != sorted.end())
        return out_of_domain("Two tests last %1 s; tests of different length are needed.", twice->value());

    const Line line = fit_line(
        times.size(), [times](std::size_t i) { return times[i].value(); },
        [times, watts](std::size_t i) { return watts[i].value() * times[i].value(); });
    const CriticalPower values{.critical = Watts{line.slope}, .reserve = Joules{line.intercept()}};
    if (!std::isfinite(line.slope) || !std::isfinite(line.intercept()) || !std::isfinite(line.residual_sum))
        return out_of_domain("The tests are too large to compute with.");
    // What arithmetic leaves of an exact 0 (tests of equal power, or of equal work) is not above 0.
    constexpr double nothing = 1e-12;
    if (!(values.reserve.value() > nothing * line.mean_y))
        return no_solution("The tests leave no reserve above critical power: the longer ones are too strong compared "
                           "with the shorter ones. Not all were maximal.");
    if (!(values.critical.value() > nothing * line.mean_y / line.mean_x))
        return no_solution("The tests leave no critical power: the longer ones have too little for the shorter ones. "
                           "Not all of them were maximal.");
    CriticalPowerFit fit{.values = values, .critical_error = {}, .reserve_error = {}, .r_squared = {}};
    if (times.size() > 2) {
        fit.critical_error = Watts{line.slope_standard_error()};
        fit.reserve_error = Joules{line.intercept_standard_error()};
        fit.r_squared = line.r_squared();
    }
    return fit;
}

Result<Watts> power_for(Seconds time, CriticalPower values) {
    if (!positive(time.value()))
        return out_of_domain("The time must be above 0 s; got %1.", time.value());
    if (auto valid = checked(values); !valid)
        return valid.error();
    return finite(values.critical + Watts{values.reserve.value() / time.value()});
}

Result<CaloriesPerHour> rate_alone(Seconds cap, CriticalPower values) { return rate_floor(cap, values, 1); }

Result<CaloriesPerHour> rate_floor(Seconds cap, CriticalPower values, double share) {
    const auto alone = power_for(cap, values);
    return alone ? rate_in_mixed_task(*alone, share) : Result<CaloriesPerHour>{alone.error()};
}

Result<CaloriesPerHour> rate_in_mixed_task(Watts alone, double share) {
    if (!(share > 0) || !(share <= 1))
        return out_of_domain("The share must be above 0 and at most 1; got %1.", share);
    return calorie_rate(share * alone);
}

Result<Seconds> predict_time(Seconds known_time, Metres known_distance, Metres distance, double exponent) {
    if (!positive(known_time.value()))
        return out_of_domain("The known time must be above 0 s; got %1.", known_time.value());
    if (!positive(known_distance.value()))
        return out_of_domain("The known distance must be above 0 m; got %1.", known_distance.value());
    if (!positive(distance.value()))
        return out_of_domain("The distance must be above 0 m; got %1.", distance.value());
    if (!positive(exponent))
        return out_of_domain("The exponent must be above 0; got %1.", exponent);
    const Seconds time = known_time * std::pow(distance / known_distance, exponent);
    if (!positive(time.value()))
        return out_of_domain("The distances are too far apart to predict from.");
    return time;
}

Result<Watts> predict_power(Watts known_power, Seconds known_time, Seconds time) {
    if (!positive(known_power.value()))
        return out_of_domain("The power of a test must be above 0 W; got %1.", known_power.value());
    for (const Seconds given : {known_time, time})
        if (!positive(given.value()))
            return out_of_domain("The time must be above 0 s; got %1.", given.value());
    return finite(known_power * std::pow(known_time / time, 3 - 3 / riegel_exponent));
}

Result<Watts> most_watts(Seconds time) {
    struct Best {
        double minutes;
        double watts;
    };
    constexpr std::array best{Best{1, 1000}, Best{4, 650}, Best{6, 600}, Best{15, 480}, Best{60, 400}};
    if (!positive(time.value()))
        return out_of_domain("The time must be above 0 s; got %1.", time.value());
    const double minutes = time.value() / 60;
    std::size_t to = 1;
    while (to + 1 < best.size() && minutes > best[to].minutes)
        ++to;
    const auto [m0, w0] = best[to - 1];
    const auto [m1, w1] = best[to];
    return finite(Watts{w0 * std::pow(minutes / m0, std::log(w1 / w0) / std::log(m1 / m0))});
}

std::optional<Seconds> beyond_the_best(const CriticalPower& values) {
    for (const Seconds time : {Seconds{240}, Seconds{900}}) {
        const auto watts = power_for(time, values);
        const auto most = most_watts(time);
        if (watts && most && *watts > *most)
            return time;
    }
    return std::nullopt;
}

Result<Watts> believable(Watts power, Seconds time) {
    const auto most = most_watts(time);
    if (!most)
        return most.error();
    if (!positive(power.value()))
        return out_of_domain("The power of a test must be above 0 W; got %1.", power.value());
    if (power > *most) {
        const auto clock = clock_text(time);
        if (!clock)
            return clock.error();
        return out_of_domain("%1 W for %2 is more than the best in the world hold, about %3 W. Is the unit right?",
                             std::round(power.value()), *clock, std::round(most->value()));
    }
    return power;
}

} // namespace pacecells
