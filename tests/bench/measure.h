// How a call of the model is measured.
#pragma once

#include <benchmark/benchmark.h>

namespace pacecells {

// Keeps the compiler from computing a call with constant arguments beforehand. Not benchmark::DoNotOptimize: g++ 12
// makes 0 of a local number that is given to it, and then a refusal would be measured.
template <class T>
T opaque(T value) {
    asm volatile("" : "+m"(value));
    return value;
}

template <class Call>
void measure(benchmark::State& state, Call call) {
    for (auto _ : state)
        benchmark::DoNotOptimize(call());
}

} // namespace pacecells
