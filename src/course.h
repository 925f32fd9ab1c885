// The workout of one athlete as time: stations in working order, round by round, at given seconds per unit.
#pragma once

#include "pacecells/athlete_plan.h"

#include <optional>
#include <vector>

namespace pacecells {

inline constexpr double course_slack = 1e-9; // what rounding leaves is no unit, round or second

// Seconds of one unit at the usual pace of the middle group; 1 for hold and rest.
[[nodiscard]] double usual_seconds_each(const Station& station);
// The distance of a split: 500 m, on a bike 1000 m.
[[nodiscard]] double metres_per_split(Unit unit);

// One station in one round.
struct Leg {
    std::size_t station = 0; // of the workout
    double amount = 0;
    double work = 0;  // s, at the rate
    double pause = 0; // s between sets, or while the partners work, spread over the work
    double walk = 0;  // s of handling and walking on, after the work
    double idle = 0;  // s of rest until the next window starts, after the last station of one

    [[nodiscard]] double done() const { return work + pause; }
    [[nodiscard]] double busy() const { return work + pause + walk; }
    [[nodiscard]] double time() const { return busy() + idle; }
};

struct CourseRound {
    std::vector<Leg> legs;
    double time = 0;
    double points = 0;
};

class Course {
  public:
    // Seconds per unit by station of the workout, and the pauses of a station in a round.
    struct Pace {
        std::vector<double> seconds_each;
        std::vector<std::vector<Seconds>> pauses = {}; // by station, by round from 1; beyond the end: as the last
        double share = 1;                              // of the work, in a team of people who are not known
        const TeamPart* team = nullptr;                // where they are
    };
    Course(const Workout& workout, std::size_t division, const Pace& pace, int rounds);

    [[nodiscard]] const std::vector<CourseRound>& rounds() const { return rounds_; }
    [[nodiscard]] const CourseRound& round(int number) const { return rounds_[static_cast<std::size_t>(number) - 1]; }
    [[nodiscard]] int size() const { return static_cast<int>(rounds_.size()); }
    [[nodiscard]] double total() const;

    // The point that is reached after so many seconds: whole units. Beyond the end it is the end.
    [[nodiscard]] Point point_at(double seconds) const;
    // The last end of a station that is reached by then, and none before the first.
    [[nodiscard]] std::optional<Point> station_end_by(double seconds) const;
    [[nodiscard]] Point first_station_end() const;
    [[nodiscard]] Point end() const { return {.rounds = size()}; }
    // The point of so many rounds: a decimal is that share of the points of the round (of its time where nothing
    // counts), walked in order.
    [[nodiscard]] Point point_of(double rounds) const;

    [[nodiscard]] double seconds_to(const Point& point) const;
    [[nodiscard]] double reps_to(const Point& point) const;
    [[nodiscard]] double rounds_to(const Point& point) const;
    // Where a point that ends a round is one, whole rounds.
    [[nodiscard]] Point tidied(Point point) const;

    // Calls with each leg on the way to the point, and the part of its work that is on the way (0 to 1).
    template <class Visit>
    void walk_to(const Point& point, Visit visit) const {
        for (int k = 1; k <= std::min(point.rounds + 1, size()); ++k)
            for (const auto& leg : round(k).legs) {
                if (k <= point.rounds || leg.station < point.station)
                    visit(k, leg, 1.0);
                else if (leg.station == point.station && point.amount > 0)
                    visit(k, leg, std::min(1.0, point.amount / leg.amount));
            }
    }
    // Whether the leg's walk belongs to the way to the point: a round ends when the athlete is back at its start (the
    // last one for time with its work: its walk is 0), a point inside a round with the work of its last station.
    [[nodiscard]] static bool walks_on(const Point& point, int round, const Leg& leg) {
        return round <= point.rounds || leg.station < point.station;
    }

    // Other times for every leg.
    template <class Change>
    void retime(Change change) {
        for (auto& one : rounds_) {
            one.time = 0;
            for (auto& leg : one.legs) {
                change(leg);
                one.time += leg.time();
            }
        }
    }

  private:
    void finish_with_the_work();

    const Workout* workout_;
    std::vector<CourseRound> rounds_;
};

} // namespace pacecells
