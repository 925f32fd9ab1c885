// The work of plan_for, in the order in which athlete_plan.h tells it. One file a subject: plan_rates, plan_sets,
// plan_goal, plan_clocks, plan_card, plan_notes.
#pragma once

#include "course.h"
#include "pacecells/athlete_plan.h"

#include <array>
#include <optional>
#include <vector>

namespace pacecells {

// The rate of so many times the watts; of a fan bike, whose calories follow no formula of watts, of the rate itself.
[[nodiscard]] CaloriesPerHour scaled_rate(Machine machine, CaloriesPerHour rate, double factor);

// As rates are printed.
[[nodiscard]] CaloriesPerHour down_to_five(CaloriesPerHour rate);

// Intervals: the workout with amounts in the place of "max", as many as fit at the usual pace of the group. None where
// nothing is "max".
[[nodiscard]] std::optional<Workout> with_amounts(const Workout& workout, const Athlete& athlete);

class Planner {
  public:
    Planner(const Workout& workout, const Athlete& athlete, Reasons* reasons);

    // Steps 1 to 5: rates, sets, the course at them, the predicted score.
    void prepare();
    // Steps 6 to 8, for the goal of the athlete.
    void plan_goal();
    [[nodiscard]] std::vector<double> most_without_breaks() const;
    [[nodiscard]] bool most_fit() const;
    // Intervals, at the paces of the plan: the longest work of a window.
    [[nodiscard]] Seconds hardest_window() const;
    // The rate of the main ergometer at which the work of the hardest of so many windows takes no longer than that.
    [[nodiscard]] std::optional<CaloriesPerHour> needed_in_windows(int windows, Seconds limit) const;
    void add_notes();

    [[nodiscard]] const Course& course() const { return *course_; }
    [[nodiscard]] Plan& plan() { return plan_; }
    [[nodiscard]] double fade_factor() const { return 1 - workout_.settings.fade / 2; }
    [[nodiscard]] Seconds last_moment() const { return workout_.settings.cap - workout_.settings.slip; }
    [[nodiscard]] bool for_time() const { return workout_.settings.format == Format::time; }

    [[nodiscard]] Score score_of(const Point& point) const;
    [[nodiscard]] Goal goal_at(const Point& point, Seconds clock) const;
    [[nodiscard]] std::optional<Goal> goal_down(const Goal& goal, double slower, bool one_step) const;
    // The course at the pace of a goal: see athlete_plan.h, 7.
    [[nodiscard]] Course stretched(const Goal& goal, std::optional<CaloriesPerHour> hold) const;
    [[nodiscard]] GoalLine line_of(const Goal& goal, std::optional<CaloriesPerHour> hold, double drift) const;
    [[nodiscard]] std::string goal_text(const Point& point) const;
    // What the goal needs of the main ergometer; none without one. 0: no room.
    [[nodiscard]] std::optional<CaloriesPerHour> needed_for(const Goal& goal) const;
    // The last end of a station on the way to a point.
    [[nodiscard]] Point last_end(const Point& point) const;
    // What a clock comes to at a pace that is faster by the factor.
    [[nodiscard]] Score usual_score(Seconds clock, double factor) const;
    // The point that the clock has reached on the way to a goal, at a rate on the main ergometer.
    [[nodiscard]] Point point_on_line(const Goal& goal, std::optional<CaloriesPerHour> hold, Seconds clock) const;

  private:
    // plan_rates.cpp
    void set_base_pace();
    [[nodiscard]] OtherStations other_of(Machine machine) const;
    [[nodiscard]] int rounds_on(Machine machine) const; // of those expected, at least 1
    [[nodiscard]] std::optional<Watts> watts_with_rests(Machine machine) const;
    [[nodiscard]] MachineRate rate_of(Machine machine, Reasons* reasons);
    [[nodiscard]] std::optional<MachineRate> tested_rate(Machine machine, double share);
    [[nodiscard]] bool too_old(const MachineTests& tests) const;
    void set_rates(Reasons* reasons);
    [[nodiscard]] const MachineRate* rate_of_station(std::size_t station) const;
    [[nodiscard]] double seconds_each_at(std::size_t station, CaloriesPerHour rate) const;
    [[nodiscard]] CaloriesPerHour rate_at(std::size_t station, double seconds_each) const;

    // plan_sets.cpp
    void set_sets();
    [[nodiscard]] std::optional<StationSets> sets_of(std::size_t station);
    [[nodiscard]] std::optional<Input> longest_set(std::size_t station, StationSets& sets) const;
    void explain_sets(std::size_t station, const StationSets& sets, const Input& longest, double recovery) const;
    [[nodiscard]] std::vector<Seconds> away_before(std::size_t station) const;
    [[nodiscard]] double away_share(std::size_t station, std::size_t other) const;

    // plan_windows.cpp
    [[nodiscard]] bool intervals() const { return workout_.settings.format == Format::intervals; }
    [[nodiscard]] std::vector<WindowPlan> windows_at(double slower) const;
    [[nodiscard]] Score score_of(const std::vector<WindowPlan>& windows) const;
    void predict_windows(double sd, double sd_below);
    void plan_windows();
    [[nodiscard]] Goal windows_goal(int windows, const std::vector<double>& most) const;
    [[nodiscard]] GoalLine windows_line(const Goal& goal, std::optional<CaloriesPerHour> hold) const;
    [[nodiscard]] double amount_of(const Leg& leg) const; // of the goal, where the leg is as many as fit

    // plan_goal.cpp
    void predict();
    [[nodiscard]] double spread(bool lower_end) const; // of the time, one standard deviation, as a share
    [[nodiscard]] std::optional<Goal> suggested() const;
    [[nodiscard]] std::optional<Goal> own_goal() const;

    // plan_pacing.cpp
    [[nodiscard]] Pacing wanted_pacing() const;
    void set_pacing(Pacing pacing);
    [[nodiscard]] Seconds pacing_cost_of(Seconds time) const;
    [[nodiscard]] double effort_gain() const; // how much faster effort rises than pace, see pacing.h
    void explain_pacing();
    [[nodiscard]] Said pacing_said() const;

    void add_stations();

    // plan_card.cpp
    void set_card();
    [[nodiscard]] Card card_of_arm_bike(CaloriesPerHour needed, const MachineRate& rate, Kilocalories calories) const;
    void set_rehearsal();
    [[nodiscard]] Kilocalories calories_of_main() const;

    [[nodiscard]] Course course_for(const std::vector<double>& seconds_each, double seconds, int at_least,
                                    bool with_pauses) const;
    // The athlete's part of an amount: all of what is prescribed in seconds, else the share.
    [[nodiscard]] bool is_shared(std::size_t i) const {
        return station(i).unit != Unit::rest && station(i).unit != Unit::hold;
    }
    [[nodiscard]] double own_part(std::size_t i) const {
        return !is_shared(i) ? 1 : athlete_.team ? athlete_.team->stations[i].share : share_;
    }
    // Whole units, as the athlete does them.
    [[nodiscard]] double own_units(std::size_t i, double amount) const;
    [[nodiscard]] const Station& station(std::size_t i) const { return workout_.stations[i]; }
    std::optional<std::size_t> reason(Step step) const;
    [[nodiscard]] Input setting_input(std::string_view key, Said what, Value value) const;
    [[nodiscard]] std::vector<Input> rate_input() const; // the rate to plan with, where there is an ergometer
    [[nodiscard]] Input step_input(Fact fact, Said what, Value value, std::optional<std::size_t> station = {}) const;

    const Workout& workout_;
    const Athlete& athlete_;
    Reasons* reasons_;
    Plan plan_;
    std::size_t division_ = 0;
    PaceGroup group_;
    std::optional<int> given_rounds_;
    Seconds task_{0};               // what rates are for: the cap, or the time it is likely to take
    int whole_rounds_ = 1;          // expected, up to the next whole
    std::vector<double> base_each_; // seconds per unit at the usual pace of the group, own seconds in their place
    std::vector<double> each_;      // at the rates of the plan
    double share_ = 1;              // of the team's work
    std::vector<double> most_;      // by station: reps of a window, where a station is as many as fit
    std::vector<std::vector<Seconds>> pauses_;
    std::vector<std::vector<Seconds>> fall_back_pauses_;
    std::optional<Course> base_;
    std::optional<Course> course_;
};

} // namespace pacecells
