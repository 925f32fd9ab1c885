#include "pacecells/loads.h"

#include "check.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

Result<LoadFormula> parse_load_formula(std::string_view text) {
    const auto name = fold(text);
    if (name == "epley")
        return LoadFormula::epley;
    if (name == "brzycki")
        return LoadFormula::brzycki;
    return out_of_domain("%1 is not a formula here: write epley or brzycki.", quoted(text));
}

Result<Reps> max_reps(double load, double one_rep_max, LoadFormula formula) {
    constexpr double rounding = 1e-9; // a load computed as 100 % of the maximum may come out a trace above it
    if (!positive(load))
        return out_of_domain("The load must be above 0; got %1.", load);
    if (!positive(one_rep_max))
        return out_of_domain("The one-repetition maximum must be above 0; got %1.", one_rep_max);
    if (!(load <= one_rep_max * (1 + rounding))) {
        return out_of_domain("The load must be at most the one-repetition maximum; got %1.", load);
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

} // namespace pacecells
