#include "pacecells/clock.h"

#include "expect.h"
#include "random.h"

#include <cmath>

namespace pacecells {
namespace {

double seconds_of(std::string_view text) { return value_of(parse_clock(text)).value(); }
std::string text_of(double seconds, int decimals = 0) { return value_of(clock_text(Seconds{seconds}, decimals)); }

TEST(Clock, ReadsMinutesAndSeconds) {
    EXPECT_EQ(seconds_of("2:30"), 150);
    EXPECT_EQ(seconds_of("0:05"), 5);
    EXPECT_EQ(seconds_of("00:00"), 0);
    EXPECT_EQ(seconds_of("90:00"), 5400) << "minutes may pass 60 where no hours stand before them";
    EXPECT_EQ(seconds_of("  2:30 "), 150);
}

TEST(Clock, ReadsHours) {
    EXPECT_EQ(seconds_of("1:02:30"), 3750);
    EXPECT_EQ(seconds_of("0:20:00"), 1200);
    EXPECT_EQ(seconds_of("12:00:00"), 43200);
}

TEST(Clock, ReadsDecimalsWithPointOrComma) {
    EXPECT_EQ(seconds_of("2:30.5"), 150.5);
    EXPECT_EQ(seconds_of("2:30,5"), 150.5);
    EXPECT_EQ(seconds_of("1:02:30.25"), 3750.25);
    EXPECT_EQ(seconds_of("0:59.999"), 59.999);
}

TEST(Clock, RefusesWhatIsNoTime) {
    for (const char* text : {"",
                             " ",
                             ":",
                             "::",
                             "2",
                             "230",
                             "2.5",
                             "2,5",
                             ":30",
                             "2:",
                             "2:5",
                             "2:300",
                             "1:2:30",
                             "1:02:3",
                             "1:02:03:04",
                             "2:60",
                             "2:99",
                             "1:60:00",
                             "-2:30",
                             "+2:30",
                             "2:-3",
                             "2:30.",
                             "2:30.5.5",
                             "2:30.5,5",
                             "2:30:",
                             "2 :30",
                             "2: 30",
                             "2:30s",
                             "2:3O",
                             "0x2:30",
                             "1e2:30",
                             "nan",
                             "inf:00",
                             "2:30 min",
                             "2.5:30",
                             "\u0662:\u0663\u0660",
                             "2\uFF1A30",
                             "\u22122:30",
                             "2:30\u20195",
                             "99999999999999999999999999999999999:00",
                             "2:30.00000000000000000000000000000000"}) {
        EXPECT_REFUSED(parse_clock(text)) << text;
    }
    EXPECT_REFUSED(parse_clock(std::string(1'000'000, '9') + ":00"));
    EXPECT_REFUSED(parse_clock(std::string_view{"2:30\0", 5})) << "not even with a null behind it";
}

TEST(Clock, WritesAsTheGymClockShows) {
    EXPECT_EQ(text_of(150), "2:30");
    EXPECT_EQ(text_of(3750), "1:02:30");
    EXPECT_EQ(text_of(0), "0:00");
    EXPECT_EQ(text_of(-0.0), "0:00");
    EXPECT_EQ(text_of(9), "0:09");
    EXPECT_EQ(text_of(150.25, 3), "2:30.250");
    EXPECT_EQ(text_of(60.05, 2), "1:00.05");
    EXPECT_EQ(text_of(360000), "100:00:00");
}

TEST(Clock, RoundsHalfUpAndCarries) {
    EXPECT_EQ(text_of(59.96, 1), "1:00.0");
    EXPECT_EQ(text_of(59.94, 1), "0:59.9");
    EXPECT_EQ(text_of(3599.5), "1:00:00");
    EXPECT_EQ(text_of(3599.4), "59:59");
    EXPECT_EQ(text_of(0.0005, 3), "0:00.001");
    EXPECT_EQ(text_of(7199.9995, 3), "2:00:00.000");
}

TEST(Clock, RoundsHalfUpWhateverTheBinaryForm) {
    // A cell holds 5.5 s as a fraction of a day, which may come back a trace below it.
    for (int half = 1; half < 20000; half += 2) {
        const double through_a_cell = half / 2.0 / 86400 * 86400;
        const double below = std::nextafter(half / 2.0, 0);
        const auto expected = text_of((half + 1) / 2);
        ASSERT_EQ(text_of(through_a_cell), expected);
        ASSERT_EQ(text_of(below), expected);
    }
    EXPECT_EQ(text_of(1.005, 2), "0:01.01") << "in binary 1.005 is a trace below";
}

TEST(Clock, RefusesWhatNoClockShows) {
    for (const double seconds : {-1.0, -1e-9, 1.1e9, 1e300, infinite, -infinite, not_a_number}) {
        EXPECT_REFUSED(clock_text(Seconds{seconds})) << seconds;
    }
    for (const int decimals : {-1, 4, 1000, std::numeric_limits<int>::min(), std::numeric_limits<int>::max()}) {
        EXPECT_REFUSED(clock_text(Seconds{1}, decimals)) << decimals;
    }
}

TEST(Clock, ReadsBackWhatItWrites) {
    Random random;
    for (int i = 0; i < 20000; ++i) {
        const int decimals = random.whole(0, 3);
        const double seconds = random.between(0, i % 2 == 0 ? 600 : 40000);
        const auto text = text_of(seconds, decimals);
        ASSERT_NEAR(seconds_of(text), seconds, 0.5 * std::pow(10, -decimals) + 1e-6) << text;
        ASSERT_EQ(text_of(seconds_of(text), decimals), text);
    }
}

TEST(Clock, LongerTimesNeverReadShorter) {
    Random random;
    for (int i = 0; i < 5000; ++i) {
        const double a = random.between(0, 8000);
        const double b = a + random.between(0, 2);
        ASSERT_LE(seconds_of(text_of(a, 1)), seconds_of(text_of(b, 1))) << a << ' ' << b;
    }
}

} // namespace
} // namespace pacecells
