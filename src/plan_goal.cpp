// Steps 5 and 6: the predicted score with its range, and the goal.
#include "planner.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr double shortest_share = 0.5; // the upper end of the range is at most twice the expected pace

constexpr std::size_t longest_in_goal =
    14; // characters of a movement (judgement: what the clocks of a card have room for)

double down_to(double value, double step) { return std::floor(value / step + course_slack) * step; }
double up_to(double value, double step) { return std::ceil(value / step - course_slack) * step; }
// A goal of 0.5 rounds is found again as 0.4999... on its course.
double tenths_down(double rounds) { return std::floor(10 * rounds + course_slack) / 10; }

std::string clock_of(double seconds) {
    const auto text = clock_text(Seconds{seconds});
    return text ? *text : std::string{};
}

} // namespace

// "6", "5 + Sandbags", "Sandbags" in the first round, a long name by one word; inside a station "5+14" where reps count, else "5.4".
std::string Planner::goal_text(const Point& point) const {
    if (!(point.amount > 0))
        return number_text(point.rounds);
    const auto leg = std::ranges::find(course_->round(point.rounds + 1).legs, point.station, &Leg::station);
    if (point.amount >= leg->amount - course_slack) {
        const auto& whole = station(point.station).movement;
        const auto name = characters(whole) > longest_in_goal ? workout_.short_name(point.station) : whole;
        return point.rounds == 0 ? name : number_text(point.rounds) + " + " + name;
    }
    const double before = course_->reps_to({.rounds = point.rounds});
    const double reps = course_->reps_to(point) - before;
    if (course_->round(point.rounds + 1).points > 0)
        return number_text(point.rounds) + "+" + number_text(reps);
    return number_text(tenths_down(course_->rounds_to(point)));
}

Score Planner::score_of(const Point& point) const {
    Score score{.rounds = course_->rounds_to(point), .reps = course_->reps_to(point), .point = point, .text = {}};
    const bool counts = course_->rounds().front().points > 0;
    if (for_time()) {
        const double left = course_->reps_to(course_->end()) - score.reps;
        score.text = counts ? "CAP+" + number_text(left) : goal_text(point);
        return score;
    }
    if (!counts) {
        score.text = number_text(tenths_down(score.rounds));
        return score;
    }
    const double reps = score.reps - course_->reps_to({.rounds = point.rounds});
    score.text = number_text(point.rounds);
    if (reps > 0)
        score.text += "+" + number_text(reps);
    return score;
}

Goal Planner::goal_at(const Point& point, Seconds clock) const {
    Goal goal{.score = score_of(point), .clock = clock};
    goal.score.text = goal_text(point);
    if (for_time() && point.rounds >= course_->size()) {
        goal.score.time = clock;
        goal.score.text = clock_of(clock.value());
    }
    return goal;
}

// One standard deviation of the time, as a share: the rates by their doubts, other stations by other_error (own seconds
// by the day's), and for the lower end the sets to fall back on, station by station. All are taken for independent of
// each other (judgement).
double Planner::spread(bool lower_end) const {
    double total = 0;
    double others = 0;
    std::array<double, 4> machines{};
    std::vector<double> pauses(workout_.stations.size(), 0);
    for (int k = 1; k <= std::min(whole_rounds_, course_->size()); ++k)
        for (const auto& leg : course_->round(k).legs) {
            total += leg.busy();
            if (const auto* rate = rate_of_station(leg.station)) {
                const double slower =
                    seconds_each_at(leg.station, scaled_rate(rate->machine, rate_at(leg.station, each_[leg.station]),
                                                             std::exp(-rate->doubt)));
                machines[static_cast<std::size_t>(rate->machine)] +=
                    leg.amount * own_part(leg.station) * slower - leg.work;
            } else if (station(leg.station).unit != Unit::rest && station(leg.station).unit != Unit::hold) {
                others += leg.work * (athlete_.movements[leg.station].rep ? day_error : other_error);
            }
            const auto& fall_back = fall_back_pauses_[leg.station];
            if (lower_end && !fall_back.empty())
                pauses[leg.station] +=
                    fall_back[std::min(static_cast<std::size_t>(k), fall_back.size()) - 1].value() - leg.pause;
        }
    double variance = others * others;
    for (const double one : machines)
        variance += one * one;
    for (const double one : pauses)
        variance += std::pow(std::max(0.0, one), 2);
    return total > 0 ? std::sqrt(variance) / total : 0;
}

void Planner::predict() {
    const double fresh = workout_.settings.cap.value() * fade_factor();
    const double finish = course_->seconds_to(course_->end());
    plan_.spread = spread(false);
    plan_.spread_below = spread(true);
    const double sd = athlete_.team ? athlete_.team->spread : plan_.spread;
    const double sd_below = athlete_.team ? athlete_.team->spread_below : plan_.spread_below;
    if (intervals()) {
        predict_windows(sd, sd_below);
        return;
    }
    const auto at = [&](double slower) {
        if (for_time() && finish * slower <= fresh + course_slack) {
            Score score = score_of(course_->end());
            score.time = Seconds{finish * slower / fade_factor()};
            score.text = clock_of(score.time->value());
            return score;
        }
        return score_of(course_->point_at(fresh / slower));
    };
    plan_.expected = at(1);
    plan_.low = at(1 + range_sd * sd_below);
    plan_.high = at(std::max(shortest_share, 1 - range_sd * sd));
    if (!reasons_)
        return;
    const auto value = [](const Score& score) { return Value{Measure::text, score.rounds, score.text}; };
    reason({.fact = Fact::round_time,
            .what = say("Time of a fresh round, pauses included"),
            .from = rate_input(),
            .rule = say("the stations one after the other: work, pauses, handling and walking"),
            .value = {Measure::seconds, plan_.round_time.value()}});
    const auto fade = setting_input("fade", say("fade of round times"), {Measure::share, workout_.settings.fade});
    const auto cap = setting_input("cap", say("cap"), {Measure::seconds, workout_.settings.cap.value()});
    const auto round =
        step_input(Fact::round_time, say("time per round"), {Measure::seconds, plan_.round_time.value()});
    reason({.fact = Fact::predicted,
            .what = say("Predicted score"),
            .from = {cap, fade, round},
            .rule = say("the stations walked one by one until the cap less half the fade; whole units count"),
            .value = value(plan_.expected)});
    const auto known = [](double share) {
        return Input{say("how well the time is known"), {Measure::share, share}, {}, {}};
    };
    reason({.fact = Fact::low,
            .what = say("Lower end of the range"),
            .from = {step_input(Fact::predicted, say("predicted score"), value(plan_.expected)), known(sd_below)},
            .rule = say("slower by 1.28 standard errors of the rates, the other stations and the sets: one in ten ends "
                        "below"),
            .value = value(plan_.low)});
    reason({.fact = Fact::high,
            .what = say("Upper end of the range"),
            .from = {step_input(Fact::predicted, say("predicted score"), value(plan_.expected)), known(sd)},
            .rule = say("faster by 1.28 standard errors: one in ten ends above"),
            .value = value(plan_.high)});
}

Score Planner::usual_score(Seconds clock, double factor) const {
    const double fresh = clock.value() * fade_factor() * factor;
    Score score = score_of(course_->point_at(fresh));
    const double finish = course_->seconds_to(course_->end());
    if (for_time() && finish <= fresh + course_slack) {
        score.time = Seconds{finish / fade_factor() / factor};
        score.text = clock_of(score.time->value());
    }
    return score;
}

Point Planner::last_end(const Point& point) const {
    Point last{.rounds = point.rounds};
    if (point.rounds >= course_->size())
        return last;
    for (const auto& leg : course_->round(point.rounds + 1).legs)
        if (leg.station < point.station || (leg.station == point.station && point.amount >= leg.amount - course_slack))
            last = {.rounds = point.rounds, .station = leg.station, .amount = leg.amount};
    return last;
}

std::optional<Goal> Planner::suggested() const {
    const auto& settings = workout_.settings;
    const double slower = 1 + pacing_cost_of(task_).value() / task_.value();
    const double fresh = last_moment().value() * fade_factor() / slower;
    const double finish = course_->seconds_to(course_->end());
    if (for_time() && finish <= fresh + course_slack) {
        const double step = settings.goal_step_time.value();
        return goal_at(course_->end(),
                       Seconds{std::min(last_moment().value(), up_to(finish * slower / fade_factor(), step))});
    }
    if (settings.goal_step) {
        const double rounds = course_->rounds_to(course_->point_at(fresh));
        return goal_at(course_->point_of(std::max(*settings.goal_step, down_to(rounds, *settings.goal_step))),
                       last_moment());
    }
    return goal_at(course_->station_end_by(fresh).value_or(course_->first_station_end()), last_moment());
}

std::optional<Goal> Planner::own_goal() const {
    if (!athlete_.goal)
        return {};
    const auto& typed = *athlete_.goal;
    switch (typed.kind) {
    case TypedGoal::Kind::time:
        return goal_at(course_->end(), typed.time);
    case TypedGoal::Kind::rounds:
        return goal_at(course_->point_of(typed.rounds), last_moment());
    case TypedGoal::Kind::station:
        break;
    case TypedGoal::Kind::score: {
        const int whole = static_cast<int>(typed.rounds);
        if (!(typed.reps > 0) || whole >= course_->size())
            return goal_at({.rounds = whole}, last_moment());
        double left = typed.reps;
        for (const auto& leg : course_->round(whole + 1).legs) {
            const double each = station(leg.station).points();
            if (each > 0 && each * leg.amount >= left)
                return goal_at(course_->tidied({.rounds = whole, .station = leg.station, .amount = left / each}),
                               last_moment());
            left -= each * std::floor(leg.amount + course_slack);
        }
        return goal_at({.rounds = whole + 1}, last_moment());
    }
    }
    const int whole = static_cast<int>(typed.rounds);
    const double amount = station(typed.station).amount(division_, whole + 1, given_rounds_);
    if (!(amount > 0))
        return {}; // a partner of another division does it
    return goal_at(course_->tidied({.rounds = whole, .station = typed.station, .amount = amount}), last_moment());
}

// A goal that is slower by that factor: a later time, else the last end of a station (or step) reached at that pace.
std::optional<Goal> Planner::goal_down(const Goal& goal, double slower, bool one_step) const {
    const auto& settings = workout_.settings;
    double clock = goal.clock.value();
    if (goal.score.time) {
        const double step = settings.goal_step_time.value();
        const double later = std::max(up_to(clock * slower, step), clock + step);
        if (later <= last_moment().value() + course_slack)
            return goal_at(goal.score.point, Seconds{later});
    }
    const double reached = course_->seconds_to(goal.score.point) * (last_moment().value() / clock) / slower;
    if (settings.goal_step) {
        const double step = *settings.goal_step;
        const double before = goal.score.rounds;
        const double most =
            one_step ? up_to(before - step, step) : down_to(course_->rounds_to(course_->point_at(reached)), step);
        const double rounds = std::max(step, std::min(most, up_to(before - step, step)));
        if (!(rounds < before - course_slack))
            return {};
        return goal_at(course_->point_of(rounds), last_moment());
    }
    const auto point = course_->station_end_by(reached).value_or(course_->first_station_end());
    if (!(course_->seconds_to(point) < course_->seconds_to(goal.score.point) - course_slack))
        return {};
    return goal_at(point, last_moment());
}

} // namespace pacecells
