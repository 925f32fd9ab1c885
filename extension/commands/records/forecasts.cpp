// How often results lay in the range that was told before: forecasts of scores event by event, and rates.
#include "dialog.h"
#include "logbook.h"
#include "past_results.h"

#include "pacecells/hits.h"
#include "pacecells/table.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

namespace {

struct ToldEvent { // one line
    double date = 0;
    std::string title;
    std::vector<Forecasted> forecasts;
};

std::vector<ToldEvent> forecasts_in(const LogbookTable& results) {
    std::vector<ToldEvent> events;
    for (const auto row : results.rows()) {
        const auto date = results.number(row, "date");
        const auto low = results.number(row, "low");
        const auto high = results.number(row, "high");
        const auto score = results.number(row, "score");
        if (!date || !low || !high || !score)
            continue;
        const auto title = results.text(row, "event");
        auto event = std::ranges::find_if(
            events, [&](const ToldEvent& one) { return one.date == *date && same_name(one.title, title); });
        if (event == events.end())
            event = events.insert(event, {*date, title, {}});
        event->forecasts.push_back({*low, *high, *score});
    }
    std::ranges::stable_sort(events, {}, &ToldEvent::date);
    return events;
}

// The rates of everybody.
std::vector<Forecasted> rates_in(const LogbookTable& results) {
    std::vector<Forecasted> all;
    for (const auto& [name, observations] : observations_in(results))
        if (const auto told = told_rates(observations))
            all.insert(all.end(), told->begin(), told->end());
    return all;
}

std::vector<std::string> line(const std::string& date, const std::string& what, const Hits& hits) {
    return {date, what, std::to_string(hits.below), std::to_string(hits.inside), std::to_string(hits.above)};
}

void forecasts(Context& context) {
    const auto url = ask_for_logbook(context);
    if (!url)
        return;
    Dialog::Rows rows;
    std::string sentences;
    {
        const Logbook logbook(context, *url, Logbook::Use::read);
        const auto results = logbook.table("results");
        std::vector<Forecasted> all;
        for (const auto& [date, title, told] : forecasts_in(results)) {
            rows.push_back(line(with_date_order(date_text(date)), title, hits_of(told)));
            all.insert(all.end(), told.begin(), told.end());
        }
        const auto scores = hits_of(all);
        const auto rates = hits_of(rates_in(results));
        if (scores.all() + rates.all() == 0)
            throw Refusal{tr("No result in the logbook has a forecast yet.")};
        rows.push_back(line("", tr("All scores"), scores));
        rows.push_back(line("", tr("All rates"), rates));
        sentences = tr("Scores: %1", tr(verdict(scores))) + "\n" + tr("Rates: %1", tr(verdict(rates)));
    }
    if (!context.interactive()) {
        for (const auto& row : rows) {
            std::string text;
            for (const auto& part : row)
                text += (text.empty() ? "" : "; ") + part;
            sentences += "\n" + text;
        }
        context.say(sentences);
        return;
    }
    Dialog dialog(context, tr("How forecasts held"), 420);
    dialog.paragraph(sentences, 4);
    const auto table =
        dialog.table(tr("~Results"), {tr("Date"), tr("Event"), tr("Below"), tr("In the range"), tr("Above")}, 150,
                     {10, 22, 8, 10, 8});
    dialog.on_change([&] { dialog.set_rows(table, rows); });
    dialog.show();
}

const Command forecasts_command{"forecasts", forecasts};

} // namespace

} // namespace pacecells
