// A new event: what the announcement says is asked for in one window, checked at each field, and written into the event
// workbook. What stays blank is left to the sheet.
#include "event_cells.h"
#include "form.h"
#include "from_logbook.h"
#include "prints.h"
#include "read_as_written.h"

#include "pacecells/text.h"
#include "pacecells/words.h"
#include "pacecells/workout.h"

#include <com/sun/star/util/XCloseable.hpp>

#include <array>
#include <cmath>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr std::size_t division_count = 4; // in the window; the sheet has two more
constexpr std::size_t station_count = 8;
constexpr std::size_t most_people = 200; // on the roster

// What the sheet Workout takes.
constexpr Seconds longest_cap{4 * 3600.0};
constexpr double most_rounds = 40;
constexpr double most_seconds = 7200;
constexpr double most_amount = 99999;
constexpr double most_load = 999;

// An amount is a number or a rep scheme such as 21-15-9; neither where a division leaves the station out.
struct Amount {
    std::optional<double> number;
    std::string scheme;
};
template <class Value>
using PerDivision = std::array<Value, division_count>;

struct TypedStation {
    std::string movement;
    std::optional<std::size_t> unit; // its place in the list
    PerDivision<Amount> amounts;
    PerDivision<std::optional<double>> loads;
};

struct Event {
    Format format = Format::amrap;
    std::string gym;
    std::string title;
    std::optional<Seconds> cap;
    std::optional<double> rounds;
    std::optional<double> every;
    std::optional<double> work;
    std::optional<double> rest;
    std::optional<double> windows;
    std::array<std::string, division_count> divisions;
    std::vector<TypedStation> stations;
    WhichPeople people = WhichPeople::nobody; // of the logbook
};

std::string numbered(const char* name, std::size_t i) { return name + std::to_string(i + 1); }

std::string shown_word(WordList list, std::size_t place) {
    return std::string(word(list, place, *parse_language(interface_language())));
}

// --- reading -----------------------------------------------------------------------------------------------------

std::vector<std::string> split(const std::string& text) {
    std::vector<std::string> parts;
    for (std::size_t from = 0, to = 0; to != std::string::npos; from = to + 1) {
        to = text.find('/', from);
        parts.emplace_back(trim(std::string_view(text).substr(from, to == std::string::npos ? to : to - from)));
    }
    return parts;
}

bool left_out(const std::string& part) { return part.empty() || part == "-"; }

// "12" for every division with a name, "12/10/-" for one after the other; - or nothing where one leaves the station
// out. What a part says is read by `take`, which returns false where it cannot be meant.
template <class Take>
void read_per_division(const Form& form, const std::string& field, const Event& event, double most, Take take) {
    const auto text = form.text(field);
    if (text.empty())
        return;
    std::vector<std::size_t> named;
    for (std::size_t d = 0; d < division_count; ++d)
        if (!event.divisions[d].empty())
            named.push_back(d);
    if (named.empty())
        throw FieldRefusal{"Division1", tr("Name a division first: amounts and loads belong to divisions.")};
    const auto parts = split(text);
    bool good = parts.size() == 1 || parts.size() == named.size();
    for (std::size_t i = 0; good && i < named.size(); ++i) {
        const auto& part = parts[parts.size() == 1 ? 0 : i];
        good = left_out(part) ? parts.size() > 1 : take(named[i], part);
    }
    if (good)
        return;
    if (named.size() == 1)
        throw FieldRefusal{field, tr("Needs a number from %1 to %2.", "0", shown_number(most, 0))};
    throw FieldRefusal{field, tr("Needs one number from 0 to %1 for all divisions, or %2 with / between, one for each.",
                                 shown_number(most, 0), std::to_string(named.size()))};
}

bool within(const std::optional<double>& number, double most) { return number && *number >= 0 && *number <= most; }

std::optional<std::size_t> read_unit(const Form& form, const std::string& field) {
    const auto text = form.text(field);
    if (text.empty())
        return std::nullopt;
    if (const auto unit = find_word(WordList::unit, text))
        return unit;
    std::string all;
    for (std::size_t i = 0; i < words_of(WordList::unit).size(); ++i)
        all += (i == 0 ? "" : ", ") + shown_word(WordList::unit, i);
    throw FieldRefusal{field, tr("Needs one of the units: %1.", all)};
}

std::optional<TypedStation> read_station(const Form& form, std::size_t i, const Event& event) {
    TypedStation station;
    const auto unit = numbered("Unit", i);
    const auto amount = numbered("Amount", i);
    station.movement = form.text(numbered("Movement", i));
    station.unit = read_unit(form, unit);
    read_per_division(form, amount, event, most_amount, [&](std::size_t division, const std::string& part) {
        auto& to = station.amounts[division];
        to.number = typed_number(part);
        if (to.number)
            return within(to.number, most_amount);
        to.scheme = part;
        return parse_amounts(part).has_value();
    });
    read_per_division(form, numbered("Load", i), event, most_load, [&](std::size_t division, const std::string& part) {
        station.loads[division] = typed_number(part);
        return within(station.loads[division], most_load);
    });
    const bool numbers = !form.empty(amount) || !form.empty(numbered("Load", i));
    if (numbers && !station.unit)
        throw FieldRefusal{unit, tr("Needs a unit, so that the numbers beside it mean something.")};
    if (station.movement.empty() && !station.unit)
        return std::nullopt;
    return station;
}

std::optional<double> whole(const Form& form, const char* field, double most) {
    if (form.empty(field))
        return std::nullopt;
    const auto number = form.number(field, 1, most);
    if (number != std::floor(number))
        throw FieldRefusal{field, tr("Needs a whole number.")};
    return number;
}

std::optional<double> seconds(const Form& form, const char* field) {
    return form.empty(field) ? std::nullopt : std::optional(form.number(field, 0, most_seconds));
}

void read_times(const Form& form, Event& event) {
    if (!form.empty("Cap")) {
        if (const auto minutes = typed_number(form.text("Cap")); minutes && *minutes > 0 && *minutes < 240)
            throw FieldRefusal{"Cap", tr("%1 minutes? Then type %1:00.", shown_number(std::floor(*minutes), 0))};
        event.cap = form.time("Cap", longest_cap);
    }
    event.rounds = whole(form, "Rounds", most_rounds);
    if (event.rounds && event.format != Format::time)
        throw FieldRefusal{"Rounds", tr("Leave this blank: rounds are only set for the format for time.")};
    event.every = seconds(form, "Every");
    event.work = seconds(form, "Work");
    event.rest = seconds(form, "Rest");
    event.windows = whole(form, "Windows", most_rounds);
    for (const auto* field : {"Every", "Work", "Rest", "Windows"})
        if (!form.empty(field) && event.format != Format::intervals)
            throw FieldRefusal{field, tr("Leave this blank: it is for intervals only.")};
}

WhichPeople people_named(const std::string& value) {
    return value == "all" ? WhichPeople::everyone : value == "last" ? WhichPeople::last_event : WhichPeople::nobody;
}

Event read_event(const Form& form, bool with_people) {
    Event event;
    const auto format = find_word(WordList::format, form.text("Format"));
    event.format = static_cast<Format>(format.value_or(0));
    if (with_people)
        event.people = people_named(form.text("People"));
    event.gym = form.text("Gym");
    event.title = form.text("Title");
    read_times(form, event);
    for (std::size_t d = 0; d < division_count; ++d) {
        event.divisions[d] = form.text(numbered("Division", d));
        for (std::size_t other = 0; other < d; ++other)
            if (!event.divisions[d].empty() && same_name(event.divisions[d], event.divisions[other]))
                throw FieldRefusal{numbered("Division", d), tr("Another division already has this name.")};
    }
    for (std::size_t i = 0; i < station_count; ++i)
        if (auto station = read_station(form, i, event))
            event.stations.push_back(*std::move(station));
    return event;
}

// --- the window --------------------------------------------------------------------------------------------------

constexpr int window_width = 396;
constexpr int first_label = 46;
constexpr int movement_width = 132;
constexpr int unit_width = 76;
constexpr int amount_width = 94;
constexpr int load_width = 56;

// The words of the logbook, where there is one, stand in the fields already.
void lay_out(Form& form, const std::optional<Offer>& offer) {
    std::vector<Form::Option> formats;
    for (std::size_t i = 0; i < words_of(WordList::format).size(); ++i)
        formats.push_back({std::string(words_of(WordList::format)[i].key), shown_word(WordList::format, i)});
    Form::Part format{{tr("~Format"), first_label, 122}, "Format"};
    format.options = formats;
    form.line({format, {{tr("~Cap"), 44, 40}, "Cap"}, {{tr("~Rounds, for time"), 72, 34}, "Rounds"}});
    form.line({{{tr("~Gym"), first_label, 122, offer ? offer->gym : ""}, "Gym"}, {{tr("~Title"), 44, 152}, "Title"}});
    form.line({{{tr("~Intervals: every, s"), 82, 34}, "Every"},
               {{tr("or ~work, s"), 56, 34}, "Work"},
               {{tr("re~st, s"), 36, 34}, "Rest"},
               {{tr("wi~ndows"), 44, 34}, "Windows"}});
    std::array division_names{tr("as written"), tr("scaled"), std::string(), std::string()};
    if (offer && !offer->divisions.empty())
        for (std::size_t d = 0; d < division_count; ++d)
            division_names[d] = d < offer->divisions.size() ? offer->divisions[d] : std::string();
    std::vector<Form::Part> divisions;
    for (std::size_t d = 0; d < division_count; ++d) {
        Form::Part part{{d == 0 ? tr("~Divisions") : "", d == 0 ? first_label : 0, 78, division_names[d]},
                        numbered("Division", d)};
        part.spoken = tr("Division %1", std::to_string(d + 1));
        divisions.push_back(std::move(part));
    }
    form.line(std::move(divisions));
    if (offer) {
        Form::Part people{{tr("~People"), first_label, 122}, "People"};
        people.options = {{"all", tr("everyone in the logbook (%1)", std::to_string(offer->people))},
                          {"last", tr("those of the last event")},
                          {"none", tr("nobody yet")}};
        if (offer->people > most_people)
            std::ranges::rotate(people.options, people.options.begin() + 1);
        form.line({people});
    }
    form.dialog().headings({{"", 8},
                            {tr("Movement"), movement_width},
                            {tr("Unit"), unit_width},
                            {tr("Amount"), amount_width},
                            {tr("Load, kg"), load_width}});
    std::vector<std::string> units;
    for (std::size_t i = 0; i < words_of(WordList::unit).size(); ++i)
        units.push_back(shown_word(WordList::unit, i));
    for (std::size_t i = 0; i < station_count; ++i) {
        const auto number = std::to_string(i + 1);
        const auto part = [&](const char* name, int width, const std::string& spoken) {
            Form::Part made{{"", 0, width}, numbered(name, i)};
            made.spoken = spoken;
            return made;
        };
        auto movement = part("Movement", movement_width, tr("Station %1, movement", number));
        movement.label = "~" + number;
        movement.label_width = 10;
        if (offer)
            movement.items = offer->movements;
        auto unit = part("Unit", unit_width, tr("Station %1, unit", number));
        unit.items = units;
        form.line({movement, unit, part("Amount", amount_width, tr("Station %1, amount", number)),
                   part("Load", load_width, tr("Station %1, load", number))});
    }
    form.dialog().sentence(
        tr("Amounts and loads: one for all divisions, or one for each with / between, such as 12/10/8, and - where one "
           "leaves the station out. An amount may be a rep scheme: 21-15-9, 3-6-9-…. Holds and rests in seconds. What "
           "is blank stays blank on the sheet."),
        4);
}

// --- the workbook ------------------------------------------------------------------------------------------------

void write(const EventCells& cells, const Event& event) {
    const auto text = [&](std::string_view key, const std::string& value) {
        if (!value.empty())
            put_text(cells.at(key), 0, 0, value);
    };
    const auto number = [&](std::string_view key, const std::optional<double>& value) {
        if (value)
            put_number(cells.at(key), 0, 0, *value);
    };
    text("workout.format", cells.word("list_format", static_cast<std::size_t>(event.format)));
    text("workout.gym", event.gym);
    text("workout.title", event.title);
    if (event.cap)
        number("workout.cap", event.cap->value() / 86400);
    number("workout.rounds", event.rounds);
    number("workout.every_s", event.every);
    number("workout.work_s", event.work);
    number("workout.rest_s", event.rest);
    number("workout.windows", event.windows);
    const auto divisions = cells.at("workout.divisions.amount.1");
    const auto movements = cells.at("workout.stations.movement");
    const auto units = cells.at("workout.stations.unit");
    const auto amounts = cells.at("workout.stations.amount.1");
    const auto loads = cells.at("workout.stations.load.1");
    for (std::size_t d = 0; d < division_count; ++d)
        put_text(divisions, static_cast<sal_Int32>(d), 0, event.divisions[d]);
    sal_Int32 row = 0;
    for (const auto& station : event.stations) {
        if (!station.movement.empty())
            put_text(movements, 0, row, station.movement);
        if (station.unit)
            put_text(units, 0, row, cells.word("list_units", *station.unit));
        for (std::size_t d = 0; d < division_count; ++d) {
            const auto column = static_cast<sal_Int32>(d);
            if (const auto& amount = station.amounts[d]; amount.number)
                put_number(amounts, column, row, *amount.number);
            else if (!amount.scheme.empty())
                put_text(amounts, column, row, amount.scheme);
            if (station.loads[d])
                put_number(loads, column, row, *station.loads[d]);
        }
        ++row;
    }
}

Reference<css::lang::XComponent> open_template(Context& context) {
    return load(context, template_url(context, "event.ots"),
                {{"AsTemplate", Any(true)}, {"Hidden", Any(!context.interactive())}});
}

void make_workbook(Context& context, const Event& event, const Logbook* logbook) {
    const auto made = open_template(context);
    try {
        const auto document = need<css::sheet::XSpreadsheetDocument>(made);
        const EventCells cells(document);
        Undo undo(document, tr("New event"));
        write(cells, event);
        std::string said;
        if (logbook) {
            take_usual_values(cells, *logbook);
            if (event.people != WhichPeople::nobody) {
                said = take_people(cells, *logbook, event.people);
                fit_prints(document);
            }
        }
        undo.done();
        if (!said.empty())
            context.say(said);
    } catch (...) { // rather none than one half filled
        need<css::util::XCloseable>(made)->close(true);
        throw;
    }
}

void new_event(Context& context) {
    if (context.argument("Empty") == "true") {
        open_template(context);
        return;
    }
    const auto logbook = logbook_to_take_from(context);
    const auto offer = logbook ? std::optional(offer_of(*logbook)) : std::nullopt;
    Event event;
    bool empty = false;
    Form form(context, tr("New event"), window_width);
    lay_out(form, offer);
    form.dialog().button(tr("~Empty workbook"), [&] {
        empty = true;
        form.dialog().leave();
    });
    bool as_written = false;
    form.dialog().button(tr("Re~ad as written…"), [&] {
        as_written = true;
        form.dialog().leave();
    });
    const bool accepted =
        form.fill(tr("~Make"), [&](const Form& typed) { event = read_event(typed, offer.has_value()); });
    if (accepted)
        make_workbook(context, event, logbook.get());
    else if (as_written)
        read_into_new_event(context);
    else if (empty)
        open_template(context);
}

const Command new_event_command{"new-event", new_event};

} // namespace

} // namespace pacecells
