// Charts of lines with points, drawn by the office from cells.
#pragma once

#include "office.h"

#include <com/sun/star/awt/Rectangle.hpp>
#include <com/sun/star/chart/ChartLegendPosition.hpp>
#include <com/sun/star/chart/XChartDocument.hpp>

#include <string>

namespace pacecells {

struct Drawing {
    std::string name;
    std::string title; // what a screen reader says of it too
    css::awt::Rectangle where;
    css::table::CellRangeAddress data; // the first row has the names of the series
    bool numbered = false;             // whether the first column has what is below the points
    const char* diagram = "com.sun.star.chart.LineDiagram";
    css::chart::ChartLegendPosition legend = css::chart::ChartLegendPosition_BOTTOM; // or none
};

// Told apart by dash and symbol, not by colour alone. Hidden cells are drawn.
css::uno::Reference<css::chart::XChartDocument> draw_chart(const css::uno::Reference<css::sheet::XSpreadsheet>& sheet,
                                                           const Drawing& drawing);

} // namespace pacecells
