#include "prints.h"

#include "office.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>

#include <algorithm>

namespace pacecells {

namespace {

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

sal_Int32 rows_in(const css::table::CellRangeAddress& where) { return where.EndRow - where.StartRow + 1; }

// Rows down to the last one with a name; at least one.
sal_Int32 filled_rows(const Document& document, const char* name) {
    const auto values = values_of(named_range(document, name));
    sal_Int32 last = 1;
    for (sal_Int32 row = 0; row < values.getLength(); ++row) {
        rtl::OUString text;
        if (!(values[row][0] >>= text) || !text.isEmpty())
            last = row + 1;
    }
    return last;
}

void fit(const Document& document, const char* paper, sal_Int32 rows) {
    auto area = address(named_range(document, paper));
    area.EndRow = std::min(area.EndRow, area.StartRow + rows - 1);
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    const css::uno::Reference<css::sheet::XPrintAreas> sheet(sheets->getByIndex(area.Sheet), css::uno::UNO_QUERY_THROW);
    sheet->setPrintAreas({&area, 1});
}

} // namespace

void fit_prints(const Document& document) {
    for (const auto& list : lists) {
        if (!find_name(document, list.paper).is() || !find_name(document, list.people).is())
            continue;
        const auto heads =
            rows_in(address(named_range(document, list.paper))) - rows_in(address(named_range(document, list.people)));
        fit(document, list.paper, heads + filled_rows(document, list.people));
    }
    if (find_name(document, "paper_cards").is() && find_name(document, "card_one").is()) {
        const auto card = rows_in(address(named_range(document, "card_one")));
        const auto pages = (filled_rows(document, "roster_name") + 3) / 4; // two rows of two cards on each
        fit(document, "paper_cards", pages * 2 * card);
    }
    if (find_name(document, "paper_judge").is() && find_name(document, "event_lanes").is()) {
        const auto lanes = named_range(document, "event_lanes")->getCellByPosition(0, 0)->getValue();
        const auto each = rows_in(address(named_range(document, "paper_judge"))) / most_lanes;
        fit(document, "paper_judge", each * static_cast<sal_Int32>(std::clamp(lanes, 1.0, double{most_lanes})));
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
