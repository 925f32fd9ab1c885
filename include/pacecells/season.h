// The standings of a season: places in each event, the best of them added up.
#pragma once

#include "pacecells/result.h"
#include "pacecells/score.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace pacecells {

// What a missed event counts as.
enum class Missed : std::uint8_t {
    behind_last, // one place behind the last of the division
    fixed,       // a place that is the same for everyone
    nothing,     // it is left out; who has fewer results that count is ranked behind who has more
};

struct SeasonRules {
    int best = 0; // so many results count; 0: all
    Missed missed = Missed::behind_last;
    int fixed_place = 30;
};

// A result of one event.
struct SeasonResult {
    std::string name;
    std::string division;
    double score = 0;
    std::optional<double> tiebreak = {};
};

struct SeasonEvent {
    Order order = Order::high_wins;
    std::vector<SeasonResult> results;
};

struct SeasonRow {
    std::string name;                       // as in the last event
    std::string division;                   // of the last event with a result
    int events = 0;                         // with a result
    std::vector<std::optional<int>> places; // by event, in its division, missed ones as the rule says
    std::vector<bool> counts;               // by event: among the best
    int points = 0;                         // sum of the places that count; fewer are better
    int place = 0;                          // in the division
};

// Places are those of each event within the division in which the person took part (Places in score.h). The fewer points
// the better; with as many, who has the better best place, then the next; alike in all, they share the place (common
// practice, no source). A person is known by name (same_name) and stands in the division of the last event.
// An event that nobody of a division took part in is missed by nobody of it.
// Domain: best at least 0, fixed place at least 1; a name once per event; scores are numbers.
// Rows by division, in the order in which divisions come first, then by place, then by name.
[[nodiscard]] Result<std::vector<SeasonRow>> season(std::span<const SeasonEvent> events, const SeasonRules& rules);

} // namespace pacecells
