#include "pacecells/window_score.h"

#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numeric>
#include <optional>
#include <string>

namespace pacecells {

namespace {

constexpr double slack = 1e-9;

// Numbers with something between them; none where anything else is there.
std::optional<std::vector<double>> numbers_in(std::string_view text) {
    constexpr std::string_view between = " ,;+";
    std::vector<double> numbers;
    for (std::size_t from = text.find_first_not_of(between); from != std::string_view::npos;
         from = text.find_first_not_of(between, from)) {
        const auto to = std::min(text.find_first_of(between, from), text.size());
        double number = 0;
        const auto read = std::from_chars(text.data() + from, text.data() + to, number);
        if (read.ec != std::errc{} || read.ptr != text.data() + to || !(number >= 0 && number == std::floor(number)))
            return std::nullopt;
        numbers.push_back(number);
        from = to;
    }
    return numbers;
}

double seconds_at_least(Unit unit) {
    switch (rate_kind(unit)) {
    case RateKind::calories_per_hour:
        return 3600 / fastest_rate.value();
    default:
        return fastest_rep.value();
    }
}

} // namespace

double most_in_window(const Workout& workout, std::size_t division, int window) {
    const auto rounds = workout.rounds(division);
    const auto does = [&](const Station& one) { return !one.divisions[division].amounts.list.empty(); };
    const auto turns = std::ranges::count_if(workout.stations, does);
    double most = 0;
    int turn = 0;
    for (const auto& station : workout.stations) {
        if (!does(station))
            continue;
        const bool now = !workout.settings.in_turn || turn == (window - 1) % turns;
        ++turn;
        if (!now)
            continue;
        double amount = station.amount(division, window, rounds);
        if (station.divisions[division].amounts.most)
            amount = std::floor(workout.settings.work_time().value() / seconds_at_least(station.unit) + slack);
        most += std::floor(amount + slack) * station.points();
    }
    return most;
}

Result<WindowScore> window_score(const Workout& workout, std::size_t division, std::string_view typed) {
    const auto& settings = workout.settings;
    if (settings.format != Format::intervals || !settings.windows)
        return out_of_domain("Only intervals have windows.");
    if (division >= workout.divisions.size())
        return out_of_domain("There is no division of this name.");
    std::vector<double> most;
    for (int k = 1; k <= *settings.windows; ++k)
        if (const double one = most_in_window(workout, division, k); one > 0)
            most.push_back(one);
    const auto numbers = numbers_in(trim(typed));
    if (!numbers || numbers->empty())
        return out_of_domain("The reps of the windows must be whole numbers such as 15 14 13; got %1.", quoted(typed));
    const bool lowest = settings.scoring == Scoring::lowest;
    if (numbers->size() == 1 && most.size() != 1) {
        const double highest = most.empty() ? 0
                               : lowest     ? *std::ranges::min_element(most)
                                            : std::accumulate(most.begin(), most.end(), 0.0);
        if (numbers->front() > highest + slack)
            return out_of_domain("The score is more than can be done: at most %1; got %2.", highest, numbers->front());
        return WindowScore{numbers->front(), {}};
    }
    if (numbers->size() != most.size())
        return out_of_domain("There are %1 windows, and reps of %2: give those of every window, 0 for none.",
                             most.size(), numbers->size());
    for (std::size_t i = 0; i < most.size(); ++i)
        if ((*numbers)[i] > most[i] + slack)
            return out_of_domain("Window %1 has more reps than can be done: at most %2; got %3.", i + 1, most[i],
                                 (*numbers)[i]);
    const double score =
        lowest ? *std::ranges::min_element(*numbers) : std::accumulate(numbers->begin(), numbers->end(), 0.0);
    return WindowScore{score, *numbers};
}

} // namespace pacecells
