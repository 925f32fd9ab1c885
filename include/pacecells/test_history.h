// All tests of one person over the years: which count today, which contradict the others, what is a record, what to
// test next.
//
// The tests of every function here are those of one person (tests_of), in any order.
#pragma once

#include "pacecells/athlete.h"
#include "pacecells/test_entry.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace pacecells {

inline constexpr double usual_test_weeks = 12; // a test counts for so long (common practice), as Settings::test_weeks
// Judgement, all of them.
inline constexpr double maximum_error = 0.05;   // of a maximum computed from a load with reps, in logarithms
inline constexpr double misfit_limit = 3;       // standard errors beyond which a test contradicts the others
inline constexpr double same_length = 1.1;      // tests whose times differ by less are one test, the newest counts
inline constexpr double days_between_tests = 2; // two maximal tests are 48 hours apart (common practice)
inline constexpr double days_before_event = 3;  // no maximal test within (common practice)

[[nodiscard]] std::vector<TestEntry> tests_of(std::string_view name, std::span<const TestEntry> all);

[[nodiscard]] bool one_length(const TestEntry& a, const TestEntry& b); // on a machine

// A test counts on its day and for so many weeks after it.
[[nodiscard]] bool counts_on(const TestEntry& test, double today, double weeks = usual_test_weeks);

// A test that counts today and contradicts the others of its machine, or of its movement and kind.
//
// Each test is compared with what the others promise for its length: their power carried over by predict_power, weighted
// by 1 / error^2, the error of each from its own 3 %, from the exponent (0.04 |ln(t1 / t2)|) and from its age (10 % in
// the weeks that a test counts, judgement). Tests that count no longer still speak, the less the older. The test
// farthest off, in standard errors, is the likelier wrong one; where two are about as far (within a tenth), the one that
// is too low, for a test is easier not maximal than too good (judgement). It contradicts beyond 3 standard errors, or
// where no critical power fits the tests that count.
struct Misfit {
    std::size_t test = 0; // of those given
    double ratio = 1;     // of its value to what the others promise
    Said sentence = {};   // which it is, by how far, and what to do; without the machine or movement
    [[nodiscard]] bool too_low() const { return ratio < 1; }
};
[[nodiscard]] std::vector<Misfit> misfits(std::span<const TestEntry> tests, double today,
                                          double weeks = usual_test_weeks);

// What a plan may use of a machine today: critical power and reserve where two tests or more of different length count,
// the longest test, and the oldest day of those used. Misfits are left out; of tests of one length the newest counts;
// where two or more last 2 to 20 minutes, only those do. Where no line is to be drawn, the newest critical power that is
// known.
[[nodiscard]] MachineTests machine_tests(std::span<const TestEntry> tests, Machine machine, double today,
                                         double weeks = usual_test_weeks);

// The same of a movement: the newest longest set, maximum and seconds per rep, and the own recovery from the newest pair of sets
// (recovery_from, cautious_recovery in sets.h).
[[nodiscard]] MovementTests movement_tests(std::span<const TestEntry> tests, std::string_view movement, double today,
                                           double weeks = usual_test_weeks);

// The best of each kind of test, misfits that are too high left out: a distance of whole 500 m by its time, whole half
// minutes by their power, calories by their time, a longest set by its reps, loads by the maximum that they are.
[[nodiscard]] std::vector<std::size_t> records(std::span<const TestEntry> tests, double today,
                                               double weeks = usual_test_weeks);

[[nodiscard]] bool one_kind(const TestEntry& a, const TestEntry& b); // for records

// The newest test of each machine and movement of which none counts any more.
[[nodiscard]] std::vector<std::size_t> out_of_date(std::span<const TestEntry> tests, double today,
                                                   double weeks = usual_test_weeks);

// Who is to test, and when.
struct ToTest {
    double today = 0;
    double weeks = usual_test_weeks;
    DayPlan plan = DayPlan::full;
    bool minor = false;
    std::optional<double> event = {};    // day of the next
    std::span<const Machine> machines{}; // that the gym has, the most used first
};

// The next test to do: one, or none and why. Nobody on another plan than the full one, no minor, nobody within three
// days of an event is asked to test; the reason of a plan is nobody's business and never told.
struct NextTest {
    std::optional<Machine> machine = {}; // with a movement or a machine there is a test to do
    std::string movement = {};
    Said sentence = {};                    // what, and why; without the machine or movement
    std::optional<double> not_before = {}; // two days after the last test on a machine

    [[nodiscard]] bool any() const { return machine || !movement.empty(); }
};

// In this order: a misfit that is too low; a machine whose tests count no longer; a second length where one test
// counts; a first test; a movement whose test counts no longer.
[[nodiscard]] NextTest next_test(std::span<const TestEntry> tests, const ToTest& who);

} // namespace pacecells
