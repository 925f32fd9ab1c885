// What stands in cells, without a word of the office: the currency between the catalog and whoever calls it.
#pragma once

#include "pacecells/result.h"

#include <string>
#include <variant>
#include <vector>

namespace pacecells {

struct Blank {};

// One cell, going in or coming out. Errors only come out: the office stops on an error cell before we are asked.
using Cell = std::variant<Blank, double, std::string, Error>;

// A range, row by row.
struct Range {
    int rows = 0;
    int columns = 0;
    std::vector<Cell> cells; // rows * columns of them

    [[nodiscard]] bool single() const { return cells.size() == 1; }
    [[nodiscard]] const Cell& at(int row, int column) const {
        return cells[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                     static_cast<std::size_t>(column)];
    }
};

struct Omitted {};

using Argument = std::variant<Omitted, Cell, Range>;
using Answer = std::variant<Cell, Range>;

} // namespace pacecells
