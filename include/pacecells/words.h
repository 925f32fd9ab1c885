// The words that cells hold: one home for what sheets offer in their lists and what the model reads.
//
// Each has a key, the same everywhere, and a text in each language. All are understood whatever the language of the
// workbook is; texts for people come out in that language.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace pacecells {

enum class Language : std::uint8_t { en }; // the place in language_keys(), English the first
// "en" and the others there are; each has a folder of texts, and its words are in words.json there.
[[nodiscard]] std::span<const std::string_view> language_keys();
[[nodiscard]] std::optional<Language> parse_language(std::string_view key);

enum class WordList : std::uint8_t {
    format,
    scoring,
    when,
    unit,
    day_plan,
    answer,
    yes,
    split,
    rate_unit,
    machine,
    pacing
};
inline constexpr std::size_t word_lists = 11;

struct Word {
    std::string_view key;
    std::span<const std::string_view> text; // in the order of language_keys()
};

[[nodiscard]] std::string_view name_of(WordList list); // "format", "scoring" ...
[[nodiscard]] std::span<const Word> words_of(WordList list);
// The place in the list of a key or a text of any language.
[[nodiscard]] std::optional<std::size_t> find_word(WordList list, std::string_view text);
[[nodiscard]] std::string_view word(WordList list, std::size_t index, Language language);

// The one rule for "the same name": outer spaces gone, runs of spaces one, letters in lower case. Beyond A to Z that is
// done for Latin letters with marks (U+00C0 to U+017F), Greek and Cyrillic.
// Example: fold_name("  Ünal  BRAND ") is "ünal brand".
[[nodiscard]] std::string fold_name(std::string_view name);
[[nodiscard]] bool same_name(std::string_view a, std::string_view b);

} // namespace pacecells
