// Tables for tests, written as text: a row a line, cells between bars, numbers as numbers, clocks as text.
#pragma once

#include "pacecells/table.h"
#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells::block {

inline TableCell cell(std::string_view text) {
    text = trim(text);
    if (text.empty())
        return {};
    double number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ptr == text.data() + text.size())
        return number;
    return std::string(text);
}

inline Table table(std::string_view text) {
    std::vector<std::vector<TableCell>> rows;
    while (!text.empty()) {
        auto line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(text.size(), line.size() + 1));
        std::vector<TableCell> row;
        for (;;) {
            const auto bar = line.find('|');
            row.push_back(cell(line.substr(0, bar)));
            if (bar == std::string_view::npos)
                break;
            line.remove_prefix(bar + 1);
        }
        rows.push_back(std::move(row));
    }
    Table made;
    made.rows = rows.size();
    for (const auto& row : rows)
        made.columns = std::max(made.columns, row.size());
    for (auto& row : rows) {
        row.resize(made.columns);
        made.cells.insert(made.cells.end(), row.begin(), row.end());
    }
    return made;
}

// The text with one piece of it, which must be there once, replaced.
inline std::string with(std::string text, std::string_view piece, std::string_view other) {
    const auto at = text.find(piece);
    if (at == std::string::npos || text.find(piece, at + 1) != std::string::npos)
        throw std::runtime_error{"not there once: " + std::string(piece)};
    return text.replace(at, piece.size(), other);
}

// A 17-minute task of an invented gym.
inline constexpr std::string_view tide_table =
    "pacecells.workout |        | value\n"
    "version   | Layout          | 1\n"
    "language  | Language        | en\n"
    "format    | Format          | AMRAP\n"
    "cap       | Cap             | 17:00\n"
    "rounds    | Rounds          |\n"
    "intended_low  | Meant for, rounds, from | 5\n"
    "date      | Date            | 46354\n"
    "steps     | Steps           | 3\n"
    "stations  | no | movement   | unit    | when | amount.1 | amount.2 | load.1 | load.2\n"
    "divisions |    |            |         |      | as prescribed | scaled |        |\n"
    "station   | 1  |            | ski cal |      | 14       | 12       |        |\n"
    "station   | 2  | Sandbags   | rep     |      | 6        | 6        | 45     | 30\n"
    "station   | 3  | Box step-overs | rep |      | 10       | 8        |        |\n"
    "station   | 4  | Ring rows  | rep     |      | 8        | 6        |        |\n"
    "station   | 5  |            |         |      |          |          |        |\n"
    "paces     | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace      | 1  |       | 620  |      | 4          |       |      |            |         |\n"
    "pace      | 2  | 5     |      |      |            |       | yes  |            | 8       |\n"
    "pace      | 3  | 3     |      |      |            |       |      |            |         |\n"
    "pace      | 4  | 2     |      |      |            |       | yes  |            | 12      |\n"
    "pace      | 5  |       |      |      |            |       |      |            |         |\n"
    "groups    | name | erg | rep | sets\n"
    "group     | quick  | 1.15 | 0.9 | 1.2\n"
    "group     | middle | 1    | 1   | 1\n"
    "group     | steady | 0.85 | 1.15 | 0.8\n"
    "machines  | unit | count\n"
    "machine   | ski  | 4\n"
    "end       |\n";

// A workout of one division with so many stations of ten reps: format is its settings, a line each.
inline Table of_stations(int count, const std::string& format) {
    std::string text = "pacecells.workout | value\nversion | 1\nlanguage | en\n" + format +
                       "\nstations | no | movement | unit | when | amount.1\ndivisions | | | | | open\n";
    for (int i = 1; i <= count; ++i)
        text += "station | " + std::to_string(i) + " | Move " + std::to_string(i) + " | rep | | 10\n";
    text += "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n";
    for (int i = 1; i <= count; ++i)
        text += "pace | " + std::to_string(i) + " | 2 | | | | 0 | | | |\n";
    return table(text + "end |\n");
}

} // namespace pacecells::block
