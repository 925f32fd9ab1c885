// What a computation gives back: a value, or an error that says in a coach's words what was got and what is needed.
//
// Shaped after std::expected (C++23). Nothing in the model throws; the three kinds are the three ways in which a
// cell can stay without a number.
#pragma once

#include "pacecells/text.h"

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace pacecells {

enum class ErrorKind {
    out_of_domain, // the argument cannot be meant: Err:502 in a cell
    no_solution,   // the question has no answer: Err:523
    not_available, // the answer is not known yet: #N/A
};

// A cell of one of the tables that a plan is read from; whoever shows it knows its address.
struct Place {
    enum class Table : std::uint8_t { workout, tests, keys, athlete };
    Table table = Table::workout;
    std::size_t row = 0; // from 0, inside the table
    std::size_t column = 0;
    friend bool operator==(const Place&, const Place&) = default;
};

// What stands at a place of a sentence: a number, written as the reader's language does, text that stays, or a cell.
using Told = std::variant<double, std::string, Place>;

[[nodiscard]] std::string told_text(const Told& told); // in English; a cell by its row and column from 1

// The text of a sentence, with %1, %2 … where what was got will stand; as many as are given, or it does not compile.
// It is always a literal, so whoever shows it can look for its translation.
template <std::size_t places>
class Sentence {
  public:
    consteval Sentence(const char* text) : text_(text) {
        std::size_t highest = 0;
        for (const char* at = text; *at != '\0'; ++at)
            if (at[0] == '%' && at[1] >= '1' && at[1] <= '9')
                highest = std::max(highest, static_cast<std::size_t>(at[1] - '0'));
        if (highest != places)
            throw "as many values as places are needed";
    }
    [[nodiscard]] constexpr std::string_view text() const { return text_; }

  private:
    std::string_view text_;
};

struct Error {
    ErrorKind kind;
    int argument = -1; // which one of a cell function is refused, from 0, where it is one
    std::string_view sentence;
    std::vector<Told> told;

    [[nodiscard]] std::string message() const; // in English
};

namespace detail {

[[nodiscard]] Told told(std::integral auto number) { return static_cast<double>(number); }
[[nodiscard]] inline Told told(double number) { return number; }
[[nodiscard]] inline Told told(std::string text) { return text; }
[[nodiscard]] inline Told told(Place place) { return place; }

} // namespace detail

// A sentence with what stands at its places: what an error says, but about a thing that is no error.
struct Said {
    std::string_view sentence;
    std::vector<Told> told;

    [[nodiscard]] std::string message() const; // in English
    friend bool operator==(const Said&, const Said&) = default;
};

template <class... Values>
[[nodiscard]] Said say(std::type_identity_t<Sentence<sizeof...(Values)>> sentence, Values... values) {
    return {sentence.text(), {detail::told(std::move(values))...}};
}

template <class... Values>
[[nodiscard]] Error out_of_domain(std::type_identity_t<Sentence<sizeof...(Values)>> sentence, Values... values) {
    return {ErrorKind::out_of_domain, -1, sentence.text(), {detail::told(std::move(values))...}};
}
template <class... Values>
[[nodiscard]] Error no_solution(std::type_identity_t<Sentence<sizeof...(Values)>> sentence, Values... values) {
    return {ErrorKind::no_solution, -1, sentence.text(), {detail::told(std::move(values))...}};
}
template <class... Values>
[[nodiscard]] Error not_available(std::type_identity_t<Sentence<sizeof...(Values)>> sentence, Values... values) {
    return {ErrorKind::not_available, -1, sentence.text(), {detail::told(std::move(values))...}};
}

template <class T>
class [[nodiscard]] Result {
  public:
    using value_type = T;

    // Version 14 of clang-format does not know constraints.
    // clang-format off
    template <class U = T>
        requires(std::is_constructible_v<T, U &&> && !std::is_same_v<std::remove_cvref_t<U>, Error> &&
                 !std::is_same_v<std::remove_cvref_t<U>, Result>)
    Result(U&& value) : state_(std::in_place_index<0>, std::forward<U>(value)) {}
    // clang-format on
    Result(Error error) : state_(std::in_place_index<1>, std::move(error)) {}

    [[nodiscard]] bool has_value() const { return state_.index() == 0; }
    explicit operator bool() const { return has_value(); }

    // Precondition of the next four: has_value().
    [[nodiscard]] const T& operator*() const& { return *std::get_if<0>(&state_); }
    [[nodiscard]] T&& operator*() && { return std::move(*std::get_if<0>(&state_)); }
    [[nodiscard]] const T* operator->() const { return std::get_if<0>(&state_); }
    [[nodiscard]] T* operator->() { return std::get_if<0>(&state_); }

    // Precondition: !has_value().
    [[nodiscard]] const Error& error() const { return *std::get_if<1>(&state_); }

  private:
    std::variant<T, Error> state_;
};

} // namespace pacecells
