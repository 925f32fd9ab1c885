// The cells around a formula: what it refers to, and a copy of them to calculate in.
#pragma once

#include "office.h"

#include <com/sun/star/sheet/XFormulaParser.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>

#include <set>

namespace pacecells {

using Document = css::uno::Reference<css::sheet::XSpreadsheetDocument>;

[[nodiscard]] css::uno::Reference<css::table::XCellRange> cells(const Document& document,
                                                                const css::table::CellRangeAddress& where);
[[nodiscard]] css::uno::Reference<css::table::XCell> cell_at(const Document& document,
                                                             const css::table::CellAddress& where);
// As people see it.
[[nodiscard]] std::string shown_in(const css::uno::Reference<css::table::XCell>& cell);
// "C7", "C7:D9", and "Event.C7" on another sheet than `home`.
[[nodiscard]] std::string place_name(const Document& document, const css::table::CellRangeAddress& where,
                                     sal_Int32 home);
// The cells there whose formulas end in an error.
[[nodiscard]] std::vector<css::table::CellRangeAddress> errors_in(const Document& document,
                                                                  const css::table::CellRangeAddress& where);

// A formula where it stands.
struct FormulaPlace {
    css::table::CellAddress cell;       // the one asked for
    css::table::CellRangeAddress where; // all that the formula fills
    std::string text;                   // without the =
    bool array = false;

    // Nothing where the cell does not calculate.
    [[nodiscard]] static std::optional<FormulaPlace> at(const Document& document, const css::table::CellAddress& cell);
    [[nodiscard]] css::table::CellAddress start() const { return {where.Sheet, where.StartColumn, where.StartRow}; }
};

// What formulas refer to, names followed. (The office's own queryPrecedents forgets the sheet in LibreOffice 7.4.)
class References {
  public:
    explicit References(const Document& document);

    // Whole columns end where the sheet's contents do.
    [[nodiscard]] std::vector<css::table::CellRangeAddress> of(const std::string& formula,
                                                               const css::table::CellAddress& at) const;
    // Of a text that is nothing but one reference or name.
    [[nodiscard]] std::optional<css::table::CellRangeAddress> only(const std::string& text,
                                                                   const css::table::CellAddress& at) const;
    // A name that a formula on that sheet can use: the sheet's own before the document's.
    [[nodiscard]] css::uno::Reference<css::sheet::XNamedRange> name(const std::string& word, sal_Int32 sheet) const;

  private:
    void collect(const std::string& formula, const css::table::CellAddress& base, const css::table::CellAddress& at,
                 std::set<std::string>& seen, std::vector<css::table::CellRangeAddress>& found) const;
    [[nodiscard]] css::table::CellRangeAddress cut_to_used(css::table::CellRangeAddress where) const;

    Document document_;
    css::uno::Reference<css::sheet::XFormulaParser> parser_;
};

// A document of its own with the same sheets, into which the cells that a formula needs are brought as values. There
// the office calculates it, and any part of it, while the original is only read.
class Scratch {
  public:
    Scratch(const Context& context, const Document& original, const References& references);
    ~Scratch();
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    void bring(const FormulaPlace& place);
    // Calculates a formula at that place.
    void enter(const FormulaPlace& place, const std::string& formula);
    [[nodiscard]] css::uno::Reference<css::table::XCell> result(const FormulaPlace& place) const {
        return cell_at(copy_, place.cell);
    }

  private:
    void bring_names(const std::string& formula, sal_Int32 sheet);
    void bring_values(const css::table::CellRangeAddress& where);

    Document original_;
    const References& references_;
    Document copy_;
};

} // namespace pacecells
