// Symbols: u = 1 / rate; spend = (power - critical) * ergometer time, a straight line in u; S = spent so far.
// The ergometer maps S to a S + b, the other stations to c S + d, with a = exp(-erg_decay), c = exp(-other_decay).
// Either a = 1 or b = 0, either c = 1 or d = 0. So after the ergometer of round n
//   S = r^(n-1) b + h (1 + r + ... + r^(n-2)), r = a c, h = a d + b,
// and no round has to be stepped through.
#include "pacecells/reserve.h"

#include <algorithm>
#include <boost/math/policies/policy.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>

#include "pacecells/ergometer.h"
#include "pacecells/text.h"

#include "check.h"

namespace pacecells {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double slack = 1e-9; // of a round: a cap that is a whole number of rounds begins no further one

// 1 + q + ... + q^(n-1) for q = exp(-decay).
double geometric_sum(double n, double decay) { return decay == 0 ? n : std::expm1(-n * decay) / std::expm1(-decay); }

// The decay for which the sum above is s. Domain: 1 < s <= n.
double decay_for_sum(double n, double s) {
    const auto off = [=](double decay) { return geometric_sum(n, decay) - s; };
    const double most = -std::log1p(-1 / s); // were n endless
    const double at_most = off(most);
    if (!(at_most < 0))
        return most;
    if (s == n)
        return 0;
    namespace policies = boost::math::policies;
    using Quiet = policies::policy<policies::domain_error<policies::ignore_error>,
                                   policies::evaluation_error<policies::ignore_error>>;
    std::uintmax_t steps = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        off, 0.0, most, n - s, at_most, boost::math::tools::eps_tolerance<double>(51), steps, Quiet{});
    return low + (high - low) / 2;
}

// The affine map of a stretch of time at a power: what it adds where above critical, how far what is spent decays
// where below.
struct Stretch {
    double added = 0;
    double decay = 0;
};

Stretch stretch(double spend, double reserve) {
    return spend >= 0 ? Stretch{.added = spend} : Stretch{.decay = -spend / reserve};
}

double peak(double rounds, Stretch erg, Stretch other) {
    if (rounds == 1)
        return erg.added;
    const double decay = erg.decay + other.decay;
    const double each = other.added == 0 ? erg.added : std::exp(-erg.decay) * other.added + erg.added;
    return std::exp(-(rounds - 1) * decay) * erg.added + each * geometric_sum(rounds - 1, decay);
}

class Rounds {
  public:
    static Result<Rounds> of(const MixedTask& task) {
        if (!positive(task.cap.value()))
            return out_of_domain("The cap must be above 0 s; got %1.", task.cap.value());
        if (!positive(task.calories.value()))
            return out_of_domain("The calories must be above 0; got %1.", task.calories.value());
        if (!not_negative(task.other.value()))
            return out_of_domain("The time for all else must be 0 s or more; got %1.", task.other.value());
        if (auto valid = checked(task.values); !valid)
            return valid.error();
        if (!std::isfinite(task.effort_between))
            return out_of_domain("The effort between must be a share of critical power, such as 1.1; got %1.",
                                 task.effort_between);
        const auto idle = calorie_rate(Watts{0});
        const auto at_kilowatt = calorie_rate(Watts{1000});
        if (!idle || !at_kilowatt)
            return idle ? at_kilowatt.error() : idle.error();
        return Rounds{task, idle->value(), at_kilowatt->value()};
    }

    [[nodiscard]] double cap() const { return cap_; }
    [[nodiscard]] double other_time() const { return other_; }
    [[nodiscard]] double critical() const { return critical_; }
    [[nodiscard]] double reserve() const { return reserve_; }
    [[nodiscard]] double slowest() const { return 1 / idle_; }

    // Rounds begun before the cap.
    [[nodiscard]] double begun(double u) const { return std::max(1.0, std::ceil(cap_ / (work_ * u + other_) - slack)); }
    // Rounds begun at an endless rate.
    [[nodiscard]] double most() const {
        return other_ > 0 ? std::max(1.0, std::ceil(cap_ / other_ - slack)) : infinity;
    }
    // The u at which the count jumps from n to n + 1; u itself still has n.
    [[nodiscard]] double jump(double n) const { return n < most() ? (cap_ / n - other_) / work_ : 0; }

    [[nodiscard]] double spend(double u) const { return work_ * ((1 - idle_ * u) / per_watt_ - critical_ * u); }
    [[nodiscard]] double u_of_spend(double spend) const {
        return (1 - per_watt_ * spend / work_) / (idle_ + per_watt_ * critical_);
    }

    [[nodiscard]] Stretch erg(double u) const { return stretch(spend(u), reserve_); }
    [[nodiscard]] Stretch other() const { return stretch((effort_ - 1) * critical_ * other_, reserve_); }
    [[nodiscard]] double peak_at(double n, double u) const { return peak(n, erg(u), other()); }

    // The u whose peak over n rounds is the limit.
    [[nodiscard]] double u_of_peak(double n, double limit) const {
        const Stretch between = other();
        const double idle_peak = peak(n, Stretch{}, between); // of an ergometer at critical power
        if (idle_peak > limit) // only below critical: added (a + a^2 + ... + a^(n-1)) = limit
            return u_of_spend(-reserve_ * decay_for_sum(n, 1 + limit / between.added));
        const double times_added =
            std::exp(-(n - 1) * between.decay) + (n > 1 ? geometric_sum(n - 1, between.decay) : 0);
        return u_of_spend((limit - idle_peak) / times_added);
    }

  private:
    Rounds(const MixedTask& task, double idle, double at_kilowatt)
        : cap_(task.cap.value()), work_(3600 * task.calories.value()), other_(task.other.value()),
          critical_(task.values.critical.value()), reserve_(task.values.reserve.value()), effort_(task.effort_between),
          idle_(idle), per_watt_((at_kilowatt - idle) / 1000) {}

    double cap_;
    double work_; // calories a round in cal/h times seconds
    double other_;
    double critical_;
    double reserve_;
    double effort_;
    double idle_;     // cal/h of no power
    double per_watt_; // cal/h more for each watt
};

std::optional<Error> bad_keep(double keep) {
    if (!(keep >= 0) || !(keep < 1))
        return out_of_domain("The share to keep must be from 0 to below 1; got %1.", keep);
    return {};
}

std::optional<Error> bad_rate(CaloriesPerHour rate) {
    if (auto watts = power(rate); !watts)
        return watts.error();
    return {};
}

Error does_not_bind() { return no_solution("The reserve does not bind: it says nothing about the effort between."); }

} // namespace

Result<CaloriesPerHour> hold_rate(const MixedTask& task, double keep) {
    if (auto error = bad_keep(keep))
        return *error;
    const auto valid = Rounds::of(task);
    if (!valid)
        return valid.error();
    const Rounds& rounds = *valid;
    const double limit = (1 - keep) * rounds.reserve();

    const double fewest = rounds.begun(rounds.slowest());
    if (!(rounds.peak_at(fewest, rounds.slowest()) <= limit))
        return no_solution(
            "The rest of the round alone overdraws the reserve: no rate on the ergometer is low enough.");

    // The peak grows with the rate, and where the count jumps. So: the first count whose highest rate is too high,
    // then the rate inside its band.
    const auto fits = [&](double n) { return rounds.peak_at(n, rounds.jump(n)) <= limit; };
    double low = fewest - 1;
    double high = fewest;
    while (fits(high)) {
        if (high >= rounds.most() || high > 1e9)
            return no_solution("The reserve does not bind: so few calories a round cannot overdraw it at any rate.");
        low = high;
        high = std::min(2 * high, rounds.most());
    }
    while (high - low > 1) {
        const double middle = std::floor(low + (high - low) / 2);
        (fits(middle) ? low : high) = middle;
    }
    const double start = low < fewest ? rounds.slowest() : std::min(rounds.slowest(), rounds.jump(low));
    const double u = rounds.peak_at(high, start) > limit
                         ? start
                         : std::clamp(rounds.u_of_peak(high, limit), rounds.jump(high), start);
    if (!(u > 0) || !std::isfinite(1 / u))
        return no_solution("The reserve does not bind: so few calories a round cannot overdraw it at any rate.");
    return CaloriesPerHour{1 / u};
}

Result<double> reserve_left(const MixedTask& task, CaloriesPerHour rate, std::optional<double> round) {
    const auto valid = Rounds::of(task);
    if (!valid)
        return valid.error();
    if (auto error = bad_rate(rate))
        return *error;
    const double u = 1 / rate.value();
    const double begun = valid->begun(u);
    const double n = round.value_or(begun);
    if (!(n >= 1) || n != std::floor(n) || !std::isfinite(n))
        return out_of_domain("The round must be a whole number from 1; got %1.", n);
    if (n > begun)
        return no_solution("Round %1 is not begun before the cap; the last one is %2.", n, begun);
    const double left = 1 - valid->peak_at(n, u) / valid->reserve();
    if (!std::isfinite(left))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return left;
}

Result<double> effort_between(const MixedTask& task, CaloriesPerHour rate, double keep) {
    if (auto error = bad_keep(keep))
        return *error;
    MixedTask any_effort = task;
    any_effort.effort_between = 1;
    const auto valid = Rounds::of(any_effort);
    if (!valid)
        return valid.error();
    if (auto error = bad_rate(rate))
        return *error;
    const double limit = (1 - keep) * valid->reserve();
    const double u = 1 / rate.value();
    const double n = valid->begun(u);
    const Stretch erg = valid->erg(u);
    const double at_critical = valid->critical() * valid->other_time(); // work of the other stations at effort 1
    if (n == 1 || !(at_critical > 0))
        return does_not_bind();
    if (erg.added >= limit)
        return no_solution("One round on the ergometer alone overdraws the reserve at this rate, whatever the effort.");

    double spend = 0; // of the other stations: where what is spent decays, the reserve times the decay, negative
    if (n * erg.added <= limit) {
        const double times_added = std::exp(-erg.decay) * geometric_sum(n - 1, erg.decay);
        spend = (limit - n * erg.added) / times_added;
    } else {
        spend = -valid->reserve() * decay_for_sum(n, limit / erg.added);
    }
    const double effort = 1 + spend / at_critical;
    if (!std::isfinite(effort))
        return does_not_bind();
    return effort;
}

} // namespace pacecells
