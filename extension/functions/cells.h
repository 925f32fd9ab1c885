// What stands in cells, without a word of the office: the currency between the catalog and whoever calls it.
#pragma once

#include "pacecells/result.h"
#include "pacecells/table.h"

#include <memory>
#include <string>
#include <variant>
#include <vector>

namespace pacecells {

struct Blank {};

// One cell, going in or coming out. An error goes in only where the caller is at fault or an area holds one: the office
// itself stops on an error cell before we are asked.
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

// A range that is handed over as an object, whatever its size: none of it is read before it is asked for.
class Area {
  public:
    struct Address { // of a cell, counted from 0
        int sheet = 0;
        int column = 0;
        int row = 0;
    };

    Area() = default;
    virtual ~Area() = default;
    Area(const Area&) = delete;
    Area& operator=(const Area&) = delete;

    [[nodiscard]] virtual int rows() const = 0;
    [[nodiscard]] virtual int columns() const = 0;
    [[nodiscard]] virtual Address first() const = 0;
    [[nodiscard]] virtual std::string sheet() const = 0; // its name
    // A part inside it, counted from 0. Refused where a cell holds an error.
    [[nodiscard]] virtual Result<Table> part(int row, int column, int rows, int columns) const = 0;

    [[nodiscard]] virtual bool calculated(int row, int column) const = 0; // a cell with a formula

    [[nodiscard]] Result<Table> all() const { return part(0, 0, rows(), columns()); }
    [[nodiscard]] std::string cell_name(int row, int column) const; // "Workout.C14"
};
using AreaPointer = std::shared_ptr<const Area>;

using Argument = std::variant<Omitted, Cell, Range, AreaPointer>;
using Answer = std::variant<Cell, Range>;

} // namespace pacecells
