#include "course.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace pacecells {

double metres_per_split(Unit unit) { return unit == Unit::row_m || unit == Unit::ski_m ? 500 : 1000; }

double usual_seconds_each(const Station& station) {
    switch (rate_kind(station.unit)) {
    case RateKind::none:
        break;
    case RateKind::seconds_each:
        return station.usual_rate;
    case RateKind::calories_per_hour:
        return 3600 / station.usual_rate;
    case RateKind::split:
        return station.usual_rate / metres_per_split(station.unit);
    }
    return 1;
}

Course::Course(const Workout& workout, std::size_t division, const Pace& pace, int rounds) : workout_(&workout) {
    const auto given = workout.rounds(division);
    const auto& settings = workout.settings;
    for (int k = 1; k <= rounds; ++k) {
        CourseRound round;
        for (std::size_t i = 0; i < workout.stations.size(); ++i) {
            const auto& station = workout.stations[i];
            const double amount = station.amount(division, k, given);
            if (!(amount > 0))
                continue;
            // In a team each does a share and waits while the partners do theirs; where they are not known, they have
            // the same pace (judgement).
            const bool shared = settings.team > 1 && station.unit != Unit::rest && station.unit != Unit::hold;
            const double share = !shared ? 1 : pace.team ? pace.team->stations[i].share : pace.share;
            Leg leg{.station = i, .amount = amount, .work = amount * share * pace.seconds_each[i]};
            leg.walk = station.handling.value() + station.steps.value_or(settings.steps) * settings.step_s;
            if (i < pace.pauses.size() && !pace.pauses[i].empty())
                leg.pause = pace.pauses[i][std::min(static_cast<std::size_t>(k), pace.pauses[i].size()) - 1].value();
            if (shared && pace.team) {
                const double together = amount * pace.team->stations[i].seconds;
                leg.work = std::min(leg.work, together);
                leg.pause = together - leg.work;
            } else if (shared) {
                leg.pause = std::max(leg.pause, amount * pace.seconds_each[i] / settings.at_once - leg.work);
            }
            round.time += leg.time();
            round.points += station.points() * std::floor(amount + course_slack);
            round.legs.push_back(leg);
        }
        if (settings.format == Format::intervals) {
            const double idle = std::max(0.0, settings.window().value() - round.time);
            auto& rests = round.legs.empty() && !rounds_.empty() ? rounds_.back() : round; // a window without work
            if (!rests.legs.empty()) {
                rests.legs.back().idle += idle;
                rests.time += idle;
            }
        }
        rounds_.push_back(std::move(round));
    }
    if (settings.format == Format::time && rounds == given)
        finish_with_the_work();
}

// For time the clock stops with the last unit: nobody walks on from there.
void Course::finish_with_the_work() {
    const auto last = std::find_if(rounds_.rbegin(), rounds_.rend(), [](const auto& one) { return !one.legs.empty(); });
    if (last != rounds_.rend())
        last->time -= std::exchange(last->legs.back().walk, 0);
}

double Course::total() const {
    double all = 0;
    for (const auto& one : rounds_)
        all += one.time;
    return all;
}

Point Course::point_at(double seconds) const {
    double left = seconds;
    for (int k = 1; k <= size(); ++k) {
        const auto& one = round(k);
        if (left + course_slack >= one.time) {
            left -= one.time;
            continue;
        }
        for (const auto& leg : one.legs) {
            if (left + course_slack < leg.done())
                return {.rounds = k - 1,
                        .station = leg.station,
                        .amount = std::floor(std::max(0.0, left) / leg.done() * leg.amount + course_slack)};
            left -= leg.time();
            if (left + course_slack < 0) // walking on
                return tidied({.rounds = k - 1, .station = leg.station, .amount = leg.amount});
        }
    }
    return end();
}

std::optional<Point> Course::station_end_by(double seconds) const {
    std::optional<Point> found;
    double at = 0;
    for (int k = 1; k <= size(); ++k)
        for (const auto& leg : round(k).legs) {
            const bool last = leg.station == round(k).legs.back().station;
            if (at + (last ? leg.time() : leg.done()) > seconds + course_slack)
                return found;
            if (workout_->stations[leg.station].unit != Unit::rest)
                found = tidied({.rounds = k - 1, .station = leg.station, .amount = leg.amount});
            at += leg.time();
        }
    return found;
}

Point Course::first_station_end() const {
    for (int k = 1; k <= size(); ++k)
        for (const auto& leg : round(k).legs)
            if (workout_->stations[leg.station].unit != Unit::rest)
                return tidied({.rounds = k - 1, .station = leg.station, .amount = leg.amount});
    return end();
}

Point Course::tidied(Point point) const {
    if (point.amount > 0 && point.rounds < size()) {
        const auto& last = round(point.rounds + 1).legs.back();
        if (last.station == point.station && point.amount >= last.amount - course_slack)
            return {.rounds = point.rounds + 1};
    }
    return point;
}

Point Course::point_of(double rounds) const {
    const int whole = static_cast<int>(std::floor(rounds + course_slack));
    const double part = rounds - whole;
    if (whole >= size())
        return end();
    if (!(part > course_slack))
        return {.rounds = whole};
    const auto& one = round(whole + 1);
    const bool by_points = one.points > 0;
    double left = part * (by_points ? one.points : one.time);
    for (const auto& leg : one.legs) {
        const double each = by_points ? workout_->stations[leg.station].points() : leg.time() / leg.amount;
        const double here = each * leg.amount;
        if (each > 0 && here >= left - course_slack)
            return tidied({.rounds = whole, .station = leg.station, .amount = std::min(leg.amount, left / each)});
        left -= here;
    }
    return {.rounds = whole + 1};
}

double Course::seconds_to(const Point& point) const {
    double seconds = 0;
    walk_to(point, [&](int number, const Leg& leg, double part) {
        seconds += part * leg.done() + (walks_on(point, number, leg) ? leg.walk + leg.idle : 0);
    });
    return seconds;
}

double Course::reps_to(const Point& point) const {
    double reps = 0;
    walk_to(point, [&](int, const Leg& leg, double part) {
        reps += workout_->stations[leg.station].points() * std::floor(part * leg.amount + course_slack);
    });
    return reps;
}

double Course::rounds_to(const Point& point) const {
    if (point.rounds >= size() || !(point.amount > 0 || point.station > 0))
        return point.rounds;
    const auto& one = round(point.rounds + 1);
    double part = 0;
    for (const auto& leg : one.legs) {
        const double share = leg.station < point.station    ? 1
                             : leg.station == point.station ? std::min(1.0, point.amount / leg.amount)
                                                            : 0;
        part += share * (one.points > 0 ? workout_->stations[leg.station].points() * leg.amount / one.points
                                        : leg.time() / one.time);
    }
    return point.rounds + part;
}

} // namespace pacecells
