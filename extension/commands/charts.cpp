#include "charts.h"

#include <com/sun/star/chart/X3DDisplay.hpp>
#include <com/sun/star/chart2/Symbol.hpp>
#include <com/sun/star/chart2/SymbolStyle.hpp>
#include <com/sun/star/chart2/XChartDocument.hpp>
#include <com/sun/star/chart2/XChartTypeContainer.hpp>
#include <com/sun/star/chart2/XCoordinateSystemContainer.hpp>
#include <com/sun/star/chart2/XDataSeriesContainer.hpp>
#include <com/sun/star/container/XChild.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XEmbeddedObjectSupplier.hpp>
#include <com/sun/star/drawing/FillStyle.hpp>
#include <com/sun/star/drawing/LineDash.hpp>
#include <com/sun/star/drawing/LineStyle.hpp>
#include <com/sun/star/drawing/XDrawPagesSupplier.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/table/XTableCharts.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>

#include <array>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

struct Look {
    sal_Int32 ink;
    sal_Int32 dash; // hundredths of a millimetre; 0: a full line
    sal_Int32 symbol;
};
constexpr std::array<Look, 4> looks{{{0x1B2430, 0, 0}, {0x3B6EA5, 300, 1}, {0x7C8790, 120, 2}, {0x8A4B2D, 60, 3}}};

void set_look(const Reference<css::chart2::XDataSeries>& series, const Look& look) {
    set_property(series, "Color", Any(look.ink));
    set_property(series, "LineWidth", Any(sal_Int32(70)));
    set_property(series, "LineStyle",
                 Any(look.dash > 0 ? css::drawing::LineStyle_DASH : css::drawing::LineStyle_SOLID));
    if (look.dash > 0)
        set_property(series, "LineDash",
                     Any(css::drawing::LineDash(css::drawing::DashStyle_RECT, 0, 0, 1, look.dash, look.dash * 2 / 3)));
    css::chart2::Symbol symbol;
    symbol.Style = css::chart2::SymbolStyle_STANDARD;
    symbol.StandardSymbol = look.symbol;
    symbol.Size = css::awt::Size(220, 220);
    symbol.BorderColor = symbol.FillColor = look.ink;
    set_property(series, "Symbol", Any(symbol));
}

void set_looks(const Reference<css::chart::XChartDocument>& chart) {
    const auto systems =
        need<css::chart2::XCoordinateSystemContainer>(need<css::chart2::XChartDocument>(chart)->getFirstDiagram());
    std::size_t drawn = 0;
    for (const auto& system : systems->getCoordinateSystems())
        for (const auto& type : need<css::chart2::XChartTypeContainer>(system)->getChartTypes())
            for (const auto& series : need<css::chart2::XDataSeriesContainer>(type)->getDataSeries())
                set_look(series, looks[drawn++ % looks.size()]);
}

// What a screen reader says of the chart that was drawn last on the sheet.
void name_shape(const Reference<css::chart::XChartDocument>& chart, sal_Int32 sheet, const std::string& title) {
    const auto document = need<css::container::XChild>(chart)->getParent();
    const auto pages = need<css::drawing::XDrawPagesSupplier>(document)->getDrawPages();
    const Reference<css::container::XIndexAccess> shapes(pages->getByIndex(sheet), css::uno::UNO_QUERY_THROW);
    const Reference<css::uno::XInterface> shape(shapes->getByIndex(shapes->getCount() - 1), css::uno::UNO_QUERY_THROW);
    set_property(shape, "Title", Any(utf16(title)));
}

} // namespace

Reference<css::chart::XChartDocument> draw_chart(const Reference<css::sheet::XSpreadsheet>& sheet,
                                                 const Drawing& drawing) {
    const auto charts = need<css::table::XTableChartsSupplier>(sheet)->getCharts();
    const auto name = utf16(drawing.name);
    charts->addNewByName(name, drawing.where, css::uno::Sequence<css::table::CellRangeAddress>(&drawing.data, 1), true,
                         drawing.numbered);
    const auto made = need<css::container::XNameAccess>(charts)->getByName(name);
    const auto chart = need<css::chart::XChartDocument>(
        Reference<css::document::XEmbeddedObjectSupplier>(made, css::uno::UNO_QUERY_THROW)->getEmbeddedObject());
    const auto factory = need<css::lang::XMultiServiceFactory>(chart);
    chart->setDiagram(Reference<css::chart::XDiagram>(
        factory->createInstance(rtl::OUString::createFromAscii(drawing.diagram)), css::uno::UNO_QUERY_THROW));
    set_property(chart, "HasMainTitle", Any(true));
    set_property(chart->getTitle(), "String", Any(utf16(drawing.title)));
    set_property(chart->getTitle(), "CharHeight", Any(11.0f));
    name_shape(chart, drawing.data.Sheet, drawing.title);
    const bool legend = drawing.legend != css::chart::ChartLegendPosition_NONE;
    set_property(chart, "HasLegend", Any(legend));
    if (legend) {
        set_property(chart->getLegend(), "Alignment", Any(drawing.legend));
        set_property(chart->getLegend(), "FillStyle", Any(css::drawing::FillStyle_NONE));
        set_property(chart->getLegend(), "LineStyle", Any(css::drawing::LineStyle_NONE));
    }
    const auto wall = need<css::chart::X3DDisplay>(chart->getDiagram())->getWall();
    set_property(wall, "FillStyle", Any(css::drawing::FillStyle_NONE));
    set_property(chart->getDiagram(), "IncludeHiddenCells", Any(true));
    set_looks(chart);
    return chart;
}

} // namespace pacecells
