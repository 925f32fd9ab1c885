#include "results_plan.h"

#include "pacecells/names.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace pacecells {

namespace {

struct Label {
    std::string_view key;
    ShownText text;
};
constexpr Label labels[] = {{"division", "division"},
                            {"plan", "plan"},
                            {"result", "result"},
                            {"place", "place"},
                            {"goal", "goal"},
                            {"planned", "predicted"},
                            {"low", "lowest"},
                            {"high", "highest"},
                            {"clocks", "clocks"},
                            {"answer", "could go on"},
                            {"machine", "ergometer"},
                            {"score", "score"},
                            {"erg_cal", "calories per round"},
                            {"erg_times", "ergometer times"},
                            {"held", "held on the ergometer"},
                            {"share", "share of the watts alone"},
                            {"ratio", "watts held / promised"},
                            {"ratio_sd", "how sure: ±"}};

std::string shown(const LogbookValue& value) {
    return value.number ? with_decimal_mark(number_text(std::round(*value.number * 100) / 100)) : value.text;
}

bool same_value(const LogbookTable& table, sal_Int32 row, std::string_view key, const LogbookValue& value) {
    if (value.number) {
        const auto number = table.number(row, key);
        return number && std::abs(*number - *value.number) <= 1e-9 * std::max(1.0, std::abs(*value.number));
    }
    return table.text(row, key) == value.text;
}

std::vector<std::string_view> parts_of(std::string_view text) {
    std::vector<std::string_view> parts;
    for (std::size_t from = 0; from < text.size();) {
        const auto to = std::min(text.find(' ', from), text.size());
        if (to > from)
            parts.push_back(text.substr(from, to - from));
        from = to + 1;
    }
    return parts;
}

// Of a list of clocks only what differs, each with its round: two whole lists are too long to compare by eye.
std::string differing(std::string_view old, std::string_view fresh) {
    constexpr std::size_t most_shown = 3;
    constexpr std::string_view none = "\xE2\x80\x93";
    const auto before = parts_of(old);
    const auto after = parts_of(fresh);
    std::string all;
    std::size_t count = 0;
    for (std::size_t k = 0; k < std::max(before.size(), after.size()); ++k) {
        const auto was = k < before.size() ? before[k] : none;
        const auto is = k < after.size() ? after[k] : none;
        if (was == is)
            continue;
        if (++count <= most_shown)
            all += std::string(all.empty() ? "" : ", ") + tr("round %1", std::to_string(k + 1)) + " " +
                   std::string(was) + " \xE2\x86\x92 " + std::string(is);
    }
    return all + (count > most_shown ? " \xE2\x80\xA6" : "");
}

std::string differences(const LogbookTable& table, sal_Int32 row, const LogbookRow& values) {
    std::string all;
    for (const auto& [key, value] : values) {
        if (same_value(table, row, key, value))
            continue;
        const auto* label = std::ranges::find(labels, key, &Label::key);
        const auto number = table.number(row, key);
        const auto old = shown({number ? std::string() : table.text(row, key), number});
        all += (all.empty() ? "" : ", ") + (label == std::end(labels) ? std::string(key) : tr(label->text)) + " " +
               ((key == "clocks" || key == "erg_times") && !old.empty() && !value.text.empty()
                    ? differing(old, value.text)
                    : (old.empty() ? tr("blank") : old) + " \xE2\x86\x92 " +
                          (shown(value).empty() ? tr("blank") : shown(value)));
    }
    return all;
}

bool of_event(const LogbookTable& table, sal_Int32 row, const EventResults& event) {
    return table.number(row, "date") == event.date && same_name(table.text(row, "event"), event.title);
}

std::size_t count_of(const std::vector<ResultLine>& lines, bool (*that)(const ResultLine&)) {
    return static_cast<std::size_t>(std::ranges::count_if(lines, that));
}

} // namespace

ResultsPlan plan_results(const ResultTables& tables, const EventResults& event) {
    ResultsPlan plan;
    std::vector<std::string> names;
    for (const auto row : tables.people.rows())
        names.push_back(tables.people.text(row, "name"));
    const NameList people(names);
    std::map<std::string, std::vector<sal_Int32>> there; // results of this event by person
    for (const auto row : tables.results.rows())
        if (of_event(tables.results, row, event))
            there[fold_name(tables.results.text(row, "name"))].push_back(row);
    for (const auto row : tables.events.rows())
        if (of_event(tables.events, row, event))
            plan.event_row = row;
    for (const auto& person : event.people) {
        ResultLine line{&person};
        const auto match = people.find(person.name);
        const auto found = there.find(fold_name(person.name));
        if (match.same.size() > 1) {
            line.happens = tr("left out: in the logbook twice");
        } else if (found != there.end() && found->second.size() > 1) {
            line.happens = tr("left out: two results of this event in the logbook");
        } else if (match.same.empty() && !match.nearly.empty()) {
            line.happens = tr("left out: is this %1 of the logbook? Write the name alike, or add the person there.",
                              names[match.nearly.front()]);
        } else if (found != there.end()) {
            line.row = found->second.front();
            line.differences = differences(tables.results, *line.row, person.row);
            line.differs = !line.differences.empty();
            line.happens = line.differs ? tr("changed") : tr("unchanged");
        } else {
            line.differs = true;
            line.new_person = match.same.empty();
            line.happens = line.new_person ? tr("new, new person") : tr("new");
            for (const auto& [key, value] : person.row)
                if (key == "result" || key == "clocks")
                    line.differences += (line.differences.empty() ? "" : ", ") + shown(value);
                else if (key == "ratio" && value.number)
                    line.differences += ", " + tr("watts held / promised") + " " + shown(value);
        }
        plan.lines.push_back(std::move(line));
    }
    std::set<std::string> known;
    for (const auto row : tables.movements.rows())
        known.insert(fold_name(tables.movements.text(row, "name")));
    for (const auto& movement : event.movements)
        if (known.insert(fold_name(movement.front().second.text)).second)
            plan.movements.push_back(&movement);
    return plan;
}

void put(LogbookTable& table, sal_Int32 row, const LogbookRow& values) {
    for (const auto& [key, value] : values)
        if (value.number || value.text.empty())
            table.put(row, key, value.number);
        else
            table.put(row, key, value.text);
}

void write_results(ResultTables& tables, const ResultsPlan& plan, const EventResults& event, bool with_movements) {
    if (!plan.event_row || !differences(tables.events, *plan.event_row, event.event).empty())
        put(tables.events, plan.event_row ? *plan.event_row : tables.events.new_row(), event.event);
    for (const auto& line : plan.lines) {
        if (!line.written())
            continue;
        put(tables.results, line.row ? *line.row : tables.results.new_row(), line.person->row);
        if (line.new_person)
            put(tables.people, tables.people.new_row(),
                {{"name", {line.person->name, {}}},
                 {"division", {line.person->division, {}}},
                 {"group", {line.person->group, {}}}});
    }
    if (with_movements)
        for (const auto* movement : plan.movements)
            put(tables.movements, tables.movements.new_row(), *movement);
}

std::size_t ResultsPlan::fresh() const {
    return count_of(lines, [](const ResultLine& line) { return line.written() && !line.row; });
}

std::size_t ResultsPlan::changed() const {
    return count_of(lines, [](const ResultLine& line) { return line.written() && line.row; });
}

std::string ResultsPlan::summary() const {
    const auto same = count_of(lines, [](const ResultLine& line) { return !line.differs && line.row; });
    const auto left_out = lines.size() - fresh() - changed() - same;
    auto text = tr("%1 new, %2 changed, %3 unchanged.", std::to_string(fresh()), std::to_string(changed()),
                   std::to_string(same));
    if (left_out > 0)
        text += " " + tr("%1 left out.", std::to_string(left_out));
    return text;
}

std::string ResultsPlan::report() const {
    auto text = summary();
    for (const auto& line : lines)
        if (line.happens != tr("unchanged"))
            text += "\n" + line.person->name + ": " + (line.refused ? tr("left out") : line.happens) +
                    (line.differences.empty() ? "" : "; " + line.differences);
    return text;
}

void ResultsPlan::refuse(const std::string& names) {
    std::string_view rest = names;
    while (!rest.empty()) {
        const auto end = std::min(rest.find(';'), rest.size());
        for (auto& line : lines)
            line.refused |= line.differs && same_name(rest.substr(0, end), line.person->name);
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
}

} // namespace pacecells
