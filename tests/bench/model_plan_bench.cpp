// What the plan of one athlete costs, from the cells of the block on. A plan of rounds stays below 100 us, so that a roster
// of 200 people is recalculated in 20 ms; one of windows with as many as fit, found by halving, below 400 us; reading the
// block or an announcement below 100 us.
#include "pacecells/announcement.h"
#include "pacecells/athlete_plan.h"

#include "../unit/block.h"
#include "measure.h"

#include <string>

namespace pacecells {
namespace {

const std::string windows =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\nevery_s | 60\nwindows | 12\n"
    "in_turn | yes\nstations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n"
    "station | 1 | Rowing | row cal | | 14\nstation | 2 | Floor presses | rep | | 12\n"
    "station | 3 | Ring rows | rep | | max\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | | 1000 | | 4 | | | | |\npace | 2 | 2 | | | | | | | 20 |\npace | 3 | 2 | | | | | | | 18 |\nend |\n";

Athlete person(const Workout& workout) {
    Athlete athlete;
    athlete.name = "Ilka Moor";
    athlete.division = 0;
    athlete.movements.resize(workout.stations.size());
    return athlete;
}

void read_block(benchmark::State& state) {
    const Table block = block::table(block::tide_table);
    measure(state, [&] { return read_workout(block).has_value(); });
}
void plan_rounds(benchmark::State& state) {
    const Workout workout = *read_workout(block::table(block::tide_table));
    const Athlete athlete = person(workout);
    measure(state, [&] { return plan_for(workout, athlete).expected.reps; });
}
void plan_windows(benchmark::State& state) {
    const Workout workout = *read_workout(block::table(windows));
    const Athlete athlete = person(workout);
    measure(state, [&] { return plan_for(workout, athlete).expected.reps; });
}
void read_text(benchmark::State& state) {
    const std::string text =
        "17 min AMRAP: 12/10 cal ski, 6 sandbags over shoulder 45/30 kg, 8 box step-overs, 6 ring rows";
    measure(state, [&] { return read_announcement(text).stations.size(); });
}
BENCHMARK(read_block);
BENCHMARK(plan_rounds);
BENCHMARK(plan_windows);
BENCHMARK(read_text);

} // namespace
} // namespace pacecells
