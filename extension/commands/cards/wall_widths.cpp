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
constexpr sal_Int32 heading_line = 640;   // and how high a line

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

// Words one after the other, so many letters to a line.
sal_Int32 lines_of(const rtl::OUString& text, sal_Int32 letters) {
    sal_Int32 lines = 1;
    sal_Int32 used = 0;
    for (sal_Int32 at = 0; at >= 0;) {
        const auto word = text.getToken(0, ' ', at).getLength();
        const bool fits = used == 0 || used + 1 + word <= letters;
        used = fits ? used + (used > 0 ? 1 : 0) + word : word;
        lines += fits ? 0 : 1;
    }
    return lines;
}

} // namespace

void widen_for_words(const Range& sheet, const css::table::CellRangeAddress& area) {
    const auto rows = values_of(part(sheet, area));
    const auto columns = columns_of(sheet, area);
    sal_Int32 most_lines = 1;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto column = static_cast<sal_Int32>(i);
        const auto heading = utf16(text_of(rows[heading_row][column]));
        auto letters = longest_word(heading);
        for (auto row = heading_row + 1; i > 0 && row < rows.getLength(); ++row) // a note below begins in the first
            if (rtl::OUString text; rows[row][column] >>= text)
                letters = std::max(letters, text.getLength());
        const auto width = std::max(columns[i].second, letters * heading_letter);
        if (width > columns[i].second)
            set_width(columns[i].first, width);
        most_lines = std::max(most_lines, lines_of(heading, width / heading_letter));
    }
    const auto top = area.StartRow + heading_row;
    const auto row = need<css::table::XColumnRowRange>(sheet->getCellRangeByPosition(0, top, 0, top))->getRows();
    sal_Int32 height = 0;
    get_property(row, "Height") >>= height;
    if (most_lines * heading_line > height)
        set_property(row, "Height", Any(most_lines * heading_line));
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
