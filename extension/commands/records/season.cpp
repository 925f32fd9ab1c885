// The standings of the season, from the results in the logbook: no result is typed for it.
#include "logbook.h"

#include "pacecells/season.h"
#include "pacecells/table.h"
#include "pacecells/words.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace pacecells {

namespace {

struct SeasonDay { // an event of the season
    double date;
    std::string title;
    SeasonEvent event;
};

css::uno::Any cell(const Logbook& logbook, std::string_view name) {
    const auto range = find_name(logbook.document(), name);
    return range.is() ? values_of(range)[0][0] : css::uno::Any();
}

double number(const Logbook& logbook, std::string_view name, double otherwise) {
    double value = 0;
    return (cell(logbook, name) >>= value) ? value : otherwise;
}

SeasonRules rules_in(const Logbook& logbook) {
    SeasonRules rules;
    rules.best = static_cast<int>(number(logbook, "season_best", 0));
    rules.fixed_place = static_cast<int>(number(logbook, "season_fixed", rules.fixed_place));
    const auto chosen = text_of(cell(logbook, "season_missed"));
    for (const auto rule : {Missed::behind_last, Missed::fixed, Missed::nothing})
        if (!chosen.empty() && same_name(chosen, logbook.word("list_missed", static_cast<std::size_t>(rule))))
            rules.missed = rule;
    return rules;
}

// Those that count, from the first to the last.
std::vector<SeasonDay> events_in(const Logbook& logbook) {
    const double from = number(logbook, "season_from", 0);
    const double to = number(logbook, "season_to", std::numeric_limits<double>::max());
    const auto table = logbook.table("events");
    std::vector<SeasonDay> events;
    for (const auto row : table.rows()) {
        const auto date = table.number(row, "date");
        const auto title = table.text(row, "event");
        if (!date || *date < from || std::floor(*date) > to || !find_word(WordList::yes, table.text(row, "season")))
            continue;
        const auto format = find_word(WordList::format, table.text(row, "format"));
        const bool timed = format == static_cast<std::size_t>(1); // for time
        events.push_back({*date, title, {.order = timed ? Order::low_wins : Order::high_wins, .results = {}}});
    }
    std::ranges::stable_sort(events, {}, &SeasonDay::date);
    return events;
}

void add_results(const Logbook& logbook, std::vector<SeasonDay>& events) {
    const auto table = logbook.table("results");
    for (const auto row : table.rows()) {
        const auto score = table.number(row, "score");
        const auto date = table.number(row, "date");
        const auto title = table.text(row, "event");
        const auto held = std::ranges::find_if(events, [&](const SeasonDay& one) {
            return date && std::floor(*date) == std::floor(one.date) && same_name(title, one.title);
        });
        if (score && held != events.end())
            held->event.results.push_back({.name = table.text(row, "name"),
                                           .division = table.text(row, "division"),
                                           .score = *score,
                                           .tiebreak = {}});
    }
}

void write(const Logbook& logbook, const std::vector<SeasonRow>& standings) {
    auto table = logbook.table("season");
    const auto before = table.rows();
    for (std::size_t i = 0; i < std::max(before.size(), standings.size()); ++i) {
        const auto row = i < before.size() ? before[i] : table.new_row();
        const bool there = i < standings.size();
        const auto whole = [&](int value) { return there ? std::optional<double>(value) : std::nullopt; };
        const auto& one = there ? standings[i] : SeasonRow{};
        table.put(row, "place", whole(one.place));
        table.put(row, "name", one.name);
        table.put(row, "division", one.division);
        table.put(row, "events", whole(one.events));
        table.put(row, "points", whole(one.points));
    }
}

void season_standings(Context& context) {
    const auto url = ask_for_logbook(context);
    if (!url)
        return;
    const Logbook logbook(context, *url, Logbook::Use::write);
    auto events = events_in(logbook);
    if (events.empty())
        throw Refusal{
            tr("No event counts for the season. Choose yes for it on the sheet Events of the logbook, and look "
               "at from and to on the sheet Season.")};
    add_results(logbook, events);
    std::vector<SeasonEvent> results;
    std::ranges::transform(events, std::back_inserter(results), &SeasonDay::event);
    const auto standings = season(results, rules_in(logbook));
    if (!standings)
        throw Refusal{tr(standings.error())};
    logbook.keep_copy();
    Undo undo(logbook.document(), tr("Season"));
    write(logbook, *standings);
    undo.done();
    logbook.store();
    context.say(
        tr("Season: %1 people in %2 events.", std::to_string(standings->size()), std::to_string(events.size())));
}

const Command season_command{"season", season_standings};

} // namespace

} // namespace pacecells
