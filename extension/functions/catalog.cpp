#include "catalog.h"

#include "family.h"

#include "pacecells/text.h"

#include <algorithm>

namespace pacecells {

std::span<const Row> catalog() {
    static const std::vector<Row> rows = [] {
        std::vector<Row> all;
        for (const auto family : {clock_rows(), erg_rows(), pace_rows(), sets_rows(), score_rows(), test_rows(),
                                  plan_rows(), heat_rows(), day_rows(), team_rows(), judge_rows(), workout_rows(),
                                  result_rows(), usual_rows(), athlete_rows(), card_rows(), load_rows()})
            all.insert(all.end(), family.begin(), family.end());
        return all;
    }();
    return rows;
}

const Row* find_method(std::string_view method) {
    const auto wanted = fold(method);
    const auto found = std::ranges::find_if(catalog(), [&](const Row& row) { return fold(row.method) == wanted; });
    return found == catalog().end() ? nullptr : &*found;
}

} // namespace pacecells
