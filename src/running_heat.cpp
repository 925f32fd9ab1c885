#include "pacecells/running_heat.h"

#include "pacecells/forecast.h"
#include "pacecells/pace.h"
#include "pacecells/score.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace pacecells {

bool RunningHeat::running(Seconds now) const {
    return start_ && clock(now).value() > 0 && clock(now) <= task_.cap + grace;
}

bool RunningHeat::over(Seconds now) const { return start_ && clock(now) > task_.cap; }

Seconds RunningHeat::reading(Seconds now) const {
    return std::min(Seconds{std::round(clock(now).value() * 1000) / 1000}, task_.cap);
}

Verdict RunningHeat::may_stamp(const Lane& lane, Seconds now) const {
    if (!start_ || !(reading(now).value() > 0))
        return Verdict::not_running;
    if (!running(now))
        return Verdict::over;
    if (lane.record.out)
        return Verdict::out;
    return Verdict::taken;
}

Stamp RunningHeat::stamp(std::size_t index, Seconds now) {
    auto& [plan, record] = lanes_[index];
    Stamp stamp;
    stamp.verdict = may_stamp(lanes_[index], now);
    if (stamp.verdict != Verdict::taken)
        return stamp;
    const bool for_time = task_.format == HeatFormat::for_time;
    if (record.finish || (for_time && record.clocks.size() >= static_cast<std::size_t>(std::max(task_.rounds, 0))))
        stamp.verdict = Verdict::finished;
    else if (record.clocks.size() >= most_rounds)
        stamp.verdict = Verdict::full;
    else if (!record.clocks.empty() && reading(now) <= record.clocks.back())
        stamp.verdict = Verdict::not_later;
    if (stamp.verdict != Verdict::taken)
        return stamp;
    stamp.clock = reading(now);
    record.clocks.push_back(stamp.clock);
    record.partial.reset();
    record.left.reset();
    stamp.round = static_cast<int>(record.clocks.size());
    stamp.finishes = for_time && stamp.round == task_.rounds;
    if (stamp.finishes)
        record.finish = stamp.clock;
    return stamp;
}

Stamp RunningHeat::take_back(std::size_t index) {
    auto& record = lanes_[index].record;
    Stamp stamp;
    if (record.clocks.empty()) {
        stamp.verdict = Verdict::nothing_there;
        return stamp;
    }
    stamp.round = static_cast<int>(record.clocks.size());
    stamp.clock = record.clocks.back();
    stamp.finishes = record.finish.has_value();
    record.clocks.pop_back();
    record.finish.reset();
    return stamp;
}

Stamp RunningHeat::tiebreak(std::size_t index, Seconds now) {
    Stamp stamp;
    stamp.verdict = may_stamp(lanes_[index], now);
    if (stamp.verdict == Verdict::taken) {
        stamp.clock = reading(now);
        lanes_[index].record.tiebreak = stamp.clock;
    }
    return stamp;
}

std::optional<double> RunningHeat::reps_of_rounds(const Lane& lane, std::size_t rounds) const {
    const auto& reps = lane.plan.reps;
    if (reps.empty())
        return std::nullopt;
    if (reps.size() == 1)
        return reps.front() * static_cast<double>(rounds);
    if (rounds > reps.size())
        return std::nullopt;
    return std::accumulate(reps.begin(), reps.begin() + static_cast<std::ptrdiff_t>(rounds), 0.0);
}

std::optional<double> RunningHeat::reps_of_work(const Lane& lane, double work) const {
    const auto& ends = lane.plan.work;
    const auto next = std::upper_bound(ends.begin(), ends.end(), work);
    if (next == ends.end())
        return std::nullopt;
    const auto rounds = static_cast<std::size_t>(next - ends.begin());
    const auto before = reps_of_rounds(lane, rounds);
    const auto after = reps_of_rounds(lane, rounds + 1);
    if (!before || !after)
        return std::nullopt;
    const double start = rounds == 0 ? 0 : ends[rounds - 1];
    return *before + (*after - *before) * (work - start) / (*next - start);
}

bool RunningHeat::fits_open_round(std::size_t index, double reps) const {
    const auto& lane = lanes_[index];
    if (!(reps >= 0) || reps != std::floor(reps) || reps > 99999)
        return false;
    const auto before = reps_of_rounds(lane, lane.record.clocks.size());
    const auto after = reps_of_rounds(lane, lane.record.clocks.size() + 1);
    return !before || !after || reps < *after - *before;
}

std::optional<double> RunningHeat::left(std::size_t index, double reps) const {
    const auto& lane = lanes_[index];
    const auto all = reps_of_rounds(lane, static_cast<std::size_t>(std::max(task_.rounds, 0)));
    const auto done = reps_of_rounds(lane, lane.record.clocks.size());
    if (!all || !done)
        return std::nullopt;
    return std::max(0.0, *all - *done - reps);
}

std::optional<double> RunningHeat::total(std::size_t index) const {
    const auto& lane = lanes_[index];
    const auto done = reps_of_rounds(lane, lane.record.clocks.size());
    if (!done)
        return std::nullopt;
    return *done + lane.record.partial.value_or(0);
}

double RunningHeat::work_of_rounds(const Lane& lane, double rounds) const {
    const auto& work = lane.plan.work;
    const double whole = std::floor(rounds + 1e-9);
    const auto before = static_cast<std::size_t>(whole);
    if (work.empty() || before > work.size())
        return rounds;
    const double done = before == 0 ? 0 : work[before - 1];
    const double rest = rounds - whole;
    if (!(rest > 1e-9) || before == work.size())
        return done;
    return done + rest * (work[before] - done);
}

std::optional<Seconds> RunningHeat::target(std::size_t index, std::size_t round) const {
    const auto& lane = lanes_[index];
    const auto& plan = lane.plan;
    const auto k = static_cast<double>(round);
    if (round == 0 || !(plan.goal_rounds > 0) || k > plan.goal_rounds + 1e-9)
        return std::nullopt;
    const double all = work_of_rounds(lane, plan.goal_rounds);
    const double place = all > 0 ? std::min(plan.goal_rounds, plan.goal_rounds * work_of_rounds(lane, k) / all) : k;
    const auto clock = clock_after(plan.goal_clock, plan.goal_rounds, place, plan.drift);
    return clock ? std::optional(*clock) : std::nullopt;
}

std::optional<Seconds> RunningHeat::next_target(std::size_t index) const {
    return target(index, lanes_[index].record.clocks.size() + 1);
}

std::optional<Seconds> RunningHeat::ahead(std::size_t index, Seconds now) const {
    const auto& record = lanes_[index].record;
    std::optional<Seconds> ahead;
    if (const auto due = target(index, record.clocks.size()))
        ahead = *due - record.clocks.back();
    if (const auto next = next_target(index); next && start_ && !record.finish && !record.out) {
        const auto late = std::min(clock(now), task_.cap) - *next;
        if (late.value() > 0 && (!ahead || -late < *ahead))
            ahead = -late;
    }
    return ahead;
}

Outlook RunningHeat::outlook_of_unlike(const Lane& lane) const {
    const auto& clocks = lane.record.clocks;
    const auto& ends = lane.plan.work;
    if (clocks.size() > ends.size())
        return {};
    const double unit = lane.plan.unit > 0 ? lane.plan.unit : ends.front();
    std::vector<Seconds> evened;
    for (std::size_t k = 0; k < clocks.size(); ++k) {
        const double work = ends[k] - (k == 0 ? 0 : ends[k - 1]);
        const Seconds time = clocks[k] - (k == 0 ? Seconds{0} : clocks[k - 1]);
        evened.push_back((k == 0 ? Seconds{0} : evened.back()) + time * (unit / work));
    }
    constexpr std::array one{1.0};
    const auto each = RepsPerRound::by_round(one);
    const auto rounds = forecast(task_.cap - clocks.back() + evened.back(), evened, *each);
    if (!rounds)
        return {};
    const auto reps = [&](const Result<Reps>& all) -> std::optional<double> {
        if (!all)
            return std::nullopt;
        return reps_of_work(lane, ends[clocks.size() - 1] + (all->value() - static_cast<double>(clocks.size())) * unit);
    };
    return {reps(rounds->low), reps(rounds->expected), reps(rounds->high)};
}

Outlook RunningHeat::outlook(std::size_t index) const {
    const auto& lane = lanes_[index];
    const auto& clocks = lane.record.clocks;
    Outlook outlook;
    if (clocks.empty())
        return outlook;
    if (task_.format == HeatFormat::for_time) {
        const double done = work_of_rounds(lane, static_cast<double>(clocks.size()));
        if (done > 0)
            outlook.expected = clocks.back().value() * work_of_rounds(lane, task_.rounds) / done;
        return outlook;
    }
    const auto& reps = lane.plan.reps;
    if (reps.empty())
        return outlook;
    if (!lane.plan.work.empty())
        return outlook_of_unlike(lane);
    const auto per_round = RepsPerRound::by_round(reps);
    if (!per_round)
        return outlook;
    const auto forecast = pacecells::forecast(task_.cap, clocks, *per_round);
    if (!forecast)
        return outlook;
    const auto known = [](const Result<Reps>& value) { return value ? std::optional(value->value()) : std::nullopt; };
    return {known(forecast->low), known(forecast->expected), known(forecast->high)};
}

bool KeyGuard::accept(std::size_t key, Seconds now) {
    auto& last = last_[key % last_.size()];
    const bool accepted = !last || now - *last >= quiet;
    last = now;
    return accepted;
}

} // namespace pacecells
