#include "prints.h"

#include "live_cards.h"
#include "logbook_tests.h"
#include "values.h"
#include "wording.h"

#include "pacecells/table.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/XHeaderFooterContent.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/text/XTextFieldsSupplier.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

// The names that people stand under, one of a sheet; its print area ends with the last of them.
constexpr const char* lists[] = {"roster_name", "heat_list", "results_name", "tests_name", "athlete_name"};
constexpr const char* across = "tests_movements"; // and with the last of these columns
constexpr sal_Int32 heat_name = 3;                // column of heat_list

bool is_filled(const Any& value) {
    rtl::OUString text;
    return !(value >>= text) || !text.isEmpty();
}

// The last row with something in that column; at least the first.
sal_Int32 last_row(const css::uno::Reference<css::table::XCellRange>& range, sal_Int32 column) {
    const auto values = values_of(range);
    sal_Int32 last = 0;
    for (sal_Int32 row = 0; row < values.getLength(); ++row)
        if (is_filled(values[row][column]))
            last = row;
    return address(range).StartRow + last;
}

// The last column of the movements in use, on the sheet Tests of an event: every column of one bears its name.
std::optional<sal_Int32> last_column(const Document& document, sal_Int16 sheet) {
    const auto range = find_name(document, across);
    if (!range.is() || address(range).Sheet != sheet || !find_name(document, "workout").is())
        return std::nullopt;
    const auto values = values_of(range);
    sal_Int32 last = -1;
    for (sal_Int32 column = 0; column < values[0].getLength(); ++column)
        if (is_filled(values[0][column]))
            last = column;
    return address(range).StartColumn + last;
}

// --- the wall ----------------------------------------------------------------------------------------------------

constexpr sal_Int32 wall_pages = 4;
constexpr sal_Int32 footer_line = 400, footer_distance = 200; // 1/100 mm
constexpr sal_Int32 spared = 50;                              // one part in so many
constexpr sal_Int32 least_scale = 50, most_scale = 200;       // percent
// A title and the line below it run on over empty cells: how wide a letter of theirs is, as a rule, in 1/100 mm.
constexpr sal_Int32 title_letter = 720, heading_letter = 300;

// As many columns more as title and heading need.
void widen_for_heading(const Range& sheet, css::table::CellRangeAddress& area, sal_Int32 last_column) {
    sal_Int32 needed = 0;
    const auto heading =
        values_of(part(sheet, {area.Sheet, area.StartColumn, area.StartRow, area.StartColumn, area.StartRow + 1}));
    for (const auto& [row, letter] : {std::pair{0, title_letter}, std::pair{1, heading_letter}})
        if (rtl::OUString text; heading[row][0] >>= text)
            needed = std::max(needed, text.getLength() * letter);
    while (area.EndColumn < last_column && size_of(sheet, area).Width < needed)
        ++area.EndColumn;
}

void fit_wall(const Document& document, const Range& wall) {
    const auto whole = address(wall);
    const Range sheet(need<css::container::XIndexAccess>(document->getSheets())->getByIndex(whole.Sheet),
                      css::uno::UNO_QUERY_THROW);
    std::vector<css::table::CellRangeAddress> areas;
    css::awt::Size largest;
    const auto deep = (whole.EndRow - whole.StartRow + 1) / wall_pages;
    for (sal_Int32 page = 0; page < wall_pages; ++page) {
        auto where = whole;
        where.StartRow += page * deep;
        where.EndRow = where.StartRow + deep - 1;
        auto filled = filled_part(sheet, where);
        if (!filled)
            continue;
        widen_for_heading(sheet, *filled, whole.EndColumn);
        areas.push_back(*filled);
        const auto size = size_of(sheet, *filled);
        largest = {std::max(largest.Width, size.Width), std::max(largest.Height, size.Height)};
    }
    if (areas.empty())
        return;
    need<css::sheet::XPrintAreas>(sheet)->setPrintAreas(
        css::uno::Sequence<css::table::CellRangeAddress>(areas.data(), static_cast<sal_Int32>(areas.size())));
    fill_page(page_style(document, sheet), with_room(largest));
}

} // namespace

std::optional<css::table::CellRangeAddress> filled_part(const Range& sheet, css::table::CellRangeAddress page) {
    const auto values = values_of(part(sheet, page));
    sal_Int32 last_row = -1;
    sal_Int32 last_column = 0;
    for (sal_Int32 row = 0; row < values.getLength(); ++row)
        for (sal_Int32 column = 0; column < values[row].getLength(); ++column)
            if (is_filled(values[row][column])) {
                last_row = row;
                last_column = std::max(last_column, column);
            }
    if (last_row < 2) // a title and the line below it
        return std::nullopt;
    page.EndRow = page.StartRow + last_row;
    page.EndColumn = page.StartColumn + last_column;
    const auto cursor = need<css::sheet::XSpreadsheet>(sheet)->createCursorByRange(
        need<css::sheet::XSheetCellRange>(part(sheet, page)));
    cursor->collapseToMergedArea();
    return address(Range(cursor, css::uno::UNO_QUERY_THROW));
}

css::awt::Size size_of(const Range& sheet, const css::table::CellRangeAddress& area) {
    css::awt::Size size;
    get_property(part(sheet, area), "Size") >>= size;
    return size;
}

css::awt::Size with_room(css::awt::Size size) { return {size.Width, size.Height + size.Height / spared}; }

namespace {

Reference<css::beans::XPropertySet> style_of(const Document& document, const char* family, const rtl::OUString& name) {
    const Reference<css::container::XNameAccess> styles(
        need<css::style::XStyleFamiliesSupplier>(document)->getStyleFamilies()->getByName(
            rtl::OUString::createFromAscii(family)),
        css::uno::UNO_QUERY_THROW);
    return {styles->getByName(name), css::uno::UNO_QUERY_THROW};
}

} // namespace

Reference<css::beans::XPropertySet> page_style(const Document& document, const Range& sheet) {
    rtl::OUString name;
    get_property(sheet, "PageStyle") >>= name;
    return style_of(document, "PageStyles", name);
}

Reference<css::beans::XPropertySet> cell_style(const Document& document, const char* name) {
    return style_of(document, "CellStyles", rtl::OUString::createFromAscii(name));
}

namespace {

struct Footer {
    sal_Int32 height;
    sal_Int32 width; // of its longest line
};

// It grows with the scale of the page.
Footer footer_of(const Reference<css::beans::XPropertySet>& style) {
    constexpr sal_Int32 letter = 145; // 1/100 mm, as a rule
    css::uno::Reference<css::sheet::XHeaderFooterContent> footer;
    get_property(style, "RightPageFooterContent") >>= footer;
    // The text of a footer has a blank where its cursor has the end of a line.
    Footer found{footer_line, letter};
    if (!footer.is())
        return found;
    for (const auto& text : {footer->getLeftText(), footer->getCenterText(), footer->getRightText()}) {
        const auto cursor = text->createTextCursor();
        cursor->gotoStart(false);
        cursor->gotoEnd(true);
        const auto lines = cursor->getString();
        if (lines.indexOf('\n') >= 0)
            found.height = 2 * footer_line;
        for (sal_Int32 at = 0; at >= 0;)
            found.width = std::max(found.width, lines.getToken(0, '\n', at).getLength() * letter);
    }
    return found;
}

} // namespace

css::awt::Size room_on(const Reference<css::beans::XPropertySet>& style) {
    const auto number = [&](const char* property) {
        sal_Int32 value = 0;
        get_property(style, property) >>= value;
        return value;
    };
    return {number("Width") - number("LeftMargin") - number("RightMargin"),
            number("Height") - number("TopMargin") - number("BottomMargin") - footer_distance -
                footer_of(style).height};
}

css::awt::Size scaled_room_on(const Reference<css::beans::XPropertySet>& style) {
    sal_Int16 scale = 0;
    get_property(style, "PageScale") >>= scale;
    const auto room = room_on(style);
    const auto footer = footer_of(style).height;
    return {room.Width * 100 / scale, (room.Height + footer) * 100 / scale - footer};
}

void fill_page(const Reference<css::beans::XPropertySet>& style, const css::awt::Size& largest) {
    const auto room = room_on(style);
    const auto footer = footer_of(style);
    const auto scale =
        std::min({room.Width * 100 / std::max(largest.Width, sal_Int32{1}),
                  (room.Height + footer.height) * 100 / std::max(largest.Height + footer.height, sal_Int32{1}),
                  std::max(room.Width * 100 / footer.width, sal_Int32{100})}); // its lines stay whole
    set_property(style, "ScaleToPagesX", Any(sal_Int16{0}));
    set_property(style, "ScaleToPagesY", Any(sal_Int16{0}));
    set_property(style, "PageScale", Any(static_cast<sal_Int16>(std::clamp(scale, least_scale, most_scale))));
}

void fit_lists_and_wall(const Document& document) {
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    for (const auto* name : lists) {
        const auto people = find_name(document, name);
        if (!people.is())
            continue;
        const auto sheet = address(people).Sheet;
        const Reference<css::sheet::XPrintAreas> prints(sheets->getByIndex(sheet), css::uno::UNO_QUERY_THROW);
        auto areas = prints->getPrintAreas();
        if (!areas.hasElements())
            continue;
        auto& area = areas.getArray()[0];
        area.EndRow = last_row(people, std::string_view(name) == "heat_list" ? heat_name : 0);
        if (const auto column = last_column(document, sheet))
            area.EndColumn = *column;
        if (std::string_view(name) == "heat_list") { // the last column is for machines that are shared
            area.EndColumn = address(people).EndColumn + beside_heat_list;
            if (const auto filled = filled_part(Range(sheets->getByIndex(sheet), css::uno::UNO_QUERY_THROW), area))
                area = *filled;
        }
        prints->setPrintAreas(areas);
    }
    if (const auto wall = find_name(document, "wall_page"); wall.is())
        fit_wall(document, wall);
}

void fit_prints(const Document& document) {
    fit_lists_and_wall(document);
    fit_live_cards(document);
}

namespace {

// The field at a place of a text, in a footer one character wide; the office keeps its kind apart from its place.
struct Field {
    Reference<css::text::XTextCursor> cursor;
    bool date = false;
};

std::vector<Field> date_fields(const Reference<css::text::XText>& text) {
    constexpr sal_Int32 least_written = 6; // of a date or time; page numbers are shorter
    std::vector<bool> are_dates;
    const auto fields = need<css::text::XTextFieldsSupplier>(text)->getTextFields()->createEnumeration();
    while (fields->hasMoreElements()) {
        const Reference<css::beans::XPropertySet> field(fields->nextElement(), css::uno::UNO_QUERY_THROW);
        if (field->getPropertySetInfo()->hasPropertyByName("IsDate"))
            are_dates.push_back(get_property(field, "IsDate").get<bool>());
    }
    std::vector<Field> found;
    const auto step = text->createTextCursor();
    step->gotoStart(false);
    while (found.size() < are_dates.size() && step->goRight(1, true)) {
        if (step->getString().getLength() >= least_written)
            found.push_back(
                {text->createTextCursorByRange(need<css::text::XTextRange>(step)), are_dates[found.size()]});
        step->collapseToEnd();
    }
    return found;
}

} // namespace

void stamp_prints(const Document& document, Language language) {
    constexpr int minutes_per_day = 1440;
    const auto now = now_number();
    const auto minute = static_cast<int>((now - std::floor(now)) * minutes_per_day);
    const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    const auto day = in_date_order(date_text(now), date_order(language));
    const auto time = two(minute / 60) + ":" + two(minute % 60);
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    for (sal_Int32 i = 0; i < sheets->getCount(); ++i) {
        const auto style = page_style(document, Range(sheets->getByIndex(i), css::uno::UNO_QUERY_THROW));
        const Reference<css::sheet::XHeaderFooterContent> footer(get_property(style, "RightPageFooterContent"),
                                                                 css::uno::UNO_QUERY_THROW);
        auto fields = date_fields(footer->getRightText());
        std::ranges::reverse(fields); // the places of those before stay
        for (const auto& field : fields)
            field.cursor->setString(utf16(field.date ? day : time));
        set_property(style, "RightPageFooterContent", Any(footer));
    }
}

namespace {

const Command command{"fit-prints", [](Context& context) {
                          if (!find_name(context.document(), "roster_name").is() &&
                              !find_name(context.document(), "athlete_name").is())
                              throw Refusal{tr("This is not a Pacecells workbook: its print areas stay as they are.")};
                          Undo undo(context.document(), tr("Fit print areas to athletes"));
                          fit_prints(context.document());
                          undo.done();
                          context.say(tr("Every sheet now prints only the rows in use."));
                      }};

} // namespace

} // namespace pacecells
