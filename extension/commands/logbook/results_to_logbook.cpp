// The results of an event into the logbook. What is there is shown beside what is new before anything is written; the
// same results a second time change nothing.
#include "dialog.h"
#include "results_plan.h"

namespace pacecells {

namespace {

// One after the other: yes or no.
void ask_each(Context& context, ResultsPlan& plan) {
    std::string refused;
    for (const auto& line : plan.lines)
        if (line.written && !context.ask(line.person->name + ": " + line.happens + "\n" + line.differences + "\n\n" +
                                             tr("Take it over into the logbook?"),
                                         "Each"))
            refused += line.person->name + ";";
    plan.leave_out(refused);
}

bool agreed_in_window(Context& context, ResultsPlan& plan, bool& with_movements) {
    Dialog dialog(context, tr("Results to the logbook"), 440, 100, 150);
    dialog.paragraph(plan.summary(), 1);
    const auto table = dialog.table(tr("~Preview"), {tr("Name"), tr("Preview"), tr("In the logbook → in the event")},
                                    150, {10, 10, 24});
    Dialog::Rows rows;
    for (const auto& line : plan.lines)
        rows.push_back({line.person->name, line.happens, line.differences});
    dialog.on_change([&] { dialog.set_rows(table, rows); });
    const auto which = dialog.choice(tr("~Take over"), {tr("all that is new or changed"), tr("asked for each person")});
    std::optional<Dialog::Field> movements;
    if (!plan.movements.empty()) {
        std::string names;
        for (const auto* movement : plan.movements)
            names += (names.empty() ? "" : ", ") + movement->front().second.text;
        movements = dialog.choice(tr("New ~movements"), {tr("add to the logbook"), tr("leave out")}, 0, names);
    }
    bool each = false;
    if (!dialog.run(tr("~Save"), [&] {
            each = dialog.selected(which) == 1;
            with_movements = movements && dialog.selected(*movements) == 0;
            return true;
        }))
        return false;
    if (each)
        ask_each(context, plan);
    return !plan.empty();
}

void results_to_logbook(Context& context) {
    const EventCells cells(context.document());
    const auto event = results_of(cells);
    const auto url = ask_for_logbook(context);
    if (!url)
        return;
    const Logbook logbook(context, *url, Logbook::Use::write);
    ResultTables tables(logbook);
    auto plan = plan_results(tables, event);
    bool with_movements = context.argument("Movements", "true") == "true";
    if (context.interactive()) {
        if (plan.empty())
            context.say(plan.report());
        if (plan.empty() || !agreed_in_window(context, plan, with_movements))
            return;
    } else {
        plan.leave_out(context.argument("LeaveOut", ""));
        context.say(plan.report());
        if (plan.empty() || context.argument("Write", "true") == "false")
            return;
    }
    logbook.keep_copy();
    {
        Undo undo(logbook.document(), tr("Results to the logbook"));
        write_results(tables, plan, event, with_movements);
        undo.done();
    }
    logbook.store();
}

const Command results_to_logbook_command{"results-to-logbook", results_to_logbook};

} // namespace

} // namespace pacecells
