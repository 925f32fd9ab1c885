// What happens in a heat as lines of text, each complete in itself: a line torn by a power cut does no harm, and the
// last line about a cell counts.
//
//   heat   1  <event>  <heat>
//   start  <the computer's clock at 0:00, s>  <this run of the computer>  <time of day at 0:00, s since 1970>  <cap, s>
//   lane   <lane>  <athlete>
//   set    <range>  <athlete>  <column>  <value>
//   name   <athlete>  <as the name was corrected>
//   end
//   fix    <range>  <athlete>  <column>  <value before>  <value>  <time of day, s since 1970>  <who>
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <variant>
#include <vector>

namespace pacecells {

// A cell of an athlete: empty, number or text.
using CellValue = std::variant<std::monostate, double, std::string>;

struct CellChange {
    std::string range;
    std::string athlete;
    int column = 0;
    CellValue value;
};

// A cell that was changed after the end of its heat.
struct Fix {
    CellChange change;
    CellValue before;
    double day = 0; // when, in seconds since 1970
    std::string who;
};

using HeatCells = std::map<std::tuple<std::string, std::string, int>, CellValue>; // range, athlete, column

struct HeatLog {
    std::string event;
    int heat = 0;
    std::optional<double> boot_start;
    std::string boot;
    std::optional<double> day_start;
    std::optional<double> cap;
    std::vector<std::string> lanes; // athlete of lane 1, 2, ...; "" for a lane left free
    HeatCells cells;                // until the end of the heat
    bool ended = false;
    std::vector<Fix> fixes; // in their order

    [[nodiscard]] HeatCells fixed() const; // the cells with what was changed since
};

[[nodiscard]] std::string heat_line(std::string_view event, int heat);
[[nodiscard]] std::string start_line(double boot_start, std::string_view boot, double day_start, double cap);
[[nodiscard]] std::string lane_line(int lane, std::string_view athlete);
[[nodiscard]] std::string set_line(const CellChange& change);
[[nodiscard]] std::string name_line(std::string_view before, std::string_view after);
[[nodiscard]] std::string end_line();
[[nodiscard]] std::string fix_line(const Fix& fix);

// Lines that make no sense are passed over. None where the text is no such log.
[[nodiscard]] std::optional<HeatLog> read_heat_log(std::string_view text);

} // namespace pacecells
