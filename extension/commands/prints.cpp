#include "prints.h"

#include "office.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>

#include <optional>
#include <string_view>

namespace pacecells {

namespace {

using css::uno::Any;
using Document = css::uno::Reference<css::sheet::XSpreadsheetDocument>;

// The names that people stand under, one of a sheet; its print area ends with the last of them.
constexpr const char* lists[] = {"roster_name", "heat_list", "results_name", "tests_name", "athlete_name"};
constexpr const char* across = "tests_movements"; // and with the last of these columns
constexpr sal_Int32 heat_name = 3;                // column of heat_list

bool is_filled(const Any& value) {
    rtl::OUString text;
    return !(value >>= text) || !text.isEmpty();
}

// The last row with something in that column; at least the first.
sal_Int32 last_row(const css::uno::Reference<css::table::XCellRange>& range, sal_Int32 column) {
    const auto values = values_of(range);
    sal_Int32 last = 0;
    for (sal_Int32 row = 0; row < values.getLength(); ++row)
        if (is_filled(values[row][column]))
            last = row;
    return address(range).StartRow + last;
}

// The last column of the movements in use, on the sheet Tests of an event: every column of one bears its name.
std::optional<sal_Int32> last_column(const Document& document, sal_Int16 sheet) {
    const auto range = find_name(document, across);
    if (!range.is() || address(range).Sheet != sheet || !find_name(document, "workout").is())
        return std::nullopt;
    const auto values = values_of(range);
    sal_Int32 last = -1;
    for (sal_Int32 column = 0; column < values[0].getLength(); ++column)
        if (is_filled(values[0][column]))
            last = column;
    return address(range).StartColumn + last;
}

} // namespace

void fit_prints(const Document& document) {
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    for (const auto* name : lists) {
        const auto people = find_name(document, name);
        if (!people.is())
            continue;
        const auto sheet = address(people).Sheet;
        const css::uno::Reference<css::sheet::XPrintAreas> prints(sheets->getByIndex(sheet), css::uno::UNO_QUERY_THROW);
        auto areas = prints->getPrintAreas();
        if (!areas.hasElements())
            continue;
        auto& area = areas.getArray()[0];
        area.EndRow = last_row(people, std::string_view(name) == "heat_list" ? heat_name : 0);
        if (const auto column = last_column(document, sheet))
            area.EndColumn = *column;
        prints->setPrintAreas(areas);
    }
}

namespace {

const Command command{"fit-prints", [](Context& context) {
                          if (!find_name(context.document(), "roster_name").is() &&
                              !find_name(context.document(), "athlete_name").is())
                              throw Refusal{tr("This is not a Pacecells workbook: its print areas stay as they are.")};
                          Undo undo(context.document(), tr("Fit print areas to athletes"));
                          fit_prints(context.document());
                          undo.done();
                          context.say(tr("Every sheet now prints only the rows in use."));
                      }};

} // namespace

} // namespace pacecells
