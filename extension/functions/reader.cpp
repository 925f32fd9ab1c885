#include "reader.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <charconv>
#include <cmath>
#include <limits>

namespace pacecells {

namespace {

// A blank cell counts as 0, as everywhere in the office; text is not a number.
Result<double> number_in(const Cell& cell) {
    if (const auto* error = std::get_if<Error>(&cell))
        return *error;
    if (const auto* text = std::get_if<std::string>(&cell))
        return out_of_domain("needs a number, got the text %1.", quoted(*text));
    if (const auto* number = std::get_if<double>(&cell); number && !std::isfinite(*number))
        return out_of_domain("needs a number, got %1.", *number);
    const auto* number = std::get_if<double>(&cell);
    return number ? *number : 0.0;
}

template <class T, class ReadOne>
Result<std::vector<std::optional<T>>> line(const RawCells& range, ReadOne read_one) {
    if (range.rows > 1 && range.columns > 1)
        return out_of_domain("takes one column or one row of cells.");
    std::vector<std::optional<T>> values;
    values.reserve(range.cells.size());
    for (const auto& cell : range.cells) {
        if (is_blank(cell)) {
            values.emplace_back();
            continue;
        }
        auto value = read_one(cell);
        if (!value)
            return value.error();
        values.emplace_back(*value);
    }
    return values;
}

} // namespace

bool is_blank(const Cell& cell) {
    if (std::holds_alternative<Blank>(cell))
        return true;
    const auto* text = std::get_if<std::string>(&cell);
    return text && trim(*text).empty();
}

namespace detail {

Result<Seconds> read_time(const Cell& cell, int below_minutes, bool zero_allowed) {
    Seconds time{0};
    if (const auto* text = std::get_if<std::string>(&cell)) {
        auto parsed = parse_clock(*text);
        if (!parsed)
            return parsed.error();
        time = *parsed;
    } else {
        auto number = number_in(cell);
        if (!number)
            return number.error();
        time = Seconds{*number * seconds_a_day};
    }
    if (time < Seconds{0})
        return out_of_domain("needs a time that is not negative.");
    if (time == Seconds{0} && !zero_allowed)
        return out_of_domain("needs a time above 0:00.");
    if (!(time.value() < below_minutes * 60.0)) {
        if (below_minutes >= 120)
            return out_of_domain("needs a time below %1 hours: in a cell without a minutes format, 2:30 typed means "
                                 "two and a half hours.",
                                 below_minutes / 60);
        return out_of_domain(
            "needs a time below %1 minutes: in a cell without a minutes format, 2:30 typed means two and a half hours.",
            below_minutes);
    }
    return time;
}

static std::optional<Error> above(int most, double value) {
    if (!(value > most))
        return std::nullopt;
    return out_of_domain("needs a number up to %1, got %2: nobody can mean more.", most, value);
}

Result<double> number_up_to(int most, const Cell& cell) {
    const auto number = Read<Number>::from(cell);
    if (!number)
        return number.error();
    if (auto error = above(most, number->value))
        return *std::move(error);
    return number->value;
}

Result<int> whole_up_to(int most, const Cell& cell) {
    const auto number = Read<Whole>::from(cell);
    if (!number)
        return number.error();
    if (auto error = above(most, number->value))
        return *std::move(error);
    return number->value;
}

Result<NumberOrText> number_up_to_or_text(int most, const Cell& cell) {
    auto given = Read<NumberOrText>::from(cell);
    if (!given)
        return given;
    if (const auto* text = std::get_if<std::string>(&given->value))
        if (const auto number = plain_number(*text))
            given->value = *number;
    if (const auto* number = std::get_if<double>(&given->value))
        if (auto error = above(most, *number))
            return *std::move(error);
    return given;
}

Result<Numbers> numbers_up_to(int most, const RawCells& range) {
    auto numbers = Read<Numbers>::from(range);
    if (numbers)
        for (const auto& number : numbers->values)
            if (number)
                if (auto error = above(most, *number))
                    return *std::move(error);
    return numbers;
}

} // namespace detail

Result<DayTime> Read<DayTime>::from(const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    if (!text) {
        auto number = number_in(cell);
        if (!number)
            return number.error();
        if (*number < 0)
            return out_of_domain("needs a time of day, and it is negative.");
        return DayTime{*number};
    }
    // "9:00" or "9:00:30", hours first.
    int parts[3] = {0, 0, 0};
    int count = 0;
    const char* at = text->data();
    const char* const end = at + text->size();
    while (at != end && *at == ' ')
        ++at;
    while (count < 3) {
        const auto [next, problem] = std::from_chars(at, end, parts[count]);
        if (problem != std::errc{} || next - at > 2 || *at == '-')
            break;
        ++count;
        at = next;
        if (at == end || *at != ':')
            break;
        ++at;
    }
    while (at != end && *at == ' ')
        ++at;
    if (count < 2 || at != end || parts[0] > 23 || parts[1] > 59 || parts[2] > 59 || text->back() == ':')
        return out_of_domain("needs a time of day such as \"9:00\", got the text %1.", quoted(*text));
    return DayTime{(parts[0] * 3600.0 + parts[1] * 60.0 + parts[2]) / seconds_a_day};
}

// A person may type 2:30 where plain seconds are due: such a Calc time is below an hour. Between that and the shortest
// time of one rep nobody can tell what is meant.
Result<PlainSeconds> Read<PlainSeconds>::from(const Cell& cell) {
    constexpr double hour = 1.0 / 24;
    constexpr double shortest_rep = 0.17;
    if (std::holds_alternative<std::string>(cell)) {
        auto time = detail::read_time(cell, 60, true);
        if (!time)
            return time.error();
        return PlainSeconds{*time};
    }
    auto number = number_in(cell);
    if (!number)
        return number.error();
    if (*number < 0)
        return out_of_domain("needs seconds, at least 0, got %1.", *number);
    if (*number > 0 && *number < hour)
        return PlainSeconds{Seconds{*number * seconds_a_day}};
    if (*number >= hour && *number < shortest_rep)
        return out_of_domain("needs a plain number of seconds such as 2.5, but this looks like a time of day.");
    if (auto error = detail::above(most_plain_seconds, *number))
        return *std::move(error);
    return PlainSeconds{Seconds{*number}};
}

Result<Number> Read<Number>::from(const Cell& cell) {
    auto number = number_in(cell);
    if (!number)
        return number.error();
    return Number{*number};
}

Result<Whole> Read<Whole>::from(const Cell& cell) {
    auto number = number_in(cell);
    if (!number)
        return number.error();
    const double nearest = std::round(*number);
    if (!(std::abs(*number - nearest) <= 1e-9))
        return out_of_domain("needs a whole number, got %1.", *number);
    if (!(std::abs(nearest) <= std::numeric_limits<int>::max()))
        return out_of_domain("needs a smaller number, got %1.", *number);
    return Whole{static_cast<int>(nearest)};
}

Result<Text> Read<Text>::from(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return Text{*text};
    if (const auto* number = std::get_if<double>(&cell))
        return out_of_domain("needs a text, got %1.", *number);
    if (const auto* error = std::get_if<Error>(&cell))
        return *error;
    return out_of_domain("needs a text, and the cell is blank.");
}

Result<NumberOrText> Read<NumberOrText>::from(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return NumberOrText{*text};
    auto number = number_in(cell);
    if (!number)
        return number.error();
    return NumberOrText{*number};
}

Result<Numbers> Read<Numbers>::from(const RawCells& range) {
    auto values = line<double>(range, number_in);
    if (!values)
        return values.error();
    return Numbers{*std::move(values)};
}

Result<Times> Read<Times>::from(const RawCells& range) {
    auto values = line<Seconds>(range, [](const Cell& cell) { return detail::read_time(cell, 240, true); });
    if (!values)
        return values.error();
    return Times{*std::move(values)};
}

Result<std::vector<Seconds>> clocks_in(const Times& times) {
    std::vector<Seconds> clocks;
    bool ended = false;
    for (const auto& time : times.values) {
        if (!time) {
            ended = true;
            continue;
        }
        if (ended)
            return out_of_domain("The clocks have a blank cell between them.");
        clocks.push_back(*time);
    }
    return clocks;
}

} // namespace pacecells
