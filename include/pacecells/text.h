// Small helpers for what people type, and for the sentences that answer it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace pacecells {

// Without outer spaces (also tabs, line ends and the no-break space that comes along when pasting).
[[nodiscard]] std::string_view trim(std::string_view text);
// How many, of UTF-8.
[[nodiscard]] std::size_t characters(std::string_view text);

// The form in which two options are compared: trimmed, A-Z in lower case, every run of spaces a single one.
// Example: fold("  Row  CAL ") is "row cal".
[[nodiscard]] std::string fold(std::string_view text);

// A number as people write it in a cell of text: "7", "7.5", "7,5".
[[nodiscard]] std::optional<double> plain_number(std::string_view text);

// For messages: the text in double quotes, cut when long. (Qualify it for a std::string where <iomanip> is included.)
[[nodiscard]] std::string quoted(std::string_view text);

// For messages: a number as a person writes it, at most six significant digits. Example: 2.5, 1200, 1e+300.
[[nodiscard]] std::string number_text(double value);

// The text with %1, %2 … replaced by the values; a place without a value stays.
[[nodiscard]] std::string filled(std::string_view text, std::span<const std::string> values);

} // namespace pacecells
