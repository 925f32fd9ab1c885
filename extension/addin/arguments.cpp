#include "arguments.h"

#include "unicode.h"

#include <bit>
#include <cstdint>

#include <com/sun/star/uno/Sequence.hxx>

namespace pacecells {

namespace uno = com::sun::star::uno;

namespace {

// A look into an Any without a copy.
template <class T>
const T* access(const uno::Any& value) {
    return value.getValueType() == cppu::UnoType<T>::get() ? static_cast<const T*>(value.getValue()) : nullptr;
}

Cell to_cell(const uno::Any& value, bool inside_range) {
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
    if (!value.hasValue())
        return Blank{};
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

Argument to_argument(const uno::Any& value) {
    if (!value.hasValue())
        return Omitted{};
    const auto* rows = access<uno::Sequence<uno::Sequence<uno::Any>>>(value);
    if (!rows)
        return to_cell(value, false);
    Range range{rows->getLength(), rows->hasElements() ? (*rows)[0].getLength() : 0, {}};
    range.cells.reserve(static_cast<std::size_t>(range.rows) * static_cast<std::size_t>(range.columns));
    for (const auto& row : *rows)
        for (const auto& cell : row)
            range.cells.push_back(to_cell(cell, true));
    return range;
}

bool too_many_cells(const uno::Any& value) {
    constexpr std::int64_t most = std::int64_t{8} << 20;
    const auto* rows = access<uno::Sequence<uno::Sequence<uno::Any>>>(value);
    return rows && rows->hasElements() && std::int64_t{rows->getLength()} * (*rows)[0].getLength() > most;
}

uno::Any to_any(const Answer& answer) {
    if (const auto* cell = std::get_if<Cell>(&answer))
        return to_any(*cell);
    const auto& range = *std::get_if<Range>(&answer);
    uno::Sequence<uno::Sequence<uno::Any>> rows(range.rows);
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
