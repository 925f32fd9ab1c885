// What the commands say, in the language of the office's interface.
//
// The English text is the key: tr("Cap") does not compile unless a file in package/texts holds "Cap" in every language.
// %1, %2 … stand for what is only known at the time.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>

#include <array>
#include <cstddef>
#include <iterator>
#include <string>
#include <string_view>

namespace pacecells {

struct TextRow {
    std::string_view english;
    std::array<std::string_view, 3> others; // German, Spanish, French
};

// Sorted by the English text; written by the generator from package/texts.
inline constexpr TextRow text_rows[] = {
#include "texts.inc"
};

namespace detail {
void this_text_is_missing_in_package_texts(); // not constexpr: calling it stops the compiler
}

class Text {
  public:
    consteval Text(const char* english) : row_(find(english)) {}

    [[nodiscard]] constexpr const TextRow& row() const { return text_rows[row_]; }

  private:
    static consteval std::size_t find(std::string_view english) {
        std::size_t low = 0;
        std::size_t high = std::size(text_rows);
        while (low < high) {
            const std::size_t middle = low + (high - low) / 2;
            if (text_rows[middle].english < english)
                low = middle + 1;
            else
                high = middle;
        }
        if (low == std::size(text_rows) || text_rows[low].english != english)
            detail::this_text_is_missing_in_package_texts();
        return low;
    }

    std::size_t row_;
};

// "en", "de", "es" or "fr": the interface's language where we have it, else English.
[[nodiscard]] std::string_view interface_language();
void read_interface_language(const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& component);

[[nodiscard]] std::string tr(Text text);

namespace detail {
[[nodiscard]] std::string filled(std::string text, const std::string* values, std::size_t count);
}

// With %1, %2 … replaced.
template <class... Values>
requires(sizeof...(Values) > 0) [[nodiscard]] std::string tr(Text text, const Values&... values) {
    const std::string given[] = {std::string(values)...};
    return detail::filled(tr(text), given, sizeof...(Values));
}

} // namespace pacecells
