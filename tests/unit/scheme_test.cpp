#include "pacecells/scheme.h"

#include "expect.h"
#include "random.h"

#include <algorithm>
#include <limits>
#include <string>
#include <utility>

namespace pacecells {
namespace {

Scheme scheme(std::string_view text) { return value_of(Scheme::parse(text)); }
std::string near_even(int reps, int sets) { return value_of(Scheme::near_even(reps, sets)).text(); }

TEST(Scheme, ReadsEveryWrittenForm) {
    EXPECT_EQ(scheme("9").sets(), 1);
    EXPECT_EQ(scheme("5-4").sets(), 2);
    EXPECT_EQ(scheme("3-3-3").reps(), 9);
    EXPECT_EQ(scheme("3-2/3-2").sets(), 4);
    EXPECT_EQ(scheme("3-2/3-2").rests(), 2) << "no rest at the change of sides";
    EXPECT_EQ(scheme("4x2"), scheme("2-2-2-2"));
    EXPECT_EQ(scheme("9x1").sets(), 9);
    EXPECT_EQ(scheme("9x1").reps(), 9);
    EXPECT_EQ(scheme("4x2-1-1-1"), scheme("2-2-2-2-3x1"));
    EXPECT_EQ(scheme("1x5"), scheme("5"));
    EXPECT_EQ(scheme("2x3/2x3").rests(), 2);
}

TEST(Scheme, SpacesCaseAndAutocorrectionDoNotMatter) {
    EXPECT_EQ(scheme("  5 - 4 "), scheme("5-4"));
    EXPECT_EQ(scheme("4 X 2 - 1"), scheme("4x2-1"));
    EXPECT_EQ(scheme("5 \u2013 4"), scheme("5-4"));
    EXPECT_EQ(scheme("4\u00D72"), scheme("4x2"));
    EXPECT_EQ(scheme("3-2 / 3-2"), scheme("3-2/3-2"));
}

TEST(Scheme, WritesRunsOfFourOrMoreShort) {
    EXPECT_EQ(scheme("3-3-3").text(), "3-3-3");
    EXPECT_EQ(scheme("2-2-2-2").text(), "4x2");
    EXPECT_EQ(scheme("2-2-2-2-1-1-1").text(), "4x2-1-1-1");
    EXPECT_EQ(scheme("2-2-1-1-1-1-1").text(), "2-2-5x1");
    EXPECT_EQ(scheme("3x4").text(), "4-4-4");
    EXPECT_EQ(scheme("2-2/2-2").text(), "2-2/2-2") << "a change of sides is no rest, so this is no run of four";
    EXPECT_EQ(scheme("1-1-1-1/1-1-1-1-1").text(), "4x1/5x1");
    EXPECT_EQ(scheme("2x2-2x2").text(), "4x2");
}

TEST(Scheme, RefusesWhatIsNoScheme) {
    for (const char* text : {"",
                             " ",
                             "-",
                             "/",
                             "x",
                             "5-",
                             "-5",
                             "5--4",
                             "5/",
                             "/5",
                             "5//4",
                             "5-/4",
                             "0",
                             "0-5",
                             "5-0",
                             "0x5",
                             "5x0",
                             "x5",
                             "5x",
                             "5x2x3",
                             "5.5",
                             "5,4",
                             "5 4",
                             "5+4",
                             "3-2\\3-2",
                             "a",
                             "5-a",
                             "5-4 reps",
                             "1e2",
                             "+5",
                             "5*2",
                             "1000",
                             "999-1",
                             "5000x2",
                             "100x100",
                             "99999999999999999999",
                             "2x99999999999999999999",
                             "2147483648",
                             "4294967297x1",
                             "\u0665-4",
                             "5-4-",
                             "5\u20144",
                             "2026-05-04",
                             "nan"}) {
        EXPECT_REFUSED(Scheme::parse(text)) << text;
    }
    std::string many = "1";
    for (int i = 0; i < 200'000; ++i)
        many += "-1";
    EXPECT_REFUSED(Scheme::parse(many));
    EXPECT_REFUSED(Scheme::parse(std::string_view{"5\0-4", 4}));
}

TEST(Scheme, ANumberIsWholeAndBelowAThousand) {
    EXPECT_EQ(value_of(Scheme::from_number(9)), scheme("9"));
    EXPECT_EQ(value_of(Scheme::from_number(1)), scheme("1"));
    EXPECT_EQ(value_of(Scheme::from_number(999)).reps(), 999);
    for (const double bad : {0.0, -1.0, 0.5, 9.5, 1000.0, 46146.0, 1e300, infinite, -infinite, not_a_number}) {
        EXPECT_REFUSED(Scheme::from_number(bad)) << bad;
    }
}

TEST(Scheme, NearEvenDescends) {
    EXPECT_EQ(near_even(20, 3), "7-7-6");
    EXPECT_EQ(near_even(10, 3), "4-3-3");
    EXPECT_EQ(near_even(9, 1), "9");
    EXPECT_EQ(near_even(9, 3), "3-3-3");
    EXPECT_EQ(near_even(9, 9), "9x1");
    EXPECT_EQ(near_even(9, 7), "2-2-5x1");
    EXPECT_EQ(near_even(999, 999), "999x1");
    constexpr int least = std::numeric_limits<int>::min();
    constexpr int most = std::numeric_limits<int>::max();
    for (const auto& [reps, sets] :
         {std::pair{0, 1}, {9, 0}, {9, 10}, {-9, 1}, {9, -1}, {1000, 1}, {most, most}, {least, least}, {most, 1}}) {
        EXPECT_REFUSED(Scheme::near_even(reps, sets)) << reps << ' ' << sets;
    }
}

TEST(Scheme, NearEvenSetsDifferByOneAtMostAndAddUp) {
    for (int reps = 1; reps <= 120; ++reps) {
        for (int sets = 1; sets <= reps; ++sets) {
            const auto even = value_of(Scheme::near_even(reps, sets));
            ASSERT_EQ(even.reps(), reps);
            ASSERT_EQ(even.sets(), sets);
            ASSERT_EQ(even.rests(), sets - 1);
            ASSERT_LE(even.runs().front().reps - even.runs().back().reps, 1);
            ASSERT_GE(even.runs().front().reps, even.runs().back().reps);
            ASSERT_EQ(scheme(even.text()), even) << even.text();
        }
    }
}

TEST(Scheme, ReadsBackWhatItWrites) {
    Random random;
    for (int i = 0; i < 5000; ++i) {
        std::string written;
        int reps = 0;
        int sets = 0;
        const int parts = random.whole(1, 8);
        for (int part = 0; part < parts; ++part) {
            if (part > 0)
                written += random.whole(0, 3) == 0 ? '/' : '-';
            const int each = random.whole(1, 4);
            const int times = random.whole(0, 6);
            written += times > 0 ? std::to_string(times) + 'x' + std::to_string(each) : std::to_string(each);
            reps += each * std::max(times, 1);
            sets += std::max(times, 1);
        }
        const auto read = scheme(written);
        ASSERT_EQ(read.reps(), reps) << written;
        ASSERT_EQ(read.sets(), sets) << written;
        ASSERT_EQ(read.side_changes(), std::count(written.begin(), written.end(), '/')) << written;
        ASSERT_EQ(scheme(read.text()), read) << written;
        ASSERT_LE(read.text().size(), 4 * static_cast<std::size_t>(sets)) << written;
    }
}

TEST(Sets, TimeCountsARestAtEveryDash) {
    const auto time = [](std::string_view text) {
        return value_of(set_time(scheme(text), Seconds{2}, Seconds{5})).value();
    };
    EXPECT_EQ(time("9"), 18);
    EXPECT_EQ(time("3-3-3"), 28);
    EXPECT_EQ(time("3-2/3-2"), 30);
    EXPECT_EQ(time("9x1"), 58);
    EXPECT_EQ(value_of(set_time(scheme("9"), Seconds{0}, Seconds{0})).value(), 0);
    for (const double bad : {-1.0, infinite, not_a_number}) {
        EXPECT_REFUSED(set_time(scheme("9"), Seconds{bad}, Seconds{5}));
        EXPECT_REFUSED(set_time(scheme("9"), Seconds{2}, Seconds{bad}));
    }
    EXPECT_REFUSED(set_time(scheme("99"), Seconds{1e308}, Seconds{5}));
}

// --- a coach's words, as an English card would put them

std::string said(std::string_view text) {
    const auto words = scheme_words(scheme(text));
    const auto many = [](const Scheme::Run& run) {
        return std::to_string(run.sets) + " sets of " + std::to_string(run.reps);
    };
    const auto first = [&] {
        const auto one = std::to_string(words.first.reps);
        return words.first.sets == 1 ? one : words.first.sets == 2 ? one + "-" + one : many(words.first);
    };
    switch (words.kind) {
    case SchemeWords::Kind::unbroken:
        return std::to_string(words.first.reps) + " unbroken";
    case SchemeWords::Kind::listed:
        return words.written;
    case SchemeWords::Kind::singles:
        return "singles";
    case SchemeWords::Kind::equal_sets:
        return many(words.first);
    case SchemeWords::Kind::then_singles:
        return first() + ", then singles";
    case SchemeWords::Kind::then_sets:
        return first() + ", then " + many(words.second);
    }
    return "?";
}

TEST(SchemeWords, AreACoachs) {
    EXPECT_EQ(said("9"), "9 unbroken");
    EXPECT_EQ(said("5-4"), "5-4");
    EXPECT_EQ(said("2-1"), "2-1");
    EXPECT_EQ(said("3-3-3"), "3-3-3");
    EXPECT_EQ(said("3-3-2-2"), "3-3-2-2");
    EXPECT_EQ(said("4-3-3-3"), "4-3-3-3");
    EXPECT_EQ(said("4-4-4-3"), "4-4-4-3");
    EXPECT_EQ(said("4-4x3"), "4, then 4 sets of 3");
    EXPECT_EQ(said("4x2"), "4 sets of 2");
    EXPECT_EQ(said("9x1"), "singles");
    EXPECT_EQ(said("1-1"), "singles");
    EXPECT_EQ(said("1"), "singles");
    EXPECT_EQ(said("2-10x1"), "2, then singles");
    EXPECT_EQ(said("2-1-1"), "2, then singles");
    EXPECT_EQ(said("2-2-6x1"), "2-2, then singles");
    EXPECT_EQ(said("9-9-4x8"), "9-9, then 4 sets of 8");
    EXPECT_EQ(said("10x7-5x6"), "10 sets of 7, then 5 sets of 6");
}

TEST(SchemeWords, LeaveOtherSchemesAsWritten) {
    for (const char* text : {"3-2/3-2", "5/5", "1/1", "5-4-3", "1-2", "2-6x3", "4-2-4"}) {
        EXPECT_EQ(said(text), text);
    }
}

TEST(SchemeWords, OfANearEvenSchemeCountNoSingles) {
    for (int reps = 1; reps <= 60; ++reps) {
        for (int sets = 1; sets <= reps; ++sets) {
            const auto even = value_of(Scheme::near_even(reps, sets));
            const auto words = scheme_words(even);
            const bool singles = even.runs().back().reps == 1 && even.runs().back().sets > 1;
            const bool said_so =
                words.kind == SchemeWords::Kind::singles || words.kind == SchemeWords::Kind::then_singles;
            ASSERT_EQ(said_so, singles || reps == 1) << even.text();
            ASSERT_LE(said(even.text()).size(), 32U) << even.text();
            ASSERT_EQ(words.first.sets + words.second.sets, sets);
        }
    }
}

} // namespace
} // namespace pacecells
