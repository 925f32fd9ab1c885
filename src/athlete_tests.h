// The row of an athlete in the tests.
#pragma once

#include "pacecells/athlete.h"

namespace pacecells {

// Fills in what the tests hold of the athlete, who has a name.
[[nodiscard]] std::optional<Error> read_tests(const Workout& workout, const Table& tests, Athlete& athlete);

} // namespace pacecells
