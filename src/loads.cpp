#include "pacecells/loads.h"

#include "check.h"

#include "pacecells/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace pacecells {

namespace {

constexpr std::array kilogram_plates{25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25};
constexpr std::array pound_plates{45.0, 35.0, 25.0, 10.0, 5.0, 2.5};
constexpr double highest_share = 1.5;
constexpr double rounding = 1e-9;

std::span<const double> plates_of(LoadUnit unit) {
    return unit == LoadUnit::kilograms ? std::span<const double>(kilogram_plates) : pound_plates;
}

} // namespace

Result<LoadFormula> parse_load_formula(std::string_view text) {
    const auto name = fold(text);
    if (name == "epley")
        return LoadFormula::epley;
    if (name == "brzycki")
        return LoadFormula::brzycki;
    return out_of_domain("%1 is not a formula here: write epley or brzycki.", quoted(text));
}

Result<Reps> max_reps(double load, double one_rep_max, LoadFormula formula) {
    // A load computed as 100 % of the maximum may come out a trace above it.
    if (!positive(load))
        return out_of_domain("The load must be above 0; got %1.", load);
    if (!positive(one_rep_max))
        return out_of_domain("The one-rep max must be above 0; got %1.", one_rep_max);
    if (!(load <= one_rep_max * (1 + rounding))) {
        return out_of_domain("The load must be at most the one-rep max; got %1.", load);
    }
    const double reps = formula == LoadFormula::epley ? 30 * (one_rep_max / load - 1) : 37 - 36 * load / one_rep_max;
    return finite(Reps{std::max(1.0, reps)});
}

Result<double> one_rep_max(double load, Reps reps, LoadFormula formula) {
    const double r = reps.value();
    if (!positive(load))
        return out_of_domain("The load must be above 0; got %1.", load);
    if (!(r >= 1 && std::isfinite(r)))
        return out_of_domain("The reps must be 1 or more; got %1.", r);
    if (formula == LoadFormula::brzycki && !(r < 37))
        return out_of_domain("The reps must be below 37 for brzycki; got %1.", r);
    double most = load;
    if (r > 1)
        most = formula == LoadFormula::epley ? load * (1 + r / 30) : 36 * load / (37 - r);
    if (!std::isfinite(most))
        return out_of_domain("The load is too large to compute with; got %1.", load);
    return most;
}

Result<LoadUnit> parse_load_unit(std::string_view text) {
    const auto name = fold(text);
    if (name == "kg")
        return LoadUnit::kilograms;
    if (name == "lb")
        return LoadUnit::pounds;
    return out_of_domain("%1 is no unit of load here: write kg or lb.", quoted(text));
}

double load_step(LoadUnit unit) { return 2 * plates_of(unit).back(); }

double usual_bar(LoadUnit unit) { return unit == LoadUnit::kilograms ? 20 : 45; }

Result<double> share_of_maximum(double one_rep_max, double share, LoadUnit unit) {
    if (!(one_rep_max > 0 && one_rep_max <= heaviest_load))
        return out_of_domain("The one-rep max must be above 0 and at most %1; got %2.", heaviest_load, one_rep_max);
    if (!(share > 0 && share <= highest_share))
        return out_of_domain("The share of the maximum must be above 0 and at most 150 %; got %1.", share);
    const double steps = one_rep_max * share / load_step(unit);
    return std::ceil(steps - 0.5 - rounding) * load_step(unit);
}

Result<std::vector<double>> plates_each_side(double load, double bar, LoadUnit unit) {
    if (!(bar >= 0 && bar <= heaviest_load))
        return out_of_domain("The bar must weigh 0 to %1; got %2.", heaviest_load, bar);
    if (!(load >= bar && load <= heaviest_load))
        return out_of_domain("The load must be the bar (%1) or more, and at most %2; got %3.", bar, heaviest_load,
                             load);
    const double steps = (load - bar) / load_step(unit);
    if (!(std::abs(steps - std::round(steps)) <= rounding * (1 + steps)))
        return out_of_domain("Plates make %1 more than the bar and multiples of that; got %2 on a bar of %3.",
                             load_step(unit), load, bar);
    std::vector<double> plates;
    double left = (load - bar) / 2;
    for (const double plate : plates_of(unit))
        for (; left >= plate - rounding * load; left -= plate)
            plates.push_back(plate);
    return plates;
}

std::string plates_text(const std::vector<double>& plates) {
    std::string text;
    for (const double plate : plates)
        text += (text.empty() ? "" : " + ") + number_text(plate);
    return text.empty() ? "0" : text;
}

} // namespace pacecells
