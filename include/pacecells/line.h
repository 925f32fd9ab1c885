// A straight line through points by least squares, in the form that keeps its digits: sums of deviations from the
// means, never differences of large raw sums. Critical power and the fade come from here.
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
    double sxx = 0;          // sum of (x - mean_x) squared
    double syy = 0;          // sum of (y - mean_y) squared
    double residual_sum = 0; // sum of (y - line) squared

    [[nodiscard]] double intercept() const { return mean_y - slope * mean_x; }

    // The next three need three points or more.
    [[nodiscard]] double residual_sd() const { return std::sqrt(residual_sum / (static_cast<double>(points) - 2)); }
    [[nodiscard]] double slope_standard_error() const { return residual_sd() / std::sqrt(sxx); }
    [[nodiscard]] double intercept_standard_error() const {
        return residual_sd() * std::sqrt(1 / static_cast<double>(points) + mean_x * mean_x / sxx);
    }
    [[nodiscard]] double r_squared() const { return 1 - residual_sum / syy; }
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
    double sxy = 0;
    for (std::size_t i = 0; i < points; ++i) {
        const double dx = x(i) - line.mean_x;
        const double dy = y(i) - line.mean_y;
        line.sxx += dx * dx;
        line.syy += dy * dy;
        sxy += dx * dy;
    }
    line.slope = sxy / line.sxx;
    for (std::size_t i = 0; i < points; ++i) {
        const double residual = y(i) - line.mean_y - line.slope * (x(i) - line.mean_x);
        line.residual_sum += residual * residual;
    }
    return line;
}

} // namespace pacecells
