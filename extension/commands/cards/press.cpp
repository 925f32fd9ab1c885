#include "press.h"

#include "prints.h"
#include "store.h"
#include "values.h"

#include "pacecells/words.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XSpreadsheets.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr sal_Int32 cards_per_page = 4;
constexpr sal_Int32 judges_per_page = 2;
constexpr sal_Int32 name_in_list = 3; // column of heat_list

std::string name_of(const Range& sheet) { return utf8(need<css::container::XNamed>(sheet)->getName()); }

} // namespace

css::table::CellRangeAddress Press::Pages::place(sal_Int32 number) const {
    auto where = first;
    const auto deep = rows() / places;
    where.StartRow += number * deep;
    where.EndRow = where.StartRow + deep - 1;
    return where;
}

Press::Press(const Context& context, const Document& original, bool with_judges)
    : context_(context), copy_(context, original), event_(copy_.document()) {
    const auto calculation = need<css::sheet::XCalculatable>(copy_.document());
    calculation->enableAutomaticCalculation(true);
    calculation->calculateAll(); // a file does not tell an empty text from a blank
    if (const auto missing = event_.text("workout_check"); !missing.empty())
        throw Refusal{tr("The workout is not complete yet: %1", missing)};
    const auto names = event_.texts("roster_name");
    const auto divisions = event_.texts("roster_division");
    for (const auto& row : event_.values("heat_list")) {
        Starter starter;
        starter.name = text_of(row[name_in_list]);
        if (starter.name.empty())
            break;
        for (std::size_t i = 0; i < names.size(); ++i)
            if (same_name(names[i], starter.name))
                starter.division = divisions[i];
        starters_.push_back(std::move(starter));
    }
    if (starters_.empty())
        throw Refusal{tr("Nobody starts: the roster is empty, or everybody's plan is not today.")};
    const auto cards = read("card_first", "card_page", cards_per_page);
    const auto judges = with_judges ? read("judge_first", "judge_page", judges_per_page) : std::vector<Rows>();
    for (std::size_t i = 0; i < starters_.size(); ++i) {
        starters_[i].card = cards[i];
        if (with_judges)
            starters_[i].judge = judges[i];
    }
    fit_prints(copy_.document());
}

// The values of everyone's card or sheet, page by page.
std::vector<Rows> Press::read(const char* first, const char* page, sal_Int32 places) const {
    const auto chosen = event_.at(first);
    const auto range = event_.at(page);
    std::vector<Rows> all;
    for (std::size_t i = 0; i < starters_.size(); i += static_cast<std::size_t>(places)) {
        put_number(chosen, 0, 0, static_cast<double>(i + 1));
        const auto values = shown_values(range);
        const auto deep = values.getLength() / places;
        for (sal_Int32 k = 0; k < places; ++k)
            all.push_back(Rows(values.getConstArray() + k * deep, deep));
    }
    return all;
}

Range Press::sheet_of(const char* name) const {
    const auto range = event_.find(name);
    return range.is() ? copy_.sheet(address(range).Sheet) : Range();
}

Digest Press::wall() const {
    const auto page = event_.find("wall_page");
    return page.is() ? digest_of(shown_values(page)) : 0;
}

Digest Press::heats() const { return digest_of(event_.values("heat_list")); }

// A sheet at the end with the layout of that page alone.
Press::Pages Press::make(const char* page, const char* title, sal_Int32 places) {
    using namespace css::sheet::CellFlags;
    const auto model = sheet_of(page);
    const auto count = copy_.sheets();
    copy_.document()->getSheets()->copyByName(utf16(name_of(model)), rtl::OUString::createFromAscii(title),
                                              static_cast<sal_Int16>(count));
    Pages pages{copy_.sheet(count), address(event_.at(page)), places, 1, {}};
    pages.first.Sheet = static_cast<sal_Int16>(count);
    need<css::sheet::XSheetOperation>(pages.sheet)->clearContents(VALUE | DATETIME | STRING | FORMULA);
    const auto rows = need<css::table::XColumnRowRange>(pages.sheet)->getRows();
    for (auto row = pages.first.StartRow; row <= pages.first.EndRow; ++row) {
        sal_Int32 height = 0;
        get_property(Reference<css::uno::XInterface>(rows->getByIndex(row), css::uno::UNO_QUERY), "Height") >>= height;
        pages.heights.push_back(height);
    }
    need<css::sheet::XPrintAreas>(pages.sheet)->setPrintTitleRows(false);
    return pages;
}

void Press::fill(Pages& pages, const std::vector<const Starter*>& people, Rows Starter::*what) {
    const auto rows = need<css::table::XColumnRowRange>(pages.sheet)->getRows();
    const auto wanted = (static_cast<sal_Int32>(people.size()) + pages.places - 1) / pages.places;
    for (; pages.laid < wanted; ++pages.laid) {
        const auto top = pages.first.StartRow + pages.laid * pages.rows();
        need<css::sheet::XCellRangeMovement>(pages.sheet)
            ->copyRange({pages.first.Sheet, pages.first.StartColumn, top}, pages.first);
        for (std::size_t i = 0, next = 0; i < pages.heights.size(); i = next) { // rows of one height at once
            while (next < pages.heights.size() && pages.heights[next] == pages.heights[i])
                ++next;
            const auto same = pages.sheet->getCellRangeByPosition(0, top + static_cast<sal_Int32>(i), 0,
                                                                  top + static_cast<sal_Int32>(next) - 1);
            set_property(need<css::table::XColumnRowRange>(same)->getRows(), "Height", Any(pages.heights[i]));
        }
        set_property(Reference<css::uno::XInterface>(rows->getByIndex(top), css::uno::UNO_QUERY), "IsStartOfNewPage",
                     Any(true));
    }
    for (std::size_t i = 0; i < people.size(); ++i)
        set_values(part(pages.sheet, pages.place(static_cast<sal_Int32>(i))), people[i]->*what);
    auto area = pages.place(static_cast<sal_Int32>(people.size()) - 1);
    area.StartRow = pages.first.StartRow;
    need<css::sheet::XPrintAreas>(pages.sheet)->setPrintAreas({&area, 1});
    // a page that is scaled to fit one is many now, of the same scale
    const auto style = page_style(pages.sheet);
    if (sal_Int16 tall = 0; (get_property(style, "ScaleToPagesY") >>= tall) && tall > 0)
        set_property(style, "ScaleToPagesY", Any(static_cast<sal_Int16>(wanted)));
}

Reference<css::beans::XPropertySet> Press::page_style(const Range& sheet) const {
    rtl::OUString name;
    get_property(sheet, "PageStyle") >>= name;
    const Reference<css::container::XNameAccess> styles(
        need<css::style::XStyleFamiliesSupplier>(copy_.document())->getStyleFamilies()->getByName("PageStyles"),
        css::uno::UNO_QUERY_THROW);
    return {styles->getByName(name), css::uno::UNO_QUERY_THROW};
}

void Press::print(const Order& order, const std::string& url) {
    if (!order.cards.empty()) {
        if (!cards_)
            cards_ = make("card_page", "Pacecells cards", cards_per_page);
        fill(*cards_, order.cards, &Starter::card);
    }
    if (!order.judges.empty()) {
        if (!judges_)
            judges_ = make("judge_page", "Pacecells judges", judges_per_page);
        fill(*judges_, order.judges, &Starter::judge);
    }
    const auto heats = sheet_of("heat_list");
    const auto wall = sheet_of("wall_page");
    const auto printed = [&](const Range& sheet) {
        const auto name = name_of(sheet);
        return (order.wall && wall.is() && name == name_of(wall)) || (order.heats && name == name_of(heats)) ||
               (cards_ && !order.cards.empty() && name == name_of(cards_->sheet)) ||
               (judges_ && !order.judges.empty() && name == name_of(judges_->sheet));
    };
    for (sal_Int32 i = 0; i < copy_.sheets(); ++i) {
        const auto sheet = copy_.sheet(i);
        set_property(page_style(sheet), "FirstPageNumber", Any(sal_Int16{0})); // pages are counted through
        if (!printed(sheet)) // a hidden sheet would be printed, one without a print area is not
            need<css::sheet::XPrintAreas>(sheet)->setPrintAreas({});
    }
    if (order.heats) { // the list alone, without the live page beside it
        const auto areas = need<css::sheet::XPrintAreas>(heats)->getPrintAreas();
        if (areas.getLength() > 1)
            need<css::sheet::XPrintAreas>(heats)->setPrintAreas({areas.getConstArray(), 1});
    }
    store_whole(context_, need<css::frame::XStorable>(copy_.document()), url,
                {{"FilterName", Any(rtl::OUString("calc_pdf_Export"))}});
}

} // namespace pacecells
