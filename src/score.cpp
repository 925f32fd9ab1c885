#include "pacecells/score.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include "check.h"

namespace pacecells {
namespace {

constexpr double slack = 1e-9; // what a whole number may be short of itself after arithmetic
constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double most_reps = 1e15; // whole numbers are still exact there

bool whole(double value) { return std::isfinite(value) && value == std::floor(value); }

bool valid_reps_per_round(double reps) { return whole(reps) && reps >= 1 && reps <= 1e9; }

Error bad_reps_per_round(double reps) {
    return out_of_domain("The reps per round must be a whole number from 1; got %1.", reps);
}

Error beyond_the_list() { return no_solution("The score goes beyond the rounds with known reps."); }

std::string said(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : number_text(time.value()) + " s";
}

std::optional<Error> bad_cap(Seconds cap) {
    if (!positive(cap.value()))
        return out_of_domain("The cap must be above 0 s; got %1.", cap.value());
    return {};
}

bool same_length(const Field& field) {
    return (field.groups.empty() || field.groups.size() == field.scores.size()) &&
           (field.tiebreaks.empty() || field.tiebreaks.size() == field.scores.size());
}

bool bad_number(std::optional<double> value) { return value && !std::isfinite(*value); }

// The field's columns fit, and its numbers are numbers.
std::optional<Error> bad_field(const Field& field) {
    if (!same_length(field))
        return out_of_domain("Scores, groups and tie-breaks need ranges of equal height.");
    for (const auto& score : field.scores)
        if (bad_number(score))
            return out_of_domain("A score is not a number.");
    for (const auto& tiebreak : field.tiebreaks)
        if (bad_number(tiebreak))
            return out_of_domain("A tie-break is not a number.");
    return {};
}

std::optional<Error> bad_standing(const Standing& athlete, bool grouped, bool tiebroken) {
    if (bad_number(athlete.score))
        return out_of_domain("A score is not a number.");
    if (bad_number(athlete.tiebreak))
        return out_of_domain("A tie-break is not a number.");
    if (!grouped && !athlete.group.empty())
        return out_of_domain("A group needs the range of groups.");
    if (!tiebroken && athlete.tiebreak)
        return out_of_domain("A tie-break needs the range of tie-breaks.");
    return {};
}

Error not_in_field(const Standing& athlete) {
    return out_of_domain("The score %1 is not among the scores of this group with this tie-break.", athlete.score);
}

double rank_score(double score, Order order) { return order == Order::high_wins ? -score : score; }

} // namespace

Result<RepsPerRound> RepsPerRound::every_round(double reps) {
    if (!valid_reps_per_round(reps))
        return bad_reps_per_round(reps);
    RepsPerRound made;
    made.every_ = reps;
    return made;
}

Result<RepsPerRound> RepsPerRound::by_round(std::span<const double> reps) {
    if (reps.empty())
        return out_of_domain("The reps per round are empty; a number for each round is needed.");
    for (const double each : reps)
        if (!valid_reps_per_round(each))
            return bad_reps_per_round(each);
    RepsPerRound made;
    made.every_ = reps.front();
    if (reps.size() > 1)
        made.list_ = reps;
    return made;
}

std::optional<double> RepsPerRound::of_round(double round) const {
    if (list_.empty())
        return every_;
    if (!(round >= 1) || !(round <= static_cast<double>(list_.size())))
        return {};
    return list_[static_cast<std::size_t>(round) - 1];
}

std::optional<double> RepsPerRound::of_rounds(double rounds) const {
    if (list_.empty())
        return rounds * every_;
    const auto known = static_cast<double>(list_.size());
    if (!(rounds >= 0) || !(rounds <= known + slack))
        return {};
    double reps = 0;
    for (std::size_t i = 0; i < list_.size() && rounds > 0; ++i, --rounds)
        reps += list_[i] * std::min(rounds, 1.0);
    return reps;
}

std::optional<RoundsAndReps> RepsPerRound::split(double reps) const {
    reps = std::floor(reps + slack);
    if (list_.empty()) {
        const double rest = std::fmod(reps, every_);
        return RoundsAndReps{.rounds = (reps - rest) / every_, .reps = rest};
    }
    double rounds = 0;
    for (const double round : list_) {
        if (reps < round)
            return RoundsAndReps{.rounds = rounds, .reps = reps};
        reps -= round;
        ++rounds;
    }
    if (reps > 0)
        return {};
    return RoundsAndReps{.rounds = rounds, .reps = 0};
}

Result<RoundsAndReps> parse_score(std::string_view text) {
    const auto refuse = [text] {
        return out_of_domain(
            "The score is %1; rounds, + and reps such as \"7+21\" are needed, or total reps as a number.",
            quoted(text));
    };
    const std::size_t plus = text.find('+');
    if (plus == std::string_view::npos)
        return refuse();
    const auto read = [](std::string_view part) -> std::optional<double> {
        part = trim(part);
        if (part.empty() || part.size() > 9)
            return {};
        double value = 0;
        for (const char digit : part) {
            if (digit < '0' || digit > '9')
                return {};
            value = 10 * value + (digit - '0');
        }
        return value;
    };
    const auto rounds = read(text.substr(0, plus));
    const auto reps = read(text.substr(plus + 1));
    if (!rounds || !reps)
        return refuse();
    return RoundsAndReps{.rounds = *rounds, .reps = *reps};
}

Result<Reps> reps_of(RoundsAndReps score, const RepsPerRound& reps_per_round) {
    if (!whole(score.rounds) || score.rounds < 0 || !whole(score.reps) || score.reps < 0)
        return out_of_domain("A score needs whole rounds and whole reps, none below 0.");
    const auto done = reps_per_round.of_rounds(score.rounds);
    if (!done)
        return beyond_the_list();
    if (score.reps > 0) {
        const auto next = reps_per_round.of_round(score.rounds + 1);
        if (!next)
            return beyond_the_list();
        if (!(score.reps < *next))
            return out_of_domain(
                "The score has %1 reps after the +, but that round has %2; a full round counts before the +.",
                score.reps, *next);
    }
    return Reps{*done + score.reps};
}

Result<double> rounds_of(RoundsAndReps score, const RepsPerRound& reps_per_round) {
    if (auto reps = reps_of(score, reps_per_round); !reps)
        return reps.error();
    if (score.reps == 0)
        return score.rounds;
    return score.rounds + score.reps / *reps_per_round.of_round(score.rounds + 1);
}

Result<std::string> score_text(Reps reps, const RepsPerRound& reps_per_round) {
    if (!(reps.value() >= 0) || !(reps.value() <= most_reps))
        return out_of_domain("The reps must be 0 or more; got %1.", reps.value());
    const auto score = reps_per_round.split(reps.value());
    if (!score)
        return beyond_the_list();
    return std::to_string(static_cast<long long>(score->rounds)) + "+" +
           std::to_string(static_cast<long long>(score->reps));
}

Result<Reps> project(Seconds cap, Seconds elapsed, Reps reps) {
    if (auto error = bad_cap(cap))
        return *error;
    if (!(elapsed.value() > 0) || !(elapsed <= cap))
        return out_of_domain("The time so far is %1; above 0 and at most the cap of %2 is needed.", said(elapsed),
                             said(cap));
    if (!(reps.value() >= 0) || !(reps.value() <= most_reps))
        return out_of_domain("The reps so far must be 0 or more; got %1.", reps.value());
    return finite(Reps{reps.value() * cap.value() / elapsed.value()});
}

Result<Seconds> capped(Reps reps_left, Seconds cap) {
    if (auto error = bad_cap(cap))
        return *error;
    if (!whole(reps_left.value()) || reps_left.value() < 0 || reps_left.value() > most_reps)
        return out_of_domain("The reps left must be a whole number from 0; got %1.", reps_left.value());
    return cap + Seconds{reps_left.value()};
}

Result<std::string> result_text(Seconds time, Seconds cap, Reps reps_left) {
    if (auto rank_time = capped(reps_left, cap); !rank_time)
        return rank_time.error();
    if (reps_left.value() > 0) {
        if (time.value() != 0 && !(time >= cap))
            return out_of_domain("The time is %1, before the cap of %2, but reps are left: one of the two is wrong.",
                                 said(time), said(cap));
        return "CAP+" + std::to_string(static_cast<long long>(reps_left.value()));
    }
    if (!(time.value() > 0) || !(time <= cap))
        return out_of_domain("The time is %1; without reps left it is above 0 and at most the cap of %2.", said(time),
                             said(cap));
    return clock_text(time);
}

Result<Order> parse_order(std::string_view text) {
    const std::string order = fold(text);
    if (order == "high")
        return Order::high_wins;
    if (order == "low")
        return Order::low_wins;
    return out_of_domain("The order is %1; \"high\" or \"low\" is needed.", quoted(text));
}

Result<int> place(const Standing& athlete, const Field& field) {
    const bool grouped = !field.groups.empty();
    const bool tiebroken = !field.tiebreaks.empty();
    if (auto error = bad_field(field))
        return *error;
    if (auto error = bad_standing(athlete, grouped, tiebroken))
        return *error;

    const std::string group = fold(athlete.group);
    const double score = rank_score(athlete.score, field.order);
    const double tiebreak = tiebroken ? athlete.tiebreak.value_or(infinity) : infinity;
    int ahead = 0;       // by score, or by tie-break
    int ahead_blank = 0; // the same were the tie-break blank
    bool found = false;
    bool found_blank = false;
    for (std::size_t i = 0; i < field.scores.size(); ++i) {
        if (!field.scores[i])
            continue;
        const double other = rank_score(*field.scores[i], field.order);
        if (other > score || (grouped && fold(field.groups[i]) != group))
            continue;
        const double other_tiebreak = tiebroken ? field.tiebreaks[i].value_or(infinity) : infinity;
        ahead += other < score || other_tiebreak < tiebreak ? 1 : 0;
        ahead_blank += other < score || other_tiebreak < infinity ? 1 : 0;
        found |= other == score && other_tiebreak == tiebreak;
        found_blank |= other == score && other_tiebreak == infinity;
    }
    if (found)
        return ahead + 1;
    if (found_blank && athlete.tiebreak == 0.0)
        return ahead_blank + 1;
    return not_in_field(athlete);
}

Result<Places> Places::in(const Field& field) {
    if (auto error = bad_field(field))
        return *error;
    Places places;
    places.order_ = field.order;
    places.grouped_ = !field.groups.empty();
    places.tiebroken_ = !field.tiebreaks.empty();
    places.ranks_.reserve(field.scores.size());
    for (std::size_t i = 0; i < field.scores.size(); ++i) {
        if (!field.scores[i])
            continue;
        const std::size_t next = places.groups_.size();
        places.ranks_.push_back(
            {.group = places.grouped_ ? places.groups_.try_emplace(fold(field.groups[i]), next).first->second : 0,
             .score = rank_score(*field.scores[i], field.order),
             .tiebreak = places.tiebroken_ ? field.tiebreaks[i].value_or(infinity) : infinity});
    }
    std::sort(places.ranks_.begin(), places.ranks_.end());
    return places;
}

Result<int> Places::of(const Standing& athlete) const {
    if (auto error = bad_standing(athlete, grouped_, tiebroken_))
        return *error;
    Rank rank{.score = rank_score(athlete.score, order_), .tiebreak = athlete.tiebreak.value_or(infinity)};
    if (grouped_) {
        const auto group = groups_.find(fold(athlete.group));
        if (group == groups_.end())
            return not_in_field(athlete);
        rank.group = group->second;
    }
    auto at = std::lower_bound(ranks_.begin(), ranks_.end(), rank);
    if ((at == ranks_.end() || *at != rank) && rank.tiebreak == 0) {
        rank.tiebreak = infinity;
        at = std::lower_bound(at, ranks_.end(), rank);
    }
    if (at == ranks_.end() || *at != rank)
        return not_in_field(athlete);
    const Rank best{.group = rank.group, .score = -infinity, .tiebreak = -infinity};
    return static_cast<int>(at - std::lower_bound(ranks_.begin(), at, best)) + 1;
}

} // namespace pacecells
