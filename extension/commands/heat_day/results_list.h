// A page of results to print or to read out.
#pragma once

#include "heat_day_sheet.h"

namespace pacecells {

// A new document: places so far, by division. Refused where there are no results.
void list_results(const Context& context, EventSheet& event);

} // namespace pacecells
