// People on their way onto the roster of an event workbook: what will happen to each, and the writing.
#pragma once

#include "command.h"
#include "event_cells.h"

#include "pacecells/delimited.h"

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace pacecells {

// The columns of a list of people.
enum RosterColumn : std::size_t { name_column, division_column, plan_column, group_column, goal_column, team_column };
inline constexpr std::size_t roster_columns = 6;

// What a column takes: the words of the workbook, and whether it may stay blank where nobody knows what was meant.
struct RosterChoice {
    RosterColumn column;
    std::vector<std::string> words;
    bool may_be_blank;

    [[nodiscard]] std::optional<std::string> read(const std::string& typed) const;
    [[nodiscard]] std::string question(const std::string& typed) const;
};

// What the workbook knows.
struct Roster {
    explicit Roster(const EventCells& event);

    std::set<std::string> names;
    std::vector<sal_Int32> free_rows;
    std::array<RosterChoice, 3> choices;
};

struct ListedAthlete {
    std::vector<std::string> cells; // by RosterColumn, spelled as the workbook does
    std::string happens;            // in words
    bool added = false;
    sal_Int32 row = 0; // of the roster
};

struct RosterPlan {
    std::vector<ListedAthlete> athletes;
    std::vector<std::string> unknown_columns;
    std::size_t added = 0;
    std::size_t there = 0;
    std::size_t twice = 0;
    std::size_t no_place = 0;

    [[nodiscard]] std::string summary() const;
    // The summary, and what happens to each who is not simply new.
    [[nodiscard]] std::string report() const;
    [[nodiscard]] std::vector<std::string> names() const; // of those who are added
};

// What a person said a word means; a word that is not there was not asked yet.
using Meanings = std::map<std::pair<RosterColumn, std::string>, std::string>;

[[nodiscard]] RosterPlan plan_for(const Roster& roster, const ColumnTable& list, const Meanings& meanings);

// Asks for all words of a list that nobody can read, each once; false where the person stops. Without windows the
// argument Meaning answers: "injured=not today;rx=as written".
[[nodiscard]] bool ask_all(Context& context, const Roster& roster, const ColumnTable& list, Meanings& meanings);

// Those who are added. The caller holds the Undo.
void write_people(const EventCells& event, const RosterPlan& plan);

} // namespace pacecells
