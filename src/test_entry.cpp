#include "pacecells/test_entry.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/loads.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace pacecells {

namespace {

using Refusal = std::optional<Error>;

constexpr double first_day = 36526; // 2000-01-01
constexpr Seconds shortest_test{20};
constexpr Seconds longest_test{4 * 3600};
constexpr double most_reps_with_load = 10; // beyond that a load says little about the maximum

std::string clock_of(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : std::string{};
}

// A result and the limits of what can be meant.
struct Amount {
    TestKind kind;
    const TableCell& cell;
    double least;
    double most;
};

class Reader {
  public:
    Reader(const TestCells& cells, double today, std::span<const MachineName> machines)
        : cells_(cells), today_(today), machines_(machines) {}

    Result<TestEntry> read() {
        for (const auto step : {&Reader::read_name, &Reader::read_date, &Reader::read_what, &Reader::read_amount})
            if (auto error = (this->*step)())
                return *std::move(error);
        test_.damper = cell_text(cells_.damper);
        return test_;
    }

  private:
    Refusal read_name() {
        test_.name = cell_text(cells_.name);
        if (test_.name.empty())
            return out_of_domain("This test has no name: whose is it?");
        return {};
    }

    Refusal read_date() {
        if (is_blank(cells_.date))
            return out_of_domain("This test has no date.");
        const auto day = cell_number(cells_.date);
        if (!day)
            return out_of_domain("The date %1 cannot be read: write it such as 2026-03-14.",
                                 quoted(cell_text(cells_.date)));
        if (!(*day >= first_day))
            return out_of_domain("The date %1 is before the year 2000.", date_text(*day));
        if (!(*day < std::floor(today_) + 1))
            return out_of_domain("The date %1 is in the future. When was this test done?", date_text(*day));
        test_.date = std::floor(*day);
        return {};
    }

    Refusal read_what() {
        const auto what = cell_text(cells_.what);
        if (what.empty())
            return out_of_domain("This test does not say what was tested: choose a machine, or write a movement.");
        const auto own = std::ranges::find_if(machines_, [&](const auto& one) { return same_name(one.name, what); });
        if (own != machines_.end())
            test_.machine = own->machine;
        else if (const auto machine = find_word(WordList::machine, what))
            test_.machine = static_cast<Machine>(*machine);
        else
            test_.movement = what;
        return {};
    }

    Refusal read_amount() {
        if (test_.machine) {
            for (const auto* cell : {&cells_.reps, &cells_.load, &cells_.second, &cells_.rep_s})
                if (!is_blank(*cell))
                    return out_of_domain("%1 is a machine: its test is calories, metres or watts in a time.",
                                         cell_text(cells_.what));
            return read_machine();
        }
        for (const auto* cell : {&cells_.time, &cells_.calories, &cells_.metres, &cells_.watts, &cells_.critical})
            if (!is_blank(*cell))
                return out_of_domain("%1 is not a machine: its test is a longest set, or a load with reps.",
                                     cell_text(cells_.what));
        return read_movement();
    }

    // A number within its limits; nothing where the cell is blank.
    static Refusal number(const TableCell& cell, double least, double most, std::optional<double>& into,
                          bool whole = false) {
        if (is_blank(cell))
            return {};
        const auto value = cell_number(cell);
        if (!value || !(*value >= least && *value <= most) || (whole && *value != std::floor(*value)))
            return out_of_domain("The result %1 cannot be meant: a number from %2 to %3 is needed.",
                                 quoted(cell_text(cell)), least, most);
        into = value;
        return {};
    }

    Refusal read_machine() {
        const Amount amounts[] = {{TestKind::calories, cells_.calories, 1, 5000},
                                  {TestKind::metres, cells_.metres, 50, 50'000},
                                  {TestKind::watts, cells_.watts, 20, 1500}};
        const Amount* found = nullptr;
        for (const auto& amount : amounts) {
            if (is_blank(amount.cell))
                continue;
            if (found)
                return out_of_domain("This row has two results, %1 and %2: write one test per row.",
                                     cell_text(found->cell), cell_text(amount.cell));
            found = &amount;
        }
        if (auto error = read_critical())
            return error;
        if (!found)
            return test_.critical ? Refusal{} : out_of_domain("This test has no result.");
        std::optional<double> value;
        if (auto error = number(found->cell, found->least, found->most, value))
            return error;
        test_.kind = found->kind;
        test_.amount = *value;
        if (test_.machine == Machine::armbike && test_.kind != TestKind::calories)
            return out_of_domain("On the fan bike a test is calories in a time: its metres and watts are its own.");
        if (is_blank(cells_.time))
            return out_of_domain("This test needs its time, such as 10:00.");
        const auto time = cell_time(cells_.time);
        if (!time || !(*time >= shortest_test && *time <= longest_test))
            return out_of_domain("The time %1 cannot be meant: a test lasts 0:20 to 4:00:00. Write it such as 10:00.",
                                 time && time->value() >= 0 ? clock_of(*time) : quoted(cell_text(cells_.time)));
        test_.time = *time;
        return beyond_belief();
    }

    Refusal beyond_belief() const {
        const auto watts = power_of(test_);
        if (!watts)
            return watts.error();
        if (test_.machine == Machine::armbike) {
            if (watts->value() > most_on_fan_bike.value())
                return out_of_domain("%1 cal/h on the fan bike is more than anybody holds. Is the unit right?",
                                     std::round(watts->value()));
            return {};
        }
        if (const auto judged = believable(*watts, test_.time); !judged)
            return judged.error();
        return {};
    }

    Refusal read_critical() {
        std::optional<double> critical;
        std::optional<double> reserve;
        if (auto error = number(cells_.critical, 20, 900, critical))
            return error;
        if (auto error = number(cells_.reserve, 500, 80'000, reserve))
            return error;
        if (critical.has_value() != reserve.has_value())
            return out_of_domain("Critical power and reserve belong together: one of them is missing.");
        if (!critical)
            return {};
        test_.critical = CriticalPower{Watts{*critical}, Joules{*reserve}};
        if (const auto beyond = beyond_the_best(*test_.critical))
            if (const auto watts = power_for(*beyond, *test_.critical))
                return believable(*watts, *beyond).error();
        return {};
    }

    Refusal read_movement() {
        std::optional<double> reps;
        std::optional<double> load;
        std::optional<double> rep;
        if (auto error = number(cells_.reps, 1, 999, reps, true))
            return error;
        if (auto error = number(cells_.load, 1, 999, load))
            return error;
        if (auto error = number(cells_.rep_s, 0.17, 600, rep))
            return error;
        if (auto error = number(cells_.recovery, 0.3, 3, test_.recovery))
            return error;
        if (rep)
            test_.rep = Seconds{*rep};
        if (load) {
            if (reps && *reps > most_reps_with_load)
                return out_of_domain("The reps with a load are 1 to %1: beyond that a load says little about the "
                                     "maximum.",
                                     most_reps_with_load);
            test_.kind = TestKind::load;
            test_.amount = *load;
            test_.reps = reps.value_or(1);
        } else if (reps) {
            test_.kind = TestKind::longest_set;
            test_.amount = *reps;
        } else if (!test_.rep && !test_.recovery) {
            return out_of_domain("This test has no result.");
        }
        return is_blank(cells_.second) ? Refusal{} : read_second();
    }

    Refusal read_second() {
        std::optional<double> second;
        std::optional<double> rest;
        if (test_.kind != TestKind::longest_set)
            return out_of_domain("A second set belongs to a longest set.");
        if (number(cells_.second, 1, test_.amount - 1, second, true))
            return out_of_domain("The second set is 1 rep or more, and fewer than the %1 of the first.", test_.amount);
        if (number(cells_.rest_s, 1, 600, rest) || !rest)
            return out_of_domain("A second set needs the rest before it, 1 to 600 seconds.");
        test_.second = Reps{*second};
        test_.rest = Seconds{*rest};
        return {};
    }

    const TestCells& cells_;
    double today_;
    std::span<const MachineName> machines_;
    TestEntry test_;
};

} // namespace

Result<TestEntry> read_test(const TestCells& cells, double today, std::span<const MachineName> machines) {
    return Reader{cells, today, machines}.read();
}

Result<TestMeaning> meaning_of(TestCells cells, double today, std::span<const MachineName> machines) {
    TestMeaning meaning;
    const auto results = {&cells.calories, &cells.metres, &cells.watts,    &cells.reps,
                          &cells.load,     &cells.second, &cells.critical, &cells.rep_s};
    if (std::ranges::all_of(results, [](const TableCell* cell) { return is_blank(*cell); }))
        return meaning;
    if (is_blank(cells.date))
        cells.date = today;
    const auto test = read_test(cells, today, machines);
    if (!test)
        return test.error();
    if (test->kind == TestKind::load)
        meaning.maximum = maximum_of(*test);
    if (!test->machine || test->kind == TestKind::known)
        return meaning;
    const auto watts = power_of(*test);
    if (!watts)
        return watts.error();
    if (test->machine == Machine::armbike) {
        meaning.rate = CaloriesPerHour{watts->value()}; // stands for the power, see power_of
        return meaning;
    }
    meaning.power = *watts;
    if (const auto rate = calorie_rate(*watts))
        meaning.rate = *rate;
    if (const auto split = split_at_power(*watts))
        meaning.split = *split;
    return meaning;
}

Result<Watts> power_of(const TestEntry& test) {
    if (!test.machine)
        return out_of_domain("%1 is not a machine: its test has no power.", quoted(test.movement));
    if (test.kind == TestKind::known)
        return out_of_domain("This test has no result.");
    if (test.kind == TestKind::watts)
        return Watts{test.amount};
    if (test.kind == TestKind::metres)
        return power_over(Metres{test.amount}, test.time, *test.machine);
    const auto rate = rate_for(Kilocalories{test.amount}, test.time);
    if (!rate)
        return rate.error();
    return test.machine == Machine::armbike ? Result<Watts>{Watts{rate->value()}} : power(*rate);
}

double maximum_of(const TestEntry& test) {
    const auto maximum = one_rep_max(test.amount, Reps{test.reps});
    return maximum ? *maximum : test.amount;
}

std::string result_text(const TestEntry& test) {
    std::string amount = number_text(test.amount);
    switch (test.kind) {
    case TestKind::calories:
        return amount + " cal, " + clock_of(test.time);
    case TestKind::metres:
        return amount + " m, " + clock_of(test.time);
    case TestKind::watts:
        return amount + " W, " + clock_of(test.time);
    case TestKind::longest_set:
        return amount;
    case TestKind::known:
        if (test.critical)
            return number_text(test.critical->critical.value()) + " W, " + number_text(test.critical->reserve.value()) +
                   " J";
        return test.rep ? number_text(test.rep->value()) + " s" : number_text(test.recovery.value_or(0));
    case TestKind::load:
        break;
    }
    return (test.reps > 1 ? number_text(test.reps) + " × " : "") + amount + " kg";
}

bool same_subject(const TestEntry& a, const TestEntry& b) {
    return a.machine == b.machine && same_name(a.movement, b.movement);
}

bool same_test(const TestEntry& a, const TestEntry& b) {
    const auto result = [](const TestEntry& test) {
        return std::tuple{test.kind,
                          test.amount,
                          test.reps,
                          std::round(test.time.value()),
                          test.second,
                          test.rest,
                          test.critical ? test.critical->critical : Watts{0},
                          test.critical ? test.critical->reserve : Joules{0},
                          test.rep,
                          test.recovery};
    };
    return a.date == b.date && result(a) == result(b) && same_subject(a, b) && same_name(a.name, b.name);
}

std::optional<Error> refused_as_there(const TestEntry& test, std::span<const TestEntry> there) {
    if (std::ranges::any_of(there, [&](const TestEntry& other) { return same_test(test, other); }))
        return out_of_domain("This test is there already: %1 on %2.", result_text(test), date_text(test.date));
    return {};
}

} // namespace pacecells
