// Intervals: windows of work and rest. What fits in each, the first that does not hold, the rate that rests allow.
#include "planner.h"

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/reserve.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr double least_share_down = 1 / (1 + least_step_down);
constexpr Watts highest_watts{1500};

bool takes_its_time(Unit unit) { return unit == Unit::hold || unit == Unit::rest; }

// With so many units of each station in the place of "max".
Workout filled(const Workout& workout, std::size_t division, const std::vector<double>& units) {
    Workout made = workout;
    const auto works = [&](const Station& one) { return !one.divisions[division].amounts.list.empty(); };
    const auto turns = static_cast<std::size_t>(std::ranges::count_if(workout.stations, works));
    std::size_t turn = 0;
    for (std::size_t i = 0; i < units.size(); ++i) {
        auto& amounts = made.stations[i].divisions[division].amounts;
        if (amounts.list.empty())
            continue;
        if (amounts.most && workout.settings.in_turn) {
            amounts.list.clear();
            for (std::size_t k = 0; k < static_cast<std::size_t>(*workout.settings.windows); ++k)
                amounts.list.push_back(k % turns == turn ? units[i] : 0);
        } else if (amounts.most) {
            amounts.list = {units[i]};
        }
        ++turn;
    }
    return made;
}

} // namespace

// The most that still fits in the last window with the sets and pauses that it needs: a part, found by halving, of what
// fits at the pace of one unit alone.
std::optional<Workout> with_amounts(const Workout& workout, const Athlete& athlete) {
    const bool any = workout.settings.format == Format::intervals && athlete.division &&
                     std::ranges::any_of(workout.stations, [&](const Station& one) {
                         return one.divisions[*athlete.division].amounts.most;
                     });
    if (!any)
        return {};
    const Workout ones = filled(workout, *athlete.division, std::vector<double>(workout.stations.size(), 1));
    Planner alone{ones, athlete, nullptr};
    alone.prepare();
    const auto most = alone.most_without_breaks();
    const auto part_of = [&](double part) {
        auto units = most;
        for (double& one : units)
            one = std::max(1.0, std::floor(part * one + course_slack));
        return filled(workout, *athlete.division, units);
    };
    const auto fits = [&](const Workout& tried) {
        Planner planner{tried, athlete, nullptr};
        planner.prepare();
        return planner.most_fit();
    };
    if (const Workout all = part_of(1); fits(all))
        return all;
    constexpr int steps = 10; // to less than a rep of a thousand
    double low = 0;
    double high = 1;
    for (int i = 0; i < steps; ++i) {
        const double middle = (low + high) / 2;
        (fits(part_of(middle)) ? low : high) = middle;
    }
    return part_of(low);
}

// By station: how many fit in the time that those with a given amount leave.
std::vector<double> Planner::most_without_breaks() const {
    std::vector<double> most(workout_.stations.size(), 0);
    for (const auto& round : course_->rounds()) {
        double left = workout_.settings.work_time().value();
        for (const auto& leg : round.legs)
            if (station(leg.station).divisions[division_].amounts.most)
                most[leg.station] = left * leg.amount / leg.done();
            else
                left -= leg.busy();
    }
    return most;
}

// Whether the amounts in the place of "max" fit, in the last window of each too.
bool Planner::most_fit() const {
    for (int k = 1; k <= course_->size(); ++k) {
        const double pace = 1 + workout_.settings.fade * (k - 0.5) / course_->size();
        double at = 0;
        for (const auto& leg : course_->round(k).legs) {
            const auto& one = station(leg.station);
            at += leg.done() * (takes_its_time(one.unit) ? 1 : pace);
            if (one.divisions[division_].amounts.most && at > workout_.settings.work_time().value() + course_slack)
                return false;
            at += leg.walk * pace;
        }
    }
    return true;
}

// The highest watts whose bouts, all of them, leave the reserve that is to be kept; rests count by rest_that_counts. Above
// the watts alone where the rests are long enough.
std::optional<Watts> Planner::watts_with_rests(Machine machine) const {
    if (!intervals())
        return {};
    const auto& tests = athlete_.machines[static_cast<std::size_t>(machine)];
    const auto& settings = workout_.settings;
    const int bouts = rounds_on(machine);
    double calories = 0;
    for (int k = 1; k <= std::min(whole_rounds_, base_->size()); ++k)
        for (const auto& leg : base_->round(k).legs)
            if (machine_of(station(leg.station).unit) == machine)
                calories += leg.work / 3600 * rate_at(leg.station, base_each_[leg.station]).value();
    OtherStations other = other_of(machine);
    const Seconds not_counted = other.rest * (1 - rest_that_counts);
    other.rest = other.rest - not_counted;
    other.time = other.time - not_counted;
    const MixedTask task{.cap = workout_.settings.cap,
                         .calories = Kilocalories{calories / bouts},
                         .other = other,
                         .values = *tests.values,
                         .work_share = settings.work_share};
    const auto keeps = [&](Watts watts) {
        const auto rate = calorie_rate(watts);
        if (!rate)
            return false;
        MixedTask all = task;
        all.cap = (Seconds{3600 * task.calories.value() / rate->value()} + other.time) * bouts;
        const auto left = reserve_left(all, *rate, bouts);
        return left && *left >= settings.keep;
    };
    Watts low = tests.values->critical;
    Watts high = highest_watts;
    if (!keeps(low))
        return {};
    for (int i = 0; i < 60; ++i) {
        const Watts middle = (low + high) / 2;
        (keeps(middle) ? low : high) = middle;
    }
    return low;
}

double Planner::amount_of(const Leg& leg) const {
    const bool most = station(leg.station).divisions[division_].amounts.most;
    return most && !most_.empty() ? most_[leg.station] : leg.amount;
}

// At the fresh pace slowed by the fade as the windows go by, and by the factor.
std::vector<WindowPlan> Planner::windows_at(double slower) const {
    const auto& settings = workout_.settings;
    const double limit = settings.work_time().value();
    std::vector<WindowPlan> windows;
    for (int k = 1; k <= course_->size(); ++k) {
        const double pace = slower * (1 + settings.fade * (k - 0.5) / course_->size());
        WindowPlan window{.window = k, .start = settings.window() * (k - 1)};
        double at = 0;
        bool out = false;
        double spare = limit;
        for (const auto& leg : course_->round(k).legs) {
            const auto& one = station(leg.station);
            const bool most = one.divisions[division_].amounts.most;
            const double unit = leg.done() / leg.amount * (takes_its_time(one.unit) ? 1 : pace);
            const double fits = std::max(0.0, std::floor((limit - at) / unit + course_slack));
            const double units = most ? fits : leg.amount;
            window.work = true;
            window.reps += out ? 0 : one.points() * std::floor(std::min(fits, units) + course_slack);
            out = out || fits < units;
            at += units * unit;
            spare = limit - at;
            at += leg.walk * pace;
        }
        window.needed = Seconds{limit - spare};
        window.spare = Seconds{spare};
        windows.push_back(window);
    }
    return windows;
}

Score Planner::score_of(const std::vector<WindowPlan>& windows) const {
    Score score;
    std::optional<double> lowest;
    double sum = 0;
    for (const auto& one : windows) {
        score.rounds += one.holds() ? 1 : 0;
        if (!one.work)
            continue;
        sum += one.reps;
        lowest = std::min(lowest.value_or(one.reps), one.reps);
    }
    score.reps = workout_.settings.scoring == Scoring::lowest ? lowest.value_or(0) : sum;
    score.point = {.rounds = static_cast<int>(score.rounds)};
    score.text = number_text(score.reps);
    return score;
}

void Planner::predict_windows(double sd, double sd_below) {
    plan_.windows = windows_at(1);
    for (const auto& one : plan_.windows)
        if (!plan_.first_failing && !one.holds())
            plan_.first_failing = one.window;
    plan_.expected = score_of(plan_.windows);
    plan_.low = score_of(windows_at(1 + range_sd * sd_below));
    plan_.high = score_of(windows_at(std::max(0.5, 1 - range_sd * sd)));
    if (!reasons_)
        return;
    auto from = rate_input();
    from.push_back(setting_input("windows", say("windows"), {Measure::number, static_cast<double>(course_->size())}));
    from.push_back(setting_input("fade", say("fade of round times"), {Measure::share, workout_.settings.fade}));
    reason({.fact = Fact::predicted,
            .what = say("Predicted score"),
            .from = std::move(from),
            .rule = say("what is done in time in each window, slower by the fade as they go by"),
            .value = {Measure::text, plan_.expected.reps, plan_.expected.text}});
}

// So many windows; where a station is as many as fit, its reps in each of them: "12", "10 x 14", "10 x 14/9".
Goal Planner::windows_goal(int windows, const std::vector<double>& most) const {
    Goal goal;
    goal.score.rounds = windows;
    goal.score.point = {.rounds = windows};
    goal.score.text = number_text(windows);
    std::string each;
    for (std::size_t i = 0; i < most.size(); ++i)
        if (most[i] > 0)
            each += (each.empty() ? "" : "/") + number_text(most[i]);
    if (!each.empty())
        goal.score.text += " x " + each;
    for (int k = 1; k <= windows; ++k)
        for (const auto& leg : course_->round(k).legs) {
            const double amount = most[leg.station] > 0 ? most[leg.station] : leg.amount;
            goal.score.reps += station(leg.station).points() * std::floor(amount + course_slack);
        }
    return goal;
}

// What each window takes on the way to the goal: the ergometer at the rate to hold, pauses as planned, all else at the mean
// pace of the task.
GoalLine Planner::windows_line(const Goal& goal, std::optional<CaloriesPerHour> hold) const {
    const auto& settings = workout_.settings;
    const double pace = 1 + settings.fade / 2;
    GoalLine line{.goal = goal};
    for (int k = 1; k <= goal.score.point.rounds; ++k) {
        RoundPlan round{.round = k};
        round.stations.resize(workout_.stations.size());
        const double start = settings.window().value() * (k - 1);
        double at = 0;
        double done = 0;
        for (const auto& leg : course_->round(k).legs) {
            const auto unit = station(leg.station).unit;
            const double amount = amount_of(leg);
            const auto machine = machine_of(unit);
            const bool main = hold && !athlete_.team && machine && machine == machine_of(station(*plan_.main).unit);
            const double each =
                main ? own_part(leg.station) * seconds_each_at(leg.station, *hold) : leg.work / leg.amount;
            const double slower = machine || takes_its_time(unit) ? 1 : pace;
            at += amount * (each * slower + leg.pause / leg.amount * (athlete_.team ? slower : 1));
            done = at;
            round.stations[leg.station] = Seconds{start + at};
            at += leg.walk * pace;
        }
        round.time = Seconds{done};
        round.clock = Seconds{start + done};
        line.target = std::max(line.target, round.time);
        line.rounds.push_back(std::move(round));
    }
    if (!line.rounds.empty())
        line.goal.clock = line.rounds.back().clock;
    return line;
}

Seconds Planner::hardest_window() const {
    Seconds most{0};
    for (const auto& one : windows_at(1))
        most = std::max(most, one.needed);
    return most;
}

// All else slowed by the whole fade.
std::optional<CaloriesPerHour> Planner::needed_in_windows(int windows, Seconds limit) const {
    const double pace = 1 + workout_.settings.fade;
    std::optional<double> least; // seconds for a unit
    for (int k = 1; k <= windows; ++k) {
        double other = 0;
        double units = 0;
        double last_walk = 0;
        for (const auto& leg : course_->round(k).legs) {
            const auto unit = station(leg.station).unit;
            const double amount = amount_of(leg);
            if (leg.station == plan_.main)
                units += amount * own_part(leg.station);
            else
                other += amount * leg.work / leg.amount * (machine_of(unit) || takes_its_time(unit) ? 1 : pace);
            last_walk = leg.walk * pace;
            other += leg.pause * amount / leg.amount + last_walk;
        }
        if (!(units > 0))
            continue;
        const double room = limit.value() - (other - last_walk);
        least = std::min(least.value_or(room / units), room / units);
    }
    if (!least || !plan_.main)
        return {};
    return *least > course_slack ? rate_at(*plan_.main, *least) : CaloriesPerHour{0};
}

void Planner::plan_windows() {
    const bool any_most = std::ranges::any_of(
        workout_.stations, [&](const Station& one) { return one.divisions[division_].amounts.most; });
    const int windows = course_->size();
    std::vector<double> most(workout_.stations.size(), 0);
    int held = windows;
    // Steady from first to last: the amounts that fit in the last window.
    for (int k = 1; k <= windows; ++k)
        for (const auto& leg : course_->round(k).legs)
            if (station(leg.station).divisions[division_].amounts.most)
                most[leg.station] = leg.amount;
    if (plan_.first_failing)
        held = std::max(1, *plan_.first_failing - 1);
    plan_.suggested = windows_goal(held, most);
    Goal goal = *plan_.suggested;
    if (athlete_.goal) {
        if (any_most) {
            for (auto& one : most)
                one = one > 0 ? athlete_.goal->rounds : 0;
        } else {
            held = std::clamp(static_cast<int>(std::floor(athlete_.goal->rounds + course_slack)), 1, windows);
        }
        goal = windows_goal(held, most);
    }
    // One step down: a rep less in each window, or as much as 4 % slower is. Fixed amounts have no step but to scale.
    const auto down = [&](const std::vector<double>& from, double share) {
        std::vector<double> less = from;
        for (auto& one : less)
            one = one > 0 ? std::max(1.0, std::min(one - 1, std::floor(one * share + course_slack))) : 0;
        return less;
    };
    if (any_most && athlete_.answer == PracticeAnswer::only_just)
        most = down(most, least_share_down);
    if (any_most && athlete_.answer == PracticeAnswer::no)
        most = down(most, workout_.settings.rehearsal);
    if (any_most && athlete_.answer)
        goal = windows_goal(held, most);
    most_ = most;
    plan_.goal = GoalLine{.goal = goal};
    std::vector<Input> from{
        step_input(Fact::predicted, say("predicted score"), {Measure::text, plan_.expected.reps, plan_.expected.text})};
    if (athlete_.goal)
        from.push_back({say("the coach's goal"), {Measure::number, athlete_.goal->rounds}, athlete_.goal_place});
    reason({.fact = Fact::goal,
            .what = say("Goal"),
            .from = std::move(from),
            .rule = say("the windows that hold; where a station is as many as fit, the same reps in each window"),
            .value = {Measure::text, goal.score.rounds, goal.score.text}});
    set_card();
    plan_.goal = windows_line(goal, plan_.card ? std::optional(plan_.card->advice.hold) : std::nullopt);
    if (any_most && most != down(most, least_share_down)) {
        most_ = down(most, least_share_down);
        plan_.next_down =
            windows_line(windows_goal(held, most_), plan_.card ? std::optional(plan_.card->floor) : std::nullopt);
        most_ = most;
    }
    Rehearsal rehearsal;
    const double fifth = rehearsed_work * held;
    rehearsal.easy_rounds =
        std::clamp(static_cast<int>(std::floor(fifth + course_slack)) - 1, 0, workout_.settings.rehearsal_rounds - 1);
    rehearsal.planned = std::min(1.0, fifth);
    rehearsal.planned_time = plan_.goal->target * rehearsal.planned;
    rehearsal.easy_time = plan_.goal->target / workout_.settings.rehearsal;
    if (plan_.card) {
        rehearsal.planned_rate = plan_.card->advice.hold;
        rehearsal.easy_rate = down_to_five(plan_.card->advice.hold * workout_.settings.rehearsal);
    }
    plan_.rehearsal = rehearsal;
    reason({.fact = Fact::clocks,
            .what = say("Clock at the end of windows and stations"),
            .from = {step_input(Fact::goal, say("goal"), {Measure::text, goal.score.rounds, goal.score.text})},
            .rule = say("each window from its start: the ergometer at the rate to hold, pauses as planned, everything "
                        "else at the mean pace of the task"),
            .value = {Measure::seconds, plan_.goal->target.value()}});
}

} // namespace pacecells
