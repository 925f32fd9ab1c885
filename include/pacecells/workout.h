// The workout of the day: what is to be done, by whom, at which usual pace, and how plans for it are made.
//
// It is read from a block of cells by key, never by position: the first column holds keys of rows, a header row of each
// part keys of columns, the same in every language.
//
//   pacecells.workout          one column has the key "value"
//   cap ...                    settings: key and value, anywhere in the block
//   stations                   header: no, movement, unit, when, amount.1 ... amount.N, load.1 ... load.N
//   divisions                  their names, in the amount columns
//   station                    a row each; blank ones are spare
//   paces                      header: no, rep_s, calh, pace, handling_s, steps, grip, away_share, longest, counts
//   pace                       a row each, "no" is the number of the station
//   groups, group              header: name, erg, rep, sets
//   machines, machine          header: unit, count
//   end
//
// Rows with the key "label" are headings for people and skipped; so are rows without any content, so rows and columns may
// be inserted.
#pragma once

#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/pace.h"
#include "pacecells/pacing.h"
#include "pacecells/quantity.h"
#include "pacecells/reserve.h"
#include "pacecells/result.h"
#include "pacecells/stations.h"
#include "pacecells/table.h"
#include "pacecells/words.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

inline constexpr int workout_version = 1; // of the block's layout
inline constexpr int most_plan_rounds = 200;
inline constexpr int most_stations = 40;
inline constexpr int most_divisions = 12;

enum class Format : std::uint8_t { amrap, time, intervals }; // in the order of WordList::format
enum class Scoring : std::uint8_t { lowest, sum, total };    // in the order of WordList::scoring
enum class When : std::uint8_t { every, first, last };       // in the order of WordList::when

// Amounts of one station for one division, round by round.
//
// Typed as a number, or as text as a coach writes it: "21-15-9" (so many rounds), "1-2-3-…" and "3-6-9-…" (on and on),
// "10-9-…-1" (down to the last), in intervals "max" (as many as fit).
struct Amounts {
    std::vector<double> list; // of round 1, 2 ...; one number: every round alike; empty: not for this division
    double grows_by = 0;      // after the list, where it is open
    bool open = false;        // goes on and on
    bool most = false;        // as many as fit in the window; the list is 0 until it is known

    [[nodiscard]] bool alike() const { return list.size() <= 1 && !open; }
    // A list beyond its end is 0.
    [[nodiscard]] double of_round(int round) const;
    // How many rounds the list is for; none where it is a single number or goes on.
    [[nodiscard]] std::optional<int> rounds() const;
};

[[nodiscard]] Result<Amounts> parse_amounts(std::string_view text);

struct DivisionShare {
    Amounts amounts;
    std::optional<double> load; // kg
};

struct Station {
    int no = 0; // as typed
    std::string movement;
    Unit unit = Unit::blank;
    When when = When::every;
    std::vector<DivisionShare> divisions; // as long as Workout::divisions

    // What the middle pace group does, fresh: seconds of a rep or of a metre carried, cal/h, or the time for 500 m
    // (row, ski) or 1000 m (bike, run). 0 for hold and rest.
    double usual_rate = 0;
    Seconds handling{0};              // each round: strapping in, picking up
    std::optional<double> steps;      // to the next station; none: as Settings
    bool grip = false;                // the hands or the same muscles are held
    std::optional<double> away_share; // of the work here that rests the muscles of other stations; none: see sets
    std::optional<Reps> longest;      // usual longest set
    std::optional<double> counts;     // points of one unit; none: credit(unit)

    std::size_t row = 0;                 // of the block, from 0
    std::optional<std::size_t> pace_row; // its usual pace
    std::vector<Place> amount_places;    // by division
    std::vector<Place> load_places;

    [[nodiscard]] double points() const { return counts.value_or(credit(unit)); }
    // 0 where the station is not part of that round. The last round is known only where rounds are given.
    [[nodiscard]] double amount(std::size_t division, int round, std::optional<int> rounds) const;
};

// The machine of a unit; none for repetitions, runs and the like.
[[nodiscard]] std::optional<Machine> machine_of(Unit unit);

struct Division {
    std::string name;
    Place place;
};

struct PaceGroup {
    std::string name;
    double erg = 1;  // on cal/h and speed
    double rep = 1;  // on seconds
    double sets = 1; // on longest sets
    Place place;
};

// The defaults are common practice or judgement, as said; this is their one home.
struct Settings {
    int version = workout_version;
    Language language = Language::en;
    Format format = Format::amrap;
    Seconds cap{0};
    std::optional<int> rounds; // for time

    // Intervals: work and rest, or a window that starts every so often.
    std::optional<Seconds> work;
    std::optional<Seconds> rest;
    std::optional<Seconds> every;
    std::optional<int> windows;
    bool in_turn = false; // one station per window, one after the other
    Scoring scoring = Scoring::total;

    // Pairs and teams.
    int team = 1;    // people
    int at_once = 1; // of them working
    std::string split;

    std::optional<double> intended_low; // rounds that the workout is meant to be for
    std::optional<double> intended_high;

    std::string tiebreak, gym, title;
    std::optional<double> date; // day number of the sheet
    std::optional<int> announcement;
    std::optional<double> issued; // time of day, part of a day
    std::optional<double> first_start;
    std::optional<Seconds> changeover;
    std::optional<int> places;

    double steps = 3;             // between stations (judgement)
    double step_s = 0.6;          // seconds a step (from memory)
    double fade = 0.06;           // of round times over the task, from start to end (common practice)
    double push = 0.06;           // faster at the end than at the start where more is left (common practice)
    Pacing pacing = Pacing::even; // of the clocks towards a goal; how much is fade or push
    Seconds slip{10};             // a goal ends so long before the cap: one slip must not cost the last rep (judgement)
    std::optional<double> goal_step;      // none: goals end at a station
    Seconds goal_step_time{10};           // of goals for time (judgement)
    double share_work = usual_share;      // of the watts alone where everything else is hard work (judgement)
    double share_rest = 0.90;             // where everything else is rest (judgement)
    double work_share = usual_work_share; // work at other stations, of the ergometer's watts (judgement)
    double keep = usual_keep;             // of the reserve not to be touched (judgement)
    double rehearsal = usual_rehearsal;   // of the planned pace (common practice: 0.80 to 0.85)
    int rehearsal_rounds = 3;             // easy ones and the one at planned pace (common practice)
    double test_weeks = 12;               // a test counts for so long (common practice)
    ErgUnit rate_unit = ErgUnit::calories_per_hour;

    std::optional<double> wall_from, wall_to, wall_step; // rounds, or for time a part of a day
    std::optional<double> wall_most;                     // cal/h

    // From the start of a window to the next, and what of it is for work.
    [[nodiscard]] Seconds window() const {
        return every ? *every : work.value_or(Seconds{0}) + rest.value_or(Seconds{0});
    }
    [[nodiscard]] Seconds work_time() const { return work ? *work : window(); }
};

struct Workout {
    Settings settings;
    std::vector<Division> divisions;
    std::vector<Station> stations; // in working order
    std::vector<PaceGroup> groups;
    std::array<std::optional<int>, 4> machines;       // how many there are, by Machine
    std::map<std::string, Place, std::less<>> places; // of settings that are typed

    [[nodiscard]] std::optional<std::size_t> division(std::string_view name) const;
    [[nodiscard]] std::optional<std::size_t> group(std::string_view name) const;
    // By number ("3"), by name, or by part of a name that only one station has.
    [[nodiscard]] Result<std::size_t> station(std::string_view text) const;
    // Its movement in one word, the first or the last, where no other movement has that in it; else the whole name.
    [[nodiscard]] std::string short_name(std::size_t station) const;
    [[nodiscard]] std::optional<Place> place(std::string_view setting) const;

    // The first ergometer station for calories, else the first for metres, that the division does: what rates are
    // about.
    [[nodiscard]] std::optional<std::size_t> main_ergometer(std::size_t division) const;
    // Rounds to be done, where that is given: for time, by the rounds or by the length of the lists; windows.
    [[nodiscard]] std::optional<int> rounds(std::size_t division) const;
    // Points of a round for the division, up to the end of a station (of all stations if left out).
    [[nodiscard]] double points(std::size_t division, int round, std::optional<std::size_t> last = {}) const;
    // Whether every round is alike for the division.
    [[nodiscard]] bool alike(std::size_t division) const;
};

// The block read, or a sentence that names the cell or the station and says what to do.
[[nodiscard]] Result<Workout> read_workout(const Table& block);

} // namespace pacecells
