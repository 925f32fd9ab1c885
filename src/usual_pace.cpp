#include "pacecells/usual_pace.h"

#include "announcement_tokens.h"

#include <algorithm>
#include <array>

namespace pacecells {

namespace {

// The words of each are the list "pace" of announcement.json.
struct Speed {
    std::string_view key;
    double seconds; // of a rep; common practice, no source
};
constexpr std::array speeds{
    Speed{"skip", 0.4},   // the rope passes twice under a jump in about that time
    Speed{"quick", 1.6},  //
    Speed{"even", 2.2},   //
    Speed{"slow", 3.0},   //
    Speed{"slower", 4.0}, //
    Speed{"climb", 10.0},
};
constexpr double middling = 2.5;
constexpr Seconds strap_in{4};
constexpr Seconds pick_up{3};

double machine_rate(Unit unit) { // cal/h
    return unit == Unit::ski_cal ? 800 : unit == Unit::armbike_cal ? 900 : 850;
}

// The words of a movement name what is done at its end or at its start: the longest phrase, the slower of two.
std::optional<double> rep_seconds(std::string_view movement) {
    const auto tokens = tokens_of(movement);
    std::optional<double> found;
    std::size_t length = 0;
    for (std::size_t at = 0; at < tokens.size(); ++at) {
        const auto phrase = phrase_at(tokens, at, tokens.size(), "pace");
        if (!phrase)
            continue;
        const double seconds = std::ranges::find(speeds, phrase->key, &Speed::key)->seconds;
        const std::size_t words = phrase->end - at;
        if (words > length || (words == length && seconds > found))
            found = seconds;
        length = std::max(length, words);
    }
    return found;
}

} // namespace

std::optional<UsualPace> usual_pace(Unit unit, std::string_view movement, bool loaded) {
    switch (unit) {
    case Unit::row_cal:
    case Unit::ski_cal:
    case Unit::bike_cal:
    case Unit::armbike_cal:
        return UsualPace{machine_rate(unit), strap_in};
    case Unit::row_m:
        return UsualPace{125, strap_in};
    case Unit::ski_m:
        return UsualPace{130, strap_in};
    case Unit::bike_m:
        return UsualPace{125, strap_in};
    case Unit::run_m:
        return UsualPace{300, Seconds{0}};
    case Unit::carry_m: // a brisk walk
        return UsualPace{0.8, pick_up};
    case Unit::rep: {
        const auto seconds = rep_seconds(movement);
        return UsualPace{seconds.value_or(middling), loaded ? pick_up : Seconds{0}, seconds.has_value()};
    }
    default:
        return {};
    }
}

} // namespace pacecells
