// Shows the sheet Review: a person planned against actual, the field, a test curve. It is out of sight, and does not print,
// until there is something to review. Its charts are drawn then, for the office draws each chart again whenever a file is
// saved.
#include "charts.h"
#include "event_cells.h"

#include <com/sun/star/chart/XAxisXSupplier.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>

#include <array>

namespace pacecells {

namespace {

using css::uno::Any;

constexpr sal_Int32 last_column = 12; // its charts end there
constexpr sal_Int32 rows_looked_at = 300;

struct ReviewChart {
    const char* name;
    sal_Int32 row; // of its upper edge
    bool compared; // two series; otherwise one, over the first column
};
constexpr std::array<ReviewChart, 3> review_charts{{{"rounds", 3, true}, {"field", 13, true}, {"curve", 24, false}}};
constexpr sal_Int32 charts_column = 7;
constexpr sal_Int32 wide = 13000; // hundredths of a millimetre
constexpr sal_Int32 high = 4900;

// The rows of a chart's data: headings, and values down to the first blank.
sal_Int32 filled(const Range& columns) {
    const auto formulas = need<css::sheet::XCellRangeFormula>(columns)->getFormulaArray();
    sal_Int32 rows = 0;
    while (rows < formulas.getLength() && !formulas[rows][1].isEmpty())
        ++rows;
    return rows;
}

// Two columns of review_charts each: title and the text below, headings, values.
void draw_charts(const Range& all, const css::uno::Reference<css::sheet::XSpreadsheet>& sheet) {
    const auto there = need<css::container::XNameAccess>(need<css::table::XTableChartsSupplier>(sheet)->getCharts());
    for (std::size_t k = 0; k < review_charts.size(); ++k) {
        const auto& [name, row, compared] = review_charts[k];
        if (there->hasByName(rtl::OUString::createFromAscii(name)))
            continue;
        const auto first = 2 * static_cast<sal_Int32>(k);
        const auto columns =
            all->getCellRangeByPosition(first, 0, first + 1, address(all).EndRow - address(all).StartRow);
        const auto texts = values_of(columns);
        const auto data = address(columns->getCellRangeByPosition(0, 1, 1, filled(columns) - 1));
        css::awt::Point corner;
        get_property(sheet->getCellByPosition(charts_column, row), "Position") >>= corner;
        const auto chart = draw_chart(
            sheet, {name,
                    text_of(texts[0][0]),
                    {corner.X, corner.Y, wide, high},
                    data,
                    !compared,
                    "com.sun.star.chart.LineDiagram",
                    compared ? css::chart::ChartLegendPosition_RIGHT : css::chart::ChartLegendPosition_NONE});
        set_property(chart->getDiagram(), "HasXAxisTitle", Any(true));
        set_property(need<css::chart::XAxisXSupplier>(chart->getDiagram())->getXAxisTitle(), "String",
                     Any(utf16(text_of(texts[0][1]))));
    }
}

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
    if (const auto charts = event.find("review_charts"); charts.is())
        draw_charts(charts, sheet);
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
