// Symbols: x a pool's content in reps, D the share of it that is left after a time, c what one round from empty
// leaves in it when the next begins, tau a time constant in s.
#include "pacecells/sets.h"

#include "check.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>

namespace pacecells {

namespace {

using Run = Scheme::Run;

// --- reading schemes

Error not_a_scheme(std::string_view text) {
    return out_of_domain("%1 is not a scheme: write sets as 9, 5-4, 3-3-3, 4x2 (four sets of two) or 3-2/3-2 (/ "
                         "changes sides), at most 999 reps in all.",
                         quoted(text));
}

// Takes a token off the start of the text, spaces before it too.
bool take(std::string_view& text, std::string_view token) {
    const auto rest = trim(text);
    if (!rest.starts_with(token))
        return false;
    text = rest.substr(token.size());
    return true;
}

// A whole number from 1 to Scheme::max_reps, without leading zeros.
std::optional<int> take_count(std::string_view& text) {
    const auto rest = trim(text);
    int count = 0;
    if (rest.empty() || rest.front() < '1' || rest.front() > '9')
        return std::nullopt;
    const auto read = std::from_chars(rest.data(), rest.data() + rest.size(), count);
    if (read.ec != std::errc{} || count > Scheme::max_reps)
        return std::nullopt;
    text = rest.substr(static_cast<std::size_t>(read.ptr - rest.data()));
    return count;
}

bool take_rest(std::string_view& text) { return take(text, "-") || take(text, "\u2013"); }
bool take_times(std::string_view& text) { return take(text, "x") || take(text, "X") || take(text, "\u00D7"); }

// --- the near-even scheme, without allocation for the search in plan_sets

class NearEven {
  public:
    NearEven(int reps, int sets) {
        const int larger = reps % sets; // sets that hold one rep more
        if (larger > 0)
            runs_[size_++] = {reps / sets + 1, larger, false};
        runs_[size_++] = {reps / sets, sets - larger, false};
    }
    [[nodiscard]] std::span<const Run> runs() const& { return {runs_.data(), size_}; }
    std::span<const Run> runs() && = delete; // would outlive its runs in a range-for

  private:
    std::array<Run, 2> runs_{};
    std::size_t size_ = 0;
};

// --- fatigue

constexpr double fast_share = 0.5067;
constexpr double slow_share = 0.4933;
constexpr double fast_tau = 21.5;
constexpr double slow_tau = 388;
constexpr double margin_slack = 1e-9;

struct Pools {
    double fast = 0;
    double slow = 0;
    friend Pools operator*(Pools a, Pools b) { return {a.fast * b.fast, a.slow * b.slow}; }
};

Pools kept_over(double seconds) { return {std::exp(-seconds / fast_tau), std::exp(-seconds / slow_tau)}; }

struct RoundEnd {
    Pools pools;
    double most_spent; // at the end of the hardest set
};

RoundEnd walk_round(std::span<const Run> runs, Pools pools, Pools kept_over_rest) {
    double most_spent = 0;
    bool rested = false; // no rest before the first set
    for (const auto& run : runs) {
        rested = rested && !run.after_side_change;
        for (int set = 0; set < run.sets; ++set) {
            if (rested)
                pools = pools * kept_over_rest;
            rested = true;
            pools.fast += fast_share * run.reps;
            pools.slow += slow_share * run.reps;
            most_spent = std::max(most_spent, pools.fast + pools.slow);
        }
    }
    return {pools, most_spent};
}

// 1 + D + ... + D^(terms - 1) for D = exp(-seconds / tau), also where D is so near 1 that 1 - D would cancel.
double geometric_sum(double seconds, double tau, int terms) {
    const double decay = seconds / tau;
    if (terms == 0)
        return 0;
    if (decay == 0)
        return terms;
    return std::expm1(-terms * decay) / std::expm1(-decay);
}

// Spent at the worst moment. resting is the time of all rests of a round together; may be infinite.
double most_spent(std::span<const Run> runs, int rounds, Pools kept_over_rest, Pools kept_over_away, double resting,
                  double away) {
    const auto first = walk_round(runs, {}, kept_over_rest).pools * kept_over_away;
    const double cycle = resting + away;
    const Pools sums{geometric_sum(cycle, fast_tau, rounds - 1), geometric_sum(cycle, slow_tau, rounds - 1)};
    return walk_round(runs, first * sums, kept_over_rest).most_spent;
}

std::optional<Error> refuse_work(int rounds, Reps max_unbroken, Seconds away) {
    if (rounds < 1)
        return out_of_domain("The number of rounds must be 1 or more; got %1.", rounds);
    if (!(max_unbroken.value() >= 1 && std::isfinite(max_unbroken.value()))) {
        return out_of_domain("The unbroken maximum must be 1 rep or more; got %1.", max_unbroken.value());
    }
    if (!not_negative(away.value()))
        return out_of_domain("The time away must be 0 s or more; got %1.", away.value());
    return std::nullopt;
}

std::optional<Error> refuse_plan(int reps, int rounds, Reps max_unbroken, Seconds away, Reps margin) {
    if (reps < 1 || reps > Scheme::max_reps)
        return out_of_domain("The reps must be from 1 to 999; got %1.", reps);
    if (auto error = refuse_work(rounds, max_unbroken, away))
        return error;
    if (!not_negative(margin.value()))
        return out_of_domain("The margin must be 0 reps or more; got %1.", margin.value());
    return std::nullopt;
}

std::optional<Error> refuse_rest(Seconds rest) {
    if (not_negative(rest.value()))
        return std::nullopt;
    return out_of_domain("The rest must be 0 s or more; got %1.", rest.value());
}

} // namespace

Result<Scheme> Scheme::parse(std::string_view text) {
    Scheme scheme;
    auto left = trim(text);
    std::int64_t total = 0;
    bool after_side_change = false;
    for (;;) {
        const auto first = take_count(left);
        if (!first)
            return not_a_scheme(text);
        Run run{*first, 1, after_side_change};
        if (take_times(left)) {
            const auto reps = take_count(left);
            if (!reps)
                return not_a_scheme(text);
            run = {*reps, *first, after_side_change};
        }
        total += std::int64_t{run.reps} * run.sets;
        if (total > max_reps)
            return not_a_scheme(text);
        scheme.add(run);
        if (left.empty())
            return scheme;
        after_side_change = take(left, "/");
        if (!after_side_change && !take_rest(left))
            return not_a_scheme(text);
    }
}

Result<Scheme> Scheme::from_number(double reps) {
    if (!(reps >= 1 && reps <= max_reps && std::floor(reps) == reps)) {
        return out_of_domain("A number given as a scheme must be whole, from 1 to 999 (a cell may have read 5-4 as a "
                             "date: format it as text); got %1.",
                             reps);
    }
    Scheme scheme;
    scheme.add({static_cast<int>(reps), 1, false});
    return scheme;
}

Result<Scheme> Scheme::near_even(int reps, int sets) {
    if (reps < 1 || reps > max_reps)
        return out_of_domain("The reps must be from 1 to 999; got %1.", reps);
    if (sets < 1 || sets > reps)
        return out_of_domain("The number of sets must be 1 or more and at most the reps; got %1.", sets);
    Scheme scheme;
    const NearEven near_even{reps, sets};
    for (const auto& run : near_even.runs())
        scheme.add(run);
    return scheme;
}

void Scheme::add(Run run) {
    if (!runs_.empty() && runs_.back().reps == run.reps && !run.after_side_change) {
        runs_.back().sets += run.sets;
    } else {
        runs_.push_back(run);
    }
}

int Scheme::sets() const {
    int sets = 0;
    for (const auto& run : runs_)
        sets += run.sets;
    return sets;
}

int Scheme::reps() const {
    int reps = 0;
    for (const auto& run : runs_)
        reps += run.sets * run.reps;
    return reps;
}

int Scheme::side_changes() const {
    return static_cast<int>(
        std::count_if(runs_.begin(), runs_.end(), [](const Run& run) { return run.after_side_change; }));
}

std::string Scheme::text() const {
    constexpr int shortens_from = 4;
    std::string text;
    for (const auto& run : runs_) {
        if (!text.empty())
            text += run.after_side_change ? '/' : '-';
        const auto reps = std::to_string(run.reps);
        if (run.sets >= shortens_from) {
            text += std::to_string(run.sets) + 'x' + reps;
        } else {
            for (int set = 0; set < run.sets; ++set)
                text += (set > 0 ? "-" : "") + reps;
        }
    }
    return text;
}

Result<Seconds> set_time(const Scheme& scheme, Seconds rep, Seconds rest) {
    if (!not_negative(rep.value()))
        return out_of_domain("The time for a rep must be 0 s or more; got %1.", rep.value());
    if (auto error = refuse_rest(rest))
        return *std::move(error);
    return finite(scheme.reps() * rep + scheme.rests() * rest);
}

Result<Reps> reps_left(const Scheme& scheme, int rounds, Reps max_unbroken, Seconds away, Seconds rest) {
    if (auto error = refuse_work(rounds, max_unbroken, away))
        return *std::move(error);
    if (auto error = refuse_rest(rest))
        return *std::move(error);
    return max_unbroken - Reps{most_spent(scheme.runs(), rounds, kept_over(rest.value()), kept_over(away.value()),
                                          scheme.rests() * rest.value(), away.value())};
}

Reps default_margin(Reps max_unbroken) { return std::max(Reps{2}, 0.15 * max_unbroken); }

Result<Scheme> plan_sets(int reps, int rounds, Reps max_unbroken, Seconds away, Seconds rest,
                         std::optional<Reps> margin) {
    const auto keep = margin.value_or(default_margin(max_unbroken));
    if (auto error = refuse_plan(reps, rounds, max_unbroken, away, keep))
        return *std::move(error);
    if (auto error = refuse_rest(rest))
        return *std::move(error);
    const double may_spend = (max_unbroken - keep).value() + margin_slack;
    const auto over_rest = kept_over(rest.value());
    const auto over_away = kept_over(away.value());
    for (int sets = 1; sets <= reps; ++sets) {
        const NearEven scheme{reps, sets};
        const double spent =
            most_spent(scheme.runs(), rounds, over_rest, over_away, (sets - 1) * rest.value(), away.value());
        if (spent <= may_spend)
            return Scheme::near_even(reps, sets);
    }
    return no_solution(
        "Not even single reps keep %1 reps in hand: rest longer, do fewer reps, or take an easier version.",
        keep.value());
}

Result<Seconds> rest_needed(int reps, int rounds, Reps max_unbroken, Seconds away, int sets,
                            std::optional<Reps> margin) {
    const auto keep = margin.value_or(default_margin(max_unbroken));
    if (auto error = refuse_plan(reps, rounds, max_unbroken, away, keep))
        return *std::move(error);
    if (sets < 1 || sets > reps)
        return out_of_domain("The number of sets must be 1 or more and at most the reps; got %1.", sets);

    const NearEven scheme{reps, sets};
    const auto over_away = kept_over(away.value());
    const auto too_little = [&](double rest) { // falls as the rest grows, as both pools do
        const double resting = sets > 1 ? (sets - 1) * rest : 0;
        return most_spent(scheme.runs(), rounds, kept_over(rest), over_away, resting, away.value()) -
               (max_unbroken - keep).value();
    };
    const double without = too_little(0);
    if (without <= margin_slack)
        return Seconds{0};
    if (!(too_little(std::numeric_limits<double>::infinity()) < -margin_slack)) {
        if (sets == 1)
            return no_solution("Unbroken reps have no rest between them: take more sets or fewer reps.");
        return no_solution(
            "Even endless rests between %1 sets do not keep %2 reps in hand: take more sets or fewer reps.", sets,
            keep.value());
    }
    double enough = 1;
    while (too_little(enough) > 0)
        enough *= 2; // ends: beyond some days a pool's remainder is 0 in a double

    using namespace boost::math;
    const policies::policy<policies::domain_error<policies::ignore_error>,
                           policies::evaluation_error<policies::ignore_error>>
        no_throw;
    std::uintmax_t steps = 200;
    const auto bracket = tools::toms748_solve(too_little, 0.0, enough, without, too_little(enough),
                                              tools::eps_tolerance<double>(), steps, no_throw);
    return Seconds{bracket.second};
}

Result<LoadFormula> parse_load_formula(std::string_view text) {
    const auto name = fold(text);
    if (name == "epley")
        return LoadFormula::epley;
    if (name == "brzycki")
        return LoadFormula::brzycki;
    return out_of_domain("%1 is not a formula here: write epley or brzycki.", quoted(text));
}

Result<Reps> max_reps(double load, double one_rep_max, LoadFormula formula) {
    constexpr double rounding = 1e-9; // a load computed as 100 % of the maximum may come out a trace above it
    if (!positive(load))
        return out_of_domain("The load must be above 0; got %1.", load);
    if (!positive(one_rep_max))
        return out_of_domain("The one-repetition maximum must be above 0; got %1.", one_rep_max);
    if (!(load <= one_rep_max * (1 + rounding))) {
        return out_of_domain("The load must be at most the one-repetition maximum; got %1.", load);
    }
    const double reps = formula == LoadFormula::epley ? 30 * (one_rep_max / load - 1) : 37 - 36 * load / one_rep_max;
    return finite(Reps{std::max(1.0, reps)});
}

Result<double> one_rep_max(double load, Reps reps, LoadFormula formula) {
    const double r = reps.value();
    if (!positive(load))
        return out_of_domain("The load must be above 0; got %1.", load);
    if (!(r >= 1 && std::isfinite(r)))
        return out_of_domain("The reps must be 1 or more; got %1.", r);
    if (formula == LoadFormula::brzycki && !(r < 37))
        return out_of_domain("The reps must be below 37 for brzycki; got %1.", r);
    double most = load;
    if (r > 1)
        most = formula == LoadFormula::epley ? load * (1 + r / 30) : 36 * load / (37 - r);
    if (!std::isfinite(most))
        return out_of_domain("The load is too large to compute with; got %1.", load);
    return most;
}

} // namespace pacecells
