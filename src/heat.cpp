#include "pacecells/heat.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <unordered_map>

#include "pacecells/text.h"

#include "check.h"

namespace pacecells {
namespace {

// Names that are not blank, one list a group, groups in the order of first appearance.
std::vector<std::vector<std::size_t>> by_group(std::span<const std::string> names,
                                               std::span<const std::string> groups) {
    std::vector<std::vector<std::size_t>> members;
    std::unordered_map<std::string, std::size_t> numbers;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (trim(names[i]).empty())
            continue;
        const std::size_t group =
            numbers.try_emplace(groups.empty() ? std::string{} : fold(groups[i]), members.size()).first->second;
        if (group == members.size())
            members.emplace_back();
        members[group].push_back(i);
    }
    return members;
}

// Fills in the judges. Domain: places in heat and lane order, lanes of a heat 1, 2, 3 ...
void assign_judges(std::vector<HeatPlace>& places) {
    const std::size_t heats = places.empty() ? 0 : places.back().heat;
    if (heats < 2)
        return;
    // For each lane, the places that have it, in heat order.
    std::vector<std::vector<std::size_t>> with_lane;
    for (std::size_t i = 0; i < places.size(); ++i) {
        with_lane.resize(std::max(with_lane.size(), places[i].lane));
        with_lane[places[i].lane - 1].push_back(i);
    }
    for (HeatPlace& place : places) {
        const auto& candidates = with_lane[place.lane - 1];
        const std::size_t wanted = heats == 2 ? 3 - place.heat : (place.heat + 1) % heats + 1;
        auto judge = std::lower_bound(candidates.begin(), candidates.end(), wanted,
                                      [&](std::size_t i, std::size_t heat) { return places[i].heat < heat; });
        const auto next = [&] {
            if (judge == candidates.end())
                judge = candidates.begin();
            return &places[*judge];
        };
        if (next() == &place) {
            ++judge;
            next();
        }
        if (&places[*judge] != &place)
            place.judge = places[*judge].athlete;
    }
}

} // namespace

Result<std::vector<HeatPlace>> heat_list(std::span<const std::string> names,
                                         std::span<const std::optional<double>> projected, double lanes,
                                         std::optional<Seconds> first_start, Seconds every,
                                         std::span<const std::string> groups) {
    if ((!projected.empty() && projected.size() != names.size()) || (!groups.empty() && groups.size() != names.size()))
        return out_of_domain("Names, projections and groups need ranges of equal height.");
    if (!(lanes >= 1) || lanes != std::floor(lanes) || !std::isfinite(lanes))
        return out_of_domain("The number of lanes must be a whole number from 1; got %1.", lanes);
    if (first_start && !not_negative(first_start->value()))
        return out_of_domain("The first start must be a time of day; got %1.", first_start->value());
    if (!positive(every.value()))
        return out_of_domain("The time from heat to heat must be above 0 s; got %1.", every.value());
    for (const auto& value : projected)
        if (value && !std::isfinite(*value))
            return out_of_domain("A projection is not a number.");
    const auto rank = [&](std::size_t i) {
        return projected.empty() ? 0 : projected[i].value_or(-std::numeric_limits<double>::infinity());
    };

    std::vector<HeatPlace> places;
    places.reserve(names.size());
    std::size_t heat = 0;
    for (auto& members : by_group(names, groups)) {
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
            for (std::size_t lane = 1; next != end; ++next, ++lane)
                places.push_back({.heat = heat, .lane = lane, .start = start, .athlete = *next, .judge = {}});
        }
    }
    assign_judges(places);
    return places;
}

} // namespace pacecells
