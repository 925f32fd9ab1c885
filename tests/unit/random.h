// Random cases that can be run again: the seed is printed, and PACECELLS_TEST_SEED sets it.
#pragma once

#include <cstdlib>
#include <iostream>
#include <random>

class Random {
  public:
    Random() {
        const char* chosen = std::getenv("PACECELLS_TEST_SEED");
        const auto seed = chosen ? static_cast<unsigned>(std::strtoul(chosen, nullptr, 10)) : std::random_device{}();
        std::cout << "PACECELLS_TEST_SEED=" << seed << '\n';
        engine_.seed(seed);
    }
    int whole(int from, int to) { return std::uniform_int_distribution<int>{from, to}(engine_); }
    double between(double from, double to) { return std::uniform_real_distribution<double>{from, to}(engine_); }

  private:
    std::mt19937 engine_;
};
