// Values and sentences of an explanation, as people read them.
#pragma once

#include "catalog.h"

#include <sal/types.h>

#include <string>

namespace pacecells {

inline constexpr std::size_t most_shown_cells = 8; // of a range

// The value of an argument that is one; a range of one cell is.
[[nodiscard]] const Cell* as_cell(const Argument& argument);

// What is too long to be read: its beginning.
[[nodiscard]] std::string shortened(const std::string& text, std::size_t longest);
// With a full stop.
[[nodiscard]] std::string sentence(std::string text);

[[nodiscard]] std::string shown(const Cell& cell, bool time);
[[nodiscard]] std::string shown(const Range& range, bool time);
// " (3 × 2 cells)"; nothing of one cell.
[[nodiscard]] std::string size_of(sal_Int32 rows, sal_Int32 columns);

// Where one argument is refused, the sentence begins with its name.
[[nodiscard]] std::string reason(const Row& row, const Error& error);

} // namespace pacecells
