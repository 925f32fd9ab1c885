#include "pacecells/forgotten.h"

#include "pacecells/words.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace pacecells {

namespace {

std::vector<std::string_view> parts_of(std::string_view text, char between) {
    std::vector<std::string_view> parts;
    for (;;) {
        const auto end = text.find(between);
        parts.push_back(text.substr(0, end));
        if (end == std::string_view::npos)
            return parts;
        text.remove_prefix(end + 1);
    }
}

// The fields of a line that hold names, from the first: of athletes, or of teams.
struct Names {
    std::size_t first = 0;
    std::size_t count = 0;
};

Names names_in(const std::vector<std::string_view>& fields) {
    const auto kind = fields[0];
    if ((kind == "lane" || kind == "set" || kind == "fix") && fields.size() > 2)
        return {2, 1};
    if (kind == "name" && fields.size() == 3)
        return {1, 2};
    return {};
}

constexpr std::string_view between_partners = " + ";

// A team that has a number is called by its people: "3: Milo + Paloma". Without that person; nothing where nobody is left.
std::string team_without(std::string_view team, const std::set<std::string>& known) {
    const auto digits = team.find_first_not_of("0123456789");
    const bool numbered = digits != 0 && digits != std::string_view::npos && team.substr(digits).starts_with(": ");
    if (!numbered && team.find(between_partners) == std::string_view::npos)
        return std::string(team);
    const auto start = numbered ? digits + 2 : 0;
    std::string kept;
    for (auto rest = team.substr(start); !rest.empty();) {
        const auto end = rest.find(between_partners);
        const auto one = rest.substr(0, end);
        if (!known.contains(fold_name(one)))
            kept += (kept.empty() ? "" : std::string(between_partners)) + std::string(one);
        rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + between_partners.size());
    }
    return kept.empty() ? kept : std::string(team.substr(0, start)) + kept;
}

// The line, without the end of a line; none where all of it is about the person.
std::optional<std::string> line_without(std::string_view line, const std::set<std::string>& known,
                                        const std::set<std::string>& in_teams) {
    const auto fields = parts_of(line, '\t');
    const auto [first, count] = names_in(fields);
    std::string kept;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        std::string field{fields[i]};
        if (count > 0 && i >= first && i < first + count) {
            field = known.contains(fold_name(field)) ? "" : team_without(field, in_teams);
            if (field.empty() && !fields[i].empty())
                return {};
        } else if (fields[0] == "fix" && i + 1 == fields.size() && known.contains(fold_name(field))) {
            field.clear(); // who put it right
        }
        kept += (i > 0 ? "\t" : "") + field;
    }
    return kept;
}

} // namespace

std::string log_without(std::string_view log, std::string_view name) {
    const auto lines = parts_of(log, '\n');
    std::set<std::string> known{fold_name(name)};
    for (std::size_t before = 0; before != known.size();) { // until no correction adds another name
        before = known.size();
        for (const auto line : lines)
            if (const auto fields = parts_of(line, '\t'); names_in(fields).count == 2)
                if (known.contains(fold_name(fields[1])) || known.contains(fold_name(fields[2])))
                    known.insert({fold_name(fields[1]), fold_name(fields[2])});
    }
    auto in_teams = known;
    for (const auto& one : known)
        in_teams.insert(one.substr(0, one.find(' ')));
    std::string kept;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (const auto line = line_without(lines[i], known, in_teams))
            kept += *line + (i + 1 < lines.size() ? "\n" : "");
    return kept;
}

} // namespace pacecells
