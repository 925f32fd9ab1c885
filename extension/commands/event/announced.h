// An announcement beside the sheet Workout: what of it is shown, whether it fits, and the writing.
#pragma once

#include "dialog.h"
#include "event_cells.h"
#include "from_logbook.h"

#include "pacecells/announcement.h"

#include <string>
#include <vector>

namespace pacecells {

// What the sheets have room for.
struct AnnouncementRoom {
    int stations = 0;
    int divisions = 0;
    int rounds = 0; // and windows
};
[[nodiscard]] AnnouncementRoom room_of(const EventCells& event);
void refuse_too_large(const Announcement& announcement, const AnnouncementRoom& room);

[[nodiscard]] bool has_stations(const EventCells& event);
// Marks that somebody has to answer.
[[nodiscard]] std::size_t open_questions(const Announcement& announcement);

// Rows of a table for people: settings, then stations with amounts, unit, loads and usual pace.
[[nodiscard]] Dialog::Rows understood(const Announcement& announcement, const UsualPaces& usual);
// A line for each mark, with its number, and for each station whose usual pace nobody knows.
[[nodiscard]] std::vector<std::string> remarks(const Announcement& announcement, const UsualPaces& usual);
// "AMRAP, 17:00, stations: 4, divisions: 2".
[[nodiscard]] std::string short_text(const Announcement& announcement);

// Instead of the workout that is there. A station of the same movement and unit keeps its usual pace; what `usual` knows is
// looked up by the sheet itself. The caller holds the Undo.
void write_announcement(const EventCells& event, const Announcement& announcement, const UsualPaces& usual,
                        Language language);

} // namespace pacecells
