// When a key was pressed, not when the office came round to it: its main thread may have been busy for seconds.
//
// UNO's events carry no time. GTK tells the time of the event that is being handled. The X server gives each event a
// time, and tells whoever else asks about the keys of a window: a connection of our own asks, for the heat's window
// alone, and a key that the office hands over is the first one there that types the same. Elsewhere, and for clicks
// without GTK, it is the time of the call.
#pragma once

#include "pacecells/quantity.h"

#include <com/sun/star/awt/KeyEvent.hpp>
#include <com/sun/star/awt/XWindow.hpp>

#include <cstdint>
#include <deque>
#include <memory>

namespace pacecells {

namespace css = com::sun::star;

class EventTimes {
  public:
    // The keys of that window, once it is on the screen.
    explicit EventTimes(const css::uno::Reference<css::awt::XWindow>& window);
    ~EventTimes();
    EventTimes(const EventTimes&) = delete;
    EventTimes& operator=(const EventTimes&) = delete;

    // Of the event that is being handled, in steady_now().
    [[nodiscard]] Seconds key(const css::awt::KeyEvent& event);
    [[nodiscard]] static Seconds click();
    // Often, while the main thread is not busy: a key that it got long ago and handed to nobody is forgotten.
    void beat();

  private:
    struct Server; // the connection to the X server
    struct Seen {
        std::uint32_t time; // the server's
        char16_t typed;     // 0: nothing
        int beats;
    };
    void read();

    std::unique_ptr<Server> server_;
    std::deque<Seen> seen_; // not yet handed over
};

} // namespace pacecells
