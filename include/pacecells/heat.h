// Heats, lanes, machines and judges for the day.
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
    std::size_t heat = 0;             // from 1
    std::size_t lane = 0;             // from 1; the highest projected has lane 1
    std::optional<Seconds> start;     // of the heat
    Seconds offset{0};                // this lane starts so much later, see SharedMachines
    std::size_t machine = 0;          // from 1; the lane where machines are not shared
    std::size_t athlete = 0;          // position in the list of names, from 0
    std::optional<std::size_t> judge; // position in the list of those who can judge, if anyone can
};

inline constexpr Seconds usual_heat_interval{900}; // from start to start (common practice, no source)
// In a class people use a machine in turn: they start one after the other.
struct SharedMachines {
    double machines = 0; // how many there are; 0: everybody has one
    Seconds later{0};    // from the start of one person on a machine to the next
};

inline constexpr Seconds change_of_places{10}; // from one person on a machine to the next (judgement)

struct MachineShare {
    int people = 1;   // per machine
    Seconds later{0}; // from the start of one to the start of the next
};

// How people can share machines: so many as their round times together hold times on the machine with a change of
// places, rounded down (rule of thumb), at least one; each starts the mean time on the machine and a change of places
// after the one before, in whole seconds. Both lists are beside each other; who has not both is left out.
// Domain: times above 0, change at least 0.
Result<MachineShare> share_machines(std::span<const std::optional<double>> round_times,
                                    std::span<const std::optional<double>> on_machine,
                                    Seconds change = change_of_places);

// One place for each name that is not blank, in heat and lane order. projected, groups and teams are empty or as long as
// names; a blank projection ranks lowest.
//   Those with the same team (compared as names are) share the lane of the first of them, in the order given; all else
//   that is said of a person here is said of a lane.
//   Each group (compared without case and spacing, in the order of first appearance) has heats of its own.
//   Within a group: ceil(athletes / lanes) heats, sizes one apart at most, later heats the larger; lowest projected
//   first, highest last, equal ones in the order given.
//   Shared machines: the people of a heat are spread evenly over the machines, lane by lane, so that neighbours in the
//   order share one, the higher projected first; each next one on it starts so much later.
//   Judges: of those who can (by the rule for the same name; without the list whoever starts), for each lane of a heat
//   one who is not in it. Who starts in the next heat is asked only where nobody else is left; apart from that first those
//   who do not start, then who has judged least, then in the order of the list. A lane stays without a judge only where
//   all of them are in the heat or at another lane.
// Domain: lanes whole, from 1; first_start and later at least 0; every above 0; projections not NaN; machines whole.
Result<std::vector<HeatPlace>> heat_list(std::span<const std::string> names,
                                         std::span<const std::optional<double>> projected, double lanes,
                                         std::optional<Seconds> first_start = {}, Seconds every = Seconds{900},
                                         std::span<const std::string> groups = {},
                                         std::optional<std::span<const std::string>> judges = {},
                                         SharedMachines shared = {}, std::span<const std::string> teams = {});

} // namespace pacecells
