// What the results in the logbook say of the rate of each person.
#pragma once

#include "logbook.h"

#include "pacecells/learning.h"

#include <map>
#include <string>
#include <vector>

namespace pacecells {

// By folded name, the oldest first. A result of somebody who could have gone on counts only where it is more than the
// tests promised.
[[nodiscard]] std::map<std::string, std::vector<Observation>> observations_in(const LogbookTable& results);

} // namespace pacecells
