// One test of one person, as a row of the logbook holds it: who, when, what, and the result.
//
// A test is never changed by a later one: a new row is written, and the old one stays.
#pragma once

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/table.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace pacecells {

enum class TestKind : std::uint8_t {
    calories,    // on a machine, in a time
    metres,      // on a machine, in a time
    watts,       // mean power on a machine, over a time
    longest_set, // reps of a movement without a break
    load,        // kilograms, for so many reps
    known,       // no test of its own: what was brought in or measured apart, see below
};

struct TestEntry {
    std::string name;
    double date = 0;                     // day number of a sheet
    std::optional<Machine> machine = {}; // none: a movement
    std::string movement = {};
    TestKind kind = TestKind::known;
    Seconds time{0};                 // on a machine
    double amount = 0;               // calories, metres, watts, reps or kilograms
    double reps = 1;                 // with a load
    std::optional<Reps> second = {}; // a second set to failure after the longest set ...
    Seconds rest{0};                 // ... and the rest before it
    std::string damper = {};         // setting of the machine, as written

    // Known beside the result, or without one.
    std::optional<CriticalPower> critical = {}; // of the machine
    std::optional<Seconds> rep = {};            // own seconds per rep of the movement
    std::optional<double> recovery = {};        // own factor of the movement
};

// The cells of a row, found by their keys.
struct TestCells {
    TableCell name, date, what; // what: the name of a machine or of a movement
    TableCell time, calories, metres, watts;
    TableCell reps, load; // reps alone are the longest set
    TableCell second, rest_s;
    TableCell damper;
    TableCell rep_s, recovery, critical, reserve;
};

// How a gym calls its machines.
struct MachineName {
    std::string name;
    Machine machine;
};

// Domain: a date from 2000 to today; a machine is named as in the list, or by a word of WordList::machine. On a machine
// one of calories (1 to 5000), metres (50 to 50,000) and watts (20 to 1500) in 0:20 to 4:00:00, no more power than the
// best in the world hold (believable); on the fan bike calories alone, at most 6000 cal/h (judgement); or critical power
// (20 to 900 W) and reserve (500 to 80,000 J). Of a movement a longest set (1 to 999), with or without a second set of
// fewer reps after 1 to 600 s; or a load (1 to 999 kg) with 1 to 10 reps, blank is 1; seconds per rep (0.17 to 600);
// recovery (0.3 to 3).
// Refused: all else, with a sentence that says what to put right.
[[nodiscard]] Result<TestEntry> read_test(const TestCells& cells, double today,
                                          std::span<const MachineName> machines = {});

// What a test says at once to whoever types it. Nothing while no result is typed, and of a longest set, which speaks for
// itself.
struct TestMeaning {
    std::optional<Watts> power = {};          // not of a fan bike
    std::optional<CaloriesPerHour> rate = {}; // of a machine
    std::optional<Seconds> split = {};        // for 500 m, of a bike 1000 m; not of a fan bike
    std::optional<double> maximum = {};       // of a load, kg
};

// Domain: as read_test; a blank date is today.
// Example: 165 cal in 10:00 on the rower are 990 cal/h, 200.5 W, 2:00.4; 5 reps with 60 kg a maximum of 70 kg.
[[nodiscard]] Result<TestMeaning> meaning_of(TestCells cells, double today, std::span<const MachineName> machines = {});

// The power of a test on a machine. On the fan bike, whose calories follow no formula of power, the calories per hour
// stand for it: tests there are compared with each other alone.
[[nodiscard]] Result<Watts> power_of(const TestEntry& test);

// The one-repetition maximum that a load with reps is, by Epley's formula (loads.h).
[[nodiscard]] double maximum_of(const TestEntry& test);

// Result as a table shows it, the same in every language: "2000 m, 7:45", "22", "5 × 60 kg".
[[nodiscard]] std::string result_text(const TestEntry& test);

// What was tested, of one kind with other tests: the machine or the folded name of the movement.
[[nodiscard]] bool same_subject(const TestEntry& a, const TestEntry& b);

// The same person, day, subject and result.
[[nodiscard]] bool same_test(const TestEntry& a, const TestEntry& b);

// Refuses a row that is there already.
[[nodiscard]] std::optional<Error> refused_as_there(const TestEntry& test, std::span<const TestEntry> there);

} // namespace pacecells
