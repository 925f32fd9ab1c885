#include "pacecells/heat.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <string>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "pacecells/text.h"
#include "pacecells/words.h"

#include "check.h"

namespace pacecells {
namespace {

// The others of a team, by its first person; names and teams that are blank are left out.
using Partners = std::unordered_map<std::size_t, std::vector<std::size_t>>;
Partners partners_in(std::span<const std::string> names, std::span<const std::string> teams) {
    Partners partners;
    std::unordered_map<std::string, std::size_t> first;
    for (std::size_t i = 0; i < teams.size(); ++i) {
        const auto team = fold_name(teams[i]);
        if (team.empty() || trim(names[i]).empty())
            continue;
        if (const auto [found, is_new] = first.try_emplace(team, i); !is_new)
            partners[found->second].push_back(i);
    }
    return partners;
}

// Lanes that are not blank, by their first person, one list a group, groups in the order of first appearance.
std::vector<std::vector<std::size_t>> by_group(std::span<const std::string> names, std::span<const std::string> groups,
                                               const Partners& partners) {
    std::unordered_set<std::size_t> in_other_lanes;
    for (const auto& [leader, others] : partners)
        in_other_lanes.insert(others.begin(), others.end());
    std::vector<std::vector<std::size_t>> members;
    std::unordered_map<std::string, std::size_t> numbers;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (trim(names[i]).empty() || in_other_lanes.contains(i))
            continue;
        const std::size_t group =
            numbers.try_emplace(groups.empty() ? std::string{} : fold(groups[i]), members.size()).first->second;
        if (group == members.size())
            members.emplace_back();
        members[group].push_back(i);
    }
    return members;
}

// Fills in the judges. Domain: places in heat and lane order.
void assign_judges(std::vector<HeatPlace>& places, std::span<const std::string> names,
                   std::span<const std::string> judges, const Partners& partners) {
    std::unordered_map<std::string, std::size_t> heat_of;
    for (const auto& place : places) {
        heat_of.try_emplace(fold_name(names[place.athlete]), place.heat);
        if (const auto others = partners.find(place.athlete); others != partners.end())
            for (const auto one : others->second)
                heat_of.try_emplace(fold_name(names[one]), place.heat);
    }
    // In the order in which they are asked: whether they start, lanes judged so far, place in the list.
    using Judge = std::tuple<bool, std::size_t, std::size_t>;
    std::set<Judge> order;
    std::vector<std::size_t> own(judges.size(), 0); // heat; 0: does not start
    std::unordered_set<std::string> known;
    for (std::size_t i = 0; i < judges.size(); ++i) {
        const auto name = fold_name(judges[i]);
        if (name.empty() || !known.insert(name).second)
            continue;
        if (const auto found = heat_of.find(name); found != heat_of.end())
            own[i] = found->second;
        order.emplace(own[i] != 0, 0, i);
    }
    for (auto place = places.begin(); place != places.end();) {
        const auto end =
            std::find_if(place, places.end(), [&](const auto& other) { return other.heat != place->heat; });
        const auto lanes = static_cast<std::size_t>(end - place);
        std::vector<Judge> asked, next_on; // next_on: they start in the next heat, and are asked last
        for (auto judge = order.begin(); judge != order.end() && asked.size() < lanes; ++judge) {
            const auto heat = own[std::get<2>(*judge)];
            if (heat == place->heat + 1)
                next_on.push_back(*judge);
            else if (heat != place->heat)
                asked.push_back(*judge);
        }
        next_on.resize(std::min(next_on.size(), lanes - asked.size()));
        asked.insert(asked.end(), next_on.begin(), next_on.end());
        for (const auto& judge : asked) {
            const auto [starts, done, who] = judge;
            order.erase(judge);
            order.emplace(starts, done + 1, who);
            (place++)->judge = who;
        }
        place = end;
    }
}

// Spreads the lanes of one heat over the machines, the first ones the smaller, and sets when each lane starts.
void spread(std::span<HeatPlace> lanes, const SharedMachines& shared) {
    const auto machines = static_cast<std::size_t>(std::min(shared.machines, static_cast<double>(lanes.size())));
    const std::size_t least = lanes.size() / machines;
    const std::size_t larger = lanes.size() % machines;
    std::size_t next = 0;
    for (std::size_t machine = 1; machine <= machines; ++machine) {
        const std::size_t people = least + (machine > machines - larger ? 1 : 0);
        for (std::size_t i = 0; i < people; ++i, ++next) {
            lanes[next].machine = machine;
            lanes[next].offset = static_cast<double>(i) * shared.later;
        }
    }
}

} // namespace

Result<std::vector<HeatPlace>> heat_list(std::span<const std::string> names,
                                         std::span<const std::optional<double>> projected, double lanes,
                                         std::optional<Seconds> first_start, Seconds every,
                                         std::span<const std::string> groups,
                                         std::optional<std::span<const std::string>> judges, SharedMachines shared,
                                         std::span<const std::string> teams) {
    if ((!projected.empty() && projected.size() != names.size()) || (!groups.empty() && groups.size() != names.size()))
        return out_of_domain("Names, projections and groups need ranges of equal height.");
    if (!teams.empty() && teams.size() != names.size())
        return out_of_domain("Teams have as many cells as names.");
    if (!(lanes >= 1) || lanes != std::floor(lanes) || !std::isfinite(lanes))
        return out_of_domain("The number of lanes must be a whole number from 1; got %1.", lanes);
    if (first_start && !not_negative(first_start->value()))
        return out_of_domain("The first start must be a time of day; got %1.", first_start->value());
    if (!positive(every.value()))
        return out_of_domain("The time from heat to heat must be above 0 s; got %1.", every.value());
    for (const auto& value : projected)
        if (value && !std::isfinite(*value))
            return out_of_domain("A projection is not a number.");
    if (!(shared.machines >= 0) || shared.machines != std::floor(shared.machines) || !std::isfinite(shared.machines))
        return out_of_domain("The number of machines must be a whole number; got %1.", shared.machines);
    if (!not_negative(shared.later.value()))
        return out_of_domain("The later start on a machine must be at least 0 s; got %1.", shared.later.value());
    const auto rank = [&](std::size_t i) {
        return projected.empty() ? 0 : projected[i].value_or(-std::numeric_limits<double>::infinity());
    };

    std::vector<HeatPlace> places;
    places.reserve(names.size());
    std::size_t heat = 0;
    const auto partners = partners_in(names, teams);
    for (auto& members : by_group(names, groups, partners)) {
        std::stable_sort(members.begin(), members.end(), [&](auto a, auto b) { return rank(a) < rank(b); });
        const auto heats = static_cast<std::size_t>(std::ceil(static_cast<double>(members.size()) / lanes));
        const std::size_t least = members.size() / heats;
        const std::size_t larger = members.size() % heats; // so many of the later heats have one more
        auto next = members.begin();
        for (std::size_t h = 0; h < heats; ++h) {
            ++heat;
            const auto end = next + static_cast<std::ptrdiff_t>(least + (h >= heats - larger ? 1 : 0));
            std::stable_sort(next, end, [&](auto a, auto b) { return rank(a) > rank(b); });
            std::optional<Seconds> start;
            if (first_start)
                start = *first_start + static_cast<double>(heat - 1) * every;
            const std::size_t first = places.size();
            for (std::size_t lane = 1; next != end; ++next, ++lane)
                places.push_back(
                    {.heat = heat, .lane = lane, .start = start, .machine = lane, .athlete = *next, .judge = {}});
            if (shared.machines > 0)
                spread(std::span{places}.subspan(first), shared);
        }
    }
    assign_judges(places, names, judges.value_or(names), partners);
    std::vector<HeatPlace> all; // partners below the first of their team
    all.reserve(names.size());
    for (const auto& place : places) {
        all.push_back(place);
        if (const auto others = partners.find(place.athlete); others != partners.end())
            for (const auto one : others->second) {
                all.push_back(place);
                all.back().athlete = one;
            }
    }
    return all;
}

Result<MachineShare> share_machines(std::span<const std::optional<double>> round_times,
                                    std::span<const std::optional<double>> on_machine, Seconds change) {
    if (round_times.size() != on_machine.size())
        return out_of_domain("Round times and times on the machine need ranges of equal height.");
    if (!not_negative(change.value()))
        return out_of_domain("The change of places must be at least 0 s; got %1.", change.value());
    double rounds = 0, taken = 0, count = 0;
    for (std::size_t i = 0; i < round_times.size(); ++i) {
        if ((round_times[i] && !positive(*round_times[i])) || (on_machine[i] && !positive(*on_machine[i])))
            return out_of_domain("Round times and times on the machine must be above 0 s.");
        if (!round_times[i] || !on_machine[i])
            continue;
        rounds += *round_times[i];
        taken += *on_machine[i] + change.value();
        ++count;
    }
    if (count == 0)
        return MachineShare{};
    constexpr double slack = 1e-9, most = 99;
    return MachineShare{std::max(1, static_cast<int>(std::min(rounds / taken + slack, most))),
                        Seconds{std::ceil(taken / count - slack)}};
}

} // namespace pacecells
