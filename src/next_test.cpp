// Which test a person does next, and who does none.
#include "pacecells/clock.h"
#include "pacecells/test_history.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

// Judgement, from how far two tests fix a line: the longest at least ten minutes, the spread three to one or more.
constexpr Seconds first_length{600};
constexpr Seconds short_length{180};
constexpr Seconds long_from{540}; // a test that long asks for a short one, a shorter one for a long one
constexpr Seconds least_long{720};
constexpr Seconds most_long{1200};

std::string clock_of(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : std::string{};
}

// "2000 m" or "10:00": what is to be done again.
std::string length_of(const TestEntry& test) {
    return test.kind == TestKind::metres ? number_text(test.amount) + " m" : clock_of(test.time);
}

Seconds second_length(Seconds first) {
    if (first >= long_from)
        return short_length;
    const double minutes = std::round(3 * first.value() / 60);
    return std::clamp(Seconds{60 * minutes}, least_long, most_long);
}

double weeks_since(const TestEntry& test, double today) { return std::floor((std::floor(today) - test.date) / 7); }

NextTest none(Said sentence) { return {.sentence = std::move(sentence)}; }

} // namespace

NextTest next_test(std::span<const TestEntry> tests, const ToTest& who) {
    const double today = std::floor(who.today);
    if (who.minor)
        return none(say("No maximal test: minors train in a pace group."));
    if (who.plan != DayPlan::full)
        return none(say("No maximal test at the moment."));
    if (who.event && *who.event >= today && *who.event - today <= days_before_event)
        return none(say("No maximal test in the three days before an event."));

    std::optional<double> not_before;
    for (const auto& test : tests)
        if (test.machine && test.date + days_between_tests > today)
            not_before = std::max(not_before.value_or(0), test.date + days_between_tests);
    const auto of = [&](const TestEntry& test, Said sentence) {
        return NextTest{.machine = test.machine,
                        .movement = test.movement,
                        .sentence = std::move(sentence),
                        .not_before = test.machine ? not_before : std::nullopt};
    };

    for (const auto& misfit : misfits(tests, today, who.weeks))
        if (const auto& test = tests[misfit.test]; misfit.too_low())
            return of(test, say("Repeat %1 of %2: it does not fit the other tests.", result_text(test),
                                date_text(test.date)));
    const auto old = out_of_date(tests, today, who.weeks);
    for (const auto i : old)
        if (tests[i].machine)
            return of(tests[i], say("Test %1 again: the last test is %2 weeks old.", length_of(tests[i]),
                                    weeks_since(tests[i], today)));
    for (const auto machine : who.machines) {
        const auto counting = machine_tests(tests, machine, today, who.weeks);
        if (counting.time && !counting.values && machine != Machine::armbike)
            return {.machine = machine,
                    .sentence = say("Test %1: a second test of another length makes the rate surer.",
                                    clock_of(second_length(*counting.time))),
                    .not_before = not_before};
    }
    const bool some_machine =
        std::ranges::any_of(tests, [](const TestEntry& test) { return test.machine.has_value(); });
    if (!some_machine && !who.machines.empty())
        return {.machine = who.machines.front(),
                .sentence = say("A first test: %1, calories.", clock_of(first_length))};
    for (const auto i : old)
        if (!tests[i].machine)
            return of(tests[i], say("Test again: the last test is %1 weeks old.", weeks_since(tests[i], today)));
    std::optional<double> runs_out;
    for (const auto& test : tests)
        if (counts_on(test, today, who.weeks)) {
            const bool replaced = std::ranges::any_of(tests, [&](const TestEntry& other) {
                return other.date > test.date && same_subject(other, test) &&
                       (test.machine ? one_length(other, test) : other.kind == test.kind);
            });
            const double over = test.date + 7 * who.weeks + 1; // the first day on which it does not
            if (!replaced)
                runs_out = std::min(runs_out.value_or(over), over);
        }
    return none(runs_out ? say("No test is due before %1.", date_text(*runs_out)) : say("No test is due."));
}

} // namespace pacecells
