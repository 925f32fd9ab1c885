// What an event takes from the logbook: people with their plan and the tests that count, and usual values by name.
#pragma once

#include "logbook.h"

#include "pacecells/announcement.h"
#include "pacecells/ergometer.h"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
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

// How fast movements and machines usually go, as the logbook has it.
class UsualPaces {
  public:
    UsualPaces() = default; // without a logbook: knows nothing
    explicit UsualPaces(const Logbook& logbook);

    // As the logbook writes it where only one of its names is nearly the same; otherwise as it is.
    [[nodiscard]] std::string name_of(const std::string& movement) const;
    [[nodiscard]] std::optional<UsualPace> find(const AnnouncedStation& station) const;

  private:
    std::vector<std::string> names_;
    std::vector<UsualPace> movements_; // rate 0: not known
    std::map<Machine, UsualPace> machines_;
};

enum class WhichPeople : std::uint8_t { everyone, last_event, nobody };

// Movements and machines with what is usual, where the sheet Workout looks them up, and how many machines there are.
void take_usual_values(const EventCells& event, const Logbook& logbook);

// People who are not on the roster yet, as many as find a row, and the tests that count on the day of the event.
// What happened, in sentences.
[[nodiscard]] std::string take_people(const EventCells& event, const Logbook& logbook, WhichPeople which);

// People who were just put onto the roster by name: what the logbook knows of them fills what is blank, and their tests
// come along. What happened, in sentences; empty where it knows none of them.
[[nodiscard]] std::string complete_people(const EventCells& event, const Logbook& logbook,
                                          const std::vector<std::string>& names);

} // namespace pacecells
