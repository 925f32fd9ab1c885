#include "heat_day_event_times.h"

#include "heat_day_clock.h"
#include "system.h"

#include <com/sun/star/awt/SystemDependentXWindow.hpp>
#include <com/sun/star/awt/XSystemDependentWindowPeer.hpp>
#include <com/sun/star/lang/SystemDependent.hpp>

#include <rtl/process.h>

#include <algorithm>
#include <array>

namespace pacecells {

namespace {

constexpr int kept_beats = 20; // of 10 ms: by then the office has handed a key over, or never will

// Of an event at that time of the display's clock, which on this computer is CLOCK_MONOTONIC in milliseconds, cut to 32
// bits; a display elsewhere counts from elsewhere.
Seconds at(std::uint32_t time) {
    constexpr std::uint32_t longest = 60'000;
    const auto now = steady_now();
    const std::uint32_t waited =
        static_cast<std::uint32_t>(static_cast<std::uint64_t>(monotonic_seconds() * 1000)) - time;
    return waited <= longest ? now - Seconds{waited / 1000.0} : now;
}

std::uint32_t time_in_gtk() {
    static const auto event_time = [] {
        void* gtk = loaded_library("libgtk-3.so.0");
        return gtk ? reinterpret_cast<std::uint32_t (*)()>(function_of(gtk, "gtk_get_current_event_time")) : nullptr;
    }();
    return event_time ? event_time() : 0;
}

// As Xlib.h has it on 64 bits.
struct XKey {
    int type;
    unsigned long serial;
    int send_event;
    void* display;
    unsigned long window, root, subwindow, time;
    int x, y, x_root, y_root;
    unsigned state, keycode;
    int same_screen;
};
union XEvent {
    int type;
    XKey key;
    std::array<long, 24> room;
};
using OnError = int (*)(void* display, void* error);

void* own_display = nullptr; // while a window is asked about that may be gone
OnError others = nullptr;

int ignore_own(void* display, void* error) { return display == own_display || !others ? 0 : others(display, error); }

unsigned long x_window(const css::uno::Reference<css::awt::XWindow>& window) {
    const css::uno::Reference<css::awt::XSystemDependentWindowPeer> peer(window, css::uno::UNO_QUERY);
    css::awt::SystemDependentXWindow found;
    css::uno::Sequence<sal_Int8> process(16);
    rtl_getGlobalProcessId(reinterpret_cast<sal_uInt8*>(process.getArray()));
    if (!peer.is() || !(peer->getWindowHandle(process, css::lang::SystemDependent::SYSTEM_XWINDOW) >>= found))
        return 0;
    constexpr sal_Int64 most = 0x1FFFFFFF; // of an id of X; elsewhere it is an address
    return found.WindowHandle > 0 && found.WindowHandle <= most ? static_cast<unsigned long>(found.WindowHandle) : 0;
}

} // namespace

struct EventTimes::Server {
    void* display = nullptr;
    int (*close)(void*) = nullptr;
    int (*pending)(void*) = nullptr;
    int (*sync)(void*, int) = nullptr;
    int (*next)(void*, XEvent*) = nullptr;
    int (*lookup)(XKey*, char*, int, unsigned long*, void*) = nullptr;

    // Null where that window cannot be listened to.
    static std::unique_ptr<Server> of(unsigned long window) {
        void* x = window ? loaded_library("libX11.so.6") : nullptr;
        if (!x)
            return nullptr;
        const auto find = [&]<class Function>(const char* name, Function*& function) {
            function = reinterpret_cast<Function*>(function_of(x, name));
            return function != nullptr;
        };
        auto server = std::make_unique<Server>();
        void* (*open)(const char*) = nullptr;
        int (*select)(void*, unsigned long, long) = nullptr;
        OnError (*on_error)(OnError) = nullptr;
        if (!find("XOpenDisplay", open) || !find("XSelectInput", select) || !find("XSync", server->sync) ||
            !find("XSetErrorHandler", on_error) || !find("XCloseDisplay", server->close) ||
            !find("XPending", server->pending) || !find("XNextEvent", server->next) ||
            !find("XLookupString", server->lookup))
            return nullptr;
        server->display = open(nullptr);
        if (!server->display)
            return nullptr;
        constexpr long key_presses = 1;
        own_display = server->display;
        others = on_error(ignore_own);
        select(server->display, window, key_presses);
        server->sync(server->display, 0);
        on_error(others);
        own_display = nullptr;
        return server;
    }
    Server() = default;
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server() {
        if (display)
            close(display);
    }
};

EventTimes::EventTimes(const css::uno::Reference<css::awt::XWindow>& window)
    : server_(loaded_library("libgtk-3.so.0") ? nullptr : Server::of(x_window(window))) {}

EventTimes::~EventTimes() = default;

void EventTimes::read() {
    constexpr int key_press = 2;
    constexpr unsigned long first_modifier = 0xFFE1, last_modifier = 0xFFEE; // Shift to Hyper
    while (server_ && server_->pending(server_->display) > 0) {
        XEvent event{};
        server_->next(server_->display, &event);
        if (event.type != key_press)
            continue;
        std::array<char, 8> typed{};
        unsigned long symbol = 0;
        const int count = server_->lookup(&event.key, typed.data(), static_cast<int>(typed.size()), &symbol, nullptr);
        if (symbol >= first_modifier && symbol <= last_modifier)
            continue;
        seen_.push_back({static_cast<std::uint32_t>(event.key.time),
                         count == 1 ? static_cast<char16_t>(static_cast<unsigned char>(typed[0])) : u'\0', 0});
    }
}

void EventTimes::beat() {
    read();
    for (auto& one : seen_)
        ++one.beats;
    while (!seen_.empty() && seen_.front().beats > kept_beats)
        seen_.pop_front();
}

Seconds EventTimes::key(const css::awt::KeyEvent& event) {
    if (const auto time = time_in_gtk())
        return at(time);
    // What is no character of Latin 1 is told in other ways here and there.
    const auto same = [&](const Seen& one) {
        return one.typed == event.KeyChar || one.typed == 0 || event.KeyChar == 0 || event.KeyChar > 0xFF;
    };
    const auto find = [&] {
        read();
        return std::find_if(seen_.begin(), seen_.end(), same);
    };
    auto found = find();
    if (found == seen_.end() && server_) { // the office may have been told first: then it is on its way
        server_->sync(server_->display, 0);
        found = find();
    }
    if (found == seen_.end())
        return steady_now();
    const auto time = found->time;
    seen_.erase(seen_.begin(), found + 1);
    return at(time);
}

Seconds EventTimes::click() {
    const auto time = time_in_gtk();
    return time ? at(time) : steady_now();
}

} // namespace pacecells
