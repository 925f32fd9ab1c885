#include "wording.h"

#include "pacecells/clock.h"
#include "pacecells/ergometer.h"
#include "pacecells/team.h"
#include "pacecells/text.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <iterator>

namespace pacecells {

namespace {

std::atomic<Translator> translate{nullptr};
std::atomic<DateOrder> date_order_of{nullptr};

constexpr std::string_view iso = "YYYY-MM-DD";

std::string spoken(std::string_view sentence, const std::vector<Told>& told, Language language) {
    const auto translator = translate.load();
    const auto text = translator ? translator(sentence, language) : sentence;
    const auto order_of = date_order_of.load();
    std::vector<std::string> values;
    for (const auto& one : told) {
        if (const auto* number = std::get_if<double>(&one))
            values.push_back(spoken(*number, language));
        else if (const auto* place = std::get_if<Place>(&one)) // of the row that a formula names
            values.push_back(pacecells::spoken(say("column %1 of the row", place->column + 1), language));
        else
            values.push_back(in_date_order(*std::get_if<std::string>(&one), order_of ? order_of(language) : iso));
    }
    return filled(text, values);
}

std::string clock(Seconds time) {
    const auto text = clock_text(time, 0);
    return text ? *text : std::string();
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string text;
    for (const auto& part : parts)
        if (!part.empty())
            text.append(text.empty() ? "" : between).append(part);
    return text;
}

// "2-2" of two sets, "4 sets of 2" of more.
std::string run_text(const Scheme::Run& run, Language language) {
    constexpr int most_listed = 3;
    if (run.sets > most_listed)
        return spoken(say("%1 sets of %2", run.sets, run.reps), language);
    return joined(std::vector(static_cast<std::size_t>(run.sets), std::to_string(run.reps)), "-");
}

std::string amounts_text(const Amounts& amounts, Language language) {
    constexpr std::size_t most_listed = 5;
    if (amounts.most)
        return "max";
    std::vector<std::string> parts;
    for (const double amount : amounts.list)
        parts.push_back(spoken(amount, language));
    if (parts.size() > most_listed) // counted down or up: the first two and the last
        parts = {parts[0], parts[1], "…", parts.back()};
    if (amounts.open)
        parts.emplace_back("…");
    return joined(parts, "-");
}

} // namespace

void translate_with(Translator translator, DateOrder date_order) {
    translate = translator;
    date_order_of = date_order;
}

std::string in_date_order(const std::string& text, std::string_view order) {
    if (text.size() != iso.size() || !std::ranges::equal(text, iso, [](char c, char mark) {
            return mark == '-' ? c == mark : c >= '0' && c <= '9';
        }))
        return text;
    std::string date(order);
    for (const std::string_view part : {"YYYY", "MM", "DD"})
        date.replace(date.find(part), part.size(), text, iso.find(part), part.size());
    return date;
}

std::string spoken(const Said& said, Language language) { return spoken(said.sentence, said.told, language); }
std::string spoken(const Error& error, Language language) { return spoken(error.sentence, error.told, language); }

std::string spoken(double number, Language language) {
    auto text = number_text(number);
    if (language != Language::en)
        std::ranges::replace(text, '.', ',');
    return text;
}

std::string scheme_text(const Scheme& scheme, Language language) {
    const auto words = scheme_words(scheme);
    switch (words.kind) {
    case SchemeWords::Kind::unbroken:
    case SchemeWords::Kind::listed:
        break;
    case SchemeWords::Kind::singles:
        return spoken(say("singles"), language);
    case SchemeWords::Kind::equal_sets:
        return run_text(words.first, language);
    case SchemeWords::Kind::then_singles:
        return spoken(say("%1, then singles", run_text(words.first, language)), language);
    case SchemeWords::Kind::then_sets:
        return spoken(say("%1, then %2", run_text(words.first, language), run_text(words.second, language)), language);
    }
    return words.written;
}

std::string sets_text(const StationSets& sets, Language language, SetsDetail detail) {
    auto text = scheme_text(sets.open, language);
    if (sets.rest > Seconds{0} && detail != SetsDetail::scheme_alone)
        text += " (" + spoken(sets.rest.value(), language) + " s)";
    if (sets.fall_back == sets.open || detail != SetsDetail::all)
        return text;
    const auto less = scheme_text(sets.fall_back, language);
    const bool short_enough = text.find(',') == text.npos && less.find(',') == less.npos;
    return short_enough ? spoken(say("%1, then %2", text, less), language)
                        : spoken(say("%1; if that is too much %2", text, less), language);
}

std::string turns_text(const Workout& workout, const Plan& plan, std::string_view between) {
    const auto language = workout.settings.language;
    std::vector<std::string> parts;
    for (const auto& one : turns_of(workout, plan))
        parts.push_back(workout.stations[one.station].movement + " " +
                        (one.scheme ? scheme_text(*one.scheme, language) : spoken(one.part, language)) + " (" +
                        clock(one.longest) + ")");
    return joined(parts, between);
}

std::string all_sets_text(const Workout& workout, const Plan& plan, SetsDetail detail) {
    if (plan.in_team)
        return turns_text(workout, plan, " · ");
    const auto language = workout.settings.language;
    std::string all;
    for (const auto& one : plan.stations) {
        const auto& station = workout.stations[one.station];
        std::string text = one.sets ? sets_text(*one.sets, language, detail) : std::string();
        if (workout.settings.team > 1 && !one.amounts.empty() && rate_kind(station.unit) != RateKind::none) {
            const double own = one.sets ? one.sets->reps : one.part;
            const auto each = spoken(say("each %1", own), language);
            text = text.empty() || text == number_text(own) ? each : spoken(say("%1: %2", each, text), language);
        }
        if (!text.empty())
            all += (all.empty() ? "" : " · ") + station.movement + " " + text;
    }
    return all;
}

std::string machine_label(Machine machine, Language language) {
    switch (machine) {
    case Machine::row:
        return spoken(say("ROW"), language);
    case Machine::ski:
        return spoken(say("SKI"), language);
    case Machine::bike:
        return spoken(say("BIKE"), language);
    case Machine::armbike:
        break;
    }
    return spoken(say("FAN BIKE"), language);
}

std::string rate_text(const Workout& workout, Machine machine, CaloriesPerHour rate) {
    const auto& settings = workout.settings;
    const auto converted = convert(rate.value(), ErgUnit::calories_per_hour, settings.rate_unit, machine);
    if (converted && settings.rate_unit == ErgUnit::watts)
        return spoken(std::round(*converted), settings.language) + " W";
    if (converted && settings.rate_unit == ErgUnit::split)
        return clock(Seconds{*converted});
    return spoken(std::round(rate.value()), settings.language) + " cal/h"; // a fan bike knows nothing else
}

bool any_rate_makes(Machine machine, CaloriesPerHour needed) {
    return needed.value() > 0 && machine != Machine::armbike &&
           !convert(needed.value(), ErgUnit::calories_per_hour, ErgUnit::watts, machine);
}

std::string format_text(const Workout& workout, std::size_t division) {
    const auto& settings = workout.settings;
    const auto say_it = [&](const Said& said) { return spoken(said, settings.language); };
    constexpr double seconds_to = 1e6; // a cell holds a part of a day: 13:00 may be 779.9999999 s
    const double minutes = std::round(settings.cap.value() * seconds_to) / seconds_to / 60;
    switch (settings.format) {
    case Format::amrap:
        return minutes == std::floor(minutes) ? say_it(say("%1 min AMRAP", minutes))
                                              : say_it(say("%1 AMRAP", clock(settings.cap)));
    case Format::time:
        if (const auto rounds = workout.rounds(division); rounds && *rounds > 1 && workout.alike(division))
            return say_it(say("%1 rounds for time, cap %2", *rounds, clock(settings.cap)));
        return say_it(say("for time, cap %1", clock(settings.cap)));
    case Format::intervals:
        break;
    }
    const auto windows = settings.windows.value_or(1);
    const auto text = settings.every
                          ? say_it(say("%1 windows, one every %2", windows, clock(*settings.every)))
                          : say_it(say("%1 windows of %2, %3 rest", windows, clock(settings.work.value_or(Seconds{0})),
                                       clock(settings.rest.value_or(Seconds{0}))));
    return settings.in_turn ? text + ", " + say_it(say("stations in turn")) : text;
}

namespace {

// Of stations in turn the windows that are theirs.
Amounts shown_amounts(const Workout& workout, const Amounts& amounts) {
    if (!workout.settings.in_turn)
        return amounts;
    Amounts own = amounts;
    std::erase(own.list, 0.0);
    if (std::ranges::all_of(own.list, [&](double one) { return one == own.list.front(); }))
        own.list.resize(std::min<std::size_t>(own.list.size(), 1));
    return own.list.empty() ? amounts : own;
}

} // namespace

std::string station_line(const Workout& workout, std::size_t division, std::size_t which) {
    const auto& station = workout.stations[which];
    const auto& share = station.divisions[division];
    const auto language = workout.settings.language;
    std::string unit;
    if (machine_of(station.unit) || station.unit == Unit::run_m || station.unit == Unit::carry_m)
        unit = credit(station.unit) > 0 ? "cal" : "m";
    else if (station.unit == Unit::hold || station.unit == Unit::rest)
        unit = "s";
    if (station.movement == word(WordList::unit, static_cast<std::size_t>(station.unit) - 1, language))
        unit.clear(); // a station without a name of its own is called by its unit
    auto text = joined({amounts_text(shown_amounts(workout, share.amounts), language), unit, station.movement}, " ");
    if (share.load)
        text += " " + spoken(*share.load, language) + " kg";
    if (station.when != When::every)
        text += " (" + std::string(word(WordList::when, static_cast<std::size_t>(station.when), language)) + ")";
    return text;
}

std::string workout_head(const Workout& workout, std::size_t division) {
    auto head = format_text(workout, division);
    if (const auto& settings = workout.settings; settings.team > 1)
        head += ", " + spoken(say("teams of %1, %2 at a time", settings.team, settings.at_once), settings.language);
    if (workout.divisions.size() > 1)
        head += ", " + workout.divisions[division].name;
    return head;
}

std::string workout_line(const Workout& workout, std::size_t division) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < workout.stations.size(); ++i)
        if (!workout.stations[i].divisions[division].amounts.list.empty())
            parts.push_back(station_line(workout, division, i));
    return spoken(say("%1: %2", workout_head(workout, division), joined(parts, ", ")), workout.settings.language);
}

std::string rehearsal_text(const Workout& workout, const Plan& plan) {
    if (!plan.rehearsal)
        return {};
    const auto& practice = *plan.rehearsal;
    const auto machine = plan.main ? machine_of(workout.stations[*plan.main].unit) : std::nullopt;
    const auto pace = [&](Seconds time, const std::optional<CaloriesPerHour>& rate) {
        auto text = clock(time);
        if (machine && rate)
            text += " (" + machine_label(*machine, workout.settings.language) + " " +
                    rate_text(workout, *machine, *rate) + ")";
        return text;
    };
    const auto last = pace(practice.planned_time, practice.planned_rate);
    const auto language = workout.settings.language;
    if (practice.easy_rounds == 0)
        return practice.planned < 1 ? spoken(say("part of a round at %1", last), language)
                                    : spoken(say("1 round at %1", last), language);
    const auto easy = pace(practice.easy_time, practice.easy_rate);
    if (practice.planned < 1)
        return spoken(say("easy rounds: %1, at %2; then part of one at %3", practice.easy_rounds, easy, last),
                      language);
    return spoken(say("easy rounds: %1, at %2; then one at %3", practice.easy_rounds, easy, last), language);
}

std::string message_text(const Workout& workout, const Athlete& athlete, const Plan& plan, const std::string& notes) {
    const auto& settings = workout.settings;
    const auto language = settings.language;
    const auto event = settings.title.empty() ? format_text(workout, plan.division) : settings.title;
    std::vector<std::string> parts;
    const auto add = [&](const Said& said) { parts.push_back(spoken(said, language)); };
    if (!plan.planned || !plan.goal) {
        add(say("%1: %2", athlete.name + ", " + event, notes));
    } else {
        add(say("%1, %2: goal %3, %4 per round.", athlete.name, event, plan.goal->goal.score.text,
                clock(plan.goal->target)));
        if (const auto machine = plan.main ? machine_of(workout.stations[*plan.main].unit) : std::nullopt;
            machine && plan.card)
            add(say("%1: hold %2, never above %3.", machine_label(*machine, language),
                    rate_text(workout, *machine, plan.card->advice.hold),
                    rate_text(workout, *machine, plan.card->advice.never_above)));
        if (const auto sets = all_sets_text(workout, plan); !sets.empty())
            add(say("Sets: %1.", sets));
        if (plan.check_round && plan.check_clock && plan.next_down)
            add(say("Round %1 after %2? Then the goal is %3.", *plan.check_round, clock(*plan.check_clock),
                    plan.next_down->goal.score.text));
        if (const auto practice = rehearsal_text(workout, plan); !practice.empty())
            add(say("Before it: %1.", practice));
    }
    if (plan.day != DayPlan::not_today)
        add(say("Stop on chest pain, faintness or unusual pain."));
    return joined(parts, " ");
}

} // namespace pacecells
