#include "heat_day.h"

#include "heat_day_clock.h"

#include "pacecells/words.h"

#include <algorithm>
#include <utility>

namespace pacecells {

std::string HeatDay::who(std::size_t row) const {
    return tr("Lane %1, %2", std::to_string(seats_[row].lane), seats_[row].name);
}

std::string HeatDay::refusal(Verdict verdict, std::size_t row) const {
    switch (verdict) {
    case Verdict::not_running:
        if (heat_->start() && heat_->plan(row).offset.value() > 0)
            return tr("%1: starts %2 after the others.", who(row), time_text(heat_->plan(row).offset));
        return tr("The clock is not running yet: S starts it.");
    case Verdict::over:
        return tr("The cap has passed. Type the partial score with P.");
    case Verdict::out:
        return tr("%1: withdrawn. W undoes this.", who(row));
    case Verdict::finished:
        return tr("%1: finished.", who(row));
    case Verdict::full:
        return tr("%1: the sheet has room for 40 rounds only.", who(row));
    case Verdict::not_later:
        return tr("%1: not later than the stamp before.", who(row));
    case Verdict::nothing_there:
        return tr("%1: no stamp to undo.", who(row));
    case Verdict::taken:
        break;
    }
    return {};
}

void HeatDay::ask_soon() {
    if (soon_.empty())
        return nothing_asked();
    const auto& [row, when] = soon_.front();
    const auto& clocks = heat_->record(row).clocks;
    const auto since = heat_->clock(row, when) - (clocks.empty() ? Seconds{0} : clocks.back());
    ask(Ask::soon, tr("%1: only %2 after round %3. Is it a round? Enter: yes. Esc: no.", who(row), time_text(since),
                      std::to_string(clocks.size())));
}

// A key soon after the last of its lane is asked about; the same key once more says yes. Where it comes later it is the
// round, and the one that was asked about was none.
void HeatDay::press_lane(std::size_t row, Seconds when) {
    const auto asked = std::ranges::find(soon_, row, &Press::row);
    const bool soon = !ended_ && heat_->too_soon(row, when);
    if (asked != soon_.end()) {
        const auto press = soon ? *asked : Press{row, when};
        soon_.erase(asked);
        ask_soon();
        return stamp(row, press.when);
    }
    if (!soon || (asking_ != Ask::nothing && asking_ != Ask::soon))
        return stamp(row, when);
    soon_.push_back({row, when});
    ask_soon();
}

void HeatDay::stamp(std::size_t row, Seconds when) {
    if (ended_)
        throw Refusal{tr("Heat %1 has ended. H chooses the next one.", std::to_string(number_))};
    const auto before = heat_->record(row);
    const auto stamp = heat_->stamp(row, when);
    if (stamp.verdict != Verdict::taken)
        throw Refusal{refusal(stamp.verdict, row)};
    const auto& name = seats_[row].name;
    const double clock = stamp.clock.value() / seconds_per_day;
    std::vector<CellChange> changes{{"results_clocks", name, stamp.round - 1, clock},
                                    {"results_stamps", name, stamp.round - 1, share_of_day(day_of(when))}};
    if (before.partial)
        changes.push_back({"results_partial", name, 0, {}});
    if (before.left)
        changes.push_back({"results_left", name, 0, {}});
    if (stamp.finishes)
        changes.push_back({"results_finish", name, 0, clock});
    apply(tr("%1: round %2 at %3", who(row), std::to_string(stamp.round), time_text(stamp.clock, 1)), changes);
    fresh_[row] = when;
}

void HeatDay::take_back(std::size_t row) {
    const auto& name = seats_[row].name;
    const auto stamp = heat_->take_back(row);
    if (stamp.verdict != Verdict::taken)
        throw Refusal{refusal(stamp.verdict, row)};
    std::vector<CellChange> changes{{"results_clocks", name, stamp.round - 1, {}},
                                    {"results_stamps", name, stamp.round - 1, {}}};
    if (stamp.finishes)
        changes.push_back({"results_finish", name, 0, {}});
    apply(tr("%1: round %2 undone", who(row), std::to_string(stamp.round)), changes);
    fresh_[row].reset();
}

void HeatDay::tiebreak(std::size_t row, Seconds when) {
    nothing_asked();
    const auto stamp = heat_->tiebreak(row, when);
    if (stamp.verdict != Verdict::taken)
        throw Refusal{refusal(stamp.verdict, row)};
    apply(tr("%1: tie-break %2", who(row), time_text(stamp.clock, 1)),
          {{"results_tiebreak", seats_[row].name, 0, stamp.clock.value() / seconds_per_day}});
}

void HeatDay::withdraw(std::size_t row) {
    nothing_asked();
    place_all();
    auto record = heat_->record(row);
    record.out = !record.out;
    apply(record.out ? tr("%1: withdrawn", who(row)) : tr("%1: back again", who(row)),
          {{"results_out", seats_[row].name, 0, record.out ? CellValue{sheet_.yes()} : CellValue{}}});
    heat_->set_record(row, std::move(record));
    reload();
}

void HeatDay::partial(std::size_t row, const std::string& typed, Seconds now) {
    place_all();
    const auto& name = seats_[row].name;
    auto record = heat_->record(row);
    const auto reps = whole_number(typed);
    if (!typed.empty() && (!reps || !heat_->fits_open_round(row, *reps)))
        throw Refusal{tr("A partial score is a whole number below the reps of its round; got %1.", typed)};
    record.partial = reps;
    std::vector<CellChange> changes{{"results_partial", name, 0, reps ? CellValue{double(*reps)} : CellValue{}}};
    if (task_.format == HeatFormat::for_time && heat_->over(row, now)) {
        const auto left = reps ? heat_->left(row, *reps) : std::nullopt;
        record.left = left;
        changes.push_back({"results_left", name, 0, left ? CellValue{*left} : CellValue{}});
    }
    apply(tr("%1: partial score %2", who(row), typed), changes);
    heat_->set_record(row, std::move(record));
    reload();
}

void HeatDay::add(const std::string& begins) {
    const auto name = sheet_.athlete(begins);
    if (!name)
        throw Refusal{
            tr("%1 does not match exactly one name on the roster. Add it to the sheet Roster first.", begins)};
    for (const auto& seat : seats_)
        if (same_name(seat.name, *name))
            throw Refusal{tr("%1 is already in lane %2.", *name, std::to_string(seat.lane))};
    Seat late{1, *name};
    while (row_of_lane(late.lane))
        ++late.lane;
    auto seats = seats_;
    seats.insert(std::find_if(seats.begin(), seats.end(), [&](const Seat& seat) { return seat.lane > late.lane; }),
                 late);
    sheet_.refuse_doubles({late});
    if (running())
        journal(lane_line(late.lane, late.name));
    seat(std::move(seats));
    if (running())
        place_all();
    message_ = tr("%1 is in lane %2.", *name, std::to_string(late.lane));
}

void HeatDay::clear_heat() {
    place_all();
    reload();
    std::vector<CellChange> changes;
    for (std::size_t row = 0; row < seats_.size(); ++row) {
        if (!places_[row].row)
            throw Refusal{places_[row].problem};
        for (auto& cell : sheet_.written(*places_[row].row, seats_[row].name)) {
            cell.value = {};
            changes.push_back(std::move(cell));
        }
        heat_->set_record(row, {});
    }
    apply(tr("Heat %1: times cleared", std::to_string(number_)), changes);
}

void HeatDay::end() {
    reload();
    journal(end_line());
    if (journal_)
        ended_log_ = journal_->path();
    journal_.reset();
    ended_ = true;
    message_ = tr("Heat %1 has ended. H chooses the next one.", std::to_string(number_));
    look_for_logs();
}

} // namespace pacecells
