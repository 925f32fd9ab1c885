#include "workout_settings.h"

#include "check.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>

namespace pacecells {

namespace {

constexpr double longest_s = 4 * 3600; // a time of day or of several hours is a slip
constexpr double days_from = 1;
constexpr double days_to = 200'000;

struct At {
    const TableCell& cell;
    Place place;
    const std::string& label;
};
using Refusal = std::optional<Error>;

Refusal number(double& to, const At& at, double from, double up_to) {
    const auto value = cell_number(at.cell);
    if (!value || !(*value >= from && *value <= up_to))
        return out_of_domain("%1: %2 must be a number from %3 to %4.", at.place, quoted(at.label), from, up_to);
    to = *value;
    return {};
}
Refusal number(std::optional<double>& to, const At& at, double from, double up_to) {
    double value = 0;
    if (auto error = number(value, at, from, up_to))
        return error;
    to = value;
    return {};
}
Refusal whole(int& to, const At& at, int from, int up_to) {
    double value = 0;
    const auto error = number(value, at, from, up_to);
    if (error || value != std::floor(value))
        return out_of_domain("%1: %2 must be a whole number from %3 to %4.", at.place, quoted(at.label), from, up_to);
    to = static_cast<int>(value);
    return {};
}
Refusal whole(std::optional<int>& to, const At& at, int from, int up_to) {
    int value = 0;
    if (auto error = whole(value, at, from, up_to))
        return error;
    to = value;
    return {};
}
Refusal time(Seconds& to, const At& at, std::optional<Seconds> (*read)(const TableCell&), double from) {
    const auto value = read(at.cell);
    if (!value || !(value->value() >= from && value->value() < longest_s))
        return out_of_domain("%1: %2 must be a time below 4 hours, such as 12:30.", at.place, quoted(at.label));
    to = *value;
    return {};
}
Refusal time(std::optional<Seconds>& to, const At& at, std::optional<Seconds> (*read)(const TableCell&), double from) {
    Seconds value;
    if (auto error = time(value, at, read, from))
        return error;
    to = value;
    return {};
}
Refusal text(std::string& to, const At& at) {
    to = cell_text(at.cell);
    return {};
}

// A goal of the wall: rounds, or a time as part of a day. As text too, for a sheet reads a typed 13:00 as hours.
Refusal wall_goal(std::optional<double>& to, const At& at) {
    if (const auto* text = std::get_if<std::string>(&at.cell)) {
        if (const auto clock = parse_clock(*text)) {
            to = clock->value() / seconds_per_day;
            return {};
        }
        if (const auto rounds = plain_number(*text); rounds && *rounds >= 0 && *rounds <= most_plan_rounds) {
            to = rounds;
            return {};
        }
        return out_of_domain("%1: %2 must be rounds such as 6.5, or a time such as 13:00.", at.place, quoted(at.label));
    }
    return number(to, at, 0, most_plan_rounds);
}

std::string joined(std::span<const std::string_view> words) {
    std::string all;
    for (const auto word : words)
        all += (all.empty() ? "" : ", ") + std::string{word};
    return all;
}

std::string all_words(WordList list, Language language) {
    std::vector<std::string_view> words;
    for (std::size_t i = 0; i < words_of(list).size(); ++i)
        words.push_back(word(list, i, language));
    return joined(words);
}

template <class Enum>
Refusal choice(Enum& to, const At& at, WordList list, Language language) {
    const auto found = find_word(list, cell_text(at.cell));
    if (!found)
        return out_of_domain("%1: %2 is not known here: write one of %3.", at.place, quoted(cell_text(at.cell)),
                             all_words(list, language));
    to = static_cast<Enum>(*found);
    return {};
}

Refusal yes(Settings& to, const At& at) {
    to.in_turn = find_word(WordList::yes, cell_text(at.cell)).has_value();
    if (!to.in_turn)
        return out_of_domain("%1: %2: choose yes, or leave the cell empty.", at.place, quoted(at.label));
    return {};
}
Refusal version(Settings& to, const At& at) {
    const auto value = cell_number(at.cell);
    if (value && *value > workout_version)
        return out_of_domain("%1: this workbook was made by a newer version of Pacecells (layout %2): update the "
                             "extension.",
                             at.place, *value);
    if (!value || *value != workout_version)
        return out_of_domain("%1: this workbook has a layout that this version of Pacecells does not read: make a new "
                             "workbook and copy your numbers over.",
                             at.place);
    to.version = workout_version;
    return {};
}
Refusal language(Settings& to, const At& at) {
    const auto value = parse_language(cell_text(at.cell));
    if (!value)
        return out_of_domain("%1: the language must be one of %2.", at.place, joined(language_keys()));
    to.language = *value;
    return {};
}

struct SettingRow {
    std::string_view key;
    Refusal (*read)(Settings&, const At&);
};

constexpr SettingRow setting_rows[] = {
    {"version", version},
    {"language", language},
    {"format", [](Settings& s, const At& at) { return choice(s.format, at, WordList::format, s.language); }},
    {"cap", [](Settings& s, const At& at) { return time(s.cap, at, cell_time, 1); }},
    {"rounds", [](Settings& s, const At& at) { return whole(s.rounds, at, 1, most_plan_rounds); }},
    {"work_s", [](Settings& s, const At& at) { return time(s.work, at, cell_seconds, 1); }},
    {"rest_s", [](Settings& s, const At& at) { return time(s.rest, at, cell_seconds, 0); }},
    {"every_s", [](Settings& s, const At& at) { return time(s.every, at, cell_seconds, 1); }},
    {"windows", [](Settings& s, const At& at) { return whole(s.windows, at, 1, most_plan_rounds); }},
    {"in_turn", yes},
    {"scoring", [](Settings& s, const At& at) { return choice(s.scoring, at, WordList::scoring, s.language); }},
    {"team", [](Settings& s, const At& at) { return whole(s.team, at, 1, 20); }},
    {"at_once", [](Settings& s, const At& at) { return whole(s.at_once, at, 1, 20); }},
    {"split", [](Settings& s, const At& at) { return text(s.split, at); }},
    {"intended_low", [](Settings& s, const At& at) { return number(s.intended_low, at, 0, most_plan_rounds); }},
    {"intended_high", [](Settings& s, const At& at) { return number(s.intended_high, at, 0, most_plan_rounds); }},
    {"tiebreak", [](Settings& s, const At& at) { return text(s.tiebreak, at); }},
    {"gym", [](Settings& s, const At& at) { return text(s.gym, at); }},
    {"title", [](Settings& s, const At& at) { return text(s.title, at); }},
    {"date", [](Settings& s, const At& at) { return number(s.date, at, days_from, days_to); }},
    {"announcement", [](Settings& s, const At& at) { return whole(s.announcement, at, 1, 99); }},
    {"issued", [](Settings& s, const At& at) { return number(s.issued, at, 0, 1); }},
    {"first_start", [](Settings& s, const At& at) { return number(s.first_start, at, 0, 1); }},
    {"changeover", [](Settings& s, const At& at) { return time(s.changeover, at, cell_time, 0); }},
    {"places", [](Settings& s, const At& at) { return whole(s.places, at, 1, 99); }},
    {"steps", [](Settings& s, const At& at) { return number(s.steps, at, 0, 200); }},
    {"step_s", [](Settings& s, const At& at) { return number(s.step_s, at, 0, 5); }},
    {"fade", [](Settings& s, const At& at) { return number(s.fade, at, 0, 0.5); }},
    {"push", [](Settings& s, const At& at) { return number(s.push, at, 0, 0.5); }},
    {"pacing", [](Settings& s, const At& at) { return choice(s.pacing, at, WordList::pacing, s.language); }},
    {"slip_s", [](Settings& s, const At& at) { return time(s.slip, at, cell_seconds, 0); }},
    {"goal_step", [](Settings& s, const At& at) { return number(s.goal_step, at, 0.1, 5); }},
    {"goal_step_time", [](Settings& s, const At& at) { return time(s.goal_step_time, at, cell_time, 1); }},
    {"share_work", [](Settings& s, const At& at) { return number(s.share_work, at, 0.3, 1); }},
    {"share_rest", [](Settings& s, const At& at) { return number(s.share_rest, at, 0.3, 1); }},
    {"work_share", [](Settings& s, const At& at) { return number(s.work_share, at, 0.1, 1); }},
    {"keep", [](Settings& s, const At& at) { return number(s.keep, at, 0, 0.9); }},
    {"rehearsal", [](Settings& s, const At& at) { return number(s.rehearsal, at, 0.3, 1); }},
    {"rehearsal_rounds", [](Settings& s, const At& at) { return whole(s.rehearsal_rounds, at, 1, 5); }},
    {"test_weeks", [](Settings& s, const At& at) { return number(s.test_weeks, at, 1, 104); }},
    {"rate_unit", [](Settings& s, const At& at) { return choice(s.rate_unit, at, WordList::rate_unit, s.language); }},
    {"wall_from", [](Settings& s, const At& at) { return wall_goal(s.wall_from, at); }},
    {"wall_to", [](Settings& s, const At& at) { return wall_goal(s.wall_to, at); }},
    {"wall_step", [](Settings& s, const At& at) { return wall_goal(s.wall_step, at); }},
    {"wall_most", [](Settings& s, const At& at) { return number(s.wall_most, at, 300, 5000); }},
};

const SettingRow* row_of(std::string_view key) {
    for (const auto& row : setting_rows)
        if (row.key == key)
            return &row;
    return nullptr;
}

} // namespace

bool is_setting(std::string_view key) { return row_of(key) != nullptr; }

std::optional<Error> read_setting(Settings& settings, std::string_view key, const TableCell& cell, Place place,
                                  const std::string& label) {
    return row_of(key)->read(settings, {cell, place, label});
}

} // namespace pacecells
