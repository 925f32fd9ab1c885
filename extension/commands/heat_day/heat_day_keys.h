// Which key is which lane.
#pragma once

#include "pacecells/quantity.h"

#include <com/sun/star/awt/KeyEvent.hpp>

#include <string>
#include <vector>

namespace pacecells {

enum class KeyLayout {
    row,   // the row of digits; a numeric pad that types digits too
    pad,   // a numeric pad, whether it types digits or moves a cursor, and the row of digits
    halves // two judges at one keyboard: the row of A and the one of H; commands with Ctrl
};

// A key as the window hands it over.
struct KeyPress {
    Seconds when{0};
    int lane = -1; // from 0
    bool shift = false;
    char letter = 0;  // 'A' to 'Z': a command
    std::string text; // what would be typed
    enum class Edit { none, enter, escape, backspace } edit = Edit::none;
};

[[nodiscard]] KeyPress key_press(const css::awt::KeyEvent& event, KeyLayout layout, Seconds when);

// What the key of each lane types, from the first lane on, on the keyboard as it is now.
[[nodiscard]] std::vector<std::string> lane_keys(KeyLayout layout);

} // namespace pacecells
