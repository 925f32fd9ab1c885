#include "wall_cells.h"

#include "binding.h"
#include "planning.h"
#include "wording.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>

namespace pacecells {

namespace {

constexpr double wall_goals = 9; // as many as the page of the wall has rows for
constexpr std::string_view no_rate = "–";

} // namespace

Result<WallGoals> wall_goals_of(const Workout& workout, const std::optional<NumberOrText>& from,
                                const std::optional<NumberOrText>& to, const std::optional<NumberOrText>& step) {
    const bool for_time = workout.settings.format == Format::time;
    const auto& settings = workout.settings;
    const double unit = for_time ? seconds_per_day : 1; // a time of the block is a part of a day
    WallGoals goals{settings.wall_from.value_or(0) * unit, settings.wall_to.value_or(0) * unit,
                    settings.wall_step.value_or(0) * unit};
    const auto take = [&](const std::optional<NumberOrText>& typed, double& goal) -> std::optional<Error> {
        if (!typed)
            return std::nullopt;
        const auto cell = std::visit([](const auto& v) { return Cell{v}; }, typed->value);
        if (for_time) {
            const auto time = Read<Duration>::from(cell);
            if (!time)
                return time.error();
            goal = time->value.value();
            return std::nullopt;
        }
        const auto number = Read<CountNumber>::from(cell);
        if (!number)
            return number.error();
        goal = number->value;
        return std::nullopt;
    };
    for (const auto& error : {take(from, goals.from), take(to, goals.to), take(step, goals.step)})
        if (error)
            return *error;
    if (goals.from > 0 && goals.to > 0 && goals.step > 0)
        return goals;
    const auto usual = usual_score(workout, 0, workout.settings.cap);
    if (!usual)
        return usual.error();
    const double middle = for_time ? (usual->time ? usual->time->value() : settings.cap.value()) : usual->rounds;
    const double least = 0.7 * middle;
    const double most = 1.3 * middle;
    const auto with_step = [&](double apart) {
        WallGoals made{goals.from, goals.to, apart};
        if (made.from <= 0)
            made.from = std::max(apart, std::floor(least / apart) * apart);
        if (made.to <= 0) {
            made.to = std::ceil(most / apart) * apart;
            if (for_time)
                made.to = std::min(made.to, std::floor(settings.cap.value() / apart) * apart);
            made.to = std::max(made.from, made.to);
        }
        return made;
    };
    if (goals.step > 0)
        return with_step(goals.step);
    WallGoals made;
    for (const double apart : for_time ? std::array{30.0, 60.0, 120.0, 300.0} : std::array{1.0, 2.0, 5.0, 10.0}) {
        made = with_step(apart);
        if ((made.to - made.from) / apart + 1 <= wall_goals)
            break;
    }
    return made;
}

std::vector<std::size_t> rated_divisions(const Workout& workout) {
    std::vector<std::size_t> rated;
    for (std::size_t d = 0; d < workout.divisions.size(); ++d)
        if (const auto main = workout.main_ergometer(d); main && machine_of(workout.stations[*main].unit))
            rated.push_back(d);
    return rated;
}

void add_rate_headings(const Workout& workout, const std::vector<std::size_t>& rated, std::vector<Cell>& headings) {
    for (const auto d : rated)
        headings.emplace_back(
            machine_label(*machine_of(workout.stations[*workout.main_ergometer(d)].unit), workout.settings.language) +
            " " + workout.divisions[d].name);
}

Cell need_cell(const Workout& workout, std::size_t division, const std::vector<std::optional<CaloriesPerHour>>& needs) {
    const auto need = division < needs.size() ? needs[division] : std::nullopt;
    if (!need)
        return Blank{};
    if (!(need->value() > 0) || (workout.settings.wall_most && need->value() > *workout.settings.wall_most))
        return to_cell(std::string{no_rate});
    return rate_cell(workout, *machine_of(workout.stations[*workout.main_ergometer(division)].unit), *need);
}

} // namespace pacecells
