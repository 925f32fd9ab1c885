#include "judge_cells.h"

#include "wall_cells.h"
#include "wording.h"

#include "pacecells/text.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace pacecells {

namespace {

constexpr int more_rounds = 2; // than the goal
constexpr int band_head = 2;   // lines over the stations of a further band: headings and clocks

// Rounds or windows that a sheet lists.
int listed(const Workout& workout, std::size_t division, double goal) {
    const int all = workout.rounds(division).value_or(most_plan_rounds);
    const bool open = workout.settings.format == Format::amrap && goal > 0;
    return open ? std::min(all, static_cast<int>(std::ceil(goal)) + more_rounds) : all;
}

// How many of these rounds the lines and columns hold. Further bands are there for all rounds or for none.
int shown(bool in_turn, int stations, int rounds) {
    if (in_turn)
        return std::min(rounds, stations * judge_columns);
    const int bands = (rounds + judge_columns - 1) / judge_columns;
    const bool fits = stations + (bands - 1) * (stations + band_head) <= judge_lines;
    return fits ? rounds : std::min(rounds, judge_columns);
}

// What a place of the sheet is about; round 0: nothing there.
struct SheetPlace {
    enum class Kind { heading, clocks, station };
    Kind kind = Kind::heading;
    std::size_t station = 0; // of the workout
    int round = 0;
    int last_round = 0; // of stations in turn, those of the column
};

SheetPlace place_of(const Workout& workout, const std::vector<std::size_t>& stations, int rounds, int line,
                    int column) {
    const int count = static_cast<int>(stations.size());
    SheetPlace place;
    if (workout.settings.in_turn) {
        const int first = (std::max(column, 1) - 1) * count + 1;
        const int round = line == 0 ? first : first + line - 1;
        if (line > count || round > rounds)
            return place;
        place.kind = line == 0 ? SheetPlace::Kind::heading : SheetPlace::Kind::station;
        place.station = line == 0 ? 0 : stations[static_cast<std::size_t>(line) - 1];
        place.round = round;
        place.last_round = std::min(first + count - 1, rounds);
        return place;
    }
    const int bands = (shown(false, count, rounds) + judge_columns - 1) / judge_columns;
    const int below = line - count - 1; // lines of further bands
    const int band = below < 0 ? 0 : 1 + below / (count + band_head);
    const int in_band = below < 0 ? line : below % (count + band_head);
    if (band > 0 && band >= bands)
        return place;
    const int head = band == 0 ? 1 : band_head;
    place.kind = in_band >= head ? SheetPlace::Kind::station
                 : in_band == 0  ? SheetPlace::Kind::heading
                                 : SheetPlace::Kind::clocks;
    if (place.kind == SheetPlace::Kind::station)
        place.station = stations[static_cast<std::size_t>(in_band - head)];
    const int round = band * judge_columns + std::max(column, 1);
    place.round = round <= rounds ? round : 0;
    return place;
}

} // namespace

double running_count(const Workout& workout, std::size_t division, int round, std::size_t station) {
    double sum = workout.points(division, round, station);
    const bool anew = workout.settings.format == Format::intervals;
    for (int k = 1; k < round && !anew; ++k)
        sum += workout.points(division, k);
    return sum;
}

std::string judge_cell(const Workout& workout, std::size_t division, int line, int column, double goal) {
    const auto stations = stations_of(workout, division);
    const auto language = workout.settings.language;
    const auto all = workout.rounds(division);
    const bool clocks = all == 1 && column == 2;
    const int rounds = listed(workout, division, goal), count = static_cast<int>(stations.size());
    const int held = shown(workout.settings.in_turn, count, rounds);
    if (held < rounds && column == 0 && line == (count < judge_lines ? count + 1 : 0))
        return spoken(say("from R%1: on a sheet of your own", std::to_string(held + 1)), language);
    const auto place = place_of(workout, stations, rounds, line, clocks ? 1 : column);
    if (place.round == 0)
        return {};
    if (place.kind == SheetPlace::Kind::heading) {
        if (clocks)
            return spoken(say("clock"), language);
        if (column == 0)
            return spoken(say("running count"), language);
        if (all == 1)
            return spoken(say("reps"), language);
        const auto from = std::to_string(place.round);
        return place.last_round > place.round ? from + "–" + std::to_string(place.last_round) : "R" + from;
    }
    if (place.kind == SheetPlace::Kind::clocks)
        return column == 0 ? spoken(say("clock"), language) : " ";
    if (column == 0)
        return station_line(workout, division, place.station);
    const auto& station = workout.stations[place.station];
    if (clocks || place.round > all.value_or(most_plan_rounds) || station.amount(division, place.round, all) == 0 ||
        station.divisions[division].amounts.most)
        return " ";
    return number_text(running_count(workout, division, place.round, place.station)) + " ";
}

} // namespace pacecells
