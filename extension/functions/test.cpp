// The TEST family: what a cell hands over, and what the model makes of it.
#include "family.h"
#include "wording.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/test_entry.h"
#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<Answer> test_critical(RawCells times, Powers watts, std::optional<Whole> index) {
    if (times.cells.size() != watts.values.size())
        return out_of_domain("Every test needs a time and its watts: there are %1 times and %2 watts.",
                             times.cells.size(), watts.values.size());
    std::vector<Seconds> test_times;
    std::vector<Watts> test_watts;
    for (std::size_t i = 0; i < times.cells.size(); ++i) {
        if (is_blank(times.cells[i]) && !watts.values[i])
            continue; // a spare row
        if (is_blank(times.cells[i]) || !watts.values[i])
            return out_of_domain("Every test needs a time and its watts: test %1 has only one of them.", i + 1);
        const auto time = Read<ShortTime>::from(times.cells[i]);
        if (!time)
            return detail::about(0, time.error());
        test_times.push_back(time->value);
        test_watts.emplace_back(*watts.values[i]);
    }
    const auto fit = fit_critical_power(test_times, test_watts);
    if (!fit)
        return fit.error();
    const auto known = [](const auto& value) {
        return value ? to_cell(*value) : Cell{not_available("Two tests give exact values; errors need a third.")};
    };
    return pick(Range{1,
                      5,
                      {to_cell(fit->values.critical), to_cell(fit->values.reserve), known(fit->critical_error),
                       known(fit->reserve_error), known(fit->r_squared)}},
                {}, index);
}

Result<Watts> test_power(Duration time, PowerNumber critical, ReserveNumber reserve) {
    return power_for(time.value, values_in(critical, reserve));
}

Result<CaloriesPerHour> test_alone(Duration cap, PowerNumber critical, ReserveNumber reserve) {
    return rate_alone(cap.value, values_in(critical, reserve));
}

Result<CaloriesPerHour> test_floor(Duration cap, PowerNumber critical, ReserveNumber reserve,
                                   std::optional<Number> share) {
    return rate_floor(cap.value, values_in(critical, reserve), value_or(share, usual_share));
}

Result<Seconds> test_predict(ShortTime time, DistanceNumber known, DistanceNumber distance,
                             std::optional<Number> exponent) {
    return predict_time(time.value, Metres{known.value}, Metres{distance.value}, value_or(exponent, riegel_exponent));
}

// What was done in a test: calories as a number; metres or mean watts as a text such as "1000 m" or "250 W".
Result<Watts> power_of_test(const ShortTime& time, const NumberOrText& done, Machine machine) {
    if (machine == Machine::armbike)
        return out_of_domain("A fan bike does not count calories by this formula: convert for row, ski or bike.");
    if (const auto* calories = std::get_if<double>(&done.value)) {
        const auto rate = rate_for(Kilocalories{*calories}, time.value);
        return rate ? power(*rate) : Result<Watts>{rate.error()};
    }
    const auto& typed = *std::get_if<std::string>(&done.value);
    auto text = fold(typed);
    std::ranges::replace(text, ',', '.');
    const char* const end = text.data() + text.size();
    double amount = 0;
    const auto [rest, problem] = std::from_chars(text.data(), end, amount);
    const auto unit = problem == std::errc{} ? trim({rest, end}) : std::string_view{};
    if (unit == "m")
        return power_over(Metres{amount}, time.value, machine);
    if (unit == "w")
        return Watts{amount};
    return out_of_domain("%1 is not a test: write its calories as a number, or a text such as \"1000 m\" or \"250 W\".",
                         quoted(typed));
}

Result<CaloriesPerHour> test_rate(ShortTime time, CaloriesOrText done, Duration cap, std::optional<Number> share,
                                  std::optional<MachineOption> machine) {
    auto watts = power_of_test(time, done, value_or(machine, Machine::row));
    if (watts)
        watts = believable(*watts, time.value);
    if (watts)
        watts = predict_power(*watts, time.value, cap.value);
    return watts ? rate_in_mixed_task(*watts, value_or(share, usual_share)) : Result<CaloriesPerHour>{watts.error()};
}

TableCell plain(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell))
        return *number;
    if (const auto* text = std::get_if<std::string>(&cell))
        return *text;
    return {};
}

// The cell of a test that a key stands for; null for any other key.
TableCell* cell_of(TestCells& cells, std::string_view key) {
    const std::pair<std::string_view, TableCell*> known[] = {
        {"name", &cells.name},     {"what", &cells.what},     {"time", &cells.time},    {"calories", &cells.calories},
        {"metres", &cells.metres}, {"watts", &cells.watts},   {"reps", &cells.reps},    {"load", &cells.load},
        {"second", &cells.second}, {"rest_s", &cells.rest_s}, {"damper", &cells.damper}};
    const auto* found = std::ranges::find(known, key, &std::pair<std::string_view, TableCell*>::first);
    return found == std::end(known) ? nullptr : found->second;
}

std::string meaning_text(const TestMeaning& meaning, Language language) {
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : " · ") + part; };
    if (meaning.rate)
        add(spoken(std::round(meaning.rate->value()), language) + " cal/h");
    if (meaning.power)
        add(spoken(std::round(meaning.power->value()), language) + " W");
    if (meaning.split)
        if (const auto split = clock_text(*meaning.split, 1))
            add(*split);
    if (meaning.maximum)
        add(spoken(say("maximum %1 kg", std::round(2 * *meaning.maximum) / 2), language));
    return text;
}

Result<std::string> test_meaning(RawCells keys, RawCells test, std::optional<Text> language) {
    if (keys.cells.size() != test.cells.size())
        return out_of_domain("Keys and cells of the test must be equally many: there are %1 keys and %2 cells.",
                             keys.cells.size(), test.cells.size());
    const auto in = parse_language(language ? language->value : "en");
    if (!in)
        return out_of_domain("There is no language %1: write its key, such as \"en\".", quoted(language->value));
    TestCells cells;
    std::optional<Machine> machine;
    for (std::size_t i = 0; i < keys.cells.size(); ++i) {
        const auto key = fold(cell_text(plain(keys.cells[i])));
        if (auto* cell = cell_of(cells, key))
            *cell = plain(test.cells[i]);
        else if (const auto kind = find_word(WordList::machine, cell_text(plain(test.cells[i])));
                 key == "machine" && kind)
            machine = static_cast<Machine>(*kind);
    }
    std::vector<MachineName> machines;
    if (machine)
        machines.push_back({cell_text(cells.what), *machine});
    constexpr double any_day = 40000; // what a test means does not depend on its day
    const auto meaning = meaning_of(cells, any_day, machines);
    return meaning ? meaning_text(*meaning, *in) : "▲ " + spoken(meaning.error(), *in);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr Row rows[] = {
    row<&test_critical>(
        "testCritical", "TEST.CRITICAL",
        "Critical power (W), the reserve above it (J), their standard errors and R², from maximal tests.",
        {{"times", "Times of the tests."},
         {"watts", "Average watts of each."},
         {"index", "1 to 5 for one of the values; all five if left out."}},
        "At least two tests with different times, below 1 h. #N/A for the errors and R² of two tests; Err:523 if the "
        "tests contradict each other. Reliable for tests of 2 to 20 minutes.",
        "Work-time form, Gaesser et al. 1995; least squares checked against NIST StRD Norris.",
        {"{\"2:00\"|\"3:00\"|\"5:00\"|\"8:00\"|\"15:00\"};{425|362|318|291|274};1", "251.095"}),
    row<&test_power>("testPower", "TEST.POWER", "Watts that can be held for that time.",
                     {{"time", "Time to hold."}, {"critical_W", critical_text}, {"reserve_J", reserve_text}},
                     "All above 0.", "Monod and Scherrer's line in the form of Gaesser et al. 1995.",
                     {"\"10:00\";250;18000", "280"}),
    row<&test_alone>("testAlone", "TEST.ALONE",
                     "Rate in cal/h that can be held for the whole cap with nothing else to do.",
                     {{"cap", cap_text}, {"critical_W", critical_text}, {"reserve_J", reserve_text}}, "All above 0.",
                     "TEST.POWER and ERG.CONVERT.", {"\"17:00\";230;18000", "1152.302"}),
    row<&test_floor>("testFloor", "TEST.FLOOR", "Rate in cal/h to plan with in a mixed task.",
                     {{"cap", cap_text},
                      {"critical_W", critical_text},
                      {"reserve_J", reserve_text},
                      {"share", "Share of the watts of TEST.ALONE.", usual_share}},
                     "share above 0, at most 1.", "The share is judgement, no source.",
                     {"\"17:00\";230;18000", "939.227"}),
    row<&test_predict>("testPredict", "TEST.PREDICT", "Time over another distance, from a known one.",
                       {{"known_time", "Known time."},
                        {"known_distance", "Its distance."},
                        {"distance", "Distance wanted, in the same unit."},
                        {"exponent", "Exponent of time over distance.", riegel_exponent}},
                       "All above 0; known_time below 1 h.", "P. Riegel 1981, American Scientist 69.",
                       {"\"20:00\";5;10", "41:42"}),
    row<&test_rate>("testRate", "TEST.RATE",
                    "Rate in cal/h to plan with in a mixed task, from one maximal test on the ergometer.",
                    {{"time", "Time of the test."},
                     {"done", "Calories done in it, or a text such as \"1000 m\" or \"250 W\"."},
                     {"cap", cap_text},
                     {"share", "Share of the watts that can be held for the whole cap.", usual_share},
                     {"machine", machine_text, "row"}},
                    "All above 0, time below 1 h, share at most 1. A test above what the best in the world hold for "
                    "that long is refused. \"armbike\" has no formula.",
                    "Riegel 1981 on watts, exponent 0.17. The share and the most that people hold are judgement.",
                    {"\"10:00\";165;\"17:00\"", "772.909"}),
    row<&test_meaning>(
        "testMeaning", "TEST.MEANING",
        "What a test says at once: the rate on a machine, the maximum of a load; or why it cannot be.",
        {{"keys", "Keys of the cells: name, what, machine, time, calories, metres, watts, reps, load, second, rest_s, "
                  "damper."},
         {"test", "The cells of one test, as many as keys."},
         {"language", "Key of the language of the words, such as \"de\".", "en"}},
        "Empty text while no result is typed. A test that cannot be meant gives ▲ and what to put right. machine: "
        "row, ski, bike or armbike; without it what is a machine by its usual word, else a movement.",
        "ERG.CONVERT and SETS.ONEREPMAX; the most that people hold is judgement.",
        {"{\"name\"|\"what\"|\"time\"|\"calories\"};{\"Mara\"|\"Rower\"|\"10:00\"|165}", "990 cal/h · 200 W · 2:00.4"}),
};

} // namespace

std::span<const Row> test_rows() { return rows; }

} // namespace pacecells
