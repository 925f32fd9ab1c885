// Where the gym's logbook is. It is asked for once and kept in the office's own settings.
#pragma once

#include "office.h"

#include <optional>
#include <string>

namespace pacecells {

// The address of the file; nothing where no logbook was made or chosen yet.
[[nodiscard]] std::optional<std::string> logbook_place(const Context& context);
void remember_logbook(const Context& context, const std::string& url);

} // namespace pacecells
