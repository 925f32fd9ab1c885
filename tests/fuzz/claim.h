// What must hold in a fuzzer: where it does not, the run ends and the input is kept.
#pragma once

#include <cstdio>
#include <cstdlib>

inline void claim(bool holds, const char* what) {
    if (holds)
        return;
    std::fprintf(stderr, "does not hold: %s\n", what);
    std::abort();
}
