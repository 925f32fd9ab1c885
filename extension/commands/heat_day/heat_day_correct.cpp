#include "heat_day.h"

#include "heat_day_clock.h"

#include "pacecells/clock.h"

#include <algorithm>
#include <sstream>

namespace pacecells {

namespace {

constexpr std::size_t rounds_shown = 6; // the last ones

} // namespace

void HeatDay::ask_rounds(std::size_t row) {
    const auto& clocks = heat_->record(row).clocks;
    std::string rounds;
    for (auto k = clocks.size() - std::min(rounds_shown, clocks.size()); k < clocks.size(); ++k)
        rounds += (rounds.empty() ? "" : ", ") + std::to_string(k + 1) + " " + time_text(clocks[k]);
    ask(Ask::rounds, tr("%1: %2. One was missed: 3:45. Move round 2: 2 3:45. Take it out: 2 -. It is lane 4's: 2 >4",
                        who(row), rounds));
    asked_row_ = row;
}

// The time of day at a clock of this heat, as the sheet holds it.
CellValue HeatDay::day_at(std::size_t row, Seconds clock) const {
    if (day_zero_)
        return share_of_day(*day_zero_ + (heat_->plan(row).offset + clock).value());
    const auto& name = seats_[row].name;
    const auto first = logged_.find({"results_clocks", name, 0});
    const auto stamp = logged_.find({"results_stamps", name, 0});
    if (first == logged_.end() || stamp == logged_.end())
        return {};
    const auto from = number_of(first->second);
    const auto day = number_of(stamp->second);
    return from && day ? CellValue{*day - *from + clock.value() / seconds_per_day} : CellValue{};
}

std::vector<CellChange> HeatDay::changed_rounds(std::size_t row, const LaneRecord& before) const {
    const auto& name = seats_[row].name;
    const auto& after = heat_->record(row);
    std::vector<CellChange> changes;
    for (std::size_t k = 0; k < std::max(before.clocks.size(), after.clocks.size()); ++k) {
        const auto column = static_cast<int>(k);
        if (k >= after.clocks.size()) {
            changes.push_back({"results_clocks", name, column, {}});
            changes.push_back({"results_stamps", name, column, {}});
        } else if (k >= before.clocks.size() || before.clocks[k] != after.clocks[k]) {
            changes.push_back({"results_clocks", name, column, after.clocks[k].value() / seconds_per_day});
            changes.push_back({"results_stamps", name, column, day_at(row, after.clocks[k])});
        }
    }
    if (before.finish != after.finish)
        changes.push_back({"results_finish", name, 0,
                           after.finish ? CellValue{after.finish->value() / seconds_per_day} : CellValue{}});
    return changes;
}

void HeatDay::correct(std::size_t row, const std::string& typed, Seconds now) {
    std::istringstream text(typed);
    std::string first, second, more;
    text >> first >> second >> more;
    if (second == ">")
        second += std::exchange(more, {});
    const auto round = second.empty() ? std::nullopt : whole_number(first);
    const bool give = second.starts_with(">");
    const bool take_out = second == "-";
    const auto clock = parse_clock(second.empty() ? first : second);
    if (!more.empty() || (!second.empty() && !round) || (!give && !take_out && !clock))
        throw Refusal{tr("Type a clock; or a round and a clock, - or > and a lane. Got %1.", typed)};
    if (clock && (*clock >= task_.cap || (running() && *clock > heat_->clock(row, now))))
        throw Refusal{tr("The clock has not shown %1 in this heat.", time_text(*clock))};
    auto to = row;
    if (give) {
        const auto lane = whole_number(second.substr(1));
        const auto other = lane ? row_of_lane(*lane) : std::nullopt;
        if (!other || *other == row)
            throw Refusal{tr("There is no lane %1 in this heat.", second.substr(1))};
        to = *other;
    }
    place_all();
    const auto before = heat_->record(row);
    const auto before_to = heat_->record(to);
    Stamp stamp;
    if (round)
        stamp = heat_->remove(row, static_cast<std::size_t>(std::max(*round, 0)));
    if (stamp.verdict == Verdict::taken && !take_out)
        stamp =
            heat_->insert(to, clock && !give ? *clock : heat_->plan(row).offset + stamp.clock - heat_->plan(to).offset);
    if (stamp.verdict != Verdict::taken) {
        heat_->set_record(row, before);
        heat_->set_record(to, before_to);
        throw Refusal{refusal(stamp.verdict, stamp.verdict == Verdict::nothing_there ? row : to)};
    }
    auto changes = changed_rounds(row, before);
    if (to != row)
        for (auto& change : changed_rounds(to, before_to))
            changes.push_back(std::move(change));
    const auto& name = give ? seats_[to].name : seats_[row].name;
    apply(take_out
              ? tr("%1: round %2 taken out", who(row), first)
              : tr("%1: %2 is round %3 of %4", who(row), time_text(stamp.clock, 1), std::to_string(stamp.round), name),
          changes);
}

// The last step of this heat again as it was before; step by step.
void HeatDay::step_back() {
    if (done_.empty())
        throw Refusal{tr("There is nothing to undo in this heat.")};
    const auto step = std::move(done_.back());
    done_.pop_back();
    apply(tr("Undone: %1", step.title), step.changes);
    done_.pop_back(); // what apply() would take back is this
    for (std::size_t row = 0; row < seats_.size(); ++row) {
        std::vector<CellChange> cells;
        for (const auto& [place, value] : logged_)
            if (std::get<1>(place) == seats_[row].name)
                cells.push_back({std::get<0>(place), seats_[row].name, std::get<2>(place), value});
        if (std::any_of(step.changes.begin(), step.changes.end(),
                        [&](const CellChange& change) { return change.athlete == seats_[row].name; }))
            heat_->set_record(row, record_of(cells));
    }
}

} // namespace pacecells
