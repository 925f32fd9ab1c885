// Numbers that know their unit, so that seconds are never added to watts.
//
// Construction from a double is explicit, arithmetic stays inside one unit, and every conversion is a named
// function of the subject it belongs to (see ergometer.h). A quantity is a double and costs no more than one.
#pragma once

#include <compare>

namespace pacecells {

template <class Tag>
class Quantity {
  public:
    constexpr Quantity() = default;
    constexpr explicit Quantity(double value) : value_(value) {}

    [[nodiscard]] constexpr double value() const { return value_; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.value_ + b.value_}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.value_ - b.value_}; }
    friend constexpr Quantity operator-(Quantity a) { return Quantity{-a.value_}; }
    friend constexpr Quantity operator*(Quantity a, double k) { return Quantity{a.value_ * k}; }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity{k * a.value_}; }
    friend constexpr Quantity operator/(Quantity a, double k) { return Quantity{a.value_ / k}; }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
    constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
    constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

  private:
    double value_ = 0;
};

using Seconds = Quantity<struct SecondsTag>;
using Metres = Quantity<struct MetresTag>;
using Watts = Quantity<struct WattsTag>;
using Joules = Quantity<struct JoulesTag>;
using Kilocalories = Quantity<struct KilocaloriesTag>;       // what a monitor calls a calorie
using CaloriesPerHour = Quantity<struct CaloriesPerHourTag>; // kilocalories an hour as a monitor shows them
using Reps = Quantity<struct RepsTag>;                       // may be decimal: reps in hand, reps projected

} // namespace pacecells
