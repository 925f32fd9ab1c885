// A page of results to print or to read out.
#pragma once

#include "heat_day_sheet.h"

namespace pacecells {

// A cell that is not as it was when its heat ended.
struct Correction {
    int heat = 0;
    std::string name;
    std::string what; // "round 3"
    std::string then; // empty: nothing
    std::string now;
    std::string when; // empty: not known, as who
    std::string who;
};

// A new document: places so far, by division, and on a page of their own the corrections since. Refused where there are
// no results.
void list_results(const Context& context, EventSheet& event, const std::vector<Correction>& corrections);

} // namespace pacecells
