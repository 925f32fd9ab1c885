#include "arguments.h"

#include "unicode.h"

#include <algorithm>
#include <bit>
#include <cstdint>

#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/uno/Sequence.hxx>

namespace pacecells {

namespace uno = com::sun::star::uno;

namespace {

template <class T>
inline constexpr auto type_class = uno::TypeClass_SEQUENCE;
template <>
inline constexpr auto type_class<double> = uno::TypeClass_DOUBLE;
template <>
inline constexpr auto type_class<rtl::OUString> = uno::TypeClass_STRING;

// A look into an Any without a copy. Types are counted references, so that to compare them costs; their class tells
// most of them apart.
template <class T>
const T* access(const uno::Any& value) {
    if (value.getValueTypeClass() != type_class<T>)
        return nullptr;
    if constexpr (type_class<T> != uno::TypeClass_SEQUENCE)
        return static_cast<const T*>(value.getValue());
    return value.getValueType() == cppu::UnoType<T>::get() ? static_cast<const T*>(value.getValue()) : nullptr;
}

Cell to_cell(const uno::Any& value, bool inside_range) {
    if (!value.hasValue() || value.getValue() == nullptr)
        return Blank{};
    if (const auto* number = access<double>(value))
        return *number;
    if (const auto* text = access<rtl::OUString>(value)) {
        if (inside_range && text->isEmpty())
            return Blank{};
        return utf8(*text);
    }
    double number = 0;
    if (value >>= number)
        return number; // an integer, from callers other than a formula
    bool truth = false;
    if (value >>= truth)
        return truth ? 1.0 : 0.0;
    return out_of_domain("takes numbers, times or text.");
}

double number_of(const Error& error) {
    switch (error.kind) {
    case ErrorKind::no_solution:
        return error_value(no_convergence);
    case ErrorKind::not_available:
        return error_value(not_available_code);
    case ErrorKind::out_of_domain:
        break;
    }
    return error_value(illegal_argument);
}

using Rows = uno::Sequence<uno::Sequence<uno::Any>>;

bool filled(const uno::Any& value) {
    const auto* text = access<rtl::OUString>(value);
    return text ? !text->isEmpty() : value.hasValue();
}

bool any_filled(const uno::Sequence<uno::Any>& row) { return std::any_of(row.begin(), row.end(), filled); }

// Beyond it a range is a whole column, meant as far as it is filled.
constexpr sal_Int32 most_meant_whole = 65'536;

class OfficeArea : public Area {
  public:
    explicit OfficeArea(const uno::Reference<com::sun::star::table::XCellRange>& range)
        : range_(range),
          where_(uno::Reference<com::sun::star::sheet::XCellRangeAddressable>(range, uno::UNO_QUERY_THROW)
                     ->getRangeAddress()) {}

    [[nodiscard]] int rows() const override { return where_.EndRow - where_.StartRow + 1; }
    [[nodiscard]] int columns() const override { return where_.EndColumn - where_.StartColumn + 1; }
    [[nodiscard]] Address first() const override { return {where_.Sheet, where_.StartColumn, where_.StartRow}; }

    [[nodiscard]] std::string sheet() const override {
        const uno::Reference<com::sun::star::sheet::XSheetCellRange> range(range_, uno::UNO_QUERY_THROW);
        return utf8(uno::Reference<com::sun::star::container::XNamed>(range->getSpreadsheet(), uno::UNO_QUERY_THROW)
                        ->getName());
    }

    [[nodiscard]] Result<Table> part(int row, int column, int rows, int columns) const override {
        const bool whole = rows == this->rows() && columns == this->columns();
        const auto range =
            whole ? range_ : range_->getCellRangeByPosition(column, row, column + columns - 1, row + rows - 1);
        const auto values =
            uno::Reference<com::sun::star::sheet::XCellRangeData>(range, uno::UNO_QUERY_THROW)->getDataArray();
        Table table{static_cast<std::size_t>(rows), static_cast<std::size_t>(columns), {}};
        table.cells.reserve(table.rows * table.columns);
        for (sal_Int32 r = 0; r < rows; ++r)
            for (const auto& value : values[r]) {
                if (const auto* number = access<double>(value))
                    table.cells.emplace_back(*number);
                else if (const auto* text = access<rtl::OUString>(value))
                    text->isEmpty() ? table.cells.emplace_back() : table.cells.emplace_back(utf8(*text));
                else // a cell with an error has no value
                    return out_of_domain(
                        "%1 shows an error.",
                        cell_name(row + r, column + static_cast<int>(table.cells.size()) - r * columns));
            }
        return table;
    }

    [[nodiscard]] bool calculated(int row, int column) const override {
        return range_->getCellByPosition(column, row)->getType() == com::sun::star::table::CellContentType_FORMULA;
    }

  private:
    uno::Reference<com::sun::star::table::XCellRange> range_;
    com::sun::star::table::CellRangeAddress where_;
};

uno::Any to_any(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell))
        return uno::Any(*number);
    if (const auto* text = std::get_if<std::string>(&cell))
        return uno::Any(utf16(*text));
    if (const auto* error = std::get_if<Error>(&cell))
        return uno::Any(number_of(*error));
    return uno::Any(rtl::OUString());
}

} // namespace

double error_value(ErrorCode code) { return std::bit_cast<double>(std::uint64_t{0x7FF8000000000000} | code); }

sal_Int32 filled_rows(const uno::Any& value) {
    const auto* rows = access<Rows>(value);
    sal_Int32 filled = rows ? rows->getLength() : 0;
    if (filled <= most_meant_whole)
        return 0;
    while (filled > 1 && !any_filled((*rows)[filled - 1]))
        --filled;
    return filled;
}

Argument to_argument(const uno::Any& value, sal_Int32 rows_of_columns) {
    if (!value.hasValue())
        return Omitted{};
    const auto* rows = access<Rows>(value);
    if (!rows)
        return to_cell(value, false);
    constexpr std::int64_t most_cells = std::int64_t{8} << 20; // no function has a use for more
    sal_Int32 height = rows->getLength();
    if (height > most_meant_whole)
        height = std::min(height, std::max(rows_of_columns, filled_rows(value)));
    Range range{height, rows->hasElements() ? (*rows)[0].getLength() : 0, {}};
    if (std::int64_t{range.rows} * range.columns > most_cells)
        return Cell{out_of_domain("takes fewer cells than that.")};
    range.cells.reserve(static_cast<std::size_t>(range.rows) * static_cast<std::size_t>(range.columns));
    for (sal_Int32 r = 0; r < range.rows; ++r) {
        const auto& row = (*rows)[r];
        if (row.getLength() != range.columns)
            return Cell{out_of_domain("takes rows of equal length.")};
        for (const auto& cell : row)
            range.cells.push_back(to_cell(cell, true));
    }
    return range;
}

Argument to_argument(const uno::Reference<com::sun::star::table::XCellRange>& range, sal_Int32) {
    if (!range.is())
        return Omitted{};
    return AreaPointer(std::make_shared<OfficeArea>(range));
}

uno::Any to_any(const Answer& answer) {
    if (const auto* cell = std::get_if<Cell>(&answer))
        return to_any(*cell);
    const auto& range = *std::get_if<Range>(&answer);
    Rows rows(range.rows);
    auto* row = rows.getArray();
    for (int r = 0; r < range.rows; ++r) {
        row[r].realloc(range.columns);
        auto* cells = row[r].getArray();
        for (int c = 0; c < range.columns; ++c)
            cells[c] = to_any(range.at(r, c));
    }
    return uno::Any(rows);
}

} // namespace pacecells
