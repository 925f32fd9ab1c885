#include "press.h"

#include "prints.h"
#include "row_heights.h"
#include "store.h"
#include "values.h"
#include "wall_page.h"

#include "pacecells/words.h"

#include <com/sun/star/beans/PropertyAttribute.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameContainer.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XConditionalFormat.hpp>
#include <com/sun/star/sheet/XConditionalFormats.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheets.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XMergeable.hpp>

#include <algorithm>
#include <numeric>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr sal_Int32 cards_per_page = 4;
constexpr sal_Int32 judges_per_page = 2;
enum HeatColumn : sal_Int32 { heat_in_list, lane_in_list, name_in_list = 3, judge_in_list };

bool is_blank(const Any& value) {
    rtl::OUString text;
    return (value >>= text) && text.isEmpty();
}

bool blank_row(const css::uno::Sequence<Any>& row) { return std::all_of(row.begin(), row.end(), is_blank); }

bool has_text(const Rows& rows) { return !std::all_of(rows.begin(), rows.end(), blank_row); }

std::string name_of(const Range& sheet) { return utf8(need<css::container::XNamed>(sheet)->getName()); }

} // namespace

css::table::CellRangeAddress Press::Pages::place(sal_Int32 number) const {
    auto where = first;
    where.StartRow += number * deep();
    where.EndRow = where.StartRow + deep() - 1;
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
    const auto list = event_.values("heat_list");
    std::vector<std::size_t> lanes; // the first person of each, in starters_
    for (sal_Int32 place = 0; place < list.getLength(); ++place) {
        const auto& row = list[place];
        Starter starter;
        starter.name = text_of(row[name_in_list]);
        if (starter.name.empty())
            break;
        for (std::size_t i = 0; i < names.size(); ++i)
            if (same_name(names[i], starter.name))
                starter.division = divisions[i];
        if (place == 0 || row[heat_in_list] != list[place - 1][heat_in_list] ||
            row[lane_in_list] != list[place - 1][lane_in_list])
            lanes.push_back(starters_.size());
        starters_.push_back(std::move(starter));
    }
    const auto cards = read("card_first", "card_page", cards_per_page, starters_.size());
    for (std::size_t i = 0; i < starters_.size(); ++i)
        if (has_text(cards[i]))
            starters_[i].card = cards[i];
    if (with_judges) { // a team has one sheet
        const auto judges = read("judge_first", "judge_page", judges_per_page, lanes.size());
        for (std::size_t i = 0; i < lanes.size(); ++i)
            if (has_text(judges[i]))
                starters_[lanes[i]].judge = judges[i];
    }
    fit_lists_and_wall(copy_.document());
    stamp_prints(copy_.document(), event_.language());
    split_wall();
    if (sheet_of("heat_list").is())
        heats_ = public_heats();
}

// Conditional formats of copied cells look at the cells that they were copied from, or are not calculated again: they go,
// and hide_blanks does their work.
std::vector<Press::Mark> Press::take_marks(const Range& sheet, const css::table::CellRangeAddress& place) {
    const Reference<css::sheet::XConditionalFormats> formats(get_property(sheet, "ConditionalFormats"),
                                                             css::uno::UNO_QUERY_THROW);
    std::vector<Mark> marks;
    for (const auto& format : formats->getConditionalFormats()) {
        const Reference<css::uno::XInterface> entry(format->getByIndex(0), css::uno::UNO_QUERY_THROW);
        const Reference<css::sheet::XSheetCellRanges> ranges(get_property(format, "Range"), css::uno::UNO_QUERY_THROW);
        for (auto area : ranges->getRangeAddresses()) {
            area.StartRow = std::max(area.StartRow, place.StartRow);
            area.EndRow = std::min(area.EndRow, place.EndRow);
            area.StartColumn = std::max(area.StartColumn, place.StartColumn);
            area.EndColumn = std::min(area.EndColumn, place.EndColumn);
            if (area.StartRow > area.EndRow || area.StartColumn > area.EndColumn)
                continue;
            const auto cells = part(sheet, area);
            Mark mark{area, need<css::util::XMergeable>(cells)->getIsMerged() != 0, {}, {}};
            get_property(cells, "CellStyle") >>= mark.shown;
            get_property(entry, "StyleName") >>= mark.hidden;
            marks.push_back(mark);
        }
        sal_Int32 id = 0;
        get_property(format, "ID") >>= id;
        formats->removeByID(id);
    }
    return marks;
}

// Blank cells get their style for that in the place of those that are marked, or in one so many rows below.
void Press::hide_blanks(const Range& sheet, const std::vector<Mark>& marks, sal_Int32 below) {
    for (auto [area, merged, shown, hidden] : marks) {
        area.StartRow += below;
        area.EndRow += below;
        const auto values = values_of(part(sheet, area));
        auto run = area;
        for (const auto& row : values) {
            run.EndRow = run.StartRow;
            const auto count = row.getLength();
            for (sal_Int32 column = 0, next = 0; column < count; column = next) {
                const bool is_hidden = is_blank(row[column]);
                for (next = merged ? count : column + 1; next < count && is_blank(row[next]) == is_hidden;)
                    ++next;
                run.StartColumn = area.StartColumn + column;
                run.EndColumn = area.StartColumn + next - 1;
                set_property(part(sheet, run), "CellStyle", Any(is_hidden ? hidden : shown));
            }
            ++run.StartRow;
        }
    }
}

namespace {

void leave_out_blank_rows(const Range& sheet, const css::table::CellRangeAddress& area) {
    const auto values = values_of(part(sheet, area));
    for (sal_Int32 row = 0; row < values.getLength(); ++row)
        if (blank_row(values[row]))
            set_property(need<css::table::XColumnRowRange>(
                             sheet->getCellRangeByPosition(0, area.StartRow + row, 0, area.StartRow + row))
                             ->getRows(),
                         "IsVisible", Any(false));
}

} // namespace

// Each page of the wall on a sheet of its own, and as large as its paper: pages of one sheet have one scale.
void Press::split_wall() {
    const auto wall = sheet_of("wall_page");
    if (!wall.is())
        return;
    const auto areas = need<css::sheet::XPrintAreas>(wall)->getPrintAreas();
    const auto after = address(event_.at("wall_page")).Sheet + 1;
    for (sal_Int32 page = 1; page < areas.getLength(); ++page) // before the widths of the first are its own
        copy_.document()->getSheets()->copyByName(utf16(name_of(wall)),
                                                  utf16("Pacecells wall " + std::to_string(page + 1)),
                                                  static_cast<sal_Int16>(after + page - 1));
    for (sal_Int32 page = 0; page < areas.getLength(); ++page) {
        auto area = areas[page];
        area.Sheet = static_cast<sal_Int16>(after + page - 1);
        const auto& sheet = walls_.emplace_back(copy_.sheet(area.Sheet));
        hide_blanks(sheet, take_marks(sheet, area));
        leave_out_blank_rows(sheet, area);
        give_own_style(sheet, ("Pacecells wall " + std::to_string(page + 1)).c_str());
        const auto style = page_style(copy_.document(), sheet);
        widen_for_words(sheet, area);
        fill_page(style, with_room(size_of(sheet, area)));
        area = filled_part(sheet, area).value_or(area);
        share_width(sheet, area, style);
        share_height(sheet, area, area.StartRow + wall_heading + 1, style);
        need<css::sheet::XPrintAreas>(sheet)->setPrintAreas({&area, 1});
    }
}

// The values of everyone's card or sheet, page by page.
std::vector<Rows> Press::read(const char* first, const char* page, sal_Int32 places, std::size_t count) const {
    const auto chosen = event_.at(first);
    const auto range = event_.at(page);
    std::vector<Rows> all;
    for (std::size_t i = 0; i < count; i += static_cast<std::size_t>(places)) {
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

Digest Press::heats() const { return digest_of(heats_); }

// The list of heats with all that is beside it. It hangs where anybody reads it: of a minor it has the lane alone.
Rows Press::public_heats() const {
    const auto list = event_.at("heat_list");
    auto rows = shown_values(part(copy_.sheet(address(list).Sheet), heat_area()));
    const auto kept = private_names(event_.document());
    for (sal_Int32 place = 0; place < rows.getLength(); ++place) {
        auto& row = rows.getArray()[place];
        for (const auto column : {name_in_list, judge_in_list})
            if (kept.contains(fold_name(text_of(row[column]))))
                row.getArray()[column] <<= utf16("–");
    }
    return rows;
}

css::table::CellRangeAddress Press::heat_area() const {
    auto area = address(event_.at("heat_list"));
    area.EndColumn += beside_heat_list;
    return area;
}

// A page style like that of the sheet, for it alone: pages of one sheet may be larger than those of another.
void Press::give_own_style(const Range& sheet, const char* title) const {
    const auto like = page_style(copy_.document(), sheet);
    const Reference<css::container::XNameContainer> styles(
        need<css::style::XStyleFamiliesSupplier>(copy_.document())->getStyleFamilies()->getByName("PageStyles"),
        css::uno::UNO_QUERY_THROW);
    const auto name = rtl::OUString::createFromAscii(title);
    const auto own = need<css::beans::XPropertySet>(
        need<css::lang::XMultiServiceFactory>(copy_.document())->createInstance("com.sun.star.style.PageStyle"));
    styles->insertByName(name, Any(own));
    for (const auto& property : like->getPropertySetInfo()->getProperties())
        if (!(property.Attributes & css::beans::PropertyAttribute::READONLY) && property.Name != "DisplayName" &&
            property.Name != "ParentStyle")
            try {
                own->setPropertyValue(property.Name, like->getPropertyValue(property.Name));
            } catch (const css::uno::Exception&) { // what a page of a sheet cannot have
            }
    set_property(sheet, "PageStyle", Any(name));
}

// A sheet at the end with the layout of that page alone.
Press::Pages Press::make(const char* page, const char* title, sal_Int32 places) {
    using namespace css::sheet::CellFlags;
    const auto model = sheet_of(page);
    const auto count = copy_.sheets();
    copy_.document()->getSheets()->copyByName(utf16(name_of(model)), rtl::OUString::createFromAscii(title),
                                              static_cast<sal_Int16>(count));
    Pages pages{copy_.sheet(count), address(event_.at(page)), places, places, 1, {}, {}};
    pages.first.Sheet = static_cast<sal_Int16>(count);
    pages.marks = take_marks(pages.sheet, pages.place(0));
    need<css::sheet::XSheetOperation>(pages.sheet)->clearContents(VALUE | DATETIME | STRING | FORMULA);
    const auto rows = need<css::table::XColumnRowRange>(pages.sheet)->getRows();
    for (auto row = pages.first.StartRow; row <= pages.first.EndRow; ++row) {
        sal_Int32 height = 0;
        get_property(Reference<css::uno::XInterface>(rows->getByIndex(row), css::uno::UNO_QUERY), "Height") >>= height;
        pages.heights.push_back(height);
    }
    need<css::sheet::XPrintAreas>(pages.sheet)->setPrintTitleRows(false);
    give_own_style(pages.sheet, title);
    return pages;
}

// Rows that are blank for all of them are left out, and the others share the page, each with what its texts need; the last
// of each, between two sheets, stays as it is. Where two are too much for a page, it has one.
void Press::stretch_judges(Pages& pages) const {
    constexpr sal_Int32 most_height = 1400; // of a row, 1/100 mm
    std::vector<Rows> sheets;
    for (const auto& one : starters_)
        if (one.judge.hasElements())
            sheets.push_back(one.judge);
    const auto needs = judge_heights(pages.sheet, pages.place(0), sheets);
    const auto height = room_on(page_style(copy_.document(), pages.sheet)).Height;
    const auto between = pages.heights[needs.size() - 1];
    const auto room = [&] { return (height - height / rounding) / pages.per_page - between; };
    while (pages.per_page > 1 && std::accumulate(needs.begin(), needs.end(), sal_Int32{0}) > room())
        --pages.per_page;
    auto heights = shared_heights(needs, room(), most_height);
    heights.back() = between;
    for (std::size_t row = 0; row < pages.heights.size(); ++row)
        pages.heights[row] = heights[row % heights.size()];
    set_heights(pages, 0);
}

// What is free on the page the rows share.
void Press::fit_cards(Pages& pages) const {
    constexpr sal_Int32 most_scale = 125; // percent
    std::vector<Rows> cards;
    for (const auto& one : starters_)
        if (one.card.hasElements())
            cards.push_back(one.card);
    const auto rows = card_rows(copy_.document(), pages.sheet, pages.place(0), cards, pages.places);
    pages.per_page = rows.per_page;
    const auto height = room_on(page_style(copy_.document(), pages.sheet)).Height;
    const auto room = height - height / rounding;
    const auto scale = std::clamp(room * 100 / (pages.per_page * rows.whole()), sal_Int32{100}, most_scale);
    for (std::size_t row = 0; row < pages.heights.size(); ++row)
        pages.heights[row] = rows.heights[row % rows.heights.size()] * scale / 100;
    set_heights(pages, 0);
}

void Press::set_heights(const Pages& pages, sal_Int32 page) {
    const auto top = pages.first.StartRow + page * pages.rows();
    for (std::size_t i = 0, next = 0; i < pages.heights.size(); i = next) { // rows of one height at once
        while (next < pages.heights.size() && pages.heights[next] == pages.heights[i])
            ++next;
        const auto same = need<css::table::XColumnRowRange>(
                              pages.sheet->getCellRangeByPosition(0, top + static_cast<sal_Int32>(i), 0,
                                                                  top + static_cast<sal_Int32>(next) - 1))
                              ->getRows();
        set_property(same, "IsVisible", Any(pages.heights[i] > 0)); // the live page leaves out others
        if (pages.heights[i] > 0)
            set_property(same, "Height", Any(pages.heights[i]));
    }
}

void Press::fill(Pages& pages, const std::vector<const Starter*>& people, Rows Starter::*what) {
    const auto rows = need<css::table::XColumnRowRange>(pages.sheet)->getRows();
    const auto wanted = (static_cast<sal_Int32>(people.size()) + pages.places - 1) / pages.places;
    for (; pages.laid < wanted; ++pages.laid) {
        const auto top = pages.first.StartRow + pages.laid * pages.rows();
        need<css::sheet::XCellRangeMovement>(pages.sheet)
            ->copyRange({pages.first.Sheet, pages.first.StartColumn, top}, pages.first);
        set_heights(pages, pages.laid);
    }
    for (std::size_t i = 0; i < people.size(); ++i) {
        const auto number = static_cast<sal_Int32>(i);
        const auto place = pages.place(number);
        if (number > 0 && number % pages.per_page == 0)
            set_property(Reference<css::uno::XInterface>(rows->getByIndex(place.StartRow), css::uno::UNO_QUERY),
                         "IsStartOfNewPage", Any(true));
        set_values(part(pages.sheet, place), people[i]->*what);
        hide_blanks(pages.sheet, pages.marks, place.StartRow - pages.first.StartRow);
    }
    auto area = pages.place(static_cast<sal_Int32>(people.size()) - 1);
    area.StartRow = pages.first.StartRow;
    need<css::sheet::XPrintAreas>(pages.sheet)->setPrintAreas({&area, 1});
    auto page = pages.first;
    page.EndRow = page.StartRow + pages.per_page * pages.deep() - 1;
    auto size = size_of(pages.sheet, page);
    size.Height += size.Height / rounding;
    fill_page(page_style(copy_.document(), pages.sheet), size);
}

// The list alone, without the live page beside it. Where it is a single page, it fills that, and its letters grow; not the
// footer, whose caution is as wide as the page.
void Press::lay_out_heats(const Range& sheet) const {
    constexpr sal_Int32 most_growth = 160; // percent
    set_values(part(sheet, heat_area()), heats_);
    const auto prints = need<css::sheet::XPrintAreas>(sheet);
    const auto areas = prints->getPrintAreas();
    auto area = heat_area();
    area.StartRow = 0;
    area = areas.hasElements() ? areas[0] : filled_part(sheet, area).value_or(area);
    prints->setPrintAreas({&area, 1});
    const auto style = page_style(copy_.document(), sheet);
    fill_page(style, {size_of(sheet, area).Width, 0});
    const auto room = scaled_room_on(style);
    if (with_room(size_of(sheet, area)).Height > room.Height)
        return;
    auto list = area;
    list.StartRow = heat_area().StartRow - 1;
    narrow_to_words(sheet, list);
    const auto size = with_room(size_of(sheet, area));
    if (size.Width == 0) // its columns are hidden
        return;
    const auto growth = std::min(room.Width * 100 / size.Width, room.Height * 100 / size.Height);
    const auto letters = cell_style(copy_.document(), "pace-listed");
    float points = 0;
    get_property(letters, "CharHeight") >>= points;
    const auto percent = static_cast<float>(std::clamp(growth, sal_Int32{100}, most_growth));
    set_property(letters, "CharHeight", Any(points * percent / 100));
    share_width(sheet, area, style);
    share_height(sheet, area, list.StartRow + 1, style);
}

void Press::print(const Order& order, const std::string& url) {
    if (!order.cards.empty()) {
        if (!cards_) {
            cards_ = make("card_page", "Pacecells cards", cards_per_page);
            fit_cards(*cards_);
        }
        fill(*cards_, order.cards, &Starter::card);
    }
    if (!order.judges.empty()) {
        if (!judges_) {
            judges_ = make("judge_page", "Pacecells judges", judges_per_page);
            stretch_judges(*judges_);
        }
        fill(*judges_, order.judges, &Starter::judge);
    }
    const auto heats = sheet_of("heat_list");
    const auto printed = [&](const Range& sheet) {
        const auto name = name_of(sheet);
        const bool wall = std::ranges::any_of(walls_, [&](const Range& one) { return name == name_of(one); });
        return (order.wall && wall) || (order.heats && name == name_of(heats)) ||
               (cards_ && !order.cards.empty() && name == name_of(cards_->sheet)) ||
               (judges_ && !order.judges.empty() && name == name_of(judges_->sheet));
    };
    for (sal_Int32 i = 0; i < copy_.sheets(); ++i) {
        const auto sheet = copy_.sheet(i);
        set_property(page_style(copy_.document(), sheet), "FirstPageNumber",
                     Any(sal_Int16{0})); // pages are counted through
        if (!printed(sheet))             // a hidden sheet would be printed, one without a print area is not
            need<css::sheet::XPrintAreas>(sheet)->setPrintAreas({});
    }
    if (order.heats)
        lay_out_heats(heats);
    auto title = event_.text("event_heading");
    if (order.cards.size() == 1 && order.judges.empty() && !order.wall && !order.heats)
        title += " · " + order.cards.front()->name;
    store_pdf(context_, copy_.document(), url, title);
}

} // namespace pacecells
