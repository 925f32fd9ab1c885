// The SETS family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/loads.h"
#include "pacecells/scheme.h"
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

SetWork work_in(Count reps, CountNumber rounds, CountNumber max_unbroken, PlainSeconds away,
                const std::optional<CountNumber>& margin, const std::optional<FactorNumber>& recovery) {
    return {.reps = reps.value,
            .rounds = rounds.value,
            .max_unbroken = Reps{max_unbroken.value},
            .away = away.value,
            .margin = margin ? std::optional{Reps{margin->value}} : std::nullopt,
            .recovery = value_or(recovery, 1.0)};
}

Result<std::string> sets_plan(Count reps, CountNumber rounds, CountNumber max_unbroken, PlainSeconds away,
                              std::optional<PlainSeconds> rest, std::optional<CountNumber> margin,
                              std::optional<FactorNumber> recovery) {
    const auto plan = plan_sets(work_in(reps, rounds, max_unbroken, away, margin, recovery),
                                rest ? std::optional{rest->value} : std::nullopt);
    if (!plan)
        return plan.error();
    return plan->scheme.text();
}

// Plain seconds, as the functions that take a rest read them.
Result<double> sets_rest(Count reps, CountNumber rounds, CountNumber max_unbroken, PlainSeconds away,
                         std::optional<Count> sets, std::optional<CountNumber> margin,
                         std::optional<FactorNumber> recovery) {
    const auto rest = rest_needed(work_in(reps, rounds, max_unbroken, away, margin, recovery),
                                  sets ? std::optional{sets->value} : std::nullopt);
    if (!rest)
        return rest.error();
    return rest->value();
}

Result<Reps> sets_left(NumberOrText scheme, CountNumber rounds, CountNumber max_unbroken, PlainSeconds away,
                       std::optional<PlainSeconds> rest, std::optional<FactorNumber> recovery) {
    const auto parsed = scheme_in(scheme);
    if (!parsed)
        return parsed.error();
    return reps_left(*parsed, rounds.value, Reps{max_unbroken.value}, away.value, value_or(rest, least_rest_at_a_break),
                     value_or(recovery, 1.0));
}

Result<Reps> sets_noise(CountNumber max_unbroken, std::optional<Text> from) {
    const auto source = from ? parse_maximum_from(from->value) : MaximumFrom::test;
    if (!source)
        return source.error();
    return max_noise(Reps{max_unbroken.value}, *source);
}

Result<double> sets_recovery(CountNumber first, CountNumber second, PlainSeconds rest) {
    return recovery_from(Reps{first.value}, Reps{second.value}, rest.value);
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

Result<LoadUnit> load_unit_in(const std::optional<Text>& unit) {
    return unit ? parse_load_unit(unit->value) : LoadUnit::kilograms;
}

Result<double> sets_load(LoadNumber one_rep_max_load, Number share, std::optional<Text> unit) {
    const auto which = load_unit_in(unit);
    if (!which)
        return which.error();
    return share_of_maximum(one_rep_max_load.value, share.value, *which);
}

Result<std::string> sets_plates(LoadNumber load, std::optional<LoadNumber> bar, std::optional<Text> unit) {
    const auto which = load_unit_in(unit);
    if (!which)
        return which.error();
    const auto plates = plates_each_side(load.value, value_or(bar, usual_bar(*which)), *which);
    if (!plates)
        return plates.error();
    return plates_text(*plates);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view three_pools =
    "Three-component exponential recovery (form: Stull and Kearney 1978); constants fitted here to twelve studies of "
    "repeated sets, among them Senna et al. 2009 and Ratamess et al. 2007.";
constexpr std::string_view margin_text =
    "Reps to spare; if left out, a tenth of (max_unbroken - 1), which is judgement.";
constexpr std::string_view rounds_text = "Rounds; a part of one counts as a whole one.";
constexpr std::string_view recovery_text = "Factor of the athlete's recovery, see SETS.RECOVERY.";
constexpr std::string_view away_text = "Seconds from the end of these reps to the start of the next round's.";
constexpr std::string_view unbroken_text = "Reps that can be done unbroken when fresh.";
constexpr std::string_view load_unit_text = "\"kg\" or \"lb\".";
constexpr std::string_view plates_source =
    "Common practice: a bar of 20 kg or 45 lb, plates of 25 to 1.25 kg, or 45 to 2.5 lb, in pairs; no source.";
constexpr std::string_view formula_text = "\"epley\" or \"brzycki\".";

constexpr Row rows[] = {
    row<&sets_split>("setsSplit", "SETS.SPLIT", "Breaks repetitions into near-even sets, the larger first.",
                     {{"reps", "Total reps."}, {"sets", "Number of sets."}}, "Whole numbers; sets from 1 to reps.",
                     practice, {"20;3", "7-7-6"}),
    row<&sets_count>("setsCount", "SETS.COUNT", "Number of sets in a scheme.",
                     {{"scheme", "Scheme such as \"5-4\", \"3-2/3-2\" or \"9x1\"; a number is unbroken."}},
                     "A number is whole, 1 to 999.", arithmetic, {"\"3-3-3\"", "3"}),
    row<&sets_time>("setsTime", "SETS.TIME",
                    "Time for a scheme, with a rest between sets and none at a change of sides.",
                    {{"scheme", "Scheme such as \"5-4\", \"3-2/3-2\" or \"9x1\"; a number is unbroken."},
                     {"rep_s", "Seconds per repetition."},
                     {"rest_s", "Seconds of rest between sets."}},
                    "Seconds are plain numbers, at least 0.", arithmetic, {"\"3-3-3\";2;5", "0:28"}),
    row<&sets_plan>("setsPlan", "SETS.PLAN", "The scheme with the fewest sets that keeps the margin in every round.",
                    {{"reps", "Reps in each round."},
                     {"rounds", rounds_text},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"rest_s", "Seconds of rest between sets; if left out or 0, planned with the sets."},
                     {"margin", margin_text},
                     {"recovery", recovery_text, 1}},
                    "reps at most 999; Err:523 where not even singles keep the margin.", three_pools,
                    {"9;9;18;80", "5-4"}),
    row<&sets_rest>("setsRest", "SETS.REST", "Seconds of rest between sets that this number of sets needs.",
                    {{"reps", "Reps in each round."},
                     {"rounds", rounds_text},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"sets", "Number of sets; those of SETS.PLAN if left out."},
                     {"margin", margin_text},
                     {"recovery", recovery_text, 1}},
                    "0 where no rest is needed; Err:523 where even endless rest does not keep the margin.", three_pools,
                    {"9;9;15;80", "18.24"}),
    row<&sets_left>("setsLeft", "SETS.LEFT",
                    "Reps to spare at the worst moment of a scheme; negative means failure before the end.",
                    {{"scheme", "Scheme of each round, such as \"5-4\"; a number is unbroken."},
                     {"rounds", rounds_text},
                     {"max_unbroken", unbroken_text},
                     {"away_s", away_text},
                     {"rest_s", "Seconds of rest between sets.", least_rest_at_a_break},
                     {"recovery", recovery_text, 1}},
                    "rounds above 0; max_unbroken at least 1.", three_pools, {"9;9;30;80", "12.980"}),
    row<&sets_noise>(
        "setsNoise", "SETS.NOISE",
        "How far the day's unbroken maximum may lie from the known one: one standard deviation in reps.",
        {{"max_unbroken", unbroken_text}, {"from", "Where the maximum is from: \"test\" or \"load\".", "test"}},
        "max_unbroken at least 1.",
        "Mitter et al. 2022 (test); a quarter of the reps where a load tells them, judgement after Silva "
        "et al. 2014.",
        {"20", "1.9"}),
    row<&sets_recovery>("setsRecovery", "SETS.RECOVERY",
                        "Factor of recovery that two sets to failure imply: 1 is the athlete of the studies.",
                        {{"first", "Reps of the first set, from fresh."},
                         {"second", "Reps of the second set."},
                         {"rest_s", "Seconds of rest between the two."}},
                        "second at least 1 and below first; rest_s above 0.", three_pools, {"20;12;60", "0.820"}),
    row<&sets_maxreps>(
        "setsMaxreps", "SETS.MAXREPS", "Unbroken reps expected at a load, with decimals.",
        {{"load", "Load."}, {"one_rep_max", "One-rep max, in the same unit."}, {"formula", formula_text, "epley"}},
        "load above 0 and at most the maximum.", "Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.",
        {"80;100", "7.5"}),
    row<&sets_onerepmax>(
        "setsOnerepmax", "SETS.ONEREPMAX", "One-rep max from a load and its reps.",
        {{"load", "Load."}, {"reps", "Unbroken reps done with it."}, {"formula", formula_text, "epley"}},
        "load above 0, reps at least 1, for Brzycki below 37.",
        "Epley 1985; Brzycki 1993. Handbooks disagree beyond 10 reps.", {"100;5", "116.667"}),
    row<&sets_load>(
        "setsLoad", "SETS.LOAD", "The load nearest to a share of the maximum that plates make.",
        {{"one_rep_max", "One-rep max."}, {"share", "Share of it, such as 72%."}, {"unit", load_unit_text, "kg"}},
        "one_rep_max above 0 and at most 1000, share above 0 and at most 150%.", plates_source, {"100;0.72", "72.5"}),
    row<&sets_plates>("setsPlates", "SETS.PLATES", "What goes on each side of the bar, the heaviest plate first.",
                      {{"load", "Load, bar included."},
                       {"bar", "Weight of the bar, 0 for the plates alone; the usual bar if left out."},
                       {"unit", load_unit_text, "kg"}},
                      "load from the bar up, in steps of 2.5 kg or 5 lb.", plates_source, {"72.5", "25 + 1.25"}),
};

} // namespace

std::span<const Row> sets_rows() { return rows; }

} // namespace pacecells
