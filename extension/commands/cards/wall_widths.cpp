#include "wall_widths.h"

#include "prints.h"

#include <com/sun/star/table/XColumnRowRange.hpp>

#include <algorithm>
#include <utility>
#include <vector>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr sal_Int32 heading_row = 2;      // of a page of the wall
constexpr sal_Int32 heading_letter = 270; // how wide a letter there is, as a rule, in 1/100 mm

std::vector<std::pair<Any, sal_Int32>> columns_of(const Range& sheet, const css::table::CellRangeAddress& area) {
    const auto columns = need<css::table::XColumnRowRange>(part(sheet, area))->getColumns();
    std::vector<std::pair<Any, sal_Int32>> found;
    for (sal_Int32 i = 0; i < columns->getCount(); ++i)
        found.emplace_back(columns->getByIndex(i), 0);
    for (auto& [column, width] : found)
        get_property(column.get<Reference<css::uno::XInterface>>(), "Width") >>= width;
    return found;
}

void set_width(const Any& column, sal_Int32 width) {
    set_property(column.get<Reference<css::uno::XInterface>>(), "Width", Any(width));
}

sal_Int32 longest_word(const rtl::OUString& text) {
    sal_Int32 longest = 0;
    for (sal_Int32 at = 0, letters = 0; at < text.getLength(); ++at)
        longest = std::max(longest, letters = text[at] == ' ' || text[at] == '-' ? 0 : letters + 1);
    return longest;
}

} // namespace

void widen_for_words(const Range& sheet, const css::table::CellRangeAddress& area) {
    const auto rows = values_of(part(sheet, area));
    const auto columns = columns_of(sheet, area);
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto column = static_cast<sal_Int32>(i);
        auto letters = longest_word(utf16(text_of(rows[heading_row][column])));
        for (auto row = heading_row + 1; i > 0 && row < rows.getLength(); ++row) // a note below begins in the first
            if (rtl::OUString text; rows[row][column] >>= text)
                letters = std::max(letters, text.getLength());
        if (letters * heading_letter > columns[i].second)
            set_width(columns[i].first, letters * heading_letter);
    }
}

void share_width(const Range& sheet, const css::table::CellRangeAddress& area,
                 const Reference<css::beans::XPropertySet>& style) {
    sal_Int16 scale = 0;
    get_property(style, "PageScale") >>= scale;
    const auto wide = room_on(style).Width * 100 / scale;
    const auto now = size_of(sheet, area).Width;
    for (const auto& [column, width] : columns_of(sheet, area))
        set_width(column, width * (wide - wide / rounding) / now);
}

} // namespace pacecells
