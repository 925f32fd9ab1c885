// What is printed: the rows of the people there are, not all the rows there could be.
#pragma once

#include "command.h"
#include "office.h"

#include "pacecells/words.h"

#include <com/sun/star/awt/Size.hpp>

#include <optional>

namespace pacecells {

using Document = css::uno::Reference<css::sheet::XSpreadsheetDocument>;
using Range = css::uno::Reference<css::table::XCellRange>;

// Ends the print area of each sheet that lists people with the last of them, or gives it back the rows of those who came
// since. The pages of the wall end with their last row and column, those without anything do not print, and they are as
// large as the paper allows. Other sheets stay as they are.
void fit_lists_and_wall(const Document& document);
// And the live page of cards.
void fit_prints(const Document& document);

// The columns that print beside the name heat_list: division and machine.
constexpr sal_Int32 beside_heat_list = 2;
// Writes date and time into the footers of a copy that is printed now, as the workbook's language writes them: the office
// fills its own fields there as its settings say.
void stamp_prints(const Document& document, Language language);

// A page up to its last row and column with something in it; none where there is nothing but a heading.
[[nodiscard]] std::optional<css::table::CellRangeAddress> filled_part(const Range& sheet,
                                                                      css::table::CellRangeAddress page);
[[nodiscard]] css::awt::Size size_of(const Range& sheet, const css::table::CellRangeAddress& area);
// A little more than that height: rows are rounded when they are scaled, and the last shall stay on its page.
[[nodiscard]] css::awt::Size with_room(css::awt::Size size);
[[nodiscard]] css::uno::Reference<css::beans::XPropertySet> page_style(const Document& document, const Range& sheet);
// A cell style of the document.
[[nodiscard]] css::uno::Reference<css::beans::XPropertySet> cell_style(const Document& document, const char* name);
// Prints at the scale at which areas of this size fill a page; page breaks that were set stay.
void fill_page(const css::uno::Reference<css::beans::XPropertySet>& style, const css::awt::Size& largest);
// What a page has between its margins and above its footer, in 1/100 mm.
[[nodiscard]] css::awt::Size room_on(const css::uno::Reference<css::beans::XPropertySet>& style);
// The same at the page's scale: how large what lies there may be.
[[nodiscard]] css::awt::Size scaled_room_on(const css::uno::Reference<css::beans::XPropertySet>& style);

} // namespace pacecells
