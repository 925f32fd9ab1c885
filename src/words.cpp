#include "pacecells/words.h"

#include "pacecells/text.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <stdexcept>

namespace pacecells {

namespace {

constexpr std::string_view languages[] = {
#include "word_languages.inc"
};

struct Text {
    std::string_view list;
    std::string_view key;
    std::array<std::string_view, std::size(languages)> text;
};
constexpr Text texts[] = {
#include "words.inc"
};

// The keys of the lists, in the order of the values that they stand for.
constexpr std::string_view formats[] = {"amrap", "time", "intervals"};
constexpr std::string_view scorings[] = {"lowest", "sum", "total"};
constexpr std::string_view whens[] = {"every", "first", "last"};
constexpr std::string_view units[] = {"rep",   "row cal", "ski cal", "bike cal", "armbike cal", "row m",
                                      "ski m", "bike m",  "run m",   "carry m",  "hold",        "rest"};
constexpr std::string_view day_plans[] = {"full", "easy", "technique", "not_today"};
constexpr std::string_view answers[] = {"more_left", "only_just", "no"};
constexpr std::string_view yeses[] = {"yes"};
constexpr std::string_view splits[] = {"any"};
constexpr std::string_view rate_units[] = {"cal/h", "W", "split"};
constexpr std::string_view machines[] = {"row", "ski", "bike", "armbike"};
constexpr std::string_view pacings[] = {"even", "fade", "faster"};

template <std::size_t n>
consteval std::array<Word, n> words(std::string_view list, const std::string_view (&keys)[n]) {
    std::array<Word, n> result{};
    for (std::size_t i = 0; i < n; ++i) {
        const auto* found =
            std::ranges::find_if(texts, [&](const Text& text) { return text.list == list && text.key == keys[i]; });
        if (found == std::end(texts))
            throw std::logic_error("a word has no text"); // which stops the compiler
        result[i] = {keys[i], found->text};
    }
    return result;
}
constexpr auto format_words = words("format", formats);
constexpr auto scoring_words = words("scoring", scorings);
constexpr auto when_words = words("when", whens);
constexpr auto unit_words = words("unit", units);
constexpr auto day_plan_words = words("day_plan", day_plans);
constexpr auto answer_words = words("answer", answers);
constexpr auto yes_words = words("yes", yeses);
constexpr auto split_words = words("split", splits);
constexpr auto rate_unit_words = words("rate_unit", rate_units);
constexpr auto machine_words = words("machine", machines);
constexpr auto pacing_words = words("pacing", pacings);

struct List {
    std::string_view name;
    std::span<const Word> words;
};
constexpr std::array<List, word_lists> lists{{{"format", format_words},
                                              {"scoring", scoring_words},
                                              {"when", when_words},
                                              {"unit", unit_words},
                                              {"day_plan", day_plan_words},
                                              {"answer", answer_words},
                                              {"yes", yes_words},
                                              {"split", split_words},
                                              {"rate_unit", rate_unit_words},
                                              {"machine", machine_words},
                                              {"pacing", pacing_words}}};

const List& list_of(WordList list) { return lists[static_cast<std::size_t>(list)]; }

// The lower case of the characters of two bytes in UTF-8 that have one, U+00C0 to U+04FF; others as they are.
unsigned lower(unsigned code) {
    const auto in = [code](unsigned from, unsigned to) { return code >= from && code <= to; };
    if (in(0xC0, 0xDE) && code != 0xD7)
        return code + 0x20; // À to Þ
    if (code == 0x130)
        return 'i'; // a capital i with a dot
    if (code == 0x178)
        return 0xFF; // Ÿ
    if (in(0x100, 0x137) || in(0x14A, 0x177))
        return code | 1u; // pairs, the capital is even
    if (in(0x139, 0x148) || in(0x179, 0x17E))
        return code % 2 == 1 ? code + 1 : code; // pairs, the capital is odd
    if (in(0x391, 0x3AB) && code != 0x3A2)
        return code + 0x20; // Greek
    if (in(0x410, 0x42F))
        return code + 0x20; // Cyrillic
    if (in(0x400, 0x40F))
        return code + 0x50;
    return code;
}

} // namespace

std::span<const std::string_view> language_keys() { return languages; }

std::optional<Language> parse_language(std::string_view key) {
    const std::string folded = fold(key);
    const auto* const found = std::ranges::find(languages, folded);
    if (found == std::end(languages))
        return {};
    return static_cast<Language>(found - std::begin(languages));
}

std::string_view name_of(WordList list) { return list_of(list).name; }

std::span<const Word> words_of(WordList list) { return list_of(list).words; }

std::optional<std::size_t> find_word(WordList list, std::string_view text) {
    const std::string sought = fold_name(text);
    const auto words = words_of(list);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (sought == fold_name(words[i].key))
            return i;
        for (const auto one : words[i].text)
            if (sought == fold_name(one))
                return i;
    }
    return {};
}

std::string_view word(WordList list, std::size_t index, Language language) {
    return words_of(list)[index].text[static_cast<std::size_t>(language)];
}

std::string fold_name(std::string_view name) {
    const std::string folded = fold(name);
    std::string result;
    result.reserve(folded.size());
    for (std::size_t i = 0; i < folded.size(); ++i) {
        const auto first = static_cast<unsigned char>(folded[i]);
        if (first < 0xC3 || first > 0xD3 || i + 1 == folded.size()) {
            result += folded[i];
            continue;
        }
        const auto second = static_cast<unsigned char>(folded[++i]);
        const unsigned code = lower((first & 0x1Fu) << 6u | (second & 0x3Fu));
        if (code < 0x80) {
            result += static_cast<char>(code);
        } else {
            result += static_cast<char>(0xC0u | code >> 6u);
            result += static_cast<char>(0x80u | (code & 0x3Fu));
        }
    }
    return result;
}

bool same_name(std::string_view a, std::string_view b) { return fold_name(a) == fold_name(b); }

} // namespace pacecells
