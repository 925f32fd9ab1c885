#include "values.h"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

#include <cmath>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

std::string shown(const Range& range, sal_Int32 column, sal_Int32 row) {
    return utf8(need<css::text::XTextRange>(range->getCellByPosition(column, row))->getString());
}

// "2:08": a clock without decimals.
bool whole_seconds(std::string_view text) {
    return text.find(':') != std::string_view::npos && text.find_first_of(".,") == std::string_view::npos;
}

// Days that are not below so many seconds, also when a file keeps 15 digits of them: the last of those is at most 1e-14
// of the number.
double days(double seconds) { return seconds / 86400 * (1 + 1e-14); }

// Half a second is shown as one more by some offices and not by others: what is shown counts.
double whole_seconds_of(double seconds, std::string_view text) {
    const double below = std::floor(seconds);
    if (std::abs(seconds - below - 0.5) > 1e-6)
        return std::round(seconds);
    const auto last = static_cast<int>(std::fmod(below, 60));
    return text.ends_with((last < 10 ? ":0" : ":") + std::to_string(last)) ? below : below + 1;
}

} // namespace

Rows shown_values(const Range& range) {
    auto rows = need<css::sheet::XCellRangeData>(range)->getDataArray();
    auto* row = rows.getArray();
    for (sal_Int32 y = 0; y < rows.getLength(); ++y) {
        auto* cells = row[y].getArray();
        for (sal_Int32 x = 0; x < row[y].getLength(); ++x) {
            double number = 0;
            if (!cells[x].hasValue()) { // an error, as people see it
                cells[x] <<= utf16(shown(range, x, y));
            } else if (cells[x] >>= number) {
                if (number < 0 || number >= 1)
                    continue;
                const auto text = shown(range, x, y);
                if (number == 0 && text.empty()) // hands on a blank
                    cells[x] <<= rtl::OUString();
                else if (number > 0 && whole_seconds(text))
                    cells[x] <<= days(whole_seconds_of(number * 86400, text));
            }
        }
    }
    return rows;
}

void flatten(const Copy& copy, const Document& original) {
    const auto sheets = need<css::container::XIndexAccess>(original->getSheets());
    for (sal_Int32 i = 0; i < copy.sheets(); ++i) {
        const Range from(sheets->getByIndex(i), css::uno::UNO_QUERY_THROW);
        const auto to = copy.sheet(i);
        const auto formulas = need<css::sheet::XCellRangesQuery>(from)
                                  ->queryContentCells(css::sheet::CellFlags::FORMULA)
                                  ->getRangeAddresses();
        need<css::sheet::XSheetOperation>(to)->clearContents(css::sheet::CellFlags::FORMULA); // no array is cut
        for (const auto& where : formulas)
            set_values(part(to, where), shown_values(part(from, where)));
    }
}

} // namespace pacecells
