#include "pacecells/athlete_plan.h"

#include "planner.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr int first_rounds = 8;      // a course starts with so many and grows as needed
constexpr double course_reserve = 2; // of the cap: as far as the upper end of the range may reach

} // namespace

Planner::Planner(const Workout& workout, const Athlete& athlete, Reasons* reasons)
    : workout_(workout), athlete_(athlete), reasons_(reasons), division_(athlete.division.value_or(0)),
      given_rounds_(workout.rounds(division_)) {
    if (athlete.group)
        group_ = workout.groups[*athlete.group];
    share_ = workout.settings.team > 1 ? athlete.share.value_or(1.0 / workout.settings.team) : 1;
    plan_.share = share_;
    plan_.in_team = athlete.team.has_value();
    plan_.division = division_;
    plan_.main = workout.main_ergometer(division_);
}

std::optional<std::size_t> Planner::reason(Step step) const {
    if (!reasons_)
        return {};
    return reasons_->add(std::move(step));
}

Input Planner::setting_input(std::string_view key, Said what, Value value) const {
    return {std::move(what), std::move(value), workout_.place(key), {}};
}

Input Planner::step_input(Fact fact, Said what, Value value, std::optional<std::size_t> i) const {
    return {std::move(what), std::move(value), {}, reasons_ ? reasons_->find(fact, i) : std::nullopt};
}

std::vector<Input> Planner::rate_input() const {
    if (!plan_.main)
        return {};
    return {step_input(Fact::rate, say("rate to plan with"),
                       {Measure::cal_per_hour, rate_of_station(*plan_.main)->rate.value()}, plan_.main)};
}

// As many rounds as so many seconds hold, and one more.
Course Planner::course_for(const std::vector<double>& seconds_each, double seconds, int at_least,
                           bool with_pauses) const {
    Course::Pace pace{.seconds_each = seconds_each, .share = share_};
    if (athlete_.team)
        pace.team = &*athlete_.team;
    if (with_pauses)
        pace.pauses = pauses_;
    if (given_rounds_)
        return {workout_, division_, pace, *given_rounds_};
    int rounds = std::max(first_rounds, at_least + 1);
    for (;;) {
        Course course{workout_, division_, pace, std::min(rounds, most_plan_rounds)};
        if (rounds >= most_plan_rounds || course.total() > seconds)
            return course;
        rounds *= 2;
    }
}

void Planner::prepare() {
    const double cap = workout_.settings.cap.value();
    const double fresh = cap * fade_factor();
    const double far = course_reserve * cap;
    int at_least = 1;
    if (athlete_.goal && athlete_.goal->kind != TypedGoal::Kind::time)
        at_least = static_cast<int>(std::ceil(athlete_.goal->rounds)) + 1;
    const auto expected = [&](const Course& course) {
        if (given_rounds_)
            return *given_rounds_;
        return std::max(1, static_cast<int>(std::ceil(course.rounds_to(course.point_at(fresh)) - course_slack)));
    };
    for (std::size_t i = 0; i < workout_.stations.size(); ++i)
        if (!station(i).divisions[division_].amounts.list.empty())
            plan_.stations.push_back({.station = i});

    set_base_pace();
    base_ = course_for(base_each_, far, at_least, false);
    task_ = Seconds{cap};
    if (for_time())
        task_ = Seconds{std::min(cap, base_->total() / fade_factor())};
    whole_rounds_ = expected(*base_);

    set_rates(nullptr);
    course_ = course_for(each_, far, at_least, false);
    whole_rounds_ = expected(*course_);
    reason({.fact = Fact::first_pass,
            .what = say("Rounds expected before pauses are planned"),
            .from = {setting_input("cap", say("cap"), {Measure::seconds, cap})},
            .rule = say("the stations walked without pauses; up to the next whole round"),
            .value = {Measure::rounds, static_cast<double>(whole_rounds_)}});

    set_sets();
    set_rates(reasons_);
    course_ = course_for(each_, far, at_least, true);
    if (plan_.main)
        plan_.other = other_of(*machine_of(station(*plan_.main).unit));
    const bool first_differs =
        std::ranges::any_of(workout_.stations, [](const Station& one) { return one.when == When::first; });
    plan_.round_time = Seconds{course_->round(first_differs && course_->size() > 1 ? 2 : 1).time};
    for (int k = 1; k <= std::min(whole_rounds_, course_->size()); ++k)
        plan_.fresh_rounds.emplace_back(course_->round(k).time);
    predict();
}

void Planner::plan_goal() {
    if (intervals()) {
        plan_windows();
        add_stations();
        return;
    }
    set_pacing(wanted_pacing());
    plan_.suggested = suggested();
    if (athlete_.answer == PracticeAnswer::more_left)
        set_pacing(Pacing::faster);
    const auto own = own_goal();
    Goal goal = own ? *own : *plan_.suggested;
    std::optional<Goal> moved;
    if (athlete_.answer == PracticeAnswer::only_just)
        moved = goal_down(goal, 1 + least_step_down, true);
    if (athlete_.answer == PracticeAnswer::no)
        moved = goal_down(goal, 1 / workout_.settings.rehearsal, false);
    if (moved)
        goal = *moved;

    if (reasons_) {
        const auto value = [](const Goal& one) { return Value{Measure::text, one.score.rounds, one.score.text}; };
        reason({.fact = Fact::suggested,
                .what = say("Suggested goal"),
                .from = {step_input(Fact::predicted, say("predicted score"),
                                    {Measure::text, plan_.expected.rounds, plan_.expected.text}),
                         setting_input("slip_s", say("a goal ends so long before the cap"),
                                       {Measure::seconds, workout_.settings.slip.value()})},
                .rule = say("the last end of a station, or step, that the predicted pace reaches in time"),
                .value = value(*plan_.suggested)});
        Step step{.fact = Fact::goal,
                  .what = say("Goal"),
                  .from = {step_input(Fact::suggested, say("suggested goal"), value(*plan_.suggested))},
                  .rule = say("the suggested goal"),
                  .value = value(goal)};
        if (own) {
            step.from = {{say("the coach's goal"), value(*own), athlete_.goal_place}};
            step.rule = say("the coach's goal");
        }
        if (athlete_.answer) {
            step.from.push_back({say("answer after the practice round"),
                                 {Measure::text, 0,
                                  std::string(word(WordList::answer, static_cast<std::size_t>(*athlete_.answer),
                                                   workout_.settings.language))},
                                 athlete_.answer_place});
            if (athlete_.answer == PracticeAnswer::only_just)
                step.rule = say("only just: the next goal down");
            if (athlete_.answer == PracticeAnswer::no)
                step.rule = say("no: the pace of the practice round is the goal");
        }
        reason(std::move(step));
    }

    plan_.goal = GoalLine{.goal = goal};
    set_card();
    const auto hold = plan_.card ? std::optional(plan_.card->advice.hold) : std::nullopt;
    plan_.goal = line_of(goal, hold, plan_.drift);
    explain_pacing();
    if (const auto down = goal_down(goal, 1 + least_step_down, true)) {
        plan_.next_down = line_of(*down, plan_.card ? std::optional(plan_.card->floor) : std::nullopt, 0);
        reason({.fact = Fact::next_down,
                .what = say("Next goal down"),
                .from = {step_input(Fact::goal, say("goal"), {Measure::text, goal.score.rounds, goal.score.text})},
                .rule = say("the last end of a station, or step, at a pace that is slower by 4% or more"),
                .value = {Measure::text, down->score.rounds, down->score.text}});
    }
    const auto goal_input = step_input(Fact::goal, say("goal"), {Measure::text, goal.score.rounds, goal.score.text});
    reason({.fact = Fact::target,
            .what = say("Time per round"),
            .from = {goal_input},
            .rule = say(
                "the time to the goal shared out: ergometers and pauses take theirs, everything else in proportion"),
            .value = {Measure::seconds, plan_.goal->target.value()}});
    std::vector<Input> from{goal_input};
    if (hold)
        from.push_back(step_input(Fact::hold, say("rate to hold"), {Measure::cal_per_hour, hold->value()}));
    reason({.fact = Fact::clocks,
            .what = say("Clock at the end of rounds and stations"),
            .from = std::move(from),
            .rule = athlete_.team
                        ? say("what the team takes for each station, in proportion")
                        : say("ergometers at the rate to hold, pauses as planned, everything else in proportion"),
            .value = {Measure::seconds, goal.clock.value()}});

    if (plan_.next_down) {
        const double wanted = check_at * std::min(workout_.settings.cap, goal.clock).value();
        const auto& rounds = plan_.goal->rounds;
        const auto& lower = plan_.next_down->rounds;
        for (std::size_t k = 0; k < std::min(rounds.size(), lower.size()); ++k) {
            if (!rounds[k].whole || !lower[k].whole || k + 1 == rounds.size())
                continue;
            const auto apart = [&](int round) {
                return std::abs(rounds[static_cast<std::size_t>(round) - 1].clock.value() - wanted);
            };
            if (!plan_.check_round || apart(rounds[k].round) < apart(*plan_.check_round)) {
                plan_.check_round = rounds[k].round;
                plan_.check_clock = (rounds[k].clock + lower[k].clock) / 2;
            }
        }
    }
    set_rehearsal();
    add_stations();
}

// What is to be done at each station of the rounds that the plan is about.
void Planner::add_stations() {
    const int shown = std::max(whole_rounds_, plan_.goal->goal.score.point.rounds + 1);
    for (auto& one : plan_.stations) {
        const std::size_t i = one.station;
        one.seconds_each = each_[i];
        for (int k = course_->size(); k > 0; --k)
            if (const double amount = station(i).amount(division_, k, given_rounds_); amount > 0)
                one.part = workout_.settings.team > 1 && is_shared(i) ? own_units(i, amount) : amount;
        one.extra = Seconds{station(i).handling.value() +
                            station(i).steps.value_or(workout_.settings.steps) * workout_.settings.step_s};
        if (machine_of(station(i).unit))
            one.rate = rate_at(i, each_[i]);
        for (int k = 1; k <= std::min(shown, course_->size()); ++k) {
            one.amounts.push_back(station(i).amount(division_, k, given_rounds_));
            const auto& pauses = pauses_[i];
            one.pauses.push_back(pauses.empty() ? Seconds{0}
                                                : pauses[std::min(static_cast<std::size_t>(k), pauses.size()) - 1]);
        }
        const auto& load = station(i).divisions[division_].load;
        if (load && athlete_.movements[i].maximum)
            one.load_share = *load / *athlete_.movements[i].maximum;
    }
}

namespace {

void note_end(Reasons& reasons, const Workout& workout, const Plan& plan) {
    Step step{.fact = Fact::end, .what = {}, .from = {}, .rule = {}, .value = {}};
    step.what = say("Where an easy plan ends");
    Input cap;
    cap.what = say("cap");
    cap.value.measure = Measure::seconds;
    cap.value.number = workout.settings.cap.value();
    cap.place = workout.place("cap");
    step.from.push_back(std::move(cap));
    step.rule = plan.end_rounds ? say("half the cap or three rounds, whichever comes first") : say("half the cap");
    step.value.measure = Measure::seconds;
    step.value.number = plan.end->value();
    reasons.add(std::move(step));
}

} // namespace

Plan plan_for(const Workout& typed, const Athlete& athlete, Reasons* reasons) {
    const auto filled = with_amounts(typed, athlete);
    const Workout& workout = filled ? *filled : typed;
    Planner planner{workout, athlete, reasons};
    Plan& plan = planner.plan();
    plan.day = athlete.plan;
    const bool may = !athlete.name.empty() && athlete.division && !athlete.consent_missing;
    plan.planned = may && athlete.plan == DayPlan::full;
    if (plan.planned) {
        planner.prepare();
        planner.plan_goal();
    } else if (may && athlete.plan != DayPlan::not_today) {
        plan.end = workout.settings.cap * end_of_easy;
        if (const auto rounds = workout.rounds(*athlete.division); !rounds || *rounds > easy_rounds)
            plan.end_rounds = easy_rounds;
        if (reasons)
            note_end(*reasons, workout, plan);
    }
    planner.add_notes();
    return std::move(plan);
}

} // namespace pacecells
