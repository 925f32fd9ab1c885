// A list of people, pasted or from a file, onto the roster of an event workbook. What will happen to each line is shown
// before anything is written. Whatever the list says stays a text: it never becomes a formula.
#include "dialog.h"
#include "form.h"
#include "office.h"
#include "prints.h"
#include "store.h"

#include "pacecells/clock.h"
#include "pacecells/delimited.h"
#include "pacecells/text.h"

#include <com/sun/star/text/XTextRange.hpp>

#include <algorithm>
#include <set>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

using Document = Reference<css::sheet::XSpreadsheetDocument>;

enum Column : std::size_t { name_column, division_column, status_column, group_column, goal_column };

const ColumnNames& column_names() {
    static const ColumnNames names{headings({"name", "division", "status", "group", "goal"})};
    return names;
}

std::vector<std::string> column_texts(const Document& document, std::string_view name) {
    std::vector<std::string> texts;
    for (const auto& row : values_of(named_range(document, name))) {
        rtl::OUString text;
        row[0] >>= text;
        texts.push_back(utf8(text));
    }
    return texts;
}

// A word of a list in its own spelling; nothing where the list does not have it.
std::optional<std::string> word_of(const std::vector<std::string>& list, std::string_view typed) {
    const auto found =
        std::ranges::find_if(list, [&](const auto& word) { return !word.empty() && fold(word) == fold(typed); });
    return found == list.end() ? std::nullopt : std::optional{*found};
}

struct Athlete {
    std::vector<std::string> cells; // as in Column, spelled as the workbook does
    std::string happens;            // in words
    bool added = false;
};

struct Plan {
    std::vector<Athlete> athletes;
    std::vector<std::string> unknown_columns;
    std::size_t added = 0;
    std::size_t there = 0;
    std::size_t twice = 0;
    std::size_t no_place = 0;

    [[nodiscard]] std::string summary() const {
        std::string text = tr("%1 to add, %2 already on the roster, %3 twice in the list.", std::to_string(added),
                              std::to_string(there), std::to_string(twice));
        if (no_place > 0)
            text += " " + tr("%1 find no free row.", std::to_string(no_place));
        for (const auto& column : unknown_columns)
            text += " " + tr("The column %1 is not read.", column);
        return text;
    }
};

// What the workbook knows.
struct Roster {
    explicit Roster(const Document& document)
        : names(column_texts(document, "roster_name")), divisions(column_texts(document, "division_names")),
          statuses(column_texts(document, "list_status")), groups(column_texts(document, "group_names")) {}

    std::vector<std::string> names;
    std::vector<std::string> divisions;
    std::vector<std::string> statuses;
    std::vector<std::string> groups;
};

Plan plan_for(const Roster& roster, std::string_view list) {
    Plan plan;
    const auto table = columns_of(delimited_rows(list), column_names());
    plan.unknown_columns = table.unknown;
    std::set<std::string> known;
    for (const auto& name : roster.names)
        if (!name.empty())
            known.insert(fold(name));
    const std::size_t there_before = known.size();
    std::set<std::string> seen;
    for (const auto& cells : table.rows) {
        Athlete athlete{cells, {}, false};
        const auto key = fold(cells[name_column]);
        if (key.empty()) {
            athlete.happens = tr("no name: left out");
        } else if (known.contains(key)) {
            athlete.happens = tr("already on the roster");
            ++plan.there;
        } else if (!seen.insert(key).second) {
            athlete.happens = tr("twice in the list: left out");
            ++plan.twice;
        } else if (there_before + plan.added >= roster.names.size()) {
            athlete.happens = tr("no free row");
            ++plan.no_place;
        } else {
            athlete.added = true;
            athlete.happens = tr("new");
            ++plan.added;
            const auto checked = [&](Column column, const std::vector<std::string>& words, const std::string& problem) {
                auto& cell = athlete.cells[column];
                if (cell.empty())
                    return;
                const auto word = word_of(words, cell);
                if (!word)
                    athlete.happens += "; " + problem;
                cell = word.value_or("");
            };
            checked(division_column, roster.divisions, tr("no such division: left blank"));
            checked(status_column, roster.statuses, tr("no such status: left blank"));
            checked(group_column, roster.groups, tr("no such group: left blank"));
        }
        plan.athletes.push_back(std::move(athlete));
    }
    return plan;
}

std::string file_text(const Context& context, const std::string& url) {
    auto text = decoded_text(bytes_of(context, url));
    if (!text)
        throw Refusal{tr("This file is no list in text form. Save it as CSV, or copy the cells and paste them.")};
    return *std::move(text);
}

Dialog::Rows preview(const Plan& plan) {
    Dialog::Rows rows;
    for (const auto& athlete : plan.athletes)
        rows.push_back({athlete.cells[name_column], athlete.cells[division_column], athlete.happens});
    return rows;
}

void write(const Context& context, const Roster& roster, const Plan& plan) {
    const auto document = context.document();
    const auto cell = [&](std::string_view name, sal_Int32 row) {
        return named_range(document, name)->getCellByPosition(0, row);
    };
    const auto text = [&](std::string_view name, sal_Int32 row, const std::string& value) {
        if (!value.empty())
            need<css::text::XTextRange>(cell(name, row))->setString(utf16(value)); // never a formula
    };
    Undo undo(document, tr("Add athletes"));
    std::size_t row = 0;
    for (const auto& athlete : plan.athletes) {
        if (!athlete.added)
            continue;
        while (!roster.names[row].empty())
            ++row;
        const auto at = static_cast<sal_Int32>(row++);
        text("roster_name", at, athlete.cells[name_column]);
        text("roster_division", at, athlete.cells[division_column]);
        text("roster_status", at, athlete.cells[status_column]);
        text("roster_group", at, athlete.cells[group_column]);
        const auto& goal = athlete.cells[goal_column];
        if (const auto rounds = typed_number(goal))
            cell("roster_goal", at)->setValue(*rounds);
        else if (const auto time = parse_clock(goal))
            cell("roster_goal_time", at)->setValue(time->value() / 86400);
        else
            text("roster_goal", at, goal);
    }
    fit_prints(document);
    undo.done();
}

void add_athletes(Context& context) {
    const Roster roster(context.document()); // refused in a workbook without a roster
    Plan plan;
    if (context.interactive()) {
        Dialog dialog(context, tr("Add athletes"), 320);
        dialog.paragraph(
            tr("Paste a list: one athlete a line. With a heading (name, division, status, group, goal) the "
               "columns may stand in any order."),
            2);
        const auto list = dialog.memo(tr("~List"), "", 80, false);
        const auto table =
            dialog.table(tr("What will happen"), {tr("Name"), tr("Division"), tr("What will happen")}, 90);
        const auto summary = dialog.line();
        dialog.button(tr("~From a file…"), [&] {
            const auto url =
                open_file(context, tr("A list of athletes"), {{tr("Lists (CSV, text)"), "*.csv;*.txt;*.tsv"}});
            if (url)
                dialog.set_text(list, file_text(context, *url));
        });
        dialog.on_change([&] {
            plan = plan_for(roster, dialog.text(list));
            dialog.set_rows(table, preview(plan));
            dialog.set_text(summary, plan.athletes.empty() ? std::string() : plan.summary());
        });
        const auto accept = [&] {
            plan = plan_for(roster, dialog.text(list));
            if (plan.added == 0)
                dialog.set_text(summary, tr("There is nobody to add yet.") + " " + plan.summary());
            return plan.added > 0;
        };
        if (!dialog.run(tr("~Add"), accept))
            return;
    } else {
        const bool from_file = context.argument("File").has_value();
        const auto url = from_file ? open_file(context, {}, {}) : std::nullopt;
        plan = plan_for(roster, url ? file_text(context, *url) : context.argument("List", ""));
        if (plan.added == 0)
            throw Refusal{plan.athletes.empty() ? tr("There is nobody to add yet.") : plan.summary()};
    }
    write(context, roster, plan);
    std::string report = plan.summary();
    for (const auto& athlete : plan.athletes)
        if (!athlete.added || athlete.happens != tr("new"))
            report += "\n" + athlete.cells[name_column] + ": " + athlete.happens;
    context.say(report);
}

const Command command{"add-athletes", add_athletes};

} // namespace

} // namespace pacecells
