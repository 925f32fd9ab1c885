// Columns and rows of what hangs on a wall, in a copy of the workbook: as large as their words need, and together as the paper.
#pragma once

#include "copy.h"

#include <com/sun/star/beans/XPropertySet.hpp>

namespace pacecells {

inline constexpr sal_Int32 wall_heading = 2; // row of a page of the wall
inline constexpr sal_Int32 rounding = 200;   // one part in so many is lost where the office rounds widths and heights

// No heading of the table breaks within a word, and no name below one shrinks to less than a heading's size; the row of the
// headings is as high as the longest of them.
void widen_for_words(const Range& sheet, const css::table::CellRangeAddress& area);
// No column of a list, which begins with its headings, is wider than its longest text, or than it takes to write one by
// hand where there is none; those of numbers stay.
void narrow_to_words(const Range& sheet, const css::table::CellRangeAddress& list);
// What the scale of a page leaves free beside an area goes to the area's columns.
void share_width(const Range& sheet, const css::table::CellRangeAddress& area,
                 const css::uno::Reference<css::beans::XPropertySet>& style);
// And what it leaves below goes to the rows of the table that begins there, which become at most three times as high.
void share_height(const Range& sheet, const css::table::CellRangeAddress& area, sal_Int32 first_row,
                  const css::uno::Reference<css::beans::XPropertySet>& style);

} // namespace pacecells
