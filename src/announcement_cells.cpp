// An announcement as the cells of a workout's block.
#include "pacecells/announcement.h"

#include <algorithm>
#include <charconv>

namespace pacecells {

namespace {

std::string_view text_of(WordList list, std::size_t index, Language language) { return word(list, index, language); }

// A number as a number, a list as text.
TableCell amount_cell(const std::string& text) {
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (read.ec == std::errc{} && read.ptr == text.data() + text.size())
        return value;
    return text;
}

} // namespace

std::vector<KeyedCell> announcement_cells(const Announcement& announcement, Language language) {
    std::vector<KeyedCell> cells;
    const auto add = [&](std::string key, TableCell value, std::size_t row = 0) {
        cells.push_back({"workout." + std::move(key), row, std::move(value)});
    };
    const auto add_text = [&](std::string key, std::string_view text, std::size_t row = 0) {
        if (!text.empty())
            add(std::move(key), std::string(text), row);
    };
    const auto add_number = [&](std::string key, const auto& value) {
        if (value)
            add(std::move(key), static_cast<double>(*value));
    };
    const auto add_seconds = [&](std::string key, std::optional<Seconds> time) {
        if (time)
            add(std::move(key), time->value());
    };
    add_text("title", announcement.title);
    if (announcement.format)
        add_text("format", text_of(WordList::format, static_cast<std::size_t>(*announcement.format), language));
    if (announcement.cap)
        add("cap", announcement.cap->value() / seconds_per_day);
    add_number("rounds", announcement.rounds);
    add_seconds("work_s", announcement.work);
    add_seconds("rest_s", announcement.rest);
    add_seconds("every_s", announcement.every);
    add_number("windows", announcement.windows);
    if (announcement.in_turn.value_or(false))
        add_text("in_turn", text_of(WordList::yes, 0, language));
    if (announcement.scoring)
        add_text("scoring", text_of(WordList::scoring, static_cast<std::size_t>(*announcement.scoring), language));
    if (announcement.team > 1)
        add("team", static_cast<double>(announcement.team));
    add_number("at_once", announcement.at_once);
    if (announcement.any_split)
        add_text("split", text_of(WordList::split, 0, language));
    add_text("tiebreak", announcement.tiebreak);
    for (std::size_t d = 0; d < announcement.divisions.size(); ++d)
        add_text("divisions.amount." + std::to_string(d + 1), announcement.divisions[d]);
    for (std::size_t row = 0; row < announcement.stations.size(); ++row) {
        const auto& station = announcement.stations[row];
        add_text("stations.movement", station.movement, row);
        if (station.unit != Unit::blank)
            add_text("stations.unit", text_of(WordList::unit, static_cast<std::size_t>(station.unit) - 1, language),
                     row);
        if (station.when != When::every)
            add_text("stations.when", text_of(WordList::when, static_cast<std::size_t>(station.when), language), row);
        for (std::size_t d = 0; d < station.amounts.size(); ++d)
            if (!station.amounts[d].empty())
                add("stations.amount." + std::to_string(d + 1), amount_cell(station.amounts[d]), row);
        for (std::size_t d = 0; d < station.loads.size(); ++d)
            if (station.loads[d])
                add("stations.load." + std::to_string(d + 1), *station.loads[d], row);
    }
    return cells;
}

std::vector<KeyedCell> pace_cells(const Announcement& announcement) {
    std::vector<KeyedCell> cells;
    for (std::size_t row = 0; row < announcement.stations.size(); ++row) {
        const auto pace = usual_pace(announcement.stations[row]);
        if (!pace)
            continue;
        const auto kind = rate_kind(announcement.stations[row].unit);
        if (kind == RateKind::split)
            cells.push_back({"workout.paces.pace", row, pace->rate / seconds_per_day});
        else
            cells.push_back(
                {kind == RateKind::calories_per_hour ? "workout.paces.calh" : "workout.paces.rep_s", row, pace->rate});
        if (pace->handling.value() > 0)
            cells.push_back({"workout.paces.handling_s", row, pace->handling.value()});
    }
    return cells;
}

std::optional<UsualPace> usual_pace(const AnnouncedStation& station) {
    const bool loaded = std::ranges::any_of(station.loads, [](const auto& load) { return load.has_value(); });
    return usual_pace(station.unit, station.movement, loaded);
}

std::string with_marks(std::string_view text, std::span<const Mark> marks) {
    std::string result;
    for (std::size_t at = 0; at <= text.size(); ++at) {
        for (const auto& mark : marks)
            if (mark.range.to == at && mark.range.from < at)
                result += ']';
        for (std::size_t i = 0; i < marks.size(); ++i) {
            if (marks[i].range.from != at)
                continue;
            result += '[' + std::to_string(i + 1) + ": ";
            if (marks[i].range.to == at) // nothing is inside
                result += ']';
        }
        if (at < text.size())
            result += text[at];
    }
    return result;
}

} // namespace pacecells
