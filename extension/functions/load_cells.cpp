#include "load_cells.h"

#include "wording.h"

#include <cmath>
#include <string>

namespace pacecells {

namespace {

std::string span_text(const RepsExpected& reps) {
    const auto from = std::to_string(reps.from);
    return reps.from == reps.to ? from : from + "–" + std::to_string(reps.to);
}

// "25 + 1.25"; "≈ 42.5: 10 + 1.25" where plates do not make the load.
std::string side_text(const OnBar& on, double wanted, Language language) {
    if (!on.each_side)
        return spoken(say("a lighter bar"), language);
    std::string text;
    for (const double plate : *on.each_side)
        text += (text.empty() ? "" : " + ") + spoken(plate, language);
    if (text.empty())
        text = "0";
    const bool made = std::abs(on.load - wanted) <= 1e-6 * wanted;
    return made ? text : spoken(say("≈ %1: %2", on.load, text), language);
}

// What goes on each side of the bar, or what to fetch in its place.
TableCell to_fetch(const LoadLine& line, const Bar& bar, Language language) {
    if (!line.load || !line.made)
        return {};
    if (line.implement)
        return spoken(fetched(*line.implement, std::round(10 * *line.load) / 10, bar.unit, language), language);
    return side_text(*line.made, *line.load, language);
}

TableCell number_cell(const std::optional<double>& number) {
    return number ? TableCell{std::round(10 * *number) / 10} : TableCell{};
}

} // namespace

std::vector<TableCell> load_headings(const Bar& bar, Language language) {
    const std::string unit = bar.unit == LoadUnit::kilograms ? "kg" : "lb";
    const auto text = [language](const Said& said) { return TableCell{spoken(said, language)}; };
    std::vector<TableCell> cells{text(say("Movement")),       text(say("Maximum, %1", unit)),
                                 text(say("Reps per round")), text(say("Load, %1", unit)),
                                 text(say("Of the maximum")), text(say("Each side")),
                                 text(say("Unbroken, reps")), text(say("For the reps up to, %1", unit))};
    for (const double share : load_shares) {
        const auto reps = reps_expected(share);
        cells.push_back(text(say("%1%: %2 reps", std::round(100 * share), reps ? span_text(*reps) : std::string())));
        cells.push_back(text(say("Each side")));
    }
    cells.push_back(text(say("To fix")));
    return cells;
}

std::vector<TableCell> load_cells(const Workout& workout, const LoadLine& line, const Bar& bar, Language language) {
    std::vector<TableCell> cells{TableCell(workout.stations[line.station].movement),
                                 number_cell(line.maximum),
                                 number_cell(line.reps),
                                 number_cell(line.load),
                                 line.share ? TableCell(*line.share) : TableCell(),
                                 to_fetch(line, bar, language),
                                 line.unbroken ? TableCell(span_text(*line.unbroken)) : TableCell(),
                                 line.up_to ? TableCell(line.up_to->load) : TableCell()};
    for (const auto& step : line.steps) {
        cells.push_back(step ? TableCell(step->load) : TableCell());
        cells.push_back(step && !line.implement ? TableCell(side_text(*step, step->load, language)) : TableCell());
    }
    cells.push_back(line.caution ? TableCell(spoken(*line.caution, language)) : TableCell());
    return cells;
}

} // namespace pacecells
