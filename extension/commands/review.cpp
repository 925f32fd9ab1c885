// Shows the sheet Review: a person planned against actual, the field, a test curve. It is out of sight, and does not print,
// until there is something to review.
#include "event_cells.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>

namespace pacecells {

namespace {

using css::uno::Any;

constexpr sal_Int32 last_column = 12; // its charts end there
constexpr sal_Int32 rows_looked_at = 300;

void review(Context& context) {
    const EventCells event(context.document());
    std::string first;
    for (const auto& name : event.texts("results_name"))
        if (first.empty())
            first = name;
    if (first.empty())
        throw Refusal{tr("There are no results to review yet: nobody is on the sheet Results.")};
    const auto person = event.at("review_name");
    const auto where = address(person);
    const css::uno::Reference<css::sheet::XSpreadsheet> sheet(
        need<css::container::XIndexAccess>(event.document()->getSheets())->getByIndex(where.Sheet),
        css::uno::UNO_QUERY_THROW);
    Undo undo(event.document(), tr("Review"));
    set_property(sheet, "IsVisible", Any(true));
    if (blank(values_of(person)[0][0]))
        put_text(person, 0, 0, first);
    const auto names = values_of(sheet->getCellRangeByPosition(0, 0, 0, rows_looked_at));
    css::table::CellRangeAddress area{where.Sheet, 0, 0, last_column, 0};
    for (sal_Int32 row = 0; row < names.getLength(); ++row)
        if (!blank(names[row][0]))
            area.EndRow = row;
    need<css::sheet::XPrintAreas>(sheet)->setPrintAreas({&area, 1});
    undo.done();
    if (const auto view =
            as<css::sheet::XSpreadsheetView>(need<css::frame::XModel>(event.document())->getCurrentController());
        view.is())
        view->setActiveSheet(sheet);
    context.say(tr("The sheet Review is in front. Choose a person on top of it."));
}

const Command command{"review", review};

} // namespace

} // namespace pacecells
