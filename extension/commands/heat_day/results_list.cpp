#include "results_list.h"

#include "heat_day_clock.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XHeaderFooterContent.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheets.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/table/BorderLine.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/table/XTableColumns.hpp>
#include <com/sun/star/table/XTableRows.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/text/XTextContent.hpp>

#include <algorithm>
#include <array>
#include <map>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr int columns = 5;
constexpr sal_Int32 widths[columns] = {2000, 7400, 4200, 3000, 2000}; // the width of A4 between the margins
constexpr sal_Int32 margin = 1200;
constexpr double no_place = 1e9;

struct Line {
    double place;
    std::string name, result, tiebreak, heat;
};
using Divisions = std::map<std::string, std::vector<Line>>;

std::string time_of_day(double share) {
    const auto minutes = static_cast<int>(share * 1440);
    const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return std::to_string(minutes / 60) + ":" + two(minutes % 60);
}

Divisions divisions_of(EventSheet& event) {
    Divisions divisions;
    const auto people = event.lines();
    for (int row = 0; row < static_cast<int>(people.size()); ++row) {
        const auto result = event.shown("results_result", row);
        const auto& name = people[static_cast<std::size_t>(row)].name;
        if (name.empty() || result.empty())
            continue;
        divisions[event.shown("results_division", row)].push_back(
            {number_of(event.value("results_place", row)).value_or(no_place), name, result,
             event.shown("results_tiebreak", row), event.shown("results_heat", row)});
    }
    return divisions;
}

class Page {
  public:
    explicit Page(const Reference<css::sheet::XSpreadsheetDocument>& document)
        : sheet_(need<css::container::XIndexAccess>(document->getSheets())->getByIndex(0), css::uno::UNO_QUERY_THROW) {
        need<css::container::XNamed>(sheet_)->setName(utf16(tr("Results")));
        const auto all = need<css::table::XColumnRowRange>(sheet_)->getColumns();
        for (int column = 0; column < columns; ++column)
            set_property(Reference<css::uno::XInterface>(all->getByIndex(column), css::uno::UNO_QUERY_THROW), "Width",
                         Any(widths[column]));
    }

    [[nodiscard]] const Reference<css::sheet::XSpreadsheet>& sheet() const { return sheet_; }

    void heading(const std::string& text, bool bold, double height) {
        put(0, text, bold, height);
        ++row_;
    }
    // Below a line that is not ruled, beside its first column.
    void note(const std::string& text) {
        put(1, text, false, 9);
        rule(false);
        ++row_;
    }
    // All so far heads each printed page.
    void repeat() {
        const auto print = need<css::sheet::XPrintAreas>(sheet_);
        print->setTitleRows(address(sheet_->getCellRangeByPosition(0, 0, 0, row_ - 1)));
        print->setPrintTitleRows(true);
    }
    void skip() { ++row_; }
    void new_page() {
        const auto rows = need<css::table::XColumnRowRange>(sheet_)->getRows();
        set_property(Reference<css::uno::XInterface>(rows->getByIndex(row_), css::uno::UNO_QUERY_THROW),
                     "IsStartOfNewPage", Any(true));
    }
    enum class Kind { head, ruled, noted };
    void line(const std::array<std::string, columns>& texts, Kind kind) {
        const bool head = kind == Kind::head;
        for (int column = 0; column < columns; ++column)
            put(column, texts[static_cast<std::size_t>(column)], head, head ? 11 : 13);
        set_property(sheet_->getCellByPosition(0, row_), "HoriJustify", Any(css::table::CellHoriJustify_CENTER));
        if (kind != Kind::noted)
            rule(head);
        ++row_;
    }

  private:
    void rule(bool strong) {
        const auto cells = sheet_->getCellRangeByPosition(0, row_, columns - 1, row_);
        set_property(cells, "BottomBorder", Any(css::table::BorderLine(0, 0, static_cast<short>(strong ? 35 : 9), 0)));
    }
    void put(int column, const std::string& text, bool bold, double height) {
        const auto cell = sheet_->getCellByPosition(column, row_);
        need<css::text::XText>(cell)->setString(utf16(text));
        set_property(cell, "CharHeight", Any(static_cast<float>(height)));
        if (bold)
            set_property(cell, "CharWeight", Any(150.0f));
    }

    Reference<css::sheet::XSpreadsheet> sheet_;
    int row_ = 0;
};

void fit_to_page(const Reference<css::sheet::XSpreadsheetDocument>& document,
                 const Reference<css::sheet::XSpreadsheet>& sheet) {
    const Reference<css::container::XNameAccess> styles(
        need<css::style::XStyleFamiliesSupplier>(document)->getStyleFamilies()->getByName("PageStyles"),
        css::uno::UNO_QUERY_THROW);
    rtl::OUString name;
    get_property(sheet, "PageStyle") >>= name;
    const Reference<css::uno::XInterface> page(styles->getByName(name), css::uno::UNO_QUERY_THROW);
    set_property(page, "HeaderIsOn", Any(false)); // it would print the sheet's name
    for (const char* side : {"LeftMargin", "RightMargin", "TopMargin", "BottomMargin"})
        set_property(page, side, Any(margin));
    const Reference<css::sheet::XHeaderFooterContent> footer(get_property(page, "RightPageFooterContent"),
                                                             css::uno::UNO_QUERY_THROW);
    const auto text = footer->getCenterText();
    text->setString(
        utf16(tr("A coach's plan is not medical advice. Stop if you have chest pain, feel faint or have unusual "
                 "pain.") +
              "\n"));
    const auto field = [&](const char* kind) {
        const auto made = need<css::lang::XMultiServiceFactory>(document)->createInstance(
            "com.sun.star.text.TextField." + rtl::OUString::createFromAscii(kind));
        text->insertTextContent(text->getEnd(), need<css::text::XTextContent>(made), false);
    };
    field("PageNumber");
    text->insertString(text->getEnd(), " / ", false);
    field("PageCount");
    set_property(page, "RightPageFooterContent", Any(footer));
    set_property(page, "ScaleToPagesX", Any(sal_Int16{1}));
    set_property(page, "ScaleToPagesY", Any(sal_Int16{0}));
}

} // namespace

void list_results(const Context& context, EventSheet& event, const std::vector<Correction>& corrections) {
    auto divisions = divisions_of(event);
    if (divisions.empty())
        throw Refusal{tr("There are no results yet.")};
    std::vector<std::string> order;
    for (const auto& division : event.workout().divisions)
        order.push_back(division.name);
    for (const auto& [division, lines] : divisions)
        if (std::ranges::find(order, division) == order.end())
            order.push_back(division);

    const auto made = load(context, "private:factory/scalc", {{"Hidden", Any(!context.interactive())}});
    const auto document = need<css::sheet::XSpreadsheetDocument>(made);
    Page page(document);
    page.heading(event.title(), true, 20);
    page.heading(event.heading(), false, 11);
    page.heading(tr("Standings, %1", time_of_day(share_of_day(day_now()))), false, 13);
    page.repeat();
    bool first = true;
    for (const auto& division : order) {
        const auto found = divisions.find(division);
        if (found == divisions.end())
            continue;
        auto& lines = found->second;
        std::ranges::stable_sort(lines, {}, &Line::place);
        if (!std::exchange(first, false))
            page.new_page();
        page.skip();
        page.heading(division, true, 15);
        page.line({tr("Place"), tr("Name"), tr("Result"), tr("Tie-break"), tr("Heat")}, Page::Kind::head);
        for (const auto& line : lines)
            page.line({line.place < no_place ? std::to_string(static_cast<int>(line.place)) : std::string(), line.name,
                       line.result, line.tiebreak, line.heat},
                      Page::Kind::ruled);
    }
    if (!corrections.empty()) {
        page.new_page();
        page.skip();
        page.heading(tr("Changed since the end of the heat"), true, 15);
        page.line({tr("Heat"), tr("Name"), tr("What"), tr("Then"), tr("Now")}, Page::Kind::head);
        for (const auto& one : corrections) {
            page.line({std::to_string(one.heat), one.name, one.what, one.then, one.now}, Page::Kind::noted);
            page.note(one.when.empty()  ? tr("When and by whom is not known")
                      : one.who.empty() ? tr("Changed %1", one.when)
                                        : tr("Changed %1 by %2", one.when, one.who));
        }
    }
    fit_to_page(document, page.sheet());
}

} // namespace pacecells
