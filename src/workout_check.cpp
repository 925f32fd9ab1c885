// What a workout lacks or contradicts as a whole, once its cells are read.
#include "workout_settings.h"

#include "course.h"

#include "check.h"

#include <algorithm>
#include <charconv>

namespace pacecells {

namespace {

using Refusal = std::optional<Error>;

bool done_by(const Station& station, std::size_t division) { return !station.divisions[division].amounts.list.empty(); }

Refusal refuse_station(const Station& station) {
    const bool any = std::ranges::any_of(station.divisions, [](const auto& one) { return !one.amounts.list.empty(); });
    if (!any)
        return out_of_domain("%1: give station %2 an amount.", station.amount_places.front(), station.no);
    if (rate_kind(station.unit) == RateKind::none)
        return {};
    if (!station.pace_row)
        return out_of_domain("%1: station %2 has no row among the usual paces.", Place{.row = station.row}, station.no);
    const Place row{.row = *station.pace_row};
    if (!(station.usual_rate > 0)) {
        switch (station.unit) {
        case Unit::rep:
            return out_of_domain("%1: station %2: give the usual seconds per rep.", row, station.no);
        case Unit::carry_m:
            return out_of_domain("%1: station %2: give the usual seconds per metre.", row, station.no);
        default:
            break;
        }
        if (rate_kind(station.unit) == RateKind::split)
            return out_of_domain("%1: station %2: give the usual pace, such as 2:05.", row, station.no);
        return out_of_domain("%1: station %2: give the usual cal/h.", row, station.no);
    }
    if (rate_kind(station.unit) == RateKind::calories_per_hour && station.unit != Unit::armbike_cal &&
        !(station.usual_rate > 300))
        return out_of_domain(
            "%1: station %2: the usual rate must be above 300 cal/h, which the monitor counts at rest.", row,
            station.no);
    return {};
}

Refusal refuse_lists(const Workout& workout, std::size_t division) {
    const auto& settings = workout.settings;
    std::optional<int> length = settings.format == Format::intervals ? settings.windows : settings.rounds;
    const Station* first = nullptr;
    for (const auto& station : workout.stations) {
        const auto& amounts = station.divisions[division].amounts;
        const Place place = station.amount_places[division];
        if (settings.format == Format::amrap && amounts.rounds())
            return out_of_domain(
                "%1: station %2 has a list that ends after %3 rounds, but the workout is as many rounds "
                "as possible: end the list with … or choose for time.",
                place, station.no, *amounts.rounds());
        if (settings.format == Format::amrap && station.when == When::last)
            return out_of_domain("%1: station %2 is for the last round, which is known only where the workout is for "
                                 "time.",
                                 Place{.row = station.row}, station.no);
        if (settings.format == Format::amrap || amounts.alike() || settings.in_turn)
            continue;
        if (amounts.open) {
            if (!length)
                return out_of_domain("%1: station %2 has a list that goes on: give the number of rounds.", place,
                                     station.no);
            continue;
        }
        if (length && *length != *amounts.rounds()) {
            if (first)
                return out_of_domain("%1: station %2 has a list for %3 rounds, but station %4 has one for %5.", place,
                                     station.no, *amounts.rounds(), first->no, *length);
            return out_of_domain("%1: station %2 has a list for %3 rounds, but the workout has %4.", place, station.no,
                                 *amounts.rounds(), *length);
        }
        length = amounts.rounds();
        first = first ? first : &station;
    }
    return {};
}

Refusal refuse_windows(const Workout& workout) {
    const auto& settings = workout.settings;
    const auto place = [&](std::string_view key) { return workout.place(key).value_or(Place{}); };
    if (!settings.windows)
        return out_of_domain("Enter the number of windows of the intervals.");
    if (settings.every && settings.rest)
        return out_of_domain("%1: give either work and rest, or how often a window starts.", place("rest_s"));
    if (settings.every && settings.work && *settings.work > *settings.every)
        return out_of_domain("%1: the work of %2 s is longer than its window of %3 s.", place("work_s"),
                             settings.work->value(), settings.every->value());
    if (!settings.every && !settings.work)
        return out_of_domain("Enter the seconds of work and rest, or how often a window starts.");
    if (!(settings.work_time().value() > 0))
        return out_of_domain("The time to work in a window must be above 0 s.");
    for (const auto& station : workout.stations) {
        if (station.when != When::every)
            return out_of_domain("%1: station %2: in intervals a station is in every window, or in its turn.",
                                 Place{.row = station.row}, station.no);
    }
    return {};
}

Refusal refuse_team(const Workout& workout) {
    const auto& settings = workout.settings;
    const auto place = [&](std::string_view key) { return workout.place(key).value_or(Place{}); };
    if (settings.at_once > settings.team)
        return out_of_domain("%1: %2 cannot work at once in a team of %3.", place("at_once"), settings.at_once,
                             settings.team);
    if (settings.team == 1 && !settings.split.empty() && !find_word(WordList::split, settings.split))
        return out_of_domain("%1: a team of one shares nothing: give the people per team.", place("split"));
    if (settings.split.empty() || find_word(WordList::split, settings.split))
        return {};
    double sum = 0;
    int people = 0;
    std::string_view left = settings.split;
    for (bool more = true; more; ++people) {
        const auto slash = left.find('/');
        more = slash != std::string_view::npos;
        const auto part = trim(left.substr(0, slash));
        double value = 0;
        const auto read = std::from_chars(part.data(), part.data() + part.size(), value);
        if (part.empty() || read.ptr != part.data() + part.size() || !(value > 0))
            return out_of_domain("%1: write the shares of the team such as 60/40.", place("split"));
        sum += value;
        left.remove_prefix(more ? slash + 1 : 0);
    }
    if (people != settings.team)
        return out_of_domain("%1: there are %2 shares for a team of %3.", place("split"), people, settings.team);
    if (!(sum > 99.5 && sum < 100.5))
        return out_of_domain("%1: the shares add up to %2, not to 100.", place("split"), sum);
    return {};
}

// Rests and holds last as long as is written, whoever does them: those of a window, or of a turn, fit into it.
Refusal refuse_long_rests(const Workout& workout, std::size_t division) {
    const auto& settings = workout.settings;
    const auto fixed = [&](const Station& station) {
        return (station.unit == Unit::rest || station.unit == Unit::hold) && done_by(station, division);
    };
    if (settings.format != Format::intervals || std::ranges::none_of(workout.stations, fixed))
        return {};
    const double window = settings.work_time().value();
    for (int round = 1; round <= *settings.windows; ++round) {
        double taken = 0;
        for (const auto& station : workout.stations) {
            if (!fixed(station))
                continue;
            taken = (settings.in_turn ? 0 : taken) + station.divisions[division].amounts.of_round(round);
            if (taken > window)
                return out_of_domain("%1: by the end of station %2 rests and holds alone take %3 s, and its window has "
                                     "%4 s.",
                                     station.amount_places[division], station.no, taken, window);
        }
    }
    return {};
}

// Of stations done one after the other only the last can be as many as fit.
Refusal refuse_most(const Workout& workout, std::size_t division) {
    const Station* most = nullptr;
    for (const auto& station : workout.stations) {
        if (!done_by(station, division))
            continue;
        const auto& amounts = station.divisions[division].amounts;
        if (amounts.most && workout.settings.format != Format::intervals)
            return out_of_domain("%1: station %2: \"max\" is for intervals; give an amount.",
                                 station.amount_places[division], station.no);
        if (most && !workout.settings.in_turn)
            return out_of_domain("%1: station %2 is as many as fit, so no station can come after it.",
                                 most->amount_places[division], most->no);
        if (amounts.most && (station.unit == Unit::rest || station.unit == Unit::hold))
            return out_of_domain("%1: station %2: enter its seconds.", station.amount_places[division], station.no);
        most = amounts.most ? &station : most;
    }
    return {};
}

Refusal refuse_format(const Workout& workout) {
    const auto& settings = workout.settings;
    if (auto error = refuse_team(workout))
        return error;
    if (settings.format == Format::intervals)
        return refuse_windows(workout);
    if (!(settings.cap.value() > 0))
        return out_of_domain("Enter the cap as minutes and seconds, such as 18:00.");
    if (settings.slip >= settings.cap)
        return out_of_domain("The time that a goal ends before the cap must be less than the cap.");
    return {};
}

// As many rounds as possible: a round takes long enough that the cap holds no more than can be planned.
Refusal refuse_short_rounds(const Workout& workout, std::size_t division) {
    if (workout.settings.format != Format::amrap)
        return {};
    Course::Pace pace;
    for (const auto& station : workout.stations)
        pace.seconds_each.push_back(usual_seconds_each(station));
    const Course course{workout, division, pace, most_plan_rounds / 2};
    if (course.total() >= workout.settings.cap.value())
        return {};
    return out_of_domain("%1: the rounds of %2 are so short that the cap holds more than %3: check amounts and usual "
                         "paces.",
                         workout.divisions[division].place, quoted(workout.divisions[division].name), course.size());
}

} // namespace

Refusal refused(const Workout& workout) {
    const auto& settings = workout.settings;
    for (const auto needed : {"version", "language", "format"})
        if (!workout.place(needed))
            return out_of_domain("The workout's %1 is empty: fill the cell in again.", quoted(needed));
    if (workout.divisions.empty())
        return out_of_domain("Name at least one division over the amounts.");
    if (workout.stations.empty())
        return out_of_domain("Enter at least one station.");
    for (const auto& station : workout.stations)
        if (auto error = refuse_station(station))
            return error;
    if (auto error = refuse_format(workout))
        return error;
    for (std::size_t d = 0; d < workout.divisions.size(); ++d) {
        const bool any = std::ranges::any_of(workout.stations, [d](const auto& one) { return done_by(one, d); });
        if (!any)
            return out_of_domain("%1: the division %2 has no station: enter its amounts or clear its name.",
                                 workout.divisions[d].place, quoted(workout.divisions[d].name));
        if (auto error = refuse_most(workout, d))
            return error;
        if (auto error = refuse_lists(workout, d))
            return error;
        if (auto error = refuse_long_rests(workout, d))
            return error;
        if (auto error = refuse_short_rounds(workout, d))
            return error;
    }
    if (settings.share_work > settings.share_rest)
        return out_of_domain("The share with hard work must be no more than the share with rest.");
    if (settings.intended_low && settings.intended_high && *settings.intended_low > *settings.intended_high)
        return out_of_domain("The intended score must go from the lower to the higher number of rounds.");
    return {};
}

} // namespace pacecells
