// The heats of an event, from the workout and the roster: how many start together, how often, and who with whom.
#pragma once

#include "pacecells/heat.h"
#include "pacecells/workout.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

struct HeatSize {
    static constexpr int everybody = 999; // lanes, where nothing limits them
    int machines = 0; // of the kind in use of which there are fewest; 0: none is used, or none is counted
    int lanes = 1;    // in a heat
    Seconds every{0}; // from start to start
};

// As many lanes as fit on the floor, and no more than the machines hold that some division uses; a heat starts when the
// cap of the one before and the changeover are over.
// Domain: people who share a machine, from 1. Where neither is known, everybody starts together.
// Example: 5 rowers in use, 8 places: 5 lanes; with two people on each rower 8.
[[nodiscard]] HeatSize heat_size(const Workout& workout, int per_machine = 1);

// Whether somebody with that word as plan for the day takes part; a word that cannot be read counts, for the row says so.
[[nodiscard]] bool starts_today(std::string_view plan);

struct Entrant {
    std::string name, division, team, plan;
    std::optional<double> rank = {}; // higher is better
    bool judges = false;
};

// The list of heats (heat_list) of those who start: teams where the workout is for teams, divisions apart where that is
// wanted. shared: how many people are on a machine and how much later each next one starts; none: nobody shares.
// Domain: as heat_list.
[[nodiscard]] Result<std::vector<HeatPlace>> heats_of(const Workout& workout, std::span<const Entrant> people,
                                                      bool divisions_apart, std::optional<MachineShare> shared = {});

// "18:05"; a day after it begins again.
[[nodiscard]] std::string day_time_text(Seconds time);

} // namespace pacecells
