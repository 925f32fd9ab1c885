// The SETS family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/sets.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

Result<Scheme> scheme_in(const NumberOrText& given) {
    if (const auto* number = std::get_if<double>(&given.value))
        return Scheme::from_number(*number);
    return Scheme::parse(*std::get_if<std::string>(&given.value));
}

std::optional<Reps> margin_in(const std::optional<Number>& margin) {
    return margin ? std::optional{Reps{margin->value}} : std::nullopt;
}

Result<LoadFormula> formula_in(const std::optional<Text>& formula) {
    return formula ? parse_load_formula(formula->value) : LoadFormula::epley;
}

Result<std::string> sets_split(Count reps, Count sets) {
    const auto scheme = Scheme::near_even(reps.value, sets.value);
    if (!scheme)
        return scheme.error();
    return scheme->text();
}

Result<double> sets_count(NumberOrText scheme) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return static_cast<double>(parsed->sets());
}

Result<Seconds> sets_time(NumberOrText scheme, PlainSeconds rep, PlainSeconds rest) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return set_time(*parsed, rep.value, rest.value);
}

Result<std::string> sets_plan(Count reps, Count rounds, CountNumber max_unbroken, PlainSeconds away,
                              std::optional<PlainSeconds> rest, std::optional<Number> margin) {
    const auto scheme = plan_sets(reps.value, rounds.value, Reps{max_unbroken.value}, away.value,
                                  value_or(rest, Seconds{3}), margin_in(margin));
    if (!scheme)
        return scheme.error();
    return scheme->text();
}

Result<double> sets_rest(Count reps, Count rounds, CountNumber max_unbroken, PlainSeconds away, Count sets,
                         std::optional<Number> margin) {
    const auto rest =
        rest_needed(reps.value, rounds.value, Reps{max_unbroken.value}, away.value, sets.value, margin_in(margin));
    if (!rest)
        return rest.error();
    return rest->value(); // plain seconds, as the functions that take a rest read them
}

Result<Reps> sets_left(NumberOrText scheme, Count rounds, CountNumber max_unbroken, PlainSeconds away,
                       std::optional<PlainSeconds> rest) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return reps_left(*parsed, rounds.value, Reps{max_unbroken.value}, away.value, value_or(rest, Seconds{3}));
}

Result<Reps> sets_maxreps(LoadNumber load, LoadNumber one_rep_max_load, std::optional<Text> formula) {
    const auto which = formula_in(formula);
    if (!which)
        return which.error();
    return max_reps(load.value, one_rep_max_load.value, *which);
}

Result<double> sets_onerepmax(LoadNumber load, CountNumber reps, std::optional<Text> formula) {
    const auto which = formula_in(formula);
    if (!which)
        return which.error();
    return one_rep_max(load.value, Reps{reps.value}, *which);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view two_phase =
    "Two-phase recovery with the constants of Chorley et al. 2022 (whole body; used for local muscle by analogy); held "
    "against the drop-off printed by Senna et al. 2009 and Speretta et al. 2012. The margin is judgement.";
constexpr std::string_view margin_text = "Reps to keep in hand; the larger of 2 and 15 % of max_unbroken if left out.";
constexpr std::string_view away_text = "Seconds from the end of these reps to the start of the next round's.";
constexpr std::string_view unbroken_text = "Reps that can be done unbroken from fresh.";
constexpr std::string_view formula_text = "\"epley\" or \"brzycki\"; \"epley\" if left out.";

constexpr Row rows[] = {
    row<&sets_split>("setsSplit", "SETS.SPLIT", "Breaks repetitions into near-even sets, the larger first.",
                     {{"reps", "Repetitions in all."}, {"sets", "Number of sets."}},
                     "Whole numbers; sets from 1 to reps.", practice, {"20;3", "7-7-6"}),
    row<&sets_count>("setsCount", "SETS.COUNT", "Number of sets in a scheme.",
                     {{"scheme", "Scheme such as \"5-4\", \"3-2/3-2\" or \"9x1\"; a number is unbroken."}},
                     "A number is whole, 1 to 999.", arithmetic, {"\"3-3-3\"", "3"}),
    row<&sets_time>("setsTime", "SETS.TIME",
                    "Time for a scheme, with a rest between sets and none at a change of sides.",
                    {{"scheme", "Scheme such as \"5-4\", \"3-2/3-2\" or \"9x1\"; a number is unbroken."},
                     {"rep_s", "Seconds a repetition."},
                     {"rest_s", "Seconds of rest between sets."}},
                    "Seconds are plain numbers, at least 0.", arithmetic, {"\"3-3-3\";2;5", "0:28"}),
    row<&sets_plan>("setsPlan", "SETS.PLAN", "The scheme with the fewest sets that keeps the margin in every round.",
                    {{"reps", "Repetitions in each round."},
                     {"rounds", "Rounds."},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"rest_s", "Seconds of rest between sets; 3 if left out."},
                     {"margin", margin_text}},
                    "reps and rounds whole, above 0; Err:523 where not even singles keep the margin.", two_phase,
                    {"9;9;28;80", "3-3-3"}),
    row<&sets_rest>("setsRest", "SETS.REST", "Seconds of rest between sets that this number of sets needs.",
                    {{"reps", "Repetitions in each round."},
                     {"rounds", "Rounds."},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"sets", "Number of sets."},
                     {"margin", margin_text}},
                    "0 where no rest is needed; Err:523 where even endless rest does not keep the margin.", two_phase,
                    {"9;9;30;80;1", "0"}),
    row<&sets_left>("setsLeft", "SETS.LEFT",
                    "Reps in hand at the worst moment of a scheme; negative means failure before the end.",
                    {{"scheme", "Scheme of each round, such as \"5-4\"; a number is unbroken."},
                     {"rounds", "Rounds."},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"rest_s", "Seconds of rest between sets; 3 if left out."}},
                    "rounds whole, above 0; max_unbroken at least 1.", two_phase, {"9;9;30;80", "5.223"}),
    row<&sets_maxreps>(
        "setsMaxreps", "SETS.MAXREPS", "Unbroken reps expected at a load, decimal.",
        {{"load", "Load."}, {"one_rep_max", "One-repetition maximum, in the same unit."}, {"formula", formula_text}},
        "load above 0 and at most the maximum.", "Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.",
        {"80;100", "7.5"}),
    row<&sets_onerepmax>("setsOnerepmax", "SETS.ONEREPMAX", "One-repetition maximum from a load and its reps.",
                         {{"load", "Load."}, {"reps", "Unbroken reps done with it."}, {"formula", formula_text}},
                         "load above 0, reps at least 1, for Brzycki below 37.",
                         "Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.", {"100;5", "116.667"}),
};

} // namespace

std::span<const Row> sets_rows() { return rows; }

} // namespace pacecells
