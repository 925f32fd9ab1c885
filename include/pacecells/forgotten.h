// The log of a heat (heat_log.h) without one of its people.
#pragma once

#include <string>
#include <string_view>

namespace pacecells {

// All lines without those about the athlete of that name (same_name), under every name that the log gives this athlete.
// The lane stays free, the others as they are. A team that is called by its people stays, without this first name; the
// same first name of somebody else goes too, for the log does not tell them apart.
// Example: without "Milo Hargrisle" the team "3: Milo + Paloma" is "3: Paloma".
[[nodiscard]] std::string log_without(std::string_view log, std::string_view name);

} // namespace pacecells
