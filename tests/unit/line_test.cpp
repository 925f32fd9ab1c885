#include "pacecells/line.h"

#include "data.h"
#include "expect.h"

#include <cmath>
#include <map>

namespace pacecells {
namespace {

struct Norris {
    data::Table table = data::table("norris_data");
    Line line = fit_line(
        table.rows.size(), [this](std::size_t i) { return table.rows[i].number("x"); },
        [this](std::size_t i) { return table.rows[i].number("y"); });
};

TEST(Line, AgreesWithTheCertifiedValuesOfNorris) {
    const Line line = Norris{}.line;
    const std::map<std::string, double> computed{
        {"B0", line.intercept()},
        {"B0 standard deviation", line.intercept_standard_error()},
        {"B1", line.slope},
        {"B1 standard deviation", line.slope_standard_error()},
        {"residual standard deviation", line.residual_sd()},
        {"R-squared", line.r_squared()},
        {"residual sum of squares", line.residual_sum},
    };
    const auto certified = data::table("norris_certified");
    ASSERT_EQ(certified.rows.size(), computed.size());
    for (const auto& row : certified.rows) {
        const double value = row.number("value");
        EXPECT_NEAR(computed.at(row.text("name")), value, certified.tolerance * std::abs(value)) << row.text("name");
    }
}

TEST(Line, KeepsItsDigitsFarFromTheOrigin) {
    // Raw sums would lose every digit here: x differs by 1 in 1e9.
    const Line line = fit_line(
        5, [](std::size_t i) { return 1e9 + static_cast<double>(i); },
        [](std::size_t i) { return 1e9 + 3 * static_cast<double>(i); });
    EXPECT_NEAR(line.slope, 3, 1e-12);
    EXPECT_NEAR(line.residual_sum, 0, 1e-12);
}

} // namespace
} // namespace pacecells
