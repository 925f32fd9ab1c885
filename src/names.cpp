#include "pacecells/names.h"

#include "pacecells/text.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cctype>
#include <numeric>

namespace pacecells {

namespace {

using Words = std::vector<std::string>;

constexpr std::size_t fewest_letters = 5; // of a name in which one letter may be a slip (judgement)

struct Plain {
    std::string_view letter;
    std::string_view plain;
};
// Latin letters of names with marks, in lower case, as people type them without the key for it.
constexpr Plain plain_letters[] = {
    {"à", "a"}, {"á", "a"},  {"â", "a"}, {"ã", "a"}, {"ä", "a"}, {"å", "a"}, {"ą", "a"},      {"ă", "a"}, {"æ", "ae"},
    {"ç", "c"}, {"ć", "c"},  {"č", "c"}, {"ď", "d"}, {"đ", "d"}, {"è", "e"}, {"é", "e"},      {"ê", "e"}, {"ë", "e"},
    {"ę", "e"}, {"ě", "e"},  {"ğ", "g"}, {"ì", "i"}, {"í", "i"}, {"î", "i"}, {"ï", "i"},      {"ı", "i"}, {"ł", "l"},
    {"ñ", "n"}, {"ń", "n"},  {"ň", "n"}, {"ò", "o"}, {"ó", "o"}, {"ô", "o"}, {"õ", "o"},      {"ö", "o"}, {"ő", "o"},
    {"ø", "o"}, {"œ", "oe"}, {"ř", "r"}, {"ś", "s"}, {"š", "s"}, {"ş", "s"}, {"ß", "ss"},     {"ť", "t"}, {"ù", "u"},
    {"ú", "u"}, {"û", "u"},  {"ü", "u"}, {"ů", "u"}, {"ű", "u"}, {"ý", "y"}, {"ÿ", "y"},      {"ź", "z"}, {"ż", "z"},
    {"ž", "z"}, {"-", " "},  {",", " "}, {".", " "}, {"'", ""},  {"’", ""},  {"\u2010", " "},
};

// Two letters for an umlaut are one: "mueller" and "müller" are both "muller".
std::string without_spread_umlauts(std::string name) {
    for (const std::string_view two : {"ae", "oe", "ue"})
        for (auto at = name.find(two); at != std::string::npos; at = name.find(two, at + 1))
            name.erase(at + 1, 1);
    return name;
}

bool has_number(std::string_view word) {
    return std::ranges::any_of(word, [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; });
}

// One letter other, more or less, or two neighbours swapped.
bool one_slip(std::string_view a, std::string_view b) {
    if (a.size() > b.size())
        std::swap(a, b);
    const auto [in_a, in_b] = std::ranges::mismatch(a, b);
    const auto same = static_cast<std::size_t>(in_a - a.begin());
    a.remove_prefix(same);
    b.remove_prefix(same);
    if (a.size() + 1 == b.size())
        return a == b.substr(1);
    if (a.size() != b.size() || a.empty())
        return false;
    return a.substr(1) == b.substr(1) || (a.size() > 1 && a[0] == b[1] && a[1] == b[0] && a.substr(2) == b.substr(2));
}

bool nearly(const Words& a, const Words& b) {
    if (a.empty() || b.empty())
        return false;
    if (a == b)
        return true;
    const auto joined = [](const Words& words) { return std::accumulate(words.begin(), words.end(), std::string{}); };
    if (const auto all = joined(a); all == joined(b) && !has_number(all))
        return true; // "Van Dael" and "Vandael"
    if (a.size() != b.size() || joined(a).size() < fewest_letters)
        return false;
    // All words but one are alike, and that one has one slip.
    Words only_a;
    Words only_b;
    std::ranges::set_difference(a, b, std::back_inserter(only_a));
    std::ranges::set_difference(b, a, std::back_inserter(only_b));
    if (only_a.size() != 1 || only_b.size() != 1)
        return false;
    const auto& one = only_a.front();
    const auto& other = only_b.front();
    const bool tells_apart = std::min(one.size(), other.size()) < 2 || has_number(one) || has_number(other);
    return !tells_apart && one_slip(one, other);
}

} // namespace

Words plain_words(std::string_view name) {
    std::string plain;
    const std::string folded = fold_name(name);
    for (std::string_view rest = folded; !rest.empty();) {
        const auto* found =
            std::ranges::find_if(plain_letters, [&](const Plain& one) { return rest.starts_with(one.letter); });
        const bool known = found != std::end(plain_letters);
        plain += known ? found->plain : rest.substr(0, 1);
        rest.remove_prefix(known ? found->letter.size() : 1);
    }
    plain = without_spread_umlauts(fold(plain));
    Words words;
    for (std::string_view rest = plain; !rest.empty();) {
        const auto end = std::min(rest.find(' '), rest.size());
        words.emplace_back(rest.substr(0, end));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    std::ranges::sort(words);
    return words;
}

bool nearly_same_name(std::string_view a, std::string_view b) {
    return !same_name(a, b) && nearly(plain_words(a), plain_words(b));
}

NameList::NameList(std::span<const std::string> names) {
    plain_.reserve(names.size());
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string folded = fold_name(names[i]);
        plain_.push_back(plain_words(folded));
        if (!folded.empty())
            folded_[folded].push_back(i);
    }
}

NameMatch NameList::find(std::string_view name) const {
    NameMatch match;
    if (const auto found = folded_.find(fold_name(name)); found != folded_.end()) {
        match.same = found->second;
        return match;
    }
    const Words words = plain_words(name);
    for (std::size_t i = 0; i < plain_.size(); ++i)
        if (nearly(words, plain_[i]))
            match.nearly.push_back(i);
    return match;
}

} // namespace pacecells
