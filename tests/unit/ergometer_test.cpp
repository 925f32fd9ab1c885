#include "pacecells/ergometer.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <cmath>

namespace pacecells {
namespace {

constexpr auto cal_per_hour = ErgUnit::calories_per_hour;
constexpr auto watts = ErgUnit::watts;
constexpr auto split = ErgUnit::split;

double converted(double value, ErgUnit from, ErgUnit to, Machine machine = Machine::row) {
    return value_of(convert(value, from, to, machine));
}

TEST(Ergometer, PowerFollowsThePrintedFormula) {
    const auto table = data::table("ergometer_formula");
    for (const auto& row : table.rows) {
        EXPECT_NEAR(value_of(power_at_split(Seconds{row.number("split_s")})).value(), row.number("watts"),
                    table.tolerance);
        EXPECT_NEAR(value_of(split_at_power(Watts{row.number("watts")})).value(), row.number("split_s"),
                    table.tolerance);
    }
}

TEST(Ergometer, CaloriesFollowTheMonitorsFormula) {
    const auto table = data::table("ergometer_calories");
    for (const auto& row : table.rows) {
        const double rate = row.number("cal_per_hour");
        EXPECT_NEAR(value_of(calorie_rate(Watts{row.number("watts")})).value(), rate, table.tolerance);
        EXPECT_NEAR(value_of(power(CaloriesPerHour{rate})).value(), row.number("watts"), table.tolerance);
        const double printed = (4 * row.number("watts") * 3.6 + 0.35 * 3600) / 4.2; // in an hour
        EXPECT_NEAR(value_of(calorie_rate(Watts{row.number("watts")})).value(), printed, 0.004 * printed);
    }
}

TEST(Ergometer, PowerIsThatOfMeasuredRowers) {
    const auto table = data::table("ergometer_youth_rowers");
    for (const auto& row : table.rows) {
        const Seconds mean_split{row.number("time_2000m_s") / 4};
        const double measured = row.number("watts");
        EXPECT_NEAR(value_of(power_at_split(mean_split)).value(), measured, table.tolerance * measured);
    }
}

TEST(Ergometer, PowerOverADistanceIsThatOfItsMeanSplit) {
    // The printed formula: a split of 100 s is 350 W, so 2000 m in 400 s are; on a bike 4000 m.
    const auto table = data::table("ergometer_formula");
    for (const auto& row : table.rows) {
        const double split_s = row.number("split_s");
        for (const auto machine : {Machine::row, Machine::ski, Machine::bike}) {
            const double base = machine == Machine::bike ? 1000 : 500;
            for (const double splits : {0.2, 1.0, 4.0})
                EXPECT_NEAR(value_of(power_over(Metres{splits * base}, Seconds{splits * split_s}, machine)).value(),
                            row.number("watts"), table.tolerance);
        }
    }
    const auto rowers = data::table("ergometer_youth_rowers");
    for (const auto& row : rowers.rows) {
        const double measured = row.number("watts");
        EXPECT_NEAR(value_of(power_over(Metres{2000}, Seconds{row.number("time_2000m_s")})).value(), measured,
                    rowers.tolerance * measured);
    }
    EXPECT_NEAR(value_of(power_over(Metres{1000}, Seconds{232})).value(), 2.80 / std::pow(0.232, 3), 1e-9);
    EXPECT_REFUSED(power_over(Metres{1000}, Seconds{232}, Machine::armbike));
    for (const double bad : {0.0, -1.0, infinite, not_a_number}) {
        EXPECT_REFUSED(power_over(Metres{bad}, Seconds{232}));
        EXPECT_REFUSED(power_over(Metres{1000}, Seconds{bad}));
    }
}

TEST(Ergometer, ConvertsBetweenTheThreeUnits) {
    EXPECT_NEAR(converted(1000, cal_per_hour, watts), 203.394, 0.0005);
    EXPECT_EQ(converted(100, split, watts), 350);
    EXPECT_NEAR(converted(100, split, cal_per_hour), 1504.56, 0.005);
    EXPECT_NEAR(converted(900, cal_per_hour, split), 126.15, 0.005);
    EXPECT_EQ(converted(250, watts, watts), 250);
}

TEST(Ergometer, ASplitIsTheSamePowerOnEachMachine) {
    // Ski as the rower; bike: the same watts at the same figure for 1000 m, 0.35 / p^3 (from memory).
    for (const double s : {90.0, 100.0, 150.0}) {
        EXPECT_EQ(converted(s, split, watts, Machine::ski), converted(s, split, watts, Machine::row));
        EXPECT_NEAR(converted(s, split, watts, Machine::bike), 0.35 / std::pow(s / 1000, 3), 1e-9);
    }
    EXPECT_EQ(value_of(split_distance(Machine::row)).value(), 500);
    EXPECT_EQ(value_of(split_distance(Machine::ski)).value(), 500);
    EXPECT_EQ(value_of(split_distance(Machine::bike)).value(), 1000);
}

TEST(Ergometer, TheArmBikeIsRefused) {
    EXPECT_REFUSED(convert(1000, cal_per_hour, watts, Machine::armbike));
    EXPECT_REFUSED(convert(1000, cal_per_hour, cal_per_hour, Machine::armbike));
    EXPECT_REFUSED(split_distance(Machine::armbike));
}

TEST(Ergometer, ThreeHundredCaloriesAnHourIsNoPower) {
    EXPECT_EQ(converted(300, cal_per_hour, watts), 0);
    EXPECT_EQ(converted(0, watts, cal_per_hour), 300);
    EXPECT_UNSOLVABLE(convert(300, cal_per_hour, split));
    EXPECT_UNSOLVABLE(convert(0, watts, split));
    EXPECT_REFUSED(convert(299.999, cal_per_hour, watts));
    EXPECT_REFUSED(convert(299.999, cal_per_hour, cal_per_hour));
}

TEST(Ergometer, RefusesWhatCannotBeMeant) {
    for (const auto from : {cal_per_hour, watts, split}) {
        for (const auto to : {cal_per_hour, watts, split}) {
            for (const double value : {-1.0, -1e300, infinite, -infinite, not_a_number}) {
                EXPECT_REFUSED(convert(value, from, to)) << value;
            }
        }
    }
    EXPECT_REFUSED(convert(0, split, watts));
    EXPECT_REFUSED(convert(1e-200, split, watts)) << "more power than a number can hold";
    EXPECT_REFUSED(convert(1e308, watts, cal_per_hour));
    EXPECT_REFUSED(convert(5e-324, watts, split));
}

TEST(Ergometer, ConvertingThereAndBackChangesNothing) {
    Random random;
    for (int i = 0; i < 10000; ++i) {
        const double rate = random.between(301, 4000);
        const double seconds = random.between(60, 300);
        ASSERT_NEAR(converted(converted(rate, cal_per_hour, split), split, cal_per_hour), rate, 1e-9 * rate);
        ASSERT_NEAR(converted(converted(seconds, split, watts), watts, split), seconds, 1e-12 * seconds);
        ASSERT_GT(converted(seconds, split, watts), converted(seconds + 0.1, split, watts)) << "faster is more power";
    }
}

TEST(Ergometer, CaloriesTakeTheirTime) {
    EXPECT_EQ(value_of(time_for(Kilocalories{15}, CaloriesPerHour{1000})).value(), 54);
    EXPECT_EQ(value_of(time_for(Kilocalories{15}, CaloriesPerHour{1000}, Seconds{3})).value(), 57);
    EXPECT_EQ(value_of(rate_for(Kilocalories{20}, Seconds{60})).value(), 1200);
    EXPECT_EQ(value_of(rate_for(Kilocalories{20}, Seconds{64}, Seconds{4})).value(), 1200);
    EXPECT_EQ(value_of(calories_by(Seconds{54}, CaloriesPerHour{1000})).value(), 15);
    EXPECT_EQ(value_of(time_for(Kilocalories{1}, CaloriesPerHour{100})).value(), 36) << "any positive rate";
}

TEST(Ergometer, NothingCountsDuringTheSpinUp) {
    const CaloriesPerHour rate{1200};
    EXPECT_EQ(value_of(calories_by(Seconds{0}, rate)).value(), 0);
    EXPECT_EQ(value_of(calories_by(Seconds{3}, rate, Seconds{4})).value(), 0);
    EXPECT_EQ(value_of(calories_by(Seconds{4}, rate, Seconds{4})).value(), 0);
    EXPECT_EQ(value_of(calories_by(Seconds{7}, rate, Seconds{4})).value(), 1);
    EXPECT_UNSOLVABLE(rate_for(Kilocalories{20}, Seconds{4}, Seconds{4}));
    EXPECT_UNSOLVABLE(rate_for(Kilocalories{20}, Seconds{4}, Seconds{5}));
    EXPECT_UNSOLVABLE(rate_for(Kilocalories{20}, Seconds{0.1 + 0.2}, Seconds{0.3})) << "5e-17 s is no room";
}

TEST(Ergometer, TimeRateAndCaloriesUndoEachOther) {
    Random random;
    for (int i = 0; i < 10000; ++i) {
        const Kilocalories calories{random.between(1, 100)};
        const CaloriesPerHour rate{random.between(200, 3000)};
        const Seconds spin_up{random.between(0, 10)};
        const auto time = value_of(time_for(calories, rate, spin_up));
        ASSERT_NEAR(value_of(rate_for(calories, time, spin_up)).value(), rate.value(), 1e-9 * rate.value());
        ASSERT_NEAR(value_of(calories_by(time, rate, spin_up)).value(), calories.value(), 1e-9);
    }
}

TEST(Ergometer, ArithmeticRefusesWhatCannotBeMeant) {
    for (const double bad : {-1.0, infinite, -infinite, not_a_number}) {
        EXPECT_REFUSED(time_for(Kilocalories{bad}, CaloriesPerHour{1000}));
        EXPECT_REFUSED(time_for(Kilocalories{15}, CaloriesPerHour{bad}));
        EXPECT_REFUSED(time_for(Kilocalories{15}, CaloriesPerHour{1000}, Seconds{bad}));
        EXPECT_REFUSED(rate_for(Kilocalories{bad}, Seconds{60}));
        EXPECT_REFUSED(rate_for(Kilocalories{15}, Seconds{bad}));
        EXPECT_REFUSED(rate_for(Kilocalories{15}, Seconds{60}, Seconds{bad}));
        EXPECT_REFUSED(calories_by(Seconds{bad}, CaloriesPerHour{1000}));
        EXPECT_REFUSED(calories_by(Seconds{60}, CaloriesPerHour{bad}));
        EXPECT_REFUSED(calories_by(Seconds{60}, CaloriesPerHour{1000}, Seconds{bad}));
    }
    EXPECT_REFUSED(time_for(Kilocalories{0}, CaloriesPerHour{1000})) << "no calories are no task";
    EXPECT_REFUSED(time_for(Kilocalories{15}, CaloriesPerHour{0}));
    EXPECT_REFUSED(rate_for(Kilocalories{15}, Seconds{0}));
    EXPECT_REFUSED(time_for(Kilocalories{1e300}, CaloriesPerHour{1e-300}));
    EXPECT_REFUSED(rate_for(Kilocalories{1e308}, Seconds{1e-3}));
    EXPECT_REFUSED(calories_by(Seconds{1e308}, CaloriesPerHour{1e308}));
}

TEST(Ergometer, NamesOfMachinesAndUnits) {
    EXPECT_EQ(value_of(parse_machine(" ROW ")), Machine::row);
    EXPECT_EQ(value_of(parse_machine("ski")), Machine::ski);
    EXPECT_EQ(value_of(parse_machine("Bike")), Machine::bike);
    EXPECT_EQ(value_of(parse_machine("armbike")), Machine::armbike);
    EXPECT_EQ(value_of(parse_erg_unit("Cal/H")), cal_per_hour);
    EXPECT_EQ(value_of(parse_erg_unit("w")), watts);
    EXPECT_EQ(value_of(parse_erg_unit(" split")), split);
    for (const char* text : {"", "rower", "arm bike", "cal", "kW", "split/500m", "r\u00F6w"}) {
        EXPECT_REFUSED(parse_machine(text));
        EXPECT_REFUSED(parse_erg_unit(text));
    }
}

} // namespace
} // namespace pacecells
