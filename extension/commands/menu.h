// The menu with its submenus, and the toolbar, in order. The registration of both is generated from this list; the labels
// are translated in extension/texts. A ~ stands before the letter that is pressed with Alt: each once in a submenu.
#pragma once

#include <span>
#include <string_view>

namespace pacecells {

struct MenuItem {
    std::string_view command; // the name of a Command; its icons are package/office/icons/<command>_16.png and _26.png
    std::string_view label;
    bool starts_group = false;
    bool in_toolbar = false;
};

struct Submenu {
    std::string_view label; // none: its items are in the menu itself
    std::span<const MenuItem> items;
};

inline constexpr std::string_view protocol = "vnd.org.pacecells:";

inline constexpr std::string_view menu_title = "~Pacecells";

inline constexpr MenuItem event_items[] = {
    {"new-event", "New ~event…", false, true},
    {"read-as-written", "Rea~d as written…", false, true},
    {"example-event", "Open an examp~le…"},
    {"add-athletes", "~Add athletes…", true, true},
    {"bring-tests", "~Import test results…", false, true},
    {"new-wall", "New ~wall table", true},
    {"new-roster", "~New roster in one sheet"},
};

inline constexpr MenuItem print_items[] = {
    {"print-pack", "Print pac~k as PDF…", false, true},
    {"print-changed", "Print what chan~ged…"},
    {"cards", "~Cards as PDF…"},
    {"loads", "~Loads as PDF…"},
    {"fit-prints", "~Fit print areas to athletes"},
    {"share", "Share as ~values…", true, true},
    {"copy-without-people", "Cop~y without people…"},
};

inline constexpr MenuItem heat_items[] = {
    {"start-list", "~Start list"},
    {"heat-day", "R~un heats…", false, true},
    {"review", "~Review", true},
    {"results-to-logbook", "Results to the ~logbook…"},
};

inline constexpr MenuItem logbook_items[] = {
    {"new-logbook", "~New logbook…"},
    {"open-logbook", "Open the log~book"},
    {"import-to-logbook", "~Import into the logbook…"},
    {"person-page", "~Person's page…", true},
    {"test-day", "~Test day…"},
    {"take-tests", "Ta~ke tests into the logbook…"},
    {"season", "~Season", true},
    {"forecasts", "How forecasts ~held…"},
    {"forget-person", "~Forget a person…", true},
};

inline constexpr MenuItem cell_items[] = {
    {"pace-table", "Insert ~pace table…", false, true},
    {"ergometer-table", "Insert e~rgometer table…", false, true},
    {"minutes", "Show as ~minutes and seconds", false, true},
};

inline constexpr MenuItem other_items[] = {
    {"explain", "E~xplain this cell…", true, true},
    {"help", "~Help", true},
    {"about", "Ab~out Pacecells…"},
};

inline constexpr Submenu menu[] = {
    {"~Event", event_items},     {"~Print and share", print_items}, {"Heats and ~results", heat_items},
    {"~Logbook", logbook_items}, {"~Tables and cells", cell_items}, {"", other_items},
};

} // namespace pacecells
