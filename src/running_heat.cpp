#include "pacecells/running_heat.h"

#include "pacecells/forecast.h"
#include "pacecells/score.h"

#include "course.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace pacecells {

namespace {

// Clocks as if every round had the work of the first one.
std::vector<Seconds> evened(std::span<const Seconds> clocks, std::span<const double> work) {
    std::vector<Seconds> even;
    for (std::size_t k = 0; k < clocks.size(); ++k) {
        const double done = work[k] - (k == 0 ? 0 : work[k - 1]);
        const Seconds time = clocks[k] - (k == 0 ? Seconds{0} : clocks[k - 1]);
        even.push_back((k == 0 ? Seconds{0} : even.back()) + time * (work.front() / done));
    }
    return even;
}

} // namespace

Result<HeatTask> heat_task(const Workout& workout) {
    HeatTask task{.cap = workout.settings.cap};
    if (workout.settings.format == Format::intervals)
        return out_of_domain("The heat window takes rounds; intervals are scored on the judge's sheets.");
    if (!(task.cap.value() > 0))
        return out_of_domain("Enter the cap on the sheet Workout first.");
    if (workout.settings.format == Format::time) {
        task.format = HeatFormat::for_time;
        for (std::size_t d = 0; d < workout.divisions.size(); ++d)
            task.rounds = std::max(task.rounds, workout.rounds(d).value_or(0));
    }
    return task;
}

LanePlan lane_plan(const Workout& workout, const Plan& plan) {
    LanePlan lane;
    if (plan.goal) {
        for (const auto& round : plan.goal->rounds)
            if (round.whole)
                lane.targets.push_back(round.clock);
        if (plan.goal->target.value() > 0)
            lane.planned = plan.goal->target;
    }
    if (plan.division >= workout.divisions.size())
        return lane;
    Course::Pace usual;
    for (const auto& station : workout.stations)
        usual.seconds_each.push_back(usual_seconds_each(station));
    const auto rounds = workout.rounds(plan.division).value_or(static_cast<int>(most_heat_rounds));
    const Course course(workout, plan.division, usual, std::min(rounds, static_cast<int>(most_heat_rounds)));
    double by_then = 0;
    for (const auto& round : course.rounds()) {
        if (!(round.time > 0) || !(round.points >= 1))
            return lane; // a round that counts nothing has no score
        lane.work.push_back(by_then += round.time);
        lane.reps.push_back(round.points);
    }
    if (workout.alike(plan.division) && !lane.reps.empty()) {
        lane.work.clear();
        lane.reps.resize(1);
    }
    return lane;
}

Seconds RunningHeat::last_offset() const {
    Seconds last{0};
    for (const auto& lane : lanes_)
        last = std::max(last, lane.plan.offset);
    return last;
}

bool RunningHeat::over(Seconds now) const { return start_ && clock(now) > task_.cap + last_offset(); }

bool RunningHeat::running(std::size_t lane, Seconds now) const {
    return start_ && clock(lane, now).value() > 0 && clock(lane, now) <= task_.cap + grace;
}

bool RunningHeat::over(std::size_t lane, Seconds now) const { return start_ && clock(lane, now) > task_.cap; }

Seconds RunningHeat::reading(std::size_t lane, Seconds now) const {
    return std::min(Seconds{std::round(clock(lane, now).value() * 1000) / 1000}, task_.cap);
}

Verdict RunningHeat::may_stamp(std::size_t lane, Seconds now) const {
    if (!start_ || !(reading(lane, now).value() > 0))
        return Verdict::not_running;
    if (!running(lane, now))
        return Verdict::over;
    if (lanes_[lane].record.out)
        return Verdict::out;
    return Verdict::taken;
}

bool RunningHeat::too_soon(std::size_t index, Seconds now) const {
    const auto& lane = lanes_[index];
    const auto& clocks = lane.record.clocks;
    if (clocks.empty() || may_stamp(index, now) != Verdict::taken)
        return false;
    const auto due = target(index, clocks.size() + 1);
    const auto planned = due ? std::optional(*due - *target(index, clocks.size())) : lane.plan.planned;
    const auto time = reading(index, now) - clocks.back();
    return planned && time.value() > 0 && time < *planned * shortest_round;
}

Stamp RunningHeat::stamp(std::size_t index, Seconds now) {
    auto& [plan, record] = lanes_[index];
    Stamp stamp;
    stamp.verdict = may_stamp(index, now);
    if (stamp.verdict != Verdict::taken)
        return stamp;
    const bool for_time = task_.format == HeatFormat::for_time;
    if (record.finish || (for_time && static_cast<int>(record.clocks.size()) >= task_.rounds))
        stamp.verdict = Verdict::finished;
    else if (record.clocks.size() >= most_rounds)
        stamp.verdict = Verdict::full;
    else if (!record.clocks.empty() && reading(index, now) <= record.clocks.back())
        stamp.verdict = Verdict::not_later;
    if (stamp.verdict != Verdict::taken)
        return stamp;
    stamp.clock = reading(index, now);
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

void RunningHeat::finish_if_done(LaneRecord& record) const {
    record.finish.reset();
    if (task_.format == HeatFormat::for_time && static_cast<int>(record.clocks.size()) == task_.rounds)
        record.finish = record.clocks.back();
}

Stamp RunningHeat::insert(std::size_t index, Seconds clock) {
    auto& record = lanes_[index].record;
    auto& clocks = record.clocks;
    Stamp stamp{.clock = clock};
    const auto next = std::ranges::lower_bound(clocks, clock);
    if (!(clock.value() > 0) || clock > task_.cap)
        stamp.verdict = Verdict::over;
    else if (next != clocks.end() && *next == clock)
        stamp.verdict = Verdict::not_later;
    else if (clocks.size() >= most_rounds)
        stamp.verdict = Verdict::full;
    else if (task_.format == HeatFormat::for_time && static_cast<int>(clocks.size()) >= task_.rounds)
        stamp.verdict = Verdict::finished;
    if (stamp.verdict != Verdict::taken)
        return stamp;
    stamp.round = static_cast<int>(next - clocks.begin()) + 1;
    clocks.insert(next, clock);
    finish_if_done(record);
    stamp.finishes = record.finish.has_value();
    return stamp;
}

Stamp RunningHeat::remove(std::size_t index, std::size_t round) {
    auto& record = lanes_[index].record;
    if (round < 1 || round > record.clocks.size())
        return {.verdict = Verdict::nothing_there};
    const auto place = record.clocks.begin() + static_cast<std::ptrdiff_t>(round - 1);
    const Stamp stamp{.round = static_cast<int>(round), .clock = *place, .finishes = record.finish.has_value()};
    record.clocks.erase(place);
    finish_if_done(record);
    return stamp;
}

Stamp RunningHeat::tiebreak(std::size_t index, Seconds now) {
    Stamp stamp;
    stamp.verdict = may_stamp(index, now);
    if (stamp.verdict == Verdict::taken) {
        stamp.clock = reading(index, now);
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

std::optional<Seconds> RunningHeat::target(std::size_t index, std::size_t round) const {
    const auto& targets = lanes_[index].plan.targets;
    return round >= 1 && round <= targets.size() ? std::optional(targets[round - 1]) : std::nullopt;
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
        const auto late = std::min(clock(index, now), task_.cap) - *next;
        if (late.value() > 0 && (!ahead || -late < *ahead))
            ahead = -late;
    }
    return ahead;
}

Outlook RunningHeat::outlook(std::size_t index) const {
    const auto& [plan, record] = lanes_[index];
    const auto& clocks = record.clocks;
    const auto& work = plan.work;
    if (clocks.empty() || (!work.empty() && clocks.size() > work.size()))
        return {};
    const auto even = work.empty() ? clocks : evened(clocks, work);
    auto planned = plan.planned;
    if (!work.empty()) { // of the planned clock the first round has its share of the work
        const auto known = std::min(plan.targets.size(), work.size());
        planned.reset();
        if (known > 0)
            planned = plan.targets[known - 1] * (work.front() / work[known - 1]);
    }
    const auto done = static_cast<double>(clocks.size());
    if (task_.format == HeatFormat::for_time) {
        const auto all = static_cast<std::size_t>(std::max(task_.rounds, 1));
        if (!work.empty() && all > work.size())
            return {};
        const double rounds =
            work.empty() ? static_cast<double>(all) : done + (work[all - 1] - work[clocks.size() - 1]) / work.front();
        const auto finish = forecast_finish(rounds, even, usual_confidence, planned);
        if (!finish)
            return {};
        const auto clock = [&](Seconds when) { return (when - even.back() + clocks.back()).value(); };
        return {clock(finish->early), clock(finish->expected), clock(finish->late)};
    }
    if (plan.reps.empty())
        return {};
    constexpr std::array one{1.0};
    const auto each = RepsPerRound::by_round(work.empty() ? std::span<const double>(plan.reps) : one);
    if (!each)
        return {};
    const auto rounds = forecast(task_.cap - clocks.back() + even.back(), even, *each, usual_confidence, planned);
    if (!rounds)
        return {};
    const auto reps = [&, &lane = lanes_[index]](const Result<Reps>& bound) -> std::optional<double> {
        if (!bound)
            return std::nullopt;
        if (work.empty())
            return bound->value();
        return reps_of_work(lane, work[clocks.size() - 1] + (bound->value() - done) * work.front());
    };
    return {reps(rounds->low), reps(rounds->expected), reps(rounds->high)};
}

bool KeyGuard::accept(std::size_t key, Seconds now) {
    auto& last = last_[key % last_.size()];
    const bool accepted = !last || now - *last >= quiet;
    last = now;
    return accepted;
}

} // namespace pacecells
