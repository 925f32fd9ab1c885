#include "curves.h"

#include <com/sun/star/awt/Size.hpp>
#include <com/sun/star/chart/ChartLegendPosition.hpp>
#include <com/sun/star/chart/MissingValueTreatment.hpp>
#include <com/sun/star/chart/X3DDisplay.hpp>
#include <com/sun/star/chart/XAxisXSupplier.hpp>
#include <com/sun/star/chart/XAxisYSupplier.hpp>
#include <com/sun/star/chart/XChartDocument.hpp>
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
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/table/XTableCharts.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

// Told apart by dash and symbol, not by colour alone; as the charts of the workbooks.
struct Look {
    sal_Int32 ink;
    sal_Int32 dash; // hundredths of a millimetre; 0: a full line
    sal_Int32 symbol;
};
constexpr std::array<Look, 4> looks{{{0x1B2430, 0, 0}, {0x3B6EA5, 300, 1}, {0x7C8790, 120, 2}, {0x8A4B2D, 60, 3}}};

Range write(const Range& cells, const std::vector<Curve>& curves) {
    std::map<double, std::vector<std::pair<sal_Int32, double>>> days;
    for (std::size_t k = 0; k < curves.size(); ++k)
        for (const auto& [day, value] : curves[k].points)
            days[day].emplace_back(static_cast<sal_Int32>(k) + 1, value);
    for (std::size_t k = 0; k < curves.size(); ++k)
        put_text(cells, static_cast<sal_Int32>(k) + 1, 0, curves[k].name);
    sal_Int32 row = 0;
    for (const auto& [day, values] : days) {
        put_number(cells, 0, ++row, day);
        for (const auto& [column, value] : values)
            put_number(cells, column, row, value);
    }
    return cells->getCellRangeByPosition(0, 0, static_cast<sal_Int32>(curves.size()), row);
}

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

void set_dates(const Reference<css::chart::XChartDocument>& chart) {
    const auto axis = need<css::chart::XAxisXSupplier>(chart->getDiagram())->getXAxis();
    const auto formats = need<css::util::XNumberFormatsSupplier>(chart)->getNumberFormats();
    const css::lang::Locale english("en", "US", "");
    const auto day = utf16(std::string(date_order(*parse_language(interface_language()))));
    auto key = formats->queryKey(day, english, false);
    if (key < 0)
        key = formats->addNew(day, english);
    set_property(axis, "LinkNumberFormatToSource", Any(false));
    set_property(axis, "NumberFormat", Any(key));
    set_property(axis, "TextRotation", Any(sal_Int32(0)));
}

struct Span {
    double least = 0;
    double most = 0;
};

void set_span(const Reference<css::beans::XPropertySet>& axis, const Span& span) {
    set_property(axis, "Min", Any(span.least));
    set_property(axis, "Max", Any(span.most));
}

// Axes begin where the data are, with as many dates as have room.
void fit_axes(const Reference<css::chart::XChartDocument>& chart, const std::vector<Curve>& curves, sal_Int32 width) {
    constexpr sal_Int32 of_a_date = 2800;
    Span days{1e9, 0};
    Span values{1e9, 0};
    for (const auto& curve : curves)
        for (const auto& [day, value] : curve.points) {
            days = {std::min(days.least, day), std::max(days.most, day)};
            values = {std::min(values.least, value), std::max(values.most, value)};
        }
    if (days.most > days.least) {
        const auto axis = need<css::chart::XAxisXSupplier>(chart->getDiagram())->getXAxis();
        set_span(axis, days);
        set_property(axis, "StepMain", Any(std::ceil((days.most - days.least) / std::max(1, width / of_a_date - 1))));
    }
    const double room = std::max(0.15 * (values.most - values.least), 1.0);
    const double step = values.most - values.least > 20 ? 10 : 5;
    set_span(need<css::chart::XAxisYSupplier>(chart->getDiagram())->getYAxis(),
             {std::max(0.0, step * std::floor((values.least - room) / step)),
              step * std::ceil((values.most + room) / step)});
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

void draw_curves(const Range& cells, const std::string& name, const std::string& title,
                 const std::vector<Curve>& curves, const css::awt::Rectangle& where) {
    const auto data = write(cells, curves);
    const auto sheet = need<css::sheet::XSheetCellRange>(cells)->getSpreadsheet();
    const auto charts = need<css::table::XTableChartsSupplier>(sheet)->getCharts();
    const auto area = address(data);
    charts->addNewByName(utf16(name), where, css::uno::Sequence<css::table::CellRangeAddress>(&area, 1), true, true);
    const auto made = need<css::container::XNameAccess>(charts)->getByName(utf16(name));
    const auto chart = need<css::chart::XChartDocument>(
        Reference<css::document::XEmbeddedObjectSupplier>(made, css::uno::UNO_QUERY_THROW)->getEmbeddedObject());
    const auto factory = need<css::lang::XMultiServiceFactory>(chart);
    chart->setDiagram(Reference<css::chart::XDiagram>(factory->createInstance("com.sun.star.chart.XYDiagram"),
                                                      css::uno::UNO_QUERY_THROW));
    set_property(chart, "HasMainTitle", Any(true));
    set_property(chart->getTitle(), "String", Any(utf16(title)));
    set_property(chart->getTitle(), "CharHeight", Any(11.0f));
    name_shape(chart, area.Sheet, title);
    set_property(chart, "HasLegend", Any(true));
    set_property(chart->getLegend(), "Alignment", Any(css::chart::ChartLegendPosition_BOTTOM));
    set_property(chart->getLegend(), "FillStyle", Any(css::drawing::FillStyle_NONE));
    set_property(chart->getLegend(), "LineStyle", Any(css::drawing::LineStyle_NONE));
    const auto wall = need<css::chart::X3DDisplay>(chart->getDiagram())->getWall();
    set_property(wall, "FillStyle", Any(css::drawing::FillStyle_NONE));
    set_property(chart->getDiagram(), "IncludeHiddenCells", Any(true));
    set_property(chart->getDiagram(), "MissingValueTreatment", Any(css::chart::MissingValueTreatment::CONTINUE));
    set_looks(chart);
    set_dates(chart);
    fit_axes(chart, curves, where.Width);
}

} // namespace pacecells
