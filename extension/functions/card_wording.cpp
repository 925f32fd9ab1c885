#include "card_wording.h"

#include "wording.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"
#include "pacecells/tiebreak.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr std::size_t most_of_words = 165; // letters, in the two lines that a card has for sets or turns

std::string first_word(const std::string& movement) { return movement.substr(0, movement.find_first_of(" -")); }

bool intervals(const Workout& workout) { return workout.settings.format == Format::intervals; }

std::string clock(Seconds time) { return *clock_text(time, 0); }

// Without its unit, which stands above it.
std::string bare_rate(const Workout& workout, Machine machine, CaloriesPerHour rate) {
    auto text = rate_text(workout, machine, rate);
    text.resize(std::min(text.find(' '), text.size()));
    return text;
}

// The window in which a station comes first.
const RoundPlan* first_window(const Plan& plan, std::size_t station) {
    const auto found = std::ranges::find_if(plan.goal->rounds,
                                            [&](const RoundPlan& one) { return one.stations[station].has_value(); });
    return found == plan.goal->rounds.end() ? nullptr : &*found;
}

} // namespace

bool fits_card(std::string_view text) { return characters(text) <= most_of_words; }

std::string point_text(const Workout& workout, std::size_t division, const Point& point) {
    const auto& station = workout.stations[point.station];
    const double all = station.amount(division, point.rounds + 1, workout.rounds(division));
    const auto language = workout.settings.language;
    return spoken(std::floor(point.amount), language) + "/" + spoken(all, language) + " " + station.movement;
}

bool card_by_station(const Workout& workout, const Plan& plan) {
    return !intervals(workout) && plan.goal->rounds.size() == 1;
}

std::string card_goal_text(const Workout& workout, const Plan& plan, Seconds later) {
    const auto language = workout.settings.language;
    std::vector<std::string> most;
    for (const auto& one : plan.stations)
        if (workout.stations[one.station].divisions[plan.division].amounts.most)
            most.push_back(first_word(workout.stations[one.station].movement));
    auto text = intervals(workout)           ? (most.size() == 1 ? spoken(say("goal: windows x %1", most[0]), language)
                                                                 : spoken(say("goal: windows"), language))
                : plan.goal->goal.score.time ? spoken(say("goal: finish"), language)
                                             : spoken(say("goal: rounds"), language);
    if (const auto tiebreak = tiebreak_of(workout, plan.division))
        if (const auto at = clock_of(*tiebreak, *plan.goal))
            text += " · " + spoken(say("tie-break %1", clock(*at + later)), language);
    return text;
}

Seconds card_time(const Workout& workout, const Plan& plan, Seconds later) {
    return card_by_station(workout, plan) ? plan.goal->goal.clock / 2 + later : plan.goal->target;
}

std::string card_time_text(const Workout& workout, const Plan& plan) {
    const auto language = workout.settings.language;
    if (intervals(workout)) {
        const auto spare = workout.settings.work_time() - plan.goal->target;
        return spare < Seconds{0}
                   ? spoken(say("of work per window, %1 too long", clock(Seconds{-spare.value()})), language)
                   : spoken(say("of work per window, %1 to spare", clock(spare)), language);
    }
    if (card_by_station(workout, plan))
        return spoken(say("half: %1", point_text(workout, plan.division, plan.goal->quarters[1])), language);
    const auto per_round = spoken(say("per round"), language);
    return plan.pacing == Pacing::even
               ? per_round
               : per_round + ", " +
                     std::string(word(WordList::pacing, static_cast<std::size_t>(plan.pacing), language));
}

std::string amount_text(const Workout& workout, const StationPlan& station) {
    const bool calories = rate_kind(workout.stations[station.station].unit) == RateKind::calories_per_hour;
    return spoken(station.part, workout.settings.language) + (calories ? " cal" : " m");
}

std::string card_rate(const Workout& workout, const Plan& plan) {
    const auto machine = plan.main && plan.card ? machine_of(workout.stations[*plan.main].unit) : std::nullopt;
    if (!machine)
        return {};
    const auto& settings = workout.settings;
    const auto text = rate_text(workout, *machine, plan.card->advice.hold);
    const bool split = settings.rate_unit == ErgUnit::split && text.find(' ') == text.npos; // a time alone says nothing
    return machine_label(*machine, settings.language) + " " + text +
           (split ? " " + std::string(
                              word(WordList::rate_unit, static_cast<std::size_t>(ErgUnit::split), settings.language))
                  : std::string());
}

std::string card_rate_text(const Workout& workout, const Plan& plan) {
    const auto at =
        std::ranges::find(plan.stations, plan.main.value_or(workout.stations.size()), &StationPlan::station);
    if (card_rate(workout, plan).empty() || at == plan.stations.end() || !plan.on_machine)
        return {};
    const auto language = workout.settings.language;
    const auto machine = *machine_of(workout.stations[*plan.main].unit);
    const auto amount = at->amounts.empty() ? std::string() : amount_text(workout, *at);
    const auto time = clock(*plan.on_machine);
    const auto most = bare_rate(workout, machine, plan.card->advice.never_above);
    const auto& needed = plan.card->needed;
    if (!needed || !(needed->value() > 0))
        return spoken(say("%1 in %2 (max %3)", amount, time, most), language);
    if (any_rate_makes(machine, *needed))
        return spoken(say("%1 in %2 (any pace makes it; max %3)", amount, time, most), language);
    return spoken(say("%1 in %2 (%3 makes it; max %4)", amount, time, bare_rate(workout, machine, *needed), most),
                  language);
}

std::string card_rule(const Workout& workout, const Plan& plan, Seconds later) {
    const auto language = workout.settings.language;
    if (intervals(workout))
        return plan.first_failing
                   ? spoken(say("Window %1 is the first that does not hold.", *plan.first_failing), language)
                   : spoken(say("All windows hold."), language);
    if (card_by_station(workout, plan)) {
        std::string text;
        for (const std::size_t quarter : {0u, 2u})
            text +=
                (text.empty() ? "" : " · ") +
                spoken(say("%1: %2", clock(plan.goal->goal.clock * ((static_cast<double>(quarter) + 1) / 4) + later),
                           point_text(workout, plan.division, plan.goal->quarters[quarter])),
                       language);
        return text;
    }
    if (!plan.check_round || !plan.check_clock)
        return {};
    return spoken(say("Round %1 after %2? Take the lower row.", *plan.check_round, clock(*plan.check_clock + later)),
                  language);
}

std::string card_sets(const Workout& workout, const Plan& plan) {
    std::string text;
    for (const auto detail : {SetsDetail::all, SetsDetail::no_fall_back, SetsDetail::scheme_alone})
        if (text = all_sets_text(workout, plan, detail); fits_card(text))
            break;
    return text;
}

std::string card_stations_label(const Workout& workout) {
    return intervals(workout) ? spoken(say("per window"), workout.settings.language)
                              : spoken(say("off by"), workout.settings.language);
}

std::optional<CardStation> card_station(const Workout& workout, const Plan& plan, int k) {
    if (k > std::ssize(plan.stations))
        return {};
    const auto station = plan.stations[static_cast<std::size_t>(k) - 1].station;
    CardStation made{.name = workout.short_name(station), .time = {}};
    if (intervals(workout)) {
        if (const auto* round = first_window(plan, station))
            made.time = *round->stations[station] - workout.settings.window() * (round->round - 1);
    } else if (!plan.goal->rounds.empty()) {
        made.time = plan.goal->rounds.front().stations[station];
    }
    return made;
}

std::string card_table_label(const Workout& workout, const Plan& plan) {
    const auto language = workout.settings.language;
    return intervals(workout)               ? spoken(say("after window"), language)
           : card_by_station(workout, plan) ? spoken(say("after station"), language)
                                            : spoken(say("after round"), language);
}

std::optional<CardColumn> card_column(const Workout& workout, const Plan& plan, int k) {
    const auto in = [&](const GoalLine& line, std::size_t row) {
        return row < line.rounds.size() ? std::optional(line.rounds[row].clock) : std::nullopt;
    };
    if (card_by_station(workout, plan)) {
        if (k > std::ssize(plan.stations))
            return {};
        const auto station = plan.stations[static_cast<std::size_t>(k) - 1].station;
        CardColumn made{.heading = k, .clock = plan.goal->rounds.front().stations[station], .lower = {}};
        if (plan.next_down && !plan.next_down->rounds.empty())
            made.lower = plan.next_down->rounds.front().stations[station];
        return made;
    }
    // Every second or third round where there are too many.
    const int rounds = static_cast<int>(plan.goal->rounds.size());
    const int step = (rounds + card_columns - 1) / card_columns;
    if (k * step > rounds)
        return {};
    const auto row = static_cast<std::size_t>(k * step) - 1;
    return CardColumn{.heading = k * step,
                      .clock = in(*plan.goal, row),
                      .lower = plan.next_down ? in(*plan.next_down, row) : std::nullopt};
}

} // namespace pacecells
