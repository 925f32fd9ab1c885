#include "shown.h"

#include "form.h"
#include "texts.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <cmath>

namespace pacecells {

const Cell* as_cell(const Argument& argument) {
    if (const auto* range = std::get_if<Range>(&argument))
        return range->single() ? &range->cells.front() : nullptr;
    return std::get_if<Cell>(&argument);
}

std::string shortened(const std::string& text, std::size_t longest) {
    if (text.size() <= longest)
        return text;
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
        --end; // not inside a character
    return text.substr(0, end) + " …";
}

std::string sentence(std::string text) {
    if (!text.ends_with('.') && !text.ends_with('?'))
        text += '.';
    return text;
}

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
                                     : " (" + tr("%1 × %2 cells", std::to_string(rows), std::to_string(columns)) + ")";
}

std::string reason(const Row& row, const Error& error) {
    return error.argument < 0
               ? tr(error)
               : std::string(row.parameters()[static_cast<std::size_t>(error.argument)].name) + " " + tr(error);
}

} // namespace pacecells
