// What an event takes from the logbook: people with their plan and the tests that count, and usual values by name.
#pragma once

#include "logbook.h"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace pacecells {

// The remembered logbook, to read. Null where none was made yet; where it cannot be read that is said, and null too: an
// event can be made without it.
[[nodiscard]] std::unique_ptr<Logbook> logbook_to_take_from(Context& context);

struct Offer {
    std::string gym;
    std::vector<std::string> divisions; // of the people, the most frequent first
    std::vector<std::string> movements;
    std::size_t people = 0;
};
[[nodiscard]] Offer offer_of(const Logbook& logbook);

enum class WhichPeople : std::uint8_t { everyone, last_event, nobody };

// Movements and machines with what is usual, where the sheet Workout looks them up, and how many machines there are.
void take_usual_values(const EventCells& event, const Logbook& logbook);

// People who are not on the roster yet, as many as find a row, and the tests that count on the day of the event.
// What happened, in sentences.
[[nodiscard]] std::string take_people(const EventCells& event, const Logbook& logbook, WhichPeople which);

// People who were just put onto the roster by name: what the logbook knows of them fills what is blank, and their tests
// come along. What happened, in sentences; empty without a logbook, or where it knows none of them.
[[nodiscard]] std::string complete_people(Context& context, const EventCells& event,
                                          const std::vector<std::string>& names);

} // namespace pacecells
