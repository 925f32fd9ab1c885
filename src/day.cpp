#include "pacecells/day.h"

#include "pacecells/athlete.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

bool in_use(const Workout& workout, std::size_t machine) {
    return std::ranges::any_of(workout.stations, [&](const Station& station) {
        const auto of = machine_of(station.unit);
        return of && static_cast<std::size_t>(*of) == machine;
    });
}

} // namespace

HeatSize heat_size(const Workout& workout, int per_machine) {
    HeatSize size;
    for (std::size_t machine = 0; machine < workout.machines.size(); ++machine)
        if (const int there = workout.machines[machine].value_or(0); there > 0 && in_use(workout, machine))
            size.machines = size.machines > 0 ? std::min(size.machines, there) : there;
    const int places = workout.settings.places.value_or(0);
    size.lanes = std::min(size.machines > 0 ? size.machines * per_machine : HeatSize::everybody,
                          places > 0 ? places : HeatSize::everybody);
    size.every = workout.settings.cap + workout.settings.changeover.value_or(Seconds{0});
    return size;
}

bool starts_today(std::string_view plan) {
    return find_word(WordList::day_plan, plan) != static_cast<std::size_t>(DayPlan::not_today);
}

Result<std::vector<HeatPlace>> heats_of(const Workout& workout, std::span<const Entrant> people, bool divisions_apart,
                                        std::optional<MachineShare> shared) {
    std::vector<std::string> names, groups, teams, judges;
    std::vector<std::optional<double>> ranks;
    for (const auto& one : people) {
        names.push_back(starts_today(one.plan) ? one.name : std::string());
        ranks.push_back(one.rank);
        judges.push_back(one.judges ? one.name : std::string());
        if (divisions_apart)
            groups.push_back(one.division);
        if (workout.settings.team > 1)
            teams.push_back(one.team);
    }
    const auto size = heat_size(workout, shared ? shared->people : 1);
    const auto& first = workout.settings.first_start;
    const auto start =
        first && *first > 0 ? std::optional{Seconds{*first * seconds_per_day}} : std::nullopt; // nobody at midnight
    return heat_list(names, ranks, size.lanes, start, size.every, groups, judges,
                     {static_cast<double>(shared ? size.machines : 0), shared ? shared->later : Seconds{0}}, teams);
}

std::string day_time_text(Seconds time) {
    const auto minutes = static_cast<int>(std::fmod(std::floor(std::round(time.value()) / 60), 1440));
    const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return two(minutes / 60) + ":" + two(minutes % 60);
}

} // namespace pacecells
