// A list of people, pasted or from a file, onto the roster of an event workbook. What will happen to each line is shown
// before anything is written. Whatever the list says stays a text: it never becomes a formula.
#include "dialog.h"
#include "from_logbook.h"
#include "prints.h"
#include "roster_list.h"
#include "store.h"

#include "pacecells/delimited.h"

namespace pacecells {

namespace {

const ColumnNames& column_names() {
    static const ColumnNames names{headings({"name", "division", "status", "group", "goal", "team"})};
    return names;
}

ColumnTable people_of(std::string_view list) { return columns_of(delimited_rows(list), column_names()); }

std::string file_text(const Context& context, const std::string& url) {
    auto text = decoded_text(bytes_of(context, url));
    if (!text)
        throw Refusal{tr("This file is not a text list. Save it as CSV, or copy the cells and paste them.")};
    return *std::move(text);
}

Dialog::Rows preview(const RosterPlan& plan) {
    Dialog::Rows rows;
    for (const auto& athlete : plan.athletes)
        rows.push_back({athlete.cells[name_column], athlete.cells[division_column], athlete.happens});
    return rows;
}

// The list in a window; false where nothing is to be done.
bool plan_in_window(Context& context, const Roster& roster, RosterPlan& plan) {
    Dialog dialog(context, tr("Add athletes"), 400);
    dialog.paragraph(
        tr("Paste a list: one athlete per line. With a heading (name, division, plan, group, goal, team) the "
           "columns may be in any order."),
        2);
    const auto list = dialog.memo(tr("~List"), "", 80, false);
    const auto table = dialog.table(tr("Preview"), {tr("Name"), tr("Division"), tr("Preview")}, 90, {4, 3, 12});
    const auto summary = dialog.line();
    Meanings meanings;
    dialog.button(tr("~From a file…"), [&] {
        const auto url = open_file(context, tr("A list of athletes"), {{tr("Lists (CSV, text)"), "*.csv;*.txt;*.tsv"}});
        if (url)
            dialog.set_text(list, file_text(context, *url));
    });
    dialog.on_change([&] {
        plan = plan_for(roster, people_of(dialog.text(list)), meanings);
        dialog.set_rows(table, preview(plan));
        dialog.set_text(summary, plan.athletes.empty() ? std::string() : plan.summary());
    });
    return dialog.run(tr("~Add"), [&] {
        if (!ask_all(context, roster, people_of(dialog.text(list)), meanings))
            return false;
        plan = plan_for(roster, people_of(dialog.text(list)), meanings);
        if (plan.added == 0)
            dialog.set_text(summary, tr("There is nobody to add yet.") + " " + plan.summary());
        return plan.added > 0;
    });
}

void add_athletes(Context& context) {
    const EventCells event(context.document()); // refused in a workbook without a roster
    const Roster roster(event);
    RosterPlan plan;
    if (context.interactive()) {
        if (!plan_in_window(context, roster, plan))
            return;
    } else {
        const bool from_file = context.argument("File").has_value();
        const auto url = from_file ? open_file(context, {}, {}) : std::nullopt;
        const auto list = people_of(url ? file_text(context, *url) : context.argument("List", ""));
        Meanings meanings;
        if (!ask_all(context, roster, list, meanings))
            return;
        plan = plan_for(roster, list, meanings);
        if (plan.added == 0)
            throw Refusal{plan.athletes.empty() ? tr("There is nobody to add yet.") : plan.summary()};
    }
    Undo undo(event.document(), tr("Add athletes"));
    write_people(event, plan);
    const auto logbook = logbook_to_take_from(context);
    const auto known = logbook ? complete_people(event, *logbook, plan.names()) : std::string();
    fit_prints(event.document());
    undo.done();
    context.say(plan.report() + (known.empty() ? "" : "\n" + known));
}

const Command command{"add-athletes", add_athletes};

} // namespace

} // namespace pacecells
