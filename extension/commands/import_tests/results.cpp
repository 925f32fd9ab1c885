#include "results.h"

#include "form.h"
#include "opened.h"
#include "store.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/delimited.h"
#include "pacecells/ergometer.h"
#include "pacecells/table.h"

namespace pacecells {

namespace {

// Why a machine's values cannot be an athlete's: more watts than the best in the world hold.
std::optional<Error> beyond_belief(const std::vector<std::optional<double>>& values) {
    std::vector<std::pair<Seconds, Result<Watts>>> held;
    const auto& time = values[date_of_test + 1];
    const auto& calories = values[date_of_test + 2];
    if (time && calories) {
        const Seconds taken{*time * 86400};
        const auto rate = rate_for(Kilocalories{*calories}, taken);
        held.emplace_back(taken, rate ? power(*rate) : Result<Watts>{rate.error()});
    }
    if (values[0] && values[1]) {
        constexpr Seconds usual_cap{1200};
        held.emplace_back(usual_cap, power_for(usual_cap, {Watts{*values[0]}, Joules{*values[1]}}));
    }
    for (const auto& [seconds, watts] : held)
        if (watts)
            if (const auto judged = believable(*watts, seconds); !judged)
                return judged.error();
    return std::nullopt;
}

void leave_out_what_nobody_holds(ResultFile& file) {
    for (auto& person : file.people)
        for (std::size_t m = 0; m < machine_count; ++m)
            if (auto& results = person.machines[m]; machine_cells[m].first == 0 && results.unreadable.empty())
                if (const auto error = beyond_belief(results.values))
                    results.unreadable = tr(*error);
}

ResultFile read_any(const Context& context, const std::string& url) {
    const auto bytes = bytes_of(context, url);
    const bool package = bytes.starts_with("PK") || bytes.starts_with("\xD0\xCF\x11\xE0") || bytes.starts_with("<?xml");
    if (!package) {
        const auto text = decoded_text(bytes);
        if (!text)
            throw Refusal{tr(
                "This file is neither a workbook nor a list. Choose another event, an older tests workbook, or a list "
                "saved as CSV.")};
        return read_results_list(*text);
    }
    const Opened opened(context, url);
    refuse_what_goes_elsewhere(opened.document());
    return read_results_workbook(opened.document());
}

} // namespace

std::string shown(const ResultField& field, double value) {
    if (field.kind == FieldKind::date && value >= field.least && value <= field.most)
        return with_date_order(date_text(value));
    if (field.kind == FieldKind::time)
        if (const auto text = clock_text(Seconds{value * 86400}))
            return *text;
    return shown_number(value, 2);
}

std::optional<double> typed_value(const ResultField& field, std::string_view text) {
    switch (field.kind) {
    case FieldKind::date:
        return typed_date(text);
    case FieldKind::time:
        if (const auto time = parse_clock(text))
            return time->value() / 86400;
        return std::nullopt;
    case FieldKind::number:
        return typed_number(text);
    }
    return std::nullopt;
}

void Results::refuse(const ResultField& field, const std::string& text) {
    if (unreadable.empty())
        unreadable = tr("%1: %2 cannot be imported", tr(field.label), text);
}

void Results::put(std::size_t column, const ResultField& field, double value) {
    if (value >= field.least && value <= field.most)
        values[column] = value;
    else
        refuse(field, shown(field, value));
}

TestedPerson person_with(std::string name, const ResultFile& file) {
    TestedPerson person;
    person.name = std::move(name);
    for (auto& machine : person.machines)
        machine.values.resize(of_machine);
    person.movements.resize(file.movements.size());
    for (auto& movement : person.movements)
        movement.values.resize(file.of_each_movement);
    return person;
}

void refuse_what_goes_elsewhere(const Document& document) {
    if (find_name(document, "day_mark").is())
        throw Refusal{tr("This is the sheet of a test day, or a person's page. Bring it in with Take tests into the "
                         "logbook.")};
    if (find_name(document, "logbook").is())
        throw Refusal{tr("This is a logbook. Choose it with Open the logbook: new events then take people and tests "
                         "from it.")};
}

ResultFile read_results(const Context& context, const std::string& url) {
    auto file = read_any(context, url);
    leave_out_what_nobody_holds(file);
    return file;
}

} // namespace pacecells
