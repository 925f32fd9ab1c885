// What a computation gives back: a value, or an error that says in a coach's words what was got and what is needed.
//
// Shaped after std::expected (C++23). Nothing in the model throws; the three kinds are the three ways in which a
// cell can stay without a number.
#pragma once

#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>

namespace pacecells {

enum class ErrorKind {
    out_of_domain, // the argument cannot be meant: Err:502 in a cell
    no_solution,   // the question has no answer: Err:523
    not_available, // the answer is not known yet: #N/A
};

struct Error {
    ErrorKind kind;
    std::string message; // a sentence: what was got, what is needed
};

[[nodiscard]] inline Error out_of_domain(std::string message) { return {ErrorKind::out_of_domain, std::move(message)}; }
[[nodiscard]] inline Error no_solution(std::string message) { return {ErrorKind::no_solution, std::move(message)}; }
[[nodiscard]] inline Error not_available(std::string message) { return {ErrorKind::not_available, std::move(message)}; }

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
