// The settings of a workout's block, read row by row.
#pragma once

#include "pacecells/workout.h"

namespace pacecells {

// Whether there is a setting of that key.
[[nodiscard]] bool is_setting(std::string_view key);

// Sets it from a cell that is not blank. The label is what the sheet calls it, for sentences.
[[nodiscard]] std::optional<Error> read_setting(Settings& settings, std::string_view key, const TableCell& cell,
                                                Place place, const std::string& label);

// What the settings lack or contradict, with the places of those typed.
[[nodiscard]] std::optional<Error> refused(const Workout& workout);

} // namespace pacecells
