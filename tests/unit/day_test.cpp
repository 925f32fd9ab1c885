// The heats of an event, from its workout and roster.
#include "pacecells/day.h"

#include "block.h"
#include "expect.h"

#include <string>
#include <vector>

namespace pacecells {
namespace {

using block::with;

// 12 rowing calories and 200 m on a ski; for the second division 10 swings in place of the ski.
const std::string tide =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | 17:00\nchangeover | 5:00\nplaces | "
    "8\n"
    "first_start |\nteam |\n"
    "stations | no | movement | unit | when | amount.1 | amount.2\n"
    "divisions | | | | | open | light\n"
    "station | 1 | | row cal | | 12 | 10\n"
    "station | 2 | | ski m | | 200 |\n"
    "station | 3 | Kettle swings | rep | | | 10\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | | 800 | | | | | | |\npace | 2 | | | 2:10 | | | | | |\npace | 3 | 2 | | | | | | | |\n"
    "machines | unit | count\nmachine | row | 5\nmachine | ski | 6\nmachine | bike | 2\nmachine | armbike | 1\n"
    "end |\n";

Workout workout_of(const std::string& text) { return value_of(read_workout(block::table(text))); }

// "heat.lane name" of each, with the judge where there is one.
std::vector<std::string> written(const Result<std::vector<HeatPlace>>& places, const std::vector<Entrant>& people) {
    std::vector<std::string> rows;
    for (const auto& place : value_of(places))
        rows.push_back(std::to_string(place.heat) + "." + std::to_string(place.lane) + " " +
                       people[place.athlete].name + (place.judge ? ", " + people[*place.judge].name : ""));
    return rows;
}

using Rows = std::vector<std::string>;

TEST(Day, AsManyLanesAsTheScarcestMachineInUseHoldsAndTheFloor) {
    const auto size = heat_size(workout_of(tide));
    EXPECT_EQ(size.machines, 5) << "rowers: fewer than skis; bikes are not in use";
    EXPECT_EQ(size.lanes, 5);
    EXPECT_EQ(size.every, Seconds{22 * 60});
    EXPECT_EQ(heat_size(workout_of(tide), 2).lanes, 8) << "two on each: the floor is the limit";
    EXPECT_EQ(heat_size(workout_of(with(tide, "row | 5", "row | 0"))).lanes, 6) << "not counted";
    const auto no_machines = with(with(tide, "row | 5", "row |"), "ski | 6", "ski |");
    EXPECT_EQ(heat_size(workout_of(no_machines)).lanes, 8);
    EXPECT_EQ(heat_size(workout_of(no_machines)).machines, 0);
    EXPECT_EQ(heat_size(workout_of(with(no_machines, "places | 8", "places |"))).lanes, HeatSize::everybody);
}

TEST(Day, AHeatOfIntervalsTakesAllItsWindows) {
    const auto windows =
        with(with(tide, "format | AMRAP\ncap | 17:00", "format | intervals\nevery_s | 60\nwindows | 12"), "200 |\n",
             "200 | 200\n");
    EXPECT_EQ(heat_size(workout_of(windows)).every, Seconds{17 * 60}) << "12 minutes and a changeover of 5";
}

TEST(Day, WhoIsNotThereTodayDoesNotStart) {
    for (const auto* plan : {"", "full", "easy", "technique", "no word of the list"})
        EXPECT_TRUE(starts_today(plan)) << plan;
    for (const auto* plan : {"not today", "not_today", "heute nicht"})
        EXPECT_FALSE(starts_today(plan)) << plan;
}

const std::vector<Entrant> people{{"Ada", "open", "Herons", "", 200, false},
                                  {"Bela", "light", "", "not today", 300, true},
                                  {"Cora", "light", "herons", "", 100, true},
                                  {"", "", "", "", std::nullopt, true},
                                  {"Dov", "open", "", "easy", std::nullopt, false}};

TEST(Day, ListsThoseWhoStartLowestFirst) {
    const auto all = workout_of(with(tide, "row | 5", "row | 2"));
    EXPECT_EQ(written(heats_of(all, people, false), people), (Rows{"1.1 Dov, Bela", "2.1 Ada, Bela", "2.2 Cora"}))
        << "two rowers; Cora judges as well, but not beside her own lane";
    EXPECT_EQ(written(heats_of(all, people, true), people), (Rows{"1.1 Ada, Bela", "1.2 Dov, Cora", "2.1 Cora, Bela"}))
        << "divisions apart, in the order of the roster";
    EXPECT_FALSE(value_of(heats_of(all, people, false)).front().start);
}

TEST(Day, TeamsCountOnlyWhereTheWorkoutIsForThem) {
    const auto pairs = workout_of(with(tide, "team |", "team | 2"));
    const auto list = value_of(heats_of(pairs, people, false));
    ASSERT_EQ(list.size(), 3u);
    EXPECT_EQ(list[0].lane, list[1].lane) << "Ada and Cora, however their team is written";
    EXPECT_NE(list[1].lane, list[2].lane);
}

TEST(Day, SharedMachinesStartOneAfterTheOther) {
    const auto one_rower = workout_of(with(with(tide, "first_start |", "first_start | 0.75"), "row | 5", "row | 1"));
    const auto list = value_of(heats_of(one_rower, people, false, MachineShare{2, Seconds{70}}));
    ASSERT_EQ(list.size(), 3u) << "two heats, of one and of two on the rower";
    EXPECT_EQ(list[0].start, Seconds{18 * 3600.0});
    EXPECT_EQ(list[2].start, Seconds{18 * 3600.0 + 22 * 60});
    EXPECT_EQ(list[1].offset, Seconds{0});
    EXPECT_EQ(list[2].offset, Seconds{70});
    EXPECT_EQ(list[2].machine, 1u);
    const auto alone = value_of(heats_of(one_rower, people, false));
    EXPECT_EQ(alone.back().heat, 3u) << "one at a time";
    EXPECT_EQ(alone.back().offset, Seconds{0});
}

TEST(Day, TimesOfTheDay) {
    EXPECT_EQ(day_time_text(Seconds{9 * 3600.0}), "09:00");
    EXPECT_EQ(day_time_text(Seconds{18 * 3600.0 + 5 * 60 + 59}), "18:05");
    EXPECT_EQ(day_time_text(Seconds{(9 + 22.0 / 60) * 3600 - 1e-6}), "09:22") << "not the minute before";
    EXPECT_EQ(day_time_text(Seconds{24 * 3600.0}), "00:00");
}

} // namespace
} // namespace pacecells
