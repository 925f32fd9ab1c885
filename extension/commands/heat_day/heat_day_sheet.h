// The event workbook as a heat needs it: who is in which lane, what is planned, what is written down. A person is a name
// on the sheet Results; the row is looked up each time, because sheets are sorted and names corrected.
#pragma once

#include "office.h"

#include "pacecells/heat_log.h"
#include "pacecells/running_heat.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace pacecells {

struct Seat {
    int lane = 0;
    std::string name;
};

// Where a person of a heat is on the sheet Results.
struct Found {
    std::optional<int> row;
    std::string name;    // as it is there now
    std::string problem; // why there is no row that is surely this person's
};

// By the rule for the same name: its rows.
using PersonRows = std::map<std::string, int>;

class EventSheet {
  public:
    // Refused where the document is no event workbook.
    explicit EventSheet(css::uno::Reference<css::sheet::XSpreadsheetDocument> document);

    [[nodiscard]] const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document() const { return document_; }

    // Refused, with the cell to put right, where the sheet Workout is not complete.
    [[nodiscard]] Workout workout();
    [[nodiscard]] HeatTask task();
    [[nodiscard]] std::string title();
    [[nodiscard]] std::string heading();
    [[nodiscard]] std::string key(); // tells one event from another
    [[nodiscard]] bool writable();
    [[nodiscard]] bool shared();

    [[nodiscard]] int heats();
    // By lane: who the sheet Heats has there, but whoever has results is in the heat and lane of these results.
    [[nodiscard]] std::vector<Seat> seats(int heat);
    // A name of the roster that begins with these letters, if there is just one; large and small letters are alike.
    [[nodiscard]] std::optional<std::string> athlete(const std::string& begins);
    [[nodiscard]] bool on_roster(const std::string& athlete);
    // Plans of these people; who has none gets no targets.
    [[nodiscard]] std::vector<LanePlan> plans(const std::vector<Seat>& seats);
    // How much later than the heat the lanes of these people start.
    [[nodiscard]] std::vector<Seconds> offsets(const std::vector<Seat>& seats);

    // The row of each person of a heat. Somebody whose name is gone is the one new name in the same heat and lane.
    // `known`: names that were on the sheet before, which nobody can have been renamed to.
    [[nodiscard]] std::vector<Found> places(int heat, const std::vector<Seat>& seats,
                                            const std::set<std::string>& known);
    [[nodiscard]] std::set<std::string> known(); // names on the sheet Results, in the form that is compared
    // Refused where the roster or Results has one of these names twice.
    void refuse_doubles(const std::vector<Seat>& seats);
    // Gives each of them a row with heat and lane; one step of undo.
    void place(int heat, const std::vector<Seat>& seats);

    // What is written down in a row: the cells that are not empty.
    [[nodiscard]] std::vector<CellChange> written(int row, const std::string& athlete);
    [[nodiscard]] CellValue value(const std::string& range, int row, int column = 0);
    [[nodiscard]] std::string shown(const std::string& range, int row); // "" where it has an error
    [[nodiscard]] std::string yes();                                    // the word of the workbook

    // One step of undo. Refused, and nothing is changed, where the sheet does not take it.
    void write(const std::string& title, const std::vector<CellChange>& changes, const PersonRows& rows);

    // The judge sheets of a heat in front; refused where there is no such heat.
    void show_judges(int heat, const css::uno::Reference<css::frame::XController>& controller);

    // A row of the sheet Results.
    struct Line {
        std::string name;
        int heat = 0;
        int lane = 0;
    };
    [[nodiscard]] std::vector<Line> lines();

  private:
    [[nodiscard]] css::uno::Reference<css::table::XCellRange> range(const std::string& name);
    [[nodiscard]] Table table(const std::string& name);
    [[nodiscard]] CellValue single(const std::string& name);
    [[nodiscard]] std::vector<std::string> names(const std::string& range);
    // What stands in a lane, by row of the roster: a person, or with its first person a team.
    [[nodiscard]] std::vector<std::string> lane_names();
    [[nodiscard]] std::vector<Seat> listed(int heat);

    css::uno::Reference<css::sheet::XSpreadsheetDocument> document_;
    std::map<std::string, css::uno::Reference<css::table::XCellRange>> ranges_;
};

[[nodiscard]] LaneRecord record_of(const std::vector<CellChange>& written);
[[nodiscard]] bool has_results(const LaneRecord& record);
[[nodiscard]] std::optional<double> number_of(const CellValue& value);

} // namespace pacecells
