// Symbols: x a pool's content in reps, D the share of it that is left after a time, c what one round from empty
// leaves in it when the next begins, tau a time constant in s.
//
// Times are multiplied by the factor of recovery where they enter, so that below all pools empty as in the studies.
#include "pacecells/sets.h"

#include "check.h"
#include "near_even.h"
#include "quiet.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>

namespace pacecells {

namespace {

using Run = Scheme::Run;

constexpr std::size_t pool_count = 3;
using Pools = std::array<double, pool_count>;
constexpr Pools share{0.38, 0.55, 0.07};
constexpr Pools tau{10, 90, 3600};

constexpr double margin_slack = 1e-9;
constexpr double infinite = std::numeric_limits<double>::infinity();

Pools kept_over(double seconds) {
    Pools kept{};
    for (std::size_t i = 0; i < pool_count; ++i)
        kept[i] = std::exp(-seconds / tau[i]);
    return kept;
}

// D^n and 1 + D + ... + D^(n - 1), by doubling n. All terms are positive, so nothing cancels where D is near 1.
struct Series {
    double power = 1;
    double sum = 0;
};

Series series(double ratio, int terms) {
    Series s;
    for (auto bit = std::bit_floor(static_cast<unsigned>(terms)); bit != 0; bit >>= 1U) {
        s = {s.power * s.power, s.sum * (1 + s.power)};
        if ((static_cast<unsigned>(terms) & bit) != 0)
            s = {s.power * ratio, s.sum * ratio + 1};
    }
    return s;
}

// What one round from empty leaves in a pool at its end, and the share of an earlier content that is left by then.
struct RoundEnd {
    double added = 0;
    double kept = 1;
};

RoundEnd round_end(std::span<const Run> runs, double kept_over_rest) {
    RoundEnd end;
    bool rested = false; // no rest before the first set
    for (const auto& run : runs) {
        const double before = rested && !run.after_side_change ? kept_over_rest : 1;
        const auto within = series(kept_over_rest, run.sets - 1);
        end.added = end.added * before * within.power + run.reps * (1 + kept_over_rest * within.sum);
        end.kept *= before * within.power;
        rested = true;
    }
    return end;
}

// Spent at the worst moment: at the end of a set of the last round, which finds all pools as full as they get.
double most_spent(std::span<const Run> runs, int rounds, const Pools& kept_over_rest, const Pools& kept_over_away) {
    Pools pools{};
    for (std::size_t i = 0; i < pool_count; ++i) {
        const auto one = round_end(runs, kept_over_rest[i]);
        const double left = share[i] * one.added * kept_over_away[i];
        pools[i] = left * series(one.kept * kept_over_away[i], rounds - 1).sum;
    }
    double most = 0;
    bool rested = false;
    for (const auto& run : runs) {
        rested = rested && !run.after_side_change;
        for (int set = 0; set < run.sets; ++set) {
            double spent = 0;
            for (std::size_t i = 0; i < pool_count; ++i) {
                pools[i] = (rested ? pools[i] * kept_over_rest[i] : pools[i]) + share[i] * run.reps;
                spent += pools[i];
            }
            rested = true;
            most = std::max(most, spent);
        }
    }
    return most;
}

// Precondition: 0 < rounds <= most_rounds.
int whole_rounds(double rounds) { return std::max(1, static_cast<int>(std::ceil(rounds - 1e-9))); }

using Root = std::pair<double, double>;

// Where a continuous function that is above 0 at low and not at high changes sign.
template <class Function>
Root root_between(Function function, double low, double at_low, double high, double at_high) {
    std::uintmax_t steps = 200;
    return boost::math::tools::toms748_solve(function, low, high, at_low, at_high,
                                             boost::math::tools::eps_tolerance<double>(40), steps, Quiet{});
}

// What the near-even schemes of some work spend, and the rests they need.
class Schemes {
  public:
    // Precondition: refuse_work and the like found nothing.
    explicit Schemes(const SetWork& work)
        : reps_(work.reps), rounds_(whole_rounds(work.rounds)), recovery_(work.recovery),
          kept_over_away_(kept_over(work.recovery * work.away.value())),
          may_spend_((work.max_unbroken - work.margin.value_or(default_margin(work.max_unbroken))).value()) {}

    // How much more than allowed is spent at the worst moment. Falls as the rest grows, as all pools do.
    [[nodiscard]] double excess(int sets, double rest) const {
        const NearEven scheme{reps_, sets};
        return most_spent(scheme.runs(), rounds_, kept_over(recovery_ * rest), kept_over_away_) - may_spend_;
    }

    // The least rest from at_least up that keeps the margin; none where at_most is too short.
    [[nodiscard]] std::optional<double> least_rest(int sets, double at_least, double at_most = infinite) const {
        double enough = at_most;
        double at_enough = excess(sets, enough);
        if (at_enough > margin_slack)
            return std::nullopt;
        const double at_once = excess(sets, at_least);
        if (at_once <= margin_slack)
            return at_least;
        if (at_enough > -margin_slack)
            return std::nullopt; // only an endless rest
        if (std::isinf(enough)) {
            enough = std::max(at_least, 1.0);
            do {
                enough *= 4; // a pool's remainder is 0 in a double beyond some days as recovery counts them
                at_enough = excess(sets, enough);
            } while (at_enough > 0);
            if (std::isinf(enough))
                return std::nullopt;
        }
        return root_between([&](double rest) { return excess(sets, rest); }, at_least, at_once, enough, at_enough)
            .second;
    }

  private:
    int reps_;
    int rounds_;
    double recovery_;
    Pools kept_over_away_;
    double may_spend_;
};

constexpr double least_recovery = 0.001; // nobody's; below it rests would be days (judgement)

std::optional<Error> refuse_conditions(double rounds, Reps max_unbroken, Seconds away, double recovery) {
    if (!(rounds > 0 && rounds <= most_rounds))
        return out_of_domain("The rounds must be above 0 and at most 9999; got %1.", rounds);
    if (!(max_unbroken.value() >= 1 && std::isfinite(max_unbroken.value())))
        return out_of_domain("The unbroken maximum must be 1 rep or more; got %1.", max_unbroken.value());
    if (!not_negative(away.value()))
        return out_of_domain("The time away must be 0 s or more; got %1.", away.value());
    if (!(recovery >= least_recovery && std::isfinite(recovery)))
        return out_of_domain("The recovery factor must be at least %1; got %2.", least_recovery, recovery);
    return std::nullopt;
}

std::optional<Error> refuse_work(const SetWork& work) {
    if (work.reps < 1 || work.reps > Scheme::max_reps)
        return out_of_domain("The reps must be from 1 to 999; got %1.", work.reps);
    if (auto error = refuse_conditions(work.rounds, work.max_unbroken, work.away, work.recovery))
        return error;
    if (work.margin && !not_negative(work.margin->value()))
        return out_of_domain("The margin must be 0 reps or more; got %1.", work.margin->value());
    return std::nullopt;
}

std::optional<Error> refuse_rest(Seconds rest) {
    if (not_negative(rest.value()))
        return std::nullopt;
    return out_of_domain("The rest must be 0 s or more; got %1.", rest.value());
}

double margin_of(const SetWork& work) { return work.margin.value_or(default_margin(work.max_unbroken)).value(); }

SetPlan plan_of(int reps, int sets, double rest) {
    return {*Scheme::near_even(reps, sets), Seconds{sets > 1 ? rest : 0}};
}

Result<SetPlan> plan_with_rest(const SetWork& work, double rest) {
    const Schemes schemes{work};
    for (int sets = 1; sets <= work.reps; ++sets)
        if (schemes.excess(sets, rest) <= margin_slack)
            return plan_of(work.reps, sets, rest);
    return no_solution("Not even singles leave %1 reps to spare: rest longer, do fewer reps, or scale.",
                       margin_of(work));
}

Result<SetPlan> plan_sets_and_rest(const SetWork& work) {
    const Schemes schemes{work};
    if (schemes.excess(1, 0) <= margin_slack)
        return plan_of(work.reps, 1, 0);
    const double least_rest = least_rest_at_a_break.value();
    double least_cost = infinite;
    int cheapest = 0;
    for (int sets = 2; sets <= work.reps && (sets - 1) * least_rest < least_cost; ++sets) {
        if (const auto rest = schemes.least_rest(sets, least_rest, least_cost / (sets - 1))) {
            least_cost = (sets - 1) * *rest;
            cheapest = sets;
        }
    }
    if (cheapest == 0)
        return no_solution("Not even single reps with unlimited rests leave %1 reps to spare: do fewer reps, or take "
                           "an easier version.",
                           margin_of(work));
    const double may_cost = least_cost + std::max(5.0, 0.1 * least_cost);
    for (int sets = 2; sets < cheapest; ++sets)
        if (const auto rest = schemes.least_rest(sets, least_rest, may_cost / (sets - 1)))
            return plan_of(work.reps, sets, *rest);
    return plan_of(work.reps, cheapest, least_cost / (cheapest - 1));
}

} // namespace

Result<Reps> reps_left(const Scheme& scheme, double rounds, Reps max_unbroken, Seconds away, Seconds rest,
                       double recovery) {
    if (auto error = refuse_conditions(rounds, max_unbroken, away, recovery))
        return *std::move(error);
    if (auto error = refuse_rest(rest))
        return *std::move(error);
    return max_unbroken - Reps{most_spent(scheme.runs(), whole_rounds(rounds), kept_over(recovery * rest.value()),
                                          kept_over(recovery * away.value()))};
}

Reps default_margin(Reps max_unbroken) { return 0.1 * (max_unbroken - Reps{1}); }

Result<SetPlan> plan_sets(const SetWork& work, std::optional<Seconds> rest) {
    if (auto error = refuse_work(work))
        return *std::move(error);
    if (!rest || rest->value() == 0)
        return plan_sets_and_rest(work);
    if (auto error = refuse_rest(*rest))
        return *std::move(error);
    return plan_with_rest(work, rest->value());
}

Result<Seconds> rest_needed(const SetWork& work, std::optional<int> sets) {
    constexpr double shortest = 0.5;
    if (auto error = refuse_work(work))
        return *std::move(error);
    if (!sets) {
        const auto plan = plan_sets_and_rest(work);
        if (!plan)
            return plan.error();
        return plan->rest;
    }
    if (*sets < 1 || *sets > work.reps)
        return out_of_domain("The number of sets must be 1 or more and at most the reps; got %1.", *sets);
    const auto rest = Schemes{work}.least_rest(*sets, 0);
    if (rest)
        return Seconds{*rest == 0 ? 0 : std::max(shortest, *rest)};
    if (*sets == 1)
        return no_solution("Unbroken reps have no rest between them: take more sets or fewer reps.");
    return no_solution(
        "Even unlimited rest between %1 sets does not leave %2 reps to spare: do more sets or fewer reps.", *sets,
        margin_of(work));
}

Result<MaximumFrom> parse_maximum_from(std::string_view text) {
    const auto name = fold(text);
    if (name == "test")
        return MaximumFrom::test;
    if (name == "load")
        return MaximumFrom::load;
    return out_of_domain("%1 is not a source of a maximum: write test or load.", quoted(text));
}

Result<Reps> max_noise(Reps max_unbroken, MaximumFrom from) {
    if (!(max_unbroken.value() >= 1 && std::isfinite(max_unbroken.value())))
        return out_of_domain("The unbroken maximum must be 1 rep or more; got %1.", max_unbroken.value());
    return from == MaximumFrom::load ? 0.25 * max_unbroken : Reps{0.7} + 0.06 * max_unbroken;
}

Result<SetPlan> plan_fall_back(const SetWork& work, std::optional<Seconds> rest, MaximumFrom from) {
    const auto open = plan_sets(work, rest);
    if (!open)
        return open.error();
    const auto likely = work.max_unbroken - *max_noise(work.max_unbroken, from);
    SetWork harder = work;
    harder.max_unbroken = std::min(work.max_unbroken, std::max(Reps{1.5}, likely));
    if (auto plan = plan_sets(harder, rest))
        return plan;
    const bool rest_is_planned = !rest || rest->value() == 0;
    const auto between = rest_is_planned ? std::max(least_rest_at_a_break, open->rest) : *rest;
    return plan_of(work.reps, work.reps, between.value());
}

Result<double> recovery_from(Reps first, Reps second, Seconds rest) {
    const double a = first.value();
    const double b = second.value();
    if (!(b >= 1 && std::isfinite(b)))
        return out_of_domain("The reps of the second set must be 1 or more; got %1.", b);
    if (!(a > b && std::isfinite(a)))
        return out_of_domain("The reps of the first set must be above those of the second; got %1.", a);
    if (!positive(rest.value()))
        return out_of_domain("The rest must be above 0 s; got %1.", rest.value());
    const double weighs = (a - b) / (a + 0.5); // what a rep of the first set still does at the second
    const auto excess = [&](double seconds) {
        const auto kept = kept_over(seconds);
        double sum = -weighs;
        for (std::size_t i = 0; i < pool_count; ++i)
            sum += share[i] * kept[i];
        return sum;
    };
    // Between what the quickest pool alone and the slowest alone would take.
    const double soonest = -tau.front() * std::log(weighs) * (1 - 1e-9);
    const double latest = -tau.back() * std::log(weighs) * (1 + 1e-9);
    const auto root = root_between(excess, soonest, excess(soonest), latest, excess(latest));
    const double recovery = root.second / rest.value();
    if (!positive(recovery))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return recovery;
}

double cautious_recovery(double fitted) { return std::clamp(std::sqrt(fitted), 0.6, 1.6); }

} // namespace pacecells
