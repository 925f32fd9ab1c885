// What an event leaves to the logbook: one row about the event, one for each person with a result, and the movements
// that the logbook does not know yet.
#pragma once

#include "event_cells.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace pacecells {

struct LogbookValue { // a text, a number, or a blank
    std::string text;
    std::optional<double> number;
};
using LogbookRow = std::vector<std::pair<std::string_view, LogbookValue>>; // by the keys of the table

struct PersonResult {
    std::string name;
    std::string division;
    std::string group;
    LogbookRow row;
};

struct EventResults {
    double date = 0;
    std::string title;
    LogbookRow event;
    std::vector<PersonResult> people;
    std::vector<LogbookRow> movements; // of the stations, by the keys of the table movements
};

// Refused where the event has no date, its workout is not complete, somebody is on the list twice, or nobody has a
// result.
[[nodiscard]] EventResults results_of(const EventCells& event);

} // namespace pacecells
