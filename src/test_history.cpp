#include "pacecells/test_history.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/learning.h"
#include "pacecells/sets.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace pacecells {

namespace {

using Tests = std::span<const TestEntry>;
using Places = std::vector<std::size_t>;

constexpr Seconds honest_from{120}; // where the line through the tests is honest, as fit_critical_power says
constexpr Seconds honest_to{1200};

Places places_where(Tests tests, auto&& wanted) {
    Places places;
    for (std::size_t i = 0; i < tests.size(); ++i)
        if (wanted(tests[i]))
            places.push_back(i);
    return places;
}

bool newer(const TestEntry& a, const TestEntry& b) { return a.date > b.date; }

// Tests that are compared with each other: of one machine, or of one movement and kind.
bool comparable(const TestEntry& a, const TestEntry& b) {
    return same_subject(a, b) && (a.machine || a.kind == b.kind);
}

// The value of a test that is compared, and its own error in logarithms.
struct Value {
    double log;
    double error = tests_error;
};

std::optional<Value> value_of(const TestEntry& test) {
    if (test.machine) {
        const auto watts = power_of(test);
        if (!watts)
            return {};
        return Value{.log = std::log(watts->value())};
    }
    if (test.kind == TestKind::load)
        return Value{.log = std::log(maximum_of(test)), .error = maximum_error};
    if (test.kind != TestKind::longest_set)
        return {};
    const auto noise = max_noise(Reps{test.amount});
    if (!noise)
        return {};
    return Value{.log = std::log(test.amount), .error = *noise / Reps{test.amount}};
}

struct Distance { // of a test from what the others promise
    double log;
    double errors; // so many standard errors
};

// What the others promise for a test, and how far it is off. None where no other can say.
std::optional<Distance> distance(Tests tests, const Places& group, std::size_t which, double weeks) {
    const auto own = value_of(tests[which]);
    double weight = 0;
    double sum = 0;
    for (const auto i : group) {
        if (i == which)
            continue;
        const auto other = value_of(tests[i]);
        if (!other || !own)
            continue;
        double carried = other->log;
        double error =
            std::hypot(other->error, usual_spread * std::abs(tests[i].date - tests[which].date) / (7 * weeks));
        if (tests[which].machine) {
            const auto at = held_by_one_test(Watts{std::exp(other->log)}, tests[i].time, tests[which].time);
            if (!at)
                continue;
            carried = std::log(at->power.value());
            error = std::hypot(error, at->error);
        }
        weight += 1 / (error * error);
        sum += carried / (error * error);
    }
    if (!(weight > 0))
        return {};
    const double log = own->log - sum / weight;
    return Distance{.log = log, .errors = log / std::hypot(own->error, 1 / std::sqrt(weight))};
}

// Of tests of one length the newest, by time; those of 2 to 20 minutes where there are two.
Places by_length(Tests tests, Places places) {
    std::ranges::stable_sort(places, [&](std::size_t a, std::size_t b) { return newer(tests[a], tests[b]); });
    Places kept;
    for (const auto i : places)
        if (std::ranges::none_of(kept, [&](std::size_t j) { return one_length(tests[i], tests[j]); }))
            kept.push_back(i);
    std::ranges::sort(kept, {}, [&](std::size_t i) { return tests[i].time; });
    Places inside;
    std::ranges::copy_if(kept, std::back_inserter(inside),
                         [&](std::size_t i) { return tests[i].time >= honest_from && tests[i].time <= honest_to; });
    return inside.size() >= 2 ? inside : kept;
}

Result<CriticalPowerFit> fitted(Tests tests, const Places& places) {
    std::vector<Seconds> times;
    std::vector<Watts> watts;
    for (const auto i : places) {
        const auto power = power_of(tests[i]);
        if (!power)
            return power.error();
        times.push_back(tests[i].time);
        watts.push_back(*power);
    }
    return fit_critical_power(times, watts);
}

bool no_line_fits(Tests tests, const Places& counting) {
    if (counting.empty() || !tests[counting.front()].machine || tests[counting.front()].machine == Machine::armbike)
        return false;
    const auto fit = fitted(tests, by_length(tests, counting));
    return !fit && fit.error().kind == ErrorKind::no_solution;
}

Misfit misfit_of(Tests tests, std::size_t which, double log) {
    const auto& test = tests[which];
    const double percent = std::max(1.0, std::round(100 * std::abs(std::expm1(log))));
    Misfit misfit{.test = which, .ratio = std::exp(log)};
    if (log < 0)
        misfit.sentence = say("%1 on %2 contradicts the other tests: it is %3% below what they say. More likely it is "
                              "wrong than they are, and was perhaps not maximal: repeat it.",
                              result_text(test), date_text(test.date), percent);
    else
        misfit.sentence = say("%1 on %2 contradicts the other tests: it is %3% above what they say. More likely it is "
                              "wrong than they are: are its number, time and unit right?",
                              result_text(test), date_text(test.date), percent);
    return misfit;
}

// Takes misfits out of the group, the farthest first, until the others agree.
void find_misfits(Tests tests, Places group, double today, double weeks, std::vector<Misfit>& found) {
    constexpr double about_as_far = 0.9;
    for (;;) {
        Places counting;
        std::ranges::copy_if(group, std::back_inserter(counting),
                             [&](std::size_t i) { return counts_on(tests[i], today, weeks); });
        std::map<std::size_t, Distance> off;
        double farthest = 0;
        for (const auto i : counting)
            if (const auto one = distance(tests, group, i, weeks)) {
                off[i] = *one;
                farthest = std::max(farthest, std::abs(one->errors));
            }
        if (off.empty() || (farthest <= misfit_limit && !no_line_fits(tests, counting)))
            return;
        std::optional<std::size_t> wrong;
        for (const auto& [i, one] : off)
            if (std::abs(one.errors) >= about_as_far * farthest && (!wrong || one.errors < off[*wrong].errors))
                wrong = i;
        found.push_back(misfit_of(tests, *wrong, off[*wrong].log));
        std::erase(group, *wrong);
    }
}

Places counting_of_machine(Tests tests, Machine machine, double today, double weeks) {
    const auto wrong = misfits(tests, today, weeks);
    Places places;
    for (std::size_t i = 0; i < tests.size(); ++i)
        if (tests[i].machine == machine && tests[i].kind != TestKind::known && counts_on(tests[i], today, weeks) &&
            std::ranges::find(wrong, i, &Misfit::test) == wrong.end())
            places.push_back(i);
    return by_length(tests, places);
}

// What makes two tests one kind, for records.
using RecordKey = std::tuple<std::optional<Machine>, std::string, TestKind, std::optional<double>>;

RecordKey record_key(const TestEntry& test) {
    constexpr double whole_metres = 500;
    constexpr double half_minute = 30;
    const auto is_whole = [](double value, double step) { return std::remainder(value, step) == 0; };
    if (!test.machine)
        return {{}, fold_name(test.movement), test.kind, {}};
    if (test.kind == TestKind::metres && is_whole(test.amount, whole_metres))
        return {test.machine, {}, TestKind::metres, test.amount};
    if (is_whole(test.time.value(), half_minute) || test.kind != TestKind::calories)
        return {test.machine, {}, TestKind::watts, test.time.value()};
    return {test.machine, {}, TestKind::calories, test.amount};
}

bool better(const TestEntry& a, const TestEntry& b) {
    const auto of_a = value_of(a);
    const auto of_b = value_of(b);
    if (!of_a || !of_b)
        return of_a.has_value();
    return of_a->log > of_b->log || (of_a->log == of_b->log && a.date < b.date); // who had it first keeps it
}

} // namespace

bool one_length(const TestEntry& a, const TestEntry& b) {
    return std::max(a.time, b.time) < same_length * std::min(a.time, b.time);
}

std::vector<TestEntry> tests_of(std::string_view name, std::span<const TestEntry> all) {
    std::vector<TestEntry> own;
    const auto sought = fold_name(name);
    std::ranges::copy_if(all, std::back_inserter(own),
                         [&](const TestEntry& test) { return fold_name(test.name) == sought; });
    return own;
}

bool counts_on(const TestEntry& test, double today, double weeks) {
    const double days = std::floor(today) - test.date;
    return days >= 0 && days <= 7 * weeks;
}

std::vector<Misfit> misfits(std::span<const TestEntry> tests, double today, double weeks) {
    std::vector<Misfit> found;
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const auto group = places_where(tests, [&](const TestEntry& other) { return comparable(tests[i], other); });
        if (group.front() == i)
            find_misfits(tests, group, today, weeks, found);
    }
    return found;
}

MachineTests machine_tests(std::span<const TestEntry> tests, Machine machine, double today, double weeks) {
    MachineTests made;
    const auto places = counting_of_machine(tests, machine, today, weeks);
    if (!places.empty()) {
        const auto& longest = tests[places.back()];
        const auto watts = power_of(longest);
        const auto rate = !watts                        ? Result<CaloriesPerHour>{watts.error()}
                          : machine == Machine::armbike ? Result<CaloriesPerHour>{CaloriesPerHour{watts->value()}}
                                                        : calorie_rate(*watts);
        if (rate)
            if (const auto calories = calories_by(longest.time, *rate)) {
                made.date = longest.date;
                made.time = longest.time;
                made.calories = *calories;
            }
    }
    if (machine == Machine::armbike)
        return made;
    if (const auto fit = fitted(tests, places)) {
        made.values = fit->values;
        for (const auto i : places)
            made.date = std::min(made.date.value_or(tests[i].date), tests[i].date);
        return made;
    }
    const TestEntry* known = nullptr;
    for (const auto& test : tests)
        if (test.machine == machine && test.critical && counts_on(test, today, weeks) &&
            (!known || newer(test, *known)))
            known = &test;
    if (known) {
        made.values = known->critical;
        made.date = std::min(made.date.value_or(known->date), known->date);
    }
    return made;
}

MovementTests movement_tests(std::span<const TestEntry> tests, std::string_view movement, double today, double weeks) {
    MovementTests made;
    const auto wrong = misfits(tests, today, weeks);
    const TestEntry* longest = nullptr;
    const TestEntry* load = nullptr;
    const TestEntry* rep = nullptr;
    const TestEntry* recovery = nullptr;
    const auto keep_newest = [](const TestEntry*& newest, const TestEntry& test, bool has) {
        if (has && (!newest || newer(test, *newest)))
            newest = &test;
    };
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const auto& test = tests[i];
        if (test.machine || !same_name(test.movement, movement) || !counts_on(test, today, weeks) ||
            std::ranges::find(wrong, i, &Misfit::test) != wrong.end())
            continue;
        keep_newest(longest, test, test.kind == TestKind::longest_set);
        keep_newest(load, test, test.kind == TestKind::load);
        keep_newest(rep, test, test.rep.has_value());
        keep_newest(recovery, test, test.second || test.recovery);
    }
    if (longest)
        made.longest = Reps{longest->amount};
    if (load)
        made.maximum = maximum_of(*load);
    if (rep)
        made.rep = rep->rep;
    if (recovery && recovery->recovery)
        made.recovery = recovery->recovery;
    else if (recovery)
        if (const auto fit = recovery_from(Reps{recovery->amount}, *recovery->second, recovery->rest))
            made.recovery = cautious_recovery(*fit);
    return made;
}

std::vector<std::size_t> records(std::span<const TestEntry> tests, double today, double weeks) {
    std::map<RecordKey, std::size_t> best;
    const auto wrong = misfits(tests, today, weeks);
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const auto misfit = std::ranges::find(wrong, i, &Misfit::test);
        if (tests[i].kind == TestKind::known)
            continue;
        if (misfit != wrong.end() && !misfit->too_low())
            continue;
        const auto [there, fresh] = best.try_emplace(record_key(tests[i]), i);
        if (!fresh && better(tests[i], tests[there->second]))
            there->second = i;
    }
    Places places;
    for (const auto& [key, place] : best)
        places.push_back(place);
    return places;
}

bool one_kind(const TestEntry& a, const TestEntry& b) { return record_key(a) == record_key(b); }

std::vector<std::size_t> out_of_date(std::span<const TestEntry> tests, double today, double weeks) {
    Places places;
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const bool newest = std::ranges::none_of(tests, [&](const TestEntry& other) {
            const bool later = newer(other, tests[i]) || (other.date == tests[i].date && &other > &tests[i]);
            return same_subject(other, tests[i]) && later;
        });
        if (newest && !counts_on(tests[i], today, weeks))
            places.push_back(i);
    }
    return places;
}

} // namespace pacecells
