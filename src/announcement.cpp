#include "announcement_draft.h"

#include <algorithm>

namespace pacecells {

namespace {

bool is_number(const Tokens& tokens, std::size_t at) {
    return at < tokens.size() && tokens[at].kind == Token::Kind::number;
}

// A point that ends no sentence: after "min." and the like.
bool shortens(const Tokens& tokens, std::size_t at) {
    if (at == 0 || tokens[at].spaced || !tokens[at].is("."))
        return false;
    const auto unit = phrase_at(tokens, at - 1, at, "unit");
    static constexpr std::string_view shortened[] = {"rep", "cal", "s", "min", "h"};
    return unit && std::ranges::find(shortened, unit->key) != std::end(shortened);
}

bool separates(const Tokens& tokens, std::size_t at, int depth) {
    const Token& token = tokens[at];
    if (token.kind == Token::Kind::word)
        return depth == 0 && is_phrase(tokens, at, tokens.size(), "filler", "then");
    if (token.is("\n") || token.is(";"))
        return true;
    if (depth > 0 || token.kind != Token::Kind::mark)
        return false;
    if (token.is(",") || token.is("+"))
        return true;
    if (token.is("."))
        return !shortens(tokens, at);
    const bool next_spaced = at + 1 < tokens.size() && tokens[at + 1].spaced;
    return token.is("-") && (at == 0 || (token.spaced && next_spaced && !is_number(tokens, at - 1)) ||
                             (tokens[at - 1].kind == Token::Kind::mark && !tokens[at - 1].is("…")));
}

// "and" between numbers or units and what follows begins a new station; "clean and jerk" is one.
bool joins(const Tokens& tokens, std::size_t at) {
    if (at == 0 || !is_phrase(tokens, at, tokens.size(), "filler", "and"))
        return false;
    if (is_number(tokens, at + 1))
        return !is_number(tokens, at - 1);
    return phrase_at(tokens, at - 1, at, "unit") && at > 1 && is_number(tokens, at - 2);
}

// The number or letter of a line: "1.", "2)", "A)".
std::size_t skip_numbering(Draft& draft, std::size_t at) {
    const auto& tokens = draft.tokens;
    if (at + 2 >= tokens.size() || tokens[at + 1].spaced || !tokens[at + 2].spaced)
        return at;
    const bool number = is_number(tokens, at) && (tokens[at + 1].is(".") || tokens[at + 1].is(")"));
    const bool letter = tokens[at].kind == Token::Kind::word && tokens[at].word.size() == 1 && tokens[at + 1].is(")");
    if (!number && !letter)
        return at;
    draft.take(at, at + 2, ReadAs::filler);
    return at + 2;
}

void read_clauses(Draft& draft) {
    const auto& tokens = draft.tokens;
    bool line_starts = true;
    int depth = 0;
    std::size_t from = 0;
    for (std::size_t at = 0; at <= tokens.size(); ++at) {
        if (line_starts && at < tokens.size() && !tokens[at].is("\n")) {
            const std::size_t next = skip_numbering(draft, at);
            from = at = next;
            line_starts = false;
        }
        if (at < tokens.size()) {
            if (tokens[at].is("("))
                ++depth;
            if (tokens[at].is(")"))
                depth = std::max(0, depth - 1);
            if (!separates(tokens, at, depth) && !joins(tokens, at))
                continue;
        }
        read_clause(draft, from, at);
        if (at < tokens.size()) {
            line_starts = tokens[at].is("\n");
            draft.sentence_ended =
                !draft.stations.empty() && (tokens[at].is(".") || (draft.sentence_ended && !line_starts));
            depth = line_starts ? 0 : depth;
            draft.take(at, at + 1, ReadAs::filler);
        }
        from = at + 1;
    }
}

// What nothing took is not understood: neighbours together.
void mark_rest(Draft& draft) {
    auto& tokens = draft.tokens;
    for (std::size_t at = 0; at < tokens.size(); ++at) {
        if (!tokens[at].as && tokens[at].kind == Token::Kind::mark)
            tokens[at].as = ReadAs::punctuation;
        if (tokens[at].as.value_or(ReadAs::not_understood) != ReadAs::not_understood)
            continue;
        std::size_t end = at;
        while (end < tokens.size() && tokens[end].as.value_or(ReadAs::not_understood) == ReadAs::not_understood &&
               (tokens[end].kind != Token::Kind::mark || tokens[end].as))
            tokens[end++].as = ReadAs::not_understood;
        draft.mark(draft.range(at, end), MarkKind::not_understood, say("This was not understood."));
        at = end - 1;
    }
}

} // namespace

Announcement read_announcement(std::string_view text, Language language) {
    Draft draft;
    draft.text = text;
    draft.language = language;
    draft.tokens = tokens_of(text);
    read_clauses(draft);
    finish(draft);
    mark_rest(draft);
    auto& marks = draft.result.marks;
    std::ranges::stable_sort(marks, {}, [](const Mark& mark) { return mark.range.from; });
    const auto doubles = std::unique(marks.begin(), marks.end(), [](const Mark& a, const Mark& b) {
        return a.range == b.range && a.kind == b.kind && a.reason == b.reason;
    });
    marks.erase(doubles, marks.end());
    for (const auto& token : draft.tokens)
        draft.result.pieces.push_back({token.range, *token.as});
    return std::move(draft.result);
}

} // namespace pacecells
