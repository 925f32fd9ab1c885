// The one list of cell functions. Everything that knows them is made from it: the interface, the registration, the
// wizard's texts, the help pages, the table in the README and the test that evaluates every example.
#pragma once

#include "cells.h"

#include "pacecells/quantity.h"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace pacecells {

// What a parameter that is left out is taken as: a number (seconds for a time), or a word.
struct Default {
    constexpr Default() = default;
    constexpr Default(int value) : number{static_cast<double>(value)} {} // implicit, so that a row is a plain list
    constexpr Default(double value) : number{value} {}
    constexpr Default(Seconds value) : number{value.value()} {}
    constexpr Default(const char* value) : word{value} {}

    std::optional<double> number;
    std::string_view word;
};

struct Parameter {
    std::string_view name;        // as shown: critical_W
    std::string_view description; // one sentence for the function wizard, without the default
    Default left_out{};           // none: the description says what then happens
    bool optional = false;        // this and the rest follow from the C++ parameter
    bool time = false;            // a Calc time
    bool area = false;            // a range as an object
    int most = 0;                 // refused above it; 0: no bound of the parameter's own
};

struct Example {
    std::string_view arguments; // as typed, with ; between them and | between the rows of an inline array
    std::string_view answer;    // as read: 203.394, 2:15 or 3-3-3; the first one where the answer is an array
};

enum class Kind { number, time, text, array };

struct Row {
    static constexpr std::size_t most_parameters = 12;

    std::string_view method;      // in the interface and in files; never changes once released
    std::string_view name;        // what is typed
    std::string_view description; // one or two sentences
    std::string_view domain;      // what is refused, and what has no answer
    std::string_view source;      // where the formula comes from
    Example example;
    Kind kind = Kind::number;
    std::size_t arity = 0;
    std::array<Parameter, most_parameters> storage{};
    Answer (*evaluate)(std::span<const Argument> arguments) = nullptr;

    [[nodiscard]] constexpr std::span<const Parameter> parameters() const { return {storage.data(), arity}; }
    [[nodiscard]] constexpr std::string_view family() const { return name.substr(0, name.find('.')); }
};

[[nodiscard]] std::span<const Row> catalog();

// The row of a method as files hold it (letter case aside), or nullptr.
[[nodiscard]] const Row* find_method(std::string_view method);

} // namespace pacecells
