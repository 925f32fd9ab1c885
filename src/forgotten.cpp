#include "pacecells/forgotten.h"

#include "pacecells/words.h"

#include <set>
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

// The fields of a line that hold names of athletes.
std::vector<std::string_view> names_in(std::string_view line) {
    const auto fields = parts_of(line, '\t');
    const bool holds_one = (fields[0] == "lane" || fields[0] == "set") && fields.size() > 2;
    if (holds_one)
        return {fields[2]};
    if (fields[0] == "name" && fields.size() == 3)
        return {fields[1], fields[2]};
    return {};
}

} // namespace

std::string log_without(std::string_view log, std::string_view name) {
    const auto lines = parts_of(log, '\n');
    std::set<std::string> known{fold_name(name)};
    for (std::size_t before = 0; before != known.size();) { // until no correction adds another name
        before = known.size();
        for (const auto line : lines)
            if (const auto names = names_in(line); names.size() == 2)
                if (known.contains(fold_name(names[0])) || known.contains(fold_name(names[1])))
                    for (const auto one : names)
                        known.insert(fold_name(one));
    }
    std::string kept;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        bool about = false;
        for (const auto one : names_in(lines[i]))
            about = about || known.contains(fold_name(one));
        if (!about)
            kept += std::string(lines[i]) + (i + 1 < lines.size() ? "\n" : "");
    }
    return kept;
}

} // namespace pacecells
