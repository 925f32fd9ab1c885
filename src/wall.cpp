// Plans for people without names: the usual pace of the middle group.
#include "pacecells/athlete_plan.h"

#include "planner.h"

#include "check.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace pacecells {

namespace {

constexpr int most_wall_rows = 200;

Athlete usual_athlete(const Workout& workout, std::size_t division) {
    Athlete athlete;
    athlete.name = "-";
    athlete.division = division;
    athlete.movements.resize(workout.stations.size());
    return athlete;
}

// A goal of the wall: rounds, or seconds where the workout is for time.
std::optional<TypedGoal> wall_goal(const Workout& workout, double goal) {
    if (workout.settings.format == Format::time) {
        if (!(goal > 0 && goal <= workout.settings.cap.value() + course_slack))
            return {};
        return TypedGoal{.kind = TypedGoal::Kind::time, .time = Seconds{goal}};
    }
    if (!(goal >= 0.1 && goal < most_plan_rounds))
        return {};
    return TypedGoal{.rounds = goal};
}

Error refused_goal(double goal) {
    return out_of_domain("The goal must be 0.1 to 199 rounds, or for time a time up to the cap; got %1.", goal);
}

} // namespace

Result<Score> usual_score(const Workout& workout, std::size_t division, Seconds clock, double factor) {
    if (division >= workout.divisions.size())
        return out_of_domain("There is no division of this name.");
    if (!positive(clock.value()) || clock > workout.settings.cap)
        return out_of_domain("The clock must be above 0 and at most the cap; got %1 s.", clock.value());
    if (!(factor >= 0.2 && factor <= 5))
        return out_of_domain("The factor on the usual pace must be from 0.2 to 5; got %1.", factor);
    if (workout.settings.format == Format::intervals)
        return out_of_domain("Intervals have no score by the clock: see the plan of an athlete.");
    const Athlete athlete = usual_athlete(workout, division);
    Planner planner{workout, athlete, nullptr};
    planner.prepare();
    return planner.usual_score(clock, factor);
}

Result<std::vector<WallRow>> wall_table(const Workout& workout, double from, double to, double step) {
    if (workout.settings.format == Format::intervals)
        return out_of_domain("Intervals have no table of goals: see the plan of an athlete.");
    if (!(from > 0) || !(from <= to) || !(step > 0) || !std::isfinite(to))
        return out_of_domain("The goals must go from above 0 up, in steps above 0; got %1 to %2 by %3.", from, to,
                             step);
    const double steps = std::floor((to - from) / step + course_slack);
    if (!(steps < most_wall_rows))
        return out_of_domain("The wall holds at most %1 goals; got %2.", most_wall_rows, steps + 1);
    std::vector<WallRow> rows;
    for (double i = 0; i <= steps; ++i) {
        const double goal = from + i * step;
        const auto typed = wall_goal(workout, goal);
        if (!typed)
            return refused_goal(goal);
        WallRow row;
        for (std::size_t d = 0; d < workout.divisions.size(); ++d) {
            Athlete athlete = usual_athlete(workout, d);
            athlete.goal = typed;
            Planner planner{workout, athlete, nullptr};
            planner.prepare();
            planner.plan_goal();
            const auto& plan = planner.plan();
            row.needs.push_back(plan.no_room ? CaloriesPerHour{0} : plan.needs);
            if (d > 0)
                continue;
            row.goal = plan.goal->goal;
            row.target = plan.goal->target;
            row.half = plan.goal->quarters[1];
            const Point half = planner.point_on_line(row.goal, plan.needs, workout.settings.cap / 2);
            row.at_half = planner.score_of(half);
            row.at_half.text = planner.goal_text(planner.last_end(half));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Result<std::vector<WallWindow>> wall_windows(const Workout& typed) {
    const auto& settings = typed.settings;
    if (settings.format != Format::intervals)
        return out_of_domain("Only intervals have windows.");
    std::vector<WallWindow> rows;
    for (std::size_t d = 0; d < typed.divisions.size(); ++d) {
        const Athlete athlete = usual_athlete(typed, d);
        const auto filled = with_amounts(typed, athlete);
        const Workout& workout = filled ? *filled : typed;
        Planner planner{workout, athlete, nullptr};
        planner.prepare();
        const double limit = settings.work_time().value();
        const double usual = planner.hardest_window().value();
        if (d == 0) {
            constexpr double shortest_step = 5;
            constexpr double much_faster = 0.8;
            const double room = std::max(0.0, limit - much_faster * std::min(usual, limit));
            const double step =
                shortest_step * std::max(1.0, std::ceil(room / (wall_windows_rows - 1) / shortest_step));
            for (int row = 0; row < wall_windows_rows; ++row)
                if (const double done = limit - step * (wall_windows_rows - 1 - row); done > 0)
                    rows.push_back(
                        {.done = Seconds{done}, .spare = Seconds{limit - done}, .pace = usual / done, .needs = {}});
        }
        for (auto& row : rows)
            row.needs.push_back(planner.needed_in_windows(*settings.windows, row.done));
    }
    return rows;
}

Result<GoalLine> wall_clocks(const Workout& workout, double goal, std::size_t division) {
    if (division >= workout.divisions.size())
        return out_of_domain("There is no division of this name.");
    Athlete athlete = usual_athlete(workout, division);
    athlete.goal = wall_goal(workout, goal);
    if (!athlete.goal)
        return refused_goal(goal);
    const bool any_most =
        std::ranges::any_of(workout.stations, [&](const Station& one) { return one.divisions[division].amounts.most; });
    if (any_most) // as many as fit is a goal by itself
        athlete.goal.reset();
    const auto filled = with_amounts(workout, athlete);
    Planner planner{filled ? *filled : workout, athlete, nullptr};
    planner.prepare();
    planner.plan_goal();
    return *planner.plan().goal;
}

} // namespace pacecells
