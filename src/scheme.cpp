#include "pacecells/scheme.h"

#include "check.h"
#include "near_even.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <optional>

namespace pacecells {

namespace {

using Run = Scheme::Run;

constexpr int few = 3; // sets of one size that are written one by one

// --- reading schemes

Error not_a_scheme(std::string_view text) {
    return out_of_domain("%1 is not a scheme: write sets as 9, 5-4, 3-3-3, 4x2 (four sets of two) or 3-2/3-2 (/ "
                         "changes sides), at most 999 reps in all.",
                         quoted(text));
}

// Takes a token off the start of the text, spaces before it too.
bool take(std::string_view& text, std::string_view token) {
    const auto rest = trim(text);
    if (!rest.starts_with(token))
        return false;
    text = rest.substr(token.size());
    return true;
}

// A whole number from 1 to Scheme::max_reps, without leading zeros.
std::optional<int> take_count(std::string_view& text) {
    const auto rest = trim(text);
    int count = 0;
    if (rest.empty() || rest.front() < '1' || rest.front() > '9')
        return std::nullopt;
    const auto read = std::from_chars(rest.data(), rest.data() + rest.size(), count);
    if (read.ec != std::errc{} || count > Scheme::max_reps)
        return std::nullopt;
    text = rest.substr(static_cast<std::size_t>(read.ptr - rest.data()));
    return count;
}

bool take_rest(std::string_view& text) { return take(text, "-") || take(text, "\u2013"); }
bool take_times(std::string_view& text) { return take(text, "x") || take(text, "X") || take(text, "\u00D7"); }

} // namespace

Result<Scheme> Scheme::parse(std::string_view text) {
    Scheme scheme;
    auto left = trim(text);
    std::int64_t total = 0;
    bool after_side_change = false;
    for (;;) {
        const auto first = take_count(left);
        if (!first)
            return not_a_scheme(text);
        Run run{*first, 1, after_side_change};
        if (take_times(left)) {
            const auto reps = take_count(left);
            if (!reps)
                return not_a_scheme(text);
            run = {*reps, *first, after_side_change};
        }
        total += std::int64_t{run.reps} * run.sets;
        if (total > max_reps)
            return not_a_scheme(text);
        scheme.add(run);
        if (left.empty())
            return scheme;
        after_side_change = take(left, "/");
        if (!after_side_change && !take_rest(left))
            return not_a_scheme(text);
    }
}

Result<Scheme> Scheme::from_number(double reps) {
    if (!(reps >= 1 && reps <= max_reps && std::floor(reps) == reps)) {
        return out_of_domain("A number given as a scheme must be whole, from 1 to 999 (a cell may have read 5-4 as a "
                             "date: format it as text); got %1.",
                             reps);
    }
    Scheme scheme;
    scheme.add({static_cast<int>(reps), 1, false});
    return scheme;
}

Result<Scheme> Scheme::near_even(int reps, int sets) {
    if (reps < 1 || reps > max_reps)
        return out_of_domain("The reps must be from 1 to 999; got %1.", reps);
    if (sets < 1 || sets > reps)
        return out_of_domain("The number of sets must be 1 or more and at most the reps; got %1.", sets);
    Scheme scheme;
    const NearEven near_even{reps, sets};
    for (const auto& run : near_even.runs())
        scheme.add(run);
    return scheme;
}

void Scheme::add(Run run) {
    if (!runs_.empty() && runs_.back().reps == run.reps && !run.after_side_change) {
        runs_.back().sets += run.sets;
    } else {
        runs_.push_back(run);
    }
}

int Scheme::sets() const {
    int sets = 0;
    for (const auto& run : runs_)
        sets += run.sets;
    return sets;
}

int Scheme::reps() const {
    int reps = 0;
    for (const auto& run : runs_)
        reps += run.sets * run.reps;
    return reps;
}

int Scheme::side_changes() const {
    return static_cast<int>(
        std::count_if(runs_.begin(), runs_.end(), [](const Run& run) { return run.after_side_change; }));
}

std::string Scheme::text() const {
    std::string text;
    for (const auto& run : runs_) {
        if (!text.empty())
            text += run.after_side_change ? '/' : '-';
        const auto reps = std::to_string(run.reps);
        if (run.sets > few) {
            text += std::to_string(run.sets) + 'x' + reps;
        } else {
            for (int set = 0; set < run.sets; ++set)
                text += (set > 0 ? "-" : "") + reps;
        }
    }
    return text;
}

Result<Seconds> set_time(const Scheme& scheme, Seconds rep, Seconds rest) {
    if (!not_negative(rep.value()))
        return out_of_domain("The time for a rep must be 0 s or more; got %1.", rep.value());
    if (!not_negative(rest.value()))
        return out_of_domain("The rest must be 0 s or more; got %1.", rest.value());
    return finite(scheme.reps() * rep + scheme.rests() * rest);
}

SchemeWords scheme_words(const Scheme& scheme) {
    using Kind = SchemeWords::Kind;
    const auto& runs = scheme.runs();
    SchemeWords words{Kind::listed, runs.front(), {}, scheme.text()};
    const Run& first = words.first;
    if (runs.size() == 1) {
        if (first.reps == 1)
            words.kind = Kind::singles;
        else if (first.sets == 1)
            words.kind = Kind::unbroken;
        else if (first.sets > few)
            words.kind = Kind::equal_sets;
    } else if (runs.size() == 2 && runs[1].reps < first.reps && !runs[1].after_side_change) {
        words.second = runs[1];
        if (runs[1].reps == 1 && runs[1].sets > 1)
            words.kind = Kind::then_singles;
        else if (first.sets > few || runs[1].sets > few)
            words.kind = Kind::then_sets;
    }
    return words;
}

} // namespace pacecells
