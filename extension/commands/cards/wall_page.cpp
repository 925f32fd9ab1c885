#include "wall_page.h"

#include "prints.h"

#include <com/sun/star/table/XColumnRowRange.hpp>

#include <algorithm>
#include <utility>
#include <vector>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr sal_Int32 heading_letter = 270; // how wide a letter there is, as a rule, in 1/100 mm
constexpr sal_Int32 heading_line = 640;   // and how high a line

struct Column {
    sal_Int32 number; // in the area
    Reference<css::uno::XInterface> column;
    sal_Int32 width;
};

// Those that can be seen.
std::vector<Column> columns_of(const Range& sheet, const css::table::CellRangeAddress& area) {
    const auto columns = need<css::table::XColumnRowRange>(part(sheet, area))->getColumns();
    std::vector<Column> found;
    for (sal_Int32 i = 0; i < columns->getCount(); ++i) {
        const Reference<css::uno::XInterface> column(columns->getByIndex(i), css::uno::UNO_QUERY_THROW);
        if (!get_property(column, "IsVisible").get<bool>())
            continue;
        sal_Int32 width = 0;
        get_property(column, "Width") >>= width;
        found.push_back({i, column, width});
    }
    return found;
}

void set_width(const Column& column, sal_Int32 width) { set_property(column.column, "Width", Any(width)); }

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
    sal_Int32 most_lines = 1;
    for (const auto& column : columns_of(sheet, area)) {
        const auto heading = utf16(text_of(rows[wall_heading][column.number]));
        auto letters = longest_word(heading);
        for (auto row = wall_heading + 1; column.number > 0 && row < rows.getLength();
             ++row) // a note begins in the first
            if (rtl::OUString text; rows[row][column.number] >>= text)
                letters = std::max(letters, text.getLength());
        const auto width = std::max(column.width, letters * heading_letter);
        if (width > column.width)
            set_width(column, width);
        most_lines = std::max(most_lines, lines_of(heading, width / heading_letter));
    }
    const auto top = area.StartRow + wall_heading;
    const auto row = need<css::table::XColumnRowRange>(sheet->getCellRangeByPosition(0, top, 0, top))->getRows();
    sal_Int32 height = 0;
    get_property(row, "Height") >>= height;
    if (most_lines * heading_line > height)
        set_property(row, "Height", Any(most_lines * heading_line));
}

void narrow_to_words(const Range& sheet, const css::table::CellRangeAddress& list) {
    constexpr sal_Int32 letter = 240; // 1/100 mm, of the bold ones of a list
    constexpr sal_Int32 edges = 500;
    constexpr sal_Int32 to_write = 3000; // where there is nothing yet
    const auto rows = values_of(part(sheet, list));
    for (const auto& column : columns_of(sheet, list)) {
        sal_Int32 letters = 0;
        bool numbers = false;
        for (sal_Int32 row = 1; row < rows.getLength(); ++row) {
            const auto& value = rows[row][column.number];
            letters = std::max(letters, utf16(text_of(value)).getLength());
            numbers |= value.getValueTypeClass() == css::uno::TypeClass_DOUBLE;
        }
        const auto width = letters == 0 ? to_write : letters * letter + edges;
        if (!numbers && width < column.width)
            set_width(column, width);
    }
}

void share_width(const Range& sheet, const css::table::CellRangeAddress& area,
                 const Reference<css::beans::XPropertySet>& style) {
    const auto wide = scaled_room_on(style).Width;
    const auto now = std::max(size_of(sheet, area).Width, sal_Int32{1});
    for (const auto& column : columns_of(sheet, area))
        set_width(column, column.width * (wide - wide / rounding) / now);
}

namespace {

// A note below a table has text in the first column alone.
std::vector<Reference<css::uno::XInterface>> table_rows(const Range& sheet, css::table::CellRangeAddress area) {
    const auto values = values_of(part(sheet, area));
    const auto rows = need<css::table::XColumnRowRange>(part(sheet, area))->getRows();
    std::vector<Reference<css::uno::XInterface>> found;
    for (sal_Int32 row = 0; row < values.getLength(); ++row)
        if (std::any_of(values[row].begin() + 1, values[row].end(),
                        [](const Any& value) { return !text_of(value).empty(); }))
            found.emplace_back(rows->getByIndex(row), css::uno::UNO_QUERY_THROW);
    return found;
}

} // namespace

void share_height(const Range& sheet, const css::table::CellRangeAddress& area, sal_Int32 first_row,
                  const Reference<css::beans::XPropertySet>& style) {
    auto table = area;
    table.StartRow = first_row;
    const auto rows = table_rows(sheet, table);
    if (rows.empty())
        return;
    const auto deep = scaled_room_on(style).Height;
    const auto free = std::max(deep - with_room(size_of(sheet, area)).Height, sal_Int32{0});
    const auto more = free / static_cast<sal_Int32>(rows.size());
    for (const auto& row : rows) {
        sal_Int32 height = 0;
        get_property(row, "Height") >>= height;
        set_property(row, "Height", Any(std::min(height + more, 3 * height)));
    }
}

} // namespace pacecells
