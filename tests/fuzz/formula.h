// Formulas as the fuzzer writes and reads them: the arguments as in the catalog's examples.
//
//   ergTime(15;1000;)          numbers; an argument of nothing is one left out
//   clockText("2:30";_)        text; _ is a blank cell
//   paceRound({"1:00"\5|_\6};#7ff8000000000123)
//                              a range, \ between columns and | between rows; # and 16 digits: the bits of a double
#pragma once

#include "catalog.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells::fuzz {

struct Formula {
    const Row* row = nullptr;
    std::vector<Argument> arguments; // as many as the row has parameters
};

// Nothing where the text is not a formula.
[[nodiscard]] std::optional<Formula> read(std::string_view text);

[[nodiscard]] std::string write(const Formula& formula);

// The example of a row of the catalog.
[[nodiscard]] Formula example(const Row& row);

} // namespace pacecells::fuzz
