// How high rows must be for the texts in their cells: the office finds that for cells alone, not for merged ones.
#pragma once

#include "prints.h"

#include <vector>

namespace pacecells {

// For the longest of these texts, in the style of the cell and the width of what it is merged with. 1/100 mm.
[[nodiscard]] sal_Int32 height_for(const Range& sheet, const Range& cell, std::vector<rtl::OUString> texts);

// Of several people, the texts of a cell of their place in the layout, but the blank ones.
[[nodiscard]] std::vector<rtl::OUString> texts_at(const std::vector<Rows>& people, sal_Int32 row, sal_Int32 column);

struct CardRows {
    std::vector<sal_Int32> heights; // of one card; 0: blank on each of them
    sal_Int32 per_page = 0;

    [[nodiscard]] sal_Int32 whole() const; // height of a card
};

// A row with texts in lines gets as many as the longest needs, and a row that is blank on every card is left out. Where so
// many cards would be too small to read on a page, it has fewer. first: the place of the first card.
[[nodiscard]] CardRows card_rows(const Document& document, const Range& sheet,
                                 const css::table::CellRangeAddress& first, const std::vector<Rows>& cards,
                                 sal_Int32 most_per_page);

// What the rows of a judge's sheet need at least; 0: blank on each of them. The last, between two sheets, is not looked at.
[[nodiscard]] std::vector<sal_Int32> judge_heights(const Range& sheet, const css::table::CellRangeAddress& first,
                                                   const std::vector<Rows>& sheets);

// Rows that share a height: each has what it needs, and what is left makes the lowest of them as high as it can.
[[nodiscard]] std::vector<sal_Int32> shared_heights(std::vector<sal_Int32> needs, sal_Int32 room, sal_Int32 most);

} // namespace pacecells
