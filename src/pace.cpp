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
    return out_of_domain("The cap must be above 0 s; got %1.", cap.value());
}

std::optional<Error> refuse_race(Seconds cap, double rounds, double drift) {
    if (auto error = refuse_cap(cap))
        return error;
    if (!positive(rounds))
        return out_of_domain("The rounds must be above 0; got %1.", rounds);
    if (!(drift >= -1 && drift <= 1))
        return out_of_domain("The drift must be from -1 to 1; got %1.", drift);
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
        return out_of_domain("The round time must be above 0 s and at most the cap; got %1.", round_time.value());
    }
    const double rounds = cap / round_time;
    if (!std::isfinite(rounds))
        return out_of_domain("The round time is too short to compute with; got %1.", round_time.value());
    return rounds;
}

Result<Seconds> clock_after(Seconds cap, double rounds, double k, double drift) {
    if (auto error = refuse_race(cap, rounds, drift))
        return *std::move(error);
    if (!(k > 0 && k <= rounds * (1 + slack))) {
        return out_of_domain("The round must be above 0 and at most the %1 rounds of the goal; got %2.", rounds, k);
    }
    return finite(clock_at(cap, rounds, k, drift));
}

Result<std::vector<Split>> splits(Seconds cap, double rounds, double drift) {
    if (auto error = refuse_race(cap, rounds, drift))
        return *std::move(error);
    if (!(rounds <= max_table_rows))
        return out_of_domain("The rounds must be at most 10000; got %1.", rounds);

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
        return out_of_domain("The round time must be above 0 s; got %1.", round_time.value());
    if (!(effort > 0 && effort <= 1))
        return out_of_domain("The effort must be above 0 and at most 1 (100%); got %1.", effort);
    return finite(round_time / effort);
}

Result<CaloriesPerHour> erg_need(Seconds round_time, Kilocalories calories, Seconds other, Seconds spin_up) {
    if (!positive(round_time.value()))
        return out_of_domain("The round time must be above 0 s; got %1.", round_time.value());
    if (!not_negative(other.value()))
        return out_of_domain("The time for everything else must be 0 s or more; got %1.", other.value());
    if (!not_negative(spin_up.value()))
        return out_of_domain("The spin-up must be 0 s or more; got %1.", spin_up.value());
    if (!positive(calories.value()))
        return out_of_domain("The calories must be above 0; got %1.", calories.value());
    const auto room = round_time - other - spin_up;
    if (!(room.value() > slack)) {
        return no_solution("Everything else takes all %1 s of the round: no time is left for the ergometer.",
                           round_time.value());
    }
    return rate_for(calories, room);
}

Result<std::vector<GoalRow>> goal_table(Seconds cap, double from, double to, double step,
                                        std::optional<Kilocalories> calories, Seconds other) {
    if (auto error = refuse_cap(cap))
        return *std::move(error);
    if (!(from >= 1))
        return out_of_domain("The first goal must be 1 round or more; got %1.", from);
    if (!(from <= to && std::isfinite(to)))
        return out_of_domain("The last goal must be no less than the first; got %1.", to);
    if (!(step > slack && std::isfinite(step)))
        return out_of_domain("The step must be above 0; got %1.", step);
    if (calories && !positive(calories->value()))
        return out_of_domain("The calories must be above 0; got %1.", calories->value());
    if (!not_negative(other.value()))
        return out_of_domain("The time for everything else must be 0 s or more; got %1.", other.value());
    const double steps = std::floor((to - from + slack) / step);
    if (!(steps < max_table_rows))
        return out_of_domain("The number of goals must be at most 10000; got %1.", steps + 1);

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
