#include "announced.h"

#include "form.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>

#include <algorithm>
#include <array>
#include <map>

namespace pacecells {

namespace {

using css::uno::Any;

Language shown_language() { return *parse_language(interface_language()); }
std::string shown_word(WordList list, std::size_t place) { return std::string(word(list, place, shown_language())); }

std::string shown_time(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : std::string();
}

// One for each division with / between; alike for all: once.
std::string by_division(const std::vector<std::string>& values) {
    if (std::ranges::all_of(values, [&](const auto& value) { return value == values.front(); }))
        return values.empty() ? "" : values.front();
    std::string all;
    for (std::size_t i = 0; i < values.size(); ++i)
        all += (i > 0 ? " / " : "") + (values[i].empty() ? "–" : values[i]);
    return all;
}

std::string shown_loads(const AnnouncedStation& station) {
    std::vector<std::string> loads;
    for (const auto& load : station.loads)
        loads.push_back(load ? shown_number(*load, 1) : "");
    return by_division(loads);
}

std::optional<UsualPace> pace_of(const AnnouncedStation& station, const UsualPaces& usual) {
    const auto known = usual.find(station);
    return known ? known : usual_pace(station);
}

std::string shown_pace(const AnnouncedStation& station, const UsualPaces& usual) {
    const auto pace = pace_of(station, usual);
    if (!pace)
        return {};
    switch (rate_kind(station.unit)) {
    case RateKind::calories_per_hour:
        return tr("%1 cal/h", shown_number(pace->rate, 0));
    case RateKind::split: {
        const bool short_way = station.unit == Unit::row_m || station.unit == Unit::ski_m;
        return tr("%1 for %2 m", shown_time(Seconds{pace->rate}), short_way ? "500" : "1000");
    }
    default:
        return tr(station.unit == Unit::carry_m ? ShownText("%1 s per metre") : ShownText("%1 s per rep"),
                  shown_number(pace->rate, 1)) +
               (pace->known ? "" : " ?");
    }
}

void add_settings(const Announcement& announcement, Dialog::Rows& rows) {
    const auto add = [&](const std::string& what, const std::string& value) {
        if (!value.empty())
            rows.push_back({what, value, "", "", ""});
    };
    const auto time = [&](const std::string& what, std::optional<Seconds> value) {
        if (value)
            add(what, shown_time(*value));
    };
    const auto count = [&](const std::string& what, std::optional<int> value) {
        if (value)
            add(what, std::to_string(*value));
    };
    add(tr("Title"), announcement.title);
    if (announcement.format)
        add(tr("Format"), shown_word(WordList::format, static_cast<std::size_t>(*announcement.format)));
    time(tr("Time cap"), announcement.cap);
    count(tr("Rounds"), announcement.rounds);
    time(tr("Work"), announcement.work);
    time(tr("Rest"), announcement.rest);
    time(tr("A new window every"), announcement.every);
    count(tr("Windows"), announcement.windows);
    if (announcement.in_turn)
        add(tr("In each window"), *announcement.in_turn ? tr("one station, in turn") : tr("all stations"));
    if (announcement.scoring)
        add(tr("Score"), shown_word(WordList::scoring, static_cast<std::size_t>(*announcement.scoring)));
    if (announcement.team > 1)
        add(tr("People per team"), std::to_string(announcement.team));
    count(tr("Working at once"), announcement.at_once);
    if (announcement.any_split)
        add(tr("Shares of the work"), shown_word(WordList::split, 0));
    add(tr("Tie-break"), announcement.tiebreak);
    if (announcement.divisions.size() > 1)
        add(tr("Divisions"), by_division(announcement.divisions));
}

constexpr std::array pace_columns{"rep_s", "calh",    "pace",       "handling_s", "steps",
                                  "grip",  "longest", "away_share", "counts"};

// What the sheet has of a station that comes again: by movement and unit, the cells of its usual pace.
using KnownPaces = std::map<std::string, std::map<std::string, Any>>;

std::string pace_key(const std::string& movement, const std::string& unit) {
    return fold_name(movement) + '\n' + fold_name(unit);
}

KnownPaces known_paces(const EventCells& event) {
    KnownPaces known;
    const auto movements = event.texts("workout.stations.movement");
    const auto units = event.texts("workout.stations.unit");
    for (const auto* column : pace_columns) {
        const auto cells = event.values("workout.paces." + std::string(column));
        for (std::size_t row = 0; row < movements.size() && row < static_cast<std::size_t>(cells.getLength()); ++row)
            if (const auto& value = cells[static_cast<sal_Int32>(row)][0]; !movements[row].empty() && !blank(value))
                known[pace_key(movements[row], units[row])][column] = value;
    }
    return known;
}

void put(const EventCells& event, const KeyedCell& cell) {
    const auto range = event.at(cell.key);
    const auto row = static_cast<sal_Int32>(cell.row);
    if (const auto* number = std::get_if<double>(&cell.value))
        put_number(range, 0, row, *number);
    else if (const auto* text = std::get_if<std::string>(&cell.value))
        put_text(range, 0, row, *text);
}

void put_known(const EventCells& event, const std::map<std::string, Any>& paces, std::size_t row) {
    for (const auto& [column, value] : paces) {
        const auto range = event.at("workout.paces." + column);
        double number = 0;
        if (value >>= number)
            put_number(range, 0, static_cast<sal_Int32>(row), number);
        else
            put_text(range, 0, static_cast<sal_Int32>(row), text_of(value));
    }
}

void clear(const Range& cells) {
    using namespace css::sheet::CellFlags;
    need<css::sheet::XSheetOperation>(cells)->clearContents(VALUE | DATETIME | STRING);
}

Range first_column(const Range& cells) {
    const auto where = address(cells);
    return cells->getCellRangeByPosition(0, 0, 0, where.EndRow - where.StartRow);
}

// Everything that an announcement may say. Column by column: where a cell beside them is locked, nothing is cleared.
void clear(const EventCells& event) {
    clear(event.at("list_divisions"));
    for (const auto* column : {"movement", "unit", "when"})
        clear(first_column(event.at("workout.stations." + std::string(column))));
    for (std::size_t d = 1; d <= event.texts("list_divisions").size(); ++d)
        for (const auto* column : {"amount.", "load."})
            clear(first_column(event.at("workout.stations." + (column + std::to_string(d)))));
    for (const auto* column : pace_columns)
        clear(first_column(event.at("workout.paces." + std::string(column))));
    for (const auto* key : {"title", "cap", "rounds", "work_s", "rest_s", "every_s", "windows", "in_turn", "scoring",
                            "team", "at_once", "split", "tiebreak"})
        if (const auto cell = event.find("workout." + std::string(key)); cell.is())
            put_blank(cell, 0, 0);
}

} // namespace

AnnouncementRoom room_of(const EventCells& event) {
    const auto names = address(event.at("list_divisions"));
    const auto clocks = address(event.at("results_clocks"));
    return {static_cast<int>(event.texts("workout.stations.movement").size()),
            static_cast<int>(names.EndColumn - names.StartColumn) + 1,
            static_cast<int>(clocks.EndColumn - clocks.StartColumn) + 1};
}

void refuse_too_large(const Announcement& announcement, const AnnouncementRoom& room) {
    const auto more = [](std::size_t there, int most) { return there > static_cast<std::size_t>(most); };
    if (more(announcement.stations.size(), room.stations))
        throw Refusal{tr("The announcement has %1 stations, but the sheet Workout has room for %2.",
                         std::to_string(announcement.stations.size()), std::to_string(room.stations))};
    if (more(announcement.divisions.size(), room.divisions))
        throw Refusal{tr("The announcement has %1 divisions, but the sheet Workout has room for %2.",
                         std::to_string(announcement.divisions.size()), std::to_string(room.divisions))};
    const int rounds = std::max(announcement.rounds.value_or(0), announcement.windows.value_or(0));
    if (rounds > room.rounds)
        throw Refusal{tr("The announcement has %1 rounds or windows, but the sheets have room for %2.",
                         std::to_string(rounds), std::to_string(room.rounds))};
}

bool has_stations(const EventCells& event) {
    return std::ranges::any_of(event.texts("workout.stations.movement"),
                               [](const auto& movement) { return !movement.empty(); });
}

std::size_t open_questions(const Announcement& announcement) {
    return static_cast<std::size_t>(
        std::ranges::count_if(announcement.marks, [](const Mark& mark) { return mark.kind == MarkKind::asked; }));
}

Dialog::Rows understood(const Announcement& announcement, const UsualPaces& usual) {
    Dialog::Rows rows;
    add_settings(announcement, rows);
    for (const auto& station : announcement.stations) {
        const auto unit = static_cast<std::size_t>(station.unit);
        std::string movement = station.movement;
        if (station.when != When::every)
            movement += " (" + shown_word(WordList::when, static_cast<std::size_t>(station.when)) + ")";
        rows.push_back({movement, by_division(station.amounts), unit == 0 ? "?" : shown_word(WordList::unit, unit - 1),
                        shown_loads(station), shown_pace(station, usual)});
    }
    return rows;
}

std::vector<std::string> remarks(const Announcement& announcement, const UsualPaces& usual) {
    std::vector<std::string> lines;
    for (const auto& mark : announcement.marks) {
        const auto number = std::to_string(lines.size() + 1) + ": ";
        lines.push_back(number +
                        (mark.kind == MarkKind::asked ? tr("To answer: %1", tr(mark.reason)) : tr(mark.reason)));
    }
    for (const auto& station : announcement.stations)
        if (const auto pace = pace_of(station, usual); pace && !pace->known)
            lines.push_back(tr("%1: its usual pace is not known; %2 s per rep are taken.", station.movement,
                               shown_number(pace->rate, 1)));
    return lines;
}

std::string short_text(const Announcement& announcement) {
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
    if (announcement.format)
        add(shown_word(WordList::format, static_cast<std::size_t>(*announcement.format)));
    if (announcement.cap)
        add(shown_time(*announcement.cap));
    add(tr("stations: %1", std::to_string(announcement.stations.size())));
    add(tr("divisions: %1", std::to_string(announcement.divisions.size())));
    return text;
}

void write_announcement(const EventCells& event, const Announcement& announcement, const UsualPaces& usual,
                        Language language) {
    const auto known = known_paces(event);
    clear(event);
    std::map<std::size_t, const std::map<std::string, Any>*> kept; // by station
    for (std::size_t row = 0; row < announcement.stations.size(); ++row) {
        const auto& station = announcement.stations[row];
        const auto unit = static_cast<std::size_t>(station.unit);
        const std::string written(unit == 0 ? "" : word(WordList::unit, unit - 1, language));
        if (const auto found = known.find(pace_key(station.movement, written)); found != known.end())
            kept.emplace(row, &found->second);
    }
    for (const auto& cell : announcement_cells(announcement, language))
        put(event, cell);
    for (const auto& cell : pace_cells(announcement))
        if (!kept.contains(cell.row) && !usual.find(announcement.stations[cell.row]))
            put(event, cell);
    for (const auto& [row, paces] : kept)
        put_known(event, *paces, row);
}

} // namespace pacecells
