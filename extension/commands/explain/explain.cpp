// How the value of a cell came about, in words: each of our functions in its formula with what went in, what came out
// and where the calculation comes from; for an error, what was got and what is needed. A formula without them that
// takes its value from other cells is followed to those.
//
// Nothing is imitated: the formula is calculated once more by the office itself, in a Scratch, while a Trace notes what
// our functions were asked and answered. The document of the person is only read.
#include "dialog.h"
#include "form.h"
#include "formula.h"
#include "formula_cells.h"
#include "help.h"
#include "plan_reasons.h"
#include "shown.h"
#include "trace.h"

#include "pacecells/text.h"

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

#include <algorithm>
#include <cmath>
#include <set>

namespace pacecells {

namespace {

using css::table::CellAddress;
using css::table::CellRangeAddress;
using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using rtl::OUString;

constexpr std::size_t most_calls = 12; // of one formula, that someone reads
constexpr std::size_t longest_formula = 240;
constexpr std::size_t longest_argument = 60;
constexpr int most_places = 3; // cells whose functions are explained
constexpr int most_steps = 8;  // from the cell asked about

bool single(const CellRangeAddress& range) {
    return range.StartColumn == range.EndColumn && range.StartRow == range.EndRow;
}

CellRangeAddress first_of(const CellRangeAddress& range) {
    return {range.Sheet, range.StartColumn, range.StartRow, range.StartColumn, range.StartRow};
}

class Explanation {
  public:
    Explanation(const Context& context, FormulaPlace place)
        : context_(context), document_(context.document()), asked_about_(place.cell), references_(document_),
          scratch_(context, document_, references_), place_(std::move(place)) {}

    // Nothing where none of our functions had a part in it.
    [[nodiscard]] std::optional<std::string> text() {
        const auto start = place_;
        return follow(start, 0);
    }
    // The first function explained.
    [[nodiscard]] const std::string& function() const { return function_; }
    // The cells that values came from, with what each is there for.
    [[nodiscard]] const std::vector<ReasonLine>& sources() const { return sources_; }

  private:
    std::optional<std::string> follow(const FormulaPlace& place, int steps) {
        const auto key = std::make_tuple(place.cell.Sheet, place.cell.Column, place.cell.Row);
        if (places_ >= most_places || steps > most_steps || !seen_.insert(key).second)
            return std::nullopt;
        const auto cell = cell_at(document_, place.cell);
        OUString typed; // as it stands in the office's language
        get_property(cell, "FormulaLocal") >>= typed;
        const auto head = tr("%1 shows %2", name_of(place.cell), shown_in(cell)) + "\n" +
                          shortened(utf8(typed), longest_formula) + "\n";
        scratch_.bring(place);
        if (const auto calls = find_calls(place.text); !calls.empty()) {
            ++places_;
            return head + explain(place, calls);
        }
        std::string below;
        for (const auto& next : sources(place))
            if (const auto text = follow(next, steps + 1))
                below += "\n" + *text;
        return below.empty() ? std::nullopt : std::optional(head + below);
    }

    // The cells that a formula without our functions takes its value from: the one that it stands for as a whole, such
    // as =IF(…;A1;B1), or those that its INDEX(…) picks and the single ones, as far as they calculate.
    std::vector<FormulaPlace> sources(const FormulaPlace& place) {
        std::vector<FormulaPlace> found;
        const auto add = [&](const CellAddress& cell) {
            if (auto next = FormulaPlace::at(document_, cell))
                found.push_back(std::move(*next));
        };
        if (const auto cell = picked(place, place.text))
            add(*cell);
        if (!found.empty())
            return found;
        for (const auto& part : calls_of(place.text, "INDEX"))
            if (const auto cell = picked(place, part))
                add(*cell);
        for (const auto& range : references_.of(place.text, place.start()))
            if (single(range))
                add({range.Sheet, range.StartColumn, range.StartRow});
        return found;
    }

    // The cell that a part of a formula stands for; of several the first.
    std::optional<CellAddress> picked(const FormulaPlace& place, const std::string& part) {
        if (place.array)
            return std::nullopt;
        const auto ask = [&](const char* function) -> std::optional<sal_Int32> {
            scratch_.enter(place, std::string(function) + "(" + part + ")");
            const auto result = scratch_.result(place);
            if (result->getError() != 0 || !(result->getValue() >= 1))
                return std::nullopt;
            return static_cast<sal_Int32>(result->getValue()) - 1;
        };
        const auto row = ask("ROW");
        const auto column = row ? ask("COLUMN") : std::nullopt;
        const auto sheet = column ? ask("SHEET") : std::nullopt;
        if (!sheet)
            return std::nullopt;
        return CellAddress{static_cast<sal_Int16>(*sheet), *column, *row};
    }

    std::string explain(const FormulaPlace& place, const std::vector<FormulaCall>& calls) {
        place_ = place;
        text_.clear();
        wrong_ = false;
        if (place_.array)
            line(tr("One formula fills %1.", name_of(place_.where)));
        const bool same = calculate_whole();
        const bool error = shown_cell()->getError() != 0;
        std::set<std::string> told;
        std::size_t left = 0;
        for (const auto& call : calls) {
            if (!told.insert(call.text).second)
                continue;
            const auto asked = ask(call);
            if (!error && (!asked || !used_.contains(call.row)))
                continue; // a branch not taken
            if (function_.empty())
                function_ = call.row->name;
            if (told.size() > most_calls)
                ++left;
            else
                explain(call, asked);
        }
        if (text_.empty() || function_.empty())
            line(tr("None of its Pacecells functions was needed for this value."));
        if (left > 0)
            line("\n" + tr("More functions in the formula: %1.", std::to_string(left)));
        if (error && !wrong_)
            line("\n" + tr("The error comes from another part of the formula.") + " " + wrong_reference());
        if (!same)
            line("\n" + tr("Calculated on its own, the formula gives a different result: it changes over time, or "
                           "looks up its cells while calculating. The values above may differ."));
        return text_;
    }

    // Calculates the formula as a whole, notes which functions had a part in it, and compares with the sheet.
    bool calculate_whole() {
        used_.clear();
        {
            const Trace trace;
            scratch_.enter(place_, place_.text);
            for (const auto& call : trace.calls())
                used_.insert(call.row);
        }
        const auto real = shown_cell();
        const auto again = scratch_.result(place_);
        if (real->getError() != 0 || again->getError() != 0)
            return (real->getError() != 0) == (again->getError() != 0);
        sal_Int32 kind = 0;
        get_property(real, "FormulaResultType2") >>= kind;
        if (kind == css::sheet::FormulaResult::STRING)
            return shown_in(real) == shown_in(again);
        return std::abs(real->getValue() - again->getValue()) <= 1e-9 * std::max(1.0, std::abs(real->getValue()));
    }

    void line(const std::string& text) { text_ += text + "\n"; }

    [[nodiscard]] std::string name_of(const CellAddress& cell) const {
        return name_of({cell.Sheet, cell.Column, cell.Row, cell.Column, cell.Row});
    }
    [[nodiscard]] std::string name_of(const CellRangeAddress& range) const {
        return place_name(document_, range, asked_about_.Sheet);
    }

    void explain(const FormulaCall& call, const std::optional<Trace::Asked>& asked) {
        line("");
        line(std::string(call.row->name) + ": " + description(*call.row));
        for (std::size_t i = 0; i < call.row->arity; ++i) {
            const auto& parameter = call.row->storage[i];
            const bool given = i < call.arguments.size() && !call.arguments[i].empty();
            const Argument value = asked ? asked->arguments[i] : Argument{Omitted{}};
            line("  " + std::string(parameter.name) + ": " +
                 (given && parameter.area ? area(call.arguments[i])
                  : given                 ? went_in(call.arguments[i], value, parameter.time, asked.has_value())
                  : parameter.optional    ? tr("left out")
                                          : tr("missing")) +
                 (parameter.most > 0 ? " (" + tr("at most %1", shown_number(parameter.most, 6)) + ")" : ""));
            if (given)
                remember(call.arguments[i]);
        }
        if (!asked) {
            line(tr("Not used: %1", why_not_asked(call)));
            wrong_ = true;
            return;
        }
        came_out(*call.row, asked->answer, call.text == place_.text, call);
        for (auto& one : reason_lines(
                 recorded_, [&](const Place& where) { return cell_of(call, where); },
                 [&](const CellAddress& cell) { return name_of(cell); })) {
            line(one.text);
            if (one.cell)
                sources_.push_back(std::move(one));
        }
        line(tr("Source: %1", translated(call.row->source)));
    }

    // An argument that is one cell joins those to go to, as its line says it.
    void remember(const std::string& argument) {
        const auto range = references_.only(argument, place_.start());
        if (range && single(*range))
            sources_.push_back({text_.substr(text_.rfind('\n', text_.size() - 2) + 1),
                                CellAddress{range->Sheet, range->StartColumn, range->StartRow}});
    }

    // The function asked alone, with its arguments as they stand: the last call noted is the outer one.
    std::optional<Trace::Asked> ask(const FormulaCall& call) {
        recorded_ = {};
        const Recording recording(recorded_);
        const Trace trace;
        scratch_.enter(place_, call.text);
        if (trace.calls().empty() || trace.calls().back().row != call.row)
            return std::nullopt;
        return trace.calls().back();
    }

    // A range as an object: the name of its cells is enough, its steps say which of them counted.
    std::string area(const std::string& as_stored) const {
        const auto text = readable(as_stored);
        const auto range = references_.only(as_stored, place_.start());
        return range && name_of(*range) != text ? name_of(*range) + " (" + text + ")" : text;
    }

    std::string went_in(const std::string& as_stored, const Argument& value, bool time, bool asked) {
        const auto text = readable(as_stored);
        if (const auto number = typed_number(text))
            return shown_number(*number, 6);
        if (text.front() == '"' || text.front() == '{')
            return text;
        if (const auto range = references_.only(as_stored, place_.start())) {
            const auto name = name_of(*range);
            const auto where = name == text ? text : text + ", " + name;
            const auto stands = shown_cells(*range);
            const auto* got = time && single(*range) && asked ? as_cell(value) : nullptr;
            if (!got || !std::holds_alternative<double>(*got))
                return stands + " (" + where + ")";
            const auto read = shown(*got, true);
            if (read == stands || stands.find(':') == std::string::npos)
                return read + " (" + where + ")";
            return read + " (" + tr("%1 shows %2", where, stands) + ")"; // read otherwise than it looks
        }
        const auto part = shortened(text, longest_argument);
        if (!asked)
            return part;
        if (const auto* cell = std::get_if<Cell>(&value))
            return shown(*cell, time) + " (" + part + ")";
        if (const auto* range = std::get_if<Range>(&value))
            return shown(*range, time) + size_of(range->rows, range->columns) + " (" + part + ")";
        return part;
    }

    [[nodiscard]] std::string shown_cells(const CellRangeAddress& where) const {
        const auto range = cells(document_, where);
        std::string text;
        std::size_t count = 0;
        for (sal_Int32 row = 0; row <= where.EndRow - where.StartRow; ++row)
            for (sal_Int32 column = 0; column <= where.EndColumn - where.StartColumn; ++column) {
                if (count > most_shown_cells)
                    break;
                const auto shown = shown_in(range->getCellByPosition(column, row));
                if (!shown.empty() && ++count <= most_shown_cells)
                    text += (count > 1 ? "; " : "") + shown;
            }
        if (count == 0)
            text = tr("blank");
        return text + (count > most_shown_cells ? "; …" : "") +
               size_of(where.EndRow - where.StartRow + 1, where.EndColumn - where.StartColumn + 1);
    }

    [[nodiscard]] Reference<css::table::XCell> shown_cell() const { return cell_at(document_, place_.cell); }

    // The first cell with an error among those that a formula refers to.
    [[nodiscard]] std::optional<CellRangeAddress> wrong_cell(const std::string& formula) const {
        for (const auto& range : references_.of(formula, place_.start()))
            for (const auto& wrong : errors_in(document_, range))
                return first_of(wrong);
        return std::nullopt;
    }

    [[nodiscard]] std::string wrong_reference() const {
        const auto wrong = wrong_cell(place_.text);
        return wrong ? sentence(tr("%1 shows %2", name_of(*wrong), shown_cells(*wrong))) : std::string();
    }

    // Calc does not ask a function whose arguments it cannot calculate.
    std::string why_not_asked(const FormulaCall& call) {
        if (call.arguments.size() > call.row->arity)
            return tr("it takes at most %1 arguments, and here are %2.", std::to_string(call.row->arity),
                      std::to_string(call.arguments.size()));
        for (std::size_t i = 0; i < call.arguments.size(); ++i) {
            const auto& text = call.arguments[i];
            if (text.empty())
                continue;
            const std::string parameter(call.row->storage[i].name);
            if (const auto wrong = wrong_cell(text))
                return tr("%1 refers to %2, which shows %3. Explain that cell first.", parameter, name_of(*wrong),
                          shown_cells(*wrong));
            scratch_.enter(place_, text);
            if (const auto result = scratch_.result(place_); result->getError() != 0)
                return tr("%1 shows %2 by itself.", parameter, shown_in(result));
        }
        return tr("Calc could not read the formula.");
    }

    // The cell of a place in the tables of a plan: those of the areas, or of the keys and the athlete as the formula
    // refers to them.
    std::optional<CellAddress> cell_of(const FormulaCall& call, const Place& where) {
        if (const auto known = recorded_.origin.address(where))
            return CellAddress{static_cast<sal_Int16>(known->sheet), known->column, known->row};
        constexpr std::size_t keys = 2;
        constexpr std::size_t athlete = 3;
        const auto which = where.table == Place::Table::keys ? keys : athlete;
        if (where.table == Place::Table::workout || where.table == Place::Table::tests ||
            call.arguments.size() <= which || call.arguments[which].empty())
            return std::nullopt;
        auto start = picked(place_, call.arguments[which]);
        if (start) {
            start->Column += static_cast<sal_Int32>(where.column);
            start->Row += static_cast<sal_Int32>(where.row);
        }
        return start;
    }

    // A sentence with the cells in it by their names.
    Error located(Error error, const FormulaCall& call) {
        for (auto& told : error.told)
            if (const auto* where = std::get_if<Place>(&told))
                if (const auto cell = cell_of(call, *where))
                    told = name_of(*cell);
        return error;
    }

    void came_out(const Row& row, const Answer& answer, bool whole, const FormulaCall& call) {
        const bool time = row.kind == Kind::time;
        const Cell* cell = std::get_if<Cell>(&answer);
        if (const auto* range = std::get_if<Range>(&answer)) {
            line(tr("Gives a table: %1", whole && place_.array
                                             ? shown_cells(place_.where)
                                             : shown(*range, time) + size_of(range->rows, range->columns)));
            const auto here_row = place_.array ? place_.cell.Row - place_.where.StartRow : 0;
            const auto here_column = place_.array ? place_.cell.Column - place_.where.StartColumn : 0;
            if (here_row >= range->rows || here_column >= range->columns)
                return;
            cell = &range->at(here_row, here_column);
        }
        const auto* error = std::get_if<Error>(cell);
        if (!error) {
            if (std::holds_alternative<Cell>(answer))
                line(tr("Gives: %1", shown(*cell, time)));
            if (time && whole && shown_in(shown_cell()).find(':') == std::string::npos)
                line(tr("This is a time: Show as minutes and seconds, in the menu, makes it readable."));
            return;
        }
        wrong_ = true;
        switch (error->kind) {
        case ErrorKind::out_of_domain:
            line(tr("Refused: %1", reason(row, located(*error, call))));
            break;
        case ErrorKind::no_solution:
            line(tr("No answer: %1", reason(row, *error)));
            break;
        case ErrorKind::not_available:
            line(tr("Not known yet: %1", reason(row, *error)));
            break;
        }
        line(tr("What it needs: %1", translated(row.domain)));
    }

    // The wizard's text, in the language of the interface.
    [[nodiscard]] std::string description(const Row& row) const {
        const auto wizard =
            need<css::container::XNameAccess>(create(context_.component(), "com.sun.star.sheet.FunctionDescriptions"));
        Sequence<css::beans::PropertyValue> properties;
        if (wizard->hasByName(utf16(row.name)))
            wizard->getByName(utf16(row.name)) >>= properties;
        for (const auto& property : properties)
            if (OUString text; property.Name == "Description" && (property.Value >>= text) && !text.isEmpty())
                return utf8(text);
        return std::string(row.description);
    }

    const Context& context_;
    Document document_;
    CellAddress asked_about_;
    References references_;
    Scratch scratch_;
    FormulaPlace place_; // being explained
    std::set<const Row*> used_;
    Recorded recorded_; // of the function asked last
    std::vector<ReasonLine> sources_;
    std::string text_;
    std::string function_;
    bool wrong_ = false;
    int places_ = 0;
    std::set<std::tuple<sal_Int16, sal_Int32, sal_Int32>> seen_;
};

// Selects a cell and shows it, on whatever sheet.
void go_to(const Context& context, const CellAddress& cell) {
    const auto controller = need<css::frame::XModel>(context.document())->getCurrentController();
    (void)need<css::view::XSelectionSupplier>(controller)->select(Any(cell_at(context.document(), cell)));
}

struct Explained {
    std::string text;
    std::string function;
    std::vector<ReasonLine> sources;
};

Explained explanation(const Context& context) {
    const auto cell = cursor(context);
    const auto name = cell_name(cell.Column, cell.Row);
    auto place = FormulaPlace::at(context.document(), cell);
    if (!place)
        throw Refusal{tr("%1 has no formula. Select a cell that calculates something.", name)};
    Explanation explanation(context, std::move(*place));
    auto text = explanation.text();
    if (!text)
        throw Refusal{tr("Neither the formula in %1 nor the cells it refers to hold a Pacecells function.", name)};
    return {std::move(*text), explanation.function(), explanation.sources()};
}

void explain(Context& context) {
    const auto explained = explanation(context);
    if (!context.interactive())
        return context.say(explained.text);
    Dialog dialog(context, tr("Explain this cell"), 300);
    dialog.memo("", explained.text, explained.sources.empty() ? 170 : 140, true);
    if (!explained.sources.empty()) {
        std::vector<std::string> items;
        for (const auto& source : explained.sources)
            items.emplace_back(trim(source.text));
        const auto list = dialog.list(tr("~Cells that it came from: choose one to go there"), items, 60);
        dialog.on_change([&context, &dialog, list, &explained] {
            if (const auto chosen = dialog.selected(list); chosen >= 0)
                go_to(context, *explained.sources[static_cast<std::size_t>(chosen)].cell);
        });
    }
    dialog.button(tr("~Help"),
                  [&] { show_help(context, explained.function.empty() ? "contents" : explained.function); });
    dialog.show();
}

const Command command{"explain", explain};

} // namespace

} // namespace pacecells
