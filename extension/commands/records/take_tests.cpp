// Tests that were filled in on a test day, or on a person's page that came back, into the logbook. What is new and what was
// there before is shown side by side, and nothing is written until somebody agrees.
#include "day_tests.h"
#include "dialog.h"
#include "logbook_tests.h"
#include "opened.h"

#include "pacecells/names.h"
#include "pacecells/table.h"
#include "pacecells/test_history.h"
#include "pacecells/words.h"

#include <algorithm>
#include <map>

namespace pacecells {

namespace {

using css::uno::Any;

constexpr std::string_view result_keys[] = {"time", "calories", "metres", "watts", "reps",
                                            "load", "second",   "rest_s", "damper"};

struct FilledRow {
    std::string name;
    TestCells cells;
    std::map<std::string_view, Any> values; // by key, as they go into the logbook
};

TableCell cell_of(const Any& value) {
    if (double number = 0; value >>= number)
        return number;
    const auto text = text_of(value);
    return text.empty() ? TableCell{} : TableCell{text};
}

// Rows with a result; what was set before alone is none.
std::vector<FilledRow> filled_rows(const Document& document) {
    const auto mark = find_name(document, "day_mark");
    if (!mark.is() || text_of(values_of(mark)[0][0]) != "pacecells.tests")
        throw Refusal{tr("This file has no tests to take in. Choose the sheet of a test day, or a person's page.")};
    const auto date = values_of(named_range(document, "day_date"))[0][0];
    const DayTable table(document);
    std::vector<FilledRow> rows;
    for (sal_Int32 row = 0; row < table.rows(); ++row) {
        FilledRow filled;
        filled.name = text_of(table.value(row, "name"));
        std::size_t given = 0;
        for (const auto key : result_keys) {
            const auto value = table.value(row, key);
            filled.values[key] = value;
            given += !blank(value) && key != "damper" ? 1 : 0;
        }
        const bool machine = !blank(table.value(row, "machine"));
        if (given < (machine ? 2u : 1u)) // a time alone, or a distance alone, was set before
            continue;
        filled.values["what"] = table.value(row, "what");
        filled.values["date"] = date;
        const auto of = [&](std::string_view key) { return cell_of(filled.values[key]); };
        filled.cells = {.name = filled.name,
                        .date = of("date"),
                        .what = of("what"),
                        .time = of("time"),
                        .calories = of("calories"),
                        .metres = of("metres"),
                        .watts = of("watts"),
                        .reps = of("reps"),
                        .load = of("load"),
                        .second = of("second"),
                        .rest_s = of("rest_s"),
                        .damper = of("damper"),
                        .rep_s = {},
                        .recovery = {},
                        .critical = {},
                        .reserve = {}};
        rows.push_back(std::move(filled));
    }
    return rows;
}

struct Line { // of the report
    std::string name, what, now, before, happens;
};

struct Taking {
    std::vector<FilledRow> rows; // that will be written
    std::vector<Line> lines;
};

// The newest test of the same kind before.
std::string before_it(const TestEntry& test, const std::vector<TestEntry>& own) {
    const TestEntry* last = nullptr;
    for (const auto& other : own)
        if (one_kind(other, test) && (!last || other.date > last->date))
            last = &other;
    return last ? result_text(*last) + " (" + with_date_order(date_text(last->date)) + ")" : std::string();
}

class Taker {
  public:
    Taker(Context& context, const Logbook& logbook)
        : context_(context), machines_(machine_names(logbook)), people_(names_of(people_on(logbook, today_number()))),
          names_(people_), tests_(tests_in(logbook, today_number()).people) {}

    Taking take(const std::vector<FilledRow>& rows) {
        for (const auto& row : rows)
            consider(row);
        return std::move(taking_);
    }

  private:
    // The name as the logbook writes it; empty where it stays out, with a word why.
    std::string name_for(const std::string& typed, std::string& why) {
        const auto found = names_.find(typed);
        if (found.sure())
            return people_[found.same.front()];
        if (found.same.size() > 1) {
            why = tr("left out: two people have this name");
        } else if (found.nearly.size() == 1) {
            const auto& near = people_[found.nearly.front()];
            const auto [known, fresh] = answers_.try_emplace(fold_name(typed), false);
            if (fresh)
                known->second = context_.ask(tr("%1 is not in the logbook. Is it %2?", typed, near), "Nearly");
            if (known->second)
                return near;
            why = tr("left out: not in the logbook");
        } else {
            why = tr("left out: not in the logbook");
        }
        return {};
    }

    void consider(const FilledRow& row) {
        Line line{row.name, text_of(row.values.at("what")), {}, {}, {}};
        const auto name = name_for(row.name, line.happens);
        auto cells = row.cells;
        cells.name = name.empty() ? row.name : name;
        const auto test = read_test(cells, today_number(), machines_);
        if (test)
            line.now = result_text(*test);
        if (line.happens.empty() && !test)
            line.happens = tr("left out: %1", tr(test.error()));
        if (line.happens.empty()) {
            line.name = name;
            auto& own = tests_[fold_name(name)];
            line.before = before_it(*test, own);
            if (const auto there = refused_as_there(*test, own)) {
                line.happens = tr("there already");
            } else {
                own.push_back(*test);
                line.happens = tr("new");
                for (const auto& misfit : misfits(own, today_number()))
                    if (same_subject(own[misfit.test], *test))
                        line.happens += ". " + tr(misfit.sentence);
                auto written = row;
                written.name = name;
                taking_.rows.push_back(std::move(written));
            }
        }
        taking_.lines.push_back(std::move(line));
    }

    Context& context_;
    std::vector<MachineName> machines_;
    std::vector<std::string> people_;
    NameList names_;
    std::map<std::string, std::vector<TestEntry>> tests_;
    std::map<std::string, bool> answers_;
    Taking taking_;
};

std::string summary_of(const Taking& taking) {
    return tr("New tests: %1. Left out: %2.", std::to_string(taking.rows.size()),
              std::to_string(taking.lines.size() - taking.rows.size()));
}

bool agreed(Context& context, const Taking& taking) {
    if (!context.interactive()) {
        auto text = summary_of(taking);
        for (const auto& line : taking.lines)
            text += "\n" + line.name + "; " + line.what + "; " + line.now + "; " + line.before + "; " + line.happens;
        context.say(text);
        return context.argument("Write", "true") != "false";
    }
    Dialog::Rows rows;
    for (const auto& line : taking.lines)
        rows.push_back({line.name, line.what, line.now, line.before, line.happens});
    Dialog dialog(context, tr("Take tests into the logbook"), 460);
    dialog.paragraph(summary_of(taking), 2);
    const auto table = dialog.table(tr("~Preview"), {tr("Name"), tr("Test"), tr("New"), tr("Before"), tr("Preview")},
                                    130, {10, 10, 9, 13, 22});
    const auto whole = dialog.memo("", "", 30, true); // the cells of the table may be too narrow
    dialog.watch(table);
    dialog.on_change([&, filled = false]() mutable {
        if (!filled) {
            filled = true;
            dialog.set_rows(table, rows);
            dialog.select_row(table, 0);
        }
        const auto place = dialog.selected(table);
        if (place < 0)
            return;
        const auto& line = taking.lines[static_cast<std::size_t>(place)];
        dialog.set_text(whole, tr("%1: %2", line.name, line.happens));
    });
    if (taking.rows.empty()) {
        dialog.show();
        return false;
    }
    return dialog.run(tr("~Take in"), [] { return true; });
}

void write(const Logbook& logbook, const Taking& taking) {
    Undo undo(logbook.document(), tr("Take tests into the logbook"));
    auto table = logbook.table("tests");
    for (const auto& filled : taking.rows) {
        const auto row = table.new_row();
        table.put(row, "name", filled.name);
        for (const auto& [key, value] : filled.values) {
            if (double number = 0; value >>= number)
                table.put(row, key, std::optional(number));
            else if (const auto text = text_of(value); !text.empty())
                table.put(row, key, text);
        }
    }
    undo.done();
}

void take_tests(Context& context) {
    const auto url = open_file(context, tr("Take tests into the logbook"), {{tr("Spreadsheet (.ods)"), "*.ods"}});
    if (!url)
        return;
    const auto rows = filled_rows(Opened(context, *url).document());
    if (rows.empty())
        throw Refusal{tr("There are no results in this file yet.")};
    const auto place = ask_for_logbook(context);
    if (!place)
        return;
    const Logbook logbook(context, *place, Logbook::Use::write);
    const auto taking = Taker(context, logbook).take(rows);
    if (!agreed(context, taking) || taking.rows.empty())
        return;
    logbook.keep_copy();
    write(logbook, taking);
    logbook.store();
}

const Command take_tests_command{"take-tests", take_tests};

} // namespace

} // namespace pacecells
