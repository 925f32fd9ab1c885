// The columns of a page of the wall, in a copy of the workbook: wide enough for their words, and together as wide as the paper.
#pragma once

#include "copy.h"

#include <com/sun/star/beans/XPropertySet.hpp>

namespace pacecells {

inline constexpr sal_Int32 rounding = 200; // one part in so many is lost where the office rounds widths and heights

// No heading of the table breaks within a word, and no name below one shrinks to less than a heading's size; the row of the
// headings is as high as the longest of them.
void widen_for_words(const Range& sheet, const css::table::CellRangeAddress& area);
// What the scale of a page leaves free beside an area goes to the area's columns.
void share_width(const Range& sheet, const css::table::CellRangeAddress& area,
                 const css::uno::Reference<css::beans::XPropertySet>& style);

} // namespace pacecells
