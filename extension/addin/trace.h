// For the explanation of a cell: what the functions were asked and what they answered, noted while somebody listens.
#pragma once

#include "catalog.h"

#include <vector>

namespace pacecells {

// While it lives, it notes the calls on its own thread. One at a time.
class Trace {
  public:
    struct Asked {
        const Row* row;
        std::vector<Argument> arguments;
        Answer answer;
    };

    Trace() { listening_ = this; }
    ~Trace() { listening_ = nullptr; }
    Trace(const Trace&) = delete;
    Trace& operator=(const Trace&) = delete;

    [[nodiscard]] const std::vector<Asked>& calls() const { return calls_; }

    static void note(const Row& row, std::span<const Argument> arguments, const Answer& answer) {
        if (listening_)
            listening_->calls_.push_back({&row, {arguments.begin(), arguments.end()}, answer});
    }

  private:
    std::vector<Asked> calls_;
    static inline thread_local Trace* listening_ = nullptr;
};

} // namespace pacecells
