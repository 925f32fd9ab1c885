// Sets for the tests: short ways to ask the model, and the same questions answered the plain way.
#pragma once

#include "pacecells/sets.h"

#include "expect.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

inline Scheme scheme(std::string_view text) { return value_of(Scheme::parse(text)); }

inline SetWork work(int reps, double rounds, double max_unbroken, double away) {
    return {.reps = reps, .rounds = rounds, .max_unbroken = Reps{max_unbroken}, .away = Seconds{away}};
}

inline double left(std::string_view text, double rounds, double max_unbroken, double away, double rest = 3,
                   double recovery = 1) {
    return value_of(reps_left(scheme(text), rounds, Reps{max_unbroken}, Seconds{away}, Seconds{rest}, recovery))
        .value();
}

inline double margin_of(const SetWork& task) { return task.margin.value_or(default_margin(task.max_unbroken)).value(); }

inline double left(const SetWork& task, const Scheme& sets, double rest) {
    return value_of(reps_left(sets, task.rounds, task.max_unbroken, task.away, Seconds{rest}, task.recovery)).value();
}

// --- the same questions answered the plain way, every rep remembered with its age

struct PlainSet {
    int reps;
    bool rest_before; // false: the first, or after a change of sides
};

inline std::vector<PlainSet> plain_near_even(int reps, int sets) {
    std::vector<PlainSet> plain;
    for (int i = 0; i < sets; ++i)
        plain.push_back({reps / sets + (i < reps % sets ? 1 : 0), i > 0});
    return plain;
}

inline std::vector<PlainSet> plain_sets(const Scheme& scheme) {
    std::vector<PlainSet> plain;
    for (const auto& run : scheme.runs()) {
        for (int i = 0; i < run.sets; ++i)
            plain.push_back({run.reps, !plain.empty() && (i > 0 || !run.after_side_change)});
    }
    return plain;
}

inline double plain_weight(double age) {
    return 0.38 * std::exp(-age / 10) + 0.55 * std::exp(-age / 90) + 0.07 * std::exp(-age / 3600);
}

// The reps of a set are done at one moment, so they share an age.
inline double plain_left(const std::vector<PlainSet>& sets, int rounds, double max_unbroken, double away, double rest,
                         double recovery = 1) {
    struct Done {
        int reps;
        double age;
    };
    std::vector<Done> done;
    double least = max_unbroken;
    const auto recover = [&](double seconds) {
        for (auto& earlier : done)
            earlier.age += recovery * seconds;
    };
    for (int round = 0; round < rounds; ++round) {
        if (round > 0)
            recover(away);
        for (const auto& set : sets) {
            if (set.rest_before)
                recover(rest);
            done.push_back({set.reps, 0});
            double in_hand = max_unbroken;
            for (const auto& earlier : done)
                in_hand -= earlier.reps * plain_weight(earlier.age);
            least = std::min(least, in_hand);
        }
    }
    return least;
}

// The least rest by halving; none where an endless one is too short.
inline std::optional<double> plain_rest(const SetWork& task, int sets) {
    const auto plain = plain_near_even(task.reps, sets);
    const auto enough = [&](double rest, double slack) {
        return plain_left(plain, static_cast<int>(task.rounds), task.max_unbroken.value(), task.away.value(), rest,
                          task.recovery) >= margin_of(task) - slack;
    };
    if (enough(0, 1e-9))
        return 0;
    double high = 1e6;
    if (sets == 1 || !enough(high, -1e-9))
        return std::nullopt;
    double low = 0;
    while (high - low > 1e-9 * high) {
        const double middle = (low + high) / 2;
        (enough(middle, 0) ? high : low) = middle;
    }
    return high;
}

struct PlainPlan {
    int sets;
    double rest;
};

// Every number of sets is tried, the cheapest found, then the fewest within the band.
inline std::optional<PlainPlan> plain_plan(const SetWork& task) {
    std::vector<PlainPlan> plans;
    for (int sets = 1; sets <= task.reps; ++sets) {
        if (const auto rest = plain_rest(task, sets))
            plans.push_back({sets, sets > 1 ? std::max(3.0, *rest) : 0});
    }
    if (plans.empty())
        return std::nullopt;
    const auto cost = [](const PlainPlan& plan) { return (plan.sets - 1) * plan.rest; };
    double least = cost(plans.front());
    for (const auto& plan : plans)
        least = std::min(least, cost(plan));
    const double band = std::max(5.0, 0.1 * least);
    return *std::find_if(plans.begin(), plans.end(), [&](const auto& plan) { return cost(plan) <= least + band; });
}

inline SetPlan plan(const SetWork& task, std::optional<double> rest = std::nullopt) {
    return value_of(plan_sets(task, rest ? std::optional{Seconds{*rest}} : std::nullopt));
}

inline SetWork random_work(Random& random, int most_reps, int most_rounds_done) {
    auto task = work(random.whole(1, most_reps), random.whole(1, most_rounds_done), 0, random.between(0, 200));
    task.max_unbroken = Reps{random.between(1, 3.0 * task.reps + 1)};
    if (random.whole(0, 2) == 0)
        task.margin = Reps{random.between(0, 4)};
    if (random.whole(0, 2) == 0)
        task.recovery = random.between(0.4, 2);
    return task;
}

inline std::string told(const SetWork& task) {
    std::ostringstream out;
    out << task.reps << " reps, " << task.rounds << " rounds, " << task.max_unbroken.value() << " unbroken, "
        << task.away.value() << " s away, margin " << margin_of(task) << ", recovery " << task.recovery;
    return out.str();
}

} // namespace pacecells
