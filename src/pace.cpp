// Symbols: C cap in s, n rounds, k the round asked for, d drift, T(k) the clock at the end of round k.
#include "pacecells/pace.h"

#include "pacecells/ergometer.h"

#include "check.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace pacecells {

namespace {

constexpr double slack = 1e-9; // so that rounds computed from day fractions still count as whole

std::optional<Error> refuse_cap(Seconds cap) {
    if (positive(cap.value()))
        return std::nullopt;
    return refused("The cap", "above 0 s", cap.value());
}

std::optional<Error> refuse_race(Seconds cap, double rounds, double drift) {
    if (auto error = refuse_cap(cap))
        return error;
    if (!positive(rounds))
        return refused("The rounds", "above 0", rounds);
    if (!(drift >= -1 && drift <= 1))
        return refused("The drift", "-1 to 1", drift);
    return std::nullopt;
}

Seconds clock_at(Seconds cap, double n, double k, double d) {
    if (k >= n)
        return cap; // exactly
    const double done = k / n;
    return cap * (done * (1 + d / 2 * (done - 1)));
}

} // namespace

Result<Seconds> round_time(Seconds cap, double rounds) {
    if (auto error = refuse_race(cap, rounds, 0))
        return *std::move(error);
    return finite(cap / rounds);
}

Result<double> rounds_in(Seconds cap, Seconds round_time) {
    if (auto error = refuse_cap(cap))
        return *std::move(error);
    if (!(round_time.value() > 0 && round_time <= cap)) {
        return refused("The round time", "above 0 s and at most the cap", round_time.value());
    }
    const double rounds = cap / round_time;
    if (!std::isfinite(rounds))
        return refused("The round time", "a time that someone can do", round_time.value());
    return rounds;
}

Result<Seconds> clock_after(Seconds cap, double rounds, double k, double drift) {
    if (auto error = refuse_race(cap, rounds, drift))
        return *std::move(error);
    if (!(k > 0 && k <= rounds * (1 + slack))) {
        return out_of_domain("The round must be above 0 and at most the " + number_text(rounds) +
                             " rounds of the goal; got " + number_text(k) + ".");
    }
    return finite(clock_at(cap, rounds, k, drift));
}

Result<std::vector<Split>> splits(Seconds cap, double rounds, double drift) {
    if (auto error = refuse_race(cap, rounds, drift))
        return *std::move(error);
    if (!(rounds <= max_table_rows))
        return refused("The rounds", "at most 10000", rounds);

    const auto whole = static_cast<int>(std::floor(rounds + slack));
    const bool partial = whole == 0 || rounds - whole > slack;
    std::vector<Split> rows;
    rows.reserve(static_cast<std::size_t>(whole) + 1);
    Seconds before{0};
    const auto add = [&](double label, Seconds clock) {
        rows.push_back({label, clock - before, clock});
        before = clock;
    };
    for (int k = 1; k <= whole; ++k)
        add(k, k == whole && !partial ? cap : clock_at(cap, rounds, k, drift));
    if (partial)
        add(rounds, cap);
    return rows;
}

Result<Seconds> rehearsal_time(Seconds round_time, double effort) {
    if (!positive(round_time.value()))
        return refused("The round time", "above 0 s", round_time.value());
    if (!(effort > 0 && effort <= 1))
        return refused("The effort", "above 0 and at most 1 (100 %)", effort);
    return finite(round_time / effort);
}

Result<CaloriesPerHour> erg_need(Seconds round_time, Kilocalories calories, Seconds other, Seconds spin_up) {
    if (!positive(round_time.value()))
        return refused("The round time", "above 0 s", round_time.value());
    if (!not_negative(other.value()))
        return refused("The time for all else", "0 s or more", other.value());
    if (!not_negative(spin_up.value()))
        return refused("The spin-up", "0 s or more", spin_up.value());
    if (!positive(calories.value()))
        return refused("The calories", "above 0", calories.value());
    const auto room = round_time - other - spin_up;
    if (!(room.value() > slack)) {
        return no_solution("All else in the round takes its " + number_text(round_time.value()) +
                           " s: no time is left for the ergometer.");
    }
    return rate_for(calories, room);
}

Result<std::vector<GoalRow>> goal_table(Seconds cap, double from, double to, double step,
                                        std::optional<Kilocalories> calories, Seconds other) {
    if (auto error = refuse_cap(cap))
        return *std::move(error);
    if (!(from >= 1))
        return refused("The first goal", "1 round or more", from);
    if (!(from <= to && std::isfinite(to)))
        return refused("The last goal", "no less than the first", to);
    if (!(step > slack && std::isfinite(step)))
        return refused("The step", "above 0", step);
    if (calories && !positive(calories->value()))
        return refused("The calories", "above 0", calories->value());
    if (!not_negative(other.value()))
        return refused("The time for all else", "0 s or more", other.value());
    const double steps = std::floor((to - from + slack) / step);
    if (!(steps < max_table_rows))
        return refused("The number of goals", "at most 10000", steps + 1);

    std::vector<GoalRow> rows;
    rows.reserve(static_cast<std::size_t>(steps) + 1);
    for (int i = 0; i <= static_cast<int>(steps); ++i) {
        double goal = from + i * step;
        if (std::abs(goal - to) <= slack)
            goal = to;
        GoalRow row{goal, cap / goal, clock_at(cap, goal, std::ceil(goal / 2 - slack), 0), std::nullopt};
        if (calories) {
            auto need = erg_need(row.round_time, *calories, other);
            if (need) {
                row.need = *need;
            } else if (need.error().kind != ErrorKind::no_solution) {
                return need.error();
            }
        }
        rows.push_back(row);
    }
    return rows;
}

} // namespace pacecells
