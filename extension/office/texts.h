// What the commands say, in the language of the office's interface.
//
// The English text is the key: tr("Cap") does not compile unless every language in extension/texts has it.
// %1, %2 … stand for what is only known at the time.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>

#include "pacecells/result.h"
#include "pacecells/words.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <initializer_list>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

struct TextLanguage {
    std::string_view code;    // "en", the first
    std::string_view decimal; // the mark in 2.5
    std::string_view date;    // YYYY-MM-DD, or another order and other marks
};

// The folders of extension/texts.
inline constexpr TextLanguage text_languages[] = {
#include "languages.inc"
};

struct TextRow {
    std::string_view english;
    std::array<std::string_view, std::size(text_languages) - 1> others; // as text_languages, without English
};

// Sorted by the English text.
inline constexpr TextRow text_rows[] = {
#include "texts.inc"
};

namespace detail {

void this_text_is_missing_in_extension_texts(); // not constexpr: calling it stops the compiler

// Its row, or the number of rows.
constexpr std::size_t find_text(std::string_view english) {
    const auto* row = std::ranges::lower_bound(text_rows, english, {}, &TextRow::english);
    return row != std::end(text_rows) && row->english == english ? static_cast<std::size_t>(row - text_rows)
                                                                 : std::size(text_rows);
}

} // namespace detail

class Text {
  public:
    consteval Text(const char* english) : row_(detail::find_text(english)) {
        if (row_ == std::size(text_rows))
            detail::this_text_is_missing_in_extension_texts();
    }

    [[nodiscard]] constexpr const TextRow& row() const { return text_rows[row_]; }

  private:
    std::size_t row_;
};

// What the columns of a list from anywhere are called, in all languages: for each key of headings.json its spellings, in
// lower case, longer ones first so that none is cut off by a shorter one.
[[nodiscard]] std::vector<std::vector<std::string>> headings(std::initializer_list<std::string_view> keys);

// The code of the interface's language where we have it, else of English.
[[nodiscard]] std::string_view interface_language();
void read_interface_language(const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& component);

// 2.5 as the interface's language writes it.
[[nodiscard]] std::string with_decimal_mark(std::string number);
// 2026-03-14, as the model writes a date, in the order and with the marks of the interface's language; other texts stay.
[[nodiscard]] std::string with_date_order(const std::string& text);
// How a workbook in a language writes dates: DD.MM.YYYY.
[[nodiscard]] std::string_view date_order(Language language);

[[nodiscard]] std::string tr(Text text);
// For texts from elsewhere, English where there is no row: those of the catalog, in functions.json.
[[nodiscard]] std::string translated(std::string_view english);
// What the model says, in messages.json. A test sees to it that none of these is missing.
[[nodiscard]] std::string tr(const Error& error);
[[nodiscard]] std::string tr(const Said& said);

// With %1, %2 … replaced; a date of the model is written as the language does.
template <class... Values>
requires(sizeof...(Values) > 0) [[nodiscard]] std::string tr(Text text, const Values&... values) {
    const std::string given[] = {with_date_order(std::string(values))...};
    return filled(tr(text), given);
}

} // namespace pacecells
