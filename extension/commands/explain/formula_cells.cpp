#include "formula_cells.h"

#include "formula.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XLoadable.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/ComplexReference.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/FormulaToken.hpp>
#include <com/sun/star/sheet/ReferenceFlags.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/table/CellContentType.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include <algorithm>

namespace pacecells {

using css::sheet::SingleReference;
using css::table::CellAddress;
using css::table::CellRangeAddress;
using css::uno::Any;
using css::uno::Reference;

namespace {

Reference<css::container::XIndexAccess> sheets(const Document& document) {
    return need<css::container::XIndexAccess>(document->getSheets());
}

Reference<css::sheet::XSpreadsheet> sheet_of(const Document& document, sal_Int32 index) {
    return {sheets(document)->getByIndex(index), css::uno::UNO_QUERY_THROW};
}

template <class Owner>
Reference<css::sheet::XNamedRanges> names_of(const Owner& owner) {
    Reference<css::sheet::XNamedRanges> names;
    get_property(owner, "NamedRanges") >>= names;
    return names;
}

CellAddress address_of(const SingleReference& reference, const CellAddress& at) {
    using namespace css::sheet::ReferenceFlags;
    const auto relative = [&](sal_Int32 flag) { return (reference.Flags & flag) != 0; };
    return {static_cast<sal_Int16>(relative(SHEET_RELATIVE) ? at.Sheet + reference.RelativeSheet : reference.Sheet),
            relative(COLUMN_RELATIVE) ? at.Column + reference.RelativeColumn : reference.Column,
            relative(ROW_RELATIVE) ? at.Row + reference.RelativeRow : reference.Row};
}

} // namespace

Reference<css::table::XCellRange> cells(const Document& document, const CellRangeAddress& where) {
    return sheet_of(document, where.Sheet)
        ->getCellRangeByPosition(where.StartColumn, where.StartRow, where.EndColumn, where.EndRow);
}

Reference<css::table::XCell> cell_at(const Document& document, const CellAddress& where) {
    return sheet_of(document, where.Sheet)->getCellByPosition(where.Column, where.Row);
}

std::string shown_in(const Reference<css::table::XCell>& cell) {
    return utf8(need<css::text::XTextRange>(cell)->getString());
}

std::string place_name(const Document& document, const CellRangeAddress& where, sal_Int32 home) {
    std::string name = cell_name(where.StartColumn, where.StartRow);
    if (where.StartColumn != where.EndColumn || where.StartRow != where.EndRow)
        name += ":" + cell_name(where.EndColumn, where.EndRow);
    if (where.Sheet == home)
        return name;
    return utf8(need<css::container::XNamed>(sheet_of(document, where.Sheet))->getName()) + "." + name;
}

std::vector<CellRangeAddress> errors_in(const Document& document, const CellRangeAddress& where) {
    const auto ranges = need<css::sheet::XCellRangesQuery>(cells(document, where))
                            ->queryFormulaCells(css::sheet::FormulaResult::ERROR)
                            ->getRangeAddresses();
    return {ranges.begin(), ranges.end()};
}

// --- FormulaPlace ------------------------------------------------------------------------------------------------

std::optional<FormulaPlace> FormulaPlace::at(const Document& document, const CellAddress& cell) {
    const auto here = cell_at(document, cell);
    if (here->getType() != css::table::CellContentType_FORMULA)
        return std::nullopt;
    FormulaPlace place{cell, {cell.Sheet, cell.Column, cell.Row, cell.Column, cell.Row}, utf8(here->getFormula())};
    place.array = place.text.starts_with("{");
    if (!place.array) {
        place.text.erase(0, 1);
        return place;
    }
    place.text = place.text.substr(2, place.text.size() - 3);
    const auto block = sheet_of(document, cell.Sheet)
                           ->createCursorByRange(need<css::sheet::XSheetCellRange>(cells(document, place.where)));
    block->collapseToCurrentArray();
    place.where = need<css::sheet::XCellRangeAddressable>(block)->getRangeAddress();
    return place;
}

// --- References --------------------------------------------------------------------------------------------------

References::References(const Document& document)
    : document_(document),
      parser_(need<css::lang::XMultiServiceFactory>(document)->createInstance("com.sun.star.sheet.FormulaParser"),
              css::uno::UNO_QUERY_THROW) {
    set_property(parser_, "CompileEnglish", Any(true)); // as getFormula() writes it
}

std::vector<CellRangeAddress> References::of(const std::string& formula, const CellAddress& at) const {
    std::set<std::string> seen;
    std::vector<CellRangeAddress> found;
    collect(formula, at, at, seen, found);
    return found;
}

std::optional<CellRangeAddress> References::only(const std::string& text, const CellAddress& at) const {
    if (parser_->parseFormula(utf16(text), at).getLength() != 1)
        return std::nullopt;
    const auto found = of(text, at);
    return found.size() == 1 ? std::optional(found.front()) : std::nullopt;
}

Reference<css::sheet::XNamedRange> References::name(const std::string& word, sal_Int32 sheet) const {
    const auto wanted = utf16(word);
    for (const auto& names : {names_of(sheet_of(document_, sheet)), names_of(document_)})
        if (names.is() && names->hasByName(wanted))
            return {names->getByName(wanted), css::uno::UNO_QUERY_THROW};
    return {};
}

// A relative reference counts from `base` in the text and from `at` in the sheet.
void References::collect(const std::string& formula, const CellAddress& base, const CellAddress& at,
                         std::set<std::string>& seen, std::vector<CellRangeAddress>& found) const {
    for (const auto& token : parser_->parseFormula(utf16(formula), base)) {
        css::sheet::ComplexReference range;
        if (!(token.Data >>= range)) {
            if (!(token.Data >>= range.Reference1))
                continue;
            range.Reference2 = range.Reference1;
        }
        const auto start = address_of(range.Reference1, at);
        const auto end = address_of(range.Reference2, at);
        if (start.Sheet != end.Sheet || start.Sheet < 0 || start.Sheet >= sheets(document_)->getCount() ||
            start.Column < 0 || start.Row < 0 || end.Column < start.Column || end.Row < start.Row)
            continue; // over several sheets, or fallen off the edge
        found.push_back(cut_to_used({start.Sheet, start.Column, start.Row, end.Column, end.Row}));
    }
    for (const auto& word : words(formula)) {
        const auto named = name(word, at.Sheet);
        if (named.is() && seen.insert(word).second)
            collect(utf8(named->getContent()), named->getReferencePosition(), at, seen, found);
    }
}

CellRangeAddress References::cut_to_used(CellRangeAddress where) const {
    const auto used = sheet_of(document_, where.Sheet)->createCursor();
    need<css::sheet::XUsedAreaCursor>(used)->gotoEndOfUsedArea(false);
    const auto end = need<css::sheet::XCellRangeAddressable>(used)->getRangeAddress();
    where.EndColumn = std::max(where.StartColumn, std::min(where.EndColumn, end.EndColumn));
    where.EndRow = std::max(where.StartRow, std::min(where.EndRow, end.EndRow));
    return where;
}

// --- Scratch -----------------------------------------------------------------------------------------------------

Scratch::Scratch(const Context& context, const Document& original, const References& references)
    : original_(original), references_(references),
      copy_(create(context.component(), "com.sun.star.sheet.SpreadsheetDocument"), css::uno::UNO_QUERY_THROW) {
    need<css::frame::XLoadable>(copy_)->initNew();
    set_property(copy_, "IsUndoEnabled", Any(false));
    const auto from = need<css::container::XNameAccess>(original_->getSheets())->getElementNames();
    const auto to = copy_->getSheets();
    const auto old = need<css::container::XNameAccess>(to)->getElementNames();
    for (sal_Int32 i = 0; i < from.getLength(); ++i)
        to->insertNewByName("pacecells_" + from[i], static_cast<sal_Int16>(i));
    for (const auto& name : old)
        to->removeByName(name);
    for (sal_Int32 i = 0; i < from.getLength(); ++i)
        need<css::container::XNamed>(sheet_of(copy_, i))->setName(from[i]);
}

Scratch::~Scratch() {
    try {
        need<css::util::XCloseable>(copy_)->close(true);
    } catch (const css::uno::Exception&) { // the office is ending
    }
}

void Scratch::bring(const FormulaPlace& place) {
    bring_names(place.text, place.cell.Sheet);
    for (const auto& range : references_.of(place.text, place.start()))
        bring_values(range);
}

void Scratch::enter(const FormulaPlace& place, const std::string& formula) {
    const auto range = cells(copy_, place.where);
    if (place.array)
        need<css::sheet::XArrayFormulaRange>(range)->setArrayFormula(utf16("=" + formula));
    else
        range->getCellByPosition(0, 0)->setFormula(utf16("=" + formula));
    (void)range->getCellByPosition(0, 0)->getError(); // calculated now
}

void Scratch::bring_names(const std::string& formula, sal_Int32 sheet) {
    const auto to = names_of(copy_);
    for (const auto& word : words(formula)) {
        const auto named = references_.name(word, sheet);
        if (!named.is() || to->hasByName(utf16(word)))
            continue;
        to->addNewByName(utf16(word), named->getContent(), named->getReferencePosition(), named->getType());
        bring_names(utf8(named->getContent()), sheet);
    }
}

void Scratch::bring_values(const CellRangeAddress& where) {
    const auto to = cells(copy_, where);
    set_values(to, values_of(cells(original_, where)));
    for (const auto& wrong : errors_in(original_, where))
        for (sal_Int32 column = wrong.StartColumn; column <= wrong.EndColumn; ++column)
            for (sal_Int32 row = wrong.StartRow; row <= wrong.EndRow; ++row)
                to->getCellByPosition(column - where.StartColumn, row - where.StartRow)->setFormula("=NA()");
}

} // namespace pacecells
