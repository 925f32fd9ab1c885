#include "pacecells/score.h"

#include "pacecells/clock.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace pacecells {
namespace {

#define EXPECT_UNKNOWN(result) EXPECT_TRUE(has_error(result, ErrorKind::not_available))

using Numbers = std::vector<double>;
using Column = std::vector<std::optional<double>>;

RepsPerRound thirty() { return value_of(RepsPerRound::every_round(30)); }

Result<Reps> reps(const char* text, const RepsPerRound& reps_per_round) {
    const auto score = parse_score(text);
    return score ? reps_of(*score, reps_per_round) : score.error();
}

std::vector<Seconds> clocks_of(const Numbers& rounds) {
    std::vector<Seconds> clocks;
    Seconds clock{0};
    for (const double round : rounds)
        clocks.push_back(clock += Seconds{round});
    return clocks;
}

// ---- reading and writing scores ----

TEST(Score, ReadsRoundsAndReps) {
    const auto score = value_of(parse_score("7+21"));
    EXPECT_EQ(score.rounds, 7);
    EXPECT_EQ(score.reps, 21);
    EXPECT_EQ(value_of(parse_score(" 7 + 21 ")).reps, 21);
    EXPECT_EQ(value_of(parse_score("0+0")).rounds, 0);
    for (const char* bad : {"", "7", "231", "+", "7+", "+21", "7+21+3", "7.5+2", "-7+2", "7+-2", "7 2+1", "a+b",
                            "7+1e2", "9999999999+1", "7\xC2\xB2+1"})
        EXPECT_REFUSED(parse_score(bad)) << bad;
}

TEST(Score, TotalRepsWhereRoundsAreAlike) {
    EXPECT_EQ(value_of(reps("7+21", thirty())), Reps{231});
    EXPECT_EQ(value_of(reps("7+0", thirty())), Reps{210});
    EXPECT_EQ(value_of(reps("0+29", thirty())), Reps{29});
    EXPECT_REFUSED(reps("7+30", thirty())) << "a full round counts before the +";
    EXPECT_NEAR(value_of(rounds_of({.rounds = 7, .reps = 21}, thirty())), 7.7, 1e-15);
}

TEST(Score, TotalRepsOfALadder) {
    const Numbers list{3, 6, 9, 12};
    const auto ladder = value_of(RepsPerRound::by_round(list));
    EXPECT_EQ(value_of(reps("2+5", ladder)), Reps{14});
    EXPECT_REFUSED(reps("2+9", ladder));
    EXPECT_EQ(value_of(reps("3+11", ladder)), Reps{29});
    EXPECT_EQ(value_of(reps("4+0", ladder)), Reps{30}) << "all of the list done";
    EXPECT_UNSOLVABLE(reps("4+1", ladder));
    EXPECT_UNSOLVABLE(reps("5+0", ladder));
    EXPECT_EQ(value_of(rounds_of({.rounds = 1, .reps = 3}, ladder)), 1.5);
    EXPECT_EQ(value_of(rounds_of({.rounds = 4, .reps = 0}, ladder)), 4);
    EXPECT_UNSOLVABLE(rounds_of({.rounds = 4, .reps = 2}, ladder));
    EXPECT_EQ(value_of(score_text(Reps{30}, ladder)), "4+0");
    EXPECT_EQ(value_of(score_text(Reps{29}, ladder)), "3+11");
    EXPECT_UNSOLVABLE(score_text(Reps{31}, ladder));
}

TEST(Score, OneNumberInAListMeansEveryRoundAlike) {
    const Numbers list{30};
    EXPECT_EQ(value_of(reps("7+21", value_of(RepsPerRound::by_round(list)))), Reps{231});
}

TEST(Score, TextCutsToWholeReps) {
    EXPECT_EQ(value_of(score_text(Reps{231.9}, thirty())), "7+21");
    EXPECT_EQ(value_of(score_text(Reps{240 - 1e-10}, thirty())), "8+0") << "a trace short is whole";
    EXPECT_EQ(value_of(score_text(Reps{240 - 1e-8}, thirty())), "7+29");
    EXPECT_EQ(value_of(score_text(Reps{0}, thirty())), "0+0");
    EXPECT_EQ(value_of(score_text(Reps{1e15}, value_of(RepsPerRound::every_round(7)))), "142857142857142+6");
    for (const double bad : {-1.0, -1e-9, 1e16, not_a_number, infinite})
        EXPECT_REFUSED(score_text(Reps{bad}, thirty()));
}

TEST(Score, TextAndRepsUndoEachOther) {
    Random random;
    for (int i = 0; i < 2000; ++i) {
        Numbers list;
        for (int k = random.whole(1, 12); k > 0; --k)
            list.push_back(random.whole(1, 60));
        const auto per_round = value_of(RepsPerRound::by_round(list));
        const double most = list.size() == 1 ? 500 : std::accumulate(list.begin(), list.end(), 0.0);
        const Reps total{static_cast<double>(random.whole(0, static_cast<int>(most)))};
        const auto text = value_of(score_text(total, per_round));
        EXPECT_EQ(value_of(reps(text.c_str(), per_round)), total) << text;
    }
}

TEST(Score, RepsPerRoundAreWholeAndAboveZero) {
    for (const double bad : {0.0, -3.0, 2.5, 1e10, not_a_number, infinite}) {
        EXPECT_REFUSED(RepsPerRound::every_round(bad));
        EXPECT_REFUSED(RepsPerRound::by_round(Numbers{30, bad}));
    }
    EXPECT_REFUSED(RepsPerRound::by_round({}));
    for (const double bad : {-1.0, 0.5, not_a_number, infinite}) {
        EXPECT_REFUSED(reps_of({.rounds = bad, .reps = 0}, thirty()));
        EXPECT_REFUSED(reps_of({.rounds = 0, .reps = bad}, thirty()));
    }
}

TEST(Score, ProjectsAtThePaceSoFar) {
    EXPECT_EQ(value_of(project(Seconds{900}, Seconds{360}, Reps{90})), Reps{225});
    EXPECT_EQ(value_of(project(Seconds{900}, Seconds{900}, Reps{90})), Reps{90});
    EXPECT_EQ(value_of(project(Seconds{900}, Seconds{360}, Reps{0})), Reps{0});
    EXPECT_REFUSED(project(Seconds{900}, Seconds{901}, Reps{90}));
    for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
        EXPECT_REFUSED(project(Seconds{bad}, Seconds{1}, Reps{1}));
        EXPECT_REFUSED(project(Seconds{900}, Seconds{bad}, Reps{1}));
    }
    for (const double bad : {-1.0, 1e16, not_a_number, infinite})
        EXPECT_REFUSED(project(Seconds{900}, Seconds{1}, Reps{bad}));
    EXPECT_REFUSED(project(Seconds{1e200}, Seconds{1e-200}, Reps{1}));
}

// ---- forecast ----

// The second way: the regression with its matrix written out, and x found by small steps.
struct Naive {
    double m, last, b0 = 0, b1 = 0, s2 = 0, t = 0;
    double c00 = 0, c01 = 0, c11 = 0; // (X'X)^-1
    bool steady;

    Naive(const Numbers& y, double confidence)
        : m(static_cast<double>(y.size())), last(std::accumulate(y.begin(), y.end(), 0.0)), steady(y.size() < 5) {
        double si = 0, sii = 0, siy = 0;
        for (std::size_t k = 0; k < y.size(); ++k) {
            const auto i = static_cast<double>(k + 1);
            si += i;
            sii += i * i;
            siy += i * y[k];
        }
        if (steady) {
            b0 = last / m;
            c00 = 1 / m;
        } else {
            const double det = m * sii - si * si;
            c00 = sii / det;
            c01 = -si / det;
            c11 = m / det;
            b0 = c00 * last + c01 * siy;
            b1 = c01 * last + c11 * siy;
        }
        for (std::size_t k = 0; k < y.size(); ++k)
            s2 += std::pow(y[k] - b0 - b1 * static_cast<double>(k + 1), 2);
        const double df = m - (steady ? 1 : 2);
        s2 /= df;
        t = boost::math::quantile(boost::math::students_t{df}, (1 + confidence) / 2);
    }
    [[nodiscard]] double clock(double x, double sign) const {
        const double w0 = x;
        const double w1 = m * x + x * (x + 1) / 2;
        const double variance = s2 * (x + w0 * w0 * c00 + 2 * w0 * w1 * c01 + w1 * w1 * c11);
        return last + b0 * w0 + b1 * w1 + sign * t * std::sqrt(std::max(0.0, variance));
    }
};

// Reps are rounds here: one rep a round.
void expect_first(const Naive& naive, double cap, double sign, const Result<Reps>& got) {
    const double mean = naive.last / naive.m;
    const double longest = 10 * cap / mean;
    const double tiny = 1e-7 * cap;
    const double end = got ? got->value() - naive.m : longest;
    ASSERT_GE(end, 0);
    if (got) {
        EXPECT_LE(end, longest * (1 + 1e-9));
        EXPECT_NEAR(naive.clock(end, sign), cap, tiny);
    } else {
        EXPECT_UNSOLVABLE(got);
    }
    const int steps = 4000;
    for (int i = 0; i < steps; ++i)
        ASSERT_LT(naive.clock(end * i / steps, sign), cap + tiny) << "the cap is met before " << end;
}

TEST(Forecast, IsTheFirstTimeTheClockMeetsTheCap) {
    Random random;
    const auto one = value_of(RepsPerRound::every_round(1));
    int none[3] = {0, 0, 0};
    for (int i = 0; i < 1500; ++i) {
        Numbers rounds;
        const int m = random.whole(2, 12);
        const double start = random.between(20, 300);
        const double trend = random.between(-0.09, 0.09) * start;
        const double noise = random.whole(0, 9) == 0 ? 1e-6 : random.between(0, 0.2);
        for (int k = 0; k < m; ++k)
            rounds.push_back(std::max(1.0, start + trend * k + noise * start * random.between(-1, 1)));
        const auto clocks = clocks_of(rounds);
        const double cap = clocks.back().value() * random.between(1, 4);
        const double confidence = random.between(0.05, 0.99);
        const auto got = value_of(forecast(Seconds{cap}, clocks, one, confidence));
        const Naive naive{rounds, confidence};
        expect_first(naive, cap, 1, got.low);
        expect_first(naive, cap, 0, got.expected);
        expect_first(naive, cap, -1, got.high);
        if (got.low && got.expected) {
            EXPECT_LE(got.low->value(), got.expected->value() * (1 + 1e-9));
        }
        if (got.expected && got.high) {
            EXPECT_LE(got.expected->value(), got.high->value() * (1 + 1e-9));
        }
        none[0] += got.low ? 0 : 1;
        none[1] += got.expected ? 0 : 1;
        none[2] += got.high ? 0 : 1;
    }
    EXPECT_GT(none[1], 0) << "some trends turn";
    EXPECT_GT(none[2], none[1]) << "some upper bounds are never met";
}

TEST(Forecast, EvenRoundsGoOnEvenly) {
    // 6 rounds of 100 s, 15 minutes: 9 rounds, and nothing to be unsure about.
    const auto got = value_of(forecast(Seconds{900}, clocks_of({100, 100, 100, 100, 100, 100}), thirty()));
    EXPECT_NEAR(value_of(got.low).value(), 270, 1e-9);
    EXPECT_NEAR(value_of(got.expected).value(), 270, 1e-9);
    EXPECT_NEAR(value_of(got.high).value(), 270, 1e-9);
}

TEST(Forecast, FewRoundsAreSteadyAtTheMean) {
    const auto got = value_of(forecast(Seconds{900}, clocks_of({90, 110}), thirty(), 0.95));
    EXPECT_NEAR(value_of(got.expected).value(), 270, 1e-9);
    // s = sqrt(200), t(1) = 12.706: low where 200 + 100 x + t s sqrt(x + x^2 / 2) = 900, worked out by hand from the
    // quadratic (t^2 s^2 / 2 - 100^2) x^2 + (t^2 s^2 + 2 * 700 * 100) x - 700^2 = 0.
    const double ts2 = 12.7062047 * 12.7062047 * 200;
    const double a = ts2 / 2 - 1e4;
    const double b = ts2 + 1.4e5;
    const double x = (-b + std::sqrt(b * b + 4 * a * 4.9e5)) / (2 * a);
    EXPECT_NEAR(value_of(got.low).value(), 30 * (2 + x), 1e-4);
    EXPECT_UNSOLVABLE(got.high) << "two so uneven rounds say nothing about a best case";
}

TEST(Forecast, AFadeIsCarriedOn) {
    // Rounds of 100, 102, ... 108 s; the next take 110, 112 and 114: after 8 rounds the clock shows 856.
    const auto got = value_of(forecast(Seconds{856}, clocks_of({100, 102, 104, 106, 108}), thirty()));
    EXPECT_NEAR(value_of(got.expected).value(), 240, 1e-9);
}

TEST(Forecast, ATrendThatTurnsIsNoAnswer) {
    // Each round 15 s faster: the sixth takes 25 s, the eighth would take -5 s, and the cap is never met.
    const auto got = value_of(forecast(Seconds{900}, clocks_of({100, 85, 70, 55, 40}), thirty()));
    EXPECT_UNSOLVABLE(got.expected);
    EXPECT_UNSOLVABLE(got.high);
}

TEST(Forecast, AfterOneRoundTheBoundsAreNotKnown) {
    const auto got = value_of(forecast(Seconds{900}, clocks_of({100}), thirty()));
    EXPECT_NEAR(value_of(got.expected).value(), 270, 1e-9);
    EXPECT_UNKNOWN(got.low);
    EXPECT_UNKNOWN(got.high);
}

TEST(Forecast, AtTheCapTheScoreIsKnown) {
    const auto got = value_of(forecast(Seconds{330}, clocks_of({100, 110, 120}), thirty()));
    EXPECT_EQ(value_of(got.low), Reps{90});
    EXPECT_EQ(value_of(got.expected), Reps{90});
    EXPECT_EQ(value_of(got.high), Reps{90});
}

TEST(Forecast, MoreConfidenceMeansWiderBounds) {
    const auto clocks = clocks_of({100, 96, 103, 99, 104, 101});
    double low = infinite;
    double high = 0;
    for (const double confidence : {1e-9, 0.5, 0.8, 0.9, 0.95, 0.99}) {
        const auto got = value_of(forecast(Seconds{900}, clocks, thirty(), confidence));
        EXPECT_LT(value_of(got.low).value(), low);
        EXPECT_GT(value_of(got.high).value(), high);
        low = got.low->value();
        high = got.high->value();
    }
    EXPECT_TRUE(forecast(Seconds{900}, clocks, thirty(), 1 - 1e-16));
}

TEST(Forecast, BeyondTheListOfRepsThereIsNoAnswer) {
    const Numbers list{10, 20, 30, 40, 50};
    const auto ladder = value_of(RepsPerRound::by_round(list));
    const auto at = [&](double cap) { return value_of(forecast(Seconds{cap}, clocks_of({100, 100}), ladder)); };
    EXPECT_NEAR(value_of(at(350).expected).value(), 80, 1e-9) << "half of the 40";
    EXPECT_NEAR(value_of(at(500).expected).value(), 150, 1e-9);
    EXPECT_UNSOLVABLE(at(510).expected);
}

TEST(Forecast, RefusesClocksThatDoNotRise) {
    const auto of = [](std::vector<double> clocks, double cap = 900, double confidence = 0.9) {
        return forecast(Seconds{cap}, std::vector<Seconds>(clocks.begin(), clocks.end()), thirty(), confidence);
    };
    EXPECT_REFUSED(of({}));
    EXPECT_REFUSED(of({100, 90})) << "falling";
    EXPECT_REFUSED(of({100, 100}));
    EXPECT_REFUSED(of({0, 100}));
    EXPECT_REFUSED(of({-10, 100}));
    EXPECT_REFUSED(of({100, 901}));
    EXPECT_REFUSED(of({1e-5, 2e-5})) << "more than a million rounds";
    EXPECT_REFUSED(of({1e-300, 2e-300}));
    for (const double bad : {not_a_number, infinite, -infinite}) {
        EXPECT_REFUSED(of({bad}));
        EXPECT_REFUSED(of({100, bad}));
        EXPECT_REFUSED(of({100}, bad));
        EXPECT_REFUSED(of({100}, 900, bad));
    }
    for (const double bad : {0.0, 1.0, -0.5, 90.0})
        EXPECT_REFUSED(of({100, 200}, 900, bad));
    EXPECT_TRUE(of({1e298, 2e298}, 1e299));
}

TEST(Forecast, StudentsTIsThePublishedOne) {
    // The width of the forecast, found from its bound: two rounds and more, one rep a round.
    const auto one = value_of(RepsPerRound::every_round(1));
    const auto table = data::table("student_t");
    for (const auto& row : table.rows) {
        const int freedom = static_cast<int>(row.number("df"));
        const int m = freedom < 4 ? freedom + 1 : freedom + 2;
        Numbers rounds;
        for (int k = 0; k < m; ++k)
            rounds.push_back(100 + (k % 2 == 0 ? 1 : -1) * 0.5);
        const Naive naive{rounds, 0.95};
        const double cap = naive.last + 200;
        const auto low = value_of(value_of(forecast(Seconds{cap}, clocks_of(rounds), one, 0.95)).low);
        const double x = low.value() - m;
        const double t = (cap - naive.clock(x, 0)) / ((naive.clock(x, 1) - naive.clock(x, 0)) / naive.t);
        EXPECT_NEAR(t, row.number("t"), table.tolerance) << freedom;
    }
}

// ---- fade, steadiness, results ----

TEST(Score, FadeAndSteadiness) {
    EXPECT_NEAR(value_of(fade(clocks_of({90, 100, 110}))), 0.1, 1e-15);
    EXPECT_NEAR(value_of(steadiness(clocks_of({90, 100, 110}))), 0.1, 1e-15);
    EXPECT_NEAR(value_of(fade(clocks_of({110, 90}))), -0.2, 1e-15);
    EXPECT_NEAR(value_of(fade(clocks_of({100, 100, 100}))), 0, 1e-15);
    EXPECT_NEAR(value_of(steadiness(clocks_of({100, 100, 100}))), 0, 1e-15);
    const Numbers bad[] = {{}, {100}};
    for (const auto& rounds : bad) {
        EXPECT_REFUSED(fade(clocks_of(rounds)));
        EXPECT_REFUSED(steadiness(clocks_of(rounds)));
    }
    const std::vector<Seconds> falling{Seconds{100}, Seconds{90}};
    EXPECT_REFUSED(fade(falling));
    EXPECT_REFUSED(steadiness(falling));
    EXPECT_REFUSED(steadiness(clocks_of({1e300, 2e300})));
}

TEST(Score, CappedResults) {
    EXPECT_EQ(value_of(capped(Reps{23}, Seconds{720})), Seconds{743});
    EXPECT_EQ(value_of(capped(Reps{0}, Seconds{720})), Seconds{720});
    for (const double bad : {-1.0, 1.5, not_a_number, infinite, 1e300})
        EXPECT_REFUSED(capped(Reps{bad}, Seconds{720}));
    for (const double bad : {-1.0, 0.0, not_a_number, infinite})
        EXPECT_REFUSED(capped(Reps{1}, Seconds{bad}));
}

TEST(Score, ResultsAsPeopleReadThem) {
    const Seconds cap{720};
    EXPECT_EQ(value_of(result_text(Seconds{702}, cap)), "11:42");
    EXPECT_EQ(value_of(result_text(cap, cap)), "12:00");
    EXPECT_EQ(value_of(result_text(cap, cap, Reps{23})), "cap + 23");
    EXPECT_EQ(value_of(result_text(value_of(capped(Reps{23}, cap)), cap, Reps{23})), "cap + 23");
    EXPECT_EQ(value_of(result_text(Seconds{0}, cap, Reps{23})), "cap + 23") << "no time typed";
    EXPECT_REFUSED(result_text(Seconds{702}, cap, Reps{23})) << "finished, or reps left?";
    EXPECT_REFUSED(result_text(Seconds{743}, cap)) << "after the cap, but no reps left";
    EXPECT_REFUSED(result_text(Seconds{0}, cap));
    EXPECT_REFUSED(result_text(Seconds{702}, cap, Reps{0.5}));
    for (const double bad : {-1.0, not_a_number, infinite}) {
        EXPECT_REFUSED(result_text(Seconds{bad}, cap));
        EXPECT_REFUSED(result_text(Seconds{702}, Seconds{bad}));
        EXPECT_REFUSED(result_text(Seconds{702}, cap, Reps{bad}));
    }
    EXPECT_REFUSED(result_text(Seconds{not_a_number}, cap, Reps{23}));
}

// ---- places ----

TEST(Place, StandardCompetitionRanking) {
    const auto table = data::table("ranking");
    Column scores;
    for (const auto& row : table.rows)
        scores.push_back(row.number("score"));
    const Field field{.scores = scores};
    const auto places = value_of(Places::in(field));
    for (const auto& row : table.rows) {
        const Standing athlete{.score = row.number("score")};
        EXPECT_EQ(value_of(place(athlete, field)), row.number("place"));
        EXPECT_EQ(value_of(places.of(athlete)), row.number("place"));
    }
}

// Both ways of asking, which have to agree.
Result<int> both(const Standing& athlete, const Field& field) {
    auto single = place(athlete, field);
    const auto places = Places::in(field);
    auto sorted = places ? places->of(athlete) : Result<int>{places.error()};
    EXPECT_EQ(single.has_value(), sorted.has_value());
    if (single && sorted) {
        EXPECT_EQ(*single, *sorted);
    }
    return single;
}

TEST(Place, LowWinsForTimes) {
    const Column times{702, std::nullopt, 690, 743};
    const Field field{.scores = times, .order = Order::low_wins};
    EXPECT_EQ(value_of(both({.score = 690}, field)), 1);
    EXPECT_EQ(value_of(both({.score = 702}, field)), 2);
    EXPECT_EQ(value_of(both({.score = 743}, field)), 3);
    EXPECT_REFUSED(both({.score = 0}, field)) << "a blank handed over as 0 has no place";
    EXPECT_REFUSED(both({.score = 700}, field)) << "stands nowhere";
}

TEST(Place, GroupsAreComparedWithoutCaseAndSpaces) {
    const Column scores{44, 42, 41, 40};
    const std::vector<std::string> groups{"open", "Masters  A", "Open ", "masters a"};
    const Field field{.scores = scores, .groups = groups};
    EXPECT_EQ(value_of(both({.score = 44, .group = "OPEN"}, field)), 1);
    EXPECT_EQ(value_of(both({.score = 42, .group = "masters a"}, field)), 1);
    EXPECT_EQ(value_of(both({.score = 41, .group = "open"}, field)), 2);
    EXPECT_EQ(value_of(both({.score = 40, .group = " Masters A"}, field)), 2);
    EXPECT_REFUSED(both({.score = 44, .group = "masters a"}, field));
    EXPECT_REFUSED(both({.score = 44, .group = "youth"}, field));
}

TEST(Place, TheLowerTieBreakWinsAndABlankOneIsLast) {
    const Column scores{44, 44, 44, 44, 50};
    const Column tiebreaks{300, 280, std::nullopt, 300, std::nullopt};
    const Field field{.scores = scores, .tiebreaks = tiebreaks};
    EXPECT_EQ(value_of(both({.score = 50}, field)), 1);
    EXPECT_EQ(value_of(both({.score = 44, .tiebreak = 280}, field)), 2);
    EXPECT_EQ(value_of(both({.score = 44, .tiebreak = 300}, field)), 3);
    EXPECT_EQ(value_of(both({.score = 44}, field)), 5);
    EXPECT_EQ(value_of(both({.score = 44, .tiebreak = 0}, field)), 5) << "an empty cell handed over alone is 0";
    EXPECT_REFUSED(both({.score = 44, .tiebreak = 290}, field));
    const Column with_zero{0, 280, std::nullopt, 300, 1};
    EXPECT_EQ(value_of(both({.score = 44, .tiebreak = 0}, {.scores = scores, .tiebreaks = with_zero})), 2);
}

TEST(Place, RefusesColumnsThatDoNotFit) {
    const Column scores{44, 42};
    const Column one{1};
    const std::vector<std::string> groups{"open"};
    EXPECT_REFUSED(both({.score = 44, .group = "open"}, {.scores = scores, .groups = groups}));
    EXPECT_REFUSED(both({.score = 44, .tiebreak = 1}, {.scores = scores, .tiebreaks = one}));
    EXPECT_REFUSED(both({.score = 44, .group = "open"}, {.scores = scores})) << "a group without groups";
    EXPECT_REFUSED(both({.score = 44, .tiebreak = 1}, {.scores = scores}));
    EXPECT_REFUSED(both({.score = 44}, {.scores = {}}));
    const Column nan{44, not_a_number};
    EXPECT_REFUSED(both({.score = 44}, {.scores = nan}));
    EXPECT_REFUSED(both({.score = 44}, {.scores = scores, .tiebreaks = nan}));
    EXPECT_REFUSED(both({.score = not_a_number}, {.scores = scores}));
    EXPECT_TRUE(parse_order(" High "));
    EXPECT_REFUSED(parse_order("highest"));
    EXPECT_REFUSED(parse_order(""));
}

TEST(Place, AgreesWithCountingWhoIsBetter) {
    Random random;
    for (int round = 0; round < 200; ++round) {
        Column scores;
        Column tiebreaks;
        std::vector<std::string> groups;
        for (int i = random.whole(1, 40); i > 0; --i) {
            scores.push_back(random.whole(0, 9) == 0 ? std::optional<double>{} : random.whole(-3, 12));
            tiebreaks.push_back(random.whole(0, 3) == 0 ? std::optional<double>{} : random.whole(0, 5));
            groups.push_back(random.whole(0, 1) == 0 ? "open" : "Scaled");
        }
        const bool low = random.whole(0, 1) == 0;
        const bool tied = random.whole(0, 1) == 0;
        const bool grouped = random.whole(0, 1) == 0;
        Field field{.scores = scores, .order = low ? Order::low_wins : Order::high_wins};
        if (tied)
            field.tiebreaks = tiebreaks;
        if (grouped)
            field.groups = groups;
        for (std::size_t i = 0; i < scores.size(); ++i) {
            if (!scores[i])
                continue;
            int better = 0;
            for (std::size_t j = 0; j < scores.size(); ++j) {
                if (!scores[j] || (grouped && groups[j] != groups[i]))
                    continue;
                if (low ? *scores[j] < *scores[i] : *scores[j] > *scores[i])
                    ++better;
                else if (tied && *scores[j] == *scores[i] && tiebreaks[j] &&
                         (!tiebreaks[i] || *tiebreaks[j] < *tiebreaks[i]))
                    ++better;
            }
            const Standing athlete{.score = *scores[i],
                                   .group = grouped ? std::string_view{groups[i]} : std::string_view{},
                                   .tiebreak = tied ? tiebreaks[i] : std::optional<double>{}};
            ASSERT_EQ(value_of(both(athlete, field)), better + 1);
        }
    }
}

} // namespace
} // namespace pacecells
