#include "pacecells/load_table.h"

#include "announcement_tokens.h"

#include "pacecells/names.h"
#include "pacecells/text.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace pacecells {

namespace {

constexpr std::string_view loose = "loose"; // an implement of which no more is known
constexpr double rounding = 1e-9;
constexpr int rounds_looked_at = 40; // of a list that goes on and on: as many as a workbook has clocks for

struct LoadLimit {
    double reps; // per round, from
    double share;
};
constexpr LoadLimit load_limits[] = {{15, 0.50}, {10, 0.60}, {5, 0.70}, {0, 0.80}};

double whole_percent(double share) { return std::round(100 * share); }

// The athlete's own reps of the largest round.
double most_reps(const Workout& workout, const Athlete& athlete, std::size_t i) {
    const auto& station = workout.stations[i];
    const auto rounds = workout.rounds(*athlete.division);
    double most = 0;
    for (int k = 1; k <= rounds.value_or(rounds_looked_at); ++k)
        most = std::max(most, station.amount(*athlete.division, k, rounds));
    const int team = workout.settings.team;
    if (athlete.team)
        return athlete.team->stations[i].units(most);
    return std::ceil(most * athlete.share.value_or(1.0 / team) - rounding);
}

OnBar on_bar(double load, const Bar& bar, bool barbell) {
    OnBar made{.load = load};
    if (!barbell)
        return made;
    if (auto plates = plates_each_side(load, bar.weight, bar.unit))
        made.each_side = *std::move(plates);
    return made;
}

std::optional<OnBar> at_share(double maximum, double share, const Bar& bar, bool barbell) {
    const auto load = share_of_maximum(maximum, share, bar.unit);
    return load && *load > 0 ? std::optional(on_bar(*load, bar, barbell)) : std::nullopt;
}

} // namespace

Result<RepsExpected> reps_expected(double share) {
    const auto epley = max_reps(share, 1, LoadFormula::epley);
    const auto brzycki = max_reps(share, 1, LoadFormula::brzycki);
    if (!epley)
        return epley.error();
    if (!brzycki)
        return brzycki.error();
    const auto whole = [](Reps reps) { return static_cast<int>(std::floor(std::min(999.0, reps.value()) + rounding)); };
    return RepsExpected{std::min(whole(*epley), whole(*brzycki)), std::max(whole(*epley), whole(*brzycki))};
}

double load_limit(double reps) {
    return std::ranges::find_if(load_limits, [reps](const LoadLimit& one) { return reps >= one.reps; })->share;
}

std::optional<Said> load_caution(std::string_view movement, double share, double reps) {
    const std::string name{movement};
    if (share > 1 + rounding)
        return say("%1: the load is above the athlete's maximum; scale it.", name);
    const double limit = load_limit(reps);
    if (!(share > limit + rounding))
        return {};
    return say("%1: the load is %2% of the maximum; for %3 reps per round more than %4% is a reason to scale.", name,
               whole_percent(share), reps, whole_percent(limit));
}

std::optional<std::string_view> implement_of(std::string_view movement) {
    const auto named = [](std::string_view text) {
        std::optional<std::string_view> found;
        const auto tokens = tokens_of(text);
        for (std::size_t at = 0; at < tokens.size(); ++at)
            if (const auto phrase = phrase_at(tokens, at, tokens.size(), "implement");
                phrase && (!found || found == loose))
                found = phrase->key;
        return found;
    };
    const auto found = named(movement);
    if (found && found != loose)
        return found;
    std::string parted{movement}; // "KB-swings"
    std::ranges::replace(parted, '-', ' ');
    const auto in_parts = named(parted);
    return in_parts ? in_parts : found;
}

Said fetched(std::string_view implement, double load, LoadUnit unit, Language language) {
    const std::string in{unit == LoadUnit::pounds ? "lb" : "kg"};
    if (implement == loose)
        return say("weight of %1 %2", load, in);
    const std::string word{announcement_word("implement", implement, language)};
    const bool two_hands = implement == "dumbbell" || implement == "kettlebell";
    return two_hands ? say("%1, %2 %3", word, load, in) : say("1 %1, %2 %3", word, load, in);
}

std::vector<LoadLine> load_table(const Workout& workout, const Athlete& athlete, const Bar& bar) {
    std::vector<LoadLine> lines;
    if (athlete.name.empty() || !athlete.division || athlete.consent_missing || athlete.plan == DayPlan::not_today)
        return lines;
    const double unit = bar.unit == LoadUnit::pounds ? pounds_per_kilogram : 1;
    for (std::size_t i = 0; i < workout.stations.size(); ++i) {
        const auto& station = workout.stations[i];
        const auto& part = station.divisions[*athlete.division];
        if (station.unit != Unit::rep || part.amounts.list.empty())
            continue;
        LoadLine line{.station = i, .reps = most_reps(workout, athlete, i)};
        if (athlete.movements[i].maximum)
            line.maximum = *athlete.movements[i].maximum * unit;
        if (part.load && *part.load > 0)
            line.load = *part.load * unit;
        line.implement = implement_of(station.movement);
        const bool barbell = !line.implement && (!line.load || *line.load >= bar.weight - rounding);
        if (!line.maximum && !(line.load && barbell))
            continue;
        if (line.load)
            line.made = at_share(*line.load, 1, bar, barbell);
        if (line.maximum)
            for (std::size_t k = 0; k < load_shares.size(); ++k)
                line.steps[k] = at_share(*line.maximum, load_shares[k], bar, barbell);
        if (line.maximum && line.load) {
            line.share = *line.load / *line.maximum;
            if (const auto reps = reps_expected(std::min(*line.share, 1.0)); reps && *line.share <= 1 + rounding)
                line.unbroken = *reps;
            line.caution = load_caution(station.movement, *line.share, line.reps);
        }
        if (line.maximum && line.reps > 0) {
            const double step = load_step(bar.unit);
            const double most = std::floor(*line.maximum * load_limit(line.reps) / step + rounding) * step;
            if (most > 0)
                line.up_to = on_bar(most, bar, barbell);
        }
        const auto same = std::ranges::find_if(lines, [&](const LoadLine& other) {
            return same_name(workout.stations[other.station].movement, station.movement) && other.load == line.load;
        });
        if (same == lines.end())
            lines.push_back(std::move(line));
        else if (line.reps > same->reps)
            *same = std::move(line);
    }
    return lines;
}

} // namespace pacecells
