// What one call costs: closed forms should stay below 100 ns, the guard rail of the reserve below 2 us, a forecast
// below 3 us, ten tests below 2 us, 1000 names in heats below 1 ms; 10 000 places and heats take milliseconds.
#include "pacecells/advice.h"
#include "pacecells/critical_power.h"
#include "pacecells/forecast.h"
#include "pacecells/heat.h"
#include "pacecells/reserve.h"
#include "pacecells/score.h"
#include "pacecells/stations.h"

#include "measure.h"

#include <benchmark/benchmark.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {
namespace {

constexpr CriticalPower athlete{.critical = Watts{251}, .reserve = Joules{20100}};

MixedTask task(double work_share, double rest) {
    return {.cap = Seconds{1200},
            .calories = Kilocalories{13},
            .other = {.time = Seconds{94}, .rest = Seconds{rest}},
            .values = athlete,
            .work_share = opaque(work_share)};
}

BENCHMARK_CAPTURE(measure, test_power, [] { return power_for(Seconds{opaque(300.0)}, athlete); });
BENCHMARK_CAPTURE(measure, test_floor, [] { return rate_floor(Seconds{opaque(1200.0)}, athlete); });
BENCHMARK_CAPTURE(measure, test_predict,
                  [] { return predict_time(Seconds{opaque(1200.0)}, Metres{5000}, Metres{10000}); });
BENCHMARK_CAPTURE(measure, plan_share, [] { return planned_share({.time = Seconds{opaque(94.0)}}); });
BENCHMARK_CAPTURE(measure, plan_reserve, [] { return reserve_left(task(0.9, 0), CaloriesPerHour{1200}); });
BENCHMARK_CAPTURE(measure, plan_hold_alone, [] { return hold_rate(task(0.9, 0)); });
BENCHMARK_CAPTURE(measure, plan_hold_searched, [] { return hold_rate(task(1, 0.5)); });
BENCHMARK_CAPTURE(measure, plan_advice, [] {
    return advise(CaloriesPerHour{opaque(1000.0)}, CaloriesPerHour{960}, CaloriesPerHour{1180}, 0.112);
});
BENCHMARK_CAPTURE(measure, score_project, [] { return project(Seconds{900}, Seconds{opaque(360.0)}, Reps{90}); });
BENCHMARK_CAPTURE(measure, score_reps,
                  [] { return reps_of({.rounds = opaque(7.0), .reps = 21}, *RepsPerRound::every_round(30)); });

void test_critical_of_ten(benchmark::State& state) {
    std::vector<Seconds> times;
    std::vector<Watts> watts;
    for (int i = 0; i < 10; ++i) {
        times.emplace_back(120 + 90 * i);
        watts.emplace_back(251 + 20100.0 / (120 + 90 * i) + i % 3);
    }
    for (auto _ : state)
        benchmark::DoNotOptimize(fit_critical_power(times, watts));
}
BENCHMARK(test_critical_of_ten);

void score_forecast(benchmark::State& state) {
    const auto rounds = static_cast<int>(state.range(0));
    std::vector<Seconds> clocks;
    Seconds clock{0};
    for (int i = 0; i < rounds; ++i)
        clocks.push_back(clock += Seconds{100.0 + i + i % 3});
    for (auto _ : state)
        benchmark::DoNotOptimize(forecast(clock * 1.8, clocks, *RepsPerRound::every_round(30)));
}
BENCHMARK(score_forecast)->Arg(2)->Arg(4)->Arg(5)->Arg(9)->Arg(20);

// Six stations of the common kinds.
void plan_score(benchmark::State& state) {
    const std::array units{Unit::row_cal, Unit::rep, Unit::rep, Unit::carry_m, Unit::rep, Unit::run_m};
    const std::array amounts{12.0, 10.0, 8.0, 20.0, 15.0, 200.0};
    const std::array rates{900.0, 2.5, 3.0, 0.5, 2.0, 270.0};
    const std::array extras{6.0, 5.0, 4.0, 3.0, 5.0, 6.0};
    const Block block{.units = units, .amounts = {amounts}, .rates = {rates}, .extras = {extras}};
    for (auto _ : state)
        benchmark::DoNotOptimize(score_at(Seconds{opaque(1100.0)}, block));
}
BENCHMARK(plan_score);

struct Day {
    std::vector<std::string> names, groups;
    std::vector<std::optional<double>> scores, tiebreaks;

    explicit Day(std::int64_t athletes) {
        for (int i = 0; i < athletes; ++i) {
            names.push_back("Athlete number " + std::to_string(i));
            groups.push_back(i % 3 == 0 ? "Adapted" : i % 3 == 1 ? "Main division" : "Masters");
            scores.push_back(200 + i * 7919 % 211);
            tiebreaks.push_back(300 + i * 104729 % 97);
        }
    }
    [[nodiscard]] Field field() const { return {.scores = scores, .groups = groups, .tiebreaks = tiebreaks}; }
};

void heat_list(benchmark::State& state) {
    const Day day{state.range(0)};
    for (auto _ : state)
        benchmark::DoNotOptimize(heat_list(day.names, day.scores, 8, Seconds{32400}, Seconds{900}, day.groups));
}
BENCHMARK(heat_list)->Arg(1000)->Arg(10000)->Unit(benchmark::kMicrosecond);

void score_place_array(benchmark::State& state) {
    const Day day{state.range(0)};
    for (auto _ : state) {
        const auto places = Places::in(day.field());
        for (std::size_t i = 0; i < day.scores.size(); ++i)
            benchmark::DoNotOptimize(
                places->of({.score = *day.scores[i], .group = day.groups[i], .tiebreak = day.tiebreaks[i]}));
    }
}
BENCHMARK(score_place_array)->Arg(1000)->Arg(10000)->Unit(benchmark::kMicrosecond);

void score_place_single(benchmark::State& state) {
    const Day day{state.range(0)};
    for (auto _ : state)
        benchmark::DoNotOptimize(
            place({.score = *day.scores[3], .group = day.groups[3], .tiebreak = day.tiebreaks[3]}, day.field()));
}
BENCHMARK(score_place_single)->Arg(24)->Arg(200)->Unit(benchmark::kNanosecond);

} // namespace
} // namespace pacecells
