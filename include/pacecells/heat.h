// Heats, lanes and judges for the day.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "pacecells/quantity.h"
#include "pacecells/result.h"

namespace pacecells {

struct HeatPlace {
    std::size_t heat = 0; // from 1
    std::size_t lane = 0; // from 1; the highest projected has lane 1
    std::optional<Seconds> start;
    std::size_t athlete = 0;          // position in the list of names, from 0
    std::optional<std::size_t> judge; // position of the athlete who judges this lane, if anyone can
};

inline constexpr Seconds usual_heat_interval{900}; // from start to start (common practice, no source)

// One place for each name that is not blank, in heat and lane order. projected and groups are empty or as long as
// names; a blank projection ranks lowest.
//   Each group (compared without case and spacing, in the order of first appearance) has heats of its own.
//   Within a group: ceil(athletes / lanes) heats, sizes one apart at most, later heats the larger; lowest projected
//   first, highest last, equal ones in the order given.
//   The judge of lane k in heat h is lane k of heat h + 2 counted round (with two heats: of the other; with one:
//   nobody); where that heat has no lane k, of the next heat after it that has and is not h.
// Domain: lanes whole, from 1; first_start at least 0; every above 0; projections not NaN.
Result<std::vector<HeatPlace>> heat_list(std::span<const std::string> names,
                                         std::span<const std::optional<double>> projected, double lanes,
                                         std::optional<Seconds> first_start = {}, Seconds every = Seconds{900},
                                         std::span<const std::string> groups = {});

} // namespace pacecells
