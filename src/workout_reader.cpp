// The block of a workout: parts, found by the keys of their rows and columns.
#include "pacecells/workout.h"

#include "workout_settings.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace pacecells {

namespace {

using Refusal = std::optional<Error>;

constexpr double most_amount = 20'000; // above it a list such as 10-9-8 became a date

enum class Part : std::uint8_t { before, settings, stations, paces, groups, machines };

struct PartKeys {
    std::string_view header;
    Part part;
    std::string_view row;
    std::array<std::string_view, 10> columns; // without the numbered ones
};
constexpr PartKeys part_keys[] = {
    {"pacecells.workout", Part::settings, "", {"value"}},
    {"stations", Part::stations, "station", {"no", "movement", "unit", "when"}},
    {"paces",
     Part::paces,
     "pace",
     {"no", "rep_s", "calh", "pace", "handling_s", "steps", "grip", "away_share", "longest", "counts"}},
    {"groups", Part::groups, "group", {"name", "erg", "rep", "sets"}},
    {"machines", Part::machines, "machine", {"unit", "count"}},
};

std::optional<Machine> parse_any_machine(const std::string& text) {
    if (const auto key = parse_machine(text))
        return *key;
    return {};
}

Place at(std::size_t row, std::size_t column) { return {Place::Table::workout, row, column}; }

class Reader {
  public:
    explicit Reader(const Table& block) : block_(block) {}

    Result<Workout> read() {
        for (std::size_t row = 0; row < block_.rows && !ended_; ++row)
            if (auto error = read_row(row))
                return *std::move(error);
        if (part_ == Part::before)
            return out_of_domain("This is not a workout: its first key must be \"pacecells.workout\".");
        if (!ended_)
            return out_of_domain("The workout has no end: its last key must be \"end\". Was a row deleted?");
        if (auto error = finish())
            return *std::move(error);
        return std::move(workout_);
    }

  private:
    const TableCell& cell(std::size_t row, std::string_view column) const {
        static const TableCell blank;
        const auto found = columns_.find(column);
        return found == columns_.end() ? blank : block_.at(row, found->second);
    }
    Place place(std::size_t row, std::string_view column) const {
        const auto found = columns_.find(column);
        return at(row, found == columns_.end() ? 0 : found->second);
    }

    Refusal read_row(std::size_t row) {
        const std::string key = fold(cell_text(block_.at(row, 0)));
        if (key.empty())
            return read_row_without_key(row);
        for (const auto& keys : part_keys)
            if (key == keys.header)
                return read_header(row, keys);
        if (part_ == Part::before || key == "label") // headings and sentences for people
            return {};
        if (key == "end") {
            ended_ = true;
            return {};
        }
        if (key == "divisions")
            return read_divisions(row);
        if (key == "station")
            return part_ == Part::stations ? read_station(row) : misplaced(row, key);
        if (key == "pace")
            return part_ == Part::paces ? read_pace(row) : misplaced(row, key);
        if (key == "group")
            return part_ == Part::groups ? read_group(row) : misplaced(row, key);
        if (key == "machine")
            return part_ == Part::machines ? read_machine(row) : misplaced(row, key);
        return read_setting_row(row, key);
    }

    Refusal read_row_without_key(std::size_t row) const {
        if (part_ == Part::before || part_ == Part::settings)
            return {};
        std::optional<std::size_t> first;
        for (const auto& [key, column] : columns_)
            if (!is_blank(block_.at(row, column)) && key != "no")
                first = std::min(column, first.value_or(column));
        if (first)
            return out_of_domain("%1: this row of the workout has no key: copy the row above it, then type.",
                                 at(row, *first));
        return {};
    }

    static Refusal misplaced(std::size_t row, const std::string& key) {
        return out_of_domain("%1: the key %2 is not in its part of the workout.", at(row, 0), quoted(key));
    }

    Refusal read_header(std::size_t row, const PartKeys& keys) {
        if (!seen_.insert(std::string(keys.header)).second)
            return out_of_domain("%1: the key %2 is there twice.", at(row, 0), quoted(keys.header));
        if (part_ == Part::before && keys.part != Part::settings)
            return {};
        std::map<std::string, std::size_t, std::less<>> columns;
        for (std::size_t column = 1; column < block_.columns; ++column) {
            const std::string key = fold(cell_text(block_.at(row, column)));
            if (key.empty())
                continue;
            const bool known =
                std::ranges::find(keys.columns, key) != keys.columns.end() ||
                (keys.part == Part::stations && (key.starts_with("amount.") || key.starts_with("load.")));
            if (!known && keys.part != Part::settings)
                return out_of_domain("%1: the key %2 is not known in this row.", at(row, column), quoted(key));
            if (known && !columns.emplace(key, column).second)
                return out_of_domain("%1: the key %2 is there twice in this row.", at(row, column), quoted(key));
        }
        for (const auto needed : keys.columns)
            if (!needed.empty() && !columns.contains(needed))
                return out_of_domain("%1: the key %2 is missing in this row.", at(row, 0), quoted(needed));
        part_ = keys.part;
        columns_ = std::move(columns);
        if (part_ == Part::settings)
            value_column_ = columns_.find("value")->second;
        return {};
    }

    // Settings -----------------------------------------------------------------------------------------------------

    std::string label(std::size_t row, const std::string& key) const {
        for (std::size_t column = 1; column < value_column_; ++column)
            if (!is_blank(block_.at(row, column)))
                return cell_text(block_.at(row, column));
        return key;
    }

    Refusal read_setting_row(std::size_t row, const std::string& key) {
        if (!is_setting(key))
            return out_of_domain("%1: the key %2 is not known. Was a key typed over?", at(row, 0), quoted(key));
        if (!seen_.insert(key).second)
            return out_of_domain("%1: the key %2 is there twice.", at(row, 0), quoted(key));
        const Place place = at(row, value_column_);
        if (is_blank(block_.at(row, value_column_)))
            return {};
        workout_.places.emplace(key, place);
        return read_setting(workout_.settings, key, block_.at(row, value_column_), place, label(row, key));
    }

    // Stations -----------------------------------------------------------------------------------------------------

    Refusal read_divisions(std::size_t row) {
        if (part_ != Part::stations || !workout_.stations.empty()) // a station is read for the divisions above it
            return misplaced(row, "divisions");
        if (!seen_.insert("divisions").second)
            return out_of_domain("%1: the key %2 is there twice.", at(row, 0), quoted("divisions"));
        for (int d = 1; d <= most_divisions; ++d) {
            const std::string key = "amount." + std::to_string(d);
            const auto column = columns_.find(key);
            if (column == columns_.end() || is_blank(block_.at(row, column->second)))
                continue;
            const std::string name = cell_text(block_.at(row, column->second));
            if (workout_.division(name))
                return out_of_domain("%1: there is already a division %2: give each its own name.",
                                     at(row, column->second), quoted(name));
            workout_.divisions.push_back({name, at(row, column->second)});
            division_numbers_.push_back(d);
        }
        return {};
    }

    Refusal read_station(std::size_t row) {
        const auto& unit_cell = cell(row, "unit");
        const std::string movement = cell_text(cell(row, "movement"));
        const bool amounts = std::ranges::any_of(columns_, [&](const auto& column) {
            return column.first.starts_with("amount.") && !is_blank(block_.at(row, column.second));
        });
        if (is_blank(unit_cell) && movement.empty() && !amounts)
            return {}; // a spare row
        const auto no = cell_number(cell(row, "no"));
        if (!no || *no != std::floor(*no) || !(*no >= 1 && *no <= 999))
            return out_of_domain("%1: give the station a number.", place(row, "no"));
        Station station;
        station.no = static_cast<int>(*no);
        station.row = row;
        for (const auto& other : workout_.stations)
            if (other.no == station.no)
                return out_of_domain("%1: there is already a station %2.", place(row, "no"), station.no);
        if (is_blank(unit_cell))
            return out_of_domain("%1: give station %2 a unit.", place(row, "unit"), station.no);
        const auto unit = parse_unit(cell_text(unit_cell));
        const auto unit_word = find_word(WordList::unit, cell_text(unit_cell));
        if (unit_word)
            station.unit = static_cast<Unit>(*unit_word + 1);
        else if (unit && *unit != Unit::blank)
            station.unit = *unit;
        else
            return out_of_domain("%1: station %2 has the unit %3, which is not known: choose one from the list.",
                                 place(row, "unit"), station.no, quoted(cell_text(unit_cell)));
        station.movement = movement.empty()
                               ? std::string(word(WordList::unit, static_cast<std::size_t>(station.unit) - 1,
                                                  workout_.settings.language))
                               : movement;
        if (const auto& when = cell(row, "when"); !is_blank(when)) {
            const auto found = find_word(WordList::when, cell_text(when));
            if (!found)
                return out_of_domain("%1: station %2: %3 is not known: choose every round, first or last round from "
                                     "the list.",
                                     place(row, "when"), station.no, quoted(cell_text(when)));
            station.when = static_cast<When>(*found);
        }
        for (const int d : division_numbers_)
            if (auto error = read_share(row, d, station))
                return error;
        workout_.stations.push_back(std::move(station));
        return {};
    }

    Refusal read_share(std::size_t row, int division, Station& station) {
        DivisionShare share;
        const std::string amount_key = "amount." + std::to_string(division);
        const std::string load_key = "load." + std::to_string(division);
        const auto& amount = cell(row, amount_key);
        const Place amount_place = place(row, amount_key);
        if (const auto number = cell_number(amount)) {
            if (*number > most_amount)
                return out_of_domain("%1: station %2: %3 is too much. If you typed a list such as 10-9-8, the sheet "
                                     "made a date of it: set the cell's format to text and type it again.",
                                     amount_place, station.no, *number);
            if (!(*number >= 0))
                return out_of_domain("%1: station %2: the amount must be 0 or more.", amount_place, station.no);
            share.amounts.list = {*number};
        } else if (!is_blank(amount)) {
            auto amounts = parse_amounts(cell_text(amount));
            if (!amounts)
                return out_of_domain("%1: station %2: the amount %3 cannot be read: write a number, a list such as "
                                     "21-15-9, or 1-2-3-… for one that goes on.",
                                     amount_place, station.no, quoted(cell_text(amount)));
            share.amounts = *std::move(amounts);
        }
        const auto& load = cell(row, load_key);
        const auto kilograms = cell_number(load);
        if (!is_blank(load) && !(kilograms && *kilograms >= 0 && *kilograms <= 999))
            return out_of_domain("%1: station %2: the load must be kilograms, 0 to 999.", place(row, load_key),
                                 station.no);
        if (kilograms && *kilograms > 0)
            share.load = kilograms;
        station.divisions.push_back(std::move(share));
        station.amount_places.push_back(amount_place);
        station.load_places.push_back(place(row, load_key));
        return {};
    }

    // Usual paces, groups, machines --------------------------------------------------------------------------------

    Refusal read_pace(std::size_t row) {
        const auto no = cell_number(cell(row, "no"));
        const auto station = std::ranges::find_if(
            workout_.stations, [&](const Station& one) { return no && static_cast<double>(one.no) == *no; });
        if (station == workout_.stations.end())
            return {}; // of a spare station
        if (station->pace_row)
            return out_of_domain("%1: station %2 has two rows of usual paces.", place(row, "no"), station->no);
        station->pace_row = row;
        if (auto error = read_usual_rate(row, *station))
            return error;
        double handling = 0;
        if (auto error = number(row, "handling_s", *station, 0, 600, handling))
            return error;
        station->handling = Seconds{handling};
        for (const auto& [key, most, to] :
             {std::tuple{"steps", 200.0, &station->steps}, std::tuple{"away_share", 1.0, &station->away_share},
              std::tuple{"counts", 99.0, &station->counts}}) {
            double value = 0;
            if (auto error = number(row, key, *station, 0, most, value))
                return error;
            if (!is_blank(cell(row, key)))
                *to = value;
        }
        double longest = 1;
        if (auto error = number(row, "longest", *station, 1, 999, longest))
            return error;
        if (!is_blank(cell(row, "longest")))
            station->longest = Reps{longest};
        const auto& grip = cell(row, "grip");
        station->grip = !is_blank(grip);
        if (station->grip && !find_word(WordList::yes, cell_text(grip)))
            return out_of_domain("%1: station %2: choose yes, or leave the cell empty.", place(row, "grip"),
                                 station->no);
        return {};
    }

    Refusal number(std::size_t row, std::string_view key, const Station& station, double from, double to,
                   double& into) {
        const auto& from_cell = cell(row, key);
        if (is_blank(from_cell))
            return {};
        const bool seconds = key.ends_with("_s");
        const auto as_seconds = seconds ? cell_seconds(from_cell) : std::optional<Seconds>{};
        const auto value = as_seconds ? as_seconds->value() : cell_number(from_cell);
        if (!value || (seconds && !as_seconds) || !(*value >= from && *value <= to))
            return out_of_domain("%1: station %2: a number from %3 to %4 is needed here.", place(row, key), station.no,
                                 from, to);
        into = *value;
        return {};
    }

    Refusal read_usual_rate(std::size_t row, Station& station) {
        switch (rate_kind(station.unit)) {
        case RateKind::none:
            return {};
        case RateKind::seconds_each:
            if (is_blank(cell(row, "rep_s")))
                return {};
            return number(row, "rep_s", station, 0.1, 600, station.usual_rate);
        case RateKind::calories_per_hour:
            if (is_blank(cell(row, "calh")))
                return {};
            return number(row, "calh", station, 100, 5000, station.usual_rate);
        case RateKind::split:
            break;
        }
        const auto& pace = cell(row, "pace");
        if (is_blank(pace))
            return {};
        const auto time = cell_time(pace);
        if (!time || !(time->value() >= 30 && time->value() < 3600))
            return out_of_domain("%1: station %2: the pace must be minutes and seconds such as 2:05.",
                                 place(row, "pace"), station.no);
        station.usual_rate = time->value();
        return {};
    }

    Refusal read_group(std::size_t row) {
        const std::string name = cell_text(cell(row, "name"));
        if (name.empty())
            return {};
        if (workout_.group(name))
            return out_of_domain("%1: there is already a pace group %2.", place(row, "name"), quoted(name));
        PaceGroup group{.name = name, .place = place(row, "name")};
        for (const auto& [key, to] :
             {std::pair{"erg", &group.erg}, std::pair{"rep", &group.rep}, std::pair{"sets", &group.sets}}) {
            if (is_blank(cell(row, key)))
                continue;
            const auto value = cell_number(cell(row, key));
            if (!value || !(*value >= 0.2 && *value <= 5))
                return out_of_domain("%1: a factor of a pace group must be a number from 0.2 to 5.", place(row, key));
            *to = *value;
        }
        workout_.groups.push_back(std::move(group));
        return {};
    }

    Refusal read_machine(std::size_t row) {
        const std::string name = cell_text(cell(row, "unit"));
        if (name.empty())
            return {};
        const auto machine = parse_any_machine(name);
        if (!machine)
            return out_of_domain("%1: %2 is not a machine: the key must be row, ski, bike or armbike.",
                                 place(row, "unit"), quoted(name));
        auto& count = workout_.machines[static_cast<std::size_t>(*machine)];
        if (count)
            return out_of_domain("%1: the machine %2 is there twice.", place(row, "unit"), quoted(name));
        if (is_blank(cell(row, "count")))
            return {};
        const auto value = cell_number(cell(row, "count"));
        if (!value || *value != std::floor(*value) || !(*value >= 0 && *value <= 99))
            return out_of_domain("%1: give the number of machines, 0 to 99.", place(row, "count"));
        count = static_cast<int>(*value);
        return {};
    }

    Refusal finish() {
        for (const auto needed : {"version", "language", "format"})
            if (!seen_.contains(needed))
                return out_of_domain("The workout has no key %1. Was a row deleted?", quoted(needed));
        for (const auto needed : {"stations", "divisions", "paces"})
            if (!seen_.contains(needed))
                return out_of_domain("The workout has no row with the key %1. Was a row deleted?", quoted(needed));
        if (auto error = refused(workout_))
            return error;
        take_turns();
        return {};
    }

    // Stations in turn: each has its amount in its windows, and 0 in the others.
    void take_turns() {
        auto& settings = workout_.settings;
        if (settings.format != Format::intervals)
            return;
        settings.cap = settings.window() * *settings.windows;
        for (std::size_t d = 0; d < workout_.divisions.size() && settings.in_turn; ++d) {
            std::vector<Amounts*> in_order;
            for (auto& station : workout_.stations)
                if (auto& amounts = station.divisions[d].amounts; !amounts.list.empty())
                    in_order.push_back(&amounts);
            for (std::size_t i = 0; i < in_order.size(); ++i) {
                const Amounts typed = *in_order[i];
                in_order[i]->list.clear();
                for (int k = 1; k <= *settings.windows; ++k) {
                    const auto turn = static_cast<std::size_t>(k) - 1;
                    const int times = static_cast<int>(turn / in_order.size()) + 1; // its first turn, its second ...
                    in_order[i]->list.push_back(turn % in_order.size() == i ? typed.of_round(times) : 0);
                }
                in_order[i]->open = false;
            }
        }
    }

    const Table& block_;
    Workout workout_;
    Part part_ = Part::before;
    bool ended_ = false;
    std::size_t value_column_ = 1;
    std::map<std::string, std::size_t, std::less<>> columns_; // of the part: key, column
    std::set<std::string, std::less<>> seen_;
    std::vector<int> division_numbers_; // of the divisions that have names
};

} // namespace

Result<Workout> read_workout(const Table& block) { return Reader{block}.read(); }

} // namespace pacecells
