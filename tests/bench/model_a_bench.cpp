// What one call costs: closed forms should stay below 100 ns, a plan of 30 reps by 20 rounds below 5 us, and below 20
// us where every number of sets has to be tried in vain.
#include "pacecells/clock.h"
#include "pacecells/ergometer.h"
#include "pacecells/pace.h"
#include "pacecells/sets.h"

#include <benchmark/benchmark.h>

#include <string_view>

namespace pacecells {
namespace {

// Keeps the compiler from computing a call with constant arguments beforehand.
template <class T>
T opaque(T value) {
    benchmark::DoNotOptimize(value);
    return value;
}

template <class Call>
void measure(benchmark::State& state, Call call) {
    for (auto _ : state)
        benchmark::DoNotOptimize(call());
}

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
BENCHMARK_CAPTURE(measure, sets_plan_found, [] { return plan_sets(opaque(30), 20, Reps{70}, Seconds{80}); });
BENCHMARK_CAPTURE(measure, sets_plan_none, [] { return plan_sets(opaque(30), 20, Reps{20}, Seconds{80}); });
BENCHMARK_CAPTURE(measure, sets_plan_longest, [] { return plan_sets(opaque(999), 20, Reps{20}, Seconds{80}); });
BENCHMARK_CAPTURE(measure, sets_rest, [] { return rest_needed(opaque(9), 9, Reps{24}, Seconds{80}, 3); });

void sets_left(benchmark::State& state) {
    const auto scheme = Scheme::parse("2-2-5x1");
    for (auto _ : state)
        benchmark::DoNotOptimize(reps_left(*scheme, opaque(9), Reps{24}, Seconds{80}));
}
BENCHMARK(sets_left);

} // namespace
} // namespace pacecells
