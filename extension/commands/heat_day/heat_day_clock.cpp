#include "heat_day_clock.h"

#include <dlfcn.h>

#include <array>
#include <cstdint>
#include <ctime>
#include <fstream>

namespace pacecells {

namespace {

double read(clockid_t clock) {
    timespec time{};
    clock_gettime(clock, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

} // namespace

Seconds steady_now() { return Seconds{read(CLOCK_BOOTTIME)}; }

Seconds event_now() {
    const auto now = steady_now();
    using EventTime = std::uint32_t (*)();
    static const auto event_time = [] { // found where it is loaded, never loaded
        void* gtk = dlopen("libgtk-3.so.0", RTLD_LAZY | RTLD_NOLOAD);
        return gtk ? reinterpret_cast<EventTime>(dlsym(gtk, "gtk_get_current_event_time")) : nullptr;
    }();
    const std::uint32_t happened = event_time ? event_time() : 0; // milliseconds of CLOCK_MONOTONIC, cut to 32 bits
    if (happened == 0)
        return now;
    const auto milliseconds = static_cast<std::uint64_t>(read(CLOCK_MONOTONIC) * 1000);
    const std::uint32_t waited = static_cast<std::uint32_t>(milliseconds) - happened;
    constexpr std::uint32_t longest = 3000; // beyond it the display counts from elsewhere
    return waited <= longest ? now - Seconds{waited / 1000.0} : now;
}

const std::string& computer_run() {
    static const std::string run = [] {
        std::ifstream file("/proc/sys/kernel/random/boot_id");
        std::string line;
        std::getline(file, line);
        return line;
    }();
    return run;
}

double day_now() { return read(CLOCK_REALTIME); }

std::string day_and_time(double day) {
    const auto whole = static_cast<std::time_t>(day);
    std::tm local{};
    localtime_r(&whole, &local);
    std::array<char, 40> text{};
    return std::string(text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M", &local));
}

double share_of_day(double day) {
    const auto whole = static_cast<std::time_t>(day);
    std::tm local{};
    localtime_r(&whole, &local);
    return (3600 * local.tm_hour + 60 * local.tm_min + local.tm_sec + (day - static_cast<double>(whole))) / 86400;
}

} // namespace pacecells
