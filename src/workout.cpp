#include "pacecells/workout.h"

#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace pacecells {

double Station::amount(std::size_t division, int round, std::optional<int> rounds) const {
    if (when == When::first && round != 1)
        return 0;
    if (when == When::last && round != rounds)
        return 0;
    return divisions[division].amounts.of_round(round);
}

std::optional<Machine> machine_of(Unit unit) {
    switch (unit) {
    case Unit::row_cal:
    case Unit::row_m:
        return Machine::row;
    case Unit::ski_cal:
    case Unit::ski_m:
        return Machine::ski;
    case Unit::bike_cal:
    case Unit::bike_m:
        return Machine::bike;
    case Unit::armbike_cal:
        return Machine::armbike;
    default:
        return {};
    }
}

std::optional<std::size_t> Workout::division(std::string_view name) const {
    const auto sought = fold_name(name);
    for (std::size_t i = 0; i < divisions.size(); ++i)
        if (fold_name(divisions[i].name) == sought)
            return i;
    return {};
}

std::optional<std::size_t> Workout::group(std::string_view name) const {
    const auto sought = fold_name(name);
    for (std::size_t i = 0; i < groups.size(); ++i)
        if (fold_name(groups[i].name) == sought)
            return i;
    return {};
}

Result<std::size_t> Workout::station(std::string_view text) const {
    const auto sought = fold_name(text);
    int number = 0;
    const auto read = std::from_chars(sought.data(), sought.data() + sought.size(), number);
    if (!sought.empty() && read.ptr == sought.data() + sought.size()) {
        for (std::size_t i = 0; i < stations.size(); ++i)
            if (stations[i].no == number)
                return i;
        return out_of_domain("There is no station %1 in this workout.", number);
    }
    std::optional<std::size_t> whole;
    std::optional<std::size_t> part;
    bool several = false;
    for (std::size_t i = 0; i < stations.size() && !sought.empty(); ++i) {
        const auto name = fold_name(stations[i].movement);
        if (name == sought) {
            several = several || whole;
            whole = whole.value_or(i);
        }
    }
    if (whole && several)
        return out_of_domain("%1 is the name of several stations: give the number of the station.", quoted(text));
    if (whole)
        return *whole;
    for (std::size_t i = 0; i < stations.size() && !sought.empty(); ++i)
        if (fold_name(stations[i].movement).find(sought) != std::string::npos) {
            several = several || part;
            part = i;
        }
    if (!part || several)
        return out_of_domain(
            "%1 is not one of the stations of this workout: enter the number or the name of a station.", quoted(text));
    return *part;
}

std::string Workout::short_name(std::size_t station) const {
    const auto& own = stations[station].movement;
    const auto first = own.substr(0, own.find_first_of(" -"));
    const auto last = own.substr(own.find_last_of(" -") + 1);
    for (const auto& word : {first, last})
        if (std::ranges::all_of(stations, [&](const Station& other) {
                return same_name(other.movement, own) ||
                       fold_name(other.movement).find(fold_name(word)) == std::string::npos;
            }))
            return word;
    return own;
}

std::optional<Place> Workout::place(std::string_view setting) const {
    const auto found = places.find(setting);
    if (found == places.end())
        return {};
    return found->second;
}

std::optional<std::size_t> Workout::main_ergometer(std::size_t division) const {
    std::optional<std::size_t> metres;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        if (!machine_of(stations[i].unit) || stations[i].divisions[division].amounts.list.empty())
            continue;
        if (rate_kind(stations[i].unit) == RateKind::calories_per_hour)
            return i;
        metres = metres.value_or(i);
    }
    return metres;
}

std::optional<int> Workout::rounds(std::size_t division) const {
    if (settings.format == Format::intervals)
        return settings.windows;
    if (settings.format != Format::time)
        return {};
    if (settings.rounds)
        return settings.rounds;
    for (const auto& station : stations)
        if (const auto listed = station.divisions[division].amounts.rounds())
            return listed;
    return 1; // a list of stations, each once
}

double Workout::points(std::size_t division, int round, std::optional<std::size_t> last) const {
    const auto in_all = rounds(division);
    double sum = 0;
    for (std::size_t i = 0; i < stations.size() && i <= last.value_or(i); ++i)
        sum += stations[i].points() * std::floor(stations[i].amount(division, round, in_all) + 1e-9);
    return sum;
}

bool Workout::alike(std::size_t division) const {
    return std::ranges::all_of(stations, [&](const Station& station) {
        return station.when == When::every && station.divisions[division].amounts.alike();
    });
}

} // namespace pacecells
