// An announcement while it is read: what was found, in the words of the text, before it is put together.
#pragma once

#include "announcement_tokens.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

struct DraftValue {
    std::string text;          // as parse_amounts reads it
    std::string_view division; // key, or empty
};

struct DraftStation {
    std::string movement;
    std::vector<DraftValue> amounts;
    std::string_view unit; // key, or empty
    std::vector<DraftValue> loads;
    bool pounds = false;
    std::optional<Seconds> rest; // a station of rest
    bool between = false;        // of a rest: between rounds
    bool most = false;           // as many as possible, so no amount
    bool joined = false;         // by "and"
    bool afterthought = false;   // follows the end of a sentence
    When when = When::every;
    TextRange range;
    TextRange amount_range;
    TextRange load_range;
};

struct Draft {
    std::string_view text;
    Language language = Language::en;
    Tokens tokens;
    Announcement result;
    std::vector<DraftStation> stations;
    std::vector<DraftValue> scheme; // amounts of stations that have none
    TextRange scheme_range;
    std::vector<std::string_view> divisions;
    std::optional<TextRange> format_range;
    std::optional<TextRange> team_range;
    bool all_at_once = false; // however many a team has
    std::optional<TextRange> window_range;
    std::optional<Seconds> total; // of intervals
    TextRange total_range;
    std::optional<int> repeats; // "x 6", "6 rounds": rounds, or windows of intervals
    std::optional<TextRange> repeats_range;
    std::optional<TextRange> rest_range;
    When when = When::every; // of the next station
    bool any_setting = false;
    bool sentence_ended = false; // after a station, in this line

    [[nodiscard]] TextRange range(std::size_t from, std::size_t end) const {
        return {tokens[from].range.from, tokens[end - 1].range.to};
    }
    void take(std::size_t from, std::size_t end, ReadAs as) {
        for (std::size_t i = from; i < end; ++i)
            tokens[i].as = tokens[i].kind == Token::Kind::mark ? ReadAs::punctuation : as;
    }
    // "m" is for men, but for women where "h" is for men, as in Spanish.
    [[nodiscard]] std::string_view division(std::size_t at, const Phrase& phrase) const {
        if (phrase.key != "men" || tokens[at].word != "m")
            return phrase.key;
        for (std::size_t i = 0; i < tokens.size(); ++i)
            if (tokens[i].is_word("h") && (i == 0 || tokens[i - 1].kind != Token::Kind::number)) // no hours
                return "women";
        return phrase.key;
    }
    void mark(TextRange where, MarkKind kind, Said reason) { result.marks.push_back({where, kind, std::move(reason)}); }
};

// From..end without a separator between stations.
void read_clause(Draft& draft, std::size_t from, std::size_t end);
void read_station(Draft& draft, std::size_t from, std::size_t end);
// What the draft holds, put together; what is missing or contradicts, marked.
void finish(Draft& draft);

} // namespace pacecells
