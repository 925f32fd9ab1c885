#include "catalog.h"

#include "binding.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/heat.h"
#include "pacecells/pace.h"
#include "pacecells/plan.h"
#include "pacecells/reserve.h"
#include "pacecells/score.h"
#include "pacecells/sets.h"
#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <iterator>
#include <limits>

// First the cell functions as C++ sees them, family by family: they read options and defaults and call the model.
// Then the rows.

namespace pacecells {

namespace {

template <class T, class Fallback>
[[nodiscard]] auto value_or(const std::optional<T>& argument, Fallback fallback) {
    return argument ? argument->value : fallback;
}

// One cell of an answer, where a row or a column is asked for; counted from 1.
[[nodiscard]] Result<Answer> pick(Range range, const std::optional<Whole>& row, const std::optional<Whole>& column) {
    if (row && (row->value < 1 || row->value > range.rows))
        return out_of_domain("There is no row %1, only 1 to %2.", row->value, range.rows);
    if (column && (column->value < 1 || column->value > range.columns))
        return out_of_domain("There is no column %1, only 1 to %2.", column->value, range.columns);
    if (!row && !column)
        return Answer{std::move(range)};
    if (row && column)
        return Answer{range.at(row->value - 1, column->value - 1)};
    Range part{row ? 1 : range.rows, column ? 1 : range.columns, {}};
    for (int r = 0; r < part.rows; ++r)
        for (int c = 0; c < part.columns; ++c)
            part.cells.push_back(range.at(row ? row->value - 1 : r, column ? column->value - 1 : c));
    if (part.single())
        return Answer{std::move(part.cells.front())};
    return Answer{std::move(part)};
}

// The rows read a parameter's kind from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

// --- CLOCK -------------------------------------------------------------------------------------------------------

Result<std::string> clock_text_cell(AnyTime time, std::optional<Whole> decimals) {
    return clock_text(time.value, value_or(decimals, 0));
}

Result<Seconds> clock_value(AnyTime text) { return text.value; }

// --- ERG ---------------------------------------------------------------------------------------------------------

Result<double> erg_convert(NumberOrText value, Text from, Text to, std::optional<Text> machine) {
    const auto unit_from = parse_erg_unit(from.value);
    if (!unit_from)
        return unit_from.error();
    const auto unit_to = parse_erg_unit(to.value);
    if (!unit_to)
        return unit_to.error();
    Machine which = Machine::row;
    if (machine) {
        const auto parsed = parse_machine(machine->value);
        if (!parsed)
            return parsed.error();
        which = *parsed;
    }
    double given = 0;
    if (*unit_from == ErgUnit::split) {
        const auto split = Read<SplitTime>::from(std::visit([](auto&& v) { return Cell{v}; }, value.value));
        if (!split)
            return detail::about(0, split.error());
        given = split->value.value();
    } else if (const auto* number = std::get_if<double>(&value.value)) {
        given = *number;
    } else {
        return out_of_domain("A value in %1 is a number; a text is understood for a split only.", from.value);
    }
    auto converted = convert(given, *unit_from, *unit_to, which);
    if (!converted || *unit_to != ErgUnit::split)
        return converted;
    return *converted / seconds_a_day;
}

Result<Seconds> erg_time(Number calories, Number rate, std::optional<PlainSeconds> spin_up) {
    return time_for(Kilocalories{calories.value}, CaloriesPerHour{rate.value}, value_or(spin_up, Seconds{0}));
}

Result<CaloriesPerHour> erg_rate(Number calories, Duration time, std::optional<PlainSeconds> spin_up) {
    return rate_for(Kilocalories{calories.value}, time.value, value_or(spin_up, Seconds{0}));
}

Result<Kilocalories> erg_calories(AnyTime time, Number rate, std::optional<PlainSeconds> spin_up) {
    return calories_by(time.value, CaloriesPerHour{rate.value}, value_or(spin_up, Seconds{0}));
}

// --- SETS --------------------------------------------------------------------------------------------------------

Result<Scheme> scheme_in(const NumberOrText& given) {
    if (const auto* number = std::get_if<double>(&given.value))
        return Scheme::from_number(*number);
    return Scheme::parse(*std::get_if<std::string>(&given.value));
}

std::optional<Reps> margin_in(const std::optional<Number>& margin) {
    return margin ? std::optional{Reps{margin->value}} : std::nullopt;
}

Result<LoadFormula> formula_in(const std::optional<Text>& formula) {
    return formula ? parse_load_formula(formula->value) : LoadFormula::epley;
}

Result<std::string> sets_split(Whole reps, Whole sets) {
    const auto scheme = Scheme::near_even(reps.value, sets.value);
    if (!scheme)
        return scheme.error();
    return scheme->text();
}

Result<double> sets_count(NumberOrText scheme) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return static_cast<double>(parsed->sets());
}

Result<Seconds> sets_time(NumberOrText scheme, PlainSeconds rep, PlainSeconds rest) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return set_time(*parsed, rep.value, rest.value);
}

Result<std::string> sets_plan(Whole reps, Whole rounds, Number max_unbroken, PlainSeconds away,
                              std::optional<PlainSeconds> rest, std::optional<Number> margin) {
    const auto scheme = plan_sets(reps.value, rounds.value, Reps{max_unbroken.value}, away.value,
                                  value_or(rest, Seconds{3}), margin_in(margin));
    if (!scheme)
        return scheme.error();
    return scheme->text();
}

Result<double> sets_rest(Whole reps, Whole rounds, Number max_unbroken, PlainSeconds away, Whole sets,
                         std::optional<Number> margin) {
    const auto rest =
        rest_needed(reps.value, rounds.value, Reps{max_unbroken.value}, away.value, sets.value, margin_in(margin));
    if (!rest)
        return rest.error();
    return rest->value(); // plain seconds, as the functions that take a rest read them
}

Result<Reps> sets_left(NumberOrText scheme, Whole rounds, Number max_unbroken, PlainSeconds away,
                       std::optional<PlainSeconds> rest) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return reps_left(*parsed, rounds.value, Reps{max_unbroken.value}, away.value, value_or(rest, Seconds{3}));
}

Result<Reps> sets_maxreps(Number load, Number one_rep_max_load, std::optional<Text> formula) {
    const auto which = formula_in(formula);
    if (!which)
        return which.error();
    return max_reps(load.value, one_rep_max_load.value, *which);
}

Result<double> sets_onerepmax(Number load, Number reps, std::optional<Text> formula) {
    const auto which = formula_in(formula);
    if (!which)
        return which.error();
    return one_rep_max(load.value, Reps{reps.value}, *which);
}

// --- SCORE -------------------------------------------------------------------------------------------------------

// The reps of each round, with the numbers they view: blanks at the end are spare cells.
class RoundReps {
  public:
    static Result<RoundReps> from(const Numbers& numbers) {
        RoundReps result;
        bool ended = false;
        for (const auto& number : numbers.values) {
            if (!number) {
                ended = true;
                continue;
            }
            if (ended)
                return out_of_domain("The reps per round have a blank cell between them.");
            result.numbers_.push_back(*number);
        }
        if (const auto checked = result.view(); !checked)
            return checked.error();
        return result;
    }
    [[nodiscard]] Result<RepsPerRound> view() const {
        if (numbers_.size() == 1)
            return RepsPerRound::every_round(numbers_.front());
        return RepsPerRound::by_round(numbers_);
    }

  private:
    std::vector<double> numbers_;
};

// Total reps of a score: a number, or text such as "7+21" together with the reps per round.
Result<Reps> score_in(const NumberOrText& score, const std::optional<Numbers>& reps_per_round) {
    if (const auto* reps = std::get_if<double>(&score.value)) {
        if (!(*reps >= 0))
            return out_of_domain("A score is at least 0, got %1.", *reps);
        return Reps{*reps};
    }
    const auto parsed = parse_score(*std::get_if<std::string>(&score.value));
    if (!parsed)
        return parsed.error();
    if (!reps_per_round)
        return out_of_domain("A score written in rounds needs the reps per round as well.");
    const auto reps = RoundReps::from(*reps_per_round);
    if (!reps)
        return reps.error();
    return reps_of(*parsed, *reps->view());
}

Result<Reps> score_reps(NumberOrText score, Numbers reps_per_round) {
    if (const auto reps = RoundReps::from(reps_per_round); !reps)
        return reps.error();
    return score_in(score, reps_per_round);
}

Result<std::string> score_text_cell(Number reps, Numbers reps_per_round) {
    const auto rounds = RoundReps::from(reps_per_round);
    if (!rounds)
        return rounds.error();
    return score_text(Reps{reps.value}, *rounds->view());
}

Result<Reps> score_project(Duration cap, Duration elapsed, NumberOrText score, std::optional<Numbers> reps_per_round) {
    const auto reps = score_in(score, reps_per_round);
    if (!reps)
        return reps.error();
    return project(cap.value, elapsed.value, *reps);
}

// The clocks of the rounds done: blanks after the last are rounds to come.
Result<std::vector<Seconds>> clocks_in(const Times& times) {
    std::vector<Seconds> clocks;
    bool ended = false;
    for (const auto& time : times.values) {
        if (!time) {
            ended = true;
            continue;
        }
        if (ended)
            return out_of_domain("The clocks have a blank cell between them.");
        clocks.push_back(*time);
    }
    return clocks;
}

Result<Answer> score_forecast(Duration cap, Times clocks, Numbers reps_per_round, std::optional<Number> confidence,
                              std::optional<Whole> index) {
    const auto done = clocks_in(clocks);
    if (!done)
        return done.error();
    const auto rounds = RoundReps::from(reps_per_round);
    if (!rounds)
        return rounds.error();
    const auto result = forecast(cap.value, *done, *rounds->view(), value_or(confidence, 0.9));
    if (!result)
        return result.error();
    return pick(Range{1, 3, {to_cell(result->low), to_cell(result->expected), to_cell(result->high)}}, {}, index);
}

Result<double> score_fade(Times clocks) {
    const auto done = clocks_in(clocks);
    if (!done)
        return done.error();
    return fade(*done);
}

Result<double> score_steadiness(Times clocks) {
    const auto done = clocks_in(clocks);
    if (!done)
        return done.error();
    return steadiness(*done);
}

Result<Seconds> score_capped(Number reps_left, Duration cap) { return capped(Reps{reps_left.value}, cap.value); }

Result<std::string> score_result(AnyTime time, Duration cap, std::optional<Number> reps_left) {
    return result_text(time.value, cap.value, Reps{value_or(reps_left, 0.0)});
}

// A group is known by its text; a number serves as all its digits.
std::string group_text(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) {
        char digits[32];
        return {digits, std::to_chars(digits, std::end(digits), *number).ptr};
    }
    if (const auto* text = std::get_if<std::string>(&cell))
        return *text;
    return {};
}

std::vector<std::string> texts(const RawCells& range) {
    std::vector<std::string> result;
    result.reserve(range.cells.size());
    for (const auto& cell : range.cells)
        result.push_back(group_text(cell));
    return result;
}

Result<std::optional<double>> number_or_blank(const Cell& cell) {
    if (is_blank(cell))
        return std::optional<double>{};
    const auto number = Read<Number>::from(cell);
    if (!number)
        return number.error();
    return std::optional{number->value};
}

Result<Answer> score_place(RawCells score, Numbers scores, std::optional<Text> order, std::optional<RawCells> group,
                           std::optional<RawCells> groups, std::optional<RawCells> tiebreak,
                           std::optional<Numbers> tiebreaks) {
    if (group.has_value() != groups.has_value())
        return out_of_domain("The group and the column of groups go together, and one of them is missing.");
    if (tiebreak.has_value() != tiebreaks.has_value())
        return out_of_domain("The tie-break and the column of tie-breaks go together, and one of them is missing.");
    for (const auto* beside : {group ? &*group : nullptr, tiebreak ? &*tiebreak : nullptr})
        if (beside && (beside->rows != score.rows || beside->columns != score.columns))
            return out_of_domain("Group and tie-break have as many cells as score.");

    Field field{scores.values, Order::high_wins, {}, {}};
    if (order) {
        const auto parsed = parse_order(order->value);
        if (!parsed)
            return parsed.error();
        field.order = *parsed;
    }
    const auto group_column = groups ? texts(*groups) : std::vector<std::string>{};
    field.groups = group_column;
    if (tiebreaks)
        field.tiebreaks = tiebreaks->values;
    if ((groups && group_column.size() != scores.values.size()) ||
        (tiebreaks && tiebreaks->values.size() != scores.values.size()))
        return out_of_domain("Groups and tie-breaks have as many cells as scores.");

    // For one athlete a look along the column, for many one sort.
    const bool single = score.cells.size() == 1;
    std::optional<Places> places;
    if (!single) {
        auto sorted = Places::in(field);
        if (!sorted)
            return sorted.error();
        places = *std::move(sorted);
    }
    Range out{score.rows, score.columns, {}};
    out.cells.reserve(score.cells.size());
    for (std::size_t i = 0; i < score.cells.size(); ++i) {
        if (!single && is_blank(score.cells[i])) {
            out.cells.emplace_back(Blank{});
            continue;
        }
        const auto own = Read<Number>::from(score.cells[i]);
        const auto own_tiebreak =
            tiebreak ? number_or_blank(tiebreak->cells[i]) : Result<std::optional<double>>{std::optional<double>{}};
        if (!own || !own_tiebreak) {
            out.cells.emplace_back(own ? detail::about(5, own_tiebreak.error()) : detail::about(0, own.error()));
            continue;
        }
        const std::string own_group = group ? group_text(group->cells[i]) : std::string{};
        const Standing standing{own->value, own_group, *own_tiebreak};
        out.cells.push_back(to_cell(single ? place(standing, field) : places->of(standing)));
    }
    if (single)
        return Answer{out.cells.front()};
    return Answer{std::move(out)};
}

// --- PACE --------------------------------------------------------------------------------------------------------

Result<Seconds> pace_round(Duration cap, NumberOrText goal, std::optional<Numbers> reps_per_round) {
    if (const auto* rounds = std::get_if<double>(&goal.value))
        return round_time(cap.value, *rounds);
    const auto score = parse_score(*std::get_if<std::string>(&goal.value));
    if (!score)
        return score.error();
    if (!reps_per_round)
        return out_of_domain("A goal written as a score needs the reps per round as well.");
    const auto reps = RoundReps::from(*reps_per_round);
    if (!reps)
        return reps.error();
    const auto rounds = rounds_of(*score, *reps->view());
    if (!rounds)
        return rounds.error();
    return round_time(cap.value, *rounds);
}

Result<double> pace_rounds(Duration cap, ShortTime time) { return rounds_in(cap.value, time.value); }

Result<Seconds> pace_clock(Duration cap, Number rounds, Number k, std::optional<Number> drift) {
    return clock_after(cap.value, rounds.value, k.value, value_or(drift, 0.0));
}

Result<Range> pace_splits(Duration cap, Number rounds, std::optional<Number> drift) {
    const auto rows = splits(cap.value, rounds.value, value_or(drift, 0.0));
    if (!rows)
        return rows.error();
    Range out{static_cast<int>(rows->size()), 3, {}};
    for (const auto& row : *rows) {
        out.cells.push_back(to_cell(row.round));
        out.cells.push_back(to_cell(row.time));
        out.cells.push_back(to_cell(row.clock));
    }
    return out;
}

Result<Seconds> pace_rehearsal(ShortTime time, std::optional<Number> effort) {
    return rehearsal_time(time.value, value_or(effort, 0.825));
}

Result<CaloriesPerHour> pace_ergneed(ShortTime time, Number calories, PlainSeconds other,
                                     std::optional<PlainSeconds> spin_up) {
    return erg_need(time.value, Kilocalories{calories.value}, other.value, value_or(spin_up, Seconds{0}));
}

Result<Range> pace_table(Duration cap, Number from, Number to, std::optional<Number> step,
                         std::optional<Number> calories, std::optional<PlainSeconds> other) {
    const auto rows =
        goal_table(cap.value, from.value, to.value, value_or(step, 1.0),
                   calories ? std::optional{Kilocalories{calories->value}} : std::nullopt, value_or(other, Seconds{0}));
    if (!rows)
        return rows.error();
    Range out{static_cast<int>(rows->size()), 4, {}};
    for (const auto& row : *rows) {
        out.cells.push_back(to_cell(row.goal));
        out.cells.push_back(to_cell(row.round_time));
        out.cells.push_back(to_cell(row.half_clock));
        out.cells.push_back(to_cell(row.need));
    }
    return out;
}

// --- TEST --------------------------------------------------------------------------------------------------------

CriticalPower values_in(Number critical, Number reserve) { return {Watts{critical.value}, Joules{reserve.value}}; }

Result<Answer> test_critical(RawCells times, Numbers watts, std::optional<Whole> index) {
    if (times.cells.size() != watts.values.size())
        return out_of_domain("Every test needs a time and its watts: there are %1 times and %2 watts.",
                             times.cells.size(), watts.values.size());
    std::vector<Seconds> test_times;
    std::vector<Watts> test_watts;
    for (std::size_t i = 0; i < times.cells.size(); ++i) {
        if (is_blank(times.cells[i]) && !watts.values[i])
            continue; // a spare row
        if (is_blank(times.cells[i]) || !watts.values[i])
            return out_of_domain("Every test needs a time and its watts: test %1 has only one of them.", i + 1);
        const auto time = Read<ShortTime>::from(times.cells[i]);
        if (!time)
            return detail::about(0, time.error());
        test_times.push_back(time->value);
        test_watts.emplace_back(*watts.values[i]);
    }
    const auto fit = fit_critical_power(test_times, test_watts);
    if (!fit)
        return fit.error();
    const auto known = [](const auto& value) {
        return value ? to_cell(*value) : Cell{not_available("Two tests give exact values; errors need a third.")};
    };
    return pick(Range{1,
                      5,
                      {to_cell(fit->values.critical), to_cell(fit->values.reserve), known(fit->critical_error),
                       known(fit->reserve_error), known(fit->r_squared)}},
                {}, index);
}

Result<Watts> test_power(Duration time, Number critical, Number reserve) {
    return power_for(time.value, values_in(critical, reserve));
}

Result<CaloriesPerHour> test_alone(Duration cap, Number critical, Number reserve) {
    return rate_alone(cap.value, values_in(critical, reserve));
}

Result<CaloriesPerHour> test_floor(Duration cap, Number critical, Number reserve, std::optional<Number> share) {
    return rate_floor(cap.value, values_in(critical, reserve), value_or(share, 0.75));
}

Result<Seconds> test_predict(ShortTime time, Number known, Number distance, std::optional<Number> exponent) {
    return predict_time(time.value, Metres{known.value}, Metres{distance.value}, value_or(exponent, 1.06));
}

// --- PLAN --------------------------------------------------------------------------------------------------------

// The four ranges of a stations block (and the points for one unit of amount) as the model views them.
class Stations {
  public:
    static Result<Stations> from(const RawCells& units, const RawCells& amounts, const RawCells& rates,
                                 const RawCells& extras, const std::optional<RawCells>& counts = {}) {
        if (units.columns != 1)
            return out_of_domain("Units are one column, one row a station.");
        for (const auto* part : {&amounts, &rates, &extras})
            if (part->rows != units.rows)
                return out_of_domain("Units, amounts, rates and extras need ranges of equal height.");
        if (counts && (counts->rows != units.rows || counts->columns != 1))
            return out_of_domain("Counts are one column beside the units.");

        Stations result;
        for (const auto& cell : units.cells) {
            const auto unit = unit_in(cell);
            if (!unit)
                return unit.error();
            result.units_.push_back(*unit);
        }
        result.amounts_ = numbers(amounts, [](int, const Cell& cell) { return plain(cell); });
        result.extras_ = numbers(extras, [](int, const Cell& cell) { return seconds(cell); });
        result.rates_ = numbers(
            rates, [&](int row, const Cell& cell) { return rate(result.units_[static_cast<std::size_t>(row)], cell); });
        result.columns_ = {amounts.columns, rates.columns, extras.columns};
        if (counts)
            for (int row = 0; row < counts->rows; ++row) {
                const auto& cell = counts->at(row, 0);
                result.counts_.push_back(is_blank(cell) ? credit(result.units_[static_cast<std::size_t>(row)])
                                                        : plain(cell));
            }
        return result;
    }

    [[nodiscard]] pacecells::Block view() const {
        const auto part = [](const std::vector<double>& cells, int columns) {
            return pacecells::Cells{cells, static_cast<std::size_t>(columns)};
        };
        return {units_, part(amounts_, columns_[0]), part(rates_, columns_[1]), part(extras_, columns_[2]), counts_};
    }

  private:
    static constexpr double unreadable = std::numeric_limits<double>::quiet_NaN(); // refused where a round needs it

    static Result<Unit> unit_in(const Cell& cell) {
        if (is_blank(cell))
            return Unit::blank;
        const auto* text = std::get_if<std::string>(&cell);
        return parse_unit(text ? *text : number_text(*std::get_if<double>(&cell)));
    }
    static double plain(const Cell& cell) {
        const auto number = Read<Number>::from(is_blank(cell) ? Cell{Blank{}} : cell);
        return number ? number->value : unreadable;
    }
    static double seconds(const Cell& cell) {
        const auto number = Read<PlainSeconds>::from(is_blank(cell) ? Cell{Blank{}} : cell);
        return number ? number->value.value() : unreadable;
    }
    static double rate(Unit unit, const Cell& cell) {
        switch (rate_kind(unit)) {
        case RateKind::none:
            return 0;
        case RateKind::seconds_each:
            return seconds(cell);
        case RateKind::calories_per_hour:
            return plain(cell);
        case RateKind::split:
            break;
        }
        const auto time = detail::read_time(cell, unit == Unit::run_m ? 60 : 10, true);
        return time ? time->value() : unreadable;
    }
    static std::vector<double> numbers(const RawCells& range, const auto& read_cell) {
        std::vector<double> result;
        result.reserve(range.cells.size());
        for (int row = 0; row < range.rows; ++row)
            for (int column = 0; column < range.columns; ++column)
                result.push_back(read_cell(row, range.at(row, column)));
        return result;
    }

    std::vector<Unit> units_;
    std::vector<double> amounts_, rates_, extras_, counts_;
    std::array<int, 3> columns_{};
};

Result<Seconds> plan_roundtime(RawCells units, RawCells amounts, RawCells rates, RawCells extras,
                               std::optional<Number> k) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return round_time(stations->view(), value_or(k, 1.0));
}

Result<Reps> plan_score(AnyTime clock, RawCells units, RawCells amounts, RawCells rates, RawCells extras,
                        std::optional<RawCells> counts) {
    const auto stations = Stations::from(units, amounts, rates, extras, counts);
    if (!stations)
        return stations.error();
    return score_at(clock.value, stations->view());
}

Result<Seconds> plan_finish(Number rounds, RawCells units, RawCells amounts, RawCells rates, RawCells extras) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return finish_time(rounds.value, stations->view());
}

Result<CaloriesPerHour> plan_ergneed(Duration cap, Number goal, RawCells units, RawCells amounts, RawCells rates,
                                     RawCells extras, std::optional<Number> station) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return erg_need(cap.value, goal.value, stations->view(), station ? std::optional{station->value} : std::nullopt);
}

MixedTask task_in(const Duration& cap, const Number& calories, const PlainSeconds& other, const Number& critical,
                  const Number& reserve) {
    return {cap.value, Kilocalories{calories.value}, other.value, values_in(critical, reserve)};
}

Result<CaloriesPerHour> plan_hold(Duration cap, Number calories, PlainSeconds other, Number critical, Number reserve,
                                  std::optional<Number> effort, std::optional<Number> keep) {
    auto task = task_in(cap, calories, other, critical, reserve);
    task.effort_between = value_or(effort, task.effort_between);
    return hold_rate(task, value_or(keep, 0.10));
}

Result<double> plan_reserve(Duration cap, Number calories, PlainSeconds other, Number critical, Number reserve,
                            Number rate, std::optional<Number> effort, std::optional<Number> round) {
    auto task = task_in(cap, calories, other, critical, reserve);
    task.effort_between = value_or(effort, task.effort_between);
    return reserve_left(task, CaloriesPerHour{rate.value}, round ? std::optional{round->value} : std::nullopt);
}

Result<double> plan_effort(Duration cap, Number calories, PlainSeconds other, Number critical, Number reserve,
                           Number rate, std::optional<Number> keep) {
    return effort_between(task_in(cap, calories, other, critical, reserve), CaloriesPerHour{rate.value},
                          value_or(keep, 0.10));
}

// --- HEAT --------------------------------------------------------------------------------------------------------

Result<Answer> heat_list_cells(RawCells names, Numbers projected, Number lanes, std::optional<DayTime> first_start,
                               std::optional<Duration> every, std::optional<RawCells> groups,
                               std::optional<Whole> row_wanted, std::optional<Whole> column_wanted) {
    if (names.rows > 1 && names.columns > 1)
        return out_of_domain("Names are one column or one row of cells.");
    for (const auto& name : names.cells) // they go out as they came in
        if (const auto* number = std::get_if<double>(&name); number && !std::isfinite(*number))
            return out_of_domain("A name is a text or a number.");
    const auto name_texts = texts(names);
    const auto group_texts = groups ? texts(*groups) : std::vector<std::string>{};
    if (groups && group_texts.size() != name_texts.size())
        return out_of_domain("Groups have as many cells as names.");
    const auto places =
        heat_list(name_texts, projected.values, lanes.value,
                  first_start ? std::optional{Seconds{first_start->days * seconds_a_day}} : std::nullopt,
                  value_or(every, Seconds{900}), group_texts);
    if (!places)
        return places.error();
    if (places->empty())
        return out_of_domain("There is no name to put into a heat.");
    Range out{static_cast<int>(places->size()), 5, {}};
    for (const auto& place_given : *places) {
        out.cells.push_back(to_cell(static_cast<double>(place_given.heat)));
        out.cells.push_back(to_cell(static_cast<double>(place_given.lane)));
        out.cells.push_back(to_cell(place_given.start));
        out.cells.push_back(names.cells[place_given.athlete]);
        out.cells.push_back(place_given.judge ? names.cells[*place_given.judge] : Cell{Blank{}});
    }
    return pick(std::move(out), row_wanted, column_wanted);
}

// NOLINTEND(performance-unnecessary-value-param)

// --- the rows ----------------------------------------------------------------------------------------------------

constexpr std::string_view arithmetic = "Arithmetic.";
constexpr std::string_view practice = "Common practice, no source.";
constexpr std::string_view two_phase =
    "Two-phase recovery with the constants of Chorley et al. 2022 (whole body; used for local muscle by analogy); held "
    "against the drop-off printed by Senna et al. 2009 and Speretta et al. 2012. The margin is judgement.";
constexpr std::string_view reserve_balance =
    "Differential balance of the reserve, Skiba et al. 2015. effort_between has no source: fit it with PLAN.EFFORT.";
constexpr std::string_view stations_domain =
    "units, amounts, rates and extras_s have equally many rows; an amount of 0 drops the station for that round. "
    "Err:502 for a unit that is not known or a rate that a round needs and has not; Err:523 for a round beyond the "
    "last "
    "of several columns.";

constexpr std::string_view cap_text = "Time cap of the task.";
constexpr std::string_view units_text = "Unit of each station, in working order: rep, row cal, ski cal, bike cal, "
                                        "armbike cal, row m, ski m, bike m, run m, "
                                        "carry m, hold or rest.";
constexpr std::string_view amounts_text = "Amount at each station; one column, or one column for each round.";
constexpr std::string_view rates_text =
    "Rate at each station: seconds a rep, cal/h, split, time for 1000 m of running, or seconds a metre of carrying.";
constexpr std::string_view extras_text =
    "Seconds at each station for walking, picking up and rests between sets, after its work.";
constexpr std::string_view reps_per_round_text = "Reps of a round, or a range with those of round 1, 2, 3 and so on.";
constexpr std::string_view clocks_text = "What the clock showed at the end of each finished round.";
constexpr std::string_view critical_text = "Critical power in watts.";
constexpr std::string_view reserve_text = "Reserve above critical power in joules.";
constexpr std::string_view spin_up_text = "Seconds before the monitor counts; 0 if left out.";
constexpr std::string_view keep_text = "Share of the reserve not to be touched; 0.10 if left out.";
constexpr std::string_view effort_text = "Effort at the other stations as a share of critical power; 1.10 if left out.";
constexpr std::string_view margin_text = "Reps to keep in hand; the larger of 2 and 15 % of max_unbroken if left out.";
constexpr std::string_view away_text = "Seconds from the end of these reps to the start of the next round's.";
constexpr std::string_view unbroken_text = "Reps that can be done unbroken from fresh.";
constexpr std::string_view erg_calories_text = "Calories on the ergometer in each round.";
constexpr std::string_view other_text = "Seconds for all else in the round.";
constexpr std::string_view formula_text = "\"epley\" or \"brzycki\"; \"epley\" if left out.";
constexpr std::string_view drift_text =
    "Change of the round time from start to end, as a share of the mean; negative: finishing faster; 0 if left out.";

constexpr Row rows[] = {
    row<&clock_text_cell>("clockText", "CLOCK.TEXT", "Writes a time as minutes and seconds.",
                          {{"time", "Time to write."}, {"decimals", "Decimals of the seconds, 0 to 3; 0 if left out."}},
                          "time at least 0 and below 4 h; decimals whole, 0 to 3.", practice, {"\"2:30\"", "2:30"}),
    row<&clock_value>("clockValue", "CLOCK.VALUE", "Reads a time written as minutes and seconds.",
                      {{"text", "Time as text: \"2:30\", \"1:02:30\" or \"2:30.5\"."}},
                      "Digits without a colon are refused; seconds and, after hours, minutes are below 60.", practice,
                      {"\"2:30\"", "2:30"}),

    row<&erg_convert>(
        "ergConvert", "ERG.CONVERT", "Converts between calories an hour, watts and the split of an ergometer.",
        {{"value", "Value to convert; a split is a time."},
         {"from", "Its unit: \"cal/h\", \"W\" or \"split\"."},
         {"to", "Unit wanted: \"cal/h\", \"W\" or \"split\"."},
         {"machine", "\"row\", \"ski\" or \"bike\"; \"row\" if left out."}},
        "At least 300 cal/h; exactly 300 is 0 W and has no split. A split is above 0 and below 10 min. "
        "\"armbike\" is refused: its calories follow no such formula.",
        "Power and split: A. Dudhia, The Physics of Ergometers. Calories: 300 + 4 x 0.8604 W, from memory; "
        "within 0.4 % of Dudhia's formula. Air-braked monitors of this formula only: check yours.",
        {"1000;\"cal/h\";\"W\"", "203.394"}),
    row<&erg_time>("ergTime", "ERG.TIME", "Time until that many calories are done.",
                   {{"calories", "Calories to do."}, {"cal_per_hour", "Rate in cal/h."}, {"spin_up_s", spin_up_text}},
                   "calories and rate above 0.", arithmetic, {"15;1000", "0:54"}),
    row<&erg_rate>("ergRate", "ERG.RATE", "Rate in cal/h that has the calories done in that time.",
                   {{"calories", "Calories to do."}, {"time", "Time for them."}, {"spin_up_s", spin_up_text}},
                   "calories and time above 0; Err:523 where the spin-up takes all the time.", arithmetic,
                   {"20;\"1:00\"", "1200"}),
    row<&erg_calories>(
        "ergCalories", "ERG.CALORIES", "Calories done by then, decimal; 0 before the spin-up is over.",
        {{"time", "Time on the ergometer."}, {"cal_per_hour", "Rate in cal/h."}, {"spin_up_s", spin_up_text}},
        "time at least 0, rate above 0.", arithmetic, {"\"0:54\";1000", "15"}),

    row<&pace_round>("paceRound", "PACE.ROUND", "Time a round for a goal.",
                     {{"cap", cap_text},
                      {"goal", "Goal in rounds (8 or 9.5), or a score such as \"7+21\" with the reps per round."},
                      {"reps_per_round", reps_per_round_text}},
                     "cap and goal above 0.", arithmetic, {"\"18:00\";8", "2:15"}),
    row<&pace_rounds>("paceRounds", "PACE.ROUNDS", "Rounds that a round time makes, decimal.",
                      {{"cap", cap_text}, {"round_time", "Time a round."}},
                      "round_time above 0, below 1 h and not above the cap.", arithmetic, {"\"18:00\";\"2:15\"", "8"}),
    row<&pace_clock>(
        "paceClock", "PACE.CLOCK", "What the clock shows at the end of round k.",
        {{"cap", cap_text}, {"rounds", "Rounds in all."}, {"k", "Round, may be decimal."}, {"drift", drift_text}},
        "k above 0 and at most rounds; drift from -1 to 1.", "A straight line of round times; own derivation.",
        {"\"18:00\";8;4", "9:00"}),
    row<&pace_splits>("paceSplits", "PACE.SPLITS", "Every round, its time and the clock at its end, in three columns.",
                      {{"cap", cap_text},
                       {"rounds", "Rounds in all; a last partial round has a row of its own."},
                       {"drift", drift_text}},
                      "rounds above 0, at most 10000; drift from -1 to 1.",
                      "A straight line of round times; own derivation.", {"\"18:00\";8", "1"}),
    row<&pace_rehearsal>(
        "paceRehearsal", "PACE.REHEARSAL", "Round time at a share of the planned pace.",
        {{"round_time", "Planned time a round."}, {"effort", "Share of the planned pace; 0.825 if left out."}},
        "effort above 0, at most 1.", "Common practice, no source: 0.80 to 0.85 for three rounds.",
        {"\"2:12\"", "2:40"}),
    row<&pace_ergneed>("paceErgneed", "PACE.ERGNEED", "Rate in cal/h that the round leaves room for.",
                       {{"round_time", "Time a round."},
                        {"calories", erg_calories_text},
                        {"other_s", other_text},
                        {"spin_up_s", spin_up_text}},
                       "Err:523 where the round leaves no room.", arithmetic, {"\"2:15\";15;81", "1000"}),
    row<&pace_table>("paceTable", "PACE.TABLE",
                     "Table of goals for the wall: goal, round time, clock at half-way and cal/h needed.",
                     {{"cap", cap_text},
                      {"from_rounds", "First goal in rounds."},
                      {"to_rounds", "Last goal in rounds."},
                      {"step", "From goal to goal; 1 if left out."},
                      {"calories", "Calories in each round; without them the last column stays empty."},
                      {"other_s", "Seconds for all else in the round; 0 if left out."}},
                     "from_rounds above 0 and at most to_rounds; step above 0; at most 10000 rows.", arithmetic,
                     {"\"18:00\";8;10", "8"}),

    row<&sets_split>("setsSplit", "SETS.SPLIT", "Breaks repetitions into near-even sets, the larger first.",
                     {{"reps", "Repetitions in all."}, {"sets", "Number of sets."}},
                     "Whole numbers; sets from 1 to reps.", practice, {"20;3", "7-7-6"}),
    row<&sets_count>("setsCount", "SETS.COUNT", "Number of sets in a scheme.",
                     {{"scheme", "Scheme such as \"5-4\", \"3-2/3-2\" or \"9x1\"; a number is unbroken."}},
                     "A number is whole, 1 to 999.", arithmetic, {"\"3-3-3\"", "3"}),
    row<&sets_time>("setsTime", "SETS.TIME",
                    "Time for a scheme, with a rest between sets and none at a change of sides.",
                    {{"scheme", "Scheme such as \"5-4\", \"3-2/3-2\" or \"9x1\"; a number is unbroken."},
                     {"rep_s", "Seconds a repetition."},
                     {"rest_s", "Seconds of rest between sets."}},
                    "Seconds are plain numbers, at least 0.", arithmetic, {"\"3-3-3\";2;5", "0:28"}),
    row<&sets_plan>("setsPlan", "SETS.PLAN", "The scheme with the fewest sets that keeps the margin in every round.",
                    {{"reps", "Repetitions in each round."},
                     {"rounds", "Rounds."},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"rest_s", "Seconds of rest between sets; 3 if left out."},
                     {"margin", margin_text}},
                    "reps and rounds whole, above 0; Err:523 where not even singles keep the margin.", two_phase,
                    {"9;9;28;80", "3-3-3"}),
    row<&sets_rest>("setsRest", "SETS.REST", "Seconds of rest between sets that this number of sets needs.",
                    {{"reps", "Repetitions in each round."},
                     {"rounds", "Rounds."},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"sets", "Number of sets."},
                     {"margin", margin_text}},
                    "0 where no rest is needed; Err:523 where even endless rest does not keep the margin.", two_phase,
                    {"9;9;30;80;1", "0"}),
    row<&sets_left>("setsLeft", "SETS.LEFT",
                    "Reps in hand at the worst moment of a scheme; negative means failure before the end.",
                    {{"scheme", "Scheme of each round, such as \"5-4\"; a number is unbroken."},
                     {"rounds", "Rounds."},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"rest_s", "Seconds of rest between sets; 3 if left out."}},
                    "rounds whole, above 0; max_unbroken at least 1.", two_phase, {"9;9;30;80", "5.223"}),
    row<&sets_maxreps>(
        "setsMaxreps", "SETS.MAXREPS", "Unbroken reps expected at a load, decimal.",
        {{"load", "Load."}, {"one_rep_max", "One-repetition maximum, in the same unit."}, {"formula", formula_text}},
        "load above 0 and at most the maximum.", "Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.",
        {"80;100", "7.5"}),
    row<&sets_onerepmax>("setsOnerepmax", "SETS.ONEREPMAX", "One-repetition maximum from a load and its reps.",
                         {{"load", "Load."}, {"reps", "Unbroken reps done with it."}, {"formula", formula_text}},
                         "load above 0, reps at least 1, for Brzycki below 37.",
                         "Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.", {"100;5", "116.667"}),

    row<&score_reps>("scoreReps", "SCORE.REPS", "Total reps of a score.",
                     {{"score", "Score such as \"7+21\", or total reps."}, {"reps_per_round", reps_per_round_text}},
                     "The reps after + are below those of that round; Err:523 for a round beyond the last.", arithmetic,
                     {"\"7+21\";30", "231"}),
    row<&score_text_cell>("scoreText", "SCORE.TEXT", "Writes total reps as rounds and reps, cut to whole reps.",
                          {{"reps", "Total reps."}, {"reps_per_round", reps_per_round_text}},
                          "reps at least 0; Err:523 for a round beyond the last.", arithmetic, {"231;30", "7+21"}),
    row<&score_project>("scoreProject", "SCORE.PROJECT", "Total reps at the cap at the pace so far, decimal.",
                        {{"cap", cap_text},
                         {"elapsed", "Time gone."},
                         {"score", "Score so far."},
                         {"reps_per_round", reps_per_round_text}},
                        "elapsed above 0 and at most the cap.", arithmetic, {"\"15:00\";\"6:00\";90", "225"}),
    row<&score_forecast>(
        "scoreForecast", "SCORE.FORECAST", "Low, expected and high total reps at the cap, from the rounds done so far.",
        {{"cap", cap_text},
         {"clocks", clocks_text},
         {"reps_per_round", reps_per_round_text},
         {"confidence", "Confidence of the range from low to high; 0.9 if left out."},
         {"index", "1 low, 2 expected, 3 high; all three if left out."}},
        "Clocks increase, the last is at most the cap. #N/A for low and high after one round; Err:523 "
        "for a value that is never reached.",
        "Prediction interval of a regression line, Draper and Smith (from memory); checked against NIST "
        "StRD Norris.",
        {"\"10:00\";{\"1:00\"|\"2:00\"|\"3:00\"};30;;2", "300"}),
    row<&score_fade>("scoreFade", "SCORE.FADE", "Change of the round time from round to round, as a share of the mean.",
                     {{"clocks", clocks_text}}, "Two rounds or more.", "Least squares.",
                     {"{\"1:30\"|\"3:10\"|\"5:00\"}", "0.1"}),
    row<&score_steadiness>("scoreSteadiness", "SCORE.STEADINESS", "Coefficient of variation of the round times.",
                           {{"clocks", clocks_text}}, "Two rounds or more.",
                           "Sample standard deviation (n - 1) over the mean.", {"{\"1:30\"|\"3:10\"|\"5:00\"}", "0.1"}),
    row<&score_capped>("scoreCapped", "SCORE.CAPPED",
                       "Time to rank a capped result by: the cap and 1 s for each rep left.",
                       {{"reps_left", "Reps not done."}, {"cap", cap_text}}, "reps_left whole, at least 0.", practice,
                       {"23;\"12:00\"", "12:23"}),
    row<&score_result>("scoreResult", "SCORE.RESULT", "A result for people: a time, or the cap and the reps left.",
                       {{"time", "Time of the finish; 0 where the cap was reached."},
                        {"cap", cap_text},
                        {"reps_left", "Reps not done; 0 if left out."}},
                       "Without reps left, time above 0 and at most the cap; with reps left, no time below the cap.",
                       practice, {"\"11:42\";\"12:00\"", "11:42"}),
    row<&score_place>(
        "scorePlace",
        "SCORE.PLACE", "Place of a score among all, equal ones sharing the better place.",
        {{"score", "Score, or a range of them."},
         {"scores", "All scores; blanks are skipped."},
         {"order", "\"high\" where the highest wins, \"low\" where the lowest does; \"high\" if left out."},
         {"group", "Group of this score, such as a division."},
         {"groups", "Groups of all scores."},
         {"tiebreak", "Tie-break of this score; the lower one wins, a blank ranks last."},
         {"tiebreaks", "Tie-breaks of all scores."}},
        "A score that does not stand among them is refused.",
        "Standard competition ranking, equal ones sharing a place: 1, 2, 2, 4.", {"42;{44|42|42|41}", "2"}),

    row<&test_critical>(
        "testCritical",
        "TEST.CRITICAL",
        "Critical power (W), the reserve above it (J), their standard errors and R², from maximal tests.",
        {{"times", "Times of the tests."},
         {"watts", "Mean watts of each."},
         {"index", "1 to 5 for one of the values; all five if left out."}},
        "Two tests or more with different times, below 1 h. #N/A for errors and R² of two tests; "
        "Err:523 where the tests contradict each other. Honest for tests of 2 to 20 minutes.",
        "Work-time form, Gaesser et al. 1995; least squares checked against NIST StRD Norris.",
        {"{\"2:00\"|\"3:00\"|\"5:00\"|\"8:00\"|\"15:00\"};{425|362|318|291|274};1", "251.095"}),
    row<&test_power>("testPower", "TEST.POWER", "Watts that can be held for that time.",
                     {{"time", "Time to hold."}, {"critical_W", critical_text}, {"reserve_J", reserve_text}},
                     "All above 0.", "Monod and Scherrer's line in the form of Gaesser et al. 1995.",
                     {"\"10:00\";250;18000", "280"}),
    row<&test_alone>("testAlone", "TEST.ALONE",
                     "Rate in cal/h that can be held for the whole cap with nothing else to do.",
                     {{"cap", cap_text}, {"critical_W", critical_text}, {"reserve_J", reserve_text}}, "All above 0.",
                     "TEST.POWER and ERG.CONVERT.", {"\"20:00\";251;20100", "1221.49"}),
    row<&test_floor>("testFloor", "TEST.FLOOR", "Rate in cal/h to hold to the end of a mixed task.",
                     {{"cap", cap_text},
                      {"critical_W", critical_text},
                      {"reserve_J", reserve_text},
                      {"share", "Share of the watts of TEST.ALONE; 0.75 if left out."}},
                     "share above 0, at most 1.", "The share is judgement, no source.",
                     {"\"20:00\";251;20100", "991.116"}),
    row<&test_predict>("testPredict", "TEST.PREDICT", "Time over another distance, from one that is known.",
                       {{"known_time", "Time known."},
                        {"known_distance", "Its distance."},
                        {"distance", "Distance wanted, in the same unit."},
                        {"exponent", "1.06 if left out."}},
                       "All above 0; known_time below 1 h.", "P. Riegel 1981, American Scientist 69.",
                       {"\"20:00\";5;10", "41:42"}),

    row<&plan_roundtime>("planRoundtime", "PLAN.ROUNDTIME", "Time of round k at these stations.",
                         {{"units", units_text},
                          {"amounts", amounts_text},
                          {"rates", rates_text},
                          {"extras_s", extras_text},
                          {"k", "Round; 1 if left out."}},
                         stations_domain, arithmetic, {"{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "1:40"}),
    row<&plan_score>("planScore", "PLAN.SCORE", "Reps done when the clock shows this, walked station by station.",
                     {{"clock", "What the clock shows."},
                      {"units", units_text},
                      {"amounts", amounts_text},
                      {"rates", rates_text},
                      {"extras_s", extras_text},
                      {"counts", "Points for one unit of amount, beside the units; by the unit if left out or blank."}},
                     stations_domain, arithmetic, {"\"5:00\";{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "75"}),
    row<&plan_finish>("planFinish", "PLAN.FINISH", "Time to finish so many rounds.",
                      {{"rounds", "Rounds, whole."},
                       {"units", units_text},
                       {"amounts", amounts_text},
                       {"rates", rates_text},
                       {"extras_s", extras_text}},
                      stations_domain, arithmetic, {"3;{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "5:00"}),
    row<&plan_ergneed>(
        "planErgneed",
        "PLAN.ERGNEED",
        "Rate in cal/h at a calorie station that just makes the goal; all calorie stations change by one factor.",
        {{"cap", cap_text},
         {"goal", "Goal in rounds; a decimal is that share of the last round's reps."},
         {"units", units_text},
         {"amounts", amounts_text},
         {"rates", rates_text},
         {"extras_s", extras_text},
         {"station", "Row of that station; the first calorie station if left out."}},
        "Err:523 where no rate makes it.", arithmetic,
        {"\"6:00\";4;{\"rep\"|\"row cal\"};{10|15};{3|900};{6|10}", "1227.27"}),
    row<&plan_hold>("planHold", "PLAN.HOLD",
                    "The ceiling: highest cal/h on the ergometer that keeps the reserve to the last round.",
                    {{"cap", cap_text},
                     {"calories", erg_calories_text},
                     {"other_s", other_text},
                     {"critical_W", critical_text},
                     {"reserve_J", reserve_text},
                     {"effort_between", effort_text},
                     {"keep", keep_text}},
                    "keep at least 0 and below 1. Err:523 where every rate keeps it or none does.", reserve_balance,
                    {"\"20:00\";14;94;251;20100;1", "1327.87"}),
    row<&plan_reserve>(
        "planReserve",
        "PLAN.RESERVE", "Share of the reserve left after the ergometer of a round.",
        {{"cap", cap_text},
         {"calories", erg_calories_text},
         {"other_s", other_text},
         {"critical_W", critical_text},
         {"reserve_J", reserve_text},
         {"cal_per_hour", "Rate on the ergometer in cal/h."},
         {"effort_between", effort_text},
         {"round", "Round; the last one if left out."}},
        "At least 300 cal/h; negative where the reserve would be overdrawn. Err:523 for a round not begun "
        "before the cap.",
        reserve_balance, {"\"10:00\";10;60;250;20000;1000;1", "1"}),
    row<&plan_effort>("planEffort", "PLAN.EFFORT",
                      "Effort at the other stations that a rate really held implies: PLAN.HOLD turned round.",
                      {{"cap", cap_text},
                       {"calories", erg_calories_text},
                       {"other_s", other_text},
                       {"critical_W", critical_text},
                       {"reserve_J", reserve_text},
                       {"cal_per_hour", "Rate really held in cal/h."},
                       {"keep", keep_text}},
                      "Err:523 where the reserve does not bind at that rate.", reserve_balance,
                      {"\"20:00\";14;94;251;20100;1328", "1.0"}),

    row<&heat_list_cells>("heatList", "HEAT.LIST",
                          "Heats in order: heat, lane, start, name and judge, in five columns.",
                          {{"names", "Names; blanks are skipped."},
                           {"projected", "Projected scores beside them; blanks rank lowest."},
                           {"lanes", "Lanes in a heat."},
                           {"first_start", "Time of day of the first heat; without it there are no starts."},
                           {"every", "Time from start to start; 15 min if left out."},
                           {"groups", "Groups beside the names; each has heats of its own."},
                           {"row", "Row wanted; all if left out."},
                           {"column", "Column wanted: 1 heat, 2 lane, 3 start, 4 name, 5 judge; all if left out."}},
                          "lanes whole, above 0; projected and groups as long as names.", practice,
                          {"{\"Ann\"|\"Bo\"|\"Cy\"};{80|95|70};2;;;;1;4", "Cy"}),
};

} // namespace

std::span<const Row> catalog() { return rows; }

const Row* find_method(std::string_view method) {
    const auto wanted = fold(method);
    const auto* found = std::ranges::find_if(rows, [&](const Row& r) { return fold(r.method) == wanted; });
    return found == std::end(rows) ? nullptr : found;
}

} // namespace pacecells
