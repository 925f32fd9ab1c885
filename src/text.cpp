#include "pacecells/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>

namespace pacecells {

namespace {

// How many bytes the space at the start of the text takes: 0 where there is none, 2 for U+00A0 in UTF-8.
std::size_t leading_space(std::string_view text) {
    if (text.empty())
        return 0;
    const char first = text.front();
    if (first == ' ' || (first >= '\t' && first <= '\r')) // tab, line feed, vertical tab, form feed, carriage return
        return 1;
    return text.starts_with("\xC2\xA0") ? 2 : 0;
}

std::size_t trailing_space(std::string_view text) {
    if (text.ends_with("\xC2\xA0"))
        return 2;
    return text.empty() ? 0 : leading_space(text.substr(text.size() - 1));
}

} // namespace

std::string_view trim(std::string_view text) {
    while (const auto n = leading_space(text))
        text.remove_prefix(n);
    while (const auto n = trailing_space(text))
        text.remove_suffix(n);
    return text;
}

std::string fold(std::string_view text) {
    text = trim(text);
    std::string folded;
    folded.reserve(text.size());
    while (!text.empty()) {
        if (const auto n = leading_space(text)) {
            if (folded.back() != ' ')
                folded += ' ';
            text.remove_prefix(n);
        } else {
            const char c = text.front();
            folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
            text.remove_prefix(1);
        }
    }
    return folded;
}

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0u) != 0x80u; }));
}

std::optional<double> plain_number(std::string_view text) {
    std::string written{trim(text)};
    std::ranges::replace(written, ',', '.');
    double value = 0;
    const auto* const end = written.data() + written.size();
    const auto read = std::from_chars(written.data(), end, value);
    if (read.ec != std::errc{} || read.ptr != end)
        return {};
    return value;
}

std::string quoted(std::string_view text) {
    constexpr std::size_t longest = 40;
    std::size_t end = text.size();
    if (end > longest) {
        end = longest;
        while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0u) == 0x80u)
            --end; // not inside a character
    }
    std::string quoted{"\""};
    quoted.append(text.substr(0, end));
    quoted.append(end < text.size() ? "...\"" : "\"");
    return quoted;
}

std::string number_text(double value) {
    if (std::isnan(value))
        return "no number";
    std::array<char, 32> buffer{};
    const auto written =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, 6);
    return {buffer.data(), written.ptr};
}

std::string filled(std::string_view text, std::span<const std::string> values) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const std::size_t which =
            text[i] == '%' && i + 1 < text.size() ? static_cast<std::size_t>(text[i + 1] - '1') : values.size();
        if (which < values.size()) {
            result += values[which];
            ++i;
        } else {
            result += text[i];
        }
    }
    return result;
}

} // namespace pacecells
