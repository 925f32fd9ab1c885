// What one call costs: closed forms should stay below 100 ns, a plan of sets and rest below 20 us.
#include "pacecells/clock.h"
#include "pacecells/ergometer.h"
#include "pacecells/loads.h"
#include "pacecells/pace.h"
#include "pacecells/sets.h"

#include "measure.h"

#include <benchmark/benchmark.h>

#include <string_view>

namespace pacecells {
namespace {

BENCHMARK_CAPTURE(measure, erg_convert,
                  [] { return convert(opaque(1000.0), ErgUnit::calories_per_hour, ErgUnit::split); });
BENCHMARK_CAPTURE(measure, erg_time, [] { return time_for(Kilocalories{opaque(15.0)}, CaloriesPerHour{1000}); });
BENCHMARK_CAPTURE(measure, pace_round, [] { return round_time(Seconds{opaque(1080.0)}, 8); });
BENCHMARK_CAPTURE(measure, pace_clock, [] { return clock_after(Seconds{opaque(1200.0)}, 8, 3, 0.06); });
BENCHMARK_CAPTURE(measure, pace_erg_need,
                  [] { return erg_need(Seconds{opaque(135.0)}, Kilocalories{15}, Seconds{81}); });
BENCHMARK_CAPTURE(measure, sets_max_reps, [] { return max_reps(opaque(80.0), 100); });
BENCHMARK_CAPTURE(measure, clock_value, [] { return parse_clock(opaque(std::string_view{"2:30"})); });
BENCHMARK_CAPTURE(measure, clock_text, [] { return clock_text(Seconds{opaque(150.0)}); });
// A rest of 0: sets and rest are planned together.
void sets_plan(benchmark::State& state, int reps, double rounds, double max_unbroken, double away, double rest) {
    const SetWork work{
        .reps = opaque(reps), .rounds = rounds, .max_unbroken = Reps{max_unbroken}, .away = Seconds{away}};
    for (auto _ : state)
        benchmark::DoNotOptimize(plan_sets(work, Seconds{rest}));
}
BENCHMARK_CAPTURE(sets_plan, rest_given_found, 30, 20, 70, 80, 5);
BENCHMARK_CAPTURE(sets_plan, rest_given_none, 30, 20, 20, 80, 3);
BENCHMARK_CAPTURE(sets_plan, rest_given_longest, 999, 20, 20, 80, 3);
BENCHMARK_CAPTURE(sets_plan, unbroken, 10, 5, 20, 120, 0);
BENCHMARK_CAPTURE(sets_plan, two_sets, 9, 9, 15, 80, 0);
BENCHMARK_CAPTURE(sets_plan, four_sets, 10, 5, 12, 90, 0);
BENCHMARK_CAPTURE(sets_plan, eight_sets, 10, 5, 8, 90, 0);
BENCHMARK_CAPTURE(sets_plan, fourteen_sets, 30, 20, 20, 80, 0);
BENCHMARK_CAPTURE(sets_plan, hundred_reps, 100, 1, 50, 0, 0);
BENCHMARK_CAPTURE(sets_plan, longest, 999, 20, 20, 80, 0);
BENCHMARK_CAPTURE(measure, sets_rest, [] {
    return rest_needed({.reps = opaque(9), .rounds = 9, .max_unbroken = Reps{15}, .away = Seconds{80}}, 3);
});
BENCHMARK_CAPTURE(measure, sets_recovery, [] { return recovery_from(Reps{opaque(20.0)}, Reps{12}, Seconds{60}); });

void sets_left(benchmark::State& state) {
    const auto scheme = Scheme::parse("2-2-5x1");
    for (auto _ : state)
        benchmark::DoNotOptimize(reps_left(*scheme, opaque(9), Reps{24}, Seconds{80}));
}
BENCHMARK(sets_left);

} // namespace
} // namespace pacecells
