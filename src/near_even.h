// The near-even scheme without allocation, for the search of the planner.
#pragma once

#include "pacecells/scheme.h"

#include <array>
#include <cstddef>
#include <span>

namespace pacecells {

// Precondition: 1 <= sets <= reps.
class NearEven {
  public:
    NearEven(int reps, int sets) {
        const int larger = reps % sets; // sets that hold one rep more
        if (larger > 0)
            runs_[size_++] = {reps / sets + 1, larger, false};
        runs_[size_++] = {reps / sets, sets - larger, false};
    }
    [[nodiscard]] std::span<const Scheme::Run> runs() const& { return {runs_.data(), size_}; }
    std::span<const Scheme::Run> runs() && = delete; // would outlive its runs in a range-for

  private:
    std::array<Scheme::Run, 2> runs_{};
    std::size_t size_ = 0;
};

} // namespace pacecells
