// The results of an event into the logbook. What is there is shown beside what is new before anything is written; the
// same results a second time change nothing.
#include "dialog.h"
#include "results_plan.h"

#include <algorithm>

namespace pacecells {

namespace {

std::vector<std::string> row_of(const ResultLine& line) {
    return {line.person->name, line.differs ? tr(line.refused ? ShownText("no") : ShownText("yes")) : "", line.happens,
            line.differences};
}

// Each person's result is taken over or not: the button says no to the selected person, or yes again.
class Window {
  public:
    Window(Context& context, ResultsPlan& plan)
        : plan_(plan), dialog_(context, tr("Results to the logbook"), 500, 100, 150), summary_(dialog_.line()),
          table_(dialog_.table(tr("~Preview"),
                               {tr("Name"), tr("Take over"), tr("What"), tr("In the logbook → in the event")}, 150,
                               {10, 5, 9, 32})),
          whole_(dialog_.memo("", "", 30, true)) {
        dialog_.watch(table_);
        if (!plan.movements.empty()) {
            std::string names;
            for (const auto* movement : plan.movements)
                names += (names.empty() ? "" : ", ") + movement->front().second.text;
            movements_ = dialog_.choice(tr("New ~movements"), {tr("add to the logbook"), tr("leave out")}, 0, names);
        }
        dialog_.button(tr("~Yes or no"), [this] {
            if (const auto place = dialog_.selected(table_); place >= 0)
                turn(static_cast<std::size_t>(place), !plan_.lines[static_cast<std::size_t>(place)].refused);
            dialog_.focus(table_);
        });
        dialog_.button(tr("~All: yes or no"), [this] {
            const bool none = plan_.empty();
            for (std::size_t place = 0; place < plan_.lines.size(); ++place)
                turn(place, !none);
            dialog_.focus(table_);
        });
        dialog_.on_change([this] { show(); });
    }

    bool agreed(bool& with_movements) {
        return dialog_.run(tr("~Save"), [&] {
            with_movements = movements_ && dialog_.selected(*movements_) == 0;
            return true;
        });
    }

  private:
    void turn(std::size_t place, bool refused) {
        auto& line = plan_.lines[place];
        line.refused = refused && line.differs;
        dialog_.set_row(table_, static_cast<int>(place), row_of(line));
    }

    void show() {
        if (!filled_) {
            Dialog::Rows rows;
            std::ranges::transform(plan_.lines, std::back_inserter(rows), row_of);
            dialog_.set_rows(table_, rows);
            dialog_.select_row(table_, 0);
            filled_ = true;
        }
        dialog_.set_text(summary_, plan_.summary());
        const auto place = dialog_.selected(table_); // the cells of the table may be too narrow
        if (place < 0)
            return;
        const auto& line = plan_.lines[static_cast<std::size_t>(place)];
        dialog_.set_text(whole_, line.person->name + ": " + line.happens + "\n" + line.differences);
    }

    ResultsPlan& plan_;
    Dialog dialog_;
    Dialog::Field summary_, table_, whole_;
    std::optional<Dialog::Field> movements_;
    bool filled_ = false;
};

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
        if (plan.empty() || !Window(context, plan).agreed(with_movements) || plan.empty())
            return;
    } else {
        plan.refuse(context.argument("LeaveOut", ""));
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
