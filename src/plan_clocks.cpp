// Step 7: what the clock shows at the end of every round and station on the way to a goal.
#include "planner.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr double least_stretch = 0.5; // below it everything is stretched alike, ergometers too

// The part of a leg that takes its time whatever the goal: an ergometer, prescribed seconds, pauses.
bool takes_its_time(Unit unit, bool team) {
    return (machine_of(unit) && !team) || unit == Unit::hold || unit == Unit::rest;
}

} // namespace

Course Planner::stretched(const Goal& goal, std::optional<CaloriesPerHour> hold) const {
    Course even = *course_;
    // Every card of a team has the same clocks: there all that is shared is stretched alike.
    const bool team = athlete_.team.has_value();
    even.retime([&](Leg& leg) {
        if (hold && !team && machine_of(station(leg.station).unit) == machine_of(station(*plan_.main).unit))
            leg.work = leg.amount * own_part(leg.station) * seconds_each_at(leg.station, *hold);
    });
    double fixed = 0;
    double flexible = 0;
    even.walk_to(goal.score.point, [&](int k, const Leg& leg, double part) {
        (team ? flexible : fixed) += part * leg.pause;
        (takes_its_time(station(leg.station).unit, team) ? fixed : flexible) += part * leg.work;
        flexible += Course::walks_on(goal.score.point, k, leg) ? leg.walk : 0;
    });
    const double all = goal.clock.value();
    const double stretch = flexible > 0 ? (all - fixed) / flexible : 0;
    const bool alike = !(stretch >= least_stretch);
    const double by = alike ? all / (fixed + flexible) : stretch;
    even.retime([&](Leg& leg) {
        leg.walk *= by;
        if (alike || !takes_its_time(station(leg.station).unit, team))
            leg.work *= by;
        if (alike || team)
            leg.pause *= by;
    });
    return even;
}

GoalLine Planner::line_of(const Goal& goal, std::optional<CaloriesPerHour> hold, double drift) const {
    const Course even = stretched(goal, hold);
    const double all = goal.clock.value();
    // The clock with a drift: as PACE.CLOCK, of the share that is done at even pace.
    const auto clock = [&](double seconds) {
        const double share = seconds / all;
        return Seconds{all * share * (1 + drift / 2 * (share - 1))};
    };
    // The other way round: seconds at even pace at a part of the clock.
    const auto even_seconds = [&](double part) {
        const double level = 1 - drift / 2;
        return all * 2 * part / (level + std::sqrt(level * level + 2 * drift * part));
    };
    GoalLine line{.goal = goal};
    for (std::size_t i = 0; i < line.quarters.size(); ++i)
        line.quarters[i] = even.point_at(even_seconds((static_cast<double>(i) + 1) / 4));
    const Point& point = goal.score.point;
    const bool first_differs =
        std::ranges::any_of(workout_.stations, [](const Station& one) { return one.when == When::first; });
    line.target = Seconds{even.round(first_differs && even.size() > 1 ? 2 : 1).time};
    const int last = std::min(even.size(), point.rounds + (point.amount > 0 ? 1 : 0));
    double start = 0;
    Seconds before{0};
    for (int k = 1; k <= last; ++k) {
        RoundPlan round{.round = k, .whole = k <= point.rounds};
        round.stations.resize(workout_.stations.size());
        double at = start;
        for (const auto& leg : even.round(k).legs) {
            if (round.whole || leg.station < point.station ||
                (leg.station == point.station && point.amount >= leg.amount))
                round.stations[leg.station] = clock(at + leg.done());
            at += leg.done() + leg.walk;
        }
        round.clock = k == last ? goal.clock : clock(at);
        round.time = round.clock - before;
        before = round.clock;
        start = at;
        line.rounds.push_back(std::move(round));
    }
    return line;
}

Point Planner::point_on_line(const Goal& goal, std::optional<CaloriesPerHour> hold, Seconds clock) const {
    return stretched(goal, hold).point_at(clock.value());
}

} // namespace pacecells
