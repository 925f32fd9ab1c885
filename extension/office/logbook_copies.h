// Dated copies of the logbook, so that no command can lose what was in it.
#pragma once

#include "office.h"

#include <string>

namespace pacecells {

inline constexpr int copies_kept_days = 30;

// The folder beside the logbook that holds its copies: /gym/Logbook.ods has /gym/Logbook.copies.
[[nodiscard]] std::string folder_of_copies(const std::string& url);

// Copies the file as it is on the disk, with date and time in the name, and removes copies older than 30 days. Refused
// where that cannot be done: without a copy nothing is changed.
void keep_logbook_copy(const Context& context, const std::string& url);

} // namespace pacecells
