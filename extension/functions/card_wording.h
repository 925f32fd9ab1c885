// What a card says of a plan, by form of workout: rounds have a time per round, a list that is done once has clocks by
// station and where to be at a quarter, half and three quarters, intervals have seconds of work and to spare.
//
// All of them want a plan with a goal.
#pragma once

#include "pacecells/athlete_plan.h"

#include <optional>
#include <string>
#include <string_view>

namespace pacecells {

inline constexpr int card_columns = 16; // of the table of clocks

struct CardStation {
    std::string name; // a word of its own, enough for those who have done it
    std::optional<Seconds> time;
};
struct CardColumn {
    int heading = 0; // the round, window or station
    std::optional<Seconds> clock;
    std::optional<Seconds> lower; // for the next goal down
};

// Whether sets or turns fit the two lines that a card has for them.
[[nodiscard]] bool fits_card(std::string_view text);

// "17/40 box jumps": so much of the station at hand.
[[nodiscard]] std::string point_text(const Workout& workout, std::size_t division, const Point& point);

// Whether everything is done once: the table goes by stations, not by rounds.
[[nodiscard]] bool card_by_station(const Workout& workout, const Plan& plan);

// Under the goal: what it is, and the clock of the tie-break. later: of a start after the clock's, here and below.
[[nodiscard]] std::string card_goal_text(const Workout& workout, const Plan& plan, Seconds later);
// The time beside the goal, and what it is: a round's, the work of a window, or half the clock and where to be.
[[nodiscard]] Seconds card_time(const Workout& workout, const Plan& plan, Seconds later);
[[nodiscard]] std::string card_time_text(const Workout& workout, const Plan& plan);
// The rate to hold at the main ergometer, such as "ROW 850 cal/h", and below it how much there is to do and the limits; empty
// where there is no rate.
[[nodiscard]] std::string card_rate(const Workout& workout, const Plan& plan);
[[nodiscard]] std::string card_rate_text(const Workout& workout, const Plan& plan);
[[nodiscard]] std::string amount_text(const Workout& workout, const StationPlan& station); // "12 cal"
// What to go by: the round to check, where to be at a quarter and three quarters, the first window that does not hold.
[[nodiscard]] std::string card_rule(const Workout& workout, const Plan& plan, Seconds later);
// The sets of all stations, as much of them as a card holds.
[[nodiscard]] std::string card_sets(const Workout& workout, const Plan& plan);
// The row of stations: the clock at which each is done in the first round, or its seconds from the start of a window.
[[nodiscard]] std::string card_stations_label(const Workout& workout);
[[nodiscard]] std::optional<CardStation> card_station(const Workout& workout, const Plan& plan, int k);
// The table of clocks, column by column from 1.
[[nodiscard]] std::string card_table_label(const Workout& workout, const Plan& plan);
[[nodiscard]] std::optional<CardColumn> card_column(const Workout& workout, const Plan& plan, int k);

} // namespace pacecells
