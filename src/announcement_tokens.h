// Words, numbers and marks of an announcement, and the phrases that they make.
#pragma once

#include "pacecells/announcement.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

struct Token {
    enum class Kind : std::uint8_t { word, number, clock, mark };
    Kind kind = Kind::word;
    TextRange range;
    std::string word; // folded; of a mark one of , ; : . / - … ( ) + @ = " or a line end
    double value = 0; // of a number; of a clock in seconds
    bool spaced = false;
    std::optional<ReadAs> as;

    [[nodiscard]] bool is(std::string_view mark) const { return kind == Kind::mark && word == mark; }
    [[nodiscard]] bool is_word(std::string_view text) const { return kind == Kind::word && word == text; }
};
using Tokens = std::vector<Token>;

[[nodiscard]] bool is_digit(char c);
[[nodiscard]] bool is_letter(char c); // or a part of one that is not of ASCII
[[nodiscard]] Tokens tokens_of(std::string_view text);

// The longest phrase of a list of announcement.json that begins there.
struct Phrase {
    std::string_view key;
    std::size_t end = 0;
    std::optional<double> number; // where the spelling has digits ("E2MOM")
};
[[nodiscard]] std::optional<Phrase> phrase_at(const Tokens& tokens, std::size_t at, std::size_t end,
                                              std::string_view list);
[[nodiscard]] bool is_phrase(const Tokens& tokens, std::size_t at, std::size_t end, std::string_view list,
                             std::string_view key);

// How a language writes it: the first of its spellings.
[[nodiscard]] std::string_view announcement_word(std::string_view list, std::string_view key, Language language);

// Amounts of each division: 12, 12/10, 21-15-9, 1-2-3-…
struct Group {
    std::vector<std::string> values;
    std::size_t end = 0;
    bool listed = false; // some differ by round
};
[[nodiscard]] std::optional<Group> group_at(const Tokens& tokens, std::size_t at, std::size_t end);

struct TimeRead {
    Seconds time;
    std::size_t end = 0;
};
// 17 min, 1 min 30 s, 1'30", 2:30.
[[nodiscard]] std::optional<TimeRead> time_at(const Tokens& tokens, std::size_t at, std::size_t end);

} // namespace pacecells
