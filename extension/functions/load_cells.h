// The table of loads of one person as cells, in the language of the workbook: for ATHLETE.LOADS and for the print.
#pragma once

#include "pacecells/load_table.h"
#include "pacecells/table.h"
#include "pacecells/words.h"

#include <vector>

namespace pacecells {

// Columns: movement, maximum, reps per round, load, its share of the maximum, each side of the bar or what to
// fetch in its place, reps unbroken, the
// heaviest for these reps; for each of load_shares the load and each side; what to say of a load that is too heavy.
inline constexpr int first_share_column = 8; // from 0
inline constexpr int load_columns = first_share_column + 2 * static_cast<int>(load_shares.size()) + 1;

[[nodiscard]] std::vector<TableCell> load_headings(const Bar& bar, Language language);
[[nodiscard]] std::vector<TableCell> load_cells(const Workout& workout, const LoadLine& line, const Bar& bar,
                                                Language language);

} // namespace pacecells
