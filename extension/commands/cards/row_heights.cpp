#include "row_heights.h"

#include "wall_page.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

#include <algorithm>
#include <numeric>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr sal_Int32 between_lines = 60; // 1/100 mm, over and under the lines of a text
constexpr sal_Int32 least_scale = 94;   // percent; the smallest letters of a card are 9.7 points

css::awt::Size merged_size(const Range& sheet, const Range& cell) {
    const auto cursor =
        need<css::sheet::XSpreadsheet>(sheet)->createCursorByRange(need<css::sheet::XSheetCellRange>(cell));
    cursor->collapseToMergedArea();
    return size_of(sheet, address(Range(cursor, css::uno::UNO_QUERY_THROW)));
}

sal_Int32 height_of(const Range& sheet, sal_Int32 row) {
    sal_Int32 height = 0;
    get_property(need<css::table::XColumnRowRange>(sheet->getCellRangeByPosition(0, row, 0, row))->getRows(),
                 "Height") >>= height;
    return height;
}

} // namespace

sal_Int32 height_for(const Range& sheet, const Range& cell, std::vector<rtl::OUString> texts) {
    constexpr sal_Int32 column = 100; // out of the way of all that is laid out, and as it was afterwards
    constexpr sal_Int32 row = 1900;
    constexpr std::size_t most_measured = 5; // a shorter text may take more lines, but not than five longer ones
    std::ranges::sort(texts, std::ranges::greater{}, &rtl::OUString::getLength);
    texts.erase(std::ranges::unique(texts).begin(), texts.end());
    const auto alone = sheet->getCellRangeByPosition(column, row, column, row);
    const auto parts = need<css::table::XColumnRowRange>(alone);
    const auto style = get_property(alone, "CellStyle");
    const auto width = get_property(parts->getColumns(), "Width");
    set_property(alone, "CellStyle", get_property(cell, "CellStyle"));
    set_property(parts->getColumns(), "Width", Any(merged_size(sheet, cell).Width));
    sal_Int32 most = 0;
    for (std::size_t i = 0; i < std::min(texts.size(), most_measured); ++i) {
        put_text(alone, 0, 0, utf8(texts[i]));
        set_property(parts->getRows(), "OptimalHeight", Any(true));
        most = std::max(most, height_of(sheet, row));
    }
    put_text(alone, 0, 0, "");
    set_property(alone, "CellStyle", style);
    set_property(parts->getColumns(), "Width", width);
    return most;
}

std::vector<rtl::OUString> texts_at(const std::vector<Rows>& people, sal_Int32 row, sal_Int32 column) {
    std::vector<rtl::OUString> texts;
    for (const auto& one : people)
        if (auto text = text_of(one[row][column]); !text.empty())
            texts.push_back(utf16(text));
    return texts;
}

sal_Int32 CardRows::whole() const { return std::accumulate(heights.begin(), heights.end(), sal_Int32{0}); }

CardRows card_rows(const Document& document, const Range& sheet, const css::table::CellRangeAddress& first,
                   const std::vector<Rows>& cards, sal_Int32 most_per_page) {
    CardRows rows;
    for (auto row = first.StartRow; row <= first.EndRow; ++row) {
        auto height = height_of(sheet, row);
        bool blank = row > first.StartRow && row < first.EndRow; // the first and the last are air
        sal_Int32 lines = 0;
        for (auto column = first.StartColumn; column <= first.EndColumn; ++column) {
            const auto texts = texts_at(cards, row - first.StartRow, column - first.StartColumn);
            if (texts.empty())
                continue;
            blank = false;
            const auto cell = sheet->getCellRangeByPosition(column, row, column, row);
            if (get_property(cell, "IsTextWrapped").get<bool>())
                lines = std::max(lines, height_for(sheet, cell, texts) + between_lines);
        }
        rows.heights.push_back(blank ? 0 : lines > 0 ? lines : height);
    }
    const auto height = room_on(page_style(document, sheet)).Height;
    const auto room = height - height / rounding;
    for (rows.per_page = most_per_page; rows.per_page > 1 && room * 100 < rows.per_page * rows.whole() * least_scale;)
        --rows.per_page;
    return rows;
}

std::vector<sal_Int32> judge_heights(const Range& sheet, const css::table::CellRangeAddress& first,
                                     const std::vector<Rows>& sheets) {
    constexpr sal_Int32 least = 520;    // for a figure
    constexpr sal_Int32 to_write = 500; // below the labels of the last row
    std::vector<sal_Int32> needs;
    for (auto row = first.StartRow; row < first.EndRow; ++row) {
        sal_Int32 need = 0;
        for (auto column = first.StartColumn; column <= first.EndColumn; ++column) {
            const auto texts = texts_at(sheets, row - first.StartRow, column - first.StartColumn);
            if (texts.empty())
                continue;
            const auto cell = sheet->getCellRangeByPosition(column, row, column, row);
            const bool measured = column == first.StartColumn || get_property(cell, "IsTextWrapped").get<bool>();
            need = std::max({need, least, measured ? height_for(sheet, cell, texts) : 0});
        }
        needs.push_back(need + (row + 1 == first.EndRow ? to_write : 0));
    }
    needs.push_back(0);
    return needs;
}

std::vector<sal_Int32> shared_heights(std::vector<sal_Int32> needs, sal_Int32 room, sal_Int32 most) {
    auto largest = needs;
    std::erase(largest, 0);
    std::ranges::sort(largest, std::ranges::greater{});
    auto rest = static_cast<sal_Int32>(largest.size());
    for (const auto need : largest) {
        if (need * rest <= room)
            break;
        room -= need;
        --rest;
    }
    const auto level = rest > 0 ? std::min(room / rest, most) : 0;
    for (auto& need : needs)
        if (need > 0)
            need = std::max(need, level);
    return needs;
}

} // namespace pacecells
