#include "pacecells/team.h"

#include "pacecells/text.h"

#include "course.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numeric>

namespace pacecells {

namespace {

bool is_shared(Unit unit) { return unit != Unit::rest && unit != Unit::hold; }

const StationPlan* planned_at(const Plan& plan, std::size_t station) {
    const auto found = std::ranges::find(plan.stations, station, &StationPlan::station);
    return found == plan.stations.end() ? nullptr : &*found;
}

// Seconds of pause between own sets for a unit that the person does.
double pause_of_unit(const Plan& plan, const StationPlan& one) {
    double units = 0;
    double pauses = 0;
    for (std::size_t k = 0; k < std::min(one.amounts.size(), plan.fresh_rounds.size()); ++k) {
        units += one.amounts[k] * plan.share;
        pauses += one.pauses[k].value();
    }
    return units > 0 ? pauses / units : 0;
}

void append(std::string& text, double value) {
    std::array<char, 32> digits{};
    const auto written = std::to_chars(digits.data(), digits.data() + digits.size(), value);
    text.append(digits.data(), written.ptr);
    text += ' ';
}

// The text up to the next mark, which is taken away.
std::string_view piece(std::string_view& text, char mark) {
    const auto at = text.find(mark);
    const auto found = text.substr(0, at);
    text.remove_prefix(at == std::string_view::npos ? text.size() : at + 1);
    return found;
}

std::optional<double> number(std::string_view& text) {
    const auto word = piece(text, ' ');
    double value = 0;
    const auto read = std::from_chars(word.data(), word.data() + word.size(), value);
    if (word.empty() || read.ptr != word.data() + word.size() || !std::isfinite(value))
        return {};
    return value;
}

} // namespace

double TeamPart::Station::units(double amount) const {
    const auto until = [&](double shares) { return std::floor(amount * shares + 0.5 + course_slack); };
    return until(before + share) - until(before);
}

std::vector<double> typed_shares(std::string_view split) {
    std::vector<double> shares;
    while (!split.empty()) {
        const auto word = trim(piece(split, '/'));
        double value = 0;
        const auto read = std::from_chars(word.data(), word.data() + word.size(), value);
        if (word.empty() || read.ptr != word.data() + word.size() || !(value > 0))
            return {};
        shares.push_back(value);
    }
    const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
    for (auto& one : shares)
        one /= sum;
    return shares;
}

std::vector<TeamPart> team_parts(const Workout& workout, std::span<const Member> members) {
    const std::size_t people = members.size();
    if (people < 2)
        return {};
    const auto& settings = workout.settings;
    const double at_once =
        static_cast<double>(std::min<std::size_t>(people, static_cast<std::size_t>(settings.at_once)));
    const bool any = find_word(WordList::split, settings.split).has_value();
    const auto typed = typed_shares(settings.split);
    std::vector<TeamPart> parts(people);
    for (auto& one : parts)
        one.stations.resize(workout.stations.size());
    for (std::size_t i = 0; i < workout.stations.size(); ++i) {
        if (!is_shared(workout.stations[i].unit))
            continue;
        std::vector<double> shares(people, 1.0);
        for (std::size_t j = 0; j < people; ++j) {
            const auto* one = planned_at(*members[j].plan, i);
            if (typed.size() == people)
                shares[j] = typed[j];
            else if (any && one)
                shares[j] = 1 / one->seconds_each;
        }
        const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
        double before = 0;
        double longest = 0;
        double all = 0;
        for (std::size_t j = 0; j < people; ++j) {
            const double share = shares[j] / sum;
            parts[j].stations[i].before = before;
            parts[j].stations[i].share = share;
            before += share;
            if (const auto* one = planned_at(*members[j].plan, i)) {
                all += share * one->seconds_each;
                longest = std::max(longest, share * (one->seconds_each + pause_of_unit(*members[j].plan, *one)));
            }
        }
        for (auto& one : parts)
            one.stations[i].seconds = std::max(longest, all / at_once);
    }
    double spread = 0;
    double spread_below = 0;
    std::optional<PracticeAnswer> answer;
    std::optional<TypedGoal> goal;
    for (const auto& [athlete, plan] : members) {
        spread += plan->spread * plan->spread;
        spread_below += plan->spread_below * plan->spread_below;
        if (athlete->answer)
            answer = std::max(answer.value_or(*athlete->answer), *athlete->answer);
        if (!goal)
            goal = athlete->goal;
    }
    for (auto& one : parts) {
        one.spread = std::sqrt(spread);
        one.spread_below = std::sqrt(spread_below);
        one.answer = answer;
        one.goal = goal;
    }
    return parts;
}

void join(Athlete& athlete, TeamPart part) {
    athlete.answer = part.answer;
    athlete.goal = part.goal;
    athlete.team = std::move(part);
}

void join_team(const Workout& workout, std::span<Athlete> people) {
    if (workout.settings.team < 2)
        return;
    std::vector<Plan> plans;
    plans.reserve(people.size());
    std::vector<Member> members;
    std::vector<Athlete*> planned;
    for (auto& one : people) {
        plans.push_back(plan_for(workout, one));
        if (!plans.back().planned)
            continue;
        members.push_back({&one, &plans.back()});
        planned.push_back(&one);
    }
    auto parts = team_parts(workout, members);
    for (std::size_t i = 0; i < parts.size(); ++i)
        join(*planned[i], std::move(parts[i]));
}

std::string team_part_text(const TeamPart& part) {
    std::string text;
    append(text, part.spread);
    append(text, part.spread_below);
    append(text, part.answer ? static_cast<int>(*part.answer) : -1);
    append(text, part.goal ? static_cast<int>(part.goal->kind) : -1);
    const auto goal = part.goal.value_or(TypedGoal{});
    append(text, goal.rounds);
    append(text, goal.reps);
    append(text, static_cast<double>(goal.station));
    append(text, goal.time.value());
    for (const auto& one : part.stations) {
        append(text, one.before);
        append(text, one.share);
        append(text, one.seconds);
    }
    return text;
}

std::optional<TeamPart> parse_team_part(std::string_view text, std::size_t stations) {
    constexpr std::size_t head = 8;
    std::vector<double> values;
    while (!text.empty()) {
        const auto value = number(text);
        if (!value || (*value < 0 && !(*value == -1 && (values.size() == 2 || values.size() == 3))))
            return {}; // no answer and no goal are -1
        values.push_back(*value);
    }
    if (values.size() != head + 3 * stations)
        return {};
    const auto below = [&](std::size_t i, double limit) {
        return values[i] < limit && values[i] == std::floor(values[i]);
    };
    if (!below(2, 3) || !below(3, 4) || !below(6, most_stations))
        return {};
    TeamPart part{.stations = {}, .spread = values[0], .spread_below = values[1]};
    if (values[2] >= 0)
        part.answer = static_cast<PracticeAnswer>(values[2]);
    if (values[3] >= 0)
        part.goal = TypedGoal{.kind = static_cast<TypedGoal::Kind>(values[3]),
                              .rounds = values[4],
                              .reps = values[5],
                              .station = static_cast<std::size_t>(values[6]),
                              .time = Seconds{values[7]}};
    for (std::size_t i = head; i < values.size(); i += 3) {
        const TeamPart::Station one{values[i], values[i + 1], values[i + 2]};
        if (!(one.share > 0 && one.before + one.share <= 1 + course_slack))
            return {};
        part.stations.push_back(one);
    }
    if (part.goal) {
        const auto& goal = *part.goal;
        const bool some = goal.kind == TypedGoal::Kind::time      ? goal.time.value() > 0
                          : goal.kind == TypedGoal::Kind::station ? goal.station < stations
                                                                  : goal.rounds + goal.reps > 0;
        if (!some || goal.rounds >= most_plan_rounds)
            return {};
    }
    return part;
}

std::vector<Turns> turns_of(const Workout& workout, const Plan& plan) {
    std::vector<Turns> all;
    const bool in_turns = workout.settings.at_once < workout.settings.team;
    for (const auto& one : plan.stations) {
        const auto unit = workout.stations[one.station].unit;
        if (!is_shared(unit) || !(one.part >= 1))
            continue;
        Turns turns{.station = one.station, .part = one.part, .scheme = {}};
        const int part = static_cast<int>(std::min(one.part, double{Scheme::max_reps}));
        const double seconds = one.part * one.seconds_each;
        if (one.sets && one.sets->open.reps() == part)
            turns.scheme = one.sets->open;
        else if (in_turns && (unit == Unit::rep || machine_of(unit)) && one.part <= Scheme::max_reps)
            if (const auto even = Scheme::near_even(
                    part,
                    std::clamp(static_cast<int>(std::ceil(seconds / longest_turn.value() - course_slack)), 1, part)))
                turns.scheme = *even;
        const double first = turns.scheme ? turns.scheme->runs().front().reps : one.part;
        turns.longest = Seconds{first * one.seconds_each};
        if (turns.scheme && turns.scheme->sets() == 1)
            turns.scheme.reset();
        all.push_back(std::move(turns));
    }
    return all;
}

} // namespace pacecells
