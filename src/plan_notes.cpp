// What to put right or to know, one sentence each.
#include "planner.h"

#include "pacecells/clock.h"
#include "pacecells/load_table.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

std::string clock_of(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : std::string{};
}

Said old_test(Machine machine, double weeks) {
    switch (machine) {
    case Machine::row:
        return say("The test on the rower is older than %1 weeks: it is not used.", weeks);
    case Machine::ski:
        return say("The test on the ski ergometer is older than %1 weeks: it is not used.", weeks);
    case Machine::bike:
        return say("The test on the bike ergometer is older than %1 weeks: it is not used.", weeks);
    case Machine::armbike:
        break;
    }
    return say("The test on the fan bike is older than %1 weeks: it is not used.", weeks);
}

} // namespace

void Planner::add_notes() {
    auto& notes = plan_.notes;
    const auto& settings = workout_.settings;
    if (athlete_.name.empty())
        return;
    if (!athlete_.division) {
        notes.push_back(say("Enter a division."));
        return;
    }
    if (athlete_.plan == DayPlan::not_today) {
        notes.push_back(say("Not today."));
        return;
    }
    if (athlete_.consent_missing) {
        notes.push_back(say("A minor without the date of a guardian's consent: no plan and no card."));
        return;
    }
    if (plan_.end) {
        const auto clock = clock_of(*plan_.end);
        const bool easy = athlete_.plan == DayPlan::easy;
        if (!plan_.end_rounds)
            notes.push_back(
                easy ? say("Easy: stop at %1, at a pace at which you can talk.", clock)
                     : say("Technique: stop at %1; every rep clean, at a pace at which you can talk.", clock));
        else if (easy)
            notes.push_back(
                say("Easy: stop at %1 or after %2 rounds, whichever comes first, at a pace at which you can "
                    "talk.",
                    clock, *plan_.end_rounds));
        else
            notes.push_back(
                say("Technique: stop at %1 or after %2 rounds, whichever comes first; every rep clean, at a "
                    "pace at which you can talk.",
                    clock, *plan_.end_rounds));
        return;
    }
    notes.insert(notes.end(), athlete_.notes.begin(), athlete_.notes.end());

    if (settings.team > 1 && !athlete_.team)
        notes.push_back(say("In a team: planned as if the partners work at the same pace; %1% of the work is yours.",
                            std::round(100 * plan_.share)));

    for (const auto& machine : plan_.machines) {
        const auto& tests = athlete_.machines[static_cast<std::size_t>(machine.machine)];
        if ((tests.values || tests.time) && too_old(tests))
            notes.push_back(old_test(machine.machine, settings.test_weeks));
    }
    const auto* main = plan_.main ? rate_of_station(*plan_.main) : nullptr;
    if (main && main->source == RateSource::usual)
        notes.push_back(say("No test and no pace group: the usual pace of the middle is taken."));

    for (const auto& one : plan_.stations) {
        const auto& name = station(one.station).movement;
        if (one.sets && one.sets->too_hard) {
            notes.push_back(
                say("%1: breaks of more than 60 s would be needed; take a lighter or easier version.", name));
        } else if (one.sets && one.sets->open.runs().front().reps > 1 &&
                   (one.sets->rest > long_break || one.sets->rest * one.sets->open.rests() > long_breaks)) {
            notes.push_back(say("%1: breaks of %2 s between sets; think of a lighter load or the scaled version.", name,
                                one.sets->rest.value()));
        }
        const double reps = one.amounts.empty() ? 0 : *std::ranges::max_element(one.amounts);
        if (one.load_share)
            if (auto caution = load_caution(name, *one.load_share, own_units(one.station, reps)))
                notes.push_back(*std::move(caution));
    }
    if (settings.intended_low && settings.format == Format::amrap && plan_.expected.rounds < *settings.intended_low)
        notes.push_back(say("Predicted %1, but the workout is meant for %2 rounds or more: scale it.",
                            plan_.expected.text, *settings.intended_low));

    if (plan_.first_failing) {
        const auto& first = plan_.windows[static_cast<std::size_t>(*plan_.first_failing) - 1];
        notes.push_back(say("Window %1 is the first that does not hold, by %2 s: fewer reps, or scale.",
                            *plan_.first_failing, std::ceil(-first.spare.value() - course_slack)));
    }
    if (plan_.no_room) {
        notes.push_back(say("No ergometer is fast enough: the other stations alone take longer than the goal allows."));
    } else if (plan_.card && plan_.card->advice.situation == Situation::out_of_reach && plan_.card->needed) {
        const double find = std::ceil(plan_.card->to_find->value() - course_slack);
        if (plan_.next_down)
            notes.push_back(say("The goal needs %1 cal/h: take the next lower goal, %2, or find %3 s per round at the "
                                "other stations.",
                                plan_.card->needed->value(), plan_.next_down->goal.score.text, find));
        else
            notes.push_back(say("The goal needs %1 cal/h: find %2 s per round at the other stations.",
                                plan_.card->needed->value(), find));
    } else if (!plan_.card && settings.format != Format::intervals &&
               course_->seconds_to(plan_.goal->goal.score.point) >
                   1.03 * plan_.goal->goal.clock.value() * fade_factor()) {
        notes.push_back(say("The goal is above the predicted score, %1.", plan_.expected.text));
    }

    if (plan_.pacing_cost)
        notes.push_back(pacing_said());
    if (athlete_.pacing && settings.format == Format::intervals)
        notes.push_back(say("Intervals have no pacing: each window has clocks of its own."));
    if (athlete_.answer == PracticeAnswer::more_left)
        notes.push_back(say("Goal kept: open a little slower, push in the last quarter."));
    if (athlete_.answer == PracticeAnswer::only_just)
        notes.push_back(say("The next goal down, after the practice round."));
    if (athlete_.answer == PracticeAnswer::no)
        notes.push_back(say("The pace of the practice round is the goal."));
}

} // namespace pacecells
