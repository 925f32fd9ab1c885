#include "pacecells/clock.h"

#include "check.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace pacecells {

namespace {

bool all_digits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The whole text, digits with at most one point between them. Precondition: short enough for a double.
double number(std::string_view digits) {
    double value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

} // namespace

Result<Seconds> parse_clock(std::string_view text) {
    constexpr std::size_t longest = 32;
    constexpr double hour = 3600;
    constexpr double minute = 60;
    const auto refuse = [&] {
        return out_of_domain("%1 is not a time: write minutes and seconds as 2:30, or with hours 1:02:30.",
                             quoted(text));
    };

    const auto trimmed = trim(text);
    if (trimmed.size() > longest)
        return refuse();
    std::string written{trimmed};
    std::replace(written.begin(), written.end(), ',', '.');

    const std::string_view all{written};
    const auto clock = all.substr(0, all.find('.'));
    if (clock.size() < all.size() && !all_digits(all.substr(clock.size() + 1)))
        return refuse(); // the decimals

    const auto last_colon = clock.rfind(':');
    if (last_colon == std::string_view::npos)
        return refuse();
    const auto first_colon = clock.find(':');
    const auto first = clock.substr(0, first_colon);
    const auto seconds = clock.substr(last_colon + 1);
    const bool has_hours = first_colon != last_colon;
    const auto minutes =
        has_hours ? clock.substr(first_colon + 1, last_colon - first_colon - 1) : std::string_view{"0"};

    // A third colon is inside the minutes and fails all_digits.
    if (!all_digits(first) || !all_digits(minutes) || !all_digits(seconds))
        return refuse();
    if (seconds.size() != 2 || (has_hours && minutes.size() != 2))
        return refuse();
    if (number(seconds) >= 60 || number(minutes) >= 60) {
        return out_of_domain("%1 is not a time: seconds, and minutes after hours, must be below 60.", quoted(text));
    }
    return Seconds{number(first) * (has_hours ? hour : minute) + number(minutes) * minute +
                   number(all.substr(last_colon + 1))};
}

Result<std::string> clock_text(Seconds time, int decimals) {
    constexpr double longest = 1e9;
    constexpr std::array<std::int64_t, 4> micros_per_unit{1'000'000, 100'000, 10'000, 1'000}; // by decimals
    constexpr std::array<std::int64_t, 4> units_per_second{1, 10, 100, 1'000};
    if (!(time.value() >= 0 && time.value() <= longest)) {
        return out_of_domain("The time must be 0 s or more, and a time that a clock can show; got %1.", time.value());
    }
    if (decimals < 0 || decimals > 3)
        return out_of_domain("The number of decimals must be from 0 to 3; got %1.", decimals);

    const auto place = static_cast<std::size_t>(decimals);
    const auto micros = static_cast<std::int64_t>(std::floor(time.value() * 1e6 + 0.5));
    const auto units = (micros + micros_per_unit[place] / 2) / micros_per_unit[place];
    const auto whole = static_cast<long long>(units / units_per_second[place]);
    const auto fraction = static_cast<int>(units % units_per_second[place]);

    std::array<char, 48> buffer{};
    const auto hours = whole / 3600;
    const auto minutes = static_cast<int>(whole / 60 % 60);
    const auto seconds = static_cast<int>(whole % 60);
    if (hours > 0) {
        std::snprintf(buffer.data(), buffer.size(), "%lld:%02d:%02d", hours, minutes, seconds);
    } else {
        std::snprintf(buffer.data(), buffer.size(), "%d:%02d", minutes, seconds);
    }
    std::string text{buffer.data()};
    if (decimals > 0) {
        std::snprintf(buffer.data(), buffer.size(), ".%0*d", decimals, fraction); // a point in every locale
        text += buffer.data();
    }
    return text;
}

} // namespace pacecells
