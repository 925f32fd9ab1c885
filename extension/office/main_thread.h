// The office paints and keeps its timers on the main thread; a command that comes through a bridge from another program
// does not run there by itself.
#pragma once

#include "command.h"

#include <functional>

namespace pacecells {

// Runs it there and comes back when it is done; what it throws is thrown here. On the main thread already: at once.
void on_main_thread(const Context& context, const std::function<void()>& work);

} // namespace pacecells
