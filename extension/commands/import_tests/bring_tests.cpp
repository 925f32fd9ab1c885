// Results of tests into the event workbook, by name: from another event, an older tests workbook, or a list as CSV. What will happen
// is shown before anything is written. A machine's values, and a movement's, are taken over together or not at all:
// values of two different tests never stand side by side.
#include "dialog.h"
#include "prints.h"
#include "tests_plan.h"

#include <com/sun/star/frame/XModel.hpp>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

std::string report(const TestPlan& plan) {
    auto text = plan.summary;
    for (const auto& line : plan.lines) {
        text += "\n" + tr("%1: %2", line.name, line.happens);
        for (const auto& detail : line.details)
            text += "; " + detail;
    }
    return text;
}

Dialog::Rows table_of(const TestPlan& plan) {
    Dialog::Rows rows;
    for (const auto& line : plan.lines) {
        rows.push_back({line.name, line.happens, line.details.empty() ? "" : line.details.front()});
        for (std::size_t i = 1; i < line.details.size(); ++i)
            rows.push_back({"", "", line.details[i]});
    }
    return rows;
}

bool agreed(Context& context, const TestPlan& plan) {
    if (!context.interactive()) {
        context.say(report(plan));
        return context.argument("Write", "true") != "false";
    }
    Dialog dialog(context, tr("Import test results"), 420);
    dialog.paragraph(plan.summary, 3);
    const auto table = dialog.table(tr("~Preview"), {tr("Name"), tr("In the file"), tr("Results")}, 150, {10, 9, 24});
    dialog.on_change([&] { dialog.set_rows(table, table_of(plan)); });
    if (plan.empty()) {
        dialog.show();
        return false;
    }
    return dialog.run(tr("~Import"), [] { return true; });
}

// Screens wait until all is written.
class Quiet {
  public:
    explicit Quiet(const Document& document) : model_(need<css::frame::XModel>(document)) { model_->lockControllers(); }
    ~Quiet() {
        try {
            model_->unlockControllers();
        } catch (const css::uno::Exception&) { // closed meanwhile
        }
    }
    Quiet(const Quiet&) = delete;
    Quiet& operator=(const Quiet&) = delete;

  private:
    Reference<css::frame::XModel> model_;
};

void write(const EventCells& event, const TestPlan& plan) {
    const auto& document = event.document();
    const Quiet quiet(document);
    Undo undo(document, tr("Import test results"));
    write_tests(event, plan);
    fit_prints(document);
    undo.done();
}

void bring_tests(Context& context) {
    const EventCells event(context.document());
    const auto url = open_file(context, tr("Import test results"),
                               {{tr("Test results"), "*.ods;*.xlsx;*.csv;*.txt"}, {tr("All files"), "*.*"}});
    if (!url)
        return;
    const auto file = read_results(context, *url);
    if (file.people.empty())
        throw Refusal{tr("There are no names in this file.")};
    const auto plan = plan_tests(event, file);
    if (agreed(context, plan) && !plan.empty())
        write(event, plan);
}

const Command bring_tests_command{"bring-tests", bring_tests};

} // namespace

} // namespace pacecells
