#include "heat_day.h"

#include "heat_day_clock.h"

#include "pacecells/text.h"
#include "pacecells/words.h"

#include <algorithm>
#include <utility>

namespace pacecells {

namespace {

constexpr double keep_logs = 30 * seconds_per_day;

const std::string& new_name(const std::map<std::string, std::string>& renamed, const std::string& name) {
    const auto found = renamed.find(name);
    return found == renamed.end() ? name : found->second;
}

std::string what_of(const std::string& range, int column) {
    if (range == "results_clocks")
        return tr("round %1", std::to_string(column + 1));
    if (range == "results_partial")
        return tr("partial");
    if (range == "results_tiebreak")
        return tr("tie-break");
    if (range == "results_out")
        return tr("withdrawn");
    return range == "results_finish" ? tr("finish") : tr("reps left");
}

std::string value_text(const std::string& range, const CellValue& value) {
    if (const auto* text = std::get_if<std::string>(&value))
        return *text;
    const auto number = number_of(value);
    if (!number)
        return {};
    const bool counts = range == "results_partial" || range == "results_left";
    return counts ? number_text(*number) : time_text(Seconds{*number * seconds_per_day}, 1);
}

} // namespace

bool HeatDay::in_use(const StoredLog& stored) {
    return std::any_of(open_days_.begin(), open_days_.end(),
                       [&](const HeatDay* day) { return day->journal_ && day->journal_->path() == stored.path; });
}

// Other heats that by the time of day run on, though no workbook that is open holds them.
std::vector<StoredLog> HeatDay::left_running() {
    auto logs = stored_logs(folder_);
    const auto key = sheet_.key();
    std::erase_if(logs, [&](const StoredLog& stored) {
        const auto& log = stored.log;
        return log.ended || !log.day_start || !log.cap || day_now() - *log.day_start > *log.cap || in_use(stored) ||
               (log.event == key && log.heat == number_);
    });
    return logs;
}

// What a log has and the sheet has not. Of a heat that ended, only cells that are empty now: later corrections stay.
HeatDay::Kept HeatDay::kept(const HeatLog& log) {
    Kept kept;
    for (std::size_t i = 0; i < log.lanes.size(); ++i)
        if (!log.lanes[i].empty())
            kept.seats.push_back({static_cast<int>(i) + 1, log.lanes[i]});
    const auto places = sheet_.places(log.heat, kept.seats, {});
    std::map<std::string, std::optional<int>> rows;
    for (std::size_t i = 0; i < kept.seats.size(); ++i) {
        rows[kept.seats[i].name] = places[i].row;
        if (places[i].row && places[i].name != kept.seats[i].name)
            kept.renamed[kept.seats[i].name] = std::exchange(kept.seats[i].name, places[i].name);
    }
    for (const auto& [place, value] : log.fixed()) {
        const auto& [range, athlete, column] = place;
        const auto row = rows.find(athlete);
        if (column < 0 || column >= static_cast<int>(RunningHeat::most_rounds) || !range.starts_with("results_") ||
            row == rows.end())
            continue;
        if (!row->second && log.ended && !sheet_.on_roster(athlete))
            continue; // taken out of the event since
        const auto there = row->second ? sheet_.value(range, *row->second, column) : CellValue{};
        if (!same_value(there, value) && (!log.ended || there == CellValue{}))
            kept.missing.push_back({range, new_name(kept.renamed, athlete), column, value});
    }
    return kept;
}

void HeatDay::find_ended_log() {
    const auto key = sheet_.key();
    for (const auto& stored : stored_logs(folder_))
        if (ended_log_.empty() && stored.log.event == key && stored.log.heat == number_ && stored.log.ended)
            ended_log_ = stored.path;
}

// What was changed after the end of a heat: each step as it was told, then what differs without having been told.
std::vector<Correction> HeatDay::corrections() {
    const auto key = sheet_.key();
    std::vector<Correction> all;
    auto logs = stored_logs(folder_);
    std::ranges::sort(logs, {}, [](const StoredLog& stored) { return stored.log.heat; });
    for (const auto& [path, log] : logs) {
        if (log.event != key || !log.ended)
            continue;
        const auto add = [&](const std::string& name, const std::string& range, int column, const CellValue& before,
                             const CellValue& after, const std::string& when, const std::string& who) {
            if (range != "results_stamps" && !same_value(before, after))
                all.push_back({log.heat, name, what_of(range, column), value_text(range, before),
                               value_text(range, after), when, who});
        };
        const auto back = kept(log);
        for (const auto& [change, before, day, who] : log.fixes)
            add(new_name(back.renamed, change.athlete), change.range, change.column, before, change.value,
                day_and_time(day), who);
        const auto places = sheet_.places(log.heat, back.seats, {});
        for (std::size_t i = 0; i < back.seats.size(); ++i) {
            if (!places[i].row)
                continue;
            const auto& name = back.seats[i].name;
            std::map<std::pair<std::string, int>, std::pair<CellValue, CellValue>> cells; // then and now
            for (const auto& [place, value] : log.fixed())
                if (same_name(new_name(back.renamed, std::get<1>(place)), name))
                    cells[{std::get<0>(place), std::get<2>(place)}].first = value;
            for (const auto& cell : sheet_.written(*places[i].row, name))
                cells[{cell.range, cell.column}].second = cell.value;
            for (const auto& [place, values] : cells)
                add(name, place.first, place.second, values.first, values.second, {}, {});
        }
    }
    return all;
}

void HeatDay::look_for_logs() {
    const auto key = sheet_.key();
    for (auto& stored : stored_logs(folder_)) {
        if (in_use(stored) || stored.log.event != key || declined_.contains(stored.path))
            continue;
        const bool old = stored.log.day_start && day_now() - *stored.log.day_start > keep_logs;
        if (old || (stored.log.ended && kept(stored.log).missing.empty())) {
            if (old && stored.log.ended)
                put_aside(stored.path);
            continue;
        }
        const auto cells = std::to_string(stored.log.cells.size());
        const auto heat = std::to_string(stored.log.heat);
        const auto said = message_;
        ask(Ask::recover, stored.log.ended ? tr("Entries of heat %1 saved on disk are missing from this file. Restore "
                                                "them? Enter: yes. Esc: not now.",
                                                heat)
                                           : tr("Heat %1 was interrupted; entries saved on disk: %2. Restore them and "
                                                "continue? Enter: yes. Esc: not now.",
                                                heat, cells));
        message_ = said;
        found_ = std::move(stored);
        return;
    }
}

void HeatDay::recover(Seconds now) {
    if (!found_ || running())
        return;
    if (!found_->log.ended)
        must_be_alone(now);
    const auto stored = *std::exchange(found_, std::nullopt);
    const auto& log = stored.log;
    declined_.insert(stored.path); // offered once
    choose(std::max(1, log.heat));
    auto back = kept(log);
    std::map<std::string, std::vector<CellChange>> written;
    HeatCells logged;
    for (const auto& [place, value] : log.cells) {
        const auto& [range, athlete, column] = place;
        const auto& name = new_name(back.renamed, athlete);
        if (value == CellValue{})
            continue;
        written[name].push_back({range, name, column, value});
        logged[{range, name, column}] = value;
    }
    seat(back.seats);
    if (!log.ended && log.boot_start && log.day_start) {
        // The computer's own clock where it ran on, else the time of day.
        day_zero_ = *log.day_start;
        heat_->start_at(log.boot == computer_run() ? Seconds{*log.boot_start}
                                                   : now - Seconds{day_now() - *log.day_start});
        for (std::size_t row = 0; row < seats_.size(); ++row)
            heat_->set_record(row, record_of(written[seats_[row].name]));
        logged_ = std::move(logged);
        journal_.reset();
        try {
            journal_ = std::make_unique<Journal>(stored.path);
            journal("\n"); // ends a line that was torn
            for (const auto& [before, after] : back.renamed)
                journal(name_line(before, after));
        } catch (const std::exception&) {
            // as in start()
        }
    } else {
        ended_ = true;
    }
    const auto title =
        tr("Heat %1: entries restored: %2", std::to_string(log.heat), std::to_string(back.missing.size()));
    if (!back.missing.empty())
        waiting_.push_back({title, std::move(back.missing)});
    (void)sentence_of([&] { place_all(); }); // what keeps it from that is said as long as entries wait
    reload();
    message_ = title;
    if (!ended_)
        return;
    if (waiting_.empty())
        ended_log_ = stored.path;
    look_for_logs();
}

} // namespace pacecells
