#include "pacecells/test_entry.h"

#include "logbook_kit.h"

#include <cmath>
#include <vector>

namespace pacecells {
namespace {

using namespace logbook;

std::string refusal(const TestCells& cells) {
    const auto read = read_test(cells, today);
    return read ? "taken" : read.error().message();
}

TEST(TestRow, IsReadAsItIsWritten) {
    auto cells = on_machine("2026-05-04", "Skigerät", "7:45"); // in any language
    cells.metres = 2000.0;
    cells.damper = 4.0;
    const auto ski = value_of(read_test(cells, today));
    EXPECT_EQ(ski.machine, Machine::ski);
    EXPECT_EQ(ski.kind, TestKind::metres);
    EXPECT_EQ(ski.time, Seconds{465});
    EXPECT_EQ(ski.damper, "4");
    EXPECT_EQ(result_text(ski), "2000 m, 7:45");
    cells.time = 465.0 / 86400; // a time of the sheet
    EXPECT_EQ(value_of(read_test(cells, today)).time, Seconds{465});

    EXPECT_EQ(result_text(calories("2026-05-04", 153, "10:00")), "153 cal, 10:00");
    EXPECT_EQ(result_text(longest("2026-05-04", "Ring rows", 22)), "22");
    EXPECT_EQ(result_text(load("2026-05-04", "Front squat", 60, 5)), "5 × 60 kg");
    EXPECT_EQ(result_text(load("2026-05-04", "Front squat", 72.5, 1)), "72.5 kg");
}

TEST(TestRow, IsWorthItsPower) {
    EXPECT_NEAR(value_of(power_of(metres("2026-05-04", 1000, "3:52"))).value(), 224.23, 0.005) << "as ergometer.h says";
    EXPECT_NEAR(value_of(power_of(calories("2026-05-04", 15, "0:54"))).value(), 203.394, 0.0005) << "1000 cal/h";
    EXPECT_EQ(value_of(power_of(watts("2026-05-04", 250, "10:00"))).value(), 250);
    EXPECT_NEAR(value_of(power_of(calories("2026-05-04", 100, "6:00", "Fan bike"))).value(), 1000, 1e-9)
        << "calories per hour stand for it";
    EXPECT_NEAR(maximum_of(load("2026-05-04", "Deadlift", 100, 5)), 116.667, 0.0005) << "by Epley, as loads.h says";
    EXPECT_EQ(maximum_of(load("2026-05-04", "Deadlift", 120, 1)), 120);
}

TEST(TestRow, OfTheFutureIsRefused) {
    auto cells = on_machine("2026-06-02", "Rower", "10:00");
    cells.calories = 150.0;
    EXPECT_EQ(refusal(cells), "The date 2026-06-02 is in the future. When was this test done?");
    cells.date = today;
    EXPECT_EQ(refusal(cells), "taken") << "of today";
    cells.date = today + 0.9;
    EXPECT_EQ(refusal(cells), "taken") << "of this evening";
    cells.date = 36525.0;
    EXPECT_EQ(refusal(cells), "The date 1999-12-31 is before the year 2000.");
    cells.date = "last week";
    EXPECT_EQ(refusal(cells), "The date \"last week\" cannot be read: write it such as 2026-03-14.");
    cells.date = {};
    EXPECT_EQ(refusal(cells), "This test has no date.");
}

TEST(TestRow, AboveWhatTheBestHoldIsRefused) {
    auto cells = on_machine("2026-05-04", "Rower", "10:00");
    cells.watts = 900.0;
    EXPECT_EQ(refusal(cells),
              "900 W for 10:00 is more than the best in the world hold, about 530 W. Is the unit right?");
    cells = on_machine("2026-05-04", "Fan bike", "1:00");
    cells.calories = 101.0;
    EXPECT_EQ(refusal(cells), "6060 cal/h on the fan bike is more than anybody holds. Is the unit right?");
    cells.calories = 100.0;
    EXPECT_EQ(refusal(cells), "taken");
}

TEST(TestRow, IsTakenUpToItsBoundsAndRefusedBeyond) {
    const auto machine = [](TableCell TestCells::*amount, double value, const std::string& time,
                            const std::string& what = "Rower") {
        auto cells = on_machine("2026-05-04", what, time);
        cells.*amount = value;
        return refusal(cells);
    };
    const auto cannot = [](const std::string& said) { return said.find("cannot be meant") != std::string::npos; };
    EXPECT_EQ(machine(&TestCells::calories, 1, "0:20", "Fan bike"), "taken");
    EXPECT_TRUE(cannot(machine(&TestCells::calories, 0.9, "0:20", "Fan bike")));
    EXPECT_EQ(machine(&TestCells::calories, 5000, "4:00:00"), "taken");
    EXPECT_TRUE(cannot(machine(&TestCells::calories, 5001, "4:00:00")));
    EXPECT_EQ(machine(&TestCells::metres, 50, "0:20"), "taken");
    EXPECT_TRUE(cannot(machine(&TestCells::metres, 49.9, "0:20")));
    EXPECT_EQ(machine(&TestCells::metres, 50'000, "4:00:00"), "taken");
    EXPECT_TRUE(cannot(machine(&TestCells::metres, 50'001, "4:00:00")));
    EXPECT_EQ(machine(&TestCells::watts, 20, "10:00"), "taken");
    EXPECT_TRUE(cannot(machine(&TestCells::watts, 19.9, "10:00")));
    EXPECT_TRUE(cannot(machine(&TestCells::watts, 1501, "0:20")));
    EXPECT_TRUE(cannot(machine(&TestCells::watts, 100, "0:19")));
    EXPECT_TRUE(cannot(machine(&TestCells::watts, 100, "4:00:01")));
    const auto movement = [](TestCells cells, TableCell TestCells::*part, double value) {
        cells.*part = value;
        return refusal(cells);
    };
    auto set = TestCells{};
    set.name = "Mara";
    set.date = today;
    set.what = "Ring rows";
    struct Bounds {
        TableCell TestCells::*part;
        double too_low, lowest, highest, too_high;
    };
    for (const auto& one :
         {Bounds{&TestCells::reps, 0, 1, 999, 1000}, Bounds{&TestCells::load, 0.9, 1, 999, 999.1},
          Bounds{&TestCells::rep_s, 0.16, 0.17, 600, 600.1}, Bounds{&TestCells::recovery, 0.29, 0.3, 3, 3.01}}) {
        EXPECT_EQ(movement(set, one.part, one.lowest), "taken") << one.lowest;
        EXPECT_EQ(movement(set, one.part, one.highest), "taken") << one.highest;
        EXPECT_TRUE(cannot(movement(set, one.part, one.too_low))) << one.too_low;
        EXPECT_TRUE(cannot(movement(set, one.part, one.too_high))) << one.too_high;
    }
    set.load = 60.0;
    EXPECT_EQ(movement(set, &TestCells::reps, 10), "taken");
    EXPECT_NE(movement(set, &TestCells::reps, 11).find("1 to 10"), std::string::npos);
    set.load = {};
    set.reps = 20.0;
    set.rest_s = 60.0;
    EXPECT_EQ(movement(set, &TestCells::second, 19), "taken");
    EXPECT_EQ(movement(set, &TestCells::second, 1), "taken");
    EXPECT_NE(movement(set, &TestCells::second, 20), "taken");
    EXPECT_NE(movement(set, &TestCells::second, 0), "taken");
    set.second = 10.0;
    EXPECT_EQ(movement(set, &TestCells::rest_s, 1), "taken");
    EXPECT_EQ(movement(set, &TestCells::rest_s, 600), "taken");
    EXPECT_NE(movement(set, &TestCells::rest_s, 0.9), "taken");
    EXPECT_NE(movement(set, &TestCells::rest_s, 600.1), "taken");
    auto fitted = on_machine("2026-05-04", "Rower", "");
    fitted.time = {};
    fitted.reserve = 500.0;
    for (const auto& [value, good] : {std::pair{19.9, false}, {20.0, true}, {479.0, true}, {480.0, false}})
        EXPECT_EQ(movement(fitted, &TestCells::critical, value) == "taken", good) << value;
    fitted.critical = 200.0;
    for (const auto& [value, good] : {std::pair{499.0, false}, {80'000.0, true}, {80'001.0, false}})
        EXPECT_EQ(movement(fitted, &TestCells::reserve, value) == "taken", good) << value;
    auto first = on_machine("2026-05-04", "Rower", "10:00");
    first.watts = 200.0;
    first.date = 36526.0;
    EXPECT_EQ(refusal(first), "taken") << "the first day of 2000";
    first.date = today + 1;
    EXPECT_NE(refusal(first), "taken") << "tomorrow";
}

TEST(TestRow, SaysWhatIsMissingOrTooMuch) {
    auto cells = on_machine("2026-05-04", "Rower", "10:00");
    EXPECT_EQ(refusal(cells), "This test has no result.");
    cells.metres = 2600.0;
    cells.calories = 150.0;
    EXPECT_EQ(refusal(cells), "This row has two results, 150 and 2600: write one test per row.");
    cells.calories = "  ";
    cells.time = {};
    EXPECT_EQ(refusal(cells), "This test needs its time, such as 10:00.");
    cells.time = "10";
    EXPECT_EQ(refusal(cells), "The time \"10\" cannot be meant: a test lasts 0:20 to 4:00:00. Write it such as 10:00.");
    cells.time = 0.0;
    EXPECT_EQ(refusal(cells), "The time 0:00 cannot be meant: a test lasts 0:20 to 4:00:00. Write it such as 10:00.");
    cells.time = "0:19";
    EXPECT_EQ(refusal(cells), "The time 0:19 cannot be meant: a test lasts 0:20 to 4:00:00. Write it such as 10:00.");
    cells.time = "10:00";
    cells.name = " ";
    EXPECT_EQ(refusal(cells), "This test has no name: whose is it?");
    cells.name = "Mara Lindqvarn";
    cells.what = {};
    EXPECT_EQ(refusal(cells), "This test does not say what was tested: choose a machine, or write a movement.");
    cells.what = "Ring rows";
    EXPECT_EQ(refusal(cells), "Ring rows is not a machine: its test is a longest set, or a load with reps.");
    cells.what = "Fan bike";
    EXPECT_EQ(refusal(cells), "On the fan bike a test is calories in a time: its metres and watts are its own.");
    cells.what = "Rower";
    cells.metres = 49.0;
    EXPECT_EQ(refusal(cells), "The result \"49\" cannot be meant: a number from 50 to 50000 is needed.");
    cells.metres = "2600 m";
    EXPECT_EQ(refusal(cells), "The result \"2600 m\" cannot be meant: a number from 50 to 50000 is needed.");
    cells.metres = {};
    cells.reps = 20.0;
    EXPECT_EQ(refusal(cells), "Rower is a machine: its test is calories, metres or watts in a time.");
}

TEST(TestRow, OfAMovement) {
    auto cells = of_movement("2026-05-04", "Front squat");
    cells.load = 60.0;
    cells.reps = 11.0;
    EXPECT_EQ(refusal(cells), "The reps with a load are 1 to 10: beyond that a load says little about the maximum.");
    cells.reps = 10.0;
    EXPECT_EQ(refusal(cells), "taken");
    cells.reps = {};
    EXPECT_EQ(value_of(read_test(cells, today)).reps, 1) << "one, where it is not said";
    cells.time = "1:00";
    EXPECT_EQ(refusal(cells), "Front squat is not a machine: its test is a longest set, or a load with reps.");
    cells = of_movement("2026-05-04", "Ring rows");
    EXPECT_EQ(refusal(cells), "This test has no result.");
    cells.reps = 20.5;
    EXPECT_EQ(refusal(cells), "The result \"20.5\" cannot be meant: a number from 1 to 999 is needed.");
    cells.reps = 20.0;
    cells.second = 20.0;
    EXPECT_EQ(refusal(cells), "The second set is 1 rep or more, and fewer than the 20 of the first.");
    cells.second = 12.0;
    EXPECT_EQ(refusal(cells), "A second set needs the rest before it, 1 to 600 seconds.");
    cells.rest_s = 60.0;
    const auto pair = value_of(read_test(cells, today));
    EXPECT_EQ(pair.second, Reps{12});
    EXPECT_EQ(pair.rest, Seconds{60});
    cells.load = 10.0;
    EXPECT_EQ(refusal(cells), "The reps with a load are 1 to 10: beyond that a load says little about the maximum.");
    cells.reps = 10.0;
    EXPECT_EQ(refusal(cells), "A second set belongs to a longest set.");
}

TEST(TestRow, MayHoldWhatIsKnownWithoutATest) {
    auto cells = on_machine("2026-05-04", "Rower", "");
    cells.critical = 210.0;
    EXPECT_EQ(refusal(cells), "Critical power and reserve belong together: one of them is missing.");
    cells.reserve = 15'000.0;
    EXPECT_EQ(result_text(value_of(read_test(cells, today))), "210 W, 15000 J");
    cells.calories = 150.0;
    EXPECT_EQ(refusal(cells), "This test needs its time, such as 10:00.");
    cells = of_movement("2026-05-04", "Ring rows");
    cells.rep_s = 2.5;
    EXPECT_EQ(result_text(value_of(read_test(cells, today))), "2.5 s");
}

TEST(TestRow, NamesMachinesAsTheGymDoes) {
    const std::vector<MachineName> names{{"The red one", Machine::bike}};
    auto cells = on_machine("2026-05-04", "the RED one", "10:00");
    cells.watts = 200.0;
    EXPECT_EQ(value_of(read_test(cells, today, names)).machine, Machine::bike);
    EXPECT_EQ(refusal(cells), "the RED one is not a machine: its test is a longest set, or a load with reps.");
}

TEST(TestRow, SaysAtOnceWhatItMeans) {
    auto rower = on_machine("2026-05-04", "Rower", "10:00");
    const auto nothing = value_of(meaning_of(rower, today));
    EXPECT_FALSE(nothing.rate || nothing.power || nothing.split || nothing.maximum) << "a time alone is no result";
    rower.calories = 165.0;
    rower.date = {};
    const auto meaning = value_of(meaning_of(rower, today));
    EXPECT_NEAR(meaning.rate->value(), 990, 1e-9);
    EXPECT_NEAR(meaning.power->value(), 690 / (4 * 0.8604), 1e-9);
    EXPECT_NEAR(meaning.split->value(), 500 * std::cbrt(2.8 / (690 / (4 * 0.8604))), 1e-9) << "Dudhia's formula";
    rower.calories = 400.0;
    EXPECT_FALSE(meaning_of(rower, today)) << "2400 cal/h for 10:00 is beyond belief";
    rower.metres = 2500.0;
    EXPECT_FALSE(meaning_of(rower, today)) << "two results in one row";

    auto fan = on_machine("2026-05-04", "The fat one", "10:00");
    fan.calories = 150.0;
    const std::vector<MachineName> machines{{"the fat one", Machine::armbike}};
    const auto of_fan = value_of(meaning_of(fan, today, machines));
    EXPECT_NEAR(of_fan.rate->value(), 900, 1e-9);
    EXPECT_FALSE(of_fan.power || of_fan.split) << "its calories follow no formula of power";

    TestCells lift;
    lift.name = "Mara Lindqvarn";
    lift.what = "Deadlift";
    lift.load = 60.0;
    lift.reps = 5.0;
    EXPECT_NEAR(*value_of(meaning_of(lift, today)).maximum, 70, 1e-9) << "Epley 1985";
    lift.load = {};
    EXPECT_FALSE(value_of(meaning_of(lift, today)).maximum) << "a longest set speaks for itself";
}

TEST(TestRow, ThatIsThereAlreadyIsRefused) {
    const std::vector<TestEntry> there{metres("2026-05-04", 2000, "7:45"), longest("2026-05-04", "Ring rows", 22)};
    const auto again = [&](TestEntry test) {
        const auto error = refused_as_there(test, there);
        return error ? error->message() : "taken";
    };
    auto row = there[0];
    row.name = "  mara LINDQVARN";
    EXPECT_EQ(again(row), "This test is there already: 2000 m, 7:45 on 2026-05-04.");
    EXPECT_EQ(again(longest("2026-05-04", "ring  ROWS", 22)), "This test is there already: 22 on 2026-05-04.");
    EXPECT_EQ(again(metres("2026-05-05", 2000, "7:45")), "taken") << "another day";
    EXPECT_EQ(again(metres("2026-05-04", 2000, "7:44")), "taken") << "another time";
    EXPECT_EQ(again(metres("2026-05-04", 2000, "7:45", "Ski ergometer")), "taken") << "another machine";
    row.name = "Teo Osterby";
    EXPECT_EQ(again(row), "taken") << "another person";
}

TEST(Day, IsWrittenTheSameEverywhere) {
    EXPECT_EQ(date_text(46095), "2026-03-14");
    EXPECT_EQ(date_text(46095.7), "2026-03-14");
    EXPECT_EQ(date_text(60), "1900-02-28") << "the office's calendar knows no 29 February 1900";
    EXPECT_EQ(date_text(-1), "-1");
    EXPECT_EQ(date_text(1e12), "1e+12");
}

} // namespace
} // namespace pacecells
