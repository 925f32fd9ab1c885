// Which key is which lane.
#pragma once

#include "pacecells/quantity.h"

#include <com/sun/star/awt/KeyEvent.hpp>

#include <string>
#include <vector>

namespace pacecells {

enum class KeyLayout {
    row,   // the row of digits alone; a numeric pad that types digits too
    pad,   // and a numeric pad that moves a cursor
    halves // and two judges at one keyboard, by the letters from A and from H on; commands with Ctrl
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
