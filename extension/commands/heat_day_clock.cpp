#include "heat_day_clock.h"

#include <cstdlib>
#include <ctime>
#include <fstream>

namespace pacecells {

namespace {

double read(clockid_t clock) {
    timespec time{};
    clock_gettime(clock, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

struct Pace {
    double start = read(CLOCK_BOOTTIME);
    double speed = 1;
    Pace() {
        if (const char* given = std::getenv("PACECELLS_HEAT_CLOCK")) {
            const double wanted = std::strtod(given, nullptr);
            if (wanted > 0 && wanted < 1000)
                speed = wanted;
        }
    }
};

} // namespace

Seconds steady_now() {
    static const Pace pace;
    return Seconds{pace.start + (read(CLOCK_BOOTTIME) - pace.start) * pace.speed};
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

double share_of_day(double day) {
    const auto whole = static_cast<std::time_t>(day);
    std::tm local{};
    localtime_r(&whole, &local);
    return (3600 * local.tm_hour + 60 * local.tm_min + local.tm_sec + (day - static_cast<double>(whole))) / 86400;
}

} // namespace pacecells
