// The CLOCK family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/clock.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<std::string> clock_text_cell(AnyTime time, std::optional<Whole> decimals) {
    return clock_text(time.value, value_or(decimals, 0));
}

Result<Seconds> clock_value(AnyTime text) { return text.value; }

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&clock_text_cell>("clockText", "CLOCK.TEXT", "Writes a time as minutes and seconds.",
                          {{"time", "Time to write."}, {"decimals", "Decimals of the seconds, 0 to 3.", 0}},
                          "time at least 0 and below 4 h; decimals whole, 0 to 3.", practice, {"\"2:30\"", "2:30"}),
    row<&clock_value>("clockValue", "CLOCK.VALUE", "Reads a time written as minutes and seconds.",
                      {{"text", "Time as text: \"2:30\", \"1:02:30\" or \"2:30.5\"."}},
                      "Digits without a colon are refused; seconds and, after hours, minutes are below 60.", practice,
                      {"\"2:30\"", "2:30"}),
};

} // namespace

std::span<const Row> clock_rows() { return rows; }

} // namespace pacecells
