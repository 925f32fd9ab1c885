#include "pacecells/reasons.h"

namespace pacecells {

std::optional<std::size_t> Reasons::find(Fact fact, std::optional<std::size_t> station) const {
    for (std::size_t i = steps_.size(); i-- > 0;)
        if (steps_[i].fact == fact && steps_[i].station == station)
            return i;
    return {};
}

} // namespace pacecells
