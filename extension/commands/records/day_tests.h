// A workbook with the table day_tests to fill in (templates/NAMES.md): the sheet for a test day, and a person's page.
#pragma once

#include "people.h"

#include <optional>
#include <string>
#include <vector>

namespace pacecells {

// What is tested today: a machine or a movement of the logbook, perhaps with what is set before.
struct DayTest {
    std::string what;                    // as in the logbook
    std::optional<Machine> machine = {}; // none: a movement
    std::optional<Seconds> time = {};
    std::optional<double> metres = {};
    std::optional<double> calories = {};
};

// Which columns a row of the table has use for: those of machines, or those of movements.
[[nodiscard]] const std::vector<std::string_view>& columns_for(bool machine);

// "Rower 10:00", "Rower 2000 m", "Rower 50 cal", "Ring row". Refused where the logbook knows no such name.
[[nodiscard]] DayTest read_day_test(const std::string& text, const std::vector<MachineName>& machines,
                                    const std::vector<std::string>& movements);

// How tests are written, with a machine of the logbook.
[[nodiscard]] std::string day_tests_example(const std::vector<MachineName>& machines);

[[nodiscard]] std::vector<std::string> movements_in(const Logbook& logbook);

// The rows of day_tests by key, from the first row on; keys are in the first row of the range.
class DayTable {
  public:
    explicit DayTable(const Document& document);
    [[nodiscard]] sal_Int32 rows() const { return rows_; }
    [[nodiscard]] css::uno::Any value(sal_Int32 row, std::string_view key) const;
    void put(sal_Int32 row, std::string_view key, const std::string& text) const;
    void put(sal_Int32 row, std::string_view key, double number) const;
    // Grey, and closed to typing.
    void close(sal_Int32 row, std::string_view key) const;

  private:
    [[nodiscard]] sal_Int32 column(std::string_view key) const;

    Range cells_;
    Rows values_;
    sal_Int32 rows_ = 0;
};

} // namespace pacecells
