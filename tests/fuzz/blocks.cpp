// The reader of a workout's block, and the plan of whatever it reads: a sentence or a workout whose plan is finite.
//
// An input is a block in text: a row a line, cells between bars.
#include "pacecells/athlete_plan.h"

#include "../unit/block.h"
#include "claim.h"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace {

using namespace pacecells;

void finite_line(const GoalLine& line, const Workout& workout) {
    const bool windows = workout.settings.format == Format::intervals; // the work of one may be too long for it
    double before = 0;
    for (const auto& round : line.rounds) {
        claim(std::isfinite(round.clock.value()), "a round has a clock");
        claim(windows || round.clock.value() >= before - 1e-6, "clocks go on");
        claim(round.stations.size() == workout.stations.size(), "a clock or none for each station");
        before = round.clock.value();
    }
}

void plan_reader(const Workout& workout) {
    for (std::size_t d = 0; d < workout.divisions.size(); ++d) {
        Athlete athlete;
        athlete.name = "-";
        athlete.division = d;
        athlete.movements.resize(workout.stations.size());
        const Plan plan = plan_for(workout, athlete);
        claim(plan.planned && plan.goal && plan.suggested, "whoever starts has a goal");
        claim(std::isfinite(plan.expected.reps) && plan.low.rounds <= plan.high.rounds + 1e-9,
              "a range from low to high");
        claim(std::isfinite(plan.round_time.value()) && plan.round_time.value() >= 0, "a round takes its time");
        finite_line(*plan.goal, workout);
        if (plan.next_down)
            finite_line(*plan.next_down, workout);
        for (const auto& station : plan.stations)
            claim(std::isfinite(station.seconds_each) && station.seconds_each > 0, "a unit takes its time");
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = read_workout(block::table({reinterpret_cast<const char*>(data), size}));
    if (!read) {
        claim(!read.error().message().empty(), "a refusal is a sentence");
        return 0;
    }
    claim(!read->divisions.empty() && !read->stations.empty(), "a workout has divisions and stations");
    claim(read->stations.size() <= static_cast<std::size_t>(most_stations), "no more stations than can be planned");
    plan_reader(*read);
    return 0;
}
