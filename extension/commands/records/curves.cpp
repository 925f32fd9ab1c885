#include "curves.h"

#include "charts.h"

#include <com/sun/star/chart/MissingValueTreatment.hpp>
#include <com/sun/star/chart/XAxisXSupplier.hpp>
#include <com/sun/star/chart/XAxisYSupplier.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

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

} // namespace

void draw_curves(const Range& cells, const std::string& name, const std::string& title,
                 const std::vector<Curve>& curves, const css::awt::Rectangle& where) {
    const auto data = write(cells, curves);
    const auto chart = draw_chart(need<css::sheet::XSheetCellRange>(cells)->getSpreadsheet(),
                                  {name, title, where, address(data), true, "com.sun.star.chart.XYDiagram"});
    set_property(chart->getDiagram(), "MissingValueTreatment", Any(css::chart::MissingValueTreatment::CONTINUE));
    set_dates(chart);
    fit_axes(chart, curves, where.Width);
}

} // namespace pacecells
