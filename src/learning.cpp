#include "pacecells/learning.h"

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"

#include "check.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace pacecells {
namespace {

constexpr double exponent_error = 0.04; // of watts over time, in predict_power

Result<Held> checked(Held held) {
    if (!positive(held.power.value()))
        return out_of_domain("The power held must be above 0 W; got %1.", held.power.value());
    if (!positive(held.error))
        return out_of_domain("The error of a result must be above 0, such as 0.05; got %1.", held.error);
    return held;
}

// What one result, or more, say of the tests, in percent.
Said counted_as(bool one, bool more, double said, double counted) {
    if (more)
        return one ? say("Your last result says that you hold %1% more than your tests promise; since one "
                         "result can be luck, we count %2%.",
                         said, counted)
                   : say("Your last results say that you hold %1% more than your tests promise; since one "
                         "result can be luck, we count %2%.",
                         said, counted);
    return one ? say("Your last result says that you hold %1% less than your tests promise; since one "
                     "result can be bad luck, we count %2%.",
                     said, counted)
               : say("Your last results say that you hold %1% less than your tests promise; since one "
                     "result can be bad luck, we count %2%.",
                     said, counted);
}

// The same where what counts rounds to 0.
Said hardly_counted(bool one, bool more, double said) {
    if (more)
        return one ? say("Your last result says that you hold %1% more than your tests promise; it can be luck, and "
                         "changes almost nothing.",
                         said)
                   : say("Your last results say that you hold %1% more than your tests promise; they can be luck, and "
                         "change almost nothing.",
                         said);
    return one ? say("Your last result says that you hold %1% less than your tests promise; it can be bad luck, and "
                     "changes almost nothing.",
                     said)
               : say("Your last results say that you hold %1% less than your tests promise; they can be bad luck, and "
                     "change almost nothing.",
                     said);
}

} // namespace

Result<Held> held_when_timed(Kilocalories calories, std::span<const Seconds> ergometer_times) {
    if (ergometer_times.empty())
        return out_of_domain("An ergometer time is needed, of one round or more.");
    Seconds all{0};
    for (const Seconds time : ergometer_times) {
        if (!positive(time.value()))
            return out_of_domain("An ergometer time must be above 0 s; got %1.", time.value());
        all += time;
    }
    const auto rounds = static_cast<double>(ergometer_times.size());
    const auto rate = rate_for(calories * rounds, all);
    if (!rate)
        return rate.error();
    const auto watts = power(*rate);
    if (!watts)
        return watts.error();
    return checked({.power = *watts, .error = std::hypot(day_error, round_error / std::sqrt(rounds))});
}

Result<Held> held_by_total(Kilocalories calories, CaloriesPerHour rate, Seconds unsure) {
    if (!not_negative(unsure.value()))
        return out_of_domain("The seconds unsure must be 0 or more; got %1.", unsure.value());
    const auto time = time_for(calories, rate);
    if (!time)
        return time.error();
    const auto watts = power(rate);
    if (!watts)
        return watts.error();
    const double in_watts = rate.value() / (rate - *calorie_rate(Watts{0})).value(); // 1 % of the rate is more of these
    return checked({.power = *watts, .error = std::hypot(day_error, in_watts * (unsure / *time))});
}

Result<Observation> observed(const Held& held, Watts promised) {
    if (auto valid = checked(held); !valid)
        return valid.error();
    if (!positive(promised.value()))
        return out_of_domain("The power promised must be above 0 W; got %1.", promised.value());
    return Observation{.ratio = held.power / promised, .error = held.error};
}

Result<Factor> personal_factor(std::span<const Observation> results, double spread) {
    if (!positive(spread))
        return out_of_domain("The spread must be above 0, such as 0.1; got %1.", spread);
    double weight = 1 / (spread * spread);
    double sum = 0;
    for (const auto& [ratio, error] : results) {
        if (!(ratio >= least_ratio) || !(ratio <= most_ratio))
            return out_of_domain("A ratio of a result is %1; it must be from 0.4 to 2.5.", ratio);
        if (!positive(error))
            return out_of_domain("The error of a result must be above 0, such as 0.05; got %1.", error);
        weight += 1 / (error * error);
        sum += std::log(ratio) / (error * error);
    }
    if (!std::isfinite(weight) || !std::isfinite(sum))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return Factor{.value = std::clamp(std::exp(sum / weight), least_factor, most_factor),
                  .error = 1 / std::sqrt(weight)};
}

Result<Learnt> learnt_from(std::span<const Observation> results, double spread) {
    const auto factor = personal_factor(results, spread);
    if (!factor)
        return factor.error();
    Learnt learnt{.factor = *factor, .results = results.size(), .sentence = {}};
    if (results.empty()) {
        learnt.sentence = say("No result says yet what you hold beside your tests.");
        return learnt;
    }
    double weight = 0;
    double sum = 0;
    for (const auto& [ratio, error] : results) {
        weight += 1 / (error * error);
        sum += std::log(ratio) / (error * error);
    }
    learnt.ratio = std::exp(sum / weight);
    const auto percent = [](double value) { return std::abs(std::round(100 * (value - 1))); };
    const double said = percent(learnt.ratio);
    const double counted = percent(factor->value);
    const bool one = results.size() == 1;
    if (said == 0)
        learnt.sentence = one ? say("Your last result says that you hold what your tests promise.")
                              : say("Your last results say that you hold what your tests promise.");
    else if (counted == 0)
        learnt.sentence = hardly_counted(one, learnt.ratio > 1, said);
    else
        learnt.sentence = counted_as(one, learnt.ratio > 1, said, counted);
    return learnt;
}

Result<Held> held_by_one_test(Watts power, Seconds time, Seconds cap) {
    const auto at_cap = predict_power(power, time, cap);
    if (!at_cap)
        return at_cap.error();
    return Held{.power = *at_cap, .error = exponent_error * std::abs(std::log(cap / time))};
}

Result<Held> carried_over(const EarlierEvent& earlier, Seconds cap, double share) {
    if (auto valid = checked(earlier.held); !valid)
        return valid;
    if (!positive(earlier.share) || !positive(share))
        return out_of_domain("A share to plan with must be above 0; got %1 and %2.", earlier.share, share);
    auto step = held_by_one_test(earlier.held.power, earlier.cap, cap);
    if (!step)
        return step;
    return checked({.power = step->power * (share / earlier.share),
                    .error = std::hypot(earlier.held.error, day_error, step->error)});
}

Result<Held> held_lately(std::span<const EarlierEvent> results) {
    if (results.empty())
        return out_of_domain("One result or more is needed.");
    const auto& last = results.back();
    if (results.size() == 1)
        return checked(last.held);
    std::vector<Held> carried;
    for (const auto& result : results) {
        auto held = carried_over(result, last.cap, last.share);
        if (!held)
            return held;
        carried.push_back(*held);
    }
    return mean_of(carried);
}

Result<Held> mean_of(std::span<const Held> results) {
    if (results.empty())
        return out_of_domain("One result or more is needed.");
    double weight = 0;
    Watts sum{0};
    for (const Held& held : results) {
        if (auto valid = checked(held); !valid)
            return valid;
        weight += 1 / (held.error * held.error);
        sum += held.power / (held.error * held.error);
    }
    return checked({.power = sum / weight, .error = std::max(day_error, 1 / std::sqrt(weight))});
}

Result<double> doubt_of(double factor_error, double test_error) {
    if (!not_negative(factor_error) || !not_negative(test_error))
        return out_of_domain("Errors must be 0 or more; got %1 and %2.", factor_error, test_error);
    return std::hypot(factor_error, day_error, test_error);
}

} // namespace pacecells
