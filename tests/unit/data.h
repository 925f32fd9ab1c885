// Reads the tables of published values in tests/data.
//
// A table is a CSV file: lines starting with # hold the citation and "# tolerance: 0.5", the first other line names
// the columns. A missing file, column or number throws, which fails the test.
#pragma once

#include "pacecells/delimited.h"

#include <algorithm>
#include <cstddef>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace data {

class Row {
  public:
    Row(std::vector<std::string> columns, std::vector<std::string> cells)
        : columns_{std::move(columns)}, cells_{std::move(cells)} {}

    [[nodiscard]] const std::string& text(std::string_view column) const {
        const auto at = std::find(columns_.begin(), columns_.end(), column);
        if (at == columns_.end())
            throw std::runtime_error{"no column " + std::string{column}};
        return cells_.at(static_cast<std::size_t>(at - columns_.begin()));
    }
    [[nodiscard]] double number(std::string_view column) const { return std::stod(text(column)); }

  private:
    std::vector<std::string> columns_;
    std::vector<std::string> cells_;
};

struct Table {
    double tolerance = -1;
    std::vector<Row> rows;
};

inline Table table(const std::string& key) {
    const auto path = std::string{PACECELLS_TEST_DATA} + "/" + key + ".csv";
    std::ifstream file{path};
    if (!file)
        throw std::runtime_error{"cannot read " + path};
    constexpr std::string_view tolerance = "# tolerance:";
    Table table;
    std::string text;
    for (std::string line; std::getline(file, line);) {
        if (line.starts_with(tolerance))
            table.tolerance = std::stod(line.substr(tolerance.size()));
        if (!line.starts_with('#'))
            text += line + '\n';
    }
    const auto rows = pacecells::delimited_rows(text);
    for (std::size_t i = 1; i < rows.size(); ++i)
        table.rows.emplace_back(rows.front(), rows[i]);
    if (table.rows.empty() || table.tolerance < 0)
        throw std::runtime_error{"no rows or no tolerance in " + path};
    return table;
}

} // namespace data
