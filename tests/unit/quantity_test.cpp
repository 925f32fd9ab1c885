// Units cannot be mixed up: that misuse does not compile is checked here, when this file compiles.
#include "pacecells/quantity.h"
#include "pacecells/result.h"

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace pacecells {
namespace {

template <class A, class B>
concept can_add = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept can_compare = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept can_multiply = requires(A a, B b) {
    a* b;
};

static_assert(can_add<Seconds, Seconds>);
static_assert(!can_add<Seconds, Watts>, "seconds are not watts");
static_assert(!can_add<Seconds, double>, "a plain number has no unit");
static_assert(can_compare<Reps, Reps>);
static_assert(!can_compare<Reps, Seconds>);
static_assert(can_multiply<Seconds, double> && can_multiply<double, Seconds>);
static_assert(!can_multiply<Watts, Seconds>, "work is made by a named function");
static_assert(!std::convertible_to<double, Seconds>, "a unit is written out");
static_assert(!std::convertible_to<Seconds, double>);
static_assert(!std::constructible_from<Seconds, Metres>);
static_assert(!std::assignable_from<CaloriesPerHour&, Kilocalories>);
static_assert(std::same_as<decltype(Seconds{6} / Seconds{2}), double>, "a ratio has no unit");
static_assert(sizeof(Seconds) == sizeof(double) && std::is_trivially_copyable_v<Seconds>);
static_assert(!std::constructible_from<Result<Seconds>, Watts>);

TEST(Quantity, AddsAndScalesWithinOneUnit) {
    Seconds total = Seconds{90} + Seconds{30} - Seconds{20};
    total += Seconds{10};
    total -= Seconds{5};
    EXPECT_EQ((2 * total / 3).value(), 70);
    EXPECT_EQ(-Seconds{3} * 2, Seconds{-6});
    EXPECT_EQ(Seconds{150} / Seconds{60}, 2.5);
}

TEST(Result, HoldsAValueOrAnError) {
    const Result<Seconds> good = Seconds{5};
    ASSERT_TRUE(good);
    EXPECT_EQ(good->value(), 5);
    const Result<Seconds> bad = no_solution("No time is left.");
    ASSERT_FALSE(bad);
    EXPECT_EQ(bad.error().kind, ErrorKind::no_solution);
    EXPECT_EQ(bad.error().message(), "No time is left.");
}

} // namespace
} // namespace pacecells
