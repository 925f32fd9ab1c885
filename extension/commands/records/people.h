// The people of the logbook, with the plan that they have on a day.
#pragma once

#include "form.h"
#include "logbook.h"

#include "pacecells/athlete.h"
#include "pacecells/test_entry.h"

#include <map>
#include <string>
#include <vector>

namespace pacecells {

struct LogbookPerson {
    std::string name;
    std::string division;
    DayPlan plan = DayPlan::full; // on that day
    bool minor = false;
};

[[nodiscard]] std::vector<LogbookPerson> people_on(const Logbook& logbook, double day);
[[nodiscard]] std::vector<std::string> names_of(const std::vector<LogbookPerson>& people);

// The place of the one person of that name; refused in words where there is none, where one is nearly called so, or where
// there are two.
[[nodiscard]] std::size_t find_person(const std::vector<std::string>& names, const std::string& typed);

// The choice of a person in a window, or the argument Name; what is typed and who that is.
void ask_for_person(const Context& context, Form& form, const std::vector<std::string>& names);
[[nodiscard]] std::size_t person_in(const Form& form, const std::vector<std::string>& names);

// How the gym calls the machine or movement of a test.
[[nodiscard]] std::string what_of(const TestEntry& test, const std::vector<MachineName>& machines);

} // namespace pacecells
