#include "heat_day_clock.h"

#include <array>
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

double monotonic_now() { return read(CLOCK_MONOTONIC); }

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

double day_of(Seconds when) { return day_now() - (steady_now() - when).value(); }

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
