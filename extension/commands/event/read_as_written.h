// An announcement as it was written, and tonight's names, into an event workbook.
#pragma once

#include "command.h"
#include "event_cells.h"

namespace pacecells {

// What the window or the arguments Text and Names hold, read into the workbook; false where the person cancels.
[[nodiscard]] bool read_into(Context& context, const Document& document);

// The same into a new event workbook.
void read_into_new_event(Context& context);

} // namespace pacecells
