// Curves of one person's tests over time, drawn by the office.
#pragma once

#include "event_cells.h"

#include <com/sun/star/awt/Rectangle.hpp>

#include <string>
#include <vector>

namespace pacecells {

struct Curve {
    std::string name;
    std::vector<std::pair<double, double>> points; // day number, value; the oldest first
};

// Writes the curves into the cells from their first row and column on, a row per day, and draws them there. At most as
// many curves as there are columns beside the days.
void draw_curves(const Range& cells, const std::string& name, const std::string& title,
                 const std::vector<Curve>& curves, const css::awt::Rectangle& where);

} // namespace pacecells
