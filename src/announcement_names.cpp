// Tonight's names.
#include "pacecells/announcement.h"

#include "announcement_tokens.h"

#include "pacecells/text.h"

#include <algorithm>
#include <unordered_set>

namespace pacecells {

namespace {

bool has_letter(std::string_view text) { return std::ranges::any_of(text, is_letter); }

// The key of a usual division, where the text is nothing but a word for it.
std::optional<std::string_view> usual_division(std::string_view text) {
    const auto tokens = tokens_of(text);
    const auto found = phrase_at(tokens, 0, tokens.size(), "division");
    return found && found->end == tokens.size() ? std::optional(found->key) : std::nullopt;
}

class NameReader {
  public:
    NameReader(std::string_view text, std::span<const std::string> divisions, bool teams)
        : text_(text), divisions_(divisions), teams_(teams) {}

    AnnouncedNames read() {
        for (std::size_t from = 0; from < text_.size();) {
            const auto to = std::min(text_.find_first_of("\n\r", from), text_.size());
            read_line(from, to);
            from = to + 1;
        }
        std::ranges::stable_sort(names_.marks, {}, [](const Mark& mark) { return mark.range.from; });
        return std::move(names_);
    }

  private:
    TextRange inner(std::size_t from, std::size_t to) const {
        const auto whole = text_.substr(from, to - from);
        const auto text = trim(whole);
        const auto start = text.empty() ? from : from + static_cast<std::size_t>(text.data() - whole.data());
        return {start, start + text.size()};
    }
    std::string_view at(TextRange range) const { return text_.substr(range.from, range.to - range.from); }

    bool known(std::string_view text) const {
        if (std::ranges::any_of(divisions_, [&](const auto& one) { return same_name(one, text); }))
            return true;
        return usual_division(text).has_value();
    }

    // Bullets and the numbers of a list.
    TextRange without_numbering(TextRange range) const {
        auto text = at(range);
        std::size_t n = 0;
        while (n < text.size() && is_digit(text[n]))
            ++n;
        if (n > 0 && n < text.size() && (text[n] == '.' || text[n] == ')' || text[n] == ' ' || text[n] == '\t'))
            ++n;
        else if (text.starts_with("-") || text.starts_with("*"))
            n = 1;
        else if (text.starts_with("\xE2\x80\xA2") || text.starts_with("\xE2\x80\x93"))
            n = 3;
        else
            n = 0;
        return inner(range.from + n, range.to);
    }

    void read_line(std::size_t from, std::size_t to) {
        const auto line = without_numbering(inner(from, to));
        const auto tab = text_.find('\t', line.from);
        if (tab < line.to) {
            read_person(inner(line.from, tab), inner(tab + 1, line.to));
            return;
        }
        int depth = 0;
        std::size_t start = line.from;
        std::vector<TextRange> parts;
        for (std::size_t i = line.from; i <= line.to; ++i) {
            if (i < line.to && (text_[i] == '(' || text_[i] == '['))
                ++depth;
            if (i < line.to && (text_[i] == ')' || text_[i] == ']'))
                depth = std::max(0, depth - 1);
            if (i < line.to && (depth > 0 || (text_[i] != ',' && text_[i] != ';')))
                continue;
            parts.push_back(inner(start, i));
            start = i + 1;
        }
        std::erase_if(parts, [](TextRange part) { return part.from == part.to; });
        const bool lines =
            text_.substr(0, from).find_first_not_of(" \t\r\n") != std::string_view::npos ||
            (to < text_.size() && text_.substr(to).find_first_not_of(" \t\r\n") != std::string_view::npos);
        if (parts.size() == 2 && lines && !known(at(parts[1])))
            names_.marks.push_back({line, MarkKind::taken, say("This line is taken as two people.")});
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const bool division = i + 1 < parts.size() && known(at(parts[i + 1]));
            read_person(parts[i], division ? parts[i + 1] : TextRange{parts[i].to, parts[i].to});
            i += division ? 1 : 0;
        }
    }

    void read_person(TextRange name, TextRange division) {
        const auto written = at(name);
        const auto open = written.find_last_of("([");
        const bool brackets = open != std::string_view::npos && open > 0 &&
                              (written.ends_with(')') || written.ends_with(']')) && division.from == division.to;
        if (brackets) {
            division = inner(name.from + open + 1, name.to - 1);
            name = inner(name.from, name.from + open);
        }
        if (division.from < division.to && !known(at(division)) && has_letter(at(name)))
            names_.marks.push_back({division, MarkKind::asked, say("This division is not known.")});
        if (teams_)
            add_team(name, division);
        else
            add(name, division, {});
    }

    void add_team(TextRange names, TextRange division) {
        std::string team;
        if (const auto colon = at(names).find(':'); colon != std::string_view::npos) {
            team = std::string(at(inner(names.from, names.from + colon)));
            names = inner(names.from + colon + 1, names.to);
        }
        std::vector<TextRange> people;
        for (std::size_t from = names.from; from <= names.to;) {
            const auto plus = std::min(text_.find_first_of("+&", from), names.to);
            people.push_back(inner(from, plus));
            from = plus + 1;
        }
        if (team.empty() && people.size() > 1)
            team = std::to_string(++numbered_);
        for (const auto& one : people)
            add(one, division, team);
    }

    void add(TextRange name, TextRange division, const std::string& team) {
        if (!has_letter(at(name))) {
            if (name.from < name.to)
                names_.marks.push_back({name, MarkKind::not_understood, say("This is not a name.")});
            return;
        }
        if (!folded_.insert(fold_name(at(name))).second)
            names_.marks.push_back({name, MarkKind::asked, say("This name is there twice.")});
        names_.people.push_back({std::string(at(name)), std::string(at(division)), team, name});
    }

    std::string_view text_;
    std::span<const std::string> divisions_;
    bool teams_;
    int numbered_ = 0; // teams without a name
    AnnouncedNames names_;
    std::unordered_set<std::string> folded_; // of the people so far
};

} // namespace

AnnouncedNames read_names(std::string_view text, std::span<const std::string> divisions, bool teams) {
    return NameReader{text, divisions, teams}.read();
}

std::optional<std::string> meant_division(std::string_view written, std::span<const std::string> divisions) {
    for (const auto& name : divisions)
        if (!name.empty() && same_name(name, written))
            return name;
    const auto key = usual_division(written);
    std::optional<std::string> meant;
    for (const auto& name : divisions) {
        if (!key || usual_division(name) != key)
            continue;
        if (meant)
            return {};
        meant = name;
    }
    return meant;
}

} // namespace pacecells
