// From a C++ function to a row of the catalog: arity, optional parameters, kind of answer and the array form follow
// from the function's type.
#pragma once

#include "catalog.h"
#include "reader.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <tuple>
#include <utility>

namespace pacecells {

// --- answers -----------------------------------------------------------------------------------------------------

[[nodiscard]] inline Cell to_cell(double value) {
    if (!std::isfinite(value))
        return out_of_domain("These numbers are too large or too small to compute with.");
    return value;
}
[[nodiscard]] inline Cell to_cell(int value) { return static_cast<double>(value); }
[[nodiscard]] inline Cell to_cell(Seconds time) { return to_cell(time.value() / seconds_a_day); } // a Calc time
template <class Tag>
[[nodiscard]] Cell to_cell(Quantity<Tag> quantity) {
    return to_cell(quantity.value());
}
[[nodiscard]] inline Cell to_cell(std::string text) { return text; }
template <class T>
[[nodiscard]] Cell to_cell(const std::optional<T>& value) {
    return value ? to_cell(*value) : Cell{Blank{}};
}
template <class T>
[[nodiscard]] Cell to_cell(Result<T> result) {
    return result ? to_cell(*std::move(result)) : Cell{result.error()};
}

template <class T>
[[nodiscard]] Answer to_answer(Result<T> result) {
    if (!result)
        return Cell{result.error()};
    if constexpr (std::is_same_v<T, Range> || std::is_same_v<T, Answer> || std::is_same_v<T, Cell>)
        return Answer{*std::move(result)};
    else
        return to_cell(*std::move(result));
}

template <class T>
inline constexpr Kind kind_of = Kind::number;
template <>
inline constexpr Kind kind_of<Seconds> = Kind::time;
template <class T>
inline constexpr Kind kind_of<std::optional<T>> = kind_of<T>;
template <>
inline constexpr Kind kind_of<std::string> = Kind::text;
template <>
inline constexpr Kind kind_of<Range> = Kind::array;
template <>
inline constexpr Kind kind_of<Answer> = Kind::array;

// --- calling -----------------------------------------------------------------------------------------------------

namespace detail {

// "needs a number": the name of the argument goes before it. Another sentence is whole.
[[nodiscard]] inline Error about(std::size_t argument, Error error) {
    const char first = error.sentence.front();
    if (first >= 'a' && first <= 'z')
        error.argument = static_cast<int>(argument);
    return error;
}

template <class... P>
[[nodiscard]] std::optional<Error> first_error(std::size_t first, const std::tuple<Result<P>...>& values) {
    std::optional<Error> error;
    std::size_t index = first;
    const auto look = [&](const auto& value) {
        if (!value && !error)
            error = about(index, value.error());
        ++index;
    };
    std::apply([&](const auto&... value) { (look(value), ...); }, values);
    return error;
}

template <auto function, class R, class First, class... Rest, std::size_t... I>
[[nodiscard]] Answer call(std::span<const Argument> arguments, Result<R> (*)(First, Rest...),
                          std::index_sequence<I...>) {
    std::tuple<Result<Rest>...> rest{read<Rest>(arguments[I + 1])...};
    const auto refused = first_error(1, rest);

    // Where the first argument is one value and a range is given, the answer is an array of its shape.
    if constexpr (!takes_range<First> && !takes_area<First> && kind_of<R> != Kind::array) {
        if (const auto* range = std::get_if<Range>(&arguments[0]); range && !range->single()) {
            Range out{range->rows, range->columns, {}};
            out.cells.reserve(range->cells.size());
            for (const auto& cell : range->cells) {
                if (std::holds_alternative<Blank>(cell)) {
                    out.cells.emplace_back(Blank{});
                } else if (refused) {
                    out.cells.emplace_back(*refused);
                } else if (auto first = Read<First>::from(cell)) {
                    out.cells.push_back(to_cell(function(*std::move(first), *std::get<I>(rest)...)));
                } else {
                    out.cells.emplace_back(about(0, first.error()));
                }
            }
            return out;
        }
    }
    auto first = read<First>(arguments[0]);
    if (!first)
        return Cell{about(0, first.error())};
    if (refused)
        return Cell{*refused};
    return to_answer(function(*std::move(first), *std::move(std::get<I>(rest))...));
}

// The office takes a quarter of an hour to show a column of a million texts, and stands still meanwhile.
[[nodiscard]] inline Answer not_too_long(Answer answer) {
    constexpr std::ptrdiff_t most_texts = 100'000;
    const auto* range = std::get_if<Range>(&answer);
    if (!range || std::ssize(range->cells) <= most_texts)
        return answer;
    const auto texts = std::ranges::count_if(range->cells, [](const Cell& cell) {
        return std::holds_alternative<Blank>(cell) || std::holds_alternative<std::string>(cell);
    });
    if (texts <= most_texts)
        return answer;
    return Cell{out_of_domain("The answer would be %1 texts, and Calc can show %2 at most: choose a shorter range.",
                              texts, most_texts)};
}

template <auto function>
[[nodiscard]] Answer evaluate(std::span<const Argument> arguments) {
    return []<class R, class First, class... Rest>(std::span<const Argument> a, Result<R> (*type)(First, Rest...)) {
        return not_too_long(call<function>(a, type, std::index_sequence_for<Rest...>{}));
    }(arguments, function);
}

template <class R, class... P>
constexpr std::size_t arity(Result<R> (*)(P...)) {
    return sizeof...(P);
}
template <class R, class... P>
constexpr Kind kind(Result<R> (*)(P...)) {
    return kind_of<R>;
}
template <class R, class... P>
constexpr std::array<bool, sizeof...(P)> optionals(Result<R> (*)(P...)) {
    return {IsOptional<P>::value...};
}
template <class T>
inline constexpr bool is_time = false;
template <int below_minutes, bool zero_allowed>
inline constexpr bool is_time<TimeArgument<below_minutes, zero_allowed>> = true;
template <class T>
inline constexpr bool is_time<std::optional<T>> = is_time<T>;

template <class R, class... P>
constexpr std::array<bool, sizeof...(P)> times(Result<R> (*)(P...)) {
    return {is_time<P>...};
}

template <class R, class... P>
constexpr std::array<bool, sizeof...(P)> areas(Result<R> (*)(P...)) {
    return {takes_area<P>...};
}

template <class T>
inline constexpr int bound = 0;
template <int most>
inline constexpr int bound<NumberUpTo<most>> = most;
template <int most>
inline constexpr int bound<WholeUpTo<most>> = most;
template <int most>
inline constexpr int bound<NumberUpToOrText<most>> = most;
template <int most>
inline constexpr int bound<NumbersUpTo<most>> = most;
template <>
inline constexpr int bound<PlainSeconds> = most_plain_seconds;
template <class T>
inline constexpr int bound<std::optional<T>> = bound<T>;

template <class R, class... P>
constexpr std::array<int, sizeof...(P)> bounds(Result<R> (*)(P...)) {
    return {bound<P>...};
}

} // namespace detail

// A row; a missing parameter text does not compile.
template <auto function, std::size_t N>
[[nodiscard]] constexpr Row row(std::string_view method, std::string_view name, std::string_view description,
                                const Parameter (&parameters)[N], std::string_view domain, std::string_view source,
                                Example example) {
    static_assert(N == detail::arity(function), "one text for each parameter");
    static_assert(N <= Row::most_parameters);
    Row result{method, name, description, domain, source, example, detail::kind(function), N, {}, nullptr};
    constexpr auto optionals = detail::optionals(function);
    constexpr auto times = detail::times(function);
    constexpr auto areas = detail::areas(function);
    constexpr auto bounds = detail::bounds(function);
    for (std::size_t i = 0; i < N; ++i) {
        result.storage[i] = parameters[i];
        result.storage[i].optional = optionals[i];
        result.storage[i].time = times[i];
        result.storage[i].area = areas[i];
        result.storage[i].most = bounds[i];
    }
    result.evaluate = &detail::evaluate<function>;
    return result;
}

} // namespace pacecells
