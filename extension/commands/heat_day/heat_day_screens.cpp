#include "heat_day_screens.h"

#include "system.h"

namespace pacecells {

// The office has no list of screens. The X server has: its libraries are found where the office has loaded them, never
// loaded.
std::vector<css::awt::Rectangle> screens() {
    struct Screen {
        int number;
        short x, y, width, height;
    };
    std::vector<css::awt::Rectangle> all;
    void* x = loaded_library("libX11.so.6");
    void* xinerama = loaded_library("libXinerama.so.1");
    if (!x || !xinerama)
        return all;
    const auto open = reinterpret_cast<void* (*)(const char*)>(function_of(x, "XOpenDisplay"));
    const auto close = reinterpret_cast<int (*)(void*)>(function_of(x, "XCloseDisplay"));
    const auto free = reinterpret_cast<int (*)(void*)>(function_of(x, "XFree"));
    const auto active = reinterpret_cast<int (*)(void*)>(function_of(xinerama, "XineramaIsActive"));
    const auto query = reinterpret_cast<Screen* (*)(void*, int*)>(function_of(xinerama, "XineramaQueryScreens"));
    void* display = open && close && free && active && query ? open(nullptr) : nullptr;
    if (!display)
        return all;
    int count = 0;
    if (Screen* list = active(display) ? query(display, &count) : nullptr) {
        for (int i = 0; i < count; ++i)
            all.emplace_back(list[i].x, list[i].y, list[i].width, list[i].height);
        free(list);
    }
    close(display);
    return all;
}

} // namespace pacecells
