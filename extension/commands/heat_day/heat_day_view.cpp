#include "heat_day.h"

#include "pacecells/score.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr Seconds freshness{2};
constexpr Seconds reload_every{0.5};
constexpr Seconds overdue{10}; // a round not stamped so long after its target may have been missed (judgement)

} // namespace

// What the coach must know as long as it lasts.
std::string HeatDay::trouble() const {
    std::string all;
    const auto add = [&](const std::string& sentence) { all += (all.empty() ? "" : "   ") + sentence; };
    if (running() && !(journal_ && journal_->good()))
        add(tr("The safety copy of this heat cannot be saved to disk: save the workbook often."));
    if (placed_)
        for (const auto& place : places_)
            if (!place.problem.empty())
                add(place.problem);
    if (held_ && !held_reason_.empty())
        add(held_reason_);
    return all;
}

// What two rounds are in the units of the outlook.
std::optional<double> HeatDay::two_rounds(std::size_t row) const {
    const auto& clocks = heat_->record(row).clocks;
    if (clocks.empty())
        return std::nullopt;
    if (task_.format == HeatFormat::for_time)
        return 2 * clocks.back().value() / static_cast<double>(clocks.size());
    const auto& reps = heat_->plan(row).reps;
    if (reps.size() <= 1)
        return reps.empty() ? std::nullopt : std::optional(2 * reps.front());
    const auto next = std::min(clocks.size(), reps.size() - 1);
    return 2 * reps[next];
}

RowView HeatDay::row_view(std::size_t row, Seconds now) {
    const auto& record = heat_->record(row);
    const auto& plan = heat_->plan(row);
    const bool over = heat_->over(row, now) || ended_;
    RowView view;
    std::string own_clock;
    view.lane = std::to_string(seats_[row].lane);
    if (const auto place = static_cast<std::size_t>(seats_[row].lane - 1); place < lane_keys_.size())
        view.key = lane_keys_[place] == view.lane ? std::string() : lane_keys_[place];
    view.name = seats_[row].name;
    view.room_name = private_.contains(fold_name(view.name)) ? "–" : view.name;
    view.fresh = fresh_[row] && now - *fresh_[row] < freshness;
    if (record.out) {
        view.round = tr("withdrawn");
        view.room_round = view.round;
        view.quiet = true;
        return view;
    } else if (heat_->start() && !over && plan.offset.value() > 0 && heat_->clock(row, now).value() < 0) {
        view.round = tr("starts in %1", time_text(Seconds{std::ceil(-heat_->clock(row, now).value())}));
        view.room_round = view.round;
        return view;
    } else if (record.finish) {
        view.round = tr("done at %1", time_text(*record.finish, 1));
        view.quiet = true;
    } else if (over) {
        view.round = std::to_string(record.clocks.size()) + "+" +
                     (record.partial ? std::to_string(static_cast<int>(*record.partial)) : "?");
    } else {
        const auto round = std::to_string(record.clocks.size() + 1);
        const auto target = heat_->next_target(row);
        view.round = target ? tr("round %1 due %2", round, time_text(*target)) : tr("round %1", round);
        if (heat_->start() && plan.offset.value() > 0) // the targets count from there
            own_clock = time_text(Seconds{std::floor(heat_->clock(row, now).value())}) + "  ";
    }
    if (const auto ahead = heat_->ahead(row, now); ahead && !over) {
        const auto amount = time_text(Seconds{std::round(std::abs(ahead->value()))});
        if (std::abs(ahead->value()) < 0.5) {
            view.ahead = tr("on time");
        } else {
            view.tone = ahead->value() > 0 ? 1 : -1;
            view.ahead = view.tone > 0 ? tr("ahead %1", amount) : tr("behind %1", amount);
        }
    }
    view.room_round =
        !over && !view.quiet ? own_clock + tr("round %1", std::to_string(record.clocks.size() + 1)) : view.round;
    view.round = own_clock + view.round;
    const auto due = heat_->next_target(row);
    const bool missed = heat_->start() && !record.finish && due && heat_->clock(row, now) > *due + overdue;
    if (missed && !over) {
        view.ahead = "?";
        view.tone = 0;
    }
    view.room_ahead = view.ahead;
    if ((over || record.finish) && places_[row].row) {
        const auto cell = [&](const char* range) { return sheet_.shown(range, *places_[row].row); };
        view.ahead = cell("results_result");
        if (const auto place = cell("results_place"); !place.empty())
            view.outlook = tr("%1: place %2", cell("results_division"), place);
    }
    if (over || record.finish)
        return view;
    const auto outlook = heat_->outlook(row);
    const auto shown = [&](const std::optional<double>& value) -> std::string {
        if (!value || !(*value >= 0))
            return {};
        if (task_.format == HeatFormat::for_time)
            return *value <= task_.cap.value() ? time_text(Seconds{*value}) : tr("over the cap");
        const auto per_round = RepsPerRound::by_round(plan.reps);
        if (!per_round)
            return {};
        const auto score = score_text(Reps{*value}, *per_round);
        return score ? *score : std::string();
    };
    view.outlook = shown(outlook.expected);
    // A range says something once it is narrower than two rounds.
    const auto width = outlook.low && outlook.high ? std::optional(*outlook.high - *outlook.low) : std::nullopt;
    if (const auto two = two_rounds(row); width && two && *width < *two)
        view.range = tr("%1 to %2", outlook.low ? shown(outlook.low) : "?", outlook.high ? shown(outlook.high) : "?");
    return view;
}

View HeatDay::view(Seconds now) {
    View view;
    view.dark = dark_;
    view.room = room_;
    view.room_screen = room_screen_;
    view.ctrl = keys_ == KeyLayout::halves;
    const auto wrong = sentence_of([&] {
        const bool quiet = now - last_key_ >= lull || now < last_key_;
        if ((waiting_.empty() || held_) && quiet && (now - reloaded_ >= reload_every || now < reloaded_)) {
            reloaded_ = now;
            reload();
        }
        view.title = sheet_.title();
        if (!view.title.empty())
            view.title += ", ";
        view.title += tr("heat %1", std::to_string(number_));
        if (!heat_->start() || ended_) {
            view.clock = ended_ ? tr("ended") : time_text(Seconds{0});
            view.left = tr("cap %1", time_text(task_.cap));
        } else if (heat_->clock(now).value() < 0) {
            view.clock = "−" + std::to_string(static_cast<int>(std::ceil(-heat_->clock(now).value())));
            view.left = tr("countdown");
        } else if (heat_->over(now)) {
            view.clock = time_text(task_.cap + heat_->last_offset());
            view.left = tr("time is up");
        } else {
            const Seconds whole{std::floor(heat_->clock(now).value())};
            view.clock = time_text(whole);
            view.left = tr("%1 left", time_text(task_.cap + heat_->last_offset() - whole));
        }
        for (std::size_t row = 0; row < seats_.size(); ++row)
            view.rows.push_back(row_view(row, now));
    });
    if (wrong)
        message_ = *wrong;
    view.message = message_;
    if (const auto more = trouble(); !more.empty() && more != message_)
        view.message += (message_.empty() ? "" : "   ") + more;
    view.question = question_;
    view.typed = typed_;
    if (asking_ != Ask::nothing) {
        view.buttons = {{'\n', tr("Enter")}, {'\x1b', tr("Esc")}};
    } else if (running()) {
        view.buttons = {{'P', tr("partial")}, {'T', tr("tie-break")}, {'W', tr("withdraw")},   {'A', tr("add")},
                        {'I', tr("rounds")},  {'U', tr("undo")},      {'E', tr("end heat")},   {'B', tr("beep")},
                        {'K', tr("keys")},    {'V', tr("room")},      {'L', tr("light, dark")}};
        if (heat_->over(now))
            view.buttons = {{'P', tr("partial")},     {'W', tr("withdraw")}, {'I', tr("rounds")},
                            {'U', tr("undo")},        {'E', tr("end heat")}, {'O', tr("results list")},
                            {'J', tr("judge sheets")}};
    } else {
        view.buttons = {{'S', tr("start")},        {'R', tr("running")}, {'H', tr("heat")}, {'A', tr("add")},
                        {'P', tr("partial")},      {'I', tr("rounds")},  {'U', tr("undo")}, {'O', tr("results list")},
                        {'J', tr("judge sheets")}, {'K', tr("keys")},    {'V', tr("room")}, {'L', tr("light, dark")}};
    }
    return view;
}

} // namespace pacecells
