#include "heat_day_sheet.h"

#include "heat_day_clock.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheets.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/table/BorderLine.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/table/XTableColumns.hpp>
#include <com/sun/star/table/XTableRows.hpp>
#include <com/sun/star/text/XText.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr double seconds_of_day = 86400;
constexpr int rounds_a_division = 40;

CellValue value_of(const Any& any) {
    if (double number = 0; any >>= number)
        return number;
    if (rtl::OUString text; (any >>= text) && !text.isEmpty())
        return utf8(text);
    return {};
}

std::string folded(const std::string& text) { return utf8(utf16(text).trim().toAsciiLowerCase()); }

std::string shown_time(double share) {
    const auto minutes = static_cast<int>(share * 1440);
    const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return std::to_string(minutes / 60) + ":" + two(minutes % 60);
}

std::vector<double> numbers(const css::uno::Sequence<css::uno::Sequence<Any>>& rows, int from, int count) {
    std::vector<double> result;
    if (!rows.hasElements())
        return result;
    for (int i = from; i < std::min(from + count, static_cast<int>(rows[0].getLength())); ++i)
        result.push_back(number_of(value_of(rows[0][i])).value_or(0));
    return result;
}

// The first rows head each printed page.
void print_titles(const Reference<css::sheet::XSpreadsheet>& sheet, int rows) {
    const auto print = need<css::sheet::XPrintAreas>(sheet);
    print->setTitleRows(address(sheet->getCellRangeByPosition(0, 0, 0, rows - 1)));
    print->setPrintTitleRows(true);
}

} // namespace

std::string text_of(const CellValue& value) {
    const auto* text = std::get_if<std::string>(&value);
    return text ? *text : std::string();
}

std::optional<double> number_of(const CellValue& value) {
    const auto* number = std::get_if<double>(&value);
    return number && std::isfinite(*number) ? std::optional(*number) : std::nullopt;
}

EventSheet::EventSheet(Reference<css::sheet::XSpreadsheetDocument> document) : document_(std::move(document)) {
    for (const auto* name : {"event_cap", "heat_list", "day_name", "day_clocks"})
        if (!optional_range(name).is())
            throw Refusal{tr("This is not an event workbook. Make one with New event in the menu Pacecells.")};
}

Reference<css::table::XCellRange> EventSheet::optional_range(const std::string& name) {
    auto& known = ranges_[name];
    if (!known.is())
        known = find_name(document_, name);
    return known;
}

Reference<css::table::XCellRange> EventSheet::range(const std::string& name) {
    auto found = optional_range(name);
    return found.is() ? found : named_range(document_, name);
}

EventSheet::Rows EventSheet::rows(const std::string& name) {
    const auto cells = optional_range(name);
    return cells.is() ? need<css::sheet::XCellRangeData>(cells)->getDataArray() : Rows();
}

CellValue EventSheet::single(const std::string& name) {
    const auto cells = rows(name);
    return cells.hasElements() && cells[0].hasElements() ? value_of(cells[0][0]) : CellValue{};
}

HeatTask EventSheet::task() {
    if (const auto wrong = text_of(single("event_check")); !wrong.empty())
        throw Refusal{tr("Sheet Event: %1", wrong)};
    HeatTask task;
    const auto format = text_of(single("event_format"));
    const auto formats = rows("list_format");
    for (int i = 0; i < formats.getLength() && i < 3; ++i)
        if (formats[i].hasElements() && text_of(value_of(formats[i][0])) == format)
            task.format = static_cast<HeatFormat>(i);
    task.cap = Seconds{std::round(number_of(single("event_cap")).value_or(0) * seconds_of_day * 1000) / 1000};
    if (!(task.cap.value() > 0 && task.cap.value() < 4 * 3600))
        throw Refusal{tr("Give the cap on the sheet Event first.")};
    task.rounds = static_cast<int>(std::clamp(number_of(single("event_rounds")).value_or(0), 0.0, 40.0));
    if (task.format == HeatFormat::for_time && task.rounds < 1)
        throw Refusal{tr("Give the number of rounds on the sheet Event first.")};
    return task;
}

std::string EventSheet::title() { return text_of(single("event_title")); }

std::string EventSheet::key() {
    return text_of(single("event_gym")) + "|" + title() + "|" +
           std::to_string(static_cast<long>(number_of(single("event_date")).value_or(0)));
}

int EventSheet::heats() {
    double most = 0;
    for (const auto& row : rows("heat_list"))
        if (row.hasElements())
            most = std::max(most, number_of(value_of(row[0])).value_or(0));
    return static_cast<int>(std::min(most, 200.0));
}

std::vector<Seat> EventSheet::seats(int heat) {
    std::vector<Seat> seats;
    for (const auto& row : rows("heat_list")) {
        if (row.getLength() < 4 || number_of(value_of(row[0])) != heat)
            continue;
        Seat seat{static_cast<int>(std::clamp(number_of(value_of(row[1])).value_or(0), 0.0, 200.0)),
                  text_of(value_of(row[3]))};
        if (seat.lane > 0 && !seat.name.empty())
            seats.push_back(std::move(seat));
    }
    std::sort(seats.begin(), seats.end(), [](const Seat& a, const Seat& b) { return a.lane < b.lane; });
    return seats;
}

std::vector<std::string> EventSheet::names() {
    std::vector<std::string> result;
    for (const auto& row : rows("day_name"))
        result.push_back(row.hasElements() ? text_of(value_of(row[0])) : std::string());
    return result;
}

std::optional<int> EventSheet::row_of(const std::string& athlete) {
    if (athlete.empty())
        return std::nullopt;
    const auto there = [&](int row) {
        const auto cell = range("day_name")->getCellRangeByPosition(0, row, 0, row);
        return text_of(value_of(need<css::sheet::XCellRangeData>(cell)->getDataArray()[0][0])) == athlete;
    };
    if (const auto known = rows_.find(athlete); known != rows_.end() && there(known->second))
        return known->second;
    rows_.clear(); // the roster has changed
    const auto all = names();
    for (std::size_t row = 0; row < all.size(); ++row)
        if (!all[row].empty())
            rows_.emplace(all[row], static_cast<int>(row));
    const auto found = rows_.find(athlete);
    return found == rows_.end() ? std::nullopt : std::optional(found->second);
}

bool EventSheet::knows(const std::string& athlete) { return row_of(athlete).has_value(); }

std::optional<std::string> EventSheet::athlete(const std::string& begins) {
    const auto wanted = folded(begins);
    std::optional<std::string> found;
    if (wanted.empty())
        return found;
    for (const auto& name : names()) {
        if (folded(name) == wanted)
            return name;
        if (folded(name).starts_with(wanted)) {
            if (found)
                return std::nullopt;
            found = name;
        }
    }
    return found;
}

LanePlan EventSheet::plan(const std::string& athlete) {
    LanePlan plan;
    const auto row = row_of(athlete);
    if (!row)
        return plan;
    const auto own = [&](const char* name) { return number_of(value(name, athlete)).value_or(0); };
    plan.goal_rounds = std::clamp(own("a_goal_rounds"), 0.0, 1000.0);
    plan.goal_clock = Seconds{own("a_goal_clock") * seconds_of_day};
    plan.drift = std::clamp(own("a_drift"), -1.0, 1.0);
    if (const int first = static_cast<int>(std::clamp(own("a_first"), 0.0, 1000.0)); first > 0) {
        plan.reps = numbers(rows("reps_all"), first - 1, rounds_a_division);
        plan.work = numbers(rows("cum_work"), first - 1, rounds_a_division);
        const auto unit = static_cast<std::size_t>(std::clamp(number_of(single("event_ref")).value_or(1), 1.0, 40.0));
        if (unit <= plan.work.size())
            plan.unit = plan.work[unit - 1] - (unit == 1 ? 0 : plan.work[unit - 2]);
    }
    const auto unlike = [](double reps) { return !(reps >= 1); };
    if (std::any_of(plan.reps.begin(), plan.reps.end(), unlike))
        plan.reps.clear();                         // a round that counts nothing has no score
    if (number_of(single("event_columns")) == 1) { // every round alike
        plan.work.clear();
        if (!plan.reps.empty())
            plan.reps.assign(1, double(plan.reps.front()));
    }
    if (!(plan.goal_clock.value() > 0))
        plan.goal_rounds = 0;
    return plan;
}

CellValue EventSheet::value(const std::string& name, const std::string& athlete, int column) {
    const auto row = row_of(athlete);
    const auto cells = optional_range(name);
    if (!row || !cells.is())
        return {};
    const auto data = need<css::sheet::XCellRangeData>(cells->getCellRangeByPosition(column, *row, column, *row));
    return value_of(data->getDataArray()[0][0]);
}

std::string EventSheet::shown(const std::string& name, const std::string& athlete) {
    const auto row = row_of(athlete);
    const auto cells = optional_range(name);
    if (!row || !cells.is())
        return {};
    const auto cell = cells->getCellByPosition(0, *row);
    return cell->getError() ? std::string() : utf8(need<css::text::XText>(cell)->getString());
}

std::vector<CellChange> EventSheet::written(const std::string& athlete) {
    std::vector<CellChange> cells;
    const auto row = row_of(athlete);
    if (!row)
        return cells;
    for (const auto* name :
         {"day_clocks", "day_stamps", "day_partial", "day_finish", "day_left", "day_tiebreak", "day_out"}) {
        const auto all = optional_range(name);
        if (!all.is())
            continue;
        const auto last = address(all).EndColumn - address(all).StartColumn;
        const auto data = need<css::sheet::XCellRangeData>(all->getCellRangeByPosition(0, *row, last, *row));
        const auto values = data->getDataArray()[0];
        for (sal_Int32 column = 0; column < values.getLength(); ++column)
            if (auto value = value_of(values[column]); value != CellValue{})
                cells.push_back({name, athlete, column, std::move(value)});
    }
    return cells;
}

LaneRecord record_of(const std::vector<CellChange>& written) {
    LaneRecord record;
    for (const auto& cell : written) {
        const auto number = number_of(cell.value);
        const auto time = number ? std::optional(Seconds{*number * seconds_of_day}) : std::nullopt;
        if (cell.range == "day_clocks" && time && cell.column == static_cast<int>(record.clocks.size()))
            record.clocks.push_back(*time);
        else if (cell.range == "day_partial")
            record.partial = number;
        else if (cell.range == "day_finish")
            record.finish = time;
        else if (cell.range == "day_left")
            record.left = number;
        else if (cell.range == "day_tiebreak")
            record.tiebreak = time;
        else if (cell.range == "day_out")
            record.out = true;
    }
    return record;
}

std::string EventSheet::yes() {
    const auto word = text_of(single("list_yes"));
    return word.empty() ? "x" : word;
}

void EventSheet::write(const std::string& title, const std::vector<CellChange>& changes) {
    Undo undo(document_, title);
    for (const auto& change : changes) {
        const auto row = row_of(change.athlete);
        const auto cells = optional_range(change.range);
        if (!row || !cells.is())
            continue;
        const auto cell = cells->getCellByPosition(change.column, *row);
        if (const auto* number = std::get_if<double>(&change.value))
            cell->setValue(*number);
        else if (const auto* text = std::get_if<std::string>(&change.value))
            need<css::text::XText>(cell)->setString(utf16(*text));
        else
            cell->setFormula("");
    }
    undo.done();
}

void EventSheet::show_judges(int heat, const Reference<css::frame::XController>& controller) {
    if (heat > heats())
        throw Refusal{tr("Heat %1 is not on the sheet Heats.", std::to_string(heat))};
    const auto cell = range("judge_heat");
    Undo undo(document_, tr("Judge sheets of heat %1", std::to_string(heat)));
    cell->getCellByPosition(0, 0)->setValue(heat);
    undo.done();
    if (const auto view = as<css::sheet::XSpreadsheetView>(controller); view.is())
        view->setActiveSheet(need<css::sheet::XSheetCellRange>(cell)->getSpreadsheet());
}

void EventSheet::list_results(const Context& context) {
    struct Line {
        double place;
        std::string name, result, tiebreak, heat;
    };
    std::map<std::string, std::vector<Line>> divisions;
    for (const auto& name : names()) {
        const auto result = shown("day_result", name);
        if (name.empty() || result.empty())
            continue;
        const auto place = number_of(value("day_place", name));
        divisions[shown("day_division", name)].push_back(
            {place.value_or(1e9), name, result, shown("day_tiebreak", name), shown("day_heat", name)});
    }
    if (divisions.empty())
        throw Refusal{tr("There are no results yet.")};

    const auto made = load(context, "private:factory/scalc", {{"Hidden", Any(!context.interactive())}});
    const auto document = need<css::sheet::XSpreadsheetDocument>(made);
    const Reference<css::sheet::XSpreadsheet> sheet(
        need<css::container::XIndexAccess>(document->getSheets())->getByIndex(0), css::uno::UNO_QUERY_THROW);
    need<css::container::XNamed>(sheet)->setName(utf16(tr("Results")));
    const auto lines_of = need<css::table::XColumnRowRange>(sheet);
    constexpr int columns = 5;
    constexpr bool centred[columns] = {true, false, false, false, true};
    int row = 0;
    const auto put = [&](int column, const std::string& text, bool bold, double height) {
        const auto cell = sheet->getCellByPosition(column, row);
        need<css::text::XText>(cell)->setString(utf16(text));
        set_property(cell, "CharHeight", Any(static_cast<float>(height)));
        if (bold)
            set_property(cell, "CharWeight", Any(150.0f));
    };
    const auto put_line = [&](const std::array<std::string, columns>& texts, bool head) {
        for (int column = 0; column < columns; ++column) {
            put(column, texts[column], head, head ? 11 : 13);
            if (centred[column])
                set_property(sheet->getCellByPosition(column, row), "HoriJustify",
                             Any(css::table::CellHoriJustify_CENTER));
        }
        const auto cells = sheet->getCellRangeByPosition(0, row, columns - 1, row);
        set_property(cells, "BottomBorder", Any(css::table::BorderLine(0, 0, static_cast<short>(head ? 35 : 9), 0)));
        ++row;
    };
    put(0, title(), true, 20);
    ++row;
    put(0, text_of(single("event_gym")) + ", " + text_of(single("event_stamp")), false, 11);
    ++row;
    put(0, tr("Places so far, %1", shown_time(share_of_day(day_now()))), false, 13);
    ++row;
    print_titles(sheet, row);
    const auto order = rows("division_names");
    std::vector<std::string> names_in_order;
    if (order.hasElements())
        for (const auto& cell : order[0])
            names_in_order.push_back(text_of(value_of(cell)));
    for (const auto& [division, lines] : divisions)
        if (std::find(names_in_order.begin(), names_in_order.end(), division) == names_in_order.end())
            names_in_order.push_back(division);
    for (const auto& division : names_in_order) {
        const auto found = divisions.find(division);
        if (found == divisions.end())
            continue;
        auto lines = std::move(found->second);
        divisions.erase(found);
        std::stable_sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) { return a.place < b.place; });
        ++row;
        if (row > 4)
            set_property(
                Reference<css::uno::XInterface>(lines_of->getRows()->getByIndex(row), css::uno::UNO_QUERY_THROW),
                "IsStartOfNewPage", Any(true));
        put(0, division, true, 15);
        ++row;
        put_line({tr("Place"), tr("Name"), tr("Result"), tr("Tie-break"), tr("Heat")}, true);
        for (const auto& line : lines)
            put_line({line.place < 1e9 ? std::to_string(static_cast<int>(line.place)) : std::string(), line.name,
                      line.result, line.tiebreak, line.heat},
                     false);
    }
    const sal_Int32 widths[columns] = {2000, 7000, 4000, 3000, 2000};
    for (int column = 0; column < columns; ++column)
        set_property(
            Reference<css::uno::XInterface>(lines_of->getColumns()->getByIndex(column), css::uno::UNO_QUERY_THROW),
            "Width", Any(widths[column]));
    const Reference<css::container::XNameAccess> styles(
        need<css::style::XStyleFamiliesSupplier>(document)->getStyleFamilies()->getByName("PageStyles"),
        css::uno::UNO_QUERY_THROW);
    rtl::OUString name;
    get_property(sheet, "PageStyle") >>= name;
    const Reference<css::uno::XInterface> page(styles->getByName(name), css::uno::UNO_QUERY_THROW);
    set_property(page, "HeaderIsOn", Any(false)); // it would print the sheet's name
    set_property(page, "ScaleToPagesX", Any(sal_Int16{1}));
    set_property(page, "ScaleToPagesY", Any(sal_Int16{0}));
}

} // namespace pacecells
