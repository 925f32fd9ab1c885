// What an older event workbook, or a tests workbook, has for the logbook: people, tests, results.
#pragma once

#include "event_results.h"
#include "logbook.h"

#include "pacecells/test_entry.h"

#include <optional>
#include <string>
#include <vector>

namespace pacecells {

struct OldWorkbook {
    std::vector<LogbookRow> people; // by the keys of the table people
    std::vector<LogbookRow> tests;  // by the keys of the table tests
    std::optional<EventResults> results;
    std::string remarks; // what was left out, each in a line
};

// Refused where the workbook is neither. Machines are named as the logbook names them.
[[nodiscard]] OldWorkbook read_old_workbook(const Document& document, const std::vector<MachineName>& machines);

} // namespace pacecells
