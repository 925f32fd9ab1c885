#include "prints.h"

#include "office.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>

#include <algorithm>

namespace pacecells {

namespace {

using css::uno::Any;
using Document = css::uno::Reference<css::sheet::XSpreadsheetDocument>;

// A sheet that lists people: its print area has a row for each cell of `people`, and heads above.
struct List {
    const char* paper;
    const char* people;
};
constexpr List lists[] = {
    {"paper_roster", "roster_name"},  {"paper_margins", "roster_name"},  {"paper_sets", "roster_name"},
    {"paper_version", "roster_name"}, {"paper_messages", "roster_name"}, {"paper_heats", "roster_name"},
    {"paper_day", "roster_name"},     {"paper_review", "roster_name"},   {"paper_tests", "tests_name"},
    {"paper_season", "season_names"}, {"paper_entry", "athlete_name"},   {"paper_summary", "athlete_name"},
};

constexpr sal_Int32 most_lanes = 12; // judge sheets below each other
constexpr sal_Int32 set_heads = 2;   // columns of sheet Sets before those of the stations
constexpr sal_Int32 set_columns = 4; // of each station

sal_Int32 rows_in(const css::table::CellRangeAddress& where) { return where.EndRow - where.StartRow + 1; }

bool filled(const Any& value) {
    rtl::OUString text;
    return !(value >>= text) || !text.isEmpty();
}

// Down a column or along a row to the last cell that is filled; at least one.
sal_Int32 last_filled(const Document& document, const char* name) {
    const auto values = values_of(named_range(document, name));
    sal_Int32 last = 1;
    for (sal_Int32 row = 0; row < values.getLength(); ++row)
        for (sal_Int32 column = 0; column < values[row].getLength(); ++column)
            if (filled(values[row][column]))
                last = std::max(last, std::max(row, column) + 1);
    return last;
}

bool has(const Document& document, const char* first, const char* second) {
    return find_name(document, first).is() && find_name(document, second).is();
}

void fit(const Document& document, const char* paper, sal_Int32 rows, sal_Int32 columns) {
    auto area = address(named_range(document, paper));
    area.EndRow = std::min(area.EndRow, area.StartRow + rows - 1);
    area.EndColumn = std::min(area.EndColumn, area.StartColumn + columns - 1);
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    const css::uno::Reference<css::sheet::XPrintAreas> sheet(sheets->getByIndex(area.Sheet), css::uno::UNO_QUERY_THROW);
    sheet->setPrintAreas({&area, 1});
}

// How many columns of the list are in use.
sal_Int32 columns_of(const Document& document, std::string_view paper) {
    const auto area = address(named_range(document, paper));
    if (paper == "paper_tests" && find_name(document, "tests_movements").is()) { // three columns a movement
        const auto first = address(named_range(document, "tests_movements")).StartColumn - area.StartColumn;
        return first + last_filled(document, "tests_movements") + 2;
    }
    if (paper == "paper_sets" && find_name(document, "st_kind").is()) {
        const auto kinds = values_of(named_range(document, "st_kind"));
        const auto stations =
            std::count_if(kinds.begin(), kinds.end(), [](const auto& row) { return row[0] == Any(1.0); });
        return set_heads + set_columns * static_cast<sal_Int32>(std::max<std::ptrdiff_t>(1, stations));
    }
    return area.EndColumn - area.StartColumn + 1;
}

} // namespace

void fit_prints(const Document& document) {
    for (const auto& list : lists) {
        if (!has(document, list.paper, list.people))
            continue;
        const auto heads =
            rows_in(address(named_range(document, list.paper))) - rows_in(address(named_range(document, list.people)));
        fit(document, list.paper, heads + last_filled(document, list.people), columns_of(document, list.paper));
    }
    if (has(document, "paper_cards", "card_one")) {
        const auto card = rows_in(address(named_range(document, "card_one")));
        const auto pages = (last_filled(document, "roster_name") + 3) / 4; // two rows of two cards on each
        fit(document, "paper_cards", pages * 2 * card, columns_of(document, "paper_cards"));
    }
    if (has(document, "paper_judge", "event_lanes")) {
        const auto lanes = named_range(document, "event_lanes")->getCellByPosition(0, 0)->getValue();
        const auto each = rows_in(address(named_range(document, "paper_judge"))) / most_lanes;
        fit(document, "paper_judge", each * static_cast<sal_Int32>(std::clamp(lanes, 1.0, double{most_lanes})),
            columns_of(document, "paper_judge"));
    }
}

namespace {

const Command command{"fit-prints", [](Context& context) {
                          if (!find_name(context.document(), "paper_roster").is() &&
                              !find_name(context.document(), "paper_entry").is())
                              throw Refusal{tr("This workbook is none of ours: its print areas stay as they are.")};
                          Undo undo(context.document(), tr("Fit prints to the people"));
                          fit_prints(context.document());
                          undo.done();
                          context.say(tr("Every sheet now prints the rows of the people there are."));
                      }};

} // namespace

} // namespace pacecells
