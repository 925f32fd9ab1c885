// What the results in the logbook say of the rate of each person.
#pragma once

#include "logbook.h"

#include "pacecells/ergometer.h"
#include "pacecells/learning.h"

#include <map>
#include <string>
#include <vector>

namespace pacecells {

// By folded name, the oldest first; those that say what can be held.
[[nodiscard]] std::map<std::string, std::vector<Observation>> observations_in(const LogbookTable& results);

// What was held on a machine, by folded name, the oldest first; by people who could not have gone on.
[[nodiscard]] std::map<std::string, std::vector<EarlierEvent>> held_in(const Logbook& logbook, Machine machine);

// Beside the tests of the sheet Tests what past results say: factors of those who have tests, and for people of these names
// without a test of the main ergometer what they held on it.
void write_past_results(const EventCells& event, const Logbook& logbook, const std::vector<std::string>& names);

} // namespace pacecells
