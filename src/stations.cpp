#include "pacecells/stations.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

#include "pacecells/text.h"

#include "check.h"

namespace pacecells {
namespace {

constexpr double slack = 1e-9; // what a whole number may be short of itself after arithmetic

struct UnitRow {
    Unit unit;
    const char* name;
    RateKind rate;
    double credit = 0;
    double per = 1; // a rate is for so many units of amount
};

constexpr UnitRow unit_rows[] = {
    {Unit::blank, "", RateKind::none},
    {Unit::rep, "rep", RateKind::seconds_each, 1},
    {Unit::row_cal, "row cal", RateKind::calories_per_hour, 1},
    {Unit::ski_cal, "ski cal", RateKind::calories_per_hour, 1},
    {Unit::bike_cal, "bike cal", RateKind::calories_per_hour, 1},
    {Unit::armbike_cal, "armbike cal", RateKind::calories_per_hour, 1},
    {Unit::row_m, "row m", RateKind::split, 0, 500},
    {Unit::ski_m, "ski m", RateKind::split, 0, 500},
    {Unit::bike_m, "bike m", RateKind::split, 0, 1000},
    {Unit::run_m, "run m", RateKind::split, 0, 1000},
    {Unit::carry_m, "carry m", RateKind::seconds_each},
    {Unit::hold, "hold", RateKind::none},
    {Unit::rest, "rest", RateKind::none},
};

constexpr const UnitRow& row_of(Unit unit) { return unit_rows[static_cast<std::size_t>(unit)]; }

// In the order of Unit: rising from row to row, and the last one in its place.
static_assert(std::ranges::is_sorted(unit_rows, std::ranges::less_equal{}, &UnitRow::unit) &&
              row_of(Unit::rest).unit == Unit::rest);

bool whole_from_one(double value) { return std::isfinite(value) && value >= 1 && value == std::floor(value); }

// One station in one round. An amount of 0 means that there is nothing to do, the rest is 0 then too.
struct Station {
    double amount;
    double seconds_each;
    double extra;
    double points_each;
    bool calories;

    [[nodiscard]] double time() const { return amount * seconds_each + extra; }
    [[nodiscard]] double points() const { return std::floor(amount + slack) * points_each; }
};

bool one_column(const Block& block) {
    return block.amounts.columns == 1 && block.rates.columns == 1 && block.extras.columns == 1;
}

std::optional<Error> bad_shape(const Block& block) {
    const std::size_t rows = block.units.size();
    for (const Cells* part : {&block.amounts, &block.rates, &block.extras})
        if (part->columns == 0 || part->cells.size() != rows * part->columns)
            return out_of_domain("Units, amounts, rates and extras need ranges of equal height.");
    if (!block.counts.empty() && block.counts.size() != rows)
        return out_of_domain("The counts need a range as high as the units.");
    return {};
}

bool has_round(const Block& block, double k) {
    for (const Cells* part : {&block.amounts, &block.rates, &block.extras})
        if (part->columns > 1 && !(k <= static_cast<double>(part->columns)))
            return false;
    return true;
}

Error beyond_columns(double k) { return no_solution("Round %1 is beyond the columns of the stations.", k); }

double cell(const Cells& part, std::size_t row, double k) {
    return part.cells[row * part.columns + (part.columns == 1 ? 0 : static_cast<std::size_t>(k) - 1)];
}

// Domain: has_round(block, k).
Result<Station> station(const Block& block, std::size_t row, double k) {
    const UnitRow& unit = row_of(block.units[row]);
    Station made{};
    if (unit.unit == Unit::blank)
        return made;
    const double amount = cell(block.amounts, row, k);
    if (!not_negative(amount))
        return out_of_domain("Row %1: the amount must be 0 or more; got %2.", row + 1, amount);
    if (amount == 0)
        return made;
    made.amount = amount;
    made.calories = unit.rate == RateKind::calories_per_hour;
    made.extra = cell(block.extras, row, k);
    if (!not_negative(made.extra))
        return out_of_domain("Row %1: the extra time must be 0 s or more; got %2.", row + 1, made.extra);
    made.points_each = block.counts.empty() ? unit.credit : block.counts[row];
    if (!not_negative(made.points_each))
        return out_of_domain("Row %1: the count must be 0 or more; got %2.", row + 1, made.points_each);
    made.seconds_each = 1;
    if (unit.rate != RateKind::none) {
        const double rate = cell(block.rates, row, k);
        made.seconds_each = made.calories ? 3600 / rate : rate / unit.per;
        if (!(made.seconds_each > 0) || !std::isfinite(made.time()))
            return out_of_domain("Row %1: the rate must be above 0; got %2.", row + 1, rate);
    }
    return made;
}

// Time and points of a whole round.
struct Round {
    double time = 0;
    double points = 0;
};

Result<Round> whole_round(const Block& block, double k) {
    if (!has_round(block, k))
        return beyond_columns(k);
    Round round;
    for (std::size_t row = 0; row < block.units.size(); ++row) {
        const auto at = station(block, row, k);
        if (!at)
            return at.error();
        round.time += at->time();
        round.points += at->points();
    }
    if (!std::isfinite(round.time) || !std::isfinite(round.points))
        return out_of_domain("Round %1 is too large to compute with.", k);
    return round;
}

Error no_time(double k) { return no_solution("Round %1 takes no time: nothing is to be done in it.", k); }

// Points so many seconds into round k. Domain: whole_round(block, k) has a value.
double points_within(double left, const Block& block, double k) {
    double points = 0;
    for (std::size_t row = 0; row < block.units.size() && left >= 0; ++row) {
        const Station at = *station(block, row, k);
        if (at.amount == 0)
            continue;
        const double units = left / at.seconds_each + slack;
        points += units < at.amount ? std::floor(units) * at.points_each : at.points();
        left -= at.time();
    }
    return points;
}

// Time at calorie stations at the rates given, and of all else.
struct Shares {
    double calories = 0;
    double other = 0;

    void add(const Station& at, double amount, double extra) {
        (at.calories ? calories : other) += amount * at.seconds_each;
        other += extra;
    }
};

// Domain of the next two: has_round(block, k).
Result<Shares> shares_of_round(const Block& block, double k) {
    Shares shares;
    for (std::size_t row = 0; row < block.units.size(); ++row) {
        const auto at = station(block, row, k);
        if (!at)
            return at.error();
        shares.add(*at, at->amount, at->extra);
    }
    return shares;
}

// Of round k up to the unit that makes the share of its points.
Result<Shares> shares_of_part(const Block& block, double k, double share) {
    double points = 0;
    double amounts = 0;
    for (std::size_t row = 0; row < block.units.size(); ++row) {
        const auto at = station(block, row, k);
        if (!at)
            return at.error();
        points += at->amount * at->points_each;
        amounts += at->amount;
    }
    if (!(amounts > 0))
        return no_time(k);
    double left = share * (points > 0 ? points : amounts);
    Shares shares;
    for (std::size_t row = 0; row < block.units.size(); ++row) {
        const Station at = *station(block, row, k);
        const double each = points > 0 ? at.points_each : 1;
        if (each > 0 && at.amount * each >= left) {
            shares.add(at, left / each, 0);
            break;
        }
        left -= at.amount * each;
        shares.add(at, at.amount, at.extra);
    }
    return shares;
}

} // namespace

Result<Unit> parse_unit(std::string_view text) {
    const std::string name = fold(text);
    for (const UnitRow& row : unit_rows)
        if (name == row.name)
            return row.unit;
    if (name == "cal")
        return Unit::row_cal;
    if (name == "m")
        return Unit::row_m;
    return out_of_domain("The unit is %1; rep, row cal, ski cal, bike cal, armbike cal, row m, ski m, bike m, run m, "
                         "carry m, hold or rest is needed.",
                         quoted(text));
}

RateKind rate_kind(Unit unit) { return row_of(unit).rate; }

double credit(Unit unit) { return row_of(unit).credit; }

Result<Seconds> round_time(const Block& block, double k) {
    if (auto error = bad_shape(block))
        return *error;
    if (!whole_from_one(k))
        return out_of_domain("The round must be a whole number from 1; got %1.", k);
    const auto round = whole_round(block, k);
    if (!round)
        return round.error();
    return Seconds{round->time};
}

Result<Reps> score_at(Seconds clock, const Block& block) {
    if (auto error = bad_shape(block))
        return *error;
    if (!not_negative(clock.value()))
        return out_of_domain("The clock must be 0 s or more; got %1.", clock.value());
    double left = clock.value();
    double points = 0;
    for (double k = 1;; ++k) {
        // What rounding leaves after a whole number of rounds begins no further one.
        if (k > 1 && !(left > slack))
            return Reps{points};
        const auto round = whole_round(block, k);
        if (!round)
            return round.error();
        if (!(round->time > 0))
            return no_time(k);
        if (left < round->time)
            return Reps{points + points_within(left, block, k)};
        if (one_column(block)) { // all whole rounds at once
            const double rounds = std::floor(left / round->time);
            const double part = std::max(0.0, std::fma(-rounds, round->time, left));
            points = rounds * round->points + points_within(part, block, k);
            if (!std::isfinite(points))
                return out_of_domain("The clock is too long for so short a round.");
            return Reps{points};
        }
        points += round->points;
        left -= round->time;
    }
}

Result<Seconds> finish_time(double rounds, const Block& block) {
    if (auto error = bad_shape(block))
        return *error;
    if (!whole_from_one(rounds))
        return out_of_domain("The number of rounds must be a whole number from 1; got %1.", rounds);
    if (!has_round(block, rounds))
        return beyond_columns(rounds);
    const double alike = one_column(block) ? rounds : 1;
    double time = 0;
    for (double k = 1; k <= rounds / alike; ++k) {
        const auto round = whole_round(block, k);
        if (!round)
            return round.error();
        time += alike * round->time;
    }
    if (!std::isfinite(time))
        return out_of_domain("That many rounds are too long to calculate.");
    return Seconds{time};
}

Result<CaloriesPerHour> erg_need(Seconds cap, double goal, const Block& block, std::optional<double> station_row) {
    if (auto error = bad_shape(block))
        return *error;
    if (!positive(cap.value()))
        return out_of_domain("The cap must be above 0 s; got %1.", cap.value());
    if (!(goal > slack) || !std::isfinite(goal))
        return out_of_domain("The goal in rounds must be above 0; got %1.", goal);
    const double whole = std::floor(goal + slack);
    const double part = goal - whole > slack ? goal - whole : 0;
    const double last = part > 0 ? whole + 1 : whole;

    const auto is_calories = [&](std::size_t row) {
        return rate_kind(block.units[row]) == RateKind::calories_per_hour;
    };
    std::size_t row = 0;
    if (station_row) {
        if (!whole_from_one(*station_row) || !(*station_row <= static_cast<double>(block.units.size())))
            return out_of_domain("The station must be the number of its row, from 1; got %1.", *station_row);
        row = static_cast<std::size_t>(*station_row) - 1;
        if (!is_calories(row))
            return out_of_domain("Row %1 is not a calorie station.", *station_row);
    } else {
        while (row < block.units.size() && !is_calories(row))
            ++row;
        if (row == block.units.size())
            return no_solution("There is no calorie station.");
    }
    if (!has_round(block, last))
        return beyond_columns(last);

    Shares needed;
    const double alike = one_column(block) ? std::max(1.0, whole) : 1;
    for (double k = 1; k <= whole / alike; ++k) {
        const auto round = shares_of_round(block, k);
        if (!round)
            return round.error();
        needed.calories += alike * round->calories;
        needed.other += alike * round->other;
    }
    if (part > 0) {
        const auto round = shares_of_part(block, last, part);
        if (!round)
            return round.error();
        needed.calories += round->calories;
        needed.other += round->other;
    }
    const double room = cap.value() - needed.other;
    if (!(room > 0))
        return no_solution("Everything else takes %1 s of the %2 s of the cap: no time is left for the ergometer.",
                           needed.other, cap.value());
    if (!(needed.calories > 0))
        return no_solution("No calories are to be done on the way to this goal.");
    double first = 1; // round in which this station has work
    while (first < last && !one_column(block) && cell(block.amounts, row, first) == 0)
        ++first;
    if (cell(block.amounts, row, first) == 0)
        return no_solution("Row %1 has no calories on the way to this goal.", row + 1);
    const double rate = cell(block.rates, row, first) * (needed.calories / room);
    if (!(rate > 0) || !std::isfinite(rate))
        return no_solution("No rate on the ergometer makes this goal.");
    return CaloriesPerHour{rate};
}

} // namespace pacecells
