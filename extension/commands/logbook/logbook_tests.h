// The tests in the logbook as the model reads them, by person.
#pragma once

#include "logbook.h"

#include "pacecells/test_entry.h"

#include <map>
#include <string>
#include <vector>

namespace pacecells {

struct UnreadTest {
    sal_Int32 row; // of the table
    std::string name;
    std::string why; // a sentence
};

struct LogbookTests {
    std::map<std::string, std::vector<TestEntry>> people; // by folded name
    std::vector<UnreadTest> unread;
};

// How the gym calls its machines.
[[nodiscard]] std::vector<MachineName> machine_names(const Logbook& logbook);

// All rows that can be meant, each once; of the others why not. Today: the day number of the sheet.
[[nodiscard]] LogbookTests tests_in(const Logbook& logbook, double today);

// The cells of one row.
[[nodiscard]] TestCells test_cells(const LogbookTable& tests, sal_Int32 row);

// Cells as the model reads them.
[[nodiscard]] Table table_of(const Rows& rows);

// The day number of this day.
[[nodiscard]] double today_number();
[[nodiscard]] double now_number(); // with the part of the day

} // namespace pacecells
