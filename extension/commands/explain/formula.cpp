#include "formula.h"

#include "pacecells/text.h"

#include <algorithm>

namespace pacecells {

namespace {

bool of_word(char c) {
    const auto u = static_cast<unsigned char>(c);
    return (u >= 'A' && u <= 'Z') || (u >= 'a' && u <= 'z') || (u >= '0' && u <= '9') || u == '_' || u == '.' ||
           u >= 0x80;
}

// The place after a text in quotes that starts here; a doubled quote stands for itself.
std::size_t after_quotes(std::string_view formula, std::size_t at) {
    const char quote = formula[at];
    for (++at; at < formula.size(); ++at) {
        if (formula[at] != quote)
            continue;
        if (at + 1 < formula.size() && formula[at + 1] == quote)
            ++at;
        else
            return at + 1;
    }
    return at;
}

std::size_t after_word(std::string_view formula, std::size_t at) {
    while (at < formula.size() && of_word(formula[at]))
        ++at;
    return at;
}

// ORG.PACECELLS.FUNCTIONS.PACEROUND, as the office keeps it, or PACE.ROUND.
const Row* find_function(std::string_view word) {
    constexpr std::string_view prefix = "org.pacecells.functions.";
    const auto folded = fold(word);
    if (folded.starts_with(prefix))
        return find_method(std::string_view(folded).substr(prefix.size()));
    const auto rows = catalog();
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return fold(row.name) == folded; });
    return found == rows.end() ? nullptr : &*found;
}

// From the opening parenthesis: the arguments, and the place after the closing one.
std::size_t split_arguments(std::string_view formula, std::size_t open, std::vector<std::string>& arguments) {
    int depth = 0;
    std::size_t start = open + 1;
    std::size_t at = open;
    while (at < formula.size()) {
        const char c = formula[at];
        if (c == '"' || c == '\'') {
            at = after_quotes(formula, at);
            continue;
        }
        if (c == '(' || c == '{')
            ++depth;
        if (c == ')' || c == '}')
            --depth;
        if (depth == 0 || (depth == 1 && c == ';')) {
            arguments.emplace_back(trim(formula.substr(start, at - start)));
            start = at + 1;
        }
        ++at;
        if (depth == 0)
            break;
    }
    return at;
}

template <class Word>
void each_word(std::string_view formula, Word word) {
    std::size_t at = 0;
    while (at < formula.size()) {
        if (formula[at] == '"' || formula[at] == '\'') {
            at = after_quotes(formula, at);
        } else if (of_word(formula[at])) {
            const auto end = after_word(formula, at);
            word(at, end);
            at = end;
        } else {
            ++at;
        }
    }
}

} // namespace

std::vector<FormulaCall> find_calls(std::string_view formula) {
    std::vector<FormulaCall> calls;
    each_word(formula, [&](std::size_t at, std::size_t end) {
        if (end == formula.size() || formula[end] != '(')
            return;
        if (const auto* row = find_function(formula.substr(at, end - at))) {
            FormulaCall call{row, {}, {}};
            const auto after = split_arguments(formula, end, call.arguments);
            call.text = formula.substr(at, after - at);
            calls.push_back(std::move(call));
        }
    });
    return calls;
}

std::vector<std::string> calls_of(std::string_view formula, std::string_view function) {
    std::vector<std::string> calls;
    each_word(formula, [&](std::size_t at, std::size_t end) {
        if (end == formula.size() || formula[end] != '(' || formula.substr(at, end - at) != function)
            return;
        std::vector<std::string> arguments;
        calls.emplace_back(formula.substr(at, split_arguments(formula, end, arguments) - at));
    });
    return calls;
}

std::string readable(std::string_view formula) {
    std::string text;
    std::size_t copied = 0;
    each_word(formula, [&](std::size_t at, std::size_t end) {
        if (const auto* row = find_function(formula.substr(at, end - at))) {
            text += formula.substr(copied, at - copied);
            text += row->name;
            copied = end;
        }
    });
    return text.append(formula.substr(copied));
}

std::vector<std::string> words(std::string_view formula) {
    std::vector<std::string> found;
    each_word(formula, [&](std::size_t at, std::size_t end) {
        if (end < formula.size() && formula[end] == '(')
            return;
        std::string word(formula.substr(at, end - at));
        if (std::find(found.begin(), found.end(), word) == found.end())
            found.push_back(std::move(word));
    });
    return found;
}

} // namespace pacecells
