// The plan of one athlete for one workout: everything that cards, cells, wall and heat day show, from one computation.
//
// How it goes, in this order; nothing is repeated until it agrees:
//   1. Amounts by round for the athlete's division; usual seconds and rates by pace group, own seconds from tests.
//   2. A rate for each machine: from tests (watts alone for the task, times planned_share), from one test (Riegel's
//   rule),
//      from a past result, or from the pace group. Each with its doubt.
//   3. A first pass without pauses: time of a round, rounds expected.
//   4. Sets of every station for that many rounds and that time away (sets.h); pauses between them join the round as
//      rest. A break above 60 s counts 60 s, and the plan says "lighter or easier".
//   5. The predicted score: the stations walked at those rates until cap (1 - fade / 2), with a range.
//   6. The goal: the coach's, or the last end of a station that is reached slip before the cap, less what the pacing
//      costs (pacing.h); moved by the answer after the practice round; and the next goal down.
//   7. Clocks at the end of every round and station, for both goals. Ergometers take the time that the rate to hold
//      needs, pauses and rests theirs; everything else is stretched by one factor so that the goal is met.
//      Intervals have no such factor: see plan_windows.
//   8. What the goal needs of the main ergometer, the one rate to hold with its limits (advice.h), the rehearsal.
#pragma once

#include "pacecells/advice.h"
#include "pacecells/athlete.h"
#include "pacecells/learning.h"
#include "pacecells/reasons.h"
#include "pacecells/sets.h"
#include "pacecells/workout.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

// Judgement, all of them.
inline constexpr double work_away_share =
    0.7; // hard work elsewhere rests the muscles of a station for so much of its time
inline constexpr double grip_away_share = 0.4; // where both hold with the hands
inline constexpr Seconds longest_break{60};    // a longer one asks for a lighter load or an easier version
inline constexpr Seconds long_break{20};       // a longer one, or long_breaks in a round, is worth a word
inline constexpr Seconds long_breaks{30};
inline constexpr double other_error = 0.08;     // of the time of all that is no ergometer, in logarithms
inline constexpr double range_sd = 1.2816;      // low and high: one in ten is below, one in ten above
inline constexpr double least_step_down = 0.04; // the next goal down is slower by at least so much
inline constexpr double check_at = 0.40;        // of the cap: the round to check by
inline constexpr double rehearsed_work = 0.2;   // never more than a fifth of the work before the start
// Intervals: measured recoveries are 2 to 4 times slower than the formula of the reserve (reserve.h), so only this share
// of a rest counts; how well that is known, in logarithms of watts.
inline constexpr double rest_that_counts = 1.0 / 3;
inline constexpr double recovery_error = 0.10;
inline constexpr double end_of_easy = 0.5; // an easy plan ends at half the cap
inline constexpr int easy_rounds = 3;      // or after so many rounds

// Where a rate comes from.
enum class RateSource : std::uint8_t { none, tests, one_test, result, group, usual };

struct MachineRate {
    Machine machine = Machine::row;
    RateSource source = RateSource::none;
    CaloriesPerHour rate{0};                   // to plan with
    std::optional<CaloriesPerHour> alone = {}; // that can be held for the whole task with nothing else to do
    double share = 0;                          // of the watts alone
    double doubt = group_error;
};

// How one round's reps of a station are done.
struct RoundSets {
    int reps = 0;
    Scheme open = {}; // how to start
    Seconds rest{0};  // between sets, as printed
    [[nodiscard]] Seconds pause() const { return rest * open.rests(); }
};

// The sets of one station. What is not by round is of the round with the most reps, the first of them.
//
// Where every round has the same reps, one plan is for all of them. Otherwise each round has its own: planned as so many
// rounds of its reps as make the total so far, up to the next whole (judgement).
struct StationSets {
    std::vector<RoundSets> by_round; // one for all rounds, or for round 1, 2 ...; beyond the end: see in_round
    int reps = 0;
    Scheme open = {};
    Scheme fall_back = {}; // how to go on where that is too hard
    Seconds rest{0};
    Seconds fall_back_rest{0};
    Reps to_spare{0}; // in hand at the worst moment of the open scheme
    Reps max_unbroken{0};
    MaximumFrom from = MaximumFrom::test;
    Seconds away{0};       // off the station between rounds, weighed by shares
    int rounds = 1;        // planned for
    bool too_hard = false; // some round needs a break above longest_break

    // A round beyond those planned: the last one's rest, no set longer than its sets.
    [[nodiscard]] RoundSets in_round(int round, double amount) const;
    [[nodiscard]] RoundSets fall_back_in(double amount) const;
};

// A point of the workout: so many rounds done, of the next all stations before `station`, and `amount` of that one.
struct Point {
    int rounds = 0;
    std::size_t station = 0; // of the workout
    double amount = 0;
    friend bool operator==(const Point&, const Point&) = default;
};

// What a point or a clock comes to in the units of the format.
struct Score {
    double rounds = 0; // decimal, by points (by time where nothing counts)
    double reps = 0;   // points in all
    Point point = {};
    std::optional<Seconds> time = {}; // for time: the finish, where all is done before the cap
    std::string text = {};            // "6+14", "6 + Sandbags", "10:32"
};

struct Goal {
    Score score = {};
    Seconds clock{0}; // when it is reached
};

struct RoundPlan {
    int round = 0;     // from 1
    bool whole = true; // false: the goal ends inside
    Seconds time{0};
    Seconds clock{0}; // at its end, or at the goal
    std::vector<std::optional<Seconds>> stations =
        {}; // clock when each is done; none: not part of it, or beyond the goal
};

// One of the two rows of a card.
struct GoalLine {
    Goal goal;
    Seconds target{0}; // time per round: the mean, of the whole rounds where they are alike
    std::vector<RoundPlan> rounds = {};
    std::array<Point, 3> quarters =
        {}; // where to be at a quarter, half and three quarters of its clock; not of intervals
};

struct StationPlan {
    std::size_t station = 0;                  // of the workout
    std::vector<double> amounts = {};         // by round, as many as the plan has rounds
    double part = 0;                          // of the amount of the first round with work: the athlete's own
    double seconds_each = 0;                  // of a unit, at the rate
    std::optional<CaloriesPerHour> rate = {}; // of an ergometer
    Seconds extra{0};                         // handling and walking on
    std::optional<StationSets> sets = {};     // none: nothing to break, or no longest set is known
    std::vector<Seconds> pauses = {};         // by round
    std::optional<double> load_share = {};    // of the athlete's maximum
};

struct Rehearsal {
    int easy_rounds = 0; // at the easy time
    double planned = 1;  // then this much of a round at the planned time: 1, or less where a fifth of the work is less
    Seconds easy_time{0};
    Seconds planned_time{0};
    std::optional<CaloriesPerHour> easy_rate = {};
    std::optional<CaloriesPerHour> planned_rate = {};
    [[nodiscard]] int rounds() const { return easy_rounds + 1; }
};

// Intervals: one window.
struct WindowPlan {
    int window = 0;    // from 1
    Seconds start{0};  // on the clock
    Seconds needed{0}; // for its work, at the pace that the athlete is likely to have by then
    Seconds spare{0};  // of the time for work; below 0: it does not hold
    double reps = 0;   // points done in time
    bool work = false; // there is something to do
    [[nodiscard]] bool holds() const { return spare.value() >= -1e-9; }
};

struct Plan {
    bool planned = false; // there is a goal: a name, a division, the full plan for the day
    DayPlan day = DayPlan::full;
    std::size_t division = 0;
    bool in_team = false; // the partners are known
    double share = 1;     // of the team's work; amounts and scores are the team's, sets, rates and pauses the athlete's

    std::vector<StationPlan> stations = {}; // that the division does, in working order
    std::vector<MachineRate> machines = {}; // that it uses
    std::optional<std::size_t> main = {};   // the main ergometer, of Workout::stations
    OtherStations other{Seconds{0}};        // per round, pauses counted as rest
    Seconds round_time{0};                  // fresh, pauses included: a round of the usual kind
    std::vector<Seconds> fresh_rounds = {}; // each round

    double spread = 0;       // one standard deviation of the time, as a share
    double spread_below = 0; // for the lower end of the range
    Score low, expected, high;
    std::optional<Goal> suggested = {};
    std::optional<GoalLine> goal = {};
    std::optional<GoalLine> next_down = {};
    double drift = 0; // of the round times: below 0 faster at the end
    Pacing pacing = Pacing::even;
    std::optional<Seconds> pacing_cost = {}; // against even, up to the goal; none: even, or intervals

    std::optional<int> check_round = {};     // of the goal
    std::optional<Seconds> check_clock = {}; // later than this: take the lower row

    std::optional<CaloriesPerHour> needs = {};   // of the main ergometer, unrounded
    bool no_room = false;                        // the other stations alone take longer than the goal
    std::optional<CaloriesPerHour> ceiling = {}; // guard rail
    std::optional<Card> card = {};               // the rate to hold with its limits, rounded as printed
    std::optional<Seconds> on_machine = {};      // at the rate to hold, each round (the first with work there)
    std::vector<WindowPlan> windows = {};        // intervals, as expected
    std::optional<int> first_failing = {};       // the first of them that does not hold
    std::optional<Rehearsal> rehearsal = {};

    std::optional<Seconds> end = {};    // easy and technique: stop here,
    std::optional<int> end_rounds = {}; // or after so many rounds, where the workout has more of them
    std::vector<Said> notes = {};       // what to put right or to know, one sentence each
};

// Nothing fails: what cannot be planned is left out, and a note says why.
[[nodiscard]] Plan plan_for(const Workout& workout, const Athlete& athlete, Reasons* reasons = nullptr);

// For people without names: the wall.

// What a pace comes to at a clock: factor 1 is the usual pace of the middle group, 1.1 is a tenth faster.
// Domain: division of the workout, 0 < clock, 0.2 <= factor <= 5.
[[nodiscard]] Result<Score> usual_score(const Workout& workout, std::size_t division, Seconds clock, double factor = 1);

struct WallRow {
    Goal goal;
    Seconds target{0};
    Score at_half = {}; // at half the cap
    Point half = {};    // at half the goal's clock
    // Of the main ergometer, by division. 0: the other stations leave no time for it; none: no ergometer on the way there.
    std::vector<std::optional<CaloriesPerHour>> needs;
};

// Goals from, from + step, ... to, in rounds; for time in seconds.
[[nodiscard]] Result<std::vector<WallRow>> wall_table(const Workout& workout, double from, double to, double step);

// Intervals: what it takes to be done with the work of a window after so long.
struct WallWindow {
    Seconds done{0}; // of the hardest window, from its start
    Seconds spare{0};
    double pace = 1;                                   // of the usual one, of the first division: 1.1 is a tenth faster
    std::vector<std::optional<CaloriesPerHour>> needs; // as WallRow
};
inline constexpr int wall_windows_rows = 9;
// In even steps of 5 s or more up to the whole time to work.
[[nodiscard]] Result<std::vector<WallWindow>> wall_windows(const Workout& workout);

// Clocks of every round and station for a goal at the usual pace of the other stations.
// A goal in rounds, or for time in seconds; of intervals in windows.
[[nodiscard]] Result<GoalLine> wall_clocks(const Workout& workout, double goal, std::size_t division = 0);

} // namespace pacecells
