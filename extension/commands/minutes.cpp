// Shows the selected times as minutes and seconds, and has times typed there read that way. What was typed before, into
// cells without that format, Calc has read as hours and minutes: on demand it is read anew.
#include "office.h"

#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

#include <cmath>

namespace pacecells {

namespace {

using css::table::XCell;
using css::uno::Any;
using css::uno::Reference;

// Typed times with a format of hours and minutes; whole minutes, as 2:30 read as two and a half hours is.
std::vector<Reference<XCell>> read_as_hours(const Context& context,
                                            const std::vector<Reference<css::table::XCellRange>>& ranges) {
    using namespace css::sheet::CellFlags;
    const auto formats = need<css::util::XNumberFormatsSupplier>(context.document())->getNumberFormats();
    const auto of_hours = [&](const Reference<XCell>& cell) {
        sal_Int32 key = 0;
        get_property(cell, "NumberFormat") >>= key;
        const auto format = formats->getByKey(key);
        sal_Int16 type = 0;
        rtl::OUString code;
        get_property(format, "Type") >>= type;
        get_property(format, "FormatString") >>= code;
        const double minutes = cell->getValue() * 1440;
        return (type & css::util::NumberFormat::TIME) != 0 && code.toAsciiUpperCase().startsWith("H") && minutes > 0 &&
               std::abs(minutes - std::round(minutes)) < 1e-6;
    };
    std::vector<Reference<XCell>> found;
    const auto sheet = active_sheet(context);
    for (const auto& range : ranges)
        for (const auto& typed :
             need<css::sheet::XCellRangesQuery>(range)->queryContentCells(VALUE | DATETIME)->getRangeAddresses())
            for (sal_Int32 row = typed.StartRow; row <= typed.EndRow; ++row)
                for (sal_Int32 column = typed.StartColumn; column <= typed.EndColumn; ++column)
                    if (const auto cell = sheet->getCellByPosition(column, row); of_hours(cell))
                        found.push_back(cell);
    return found;
}

void show_as_minutes(Context& context) {
    const auto ranges = selected_ranges(context);
    const auto hours = read_as_hours(context, ranges);
    const bool anew =
        !hours.empty() && context.ask(tr("Calc has read typed times as hours and minutes, such as 2:30 as two and a "
                                         "half hours (cells: %1). Read them as minutes and seconds instead?",
                                         std::to_string(hours.size())),
                                      "ReadAnew");
    Undo undo(context.document(), tr("Show as minutes and seconds"));
    const Any format(number_format(context.document(), "[M]:SS"));
    for (const auto& range : ranges)
        set_property(range, "NumberFormat", format);
    if (anew)
        for (const auto& cell : hours)
            cell->setValue(cell->getValue() / 60);
    undo.done();
}

const Command minutes{"minutes", show_as_minutes};

} // namespace

} // namespace pacecells
