// What the commands say, in the language of the office's interface.
//
// The English text is the key: tr("Cap") does not compile unless every language in extension/texts has it.
// %1, %2 … stand for what is only known at the time.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>

#include "pacecells/result.h"
#include "pacecells/words.h"

#include <algorithm>
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

// Sorted by their bytes. They are there for the compiler alone: what a person reads is in texts.cpp.
inline constexpr std::string_view english_texts[] = {
#include "texts.inc"
};

class ShownText {
  public:
    consteval ShownText(const char* english)
        : row_(static_cast<std::size_t>(std::ranges::lower_bound(english_texts, std::string_view(english)) -
                                        english_texts)) {
        if (row_ == std::size(english_texts) || english_texts[row_] != english)
            this_text_is_missing_in_extension_texts();
    }

    [[nodiscard]] constexpr std::size_t row() const { return row_; }

  private:
    static void this_text_is_missing_in_extension_texts(); // not constexpr: calling it stops the compiler

    std::size_t row_;
};

// What the columns of a list from anywhere are called, in all languages: for each key of headings.json its spellings, in
// lower case, longer ones first so that none is cut off by a shorter one.
[[nodiscard]] std::vector<std::vector<std::string>> headings(std::initializer_list<std::string_view> keys);

// The code of the office's language where the package has workbooks in it, else of English, else of the one language that
// the package was made for.
[[nodiscard]] std::string_view interface_language();
void read_interface_language(const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& component);

// 2.5 as the interface's language writes it.
[[nodiscard]] std::string with_decimal_mark(std::string number);
// 2026-03-14, as the model writes a date, in the order and with the marks of the interface's language; other texts stay.
[[nodiscard]] std::string with_date_order(const std::string& text);
// How a workbook in a language writes dates: DD.MM.YYYY.
[[nodiscard]] std::string_view date_order(Language language);

[[nodiscard]] std::string tr(ShownText text);
// For texts from elsewhere, English where there is no row: those of the catalog, in functions.json.
[[nodiscard]] std::string translated(std::string_view english);
// What the model says, in messages.json. A test sees to it that none of these is missing.
[[nodiscard]] std::string tr(const Error& error);
[[nodiscard]] std::string tr(const Said& said);

// With %1, %2 … replaced; a date of the model is written as the language does.
template <class... Values>
requires(sizeof...(Values) > 0) [[nodiscard]] std::string tr(ShownText text, const Values&... values) {
    const std::string given[] = {with_date_order(std::string(values))...};
    return filled(tr(text), given);
}

} // namespace pacecells
