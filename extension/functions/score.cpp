// The SCORE family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/forecast.h"
#include "pacecells/score.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

// Total reps of a score: a number, or text such as "7+21" together with the reps per round.
Result<Reps> score_in(const NumberOrText& score, const std::optional<Counts>& reps_per_round) {
    if (const auto* reps = std::get_if<double>(&score.value)) {
        if (!(*reps >= 0))
            return out_of_domain("A score is at least 0, got %1.", *reps);
        return Reps{*reps};
    }
    const auto parsed = parse_score(*std::get_if<std::string>(&score.value));
    if (!parsed)
        return parsed.error();
    if (!reps_per_round)
        return out_of_domain("A score written in rounds needs the reps per round as well.");
    const auto reps = RoundReps::from(*reps_per_round);
    if (!reps)
        return reps.error();
    return reps_of(*parsed, *reps->view());
}

Result<Reps> score_reps(CountOrText score, Counts reps_per_round) {
    if (const auto reps = RoundReps::from(reps_per_round); !reps)
        return reps.error();
    return score_in(score, reps_per_round);
}

Result<std::string> score_text_cell(CountNumber reps, Counts reps_per_round) {
    const auto rounds = RoundReps::from(reps_per_round);
    if (!rounds)
        return rounds.error();
    return score_text(Reps{reps.value}, *rounds->view());
}

Result<Reps> score_project(Duration cap, Duration elapsed, CountOrText score, std::optional<Counts> reps_per_round) {
    const auto reps = score_in(score, reps_per_round);
    if (!reps)
        return reps.error();
    return project(cap.value, elapsed.value, *reps);
}

Result<Answer> score_forecast(Duration cap, Times clocks, Counts reps_per_round, std::optional<Number> confidence,
                              std::optional<Whole> index, std::optional<ShortTime> planned) {
    const auto done = clocks_in(clocks);
    if (!done)
        return done.error();
    if (planned && planned->value > cap.value)
        return out_of_domain("The planned round is longer than the cap.");
    const auto rounds = RoundReps::from(reps_per_round);
    if (!rounds)
        return rounds.error();
    const auto result = forecast(cap.value, *done, *rounds->view(), value_or(confidence, usual_confidence),
                                 planned ? std::optional{planned->value} : std::nullopt);
    if (!result)
        return result.error();
    return pick(Range{1, 3, {to_cell(result->low), to_cell(result->expected), to_cell(result->high)}}, {}, index);
}

Result<double> score_fade(Times clocks) {
    const auto done = clocks_in(clocks);
    if (!done)
        return done.error();
    return fade(*done);
}

Result<double> score_steadiness(Times clocks) {
    const auto done = clocks_in(clocks);
    if (!done)
        return done.error();
    return steadiness(*done);
}

Result<Seconds> score_capped(CountNumber reps_left, Duration cap) { return capped(Reps{reps_left.value}, cap.value); }

Result<std::string> score_result(AnyTime time, Duration cap, std::optional<CountNumber> reps_left) {
    return result_text(time.value, cap.value, Reps{value_or(reps_left, 0.0)});
}

// A tie-break as somebody typed it: a number, or a text such as 5:30.5, which a cell keeps where the office's decimals have a
// comma. Any other text is none: a slip in one row must not take everybody's place.
std::optional<double> tiebreak_in(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell))
        return *number;
    if (is_blank(cell))
        return std::nullopt;
    const auto time = Read<AnyTime>::from(cell);
    return time ? std::optional{time->value.value() / seconds_a_day} : std::nullopt;
}

Result<Answer> score_place(RawCells score, Numbers scores, std::optional<Text> order, std::optional<RawCells> group,
                           std::optional<RawCells> groups, std::optional<RawCells> tiebreak,
                           std::optional<RawCells> tiebreaks) {
    if (group.has_value() != groups.has_value())
        return out_of_domain("The group and the column of groups go together, and one of them is missing.");
    if (tiebreak.has_value() != tiebreaks.has_value())
        return out_of_domain("The tie-break and the column of tie-breaks go together, and one of them is missing.");
    for (const auto* beside : {group ? &*group : nullptr, tiebreak ? &*tiebreak : nullptr})
        if (beside && (beside->rows != score.rows || beside->columns != score.columns))
            return out_of_domain("Group and tie-break have as many cells as score.");

    Field field{scores.values, Order::high_wins, {}, {}};
    if (order) {
        const auto parsed = parse_order(order->value);
        if (!parsed)
            return parsed.error();
        field.order = *parsed;
    }
    const auto group_column = groups ? texts(*groups) : std::vector<std::string>{};
    field.groups = group_column;
    std::vector<std::optional<double>> broken;
    if (tiebreaks)
        std::ranges::transform(tiebreaks->cells, std::back_inserter(broken), tiebreak_in);
    field.tiebreaks = broken;
    if ((groups && group_column.size() != scores.values.size()) || (tiebreaks && broken.size() != scores.values.size()))
        return out_of_domain("Groups and tie-breaks have as many cells as scores.");

    // For one athlete a look along the column, for many one sort.
    const bool single = score.cells.size() == 1;
    std::optional<Places> places;
    if (!single) {
        auto sorted = Places::in(field);
        if (!sorted)
            return sorted.error();
        places = *std::move(sorted);
    }
    Range out{score.rows, score.columns, {}};
    out.cells.reserve(score.cells.size());
    for (std::size_t i = 0; i < score.cells.size(); ++i) {
        if (!single && is_blank(score.cells[i])) {
            out.cells.emplace_back(Blank{});
            continue;
        }
        const auto own = Read<Number>::from(score.cells[i]);
        if (!own) {
            out.cells.emplace_back(detail::about(0, own.error()));
            continue;
        }
        const std::string own_group = group ? group_text(group->cells[i]) : std::string{};
        const Standing standing{own->value, own_group, tiebreak ? tiebreak_in(tiebreak->cells[i]) : std::nullopt};
        out.cells.push_back(to_cell(single ? place(standing, field) : places->of(standing)));
    }
    if (single)
        return Answer{out.cells.front()};
    return Answer{std::move(out)};
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view clocks_text = "What the clock showed at the end of each finished round.";

constexpr Row rows[] = {
    row<&score_reps>("scoreReps", "SCORE.REPS", "Total reps of a score.",
                     {{"score", "Score such as \"7+21\", or total reps."}, {"reps_per_round", reps_per_round_text}},
                     "The reps after + are below those of that round; Err:523 for a round beyond the last.", arithmetic,
                     {"\"7+21\";30", "231"}),
    row<&score_text_cell>("scoreText", "SCORE.TEXT",
                          "Writes total reps as rounds and reps, rounded down to whole reps.",
                          {{"reps", "Total reps."}, {"reps_per_round", reps_per_round_text}},
                          "reps at least 0; Err:523 for a round beyond the last.", arithmetic, {"231;30", "7+21"}),
    row<&score_project>("scoreProject", "SCORE.PROJECT", "Total reps at the cap at the pace so far, with decimals.",
                        {{"cap", cap_text},
                         {"elapsed", "Elapsed time."},
                         {"score", "Score so far."},
                         {"reps_per_round", reps_per_round_text}},
                        "elapsed above 0 and at most the cap.", arithmetic, {"\"15:00\";\"6:00\";90", "225"}),
    row<&score_forecast>(
        "scoreForecast", "SCORE.FORECAST", "Low, expected and high total reps at the cap, from the rounds done so far.",
        {{"cap", cap_text},
         {"clocks", clocks_text},
         {"reps_per_round", reps_per_round_text},
         {"confidence", "Confidence of the range from low to high.", usual_confidence},
         {"index", "1 low, 2 expected, 3 high; all three if left out."},
         {"planned", "Planned round time, as from PACE.ROUND of the goal; none if left out."}},
        "Clocks increase, the last is at most the cap. #N/A without a clock; Err:523 for a value beyond a list of "
        "reps.",
        "Weighted regression drawn to the usual fade; its constants are judgement, tuned in simulated tasks.",
        {"\"20:00\";{\"2:10\"|\"4:24\"|\"6:36\"|\"8:52\"};30;;2;\"2:15\"", "265.83"}),
    row<&score_fade>("scoreFade", "SCORE.FADE", "Change of the round time from round to round, as a share of the mean.",
                     {{"clocks", clocks_text}}, "Two rounds or more.", "Least squares.",
                     {"{\"1:30\"|\"3:10\"|\"5:00\"}", "0.1"}),
    row<&score_steadiness>("scoreSteadiness", "SCORE.STEADINESS", "Coefficient of variation of the round times.",
                           {{"clocks", clocks_text}}, "Two rounds or more.",
                           "Sample standard deviation (n - 1) over the mean.", {"{\"1:30\"|\"3:10\"|\"5:00\"}", "0.1"}),
    row<&score_capped>("scoreCapped", "SCORE.CAPPED",
                       "Time to rank a capped result by: the cap and 1 s for each rep left.",
                       {{"reps_left", "Reps not done."}, {"cap", cap_text}}, "reps_left whole, at least 0.", practice,
                       {"23;\"12:00\"", "12:23"}),
    row<&score_result>(
        "scoreResult", "SCORE.RESULT", "A result as text: a time, or CAP+ and the reps left.",
        {{"time", "Finish time; 0 where the cap was reached."}, {"cap", cap_text}, {"reps_left", "Reps not done.", 0}},
        "Without reps left, time above 0 and at most the cap; with reps left, no time below the cap.", practice,
        {"\"11:42\";\"12:00\"", "11:42"}),
    row<&score_place>("scorePlace", "SCORE.PLACE", "Place of a score among all; ties share the better place.",
                      {{"score", "Score, or a range of them."},
                       {"scores", "All scores; blanks are skipped."},
                       {"order", "\"high\" where the highest wins, \"low\" where the lowest does.", "high"},
                       {"group", "Group of this score, such as a division."},
                       {"groups", "Groups of all scores."},
                       {"tiebreak", "Tie-break of this score; the lower one wins, a blank ranks last."},
                       {"tiebreaks", "Tie-breaks of all scores; a text is a time such as 5:30, or counts as a blank."}},
                      "A score that is not among them is refused.",
                      "Standard competition ranking, equal ones sharing a place: 1, 2, 2, 4.",
                      {"42;{44|42|42|41}", "2"}),
};

} // namespace

std::span<const Row> score_rows() { return rows; }

} // namespace pacecells
