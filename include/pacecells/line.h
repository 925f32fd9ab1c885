// A straight line through points by least squares, in the form that keeps its digits: sums of deviations from the
// means, never differences of large raw sums. Critical power, the forecast and the fade all come from here.
#pragma once

#include <cmath>
#include <cstddef>

namespace pacecells {

// y = mean_y + slope * (x - mean_x). With two points the line is exact and has no standard errors.
struct Line {
    std::size_t points = 0;
    double mean_x = 0;
    double mean_y = 0;
    double slope = 0;
    double spread_x = 0;     // sum of (x - mean_x) squared
    double spread_y = 0;     // sum of (y - mean_y) squared
    double residual_sum = 0; // sum of (y - line) squared

    [[nodiscard]] double intercept() const { return mean_y - slope * mean_x; }
    [[nodiscard]] double at(double x) const { return mean_y + slope * (x - mean_x); }

    // The next three need three points or more.
    [[nodiscard]] double residual_sd() const { return std::sqrt(residual_sum / (static_cast<double>(points) - 2)); }
    [[nodiscard]] double slope_error() const { return residual_sd() / std::sqrt(spread_x); }
    [[nodiscard]] double intercept_error() const {
        return residual_sd() * std::sqrt(1 / static_cast<double>(points) + mean_x * mean_x / spread_x);
    }
    [[nodiscard]] double r_squared() const { return 1 - residual_sum / spread_y; }
};

// Fits the line to the points (x(i), y(i)), i from 0 to points - 1.
// Domain: two points or more, not all at the same x; otherwise the slope is not a number.
// Source: P. Bevington, D. Robinson, Data Reduction and Error Analysis, chapter 6 (from memory); checked against
// the certified values of NIST StRD, Norris.
template <class X, class Y>
[[nodiscard]] Line fit_line(std::size_t points, X x, Y y) {
    const auto n = static_cast<double>(points);
    Line line{.points = points};
    for (std::size_t i = 0; i < points; ++i) {
        line.mean_x += x(i) / n;
        line.mean_y += y(i) / n;
    }
    double spread_xy = 0;
    for (std::size_t i = 0; i < points; ++i) {
        const double dx = x(i) - line.mean_x;
        const double dy = y(i) - line.mean_y;
        line.spread_x += dx * dx;
        line.spread_y += dy * dy;
        spread_xy += dx * dy;
    }
    line.slope = spread_xy / line.spread_x;
    for (std::size_t i = 0; i < points; ++i) {
        const double off = y(i) - line.mean_y - line.slope * (x(i) - line.mean_x);
        line.residual_sum += off * off;
    }
    return line;
}

} // namespace pacecells
