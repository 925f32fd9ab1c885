// How the value of a cell came about, in words: each of our functions in its formula with what went in, what came out
// and where the calculation comes from; for an error, what was got and what is needed.
//
// Nothing is imitated: the formula is calculated once more by the office itself, in a document of its own that holds
// the cells it refers to, while a Trace notes what our functions were asked and answered. The document of the person
// is only read.
#include "dialog.h"
#include "form.h"
#include "formula.h"
#include "help.h"
#include "office.h"
#include "trace.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/frame/XLoadable.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/FormulaToken.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XFormulaParser.hpp>
#include <com/sun/star/sheet/XFormulaQuery.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/table/CellContentType.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

using css::table::CellAddress;
using css::table::CellRangeAddress;
using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using rtl::OUString;

using Document = Reference<css::sheet::XSpreadsheetDocument>;

constexpr std::size_t most_calls = 12;      // of one formula, that someone reads
constexpr std::size_t most_shown_cells = 8; // of a range

Reference<css::container::XIndexAccess> sheets(const Document& document) {
    return need<css::container::XIndexAccess>(document->getSheets());
}

Reference<css::table::XCellRange> cells(const Document& document, const CellRangeAddress& where) {
    const Reference<css::table::XCellRange> sheet(sheets(document)->getByIndex(where.Sheet), css::uno::UNO_QUERY_THROW);
    return sheet->getCellRangeByPosition(where.StartColumn, where.StartRow, where.EndColumn, where.EndRow);
}

std::string shown_in(const Reference<css::table::XCell>& cell) {
    return utf8(need<css::text::XTextRange>(cell)->getString());
}

std::vector<CellRangeAddress> list(const Sequence<CellRangeAddress>& ranges) { return {ranges.begin(), ranges.end()}; }

bool within(const CellRangeAddress& inner, const CellRangeAddress& outer) {
    return inner.Sheet == outer.Sheet && inner.StartColumn >= outer.StartColumn && inner.EndColumn <= outer.EndColumn &&
           inner.StartRow >= outer.StartRow && inner.EndRow <= outer.EndRow;
}

// What the formula there refers to; the office counts the formula's own cells too.
std::vector<CellRangeAddress> precedents(const Document& document, const CellRangeAddress& where) {
    auto ranges =
        list(need<css::sheet::XFormulaQuery>(cells(document, where))->queryPrecedents(false)->getRangeAddresses());
    std::erase_if(ranges, [&](const auto& range) { return within(range, where); });
    return ranges;
}

std::vector<CellRangeAddress> errors_in(const Document& document, const CellRangeAddress& where) {
    return list(need<css::sheet::XCellRangesQuery>(cells(document, where))
                    ->queryFormulaCells(css::sheet::FormulaResult::ERROR)
                    ->getRangeAddresses());
}

// Whole columns end where the sheet's contents do.
CellRangeAddress cut_to_used(const Document& document, CellRangeAddress where) {
    const Reference<css::sheet::XSpreadsheet> sheet(sheets(document)->getByIndex(where.Sheet),
                                                    css::uno::UNO_QUERY_THROW);
    const auto cursor = sheet->createCursor();
    need<css::sheet::XUsedAreaCursor>(cursor)->gotoEndOfUsedArea(false);
    const auto end = need<css::sheet::XCellRangeAddressable>(cursor)->getRangeAddress();
    where.EndColumn = std::max(where.StartColumn, std::min(where.EndColumn, end.EndColumn));
    where.EndRow = std::max(where.StartRow, std::min(where.EndRow, end.EndRow));
    return where;
}

// The value of an argument that is one; a range of one cell is.
const Cell* as_cell(const Argument& argument) {
    if (const auto* range = std::get_if<Range>(&argument))
        return range->single() ? &range->cells.front() : nullptr;
    return std::get_if<Cell>(&argument);
}

std::string sentence(std::string text) {
    if (!text.ends_with('.') && !text.ends_with('?'))
        text += '.';
    return text;
}

// --- the copy to calculate in ------------------------------------------------------------------------------------

class Scratch {
  public:
    Scratch(const Context& context, const Document& original)
        : original_(original),
          copy_(create(context.component(), "com.sun.star.sheet.SpreadsheetDocument"), css::uno::UNO_QUERY_THROW) {
        need<css::frame::XLoadable>(copy_)->initNew();
        const auto from = need<css::container::XNameAccess>(original_->getSheets())->getElementNames();
        const auto to = copy_->getSheets();
        const auto old = need<css::container::XNameAccess>(to)->getElementNames();
        for (sal_Int32 i = 0; i < from.getLength(); ++i)
            to->insertNewByName("pacecells_" + from[i], static_cast<sal_Int16>(i));
        for (const auto& name : old)
            to->removeByName(name);
        for (sal_Int32 i = 0; i < from.getLength(); ++i)
            Reference<css::container::XNamed>(sheets(copy_)->getByIndex(i), css::uno::UNO_QUERY_THROW)
                ->setName(from[i]);
    }
    ~Scratch() {
        try {
            need<css::util::XCloseable>(copy_)->close(true);
        } catch (const css::uno::Exception&) { // the office is ending
        }
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    // The cells that the formula there refers to, as values, and the names that stand in it.
    void bring(const CellRangeAddress& where, const std::string& formula) {
        bring_names(original_, copy_, formula, 0);
        const auto sheet = sheets(original_)->getByIndex(where.Sheet);
        bring_names(Reference<css::beans::XPropertySet>(sheet, css::uno::UNO_QUERY),
                    Reference<css::beans::XPropertySet>(sheets(copy_)->getByIndex(where.Sheet), css::uno::UNO_QUERY),
                    formula, 0);
        for (const auto& range : precedents(original_, where))
            bring_values(cut_to_used(original_, range));
    }

    // Calculates a formula at the place of the original one.
    void enter(const CellRangeAddress& where, const std::string& formula, bool array) {
        const auto range = cells(copy_, where);
        if (array)
            need<css::sheet::XArrayFormulaRange>(range)->setArrayFormula(utf16("=" + formula));
        else
            range->getCellByPosition(0, 0)->setFormula(utf16("=" + formula));
        (void)range->getCellByPosition(0, 0)->getError(); // calculated now
    }

    [[nodiscard]] const Document& document() const { return copy_; }

  private:
    template <class From, class To>
    void bring_names(const From& from_owner, const To& to_owner, const std::string& formula, int depth) {
        if (depth > 8 || !from_owner.is())
            return;
        Reference<css::sheet::XNamedRanges> from;
        Reference<css::sheet::XNamedRanges> to;
        get_property(from_owner, "NamedRanges") >>= from;
        get_property(to_owner, "NamedRanges") >>= to;
        for (const auto& word : words(formula)) {
            const auto name = utf16(word);
            if (!from->hasByName(name) || to->hasByName(name))
                continue;
            const Reference<css::sheet::XNamedRange> named(from->getByName(name), css::uno::UNO_QUERY_THROW);
            to->addNewByName(name, named->getContent(), named->getReferencePosition(), named->getType());
            bring_names(from_owner, to_owner, utf8(named->getContent()), depth + 1);
        }
    }

    void bring_values(const CellRangeAddress& where) {
        const auto to = cells(copy_, where);
        set_values(to, values_of(cells(original_, where)));
        for (const auto& wrong : errors_in(original_, where))
            for (sal_Int32 column = wrong.StartColumn; column <= wrong.EndColumn; ++column)
                for (sal_Int32 row = wrong.StartRow; row <= wrong.EndRow; ++row)
                    to->getCellByPosition(column - where.StartColumn, row - where.StartRow)->setFormula("=NA()");
    }

    Document original_;
    Document copy_;
};

// --- words -------------------------------------------------------------------------------------------------------

std::string shown(const Cell& cell, bool time) {
    if (const auto* number = std::get_if<double>(&cell)) {
        if (time && *number >= 0) {
            const Seconds seconds{*number * 86400};
            const double tenths = std::abs(seconds.value() * 10 - std::round(seconds.value()) * 10);
            if (const auto text = clock_text(seconds, tenths > 0.5 ? 1 : 0))
                return *text;
        }
        return shown_number(*number, std::abs(*number) < 1 ? 6 : 3);
    }
    if (const auto* text = std::get_if<std::string>(&cell))
        return pacecells::quoted(*text);
    return tr("blank");
}

std::string shown(const Range& range, bool time) {
    std::string text;
    std::size_t count = 0;
    for (const auto& cell : range.cells) {
        if (std::holds_alternative<Blank>(cell))
            continue;
        if (++count > most_shown_cells)
            break;
        text += (count > 1 ? "; " : "") + shown(cell, time);
    }
    return (count == 0 ? tr("blank") : text) + (count > most_shown_cells ? "; …" : "");
}

std::string size_of(sal_Int32 rows, sal_Int32 columns) {
    return rows == 1 && columns == 1 ? std::string()
                                     : " (" + tr("%1 rows by %2", std::to_string(rows), std::to_string(columns)) + ")";
}

std::string place_name(const Document& document, const CellRangeAddress& where, sal_Int32 home) {
    std::string name = cell_name(where.StartColumn, where.StartRow);
    if (where.StartColumn != where.EndColumn || where.StartRow != where.EndRow)
        name += ":" + cell_name(where.EndColumn, where.EndRow);
    if (where.Sheet == home)
        return name;
    const Reference<css::container::XNamed> sheet(sheets(document)->getByIndex(where.Sheet), css::uno::UNO_QUERY_THROW);
    return utf8(sheet->getName()) + "." + name;
}

class Explanation {
  public:
    Explanation(const Context& context, const CellRangeAddress& where, const CellAddress& cell, std::string formula,
                bool array)
        : context_(context), document_(context.document()), where_(where), cell_(cell), formula_(std::move(formula)),
          array_(array), scratch_(context, document_) {
        scratch_.bring(where_, formula_);
    }

    [[nodiscard]] std::string text(const std::vector<FormulaCall>& calls) {
        line(tr("%1 shows %2", cell_name(cell_.Column, cell_.Row), shown_in(shown_cell())));
        line("=" + readable(formula_));
        if (array_)
            line(tr("One formula fills %1.", place_name(document_, where_, cell_.Sheet)));
        for (std::size_t i = 0; i < std::min(calls.size(), most_calls); ++i)
            explain(calls[i]);
        if (calls.size() > most_calls)
            line("\n" + tr("The formula holds %1 functions more.", std::to_string(calls.size() - most_calls)));
        if (shown_cell()->getError() != 0 && !wrong_)
            line("\n" + tr("The error comes from another part of the formula.") + " " + wrong_precedent());
        if (!agrees(shown_cell()))
            line("\n" + tr("Calculated on its own the formula gives something else: it changes from moment to moment, "
                           "or looks for its cells while calculating. The values above may be others."));
        return text_;
    }

  private:
    void line(const std::string& text) { text_ += text + "\n"; }

    void explain(const FormulaCall& call) {
        line("");
        line(std::string(call.row->name) + ": " + description(*call.row));
        const auto asked = ask(call);
        for (std::size_t i = 0; i < call.row->arity; ++i) {
            const auto& parameter = call.row->storage[i];
            const bool given = i < call.arguments.size() && !call.arguments[i].empty();
            const Argument value = asked ? asked->arguments[i] : Argument{Omitted{}};
            line("  " + std::string(parameter.name) + ": " +
                 (given                ? went_in(call.arguments[i], value, parameter.time, asked.has_value())
                  : parameter.optional ? tr("left out")
                                       : tr("missing")));
        }
        if (!asked) {
            line(tr("Not asked: %1", why_not_asked(call)));
            wrong_ = true;
            return;
        }
        came_out(*call.row, asked->answer, call.text == formula_);
        line(tr("Source: %1", std::string(call.row->source)));
    }

    // The function asked alone, with its arguments as they stand: the last call noted is the outer one.
    std::optional<Trace::Asked> ask(const FormulaCall& call) {
        const Trace trace;
        scratch_.enter(where_, call.text, array_);
        if (trace.calls().empty() || trace.calls().back().row != call.row)
            return std::nullopt;
        return trace.calls().back();
    }

    std::string went_in(const std::string& as_stored, const Argument& value, bool time, bool asked) {
        const auto text = readable(as_stored);
        const bool literal = text.front() == '"' || text.front() == '{' || typed_number(text).has_value();
        if (literal)
            return text;
        if (const auto range = only_reference(as_stored)) {
            const auto name = place_name(document_, *range, cell_.Sheet);
            const auto where = name == text ? text : text + ", " + name;
            const auto stands = shown_cells(*range);
            const bool single = range->StartColumn == range->EndColumn && range->StartRow == range->EndRow;
            const auto* got = time && single && asked ? as_cell(value) : nullptr;
            if (!got || !std::holds_alternative<double>(*got) || shown(*got, true) == stands)
                return stands + " (" + where + ")";
            return shown(*got, true) + " (" + tr("%1 shows %2", where, stands) + ")"; // a time not shown as one
        }
        if (!asked)
            return text;
        if (const auto* cell = std::get_if<Cell>(&value))
            return shown(*cell, time) + " (" + text + ")";
        if (const auto* range = std::get_if<Range>(&value))
            return shown(*range, time) + size_of(range->rows, range->columns) + " (" + text + ")";
        return text;
    }

    // The cells of an argument that is nothing but a reference or a name.
    std::optional<CellRangeAddress> only_reference(const std::string& text) {
        const Reference<css::sheet::XFormulaParser> parser(need<css::lang::XMultiServiceFactory>(scratch_.document())
                                                               ->createInstance("com.sun.star.sheet.FormulaParser"),
                                                           css::uno::UNO_QUERY_THROW);
        const auto tokens = parser->parseFormula(utf16(text), cell_);
        if (tokens.getLength() != 1)
            return std::nullopt;
        scratch_.enter(where_, text, array_);
        const auto ranges = precedents(scratch_.document(), where_);
        if (ranges.size() != 1)
            return std::nullopt;
        return cut_to_used(document_, ranges.front());
    }

    std::string shown_cells(const CellRangeAddress& where) {
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

    [[nodiscard]] Reference<css::table::XCell> shown_cell() const {
        return cells(document_, {cell_.Sheet, cell_.Column, cell_.Row, cell_.Column, cell_.Row})
            ->getCellByPosition(0, 0);
    }

    [[nodiscard]] std::string wrong_precedent() const {
        for (const auto& range : precedents(document_, where_))
            for (const auto& wrong : errors_in(document_, cut_to_used(document_, range)))
                return sentence(
                    tr("%1 shows %2", first_name(wrong), shown_in(cells(document_, wrong)->getCellByPosition(0, 0))));
        return {};
    }

    [[nodiscard]] std::string first_name(const CellRangeAddress& range) const {
        return place_name(document_,
                          {range.Sheet, range.StartColumn, range.StartRow, range.StartColumn, range.StartRow},
                          cell_.Sheet);
    }

    // Calc does not ask a function whose arguments it cannot calculate.
    std::string why_not_asked(const FormulaCall& call) {
        if (call.arguments.size() > call.row->arity)
            return tr("it takes %1 arguments at most, and %2 stand here.", std::to_string(call.row->arity),
                      std::to_string(call.arguments.size()));
        for (std::size_t i = 0; i < call.arguments.size(); ++i) {
            const auto& text = call.arguments[i];
            if (text.empty())
                continue;
            scratch_.enter(where_, text, array_);
            const auto result = cells(scratch_.document(), where_)->getCellByPosition(0, 0);
            const std::string parameter(call.row->storage[i].name);
            for (const auto& range : precedents(scratch_.document(), where_))
                for (const auto& wrong : errors_in(document_, cut_to_used(document_, range)))
                    return tr("%1 refers to %2, which shows %3. Explain that cell first.", parameter, first_name(wrong),
                              shown_in(cells(document_, wrong)->getCellByPosition(0, 0)));
            if (result->getError() != 0)
                return tr("%1 shows %2 by itself.", parameter, shown_in(result));
        }
        return tr("Calc could not read the formula.");
    }

    void came_out(const Row& row, const Answer& answer, bool whole) {
        const bool time = row.kind == Kind::time;
        const Cell* cell = std::get_if<Cell>(&answer);
        if (const auto* range = std::get_if<Range>(&answer)) {
            line(tr("Gives a table: %1", whole && array_ ? shown_cells(where_)
                                                         : shown(*range, time) + size_of(range->rows, range->columns)));
            const auto here_row = array_ ? cell_.Row - where_.StartRow : 0;
            const auto here_column = array_ ? cell_.Column - where_.StartColumn : 0;
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
            line(tr("Refused: %1", sentence(error->message)));
            break;
        case ErrorKind::no_solution:
            line(tr("No answer: %1", sentence(error->message)));
            break;
        case ErrorKind::not_available:
            line(tr("Not known yet: %1", sentence(error->message)));
            break;
        }
        line(tr("What it takes: %1", std::string(row.domain)));
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

    [[nodiscard]] bool agrees(const Reference<css::table::XCell>& real) {
        scratch_.enter(where_, formula_, array_);
        const auto again = cells(scratch_.document(), {cell_.Sheet, cell_.Column, cell_.Row, cell_.Column, cell_.Row})
                               ->getCellByPosition(0, 0);
        if (real->getError() != 0 || again->getError() != 0)
            return (real->getError() != 0) == (again->getError() != 0);
        sal_Int32 kind = 0;
        get_property(real, "FormulaResultType2") >>= kind;
        if (kind == css::sheet::FormulaResult::STRING)
            return shown_in(real) == shown_in(again);
        return std::abs(real->getValue() - again->getValue()) <= 1e-9 * std::max(1.0, std::abs(real->getValue()));
    }

    const Context& context_;
    Document document_;
    CellRangeAddress where_;
    CellAddress cell_;
    std::string formula_;
    bool array_;
    Scratch scratch_;
    std::string text_;
    bool wrong_ = false;
};

struct Explained {
    std::string text;
    std::string function; // the outer one
};

Explained explanation(const Context& context) {
    const auto cell = cursor(context);
    CellRangeAddress where{cell.Sheet, cell.Column, cell.Row, cell.Column, cell.Row};
    const auto name = cell_name(cell.Column, cell.Row);
    const auto range = cells(context.document(), where);
    const auto formula_cell = range->getCellByPosition(0, 0);
    if (formula_cell->getType() != css::table::CellContentType_FORMULA)
        throw Refusal{tr("%1 holds no formula. Select a cell that calculates.", name)};
    std::string formula = utf8(formula_cell->getFormula());
    const bool array = formula.starts_with("{");
    formula = array ? formula.substr(2, formula.size() - 3) : formula.substr(1);
    const auto calls = find_calls(formula);
    if (calls.empty())
        throw Refusal{tr("The formula in %1 holds none of the Pacecells functions.", name)};
    if (array) {
        const auto block = active_sheet(context)->createCursorByRange(need<css::sheet::XSheetCellRange>(range));
        block->collapseToCurrentArray();
        where = need<css::sheet::XCellRangeAddressable>(block)->getRangeAddress();
    }
    return {Explanation(context, where, cell, formula, array).text(calls), std::string(calls.front().row->name)};
}

void explain(Context& context) {
    const auto explained = explanation(context);
    if (!context.interactive())
        return context.say(explained.text);
    Dialog dialog(context, tr("Explain this cell"), 300);
    dialog.memo("", explained.text, 170, true);
    dialog.button(tr("~Help"), [&] { show_help(context, explained.function); });
    dialog.show();
}

const Command command{"explain", explain};

} // namespace

} // namespace pacecells
