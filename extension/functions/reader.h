// From cells to typed arguments: every rule about what may stand in a cell has its one place here.
//
// A cell function takes parameters of the types below; read<T>() turns an Argument into one of them or says, in a
// sentence, what it got and what it needs. The limits on times exist to catch "2:30" typed into an unformatted cell,
// where the office reads two and a half hours.
#pragma once

#include "cells.h"

#include "pacecells/quantity.h"

#include <optional>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

namespace pacecells {

inline constexpr double seconds_a_day = 86400;

// --- single values -----------------------------------------------------------------------------------------------

// A Calc time (a share of a day) or text such as "2:30", below a limit.
template <int below_minutes, bool zero_allowed>
struct TimeArgument {
    Seconds value;
};
using AnyTime = TimeArgument<240, true>;   // a clock reading
using Duration = TimeArgument<240, false>; // a cap, a time taken
using ShortTime = TimeArgument<60, false>; // a round time, a known time
using SplitTime = TimeArgument<10, false>; // a split

// A time of the day, "9:00" in text being nine hours; it may carry a date.
struct DayTime {
    double days;
};

// A plain number of seconds, at least 0 and at most 4 h; a Calc time in the wrong place is caught.
inline constexpr int most_plain_seconds = 14'400;
struct PlainSeconds {
    Seconds value;
};

struct Number {
    double value;
};

struct Whole {
    int value;
};

// A number or a whole number that nobody can mean above a bound: a date or a stray power of ten is refused. The bounds
// are judgement, far above what people do.
template <int most>
struct NumberUpTo {
    static constexpr int bound = most;
    double value;
};
template <int most>
struct WholeUpTo {
    int value;
};
using CalorieNumber = NumberUpTo<10'000>;
using RateNumber = NumberUpTo<5'000>;      // cal/h
using PowerNumber = NumberUpTo<3'000>;     // W
using ReserveNumber = NumberUpTo<100'000>; // J
using CountNumber = NumberUpTo<9'999>;     // reps and rounds, decimal
using Count = WholeUpTo<9'999>;            // reps and rounds, whole
using LoadNumber = NumberUpTo<1'000>;
using DistanceNumber = NumberUpTo<100'000>; // m
using FactorNumber = NumberUpTo<100>;       // what something is multiplied by
using ErrorNumber = NumberUpTo<1>;          // a standard deviation, as a share

struct Text {
    std::string value;
};

// A text that the model reads: one of its options, such as a unit.
template <auto parse>
struct Option {
    typename decltype(parse({}))::value_type value;
};

// A number or text, to be judged by the function itself (a score, a goal, a scheme).
struct NumberOrText {
    std::variant<double, std::string> value;
};

// Blank where it is left out.
[[nodiscard]] inline Cell as_cell(const std::optional<NumberOrText>& typed) {
    return typed ? std::visit([](const auto& value) { return Cell{value}; }, typed->value) : Cell{Blank{}};
}

// The same where a number has a bound: reps or rounds, or a score in text. A text that is a number and no more, as a cell
// formatted as text keeps it, is that number.
template <int most>
struct NumberUpToOrText : NumberOrText {};
using CountOrText = NumberUpToOrText<9'999>;
using CaloriesOrText = NumberUpToOrText<10'000>;

// --- ranges ------------------------------------------------------------------------------------------------------

// One column or row of numbers, blanks kept.
struct Numbers {
    std::vector<std::optional<double>> values;
};

// The same where each has a bound.
template <int most>
struct NumbersUpTo : Numbers {};
using Counts = NumbersUpTo<9'999>;
using Powers = NumbersUpTo<3'000>;

// One column or row of Calc times or time texts in seconds, blanks kept.
struct Times {
    std::vector<std::optional<Seconds>> values;
};

// The cells as they are, for functions that judge them one by one. A view: the argument outlives it.
struct RawCells {
    int rows;
    int columns;
    std::span<const Cell> cells;

    [[nodiscard]] const Cell& at(int row, int column) const {
        return cells[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                     static_cast<std::size_t>(column)];
    }
};

template <class T>
inline constexpr bool takes_range =
    std::is_same_v<T, Numbers> || std::is_same_v<T, Times> || std::is_same_v<T, RawCells>;
template <int most>
inline constexpr bool takes_range<NumbersUpTo<most>> = true;

// A parameter of type AreaPointer takes a range as an object; the office refuses everything else.
template <class T>
inline constexpr bool takes_area = std::is_same_v<T, AreaPointer>;

// --- reading -----------------------------------------------------------------------------------------------------

namespace detail {
[[nodiscard]] Result<Seconds> read_time(const Cell& cell, int below_minutes, bool zero_allowed);
} // namespace detail

// Nothing in it: an empty cell of a range, or spaces.
[[nodiscard]] bool is_blank(const Cell& cell);

template <class T>
struct Read;

template <int below_minutes, bool zero_allowed>
struct Read<TimeArgument<below_minutes, zero_allowed>> {
    static Result<TimeArgument<below_minutes, zero_allowed>> from(const Cell& cell) {
        auto time = detail::read_time(cell, below_minutes, zero_allowed);
        if (!time)
            return time.error();
        return TimeArgument<below_minutes, zero_allowed>{*time};
    }
};
template <>
struct Read<DayTime> {
    static Result<DayTime> from(const Cell& cell);
};
template <>
struct Read<PlainSeconds> {
    static Result<PlainSeconds> from(const Cell& cell);
};
template <>
struct Read<Number> {
    static Result<Number> from(const Cell& cell);
};
template <>
struct Read<Whole> {
    static Result<Whole> from(const Cell& cell);
};
// One body each for all bounds.
namespace detail {
[[nodiscard]] Result<double> number_up_to(int most, const Cell& cell);
[[nodiscard]] Result<int> whole_up_to(int most, const Cell& cell);
[[nodiscard]] Result<NumberOrText> number_up_to_or_text(int most, const Cell& cell);
[[nodiscard]] Result<Numbers> numbers_up_to(int most, const RawCells& range);
} // namespace detail

template <int most>
struct Read<NumberUpTo<most>> {
    static Result<NumberUpTo<most>> from(const Cell& cell) {
        const auto number = detail::number_up_to(most, cell);
        if (!number)
            return number.error();
        return NumberUpTo<most>{*number};
    }
};
template <int most>
struct Read<WholeUpTo<most>> {
    static Result<WholeUpTo<most>> from(const Cell& cell) {
        const auto number = detail::whole_up_to(most, cell);
        if (!number)
            return number.error();
        return WholeUpTo<most>{*number};
    }
};
template <>
struct Read<Text> {
    static Result<Text> from(const Cell& cell);
};
template <auto parse>
struct Read<Option<parse>> {
    static Result<Option<parse>> from(const Cell& cell) {
        const auto text = Read<Text>::from(cell);
        if (!text)
            return text.error();
        auto option = parse(text->value);
        if (!option)
            return option.error();
        return Option<parse>{*std::move(option)};
    }
};
template <>
struct Read<NumberOrText> {
    static Result<NumberOrText> from(const Cell& cell);
};
template <int most>
struct Read<NumberUpToOrText<most>> {
    static Result<NumberUpToOrText<most>> from(const Cell& cell) {
        auto given = detail::number_up_to_or_text(most, cell);
        if (!given)
            return given.error();
        return NumberUpToOrText<most>{*std::move(given)};
    }
};
template <>
struct Read<Numbers> {
    static Result<Numbers> from(const RawCells& range);
};
template <int most>
struct Read<NumbersUpTo<most>> {
    static Result<NumbersUpTo<most>> from(const RawCells& range) {
        auto numbers = detail::numbers_up_to(most, range);
        if (!numbers)
            return numbers.error();
        return NumbersUpTo<most>{*std::move(numbers)};
    }
};
template <>
struct Read<Times> {
    static Result<Times> from(const RawCells& range);
};
// The clocks of the rounds done: blanks after the last are rounds to come; one between two is refused.
[[nodiscard]] Result<std::vector<Seconds>> clocks_in(const Times& times);
template <>
struct Read<RawCells> {
    static Result<RawCells> from(const RawCells& range) { return range; }
};

template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {
    using Inner = T;
};

// The one way in. An omitted optional argument is nullopt; a required one left out is refused; several cells where one
// value is due are refused; a one-cell range is that value, and a single value is a one-cell range.
template <class T>
[[nodiscard]] Result<T> read(const Argument& argument) {
    if constexpr (IsOptional<T>::value) {
        if (std::holds_alternative<Omitted>(argument))
            return T{};
        auto inner = read<typename IsOptional<T>::Inner>(argument);
        if (!inner)
            return inner.error();
        return T{*std::move(inner)};
    } else {
        if (std::holds_alternative<Omitted>(argument))
            return out_of_domain("is needed and was left out.");
        if (const auto* cell = std::get_if<Cell>(&argument))
            if (const auto* error = std::get_if<Error>(cell))
                return *error;
        if constexpr (takes_area<T>) {
            const auto* area = std::get_if<AreaPointer>(&argument);
            if (!area)
                return out_of_domain("takes a range of cells.");
            return *area;
        } else if (std::holds_alternative<AreaPointer>(argument)) {
            return out_of_domain("takes values, not a range as an object.");
        } else if constexpr (takes_range<T>) {
            if (const auto* cell = std::get_if<Cell>(&argument))
                return Read<T>::from(RawCells{1, 1, {cell, 1}});
            const auto& range = *std::get_if<Range>(&argument);
            return Read<T>::from(RawCells{range.rows, range.columns, range.cells});
        } else {
            if (const auto* cell = std::get_if<Cell>(&argument))
                return Read<T>::from(*cell);
            const auto& range = *std::get_if<Range>(&argument);
            if (!range.single())
                return out_of_domain("takes one value, but has several cells.");
            return Read<T>::from(range.cells.front());
        }
    }
}

} // namespace pacecells
