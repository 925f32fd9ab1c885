#include "heat_day_sheet.h"

#include "pacecells/words.h"

#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/text/XText.hpp>

#include <algorithm>
#include <cmath>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr const char* ranges_written[] = {"results_clocks", "results_stamps",   "results_partial", "results_finish",
                                          "results_left",   "results_tiebreak", "results_out"};

CellValue value_of(const Any& any) {
    if (double number = 0; any >>= number)
        return number;
    if (rtl::OUString text; (any >>= text) && !text.isEmpty())
        return utf8(text);
    return {};
}

int whole(const TableCell& cell) { return static_cast<int>(std::clamp(cell_number(cell).value_or(0), 0.0, 1000.0)); }

Table part(const Table& table, std::size_t row) {
    Table one{1, table.columns, {}};
    for (std::size_t column = 0; column < table.columns; ++column)
        one.cells.push_back(table.at(row, column));
    return one;
}

bool alike(const CellValue& a, const CellValue& b) {
    const auto* x = std::get_if<double>(&a);
    const auto* y = std::get_if<double>(&b);
    return x && y ? std::abs(*x - *y) < 1e-12 : a == b;
}

bool is_in(const std::vector<Seat>& seats, const std::string& name) {
    return std::any_of(seats.begin(), seats.end(), [&](const Seat& seat) { return same_name(seat.name, name); });
}

std::string of_sheet(int row) { return std::to_string(row + 1); }

} // namespace

std::optional<double> number_of(const CellValue& value) {
    const auto* number = std::get_if<double>(&value);
    return number && std::isfinite(*number) ? std::optional(*number) : std::nullopt;
}

EventSheet::EventSheet(Reference<css::sheet::XSpreadsheetDocument> document) : document_(std::move(document)) {
    for (const auto* name : {"workout", "heat_list", "results_name", "results_clocks"})
        if (!find_name(document_, name).is())
            throw Refusal{tr("This is not an event workbook. Make one with New event in the menu Pacecells.")};
}

Reference<css::table::XCellRange> EventSheet::range(const std::string& name) {
    auto& known = ranges_[name];
    if (!known.is())
        known = named_range(document_, name);
    return known;
}

Table EventSheet::table(const std::string& name) {
    const auto rows = values_of(range(name));
    Table table{static_cast<std::size_t>(rows.getLength()),
                static_cast<std::size_t>(rows.hasElements() ? rows[0].getLength() : 0),
                {}};
    for (const auto& row : rows)
        for (const auto& any : row)
            table.cells.push_back(value_of(any));
    return table;
}

CellValue EventSheet::single(const std::string& name) { return table(name).at(0, 0); }

std::vector<std::string> EventSheet::names(const std::string& name) {
    std::vector<std::string> result;
    const auto cells = table(name);
    for (std::size_t row = 0; row < cells.rows; ++row)
        result.push_back(cell_text(cells.at(row, 0)));
    return result;
}

Workout EventSheet::workout() {
    auto workout = read_workout(table("workout"));
    if (!workout)
        throw Refusal{tr("Sheet Workout: %1", tr(workout.error()))};
    return *std::move(workout);
}

HeatTask EventSheet::task() {
    const auto task = heat_task(workout());
    if (!task)
        throw Refusal{tr(task.error())};
    return *task;
}

std::string EventSheet::title() { return cell_text(single("event_title")); }
std::string EventSheet::heading() { return cell_text(single("event_heading")); }

std::string EventSheet::key() {
    const auto settings = workout().settings;
    return settings.gym + "|" + settings.title + "|" + std::to_string(static_cast<long>(settings.date.value_or(0)));
}

bool EventSheet::writable() { return !need<css::frame::XStorable>(document_)->isReadonly(); }

bool EventSheet::shared() {
    try {
        const auto settings =
            need<css::lang::XMultiServiceFactory>(document_)->createInstance("com.sun.star.sheet.DocumentSettings");
        bool shared = false;
        return (get_property(settings, "IsDocumentShared") >>= shared) && shared;
    } catch (const css::uno::Exception&) { // an office that does not tell
        return false;
    }
}

int EventSheet::heats() {
    int most = 0;
    const auto list = table("heat_list");
    for (std::size_t row = 0; row < list.rows; ++row)
        most = std::max(most, whole(list.at(row, 0)));
    return most;
}

std::vector<std::string> EventSheet::lane_names() {
    return names(find_name(document_, "roster_lane").is() ? "roster_lane" : "roster_name");
}

std::vector<Seat> EventSheet::listed(int heat) {
    std::vector<Seat> seats;
    const auto list = table("heat_list");
    const auto people = names("roster_name");
    const auto lanes = lane_names();
    for (std::size_t row = 0; row < list.rows; ++row) {
        Seat seat{whole(list.at(row, 1)), cell_text(list.at(row, 3))};
        if (whole(list.at(row, 0)) != heat || seat.lane <= 0 || seat.name.empty() ||
            (!seats.empty() && seats.back().lane == seat.lane)) // partners are in the lane of the first of their team
            continue;
        const auto person = std::ranges::find_if(people, [&](const auto& name) { return same_name(name, seat.name); });
        if (const auto at = static_cast<std::size_t>(person - people.begin()); at < lanes.size() && !lanes[at].empty())
            seat.name = lanes[at];
        seats.push_back(std::move(seat));
    }
    return seats;
}

std::vector<EventSheet::Line> EventSheet::lines() {
    const auto names = table("results_name");
    const auto heats = table("results_heat");
    const auto lanes = table("results_lane");
    std::vector<Line> lines;
    for (std::size_t row = 0; row < names.rows; ++row)
        lines.push_back({cell_text(names.at(row, 0)), whole(heats.at(row, 0)), whole(lanes.at(row, 0))});
    return lines;
}

std::vector<Seat> EventSheet::seats(int heat) {
    const auto planned = listed(heat);
    const auto all = lines();
    std::vector<Seat> seats;
    std::vector<std::string> elsewhere;
    for (int row = 0; row < static_cast<int>(all.size()); ++row) {
        const auto& [name, its_heat, its_lane] = all[static_cast<std::size_t>(row)];
        if (name.empty() || its_heat == 0 || (its_heat != heat && !is_in(planned, name)) ||
            !has_results(record_of(written(row, name))))
            continue;
        if (its_heat == heat && its_lane > 0)
            seats.push_back({its_lane, name});
        else if (its_heat != heat)
            elsewhere.push_back(fold_name(name));
    }
    const auto taken = [&](int lane) {
        return std::any_of(seats.begin(), seats.end(), [&](const Seat& seat) { return seat.lane == lane; });
    };
    std::vector<Seat> later; // their lane is taken by somebody with results
    for (const auto& seat : planned) {
        if (is_in(seats, seat.name) || std::ranges::find(elsewhere, fold_name(seat.name)) != elsewhere.end())
            continue;
        if (taken(seat.lane))
            later.push_back(seat);
        else
            seats.push_back(seat);
    }
    for (auto& seat : later) {
        for (seat.lane = 1; taken(seat.lane);)
            ++seat.lane;
        seats.push_back(seat);
    }
    std::ranges::sort(seats, {}, &Seat::lane);
    return seats;
}

std::optional<std::string> EventSheet::athlete(const std::string& begins) {
    const auto wanted = fold_name(begins);
    std::optional<std::string> found;
    if (wanted.empty())
        return found;
    const auto all = lane_names();
    const auto same = [&](const std::string& name) { return fold_name(name) == wanted; };
    if (const auto twice = std::ranges::count_if(all, same); twice > 0)
        return twice == 1 ? std::optional(*std::ranges::find_if(all, same)) : std::nullopt;
    for (const auto& name : all)
        if (fold_name(name).starts_with(wanted)) {
            if (found)
                return std::nullopt;
            found = name;
        }
    return found;
}

bool EventSheet::on_roster(const std::string& athlete) {
    return std::ranges::any_of(lane_names(), [&](const auto& name) { return same_name(name, athlete); });
}

std::vector<LanePlan> EventSheet::plans(const std::vector<Seat>& seats) {
    const auto today = workout();
    const auto tests = table("tests");
    const auto keys = table("roster_keys");
    const auto people = table("roster_people");
    const auto roster = lane_names();
    const auto divisions = names("roster_division");
    std::vector<LanePlan> plans;
    for (const auto& seat : seats) {
        const auto found =
            std::ranges::find_if(roster, [&](const std::string& name) { return same_name(name, seat.name); });
        if (found == roster.end()) {
            plans.emplace_back();
            continue;
        }
        const auto row = static_cast<std::size_t>(found - roster.begin());
        Plan plan;
        plan.division = today.division(divisions[row]).value_or(today.divisions.size());
        if (const auto athlete = read_athlete(today, tests, keys, part(people, row)))
            plan = plan_for(today, *athlete);
        plans.push_back(lane_plan(today, plan));
    }
    return plans;
}

std::vector<Seconds> EventSheet::offsets(const std::vector<Seat>& seats) {
    std::vector<Seconds> offsets(seats.size(), Seconds{0});
    if (!find_name(document_, "results").is()) // the workbook of an older package
        return offsets;
    const auto all = table("results");
    const auto column_of = [&](const char* key) {
        std::size_t column = 0;
        while (column < all.columns && cell_text(all.at(0, column)) != key)
            ++column;
        return column;
    };
    const auto name = column_of("name");
    const auto offset = column_of("offset");
    for (std::size_t row = 1; row < all.rows && name < all.columns && offset < all.columns; ++row)
        for (std::size_t i = 0; i < seats.size(); ++i)
            if (const auto later = number_of(all.at(row, offset));
                later && *later > 0 && *later < 1 && same_name(cell_text(all.at(row, name)), seats[i].name))
                offsets[i] = Seconds{*later * seconds_per_day};
    return offsets;
}

std::set<std::string> EventSheet::known() {
    std::set<std::string> known;
    for (const auto& name : names("results_name"))
        if (!name.empty())
            known.insert(fold_name(name));
    return known;
}

std::vector<Found> EventSheet::places(int heat, const std::vector<Seat>& seats, const std::set<std::string>& known) {
    const auto all = lines();
    std::map<std::string, std::vector<int>> rows;
    for (int row = 0; row < static_cast<int>(all.size()); ++row)
        if (const auto& name = all[static_cast<std::size_t>(row)].name; !name.empty())
            rows[fold_name(name)].push_back(row);
    const auto first_row = address(range("results_name")).StartRow;
    const auto twice = [&](const std::string& name, const std::vector<int>& there) {
        return tr(
            "%1 is on the sheet Results twice, in rows %2 and %3: give one another name. Entries wait until then.",
            name, of_sheet(first_row + there[0]), of_sheet(first_row + there[1]));
    };
    std::vector<Found> places;
    for (const auto& seat : seats) {
        Found place{{}, seat.name, {}};
        const auto found = rows.find(fold_name(seat.name));
        if (found == rows.end()) {
            const auto renamed = std::ranges::find_if(all, [&](const Line& line) {
                return line.heat == heat && line.lane == seat.lane && !line.name.empty() && !is_in(seats, line.name) &&
                       !known.contains(fold_name(line.name));
            });
            if (renamed != all.end() && rows.at(fold_name(renamed->name)).size() == 1) {
                place.row = static_cast<int>(renamed - all.begin());
                place.name = renamed->name;
            } else {
                place.problem = tr("%1 is no longer on the sheet Results: undo that, or type the name there again. "
                                   "Entries wait until then.",
                                   seat.name);
            }
        } else if (found->second.size() > 1) {
            place.problem = twice(seat.name, found->second);
        } else {
            const auto& line = all[static_cast<std::size_t>(found->second.front())];
            const auto other = std::ranges::find_if(seats, [&](const Seat& one) {
                return &one != &seat && line.heat == heat && one.lane == line.lane && line.lane != seat.lane;
            });
            if (other != seats.end())
                place.problem = tr("The row of %1 on the sheet Results is that of lane %2, %3: was only a part of the "
                                   "table sorted? Undo that. Entries wait until then.",
                                   seat.name, std::to_string(other->lane), other->name);
            else
                place.row = found->second.front();
        }
        places.push_back(std::move(place));
    }
    return places;
}

void EventSheet::refuse_doubles(const std::vector<Seat>& seats) {
    for (const auto* name : {"roster_name", "results_name"}) {
        const auto all = names(name);
        for (const auto& seat : seats)
            if (std::ranges::count_if(all, [&](const auto& one) { return same_name(one, seat.name); }) > 1)
                throw Refusal{
                    name == std::string("roster_name")
                        ? tr("Two people on the sheet Roster are called %1: give one another name first.", seat.name)
                        : tr("%1 is on the sheet Results twice: give one another name first.", seat.name)};
    }
}

void EventSheet::place(int heat, const std::vector<Seat>& seats) {
    refuse_doubles(seats);
    auto all = lines();
    Undo undo(document_, tr("Heat %1: names on the sheet Results", std::to_string(heat)));
    bool changed = false;
    for (const auto& seat : seats) {
        auto found = std::ranges::find_if(all, [&](const Line& line) { return same_name(line.name, seat.name); });
        const bool there = found != all.end();
        for (auto row = all.begin(); found == all.end() && row != all.end(); ++row)
            if (row->name.empty() && written(static_cast<int>(row - all.begin()), {}).empty())
                found = row;
        if (found == all.end())
            throw Refusal{tr("The sheet Results has no free row for %1.", seat.name)};
        if (there && found->heat == heat && found->lane == seat.lane)
            continue;
        const auto row = static_cast<sal_Int32>(found - all.begin());
        if (!there)
            need<css::text::XText>(range("results_name")->getCellByPosition(0, row))->setString(utf16(seat.name));
        range("results_heat")->getCellByPosition(0, row)->setValue(heat);
        range("results_lane")->getCellByPosition(0, row)->setValue(seat.lane);
        *found = {seat.name, heat, seat.lane};
        changed = true;
    }
    if (changed)
        undo.done();
}

CellValue EventSheet::value(const std::string& name, int row, int column) {
    return value_of(values_of(range(name)->getCellRangeByPosition(column, row, column, row))[0][0]);
}

std::string EventSheet::shown(const std::string& name, int row) {
    const auto cell = range(name)->getCellByPosition(0, row);
    return cell->getError() ? std::string() : utf8(need<css::text::XText>(cell)->getString());
}

std::vector<CellChange> EventSheet::written(int row, const std::string& athlete) {
    std::vector<CellChange> cells;
    for (const auto* name : ranges_written) {
        const auto all = range(name);
        const auto last = address(all).EndColumn - address(all).StartColumn;
        const auto values = values_of(all->getCellRangeByPosition(0, row, last, row))[0];
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
        const auto time = number ? std::optional(Seconds{*number * seconds_per_day}) : std::nullopt;
        if (cell.range == "results_clocks" && time && cell.column == static_cast<int>(record.clocks.size()))
            record.clocks.push_back(*time);
        else if (cell.range == "results_partial")
            record.partial = number;
        else if (cell.range == "results_finish")
            record.finish = time;
        else if (cell.range == "results_left")
            record.left = number;
        else if (cell.range == "results_tiebreak")
            record.tiebreak = time;
        else if (cell.range == "results_out")
            record.out = true;
    }
    return record;
}

bool has_results(const LaneRecord& record) {
    return !record.clocks.empty() || record.partial || record.finish || record.left || record.tiebreak || record.out;
}

std::string EventSheet::yes() {
    const auto word = cell_text(single("list_yes"));
    return word.empty() ? "x" : word;
}

void EventSheet::write(const std::string& title, const std::vector<CellChange>& changes, const PersonRows& rows) {
    Undo undo(document_, title);
    for (const auto& change : changes) {
        const int row = rows.at(change.athlete);
        const auto cell = range(change.range)->getCellByPosition(change.column, row);
        if (const auto* number = std::get_if<double>(&change.value))
            cell->setValue(*number);
        else if (const auto* text = std::get_if<std::string>(&change.value))
            need<css::text::XText>(cell)->setString(utf16(*text));
        else
            cell->setFormula("");
        if (!alike(value(change.range, row, change.column), change.value))
            throw Refusal{tr("The sheet Results does not take entries: is it protected? They wait, and are kept on the "
                             "disk.")};
    }
    undo.done();
}

void EventSheet::show_judges(int heat, const Reference<css::frame::XController>& controller) {
    const auto list = table("heat_list");
    std::size_t first = 0;
    int lanes = 1;
    for (; first < list.rows && whole(list.at(first, 0)) != heat; ++first)
        lanes += first == 0 || whole(list.at(first, 0)) != whole(list.at(first - 1, 0)) ||
                 whole(list.at(first, 1)) != whole(list.at(first - 1, 1));
    if (first == list.rows)
        throw Refusal{tr("Heat %1 is not on the sheet Heats.", std::to_string(heat))};
    const auto cell = range("judge_first");
    Undo undo(document_, tr("Judge sheets of heat %1", std::to_string(heat)));
    cell->getCellByPosition(0, 0)->setValue(lanes);
    undo.done();
    if (const auto view = as<css::sheet::XSpreadsheetView>(controller); view.is())
        view->setActiveSheet(need<css::sheet::XSheetCellRange>(cell)->getSpreadsheet());
}

} // namespace pacecells
