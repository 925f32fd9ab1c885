// A heat while it runs: what a key does, and what there is to say of each lane.
//
// No clock of its own: every question brings `now`, a reading of any clock that only goes forward. Nothing is written
// anywhere: the sheet holds the records, and this decides what may be written next.
#pragma once

#include "pacecells/athlete_plan.h"
#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/workout.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

enum class HeatFormat { rounds, for_time };

inline constexpr std::size_t most_heat_rounds = 40;

struct HeatTask {
    HeatFormat format = HeatFormat::rounds;
    Seconds cap{0};
    int rounds = 0; // to be done, for time
};

// What is known of an athlete before the start: the plan, as far as a heat needs it.
struct LanePlan {
    std::vector<Seconds> targets;     // clock at the end of round 1, 2 ... of the goal; empty: no goal
    std::optional<Seconds> planned{}; // time of a round as planned
    std::vector<double> work{};       // usual time by the end of round 1, 2 ...; empty: every round alike
    std::vector<double> reps{};       // of round 1, 2 ...; a single number: every round; empty: not known
    Seconds offset{0};                // this lane starts so much later than the heat, and ends so much later
};

// The task of a heat. Refused: a format in which no rounds are stamped; no cap.
[[nodiscard]] Result<HeatTask> heat_task(const Workout& workout);

// What a heat needs of a plan. Of someone without a goal: what the division's rounds hold.
[[nodiscard]] LanePlan lane_plan(const Workout& workout, const Plan& plan);

// What the sheet holds of an athlete.
struct LaneRecord {
    std::vector<Seconds> clocks; // at the end of round 1, 2, ...
    std::optional<double> partial;
    std::optional<Seconds> finish;
    std::optional<double> left;
    std::optional<Seconds> tiebreak;
    bool out = false;
};

enum class Verdict {
    taken,
    not_running,  // no start yet, or still counting in
    over,         // the cap has passed
    out,          // the athlete withdrew
    finished,     // all rounds are done
    full,         // no room for more rounds
    not_later,    // not after the last stamp
    nothing_there // no such stamp
};

struct Stamp {
    Verdict verdict = Verdict::taken;
    int round = 0;
    Seconds clock{0};
    bool finishes = false; // the last round of a task for time
};

// Reps at the cap, or for time the clock at the finish.
struct Outlook {
    std::optional<double> low;
    std::optional<double> expected;
    std::optional<double> high;
};

class RunningHeat {
  public:
    static constexpr std::size_t most_rounds = most_heat_rounds;
    // A key so soon after the cap was meant at the cap: a hand is slower than the signal (judgement).
    static constexpr Seconds grace{1};

    explicit RunningHeat(HeatTask task) : task_(task) {}

    [[nodiscard]] const HeatTask& task() const { return task_; }

    // Zero on the heat's clock; may lie ahead (counting in) or behind (already running).
    void start_at(Seconds instant) { start_ = instant; }
    [[nodiscard]] std::optional<Seconds> start() const { return start_; }
    [[nodiscard]] bool over(Seconds now) const; // beyond the cap of every lane
    // Negative while counting in. Precondition: started.
    [[nodiscard]] Seconds clock(Seconds now) const { return now - *start_; }
    [[nodiscard]] Seconds last_offset() const; // of the lane that starts last

    // A lane's own clock, from its own start: what its records count by.
    [[nodiscard]] Seconds clock(std::size_t lane, Seconds now) const { return clock(now) - lanes_[lane].plan.offset; }
    [[nodiscard]] bool running(std::size_t lane, Seconds now) const;
    [[nodiscard]] bool over(std::size_t lane, Seconds now) const;

    std::size_t add_lane(LanePlan plan) {
        lanes_.push_back({std::move(plan), {}});
        return lanes_.size() - 1;
    }
    [[nodiscard]] std::size_t lanes() const { return lanes_.size(); }
    [[nodiscard]] const LanePlan& plan(std::size_t lane) const { return lanes_[lane].plan; }
    void set_offset(std::size_t lane, Seconds offset) { lanes_[lane].plan.offset = offset; }
    [[nodiscard]] const LaneRecord& record(std::size_t lane) const { return lanes_[lane].record; }
    void set_record(std::size_t lane, LaneRecord record) { lanes_[lane].record = std::move(record); }

    // Whether a stamp now would end a round so short that the key was hardly meant: never the first one.
    static constexpr double shortest_round = 0.4; // of its time as planned (judgement)
    [[nodiscard]] bool too_soon(std::size_t lane, Seconds now) const;
    // The end of a round now. The clock is exact to a millisecond; within the grace it is the cap.
    Stamp stamp(std::size_t lane, Seconds now);
    // The last stamp and with it a finish; the stamp as it was.
    Stamp take_back(std::size_t lane);
    // Rounds put right afterwards: one that was missed, one too many. Where it is refused nothing changes.
    Stamp insert(std::size_t lane, Seconds clock);
    Stamp remove(std::size_t lane, std::size_t round); // from 1
    // The tie-break clock now; the last one counts.
    Stamp tiebreak(std::size_t lane, Seconds now);

    // Whether so many reps can be done of the round still open: whole, below that round's.
    [[nodiscard]] bool fits_open_round(std::size_t lane, double reps) const;
    // Reps not done where so many of the open round are: for time. None where reps are not known.
    [[nodiscard]] std::optional<double> left(std::size_t lane, double reps) const;
    // Total reps with the partial score. None where reps are not known.
    [[nodiscard]] std::optional<double> total(std::size_t lane) const;

    // What the clock shall show at the end of a round (from 1), as planned.
    [[nodiscard]] std::optional<Seconds> target(std::size_t lane, std::size_t round) const;
    [[nodiscard]] std::optional<Seconds> next_target(std::size_t lane) const;
    // Ahead (above 0) or behind (below 0) at the last stamp; a target that has passed meanwhile counts too.
    [[nodiscard]] std::optional<Seconds> ahead(std::size_t lane, Seconds now) const;

    // Where it leads, see forecast and forecast_finish, with the planned time of a round. Unlike rounds are evened
    // first, each to the work of the first one.
    [[nodiscard]] Outlook outlook(std::size_t lane) const;

  private:
    struct Lane {
        LanePlan plan;
        LaneRecord record;
    };

    void finish_if_done(LaneRecord& record) const;
    [[nodiscard]] Verdict may_stamp(std::size_t lane, Seconds now) const;
    [[nodiscard]] Seconds reading(std::size_t lane, Seconds now) const;
    [[nodiscard]] std::optional<double> reps_of_rounds(const Lane& lane, std::size_t rounds) const;
    [[nodiscard]] std::optional<double> reps_of_work(const Lane& lane, double work) const;

    HeatTask task_;
    std::optional<Seconds> start_;
    std::vector<Lane> lanes_;
};

// Tells a key pressed again from one that is held or bounces: a key counts only when it was quiet for a second.
class KeyGuard {
  public:
    static constexpr Seconds quiet{1};
    [[nodiscard]] bool accept(std::size_t key, Seconds now);

  private:
    std::array<std::optional<Seconds>, 64> last_;
};

} // namespace pacecells
