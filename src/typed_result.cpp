#include "pacecells/typed_result.h"

#include "pacecells/score.h"
#include "pacecells/text.h"
#include "pacecells/window_score.h"

#include <charconv>
#include <cmath>

namespace pacecells {

namespace {

using Read = Result<std::optional<ReadResult>>;

std::optional<double> whole_number(std::string_view text) {
    double number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size() || !(number >= 0 && number < 1e9) ||
        number != std::floor(number))
        return std::nullopt;
    return number;
}

Read of_rounds(const Workout& workout, std::size_t division, const TypedResult& typed, std::string_view text) {
    if (typed.clocks.empty() && text.empty())
        return std::optional<ReadResult>{};
    const auto done = static_cast<int>(typed.clocks.size());
    if (done >= most_plan_rounds)
        return out_of_domain("A workout has at most %1 rounds.", most_plan_rounds);
    for (std::size_t k = 0; k < typed.clocks.size(); ++k)
        if (!(typed.clocks[k] > (k > 0 ? typed.clocks[k - 1] : Seconds{0})) ||
            !(typed.clocks[k].value() <= workout.settings.cap.value() + 1e-3))
            return out_of_domain("The clock of round %1 must be later than the one before and not past the cap.",
                                 k + 1);
    const auto reps = text.empty() ? std::optional{0.0} : whole_number(text);
    const double open = workout.points(division, done + 1);
    if (!reps || (*reps > 0 && *reps >= open))
        return out_of_domain("The reps of the open round must be whole and fewer than its %1; got %2.", open,
                             quoted(text));
    double all = *reps;
    for (int round = 1; round <= done; ++round)
        all += workout.points(division, round);
    return std::optional{ReadResult{all, {}, std::to_string(done) + "+" + number_text(*reps)}};
}

Read of_time(const Workout& workout, std::size_t division, const TypedResult& typed) {
    const Seconds cap = workout.settings.cap;
    const double left = typed.reps_left.value_or(0);
    if (left > 0) {
        double all = 0;
        for (int round = 1; round <= workout.rounds(division).value_or(1); ++round)
            all += workout.points(division, round);
        if (left > all)
            return out_of_domain("The workout has %1 reps in all; got %2 left.", all, left);
        const auto time = capped(Reps{left}, cap);
        const auto text = result_text(cap, cap, Reps{left});
        if (!time || !text)
            return !time ? time.error() : text.error();
        return std::optional{ReadResult{0, *time, *text}};
    }
    if (!(typed.finish.value_or(Seconds{0}).value() > 0))
        return std::optional<ReadResult>{};
    const auto text = result_text(*typed.finish, cap);
    if (!text)
        return text.error();
    return std::optional{ReadResult{0, typed.finish, *text}};
}

} // namespace

Result<std::optional<ReadResult>> read_result(const Workout& workout, std::size_t division, const TypedResult& typed) {
    if (division >= workout.divisions.size())
        return out_of_domain("There is no division of this name.");
    const auto text = trim(typed.reps);
    if (workout.settings.format == Format::time)
        return of_time(workout, division, typed);
    if (workout.settings.format == Format::amrap)
        return of_rounds(workout, division, typed, text);
    if (text.empty())
        return std::optional<ReadResult>{};
    const auto read = window_score(workout, division, text);
    if (!read)
        return read.error();
    return std::optional{ReadResult{read->score, {}, number_text(read->score)}};
}

} // namespace pacecells
