// The event workbook as a heat needs it: who stands where, what is planned, what is written down.
#pragma once

#include "office.h"

#include "pacecells/heat_log.h"
#include "pacecells/running_heat.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

struct Seat {
    int lane = 0;
    std::string name;
};

class EventSheet {
  public:
    // Refused where the document is no event workbook.
    explicit EventSheet(css::uno::Reference<css::sheet::XSpreadsheetDocument> document);

    [[nodiscard]] const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document() const { return document_; }

    // Refused, with the sheet's own words, where the sheet Event is not complete.
    [[nodiscard]] HeatTask task();
    [[nodiscard]] std::string title();
    [[nodiscard]] std::string key(); // tells one event from another

    [[nodiscard]] int heats();
    [[nodiscard]] std::vector<Seat> seats(int heat); // by lane
    // A name of the roster that begins with these letters, if there is just one; large and small letters are alike.
    [[nodiscard]] std::optional<std::string> athlete(const std::string& begins);
    [[nodiscard]] bool knows(const std::string& athlete);

    [[nodiscard]] LanePlan plan(const std::string& athlete);
    // What is written down of an athlete on the sheet Event day: the cells that are not empty.
    [[nodiscard]] std::vector<CellChange> written(const std::string& athlete);
    [[nodiscard]] CellValue value(const std::string& range, const std::string& athlete, int column = 0);
    [[nodiscard]] std::string shown(const std::string& range, const std::string& athlete); // "" where it has an error
    [[nodiscard]] std::string yes();                                                       // the word of the workbook

    // One step of undo.
    void write(const std::string& title, const std::vector<CellChange>& changes);

    // The judge sheets of a heat in front; refused where there is no such heat.
    void show_judges(int heat, const css::uno::Reference<css::frame::XController>& controller);
    // A new document to print: places so far, by division.
    void list_results(const Context& context);

  private:
    using Rows = css::uno::Sequence<css::uno::Sequence<css::uno::Any>>;

    [[nodiscard]] css::uno::Reference<css::table::XCellRange> range(const std::string& name);
    [[nodiscard]] css::uno::Reference<css::table::XCellRange> optional_range(const std::string& name);
    [[nodiscard]] Rows rows(const std::string& name);
    [[nodiscard]] CellValue single(const std::string& name);
    [[nodiscard]] std::optional<int> row_of(const std::string& athlete);
    [[nodiscard]] std::vector<std::string> names();

    css::uno::Reference<css::sheet::XSpreadsheetDocument> document_;
    std::map<std::string, css::uno::Reference<css::table::XCellRange>> ranges_;
    std::map<std::string, int> rows_; // by athlete, as last seen
};

[[nodiscard]] LaneRecord record_of(const std::vector<CellChange>& written);
[[nodiscard]] std::string text_of(const CellValue& value);
[[nodiscard]] std::optional<double> number_of(const CellValue& value);

} // namespace pacecells
