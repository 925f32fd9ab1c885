// The menu and the toolbar, in order. The registration of both is generated from this list; the labels are translated
// in extension/texts. A ~ stands before the letter that is pressed with Alt.
#pragma once

#include <string_view>

namespace pacecells {

struct MenuItem {
    std::string_view command; // the name of a Command; its icons are package/office/icons/<command>_16.png and _26.png
    std::string_view label;
    bool starts_group = false;
    bool in_toolbar = false;
};

inline constexpr std::string_view protocol = "vnd.org.pacecells:";

inline constexpr std::string_view menu_title = "~Pacecells";

inline constexpr MenuItem menu[] = {
    {"new-event", "New ~event…", false, true},
    {"read-as-written", "Rea~d as written…", false, true},
    {"example-event", "Open an examp~le…"},
    {"new-wall", "New ~wall table"},
    {"new-roster", "~New roster in one sheet"},
    {"new-logbook", "New logbook…", true},
    {"open-logbook", "Open the log~book"},
    {"add-athletes", "~Add athletes…", true, true},
    {"bring-tests", "~Import test results…", false, true},
    {"pace-table", "Insert ~pace table…", true, true},
    {"ergometer-table", "Insert e~rgometer table…", false, true},
    {"minutes", "Show as ~minutes and seconds", false, true},
    {"explain", "E~xplain this cell…", false, true},
    {"heat-day", "R~un heats…", true, true},
    {"start-list", "~Start list"},
    {"review", "Review"},
    {"results-to-logbook", "Results to the logbook…"},
    {"import-to-logbook", "Import into the logbook…"},
    {"print-pack", "Print pac~k as PDF…", false, true},
    {"print-changed", "Print what changed…"},
    {"cards", "~Cards as PDF…"},
    {"fit-prints", "~Fit print areas to athletes"},
    {"share", "Share as ~values…", false, true},
    {"copy-without-people", "Cop~y without people…"},
    {"person-page", "Person's page…", true},
    {"test-day", "Test day…"},
    {"take-tests", "Take tests into the logbook…"},
    {"season", "Season"},
    {"forecasts", "How forecasts held…"},
    {"forget-person", "Forget a person…"},
    {"help", "~Help", true},
    {"about", "Ab~out Pacecells…"},
};

} // namespace pacecells
