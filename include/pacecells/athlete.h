// One athlete of the roster: cells found by key, and the row of the tests found by name.
#pragma once

#include "pacecells/critical_power.h"
#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/table.h"
#include "pacecells/workout.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

enum class DayPlan : std::uint8_t { full, easy, technique, not_today }; // in the order of WordList::day_plan
enum class PracticeAnswer : std::uint8_t { more_left, only_just, no };  // in the order of WordList::answer

// The plan on a day (a day number of the sheet), from a word of any language and the last day on which it holds, if it has
// one; from the next day on it is full. No word is full; a word that nobody can read is the most careful plan.
[[nodiscard]] DayPlan plan_on(double day, std::string_view word, std::optional<double> until);

// A goal as the coach types it.
struct TypedGoal {
    enum class Kind : std::uint8_t {
        rounds,  // 7 or 7.5
        score,   // "5+20": rounds and reps of the next
        station, // "5 + Sandbags": rounds, and the next one up to the end of a station
        time,    // 10:30, for time
    };
    Kind kind = Kind::rounds;
    double rounds = 0;       // whole for score and station
    double reps = 0;         // score
    std::size_t station = 0; // station, from 0
    Seconds time{0};
    friend bool operator==(const TypedGoal&, const TypedGoal&) = default;
};

struct MachineTests {
    std::optional<CriticalPower> values;
    std::optional<double> date;  // day number
    std::optional<Seconds> time; // a single test
    std::optional<Kilocalories> calories;
    std::optional<Place> values_place, date_place, single_place;
};

struct MovementTests {
    std::optional<Reps> longest;    // unbroken, at the workout's load
    std::optional<double> maximum;  // kg, once
    std::optional<Seconds> rep;     // own seconds of a rep
    std::optional<double> recovery; // own factor
    std::optional<Place> longest_place, maximum_place, rep_place, recovery_place;
};

// What a plan must know of a team whose people are known; team.h makes it from a first plan of each.
struct TeamPart {
    struct Station {
        double before = 0;  // shares of the people before, in the order of the roster
        double share = 1;   // of this person
        double seconds = 1; // that the team needs for a unit
        // Whole units of an amount; those of all people add up to it.
        [[nodiscard]] double units(double amount) const;
        friend bool operator==(const Station&, const Station&) = default;
    };
    std::vector<Station> stations;             // as long as Workout::stations
    double spread = 0, spread_below = 0;       // of the team's time, as in Plan
    std::optional<PracticeAnswer> answer = {}; // of the team: the most careful one
    std::optional<TypedGoal> goal = {};        // of the team: the first that is typed
    friend bool operator==(const TeamPart&, const TeamPart&) = default;
};

struct Athlete {
    std::string name; // empty: nobody in this row
    std::optional<std::size_t> division;
    std::optional<std::size_t> group;
    DayPlan plan = DayPlan::full;
    bool consent_missing = false; // a minor without the date of a guardian's consent: no plan
    std::optional<TypedGoal> goal;
    std::optional<PracticeAnswer> answer;
    std::optional<Pacing> pacing; // none: as the workout says

    bool tested = false;                  // has a row in the tests
    std::array<MachineTests, 4> machines; // by Machine
    std::vector<MovementTests> movements; // as long as Workout::stations
    double factor = 1;                    // what past results say, see personal_factor
    std::optional<double> factor_error;
    std::optional<CaloriesPerHour> result_rate; // held at the main ergometer in an earlier event
    std::optional<Seconds> result_cap;          // of that event
    std::optional<double> result_share;         // of the watts alone there; none: as in this workout
    std::optional<double> result_error;         // how well the watts are known; none: as of one timed round
    std::optional<Place> factor_place, result_place;

    std::optional<double> share;  // of the team's work, where the partners are not known
    std::optional<TeamPart> team; // where they are; goal and answer are then those of the team
    std::vector<Said> notes;      // what to put right in the row or the tests, where a plan is still possible
    std::optional<Place> division_place, group_place, goal_place, answer_place, pacing_place, name_place;
};

// The tests range: its first row holds keys (name; row.critical, row.reserve, row.date, row.time, row.calories, and the
// same for ski, bike and armbike; factor, factor_sd, result.calh, result.time, result.share, result.sd; longest, max, rep_s, recovery), its
// second row labels and, over every column of a movement, the name of the movement. Keys and athlete are one row each.
// Refused: keys missing, unknown or doubled, widths that differ, a name that the roster or the tests have twice, a
// division, group or word that is not known, a goal that has no one reading. Each sentence names the cell.
// A blank name gives an athlete without a name.
[[nodiscard]] Result<Athlete> read_athlete(const Workout& workout, const Table& tests, const Table& keys,
                                           const Table& athlete);

} // namespace pacecells
