// What an event says about an athlete's rate: the watts held at the main ergometer, beside what the tests promised.
#pragma once

#include "pacecells/athlete.h"
#include "pacecells/learning.h"
#include "pacecells/workout.h"

#include <optional>
#include <span>
#include <vector>

namespace pacecells {

// A result as it is written down.
struct CameOf {
    std::optional<double> reps = {};           // in all
    std::optional<Seconds> time = {};          // for time: the finish before the cap
    std::optional<double> reps_left = {};      // for time: not done at the cap
    std::vector<Seconds> ergometer_times = {}; // of single rounds, the first rounds
    bool could_go_on = false;                  // it was not all that the athlete had
};

// What the logbook keeps of it.
struct Outcome {
    std::optional<Machine> machine = {};       // the main ergometer
    std::optional<Kilocalories> calories = {}; // on it, per round
    std::optional<Held> held = {};             // from timed rounds, else from the total
    bool timed = false;
    double share = 1;                            // of the watts alone, at factor 1
    std::optional<Observation> observation = {}; // none: no tests, or nothing to be learnt
};

// From ergometer times where there are any; else from the rate that the total needed (Plan::needs of the result as a
// goal), unsure by 6 s a round, or by 10 s where the seconds of some other station were the group's.
// Nothing is learnt from another plan than the full one, from a fan bike, from intervals without ergometer times, or from
// a result that was not all the athlete had and is below what the tests promised.
[[nodiscard]] Outcome outcome_of(const Workout& workout, const Athlete& athlete, const CameOf& result);

} // namespace pacecells
