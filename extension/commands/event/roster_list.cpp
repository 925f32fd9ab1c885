#include "roster_list.h"

#include "dialog.h"
#include "form.h"

#include "pacecells/announcement.h"
#include "pacecells/clock.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

namespace {

// The words of a list that nobody can read, each once.
std::vector<std::pair<const RosterChoice*, std::string>> unread(const Roster& roster, const ColumnTable& list) {
    std::vector<std::pair<const RosterChoice*, std::string>> words;
    std::set<std::pair<RosterColumn, std::string>> known;
    for (const auto& cells : list.rows)
        for (const auto& choice : roster.choices)
            if (const auto& cell = cells[choice.column]; !cell.empty() && !cells[name_column].empty() &&
                                                         !choice.read(cell) &&
                                                         known.emplace(choice.column, fold_name(cell)).second)
                words.emplace_back(&choice, cell);
    return words;
}

// What is meant by a word; nothing where the person does not want to say. Without windows the argument Meaning answers:
// "injured=not today;rx=as written".
std::optional<std::string> asked(Context& context, const RosterChoice& choice, const std::string& word) {
    const auto question = choice.question(word);
    if (!context.interactive()) {
        const auto given = context.argument("Meaning", "");
        for (const auto& answer : delimited_rows(given.empty() ? "" : given + ";"))
            for (const auto& one : answer)
                if (const auto equals = one.find('=');
                    equals != std::string::npos && same_name(one.substr(0, equals), word)) {
                    const std::string meant(trim(one.substr(equals + 1)));
                    if (meant.empty() && choice.may_be_blank)
                        return meant;
                    if (const auto read = choice.read(meant))
                        return read;
                }
        throw Refusal{question};
    }
    std::vector<std::string> items;
    for (const auto& item : choice.words)
        if (!item.empty())
            items.push_back(item);
    if (choice.may_be_blank)
        items.push_back(tr("left blank"));
    Dialog dialog(context, tr("Add athletes"), 260, 80, 140);
    dialog.paragraph(question, 2);
    // the most careful answer first: not today, or blank
    const auto field = dialog.choice(tr("~Meant is"), items, static_cast<int>(items.size()) - 1);
    if (!dialog.run(tr("~Take it so"), [] { return true; }))
        return std::nullopt;
    const auto chosen = static_cast<std::size_t>(dialog.selected(field));
    return choice.may_be_blank && chosen + 1 == items.size() ? std::string() : items[chosen];
}

} // namespace

std::optional<std::string> RosterChoice::read(const std::string& typed) const {
    const auto found =
        std::ranges::find_if(words, [&](const auto& word) { return !word.empty() && same_name(word, typed); });
    if (found != words.end())
        return *found;
    if (column == division_column)
        return meant_division(typed, words);
    if (column != plan_column)
        return std::nullopt;
    const auto place = find_word(WordList::day_plan, typed); // in any language
    return place && *place < words.size() ? std::optional(words[*place]) : std::nullopt;
}

std::string RosterChoice::question(const std::string& typed) const {
    const auto given = pacecells::quoted(typed);
    if (column == division_column)
        return tr("%1 is not one of the divisions. What is meant?", given);
    if (column == plan_column)
        return tr("%1 is not a plan for the day. What is meant?", given);
    return tr("%1 is not one of the pace groups. What is meant?", given);
}

Roster::Roster(const EventCells& event)
    : choices{{{division_column, event.texts("list_divisions"), true},
               {plan_column, event.texts("list_plan"), false},
               {group_column, event.texts("list_groups"), true}}} {
    for (const auto& [key, rows] : rows_by_name(event.values("roster_name")))
        names.insert(key);
    // A row that somebody left keeps what was typed for them: it is not for the next person.
    const auto people = event.values("roster_people");
    const auto keys = event.texts("roster_keys");
    for (sal_Int32 row = 0; row < people.getLength(); ++row) {
        bool free = true;
        for (sal_Int32 column = 0; column < people[row].getLength(); ++column)
            free &= keys[static_cast<std::size_t>(column)] == "twice" ||
                    keys[static_cast<std::size_t>(column)] == "team_plan" || blank(people[row][column]);
        if (free)
            free_rows.push_back(row);
    }
}

std::string RosterPlan::summary() const {
    std::string text = tr("%1 to add, %2 already on the roster, %3 twice in the list.", std::to_string(added),
                          std::to_string(there), std::to_string(twice));
    if (no_place > 0)
        text += " " + tr("No free row for %1.", std::to_string(no_place));
    for (const auto& column : unknown_columns)
        text += " " + tr("The column %1 is not read.", column);
    return text;
}

std::vector<std::string> RosterPlan::names() const {
    std::vector<std::string> all;
    for (const auto& athlete : athletes)
        if (athlete.added)
            all.push_back(athlete.cells[name_column]);
    return all;
}

std::string RosterPlan::report() const {
    std::string text = summary();
    for (const auto& athlete : athletes)
        if (!athlete.added || athlete.happens != tr("new"))
            text += "\n" + athlete.cells[name_column] + ": " + athlete.happens;
    return text;
}

RosterPlan plan_for(const Roster& roster, const ColumnTable& list, const Meanings& meanings) {
    RosterPlan plan;
    plan.unknown_columns = list.unknown;
    std::set<std::string> seen;
    for (const auto& cells : list.rows) {
        ListedAthlete athlete{cells, {}, false};
        const auto key = fold_name(cells[name_column]);
        if (key.empty()) {
            athlete.happens = tr("no name: skipped");
        } else if (roster.names.contains(key)) {
            athlete.happens = tr("already on the roster");
            ++plan.there;
        } else if (!seen.insert(key).second) {
            athlete.happens = tr("twice in the list: skipped");
            ++plan.twice;
        } else if (plan.added >= roster.free_rows.size()) {
            athlete.happens = tr("no free row");
            ++plan.no_place;
        } else {
            athlete.added = true;
            athlete.happens = tr("new");
            athlete.row = roster.free_rows[plan.added++];
            for (const auto& choice : roster.choices) {
                auto& cell = athlete.cells[choice.column];
                if (cell.empty())
                    continue;
                if (const auto word = choice.read(cell)) {
                    cell = *word;
                } else if (const auto meant = meanings.find({choice.column, fold_name(cell)});
                           meant != meanings.end()) {
                    athlete.happens += "; " + pacecells::quoted(cell) + ": " +
                                       (meant->second.empty() ? tr("left blank") : meant->second);
                    cell = meant->second;
                } else {
                    athlete.happens += "; " + choice.question(cell);
                }
            }
        }
        plan.athletes.push_back(std::move(athlete));
    }
    return plan;
}

bool ask_all(Context& context, const Roster& roster, const ColumnTable& list, Meanings& meanings) {
    for (const auto& [choice, word] : unread(roster, list)) {
        if (meanings.contains({choice->column, fold_name(word)}))
            continue;
        const auto meant = asked(context, *choice, word);
        if (!meant)
            return false;
        meanings[{choice->column, fold_name(word)}] = *meant;
    }
    return true;
}

void write_people(const EventCells& event, const RosterPlan& plan) {
    const auto name = event.at("roster_name");
    const auto division = event.at("roster_division");
    const auto day_plan = event.at("roster_plan");
    const auto group = event.at("roster_group");
    const auto goal = event.at("roster_goal");
    const auto team = event.find("roster_team");
    const auto text = [](const Range& range, sal_Int32 row, const std::string& value) {
        if (!value.empty())
            put_text(range, 0, row, value);
    };
    for (const auto& athlete : plan.athletes) {
        if (!athlete.added)
            continue;
        text(name, athlete.row, athlete.cells[name_column]);
        text(division, athlete.row, athlete.cells[division_column]);
        text(day_plan, athlete.row, athlete.cells[plan_column]);
        text(group, athlete.row, athlete.cells[group_column]);
        const auto& own = athlete.cells[goal_column];
        if (const auto rounds = typed_number(own))
            put_number(goal, 0, athlete.row, *rounds);
        else if (const auto time = parse_clock(own))
            put_number(goal, 0, athlete.row, time->value() / 86400);
        else
            text(goal, athlete.row, own);
        if (team.is()) // the workbook of an older package has none
            text(team, athlete.row, athlete.cells[team_column]);
    }
}

} // namespace pacecells
