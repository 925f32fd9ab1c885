#include "heat_day_keys.h"

#include "heat_day_clock.h"
#include "office.h"
#include "system.h"

#include <com/sun/star/awt/Key.hpp>
#include <com/sun/star/awt/KeyModifier.hpp>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

namespace pacecells {

namespace Key = css::awt::Key;
using rtl::OUString;

namespace {

constexpr std::size_t top_keys = 12;  // 1 to 0, and two more
constexpr std::size_t home_keys = 10; // A to the one beside L

// What two rows of the keyboard type; 0 where that is no single character of Latin 1.
struct Rows {
    std::array<sal_Unicode, top_keys> top{};
    std::array<sal_Unicode, top_keys> top_shift{};
    std::array<sal_Unicode, home_keys> home{};
};

// As the X server has it, for the part of the keyboard's map in use. Its library is found where the office has loaded
// it, never loaded; elsewhere the rows are not known.
std::optional<Rows> read_rows() {
    void* x = loaded_library("libX11.so.6");
    if (!x)
        return std::nullopt;
    const auto open = reinterpret_cast<void* (*)(const char*)>(function_of(x, "XOpenDisplay"));
    const auto close = reinterpret_cast<int (*)(void*)>(function_of(x, "XCloseDisplay"));
    const auto get_state = reinterpret_cast<int (*)(void*, unsigned, unsigned char*)>(function_of(x, "XkbGetState"));
    const auto keysym =
        reinterpret_cast<unsigned long (*)(void*, unsigned char, int, int)>(function_of(x, "XkbKeycodeToKeysym"));
    void* display = open && close && get_state && keysym ? open(nullptr) : nullptr;
    if (!display)
        return std::nullopt;
    constexpr unsigned core_keyboard = 0x100;
    constexpr unsigned char first_top = 10, first_home = 38; // of evdev, as every X server has them
    std::array<unsigned char, 64> state{};                   // its first byte is the group
    get_state(display, core_keyboard, state.data());
    const auto typed = [&](std::size_t code, int level) {
        const auto symbol = keysym(display, static_cast<unsigned char>(code), state[0], level);
        return static_cast<sal_Unicode>(symbol < 0x100 ? symbol : 0); // Latin 1 is its own code there
    };
    Rows rows;
    for (std::size_t i = 0; i < top_keys; ++i) {
        rows.top[i] = typed(first_top + i, 0);
        rows.top_shift[i] = typed(first_top + i, 1);
    }
    for (std::size_t i = 0; i < home_keys; ++i)
        rows.home[i] = typed(first_home + i, 0);
    close(display);
    return rows;
}

// Somebody may choose another keyboard at any time.
const std::optional<Rows>& rows_now() {
    constexpr Seconds fresh{0.5};
    static std::optional<Rows> rows;
    static std::optional<Seconds> since;
    if (const auto now = steady_now(); !since || now - *since > fresh || now < *since) {
        rows = read_rows();
        since = now;
    }
    return rows;
}

template <class Row>
int place_in(const Row& row, sal_Unicode character) {
    const auto found = std::find(row.begin(), row.end(), character);
    return character == 0 || found == row.end() ? -1 : static_cast<int>(found - row.begin());
}

// Where the rows are not known, and beyond Latin 1: the digits' row of keyboards that type digits only with Shift.
int lane_of_character(sal_Unicode character) {
    for (const std::u16string_view row : {u"&\u00e9\"'(-\u00e8_\u00e7\u00e0",                          // French
                                          u"&\u00e9\"'(\u00a7\u00e8!\u00e7\u00e0",                     // Belgian
                                          u"+\u011b\u0161\u010d\u0159\u017e\u00fd\u00e1\u00ed\u00e9",  // Czech
                                          u"+\u013e\u0161\u010d\u0165\u017e\u00fd\u00e1\u00ed\u00e9"}) // Slovak
        if (const int lane = place_in(row, character); lane >= 0)
            return lane;
    return -1;
}

// There too: what Shift makes of digits on English, German, Spanish and Nordic keyboards.
int lane_of_shifted(const css::awt::KeyEvent& event) {
    switch (event.KeyCode) {
    case Key::MULTIPLY:
        return 7;
    case Key::DIVIDE:
        return 6;
    case Key::EQUAL:
        return 9;
    default:
        return event.KeyChar == u'#' ? 2 : -1;
    }
}

int lane_of_row(const css::awt::KeyEvent& event, bool shift) {
    if (event.KeyCode >= Key::NUM0 && event.KeyCode <= Key::NUM9)
        return event.KeyCode == Key::NUM0 ? 9 : event.KeyCode - Key::NUM1;
    if (event.KeyCode >= Key::A && event.KeyCode <= Key::Z)
        return -1;
    if (const auto& rows = rows_now(); rows && event.KeyChar < 0x100)
        return place_in(shift ? rows->top_shift : rows->top, event.KeyChar);
    return shift ? lane_of_shifted(event) : lane_of_character(event.KeyChar);
}

// A pad that moves a cursor, as it does with Shift: what its keys are called then, from 1 to 0.
int lane_of_pad(short code) {
    constexpr std::array<short, 10> pad{Key::END,   Key::DOWN, Key::PAGEDOWN, Key::LEFT,   0,
                                        Key::RIGHT, Key::HOME, Key::UP,       Key::PAGEUP, Key::INSERT};
    const auto found = std::find(pad.begin(), pad.end(), code);
    return code == 0 || found == pad.end() ? -1 : static_cast<int>(found - pad.begin());
}

sal_Unicode small(sal_Unicode character) {
    const bool capital = (character >= u'A' && character <= u'Z') || (character >= 0xC0 && character <= 0xDE);
    return static_cast<sal_Unicode>(capital && character != 0xD7 ? character + 0x20 : character);
}

std::u16string_view home_letters() { return u"asdfghjkl;"; }

int lane_of_halves(const css::awt::KeyEvent& event, bool shift) {
    const auto letter = small(event.KeyChar);
    if (const auto& rows = rows_now()) {
        // With Shift the key beside L may type another sign; on its own code it is found all the same.
        const int lane = place_in(rows->home, letter);
        return lane < 0 && shift && event.KeyCode == Key::SEMICOLON ? static_cast<int>(home_keys) - 1 : lane;
    }
    return place_in(home_letters(), letter);
}

} // namespace

KeyPress key_press(const css::awt::KeyEvent& event, KeyLayout layout, Seconds when) {
    namespace Modifier = css::awt::KeyModifier;
    KeyPress key;
    key.when = when;
    key.shift = (event.Modifiers & Modifier::SHIFT) != 0;
    const auto letter =
        event.KeyCode >= Key::A && event.KeyCode <= Key::Z ? static_cast<char>('A' + event.KeyCode - Key::A) : '\0';
    const bool halves = layout == KeyLayout::halves;
    if (event.Modifiers & (Modifier::MOD1 | Modifier::MOD2)) {
        if (halves && !(event.Modifiers & Modifier::MOD2))
            key.letter = letter;
        return key;
    }
    if (event.KeyCode == Key::RETURN)
        key.edit = KeyPress::Edit::enter;
    else if (event.KeyCode == Key::ESCAPE)
        key.edit = KeyPress::Edit::escape;
    else if (event.KeyCode == Key::BACKSPACE)
        key.edit = KeyPress::Edit::backspace;
    if (key.edit != KeyPress::Edit::none)
        return key;
    if (event.KeyChar >= 32 && event.KeyChar != 127)
        key.text = utf8(OUString(event.KeyChar));
    if (layout == KeyLayout::pad)
        key.lane = lane_of_pad(event.KeyCode);
    if (halves)
        key.lane = lane_of_halves(event, key.shift);
    if (key.lane < 0)
        key.lane = lane_of_row(event, key.shift);
    if (!halves)
        key.letter = letter;
    return key;
}

std::vector<std::string> lane_keys(KeyLayout layout) {
    std::vector<std::string> keys;
    const auto& rows = rows_now();
    for (std::size_t i = 0; i < home_keys; ++i)
        if (layout == KeyLayout::halves)
            keys.push_back(
                utf8(OUString(rows && rows->home[i] ? rows->home[i] : home_letters()[i]).toAsciiUpperCase()));
        else
            keys.push_back(std::to_string((i + 1) % home_keys));
    for (std::size_t i = keys.size(); rows && i < top_keys; ++i)
        keys.push_back(rows->top[i] ? utf8(OUString(rows->top[i])) : std::string());
    return keys;
}

} // namespace pacecells
