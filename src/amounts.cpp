// Rep schemes: how a coach writes amounts that differ from round to round.
#include "pacecells/workout.h"

#include "check.h"

#include <charconv>
#include <cmath>

namespace pacecells {

namespace {

constexpr std::size_t most_listed = 100;
constexpr double most_amount = 99'999;

Error not_understood(std::string_view text) {
    return out_of_domain(
        "%1 is not an amount: write a number, a list such as 21-15-9, or 1-2-3-… for one that goes on.", quoted(text));
}

// The parts between hyphens; en dashes that autocorrection puts in count as such.
std::vector<std::string> parts_of(std::string_view text) {
    std::vector<std::string> parts{{}};
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto rest = text.substr(i);
        if (rest.starts_with("\xE2\x80\x93") || rest.starts_with("\xE2\x80\x94")) { // en and em dash
            i += 2;
            parts.emplace_back();
        } else if (rest.front() == '-') {
            parts.emplace_back();
        } else {
            parts.back() += rest.front();
        }
    }
    for (auto& part : parts)
        part = std::string(trim(part));
    return parts;
}

bool is_ellipsis(std::string_view part) { return part == "\xE2\x80\xA6" || part == "..." || part == ".."; }

std::optional<double> amount_of(std::string_view part) {
    double value = 0;
    const auto read = std::from_chars(part.data(), part.data() + part.size(), value);
    if (part.empty() || read.ptr != part.data() + part.size() || read.ec != std::errc{})
        return {};
    if (!(value >= 0 && value <= most_amount))
        return {};
    return value;
}

// 1-2-3-… and 3-6-9-… go on by their last step; 1, … alone is no list.
std::optional<double> step_of(const std::vector<double>& list) {
    if (list.size() < 2)
        return {};
    const double step = list[list.size() - 1] - list[list.size() - 2];
    for (std::size_t i = 1; i < list.size(); ++i)
        if (list[i] - list[i - 1] != step)
            return {};
    return step;
}

} // namespace

double Amounts::of_round(int round) const {
    if (list.empty() || round < 1)
        return 0;
    const auto k = static_cast<std::size_t>(round);
    if (list.size() == 1 && !open)
        return list.front();
    if (k <= list.size())
        return list[k - 1];
    return open ? list.back() + grows_by * static_cast<double>(k - list.size()) : 0;
}

std::optional<int> Amounts::rounds() const {
    if (alike() || open)
        return {};
    return static_cast<int>(list.size());
}

Result<Amounts> parse_amounts(std::string_view text) {
    const auto folded = fold_name(text);
    if (folded == "max" || folded == "max." || folded == "máx" || folded == "máx.")
        return Amounts{.list = {0}, .most = true};
    const auto parts = parts_of(trim(text));
    Amounts amounts;
    std::optional<std::size_t> gap;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (is_ellipsis(parts[i])) {
            if (gap)
                return not_understood(text);
            gap = i;
            continue;
        }
        const auto amount = amount_of(parts[i]);
        if (!amount || amounts.list.size() == most_listed)
            return not_understood(text);
        amounts.list.push_back(*amount);
    }
    if (!gap)
        return amounts;
    const bool at_end = *gap + 1 == parts.size();
    const std::vector<double> before(amounts.list.begin(), amounts.list.begin() + static_cast<std::ptrdiff_t>(*gap));
    const auto step = step_of(before);
    if (!step)
        return out_of_domain("%1 does not say how it goes on: write at least two amounts with the same step before the "
                             "dots.",
                             quoted(text));
    if (at_end) {
        if (!(*step > 0))
            return out_of_domain("%1 does not say where it ends: write the last amount after the dots.", quoted(text));
        amounts.grows_by = *step;
        amounts.open = true;
        return amounts;
    }
    if (*gap + 2 != parts.size())
        return not_understood(text);
    const double last = amounts.list.back();
    const double more = *step == 0 ? 0 : (last - before.back()) / *step;
    if (!(more >= 1) || more != std::floor(more) || more + static_cast<double>(before.size()) > most_listed)
        return out_of_domain("%1 does not meet its last amount: check the numbers.", quoted(text));
    amounts.list = before;
    for (double i = 1; i <= more; ++i)
        amounts.list.push_back(before.back() + i * *step);
    return amounts;
}

} // namespace pacecells
