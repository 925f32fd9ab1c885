// What results of tests would change on the sheet Tests of an event, and the writing of it.
#pragma once

#include "results.h"

#include <utility>

namespace pacecells {

struct TestWrite { // one machine's or movement's values of one athlete
    std::string range;
    sal_Int32 row;
    sal_Int32 column;
    std::vector<std::optional<double>> values;
};

struct TestLine { // of the report
    std::string name;
    std::string happens;
    std::vector<std::string> details;
};

struct TestPlan {
    std::vector<std::pair<std::size_t, std::string>> headings; // slot, movement
    std::vector<std::pair<sal_Int32, std::string>> names;      // row, as on the roster
    std::vector<TestWrite> writes;
    std::vector<TestLine> lines;
    std::string summary;

    [[nodiscard]] bool empty() const { return writes.empty(); }
};

// By name: each name once, on the roster, in the file and on the sheet, for only then is it known whose results they are.
[[nodiscard]] TestPlan plan_tests(const EventCells& event, const ResultFile& file);

// Into the cells, so that it can be undone; the sheet Tests, hidden while it is empty, is shown.
void write_tests(const EventCells& event, const TestPlan& plan);

} // namespace pacecells
