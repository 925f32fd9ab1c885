// Symbols as in the header: CP and W' (reserve) of the athlete, t_e and t_w the times of ergometer and work, T the
// round, p and v the power of the two above critical, E what a round spends, d what decays in it.
#include "pacecells/reserve.h"

#include "pacecells/ergometer.h"

#include "check.h"
#include "quiet.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace pacecells {
namespace {

constexpr double slack = 1e-9; // of a round: a cap that is a whole number of rounds begins no further one

// 1 + q + ... + q^(m-1) for q = exp(-decay).
double geometric_sum(double m, double decay) {
    return decay <= 1e-12 ? m : std::expm1(-m * decay) / std::expm1(-decay);
}

// One task at one power on the ergometer.
class Balance {
  public:
    Balance(const MixedTask& task, Watts power, CaloriesPerHour rate)
        : cap_(task.cap.value()), erg_time_(3600 * task.calories.value() / rate.value()),
          work_time_(task.other.work().value()), round_time_(erg_time_ + task.other.time.value()),
          erg_above_((power - task.values.critical).value()),
          work_above_((task.work_share * power - task.values.critical).value()) {
        const double critical = task.values.critical.value();
        each_round_ = erg_above_ * erg_time_ + std::max(work_above_, 0.0) * work_time_;
        decay_ = (std::max(-work_above_, 0.0) * work_time_ + (1 - walking_effort) * critical * task.other.walk.value() +
                  critical * task.other.rest.value()) /
                 task.values.reserve.value();
    }

    [[nodiscard]] double rounds_begun() const { return std::ceil(cap_ / round_time_ - slack); }

    [[nodiscard]] double spent_in(double rounds) const {
        return erg_above_ > 0 ? each_round_ * geometric_sum(rounds, decay_) : 0;
    }
    [[nodiscard]] double spent() const {
        if (!(erg_above_ > 0))
            return 0;
        if (cap_ <= erg_time_)
            return erg_above_ * cap_;
        const double after_erg =
            erg_above_ * erg_time_ + std::exp(-decay_) * spent_in((cap_ - erg_time_) / round_time_);
        return work_above_ > 0 ? std::max(after_erg, spent_after_work()) : after_erg;
    }

  private:
    [[nodiscard]] double spent_after_work() const {
        const double after = cap_ - erg_time_ - work_time_;
        return after < 0 ? erg_above_ * erg_time_ + work_above_ * (cap_ - erg_time_)
                         : spent_in(after / round_time_ + 1);
    }

    double cap_;
    double erg_time_;
    double work_time_;
    double round_time_;
    double erg_above_;
    double work_above_;
    double each_round_;
    double decay_;
};

std::optional<Error> refused(const MixedTask& task) {
    if (!positive(task.cap.value()))
        return out_of_domain("The cap must be above 0 s; got %1.", task.cap.value());
    if (!positive(task.calories.value()))
        return out_of_domain("The calories must be above 0; got %1.", task.calories.value());
    if (auto error = refused(task.other))
        return error;
    if (auto valid = checked(task.values); !valid)
        return valid.error();
    if (task.work_share > 1 && std::isfinite(task.work_share))
        return out_of_domain("The work share is %1, but no station counts harder than the ergometer: at most 1 is "
                             "needed, such as 0.9.",
                             task.work_share);
    if (!positive(task.work_share))
        return out_of_domain("The work share must be above 0 and at most 1, such as 0.9; got %1.", task.work_share);
    return {};
}

} // namespace

Seconds OtherStations::work() const { return std::max(Seconds{0}, time - walk - rest); }

std::optional<Error> refused(const OtherStations& other) {
    if (!not_negative(other.time.value()))
        return out_of_domain("The time for everything else must be 0 s or more; got %1.", other.time.value());
    if (!not_negative(other.walk.value()))
        return out_of_domain("The walking must be 0 s or more; got %1.", other.walk.value());
    if (!not_negative(other.rest.value()))
        return out_of_domain("The rest must be 0 s or more; got %1.", other.rest.value());
    if (!((other.walk + other.rest).value() <= other.time.value() * (1 + 1e-12)))
        return out_of_domain(
            "Walking and rest are %1 s together, but the time for everything else is %2 s: they are part of it.",
            (other.walk + other.rest).value(), other.time.value());
    return {};
}

Result<CaloriesPerHour> hold_rate(const MixedTask& task, double keep) {
    if (!(keep >= 0) || !(keep < 1))
        return out_of_domain("The share to keep must be from 0 to below 1; got %1.", keep);
    if (auto error = refused(task))
        return *error;
    const double limit = (1 - keep) * task.values.reserve.value();
    const Watts most{task.values.reserve.value() / task.cap.value()};
    const Watts least = (1 - keep) * most;
    auto alone = rate_alone(task.cap, task.values);
    auto lowest = calorie_rate(task.values.critical + least);
    if (!alone || !lowest)
        return alone ? lowest : alone;
    // From the lowest (0) to the rate alone (1).
    const auto at = [&](double place) { return *lowest + place * (*alone - *lowest); };
    const auto excess = [&](double place) {
        return Balance{task, task.values.critical + least + place * (most - least), at(place)}.spent() - limit;
    };
    const double above = excess(1);
    if (!std::isfinite(above))
        return out_of_domain("These numbers are too large or too small to compute with.");
    if (above <= 0)
        return alone;
    const double below = excess(0);
    if (!(below < 0))
        return lowest;
    std::uintmax_t steps = 100;
    const auto [fits, overdraws] = boost::math::tools::toms748_solve(
        excess, 0.0, 1.0, below, above, boost::math::tools::eps_tolerance<double>(44), steps, Quiet{});
    return at(fits);
}

Result<double> reserve_left(const MixedTask& task, CaloriesPerHour rate, std::optional<double> round) {
    if (auto error = refused(task))
        return *error;
    const auto watts = power(rate);
    if (!watts)
        return watts.error();
    const Balance balance{task, *watts, rate};
    double spent = 0;
    if (round) {
        if (!(*round >= 1) || *round != std::floor(*round) || !std::isfinite(*round))
            return out_of_domain("The round must be a whole number from 1; got %1.", *round);
        if (*round > balance.rounds_begun())
            return no_solution("Round %1 does not start before the cap; the last one is %2.", *round,
                               balance.rounds_begun());
        spent = balance.spent_in(*round);
    } else {
        spent = balance.spent();
    }
    const double left = 1 - spent / task.values.reserve.value();
    if (!std::isfinite(left))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return left;
}

} // namespace pacecells
