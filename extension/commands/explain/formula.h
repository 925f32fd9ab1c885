// Finds our functions in the text of a formula, as the office writes it: function names as in files, ; between
// arguments.
#pragma once

#include "catalog.h"

#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

struct FormulaCall {
    const Row* row;
    std::string text; // NAME(…)
    std::vector<std::string> arguments;
};

// Outer calls before the ones inside them, from left to right. Texts in quotes and names of sheets are passed over.
[[nodiscard]] std::vector<FormulaCall> find_calls(std::string_view formula);

// The calls of another function, such as INDEX, each as its text.
[[nodiscard]] std::vector<std::string> calls_of(std::string_view formula, std::string_view function);

// With our functions by the names that people type.
[[nodiscard]] std::string readable(std::string_view formula);

// The words of a formula that could be names of ranges, each once.
[[nodiscard]] std::vector<std::string> words(std::string_view formula);

} // namespace pacecells
