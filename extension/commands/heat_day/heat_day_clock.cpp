#include "heat_day_clock.h"

#include "system.h"

#include <array>
#include <ctime>

namespace pacecells {

Seconds steady_now() { return Seconds{seconds_since_start()}; }

const std::string& computer_run() {
    static const std::string run = name_of_start();
    return run;
}

double day_now() { return seconds_since_1970(); }

double day_of(Seconds when) { return day_now() - (steady_now() - when).value(); }

std::string day_and_time(double day) {
    const auto whole = static_cast<std::time_t>(day);
    const auto local = local_time(whole);
    std::array<char, 40> text{};
    return std::string(text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M", &local));
}

double share_of_day(double day) {
    const auto whole = static_cast<std::time_t>(day);
    const auto local = local_time(whole);
    return (3600 * local.tm_hour + 60 * local.tm_min + local.tm_sec + (day - static_cast<double>(whole))) / 86400;
}

} // namespace pacecells
