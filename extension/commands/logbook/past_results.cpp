#include "past_results.h"

#include "pacecells/athlete.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

namespace {

bool could_go_on(const LogbookTable& results, sal_Int32 row) {
    return find_word(WordList::answer, results.text(row, "answer")) ==
           static_cast<std::size_t>(PracticeAnswer::more_left);
}

// The rows of a table from the oldest date on.
std::vector<sal_Int32> by_date(const LogbookTable& table) {
    auto rows = table.rows();
    std::ranges::stable_sort(rows, {}, [&](sal_Int32 row) { return table.number(row, "date").value_or(0); });
    return rows;
}

} // namespace

std::map<std::string, std::vector<Observation>> observations_in(const LogbookTable& results) {
    std::map<std::string, std::vector<Observation>> all;
    for (const auto row : by_date(results)) {
        const auto ratio = results.number(row, "ratio");
        const auto error = results.number(row, "ratio_sd");
        if (ratio && error && (*ratio > 1 || !could_go_on(results, row)))
            all[fold_name(results.text(row, "name"))].push_back({*ratio, *error});
    }
    return all;
}

} // namespace pacecells
