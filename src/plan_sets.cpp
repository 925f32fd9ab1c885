// Step 4: sets of every station, planned once for the rounds expected, and the pauses that they bring.
#include "planner.h"

#include "pacecells/loads.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace pacecells {

namespace {

// Rests as they are printed; longer ones in steps of five seconds.
constexpr std::array<double, 5> printed_rests{3, 5, 10, 15, 20};

double printed(double rest) {
    if (!(rest > 0))
        return 0;
    for (const double one : printed_rests)
        if (rest <= one + course_slack)
            return one;
    return 5 * std::ceil(rest / 5 - course_slack);
}

int largest_set(const Scheme& scheme) { return scheme.runs().empty() ? 0 : scheme.runs().front().reps; }

int whole_up(double reps) { return static_cast<int>(std::ceil(reps - course_slack)); }

} // namespace

namespace {

// Sets no longer than so many reps.
RoundSets no_longer_than(int longest, double amount, Seconds rest) {
    const int reps = whole_up(amount);
    if (reps < 1 || reps > Scheme::max_reps)
        return {};
    const auto scheme = Scheme::near_even(reps, (reps + longest - 1) / longest);
    return scheme ? RoundSets{.reps = reps, .open = *scheme, .rest = rest} : RoundSets{};
}

} // namespace

RoundSets StationSets::in_round(int round, double amount) const {
    const auto k = static_cast<std::size_t>(round);
    if (k <= by_round.size() && by_round[k - 1].reps == whole_up(amount))
        return by_round[k - 1];
    const auto& last = by_round.back();
    if (last.reps == whole_up(amount))
        return last;
    return no_longer_than(std::max(1, largest_set(last.open)), amount, last.rest);
}

RoundSets StationSets::fall_back_in(double amount) const {
    if (whole_up(amount) == reps)
        return {.reps = reps, .open = fall_back, .rest = fall_back_rest};
    return no_longer_than(largest_set(fall_back), amount, fall_back_rest);
}

double Planner::own_units(std::size_t i, double amount) const {
    if (athlete_.team && is_shared(i))
        return athlete_.team->stations[i].units(amount);
    return std::ceil(amount * own_part(i) - course_slack);
}

double Planner::away_share(std::size_t i, std::size_t other) const {
    const auto& there = station(other);
    if (there.unit == Unit::rest)
        return 1;
    if (same_name(there.movement, station(i).movement))
        return 0;
    if (there.away_share)
        return *there.away_share;
    return there.grip && station(i).grip ? grip_away_share : work_away_share;
}

// Off the station since it was done last, by round: walking and waiting in full, work elsewhere by its share. 0 the
// first time, and in rounds without it.
std::vector<Seconds> Planner::away_before(std::size_t i) const {
    std::vector<double> shares;
    for (std::size_t other = 0; other < workout_.stations.size(); ++other)
        shares.push_back(away_share(i, other));
    std::vector<Seconds> by_round(static_cast<std::size_t>(whole_rounds_), Seconds{0});
    std::optional<double> away; // none before it was done
    for (std::size_t k = 0; k < by_round.size(); ++k) {
        bool done = false; // in this round
        for (const auto& leg : course_->round(static_cast<int>(k) + 1).legs) {
            if (leg.station == i) {
                if (!done)
                    by_round[k] = Seconds{away.value_or(0)};
                done = true;
                away = 0;
            } else if (away) {
                *away += leg.work * shares[leg.station] + leg.pause;
            }
            if (away)
                *away += leg.walk + leg.idle;
        }
    }
    return by_round;
}

// The longest set that is known, and from where; none: nothing to plan with.
std::optional<Input> Planner::longest_set(std::size_t i, StationSets& sets) const {
    const auto& one = station(i);
    const auto& tests = athlete_.movements[i];
    const auto& load = one.divisions[division_].load;
    Input input;
    if (tests.longest) {
        sets.max_unbroken = *tests.longest;
        input = {say("longest set, from the tests"), {}, tests.longest_place};
    } else if (load && tests.maximum) {
        const auto reps = max_reps(*load, *tests.maximum);
        if (!reps)
            return {}; // the load is above the maximum: a note says so
        sets.max_unbroken = *reps;
        sets.from = MaximumFrom::load;
        input = {say("longest set, from the maximum and the load by Epley's formula"), {}, tests.maximum_place};
    } else if (one.longest) {
        sets.max_unbroken = Reps{std::max(1.0, one.longest->value() * group_.sets)};
        sets.from = MaximumFrom::load;
        input = {say("usual longest set times the factor of the pace group"),
                 {},
                 Place{.row = one.pace_row.value_or(one.row)}};
    } else {
        return {};
    }
    input.value = {Measure::reps, sets.max_unbroken.value()};
    return input;
}

std::optional<StationSets> Planner::sets_of(std::size_t i) {
    const auto& one = station(i);
    const double recovery = athlete_.movements[i].recovery.value_or(1);
    std::vector<int> reps; // by round
    for (int k = 1; k <= whole_rounds_; ++k)
        reps.push_back(static_cast<int>(own_units(i, one.amount(division_, k, given_rounds_))));
    const int most = *std::ranges::max_element(reps);
    StationSets sets{.by_round = {}, .reps = most};
    if (one.unit != Unit::rep || most < 1 || most > Scheme::max_reps)
        return {};
    const auto longest = longest_set(i, sets);
    if (!longest)
        return {};

    const bool alike = std::ranges::all_of(reps, [&](int now) { return now == 0 || now == most; });
    const int round_of_most = static_cast<int>(std::ranges::find(reps, most) - reps.begin()) + 1;
    const auto away = away_before(i);
    // What the sets of a round have to last for.
    const auto work_of = [&](int k) {
        SetWork work{.reps = reps[static_cast<std::size_t>(k) - 1],
                     .rounds = 1,
                     .max_unbroken = sets.max_unbroken,
                     .away = away[static_cast<std::size_t>(k) - 1],
                     .recovery = recovery};
        if (alike) {
            work.rounds = static_cast<double>(std::ranges::count(reps, most));
            work.away = Seconds{0};
            bool first = true; // the shortest of all times off the station
            for (int other = round_of_most + 1; other <= whole_rounds_; ++other)
                if (reps[static_cast<std::size_t>(other) - 1] > 0) {
                    const Seconds before = away[static_cast<std::size_t>(other) - 1];
                    work.away = first ? before : std::min(work.away, before);
                    first = false;
                }
            return work;
        }
        const double total = std::accumulate(reps.begin(), reps.begin() + k, 0.0);
        work.rounds = std::ceil(total / work.reps - course_slack);
        return work;
    };
    const auto as_printed = [&](const Result<SetPlan>& plan, int now) {
        RoundSets made{.reps = now, .open = plan ? plan->scheme : *Scheme::near_even(now, now)};
        if (made.open.rests() > 0)
            made.rest = std::min(longest_break, Seconds{plan ? printed(plan->rest.value()) : longest_break.value()});
        sets.too_hard = sets.too_hard || !plan || plan->rest > longest_break;
        return made;
    };
    const SetWork largest = work_of(round_of_most);
    if (alike)
        sets.by_round.push_back(as_printed(plan_sets(largest), most));
    for (int k = 1; k <= whole_rounds_ && !alike; ++k) {
        const int now = reps[static_cast<std::size_t>(k) - 1];
        sets.by_round.push_back(now > 0 ? as_printed(plan_sets(work_of(k)), now) : RoundSets{});
    }
    const auto first = std::ranges::find(sets.by_round, most, &RoundSets::reps);
    sets.open = first->open;
    sets.rest = first->rest;
    sets.rounds = static_cast<int>(largest.rounds);
    sets.away = largest.away;
    const bool too_hard = sets.too_hard; // of the sets to open with
    const auto fall_back = as_printed(plan_fall_back(largest, std::nullopt, sets.from), most);
    sets.too_hard = too_hard;
    sets.fall_back = fall_back.open;
    sets.fall_back_rest = fall_back.rest;
    const auto left = reps_left(sets.open, largest.rounds, sets.max_unbroken, sets.away, sets.rest, recovery);
    sets.to_spare = left ? *left : Reps{0};
    if (reasons_)
        explain_sets(i, sets, *longest, recovery);
    return sets;
}

void Planner::explain_sets(std::size_t i, const StationSets& sets, const Input& longest, double recovery) const {
    const auto& one = station(i);
    const std::vector<Input> from{
        {say("reps of the largest round"),
         {Measure::reps, static_cast<double>(sets.reps)},
         one.amount_places[division_]},
        longest,
        {say("rounds that the sets must last"), {Measure::rounds, static_cast<double>(sets.rounds)}},
        {say("time off the station, weighed by how much it rests these muscles"),
         {Measure::seconds, sets.away.value()}},
        {say("recovery of the athlete"), {Measure::number, recovery}, athlete_.movements[i].recovery_place}};
    reason({.fact = Fact::sets,
            .station = i,
            .what = say("Sets at %1", one.movement),
            .from = from,
            .rule = say("the fewest sets, with the rests they need, that keep a margin in every round"),
            .value = {Measure::text, 0, sets.open.text()}});
    reason({.fact = Fact::fall_back,
            .station = i,
            .what = say("Sets at %1 where those are too long", one.movement),
            .from = from,
            .rule = say("the same for a longest set that is one standard deviation shorter"),
            .value = {Measure::text, 0, sets.fall_back.text()}});
}

void Planner::set_sets() {
    pauses_.assign(workout_.stations.size(), {});
    fall_back_pauses_ = pauses_;
    const int rounds = workout_.alike(division_) ? 1 : given_rounds_.value_or(most_plan_rounds);
    for (auto& planned : plan_.stations) {
        planned.sets = sets_of(planned.station);
        if (!planned.sets)
            continue;
        for (int k = 1; k <= rounds; ++k) {
            const double amount =
                own_units(planned.station, station(planned.station).amount(division_, k, given_rounds_));
            const bool work = amount > 0;
            pauses_[planned.station].push_back(work ? planned.sets->in_round(k, amount).pause() : Seconds{0});
            fall_back_pauses_[planned.station].push_back(work ? planned.sets->fall_back_in(amount).pause()
                                                              : Seconds{0});
        }
    }
}

} // namespace pacecells
