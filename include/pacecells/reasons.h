// Why a plan says what it says: a list of steps that the plan writes while it computes, by the same code.
//
// A step says what was found, from what, by which rule, and what it came to. Its inputs are cells (of the workout, the
// tests, the roster) or earlier steps, so that a reader can walk back to what was typed.
#pragma once

#include "pacecells/result.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <variant>
#include <vector>

namespace pacecells {

// What a step is about. A cell function's result belongs to one of these; see Reasons::find.
enum class Fact : std::uint8_t {
    amounts,    // of a station, by round
    usual_time, // seconds of a unit at a station, or its usual rate
    other_time, // off the main ergometer, each round: work, walking, rest
    share,      // of the watts alone
    rate,       // of a machine: to plan with
    doubt,      // how well that is known
    first_pass, // rounds expected without pauses
    sets,       // of a station
    fall_back,  // of a station
    round_time, // with pauses
    predicted,  // score
    low,
    high,
    suggested, // goal
    goal,
    next_down,
    target, // time per round
    clocks, // at the end of rounds and stations
    pacing, // what leaving even pace costs
    needs,  // of the main ergometer
    ceiling,
    hold,
    never_above,
    situation,
    chance,
    rehearsal,
    score_at_half,
    end, // of an easy plan
};

// How a value of a step is to be written.
enum class Measure : std::uint8_t { number, reps, rounds, seconds, cal_per_hour, watts, share, text };

struct Value {
    Measure measure = Measure::number;
    double number = 0;
    std::string text = {}; // where the measure is text
};

// An input of a step: what it is called, its value, and where it came from. Without either it is a number of the
// method itself (a default, a judgement).
struct Input {
    Said what;
    Value value;
    std::optional<Place> place = {};
    std::optional<std::size_t> step = {};
};

struct Step {
    Fact fact;
    std::optional<std::size_t> station = {}; // of the workout, from 0
    Said what;
    std::vector<Input> from;
    Said rule;
    Value value;
};

class Reasons {
  public:
    std::size_t add(Step step) {
        steps_.push_back(std::move(step));
        return steps_.size() - 1;
    }
    [[nodiscard]] std::span<const Step> steps() const { return steps_; }
    // The last step about it.
    [[nodiscard]] std::optional<std::size_t> find(Fact fact, std::optional<std::size_t> station = {}) const;

  private:
    std::vector<Step> steps_;
};

} // namespace pacecells
