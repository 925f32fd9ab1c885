// Symbols: those of pacing.h.
#include "pacecells/pacing.h"

#include "check.h"

#include <cmath>

namespace pacecells {

Result<Seconds> pacing_cost(Seconds time, double drift, Seconds reserve, double gain) {
    if (!positive(time.value()))
        return out_of_domain("The time must be above 0; got %1 s.", time.value());
    if (!(drift >= -1 && drift <= 1))
        return out_of_domain("The drift must be from -1 to 1; got %1.", drift);
    if (!positive(reserve.value()))
        return out_of_domain("The reserve must be above 0 J; got %1.", reserve.value());
    if (!(gain >= 1 && std::isfinite(gain)))
        return out_of_domain("Effort must rise at least as fast as pace: 1 or more; got %1.", gain);
    const double d = std::abs(drift);
    const double m = reserve.value() / time.value();
    const double b1 = 1 + (1 + m) * (gain - 1);
    if (m >= b1 * d / 2)
        return Seconds{0};
    const double a = (1 + m) * gain;
    const double c = 1 - d / 2;
    const double e = a * c + m * d;
    const double slower = a * a / (b1 * (e + std::sqrt((e - a * c) * (e + a * c))));
    return finite(time * std::max(0.0, slower - 1));
}

} // namespace pacecells
