// What the tests of the model say about a result.
#pragma once

#include "pacecells/result.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

// Numbers that no function may take for a plausible one.
inline constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
inline constexpr double infinite = std::numeric_limits<double>::infinity();

// The value of a result; a failed test with the message where there is none.
template <class T>
T value_of(const pacecells::Result<T>& result) {
    if (!result)
        throw std::runtime_error{"no value: " + result.error().message()};
    return *result;
}

template <class T>
testing::AssertionResult has_error(const pacecells::Result<T>& result, pacecells::ErrorKind kind) {
    if (result)
        return testing::AssertionFailure() << "got a value";
    const auto& error = result.error();
    if (error.kind != kind)
        return testing::AssertionFailure() << "got another kind of error: " << error.message();
    const auto message = error.message();
    if (message.size() < 20 || !(message.ends_with('.') || message.ends_with('?')))
        return testing::AssertionFailure() << "not a sentence: " << message;
    return testing::AssertionSuccess();
}

#define EXPECT_REFUSED(result) EXPECT_TRUE(has_error(result, pacecells::ErrorKind::out_of_domain))
#define EXPECT_UNSOLVABLE(result) EXPECT_TRUE(has_error(result, pacecells::ErrorKind::no_solution))
