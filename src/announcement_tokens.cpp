#include "announcement_tokens.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <unordered_map>

namespace pacecells {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

namespace {

// Characters beyond ASCII that count as others.
struct Other {
    std::string_view bytes;
    std::string_view as;
};
constexpr Other others[] = {
    {"\xC2\xA0", " "},      {"\xE2\x80\xAF", " "},  {"\xE2\x80\x89", " "},  {"\xEF\xBB\xBF", " "},
    {"\xE2\x80\x8B", " "},  {"\xE2\x80\x90", "-"},  {"\xE2\x80\x91", "-"},  {"\xE2\x80\x93", "-"},
    {"\xE2\x80\x94", "-"},  {"\xE2\x88\x92", "-"},  {"\xE2\x80\xA6", "…"},  {"\xE2\x80\x98", "'"},
    {"\xE2\x80\x99", "'"},  {"\xE2\x80\xB2", "'"},  {"\xC2\xB4", "'"},      {"\xE2\x80\x9C", "\""},
    {"\xE2\x80\x9D", "\""}, {"\xE2\x80\x9E", "\""}, {"\xE2\x80\xB3", "\""}, {"\xC2\xAB", "\""},
    {"\xC2\xBB", "\""},     {"\xC3\x97", "x"},      {"\xE2\x80\xA2", ","},  {"\xC2\xB7", ","},
    {"\xE2\x9E\x95", "+"},
};

const Other* other_at(std::string_view rest) {
    if (rest.empty() || static_cast<unsigned char>(rest.front()) < 0x80)
        return nullptr;
    const auto* found = std::ranges::find_if(others, [&](const Other& one) { return rest.starts_with(one.bytes); });
    return found == std::end(others) ? nullptr : found;
}

class Lexer {
  public:
    explicit Lexer(std::string_view text) : text_(text) {}

    Tokens read() {
        while (at_ < text_.size())
            read_one();
        return std::move(tokens_);
    }

  private:
    char ahead(std::size_t n) const { return at_ + n < text_.size() ? text_[at_ + n] : '\0'; }

    void add(Token::Kind kind, std::size_t size, std::string word, double value = 0) {
        tokens_.push_back({kind, {at_, at_ + size}, std::move(word), value, spaced_, {}});
        at_ += size;
        spaced_ = false;
    }

    void read_one() {
        const char c = text_[at_];
        if (is_digit(c))
            return read_number();
        const auto* other = other_at(text_.substr(at_));
        const std::size_t size = other ? other->bytes.size() : 1;
        const std::string_view as = other ? other->as : text_.substr(at_, 1);
        if (as == "\n")
            return add(Token::Kind::mark, 1, "\n");
        if (as == " " || (static_cast<unsigned char>(c) < 0x20) || c == 0x7F) {
            at_ += size;
            spaced_ = true;
            return;
        }
        if (as == "'" || as == "\"")
            return read_quote(as, size);
        if (as == "x")
            return add(Token::Kind::word, size, "x");
        if (other)
            return add(Token::Kind::mark, size, std::string(as));
        if (is_letter(c))
            return read_word();
        if (text_.substr(at_).starts_with(".."))
            return add(Token::Kind::mark, text_.substr(at_).starts_with("...") ? 3 : 2, "…");
        if (c == '!' || c == '?')
            return add(Token::Kind::mark, 1, ".");
        if (c == '*' || c == '|')
            return add(Token::Kind::mark, 1, ",");
        if (c == '[' || c == ']')
            return add(Token::Kind::mark, 1, c == '[' ? "(" : ")");
        if (std::string_view{",;:./-()+@="}.find(c) != std::string_view::npos)
            return add(Token::Kind::mark, 1, std::string(1, c));
        add(Token::Kind::word, 1, std::string(1, c));
    }

    // After a number minutes or seconds, else quotation marks.
    void read_quote(std::string_view as, std::size_t size) {
        const bool after_number = !tokens_.empty() && tokens_.back().kind == Token::Kind::number && !spaced_;
        if (!after_number)
            return add(Token::Kind::mark, size, "\"");
        if (as == "\"")
            return add(Token::Kind::word, size, "\"");
        const auto next = text_.substr(at_ + size);
        const auto* other = other_at(next);
        const std::string_view second = other ? other->as : next.substr(0, 1);
        if (second == "'")
            return add(Token::Kind::word, size + (other ? other->bytes.size() : 1), "\"");
        add(Token::Kind::word, size, "'");
    }

    // A letter, then letters and digits; hyphens and apostrophes inside.
    void read_word() {
        std::size_t size = 0;
        std::string word; // with usual hyphens and apostrophes
        const bool times = (text_[at_] == 'x' || text_[at_] == 'X') && is_digit(ahead(1));
        while (!times && at_ + size < text_.size()) {
            const char c = text_[at_ + size];
            const auto* other = other_at(text_.substr(at_ + size));
            const std::string_view as = other ? other->as : text_.substr(at_ + size, 1);
            const std::size_t length = other ? other->bytes.size() : 1;
            const bool joins = (as == "-" || as == "'") && size > 0 && at_ + size + length < text_.size() &&
                               is_letter(text_[at_ + size + length]) && !other_at(text_.substr(at_ + size + length));
            if (!joins && (other || !(is_letter(c) || is_digit(c))))
                break;
            word += as;
            size += length;
        }
        if (size == 0) {
            size = 1;
            word = text_[at_];
        }
        add(Token::Kind::word, size, fold_name(word));
    }

    void read_number() {
        const auto digits = [&](std::size_t from) {
            std::size_t n = 0;
            while (is_digit(ahead(from + n)))
                ++n;
            return n;
        };
        const std::size_t whole = digits(0);
        std::size_t size = whole;
        if (whole <= 3 && ahead(size) == ':' && digits(size + 1) == 2 && ahead(size + 3) != '/') {
            size += 3;
            if (ahead(size) == ':' && digits(size + 1) == 2)
                size += 3;
            if (const auto clock = parse_clock(text_.substr(at_, size)))
                return add(Token::Kind::clock, size, std::string(text_.substr(at_, size)), clock->value());
            size = whole;
        }
        std::string written(text_.substr(at_, size));
        const char point = ahead(size);
        const std::size_t after = point == '.' || point == ',' ? digits(size + 1) : 0;
        const std::size_t gap = text_.substr(at_ + size).starts_with("\xC2\xA0")       ? 2
                                : text_.substr(at_ + size).starts_with("\xE2\x80\xAF") ? 3
                                                                                       : 0;
        if (whole <= 3 && digits(size + gap) == 3) { // thousands
            written += text_.substr(at_ + size + gap, 3);
            size += gap + 3;
        } else if (after == 3 && whole <= 3 && text_[at_] != '0') // thousands
            written += text_.substr(at_ + size + 1, 3);
        else if (after > 0)
            written += '.' + std::string(text_.substr(at_ + size + 1, after));
        size += after > 0 && size == whole ? after + 1 : 0;
        double value = 0;
        const auto read = std::from_chars(written.data(), written.data() + written.size(), value);
        if (read.ec != std::errc{} || !(value < 1e9))
            return add(Token::Kind::word, size, std::move(written)); // no number that anybody means
        add(Token::Kind::number, size, std::move(written), value);
    }

    std::string_view text_;
    std::size_t at_ = 0;
    bool spaced_ = false;
    Tokens tokens_;
};

struct Spelling {
    std::string_view list;
    std::string_view key;
    std::size_t language;
    std::string_view text;
};

// One text of all spellings is a quarter of the size of a table of them.
constexpr std::string_view spellings_text =
#include "announcement.inc"
    ;

const std::vector<Spelling>& spellings() {
    static const auto made = [] {
        std::vector<Spelling> all;
        std::vector<std::string_view> parts;
        std::size_t from = 0;
        for (std::size_t at = 0; at < spellings_text.size(); ++at) {
            if (spellings_text[at] != '\t' && spellings_text[at] != '\n')
                continue;
            parts.push_back(spellings_text.substr(from, at - from));
            from = at + 1;
            if (parts.size() > 3)
                all.push_back({parts[0], parts[1], static_cast<std::size_t>(parts[2].front() - '0'), parts.back()});
            if (spellings_text[at] == '\n')
                parts.clear();
        }
        return all;
    }();
    return made;
}

struct Entry {
    std::string_view list;
    std::string_view key;
    std::vector<std::string> words;
};
using Lexicon = std::unordered_map<std::string, std::vector<Entry>>; // by the first word; digits in it are #

std::string without_digits(std::string_view word) {
    std::string result;
    for (const char c : word)
        if (!is_digit(c))
            result += c;
        else if (result.empty() || result.back() != '#')
            result += '#';
    return result;
}

const Lexicon& lexicon() {
    static const Lexicon made = [] {
        Lexicon all;
        for (const auto& spelling : spellings()) {
            Entry entry{spelling.list, spelling.key, {}};
            std::string text = fold_name(spelling.text) + " ";
            for (std::size_t from = 0; from < text.size();) {
                const auto to = text.find(' ', from);
                entry.words.push_back(text.substr(from, to - from));
                from = to + 1;
            }
            auto& same_word = all[entry.words.front()];
            same_word.push_back(std::move(entry));
        }
        return all;
    }();
    return made;
}

bool follows(const Tokens& tokens, std::size_t at, std::size_t end, const std::vector<std::string>& words) {
    if (words.size() > end - at)
        return false;
    for (std::size_t i = 1; i < words.size(); ++i)
        if (tokens[at + i].kind != Token::Kind::word || tokens[at + i].word != words[i])
            return false;
    return true;
}

bool is_number(const Tokens& tokens, std::size_t at, std::size_t end) {
    return at < end && tokens[at].kind == Token::Kind::number;
}

// One value of a group: a number, or a list with hyphens.
std::optional<std::string> value_at(const Tokens& tokens, std::size_t& at, std::size_t end, bool& listed) {
    if (!is_number(tokens, at, end))
        return {};
    std::string text = number_text(tokens[at++].value);
    for (;;) {
        const std::size_t next = at < end && tokens[at].is("-") ? at + 1 : at;
        const bool dots = next < end && tokens[next].is("…");
        if (!dots && (next == at || !is_number(tokens, next, end)))
            return text;
        text += dots ? "-…" : "-" + number_text(tokens[next].value);
        listed = true;
        at = next + 1;
    }
}

double unit_seconds(std::string_view key) { return key == "s" ? 1 : key == "min" ? 60 : key == "h" ? 3600 : 0; }

} // namespace

Tokens tokens_of(std::string_view text) { return Lexer{text}.read(); }

std::optional<Phrase> phrase_at(const Tokens& tokens, std::size_t at, std::size_t end, std::string_view list) {
    if (at >= end || tokens[at].kind != Token::Kind::word)
        return {};
    std::optional<Phrase> longest;
    const auto& word = tokens[at].word;
    const auto entries = lexicon().find(without_digits(word));
    if (entries == lexicon().end())
        return {};
    for (const auto& found : entries->second) {
        if (found.list != list || !follows(tokens, at, end, found.words) ||
            (longest && longest->end >= at + found.words.size()))
            continue;
        longest = {found.key, at + found.words.size(), std::nullopt};
        for (const char c : word)
            if (is_digit(c))
                longest->number = 10 * longest->number.value_or(0) + (c - '0');
    }
    return longest;
}

bool is_phrase(const Tokens& tokens, std::size_t at, std::size_t end, std::string_view list, std::string_view key) {
    const auto found = phrase_at(tokens, at, end, list);
    return found && found->key == key;
}

std::string_view announcement_word(std::string_view list, std::string_view key, Language language) {
    const auto found = std::ranges::find_if(spellings(), [&](const Spelling& one) {
        return one.list == list && one.key == key && one.language == static_cast<std::size_t>(language);
    });
    return found == spellings().end() ? key : found->text;
}

std::optional<Group> group_at(const Tokens& tokens, std::size_t at, std::size_t end) {
    Group group;
    while (const auto value = value_at(tokens, at, end, group.listed)) {
        group.values.push_back(*value);
        group.end = at;
        if (!(at + 1 < end && tokens[at].is("/")))
            break;
        ++at;
    }
    if (group.values.empty())
        return {};
    return group;
}

std::optional<TimeRead> time_at(const Tokens& tokens, std::size_t at, std::size_t end) {
    if (at < end && tokens[at].kind == Token::Kind::clock)
        return TimeRead{Seconds{tokens[at].value}, at + 1};
    double time = 0;
    double smaller_than = 1e9;
    std::optional<TimeRead> read;
    while (is_number(tokens, at, end)) {
        const std::size_t next = at + 1 < end && tokens[at + 1].is("-") ? at + 2 : at + 1;
        const auto unit = phrase_at(tokens, next, end, "unit");
        const double seconds = unit ? unit_seconds(unit->key) : 0;
        if (!(seconds > 0 && seconds < smaller_than))
            break;
        time += tokens[at].value * seconds;
        smaller_than = seconds;
        at = unit->end;
        if (at < end && tokens[at].is(".") && !tokens[at].spaced)
            ++at; // "Min."
        read = TimeRead{Seconds{time}, at};
    }
    return read;
}

} // namespace pacecells
