// A new event: what the announcement says is asked for in one window, checked at each field, and written into the event
// workbook. What stays blank is left to the sheet.
#include "form.h"
#include "office.h"

#include "pacecells/stations.h"
#include "pacecells/text.h"

#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include <array>
#include <cmath>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr std::size_t division_count = 4;
constexpr std::size_t station_count = 8;
constexpr std::array formats{"rounds", "time", "ladder"}; // in the order of list_format
constexpr std::size_t for_time = 1;

// What the sheet Event takes.
constexpr Seconds longest_cap{4 * 3600.0};
constexpr double most_rounds = 40;
constexpr double most_change = 999;
constexpr double most_amount = 99999;
constexpr double most_load = 999;

constexpr std::array units{"rep",   "row cal", "ski cal", "bike cal", "armbike cal", "row m",
                           "ski m", "bike m",  "run m",   "carry m",  "hold",        "rest"};

using PerDivision = std::array<std::optional<double>, division_count>;

struct Station {
    std::string movement;
    std::string unit;
    PerDivision amounts;
    std::optional<double> change;
    PerDivision loads;
};

struct Event {
    std::size_t format = 0;
    std::string gym;
    std::string title;
    std::optional<Seconds> cap;
    std::optional<double> rounds;
    std::array<std::string, division_count> divisions;
    std::vector<Station> stations;
};

std::string numbered(const char* name, std::size_t i) { return name + std::to_string(i + 1); }

// --- reading -----------------------------------------------------------------------------------------------------

std::vector<std::string> split(const std::string& text) {
    std::vector<std::string> parts;
    for (std::size_t from = 0, to = 0; to != std::string::npos; from = to + 1) {
        to = text.find('/', from);
        parts.emplace_back(trim(std::string_view(text).substr(from, to == std::string::npos ? to : to - from)));
    }
    return parts;
}

// "12" for every division with a name, "12/10/-" for one after the other; - or nothing where one leaves the station
// out.
PerDivision read_per_division(const Form& form, const std::string& field, const Event& event, double most) {
    PerDivision values;
    const auto text = form.text(field);
    if (text.empty())
        return values;
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
        const auto number = typed_number(part);
        values[named[i]] = number;
        good = number ? *number >= 0 && *number <= most : parts.size() > 1 && (part.empty() || part == "-");
    }
    if (good)
        return values;
    if (named.size() == 1)
        throw FieldRefusal{field, tr("Needs a number from %1 to %2.", "0", shown_number(most, 0))};
    throw FieldRefusal{field, tr("Needs one number from 0 to %1 for all divisions, or %2 with / between, one for each.",
                                 shown_number(most, 0), std::to_string(named.size()))};
}

std::string read_unit(const Form& form, const std::string& field) {
    const auto text = form.text(field);
    if (parse_unit(text))
        return fold(text);
    std::string all;
    for (const auto* unit : units)
        all += (all.empty() ? "" : ", ") + std::string(unit);
    throw FieldRefusal{field, tr("Needs one of the units: %1.", all)};
}

std::optional<Station> read_station(const Form& form, std::size_t i, const Event& event) {
    Station station;
    const auto unit = numbered("Unit", i);
    const auto change = numbered("Change", i);
    station.movement = form.text(numbered("Movement", i));
    station.unit = read_unit(form, unit);
    station.amounts = read_per_division(form, numbered("Amount", i), event, most_amount);
    if (!form.empty(change))
        station.change = form.number(change, -most_change, most_change);
    station.loads = read_per_division(form, numbered("Load", i), event, most_load);
    const bool numbers = !form.empty(numbered("Amount", i)) || station.change || !form.empty(numbered("Load", i));
    if (numbers && station.unit.empty())
        throw FieldRefusal{unit, tr("Needs a unit, so that the numbers beside it mean something.")};
    if (station.movement.empty() && station.unit.empty())
        return std::nullopt;
    return station;
}

Event read_event(const Form& form) {
    Event event;
    const auto format = form.text("Format");
    while (event.format + 1 < formats.size() && format != formats[event.format])
        ++event.format;
    event.gym = form.text("Gym");
    event.title = form.text("Title");
    if (!form.empty("Cap"))
        event.cap = form.time("Cap", longest_cap);
    if (!form.empty("Rounds")) {
        if (event.format != for_time)
            throw FieldRefusal{"Rounds", tr("Leave this blank: rounds are given only where the format is for time.")};
        event.rounds = form.number("Rounds", 1, most_rounds);
        if (*event.rounds != std::floor(*event.rounds))
            throw FieldRefusal{"Rounds", tr("Needs a whole number.")};
    }
    for (std::size_t d = 0; d < division_count; ++d) {
        event.divisions[d] = form.text(numbered("Division", d));
        for (std::size_t other = 0; other < d; ++other)
            if (!event.divisions[d].empty() && fold(event.divisions[d]) == fold(event.divisions[other]))
                throw FieldRefusal{numbered("Division", d), tr("This name is given to another division.")};
    }
    for (std::size_t i = 0; i < station_count; ++i)
        if (auto station = read_station(form, i, event))
            event.stations.push_back(*std::move(station));
    return event;
}

// --- the window --------------------------------------------------------------------------------------------------

constexpr int window_width = 384;
constexpr int first_label = 46;
constexpr int movement_width = 112;
constexpr int unit_width = 68;
constexpr int amount_width = 76;
constexpr int change_width = 36;
constexpr int load_width = 52;

void lay_out(Form& form) {
    form.line({{{tr("~Format"), first_label, 122},
                "Format",
                {{formats[0], tr("as many rounds as possible")},
                 {formats[1], tr("for time with a cap")},
                 {formats[2], tr("ladder")}}},
               {{tr("~Cap"), 44, 40}, "Cap"},
               {{tr("~Rounds, for time"), 72, 34}, "Rounds"}});
    form.line({{{tr("~Gym"), first_label, 122}, "Gym"}, {{tr("~Title"), 44, 152}, "Title"}});
    const std::array division_names{tr("as written"), tr("adapted"), tr("men"), tr("women")}; // as in the workbook
    std::vector<Form::Part> divisions;
    for (std::size_t d = 0; d < division_count; ++d) {
        Form::Part part{{d == 0 ? tr("~Divisions") : "", d == 0 ? first_label : 0, 78, division_names[d]},
                        numbered("Division", d)};
        part.spoken = tr("Division %1", std::to_string(d + 1));
        divisions.push_back(std::move(part));
    }
    form.line(std::move(divisions));
    form.dialog().headings({{"", 8},
                            {tr("Movement"), movement_width},
                            {tr("Unit"), unit_width},
                            {tr("Amount"), amount_width},
                            {tr("Change"), change_width},
                            {tr("Load, kg"), load_width}});
    const std::vector<std::string> unit_items(units.begin(), units.end());
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
        auto unit = part("Unit", unit_width, tr("Station %1, unit", number));
        unit.items = unit_items;
        form.line({movement, unit, part("Amount", amount_width, tr("Station %1, amount", number)),
                   part("Change", change_width, tr("Station %1, change from round to round", number)),
                   part("Load", load_width, tr("Station %1, load", number))});
    }
    form.dialog().sentence(
        tr("Amounts and loads: one number for all divisions, or one for each with / between, such as "
           "12/10/8, and - where one leaves the station out. Holds and rests in seconds. Change: how "
           "much more each round, as in a ladder. What is blank stays blank on the sheet."),
        3);
}

// --- the workbook ------------------------------------------------------------------------------------------------

class Sheet {
  public:
    explicit Sheet(Reference<css::sheet::XSpreadsheetDocument> document) : document_(std::move(document)) {}

    void text(std::string_view name, sal_Int32 column, sal_Int32 row, const std::string& value) const {
        need<css::text::XText>(cell(name, column, row))->setString(utf16(value));
    }
    void number(std::string_view name, sal_Int32 column, sal_Int32 row, const std::optional<double>& value) const {
        if (value)
            cell(name, column, row)->setValue(*value);
    }
    [[nodiscard]] std::string text_of(std::string_view name, sal_Int32 column, sal_Int32 row) const {
        return utf8(need<css::text::XText>(cell(name, column, row))->getString());
    }

  private:
    Reference<css::table::XCell> cell(std::string_view name, sal_Int32 column, sal_Int32 row) const {
        return named_range(document_, name)->getCellByPosition(column, row);
    }

    Reference<css::sheet::XSpreadsheetDocument> document_;
};

void write(const Sheet& sheet, const Event& event) {
    sheet.text("event_format", 0, 0, sheet.text_of("list_format", 0, static_cast<sal_Int32>(event.format)));
    if (!event.gym.empty())
        sheet.text("event_gym", 0, 0, event.gym);
    if (!event.title.empty())
        sheet.text("event_title", 0, 0, event.title);
    if (event.cap)
        sheet.number("event_cap", 0, 0, event.cap->value() / 86400);
    sheet.number("event_rounds", 0, 0, event.rounds);
    for (std::size_t d = 0; d < division_count; ++d)
        sheet.text("division_names", static_cast<sal_Int32>(d), 0, event.divisions[d]);
    sal_Int32 row = 0;
    for (const auto& station : event.stations) {
        if (!station.movement.empty())
            sheet.text("station_movements", 0, row, station.movement);
        if (!station.unit.empty())
            sheet.text("station_units", 0, row, station.unit);
        sheet.number("station_change", 0, row, station.change);
        for (std::size_t d = 0; d < division_count; ++d) {
            sheet.number("station_amounts", static_cast<sal_Int32>(d), row, station.amounts[d]);
            sheet.number("station_loads", static_cast<sal_Int32>(d), row, station.loads[d]);
        }
        ++row;
    }
}

Reference<css::lang::XComponent> open_template(Context& context) {
    return load(context, template_url(context, "event.ots"),
                {{"AsTemplate", Any(true)}, {"Hidden", Any(!context.interactive())}});
}

void make_workbook(Context& context, const Event& event) {
    const auto made = open_template(context);
    try {
        const auto document = need<css::sheet::XSpreadsheetDocument>(made);
        Undo undo(document, tr("New event"));
        write(Sheet(document), event);
        undo.done();
    } catch (...) { // rather none than one half filled
        need<css::util::XCloseable>(made)->close(true);
        throw;
    }
}

void new_event(Context& context) {
    Event event;
    bool empty = context.argument("Empty") == "true";
    if (!empty) {
        Form form(context, tr("New event"), window_width);
        lay_out(form);
        form.dialog().button(tr("~Empty workbook"), [&] {
            empty = true;
            form.dialog().leave();
        });
        const bool accepted = form.fill(tr("~Make"), [&](const Form& typed) { event = read_event(typed); });
        if (!accepted && !empty)
            return;
    }
    if (empty)
        open_template(context);
    else
        make_workbook(context, event);
}

const Command new_event_command{"new-event", new_event};

} // namespace

} // namespace pacecells
