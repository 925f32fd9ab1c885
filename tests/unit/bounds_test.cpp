// Every domain that a header states, at its ends: the last value that is taken and the first that is refused.
#include "pacecells/advice.h"
#include "pacecells/announcement.h"
#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/ergometer.h"
#include "pacecells/forecast.h"
#include "pacecells/learning.h"
#include "pacecells/loads.h"
#include "pacecells/pace.h"
#include "pacecells/reserve.h"
#include "pacecells/scheme.h"
#include "pacecells/score.h"
#include "pacecells/sets.h"
#include "pacecells/workout.h"

#include "expect.h"

#include <cmath>
#include <string>
#include <vector>

namespace pacecells {
namespace {

double above(double x) { return std::nextafter(x, infinite); }
double below(double x) { return std::nextafter(x, -infinite); }

TEST(Bounds, Loads) {
    EXPECT_EQ(value_of(share_of_maximum(1000, 0.5)), 500);
    EXPECT_REFUSED(share_of_maximum(above(1000), 0.5));
    EXPECT_EQ(value_of(share_of_maximum(100, 1.5)), 150);
    EXPECT_REFUSED(share_of_maximum(100, above(1.5)));
    EXPECT_REFUSED(share_of_maximum(100, 0));
    EXPECT_REFUSED(share_of_maximum(0, 0.5));
    // 490 kg each side: 19 of 25 are 475.
    auto plates = std::vector<double>(19, 25);
    plates.push_back(15);
    EXPECT_EQ(value_of(plates_each_side(1000, 20)), plates);
    EXPECT_REFUSED(plates_each_side(1002.5, 20));
    EXPECT_TRUE(value_of(plates_each_side(1000, 1000)).empty());
    EXPECT_REFUSED(plates_each_side(1010, 1010));
    EXPECT_EQ(value_of(plates_each_side(2.5, 0)), std::vector<double>{1.25});
    EXPECT_TRUE(value_of(plates_each_side(0, 0)).empty());
    EXPECT_REFUSED(plates_each_side(20, -2.5));
    EXPECT_REFUSED(plates_each_side(17.5, 20));
    EXPECT_EQ(value_of(one_rep_max(100, Reps{36}, LoadFormula::brzycki)), 3600);
    EXPECT_REFUSED(one_rep_max(100, Reps{37}, LoadFormula::brzycki));
    EXPECT_EQ(value_of(one_rep_max(100, Reps{60})), 300);
    EXPECT_REFUSED(one_rep_max(100, Reps{below(1)}));
}

TEST(Bounds, Pace) {
    EXPECT_EQ(value_of(rounds_in(Seconds{600}, Seconds{600})), 1);
    EXPECT_EQ(value_of(rounds_in(Seconds{600}, Seconds{0.5})), 1200);
    EXPECT_REFUSED(rounds_in(Seconds{600}, Seconds{above(600)}));
    EXPECT_REFUSED(rounds_in(Seconds{600}, Seconds{0}));
    EXPECT_EQ(value_of(clock_after(Seconds{600}, 4, 4)), Seconds{600});
    EXPECT_EQ(value_of(clock_after(Seconds{600}, 4, 4 * (1 + 0.9e-9))), Seconds{600});
    EXPECT_REFUSED(clock_after(Seconds{600}, 4, 4 * (1 + 2e-9)));
    EXPECT_REFUSED(clock_after(Seconds{600}, 4, 0));
    for (const double drift : {-1.0, 1.0}) {
        EXPECT_TRUE(clock_after(Seconds{600}, 4, 2, drift));
        EXPECT_REFUSED(clock_after(Seconds{600}, 4, 2, 1.0001 * drift));
    }
    EXPECT_EQ(value_of(splits(Seconds{20'000}, 10'000)).size(), 10'000u);
    EXPECT_REFUSED(splits(Seconds{20'000}, 10'001));
    EXPECT_EQ(value_of(splits(Seconds{600}, 0.5)).size(), 1u) << "not even one round is one row";
    EXPECT_EQ(value_of(rehearsal_time(Seconds{120}, 1)), Seconds{120});
    EXPECT_REFUSED(rehearsal_time(Seconds{120}, above(1)));
    EXPECT_REFUSED(rehearsal_time(Seconds{120}, 0));
    EXPECT_EQ(value_of(goal_table(Seconds{600}, 1, 10'000)).size(), 10'000u);
    EXPECT_REFUSED(goal_table(Seconds{600}, 1, 10'001));
    EXPECT_EQ(value_of(goal_table(Seconds{600}, 1, 1)).size(), 1u);
    EXPECT_REFUSED(goal_table(Seconds{600}, below(1), 2));
    EXPECT_REFUSED(goal_table(Seconds{600}, 2, below(2)));
    EXPECT_REFUSED(goal_table(Seconds{600}, 1, 2, 0));
    EXPECT_EQ(value_of(erg_need(Seconds{60}, Kilocalories{10}, Seconds{0}, Seconds{0})), CaloriesPerHour{600});
    EXPECT_UNSOLVABLE(erg_need(Seconds{60}, Kilocalories{10}, Seconds{50}, Seconds{10}));
}

TEST(Bounds, Clock) {
    EXPECT_EQ(value_of(clock_text(Seconds{0})), "0:00");
    EXPECT_EQ(value_of(clock_text(Seconds{1e9})), "277777:46:40"); // 277,777 h are 999,997,200 s
    EXPECT_REFUSED(clock_text(Seconds{above(1e9)}));
    EXPECT_EQ(value_of(clock_text(Seconds{61.25}, 3)), "1:01.250");
    EXPECT_REFUSED(clock_text(Seconds{1}, 4));
    EXPECT_REFUSED(clock_text(Seconds{1}, -1));
    EXPECT_EQ(value_of(parse_clock("1:59:59")), Seconds{7199});
    EXPECT_REFUSED(parse_clock("1:60:00"));
    EXPECT_REFUSED(parse_clock("1:60"));
    EXPECT_EQ(value_of(parse_clock("1:30." + std::string(27, '0'))), Seconds{90}) << "32 characters";
    EXPECT_REFUSED(parse_clock("1:30." + std::string(28, '0')));
}

TEST(Bounds, Sets) {
    const Scheme nine = value_of(Scheme::from_number(9));
    EXPECT_TRUE(reps_left(nine, 9999, Reps{30}, Seconds{80}));
    EXPECT_REFUSED(reps_left(nine, above(9999), Reps{30}, Seconds{80}));
    EXPECT_REFUSED(reps_left(nine, 0, Reps{30}, Seconds{80}));
    EXPECT_NEAR(value_of(reps_left(nine, 1, Reps{30}, Seconds{0}, Seconds{0})).value(), 21, 1e-9);
    EXPECT_NEAR(value_of(reps_left(nine, 1, Reps{1}, Seconds{0}, Seconds{0})).value(), -8, 1e-9);
    EXPECT_REFUSED(reps_left(nine, 1, Reps{below(1)}, Seconds{80}));
    EXPECT_REFUSED(reps_left(nine, 1, Reps{30}, Seconds{-0.1}));
    EXPECT_REFUSED(reps_left(nine, 1, Reps{30}, Seconds{80}, Seconds{-0.1}));
    EXPECT_REFUSED(reps_left(nine, 1, Reps{30}, Seconds{80}, Seconds{3}, 0));
    const auto work = [](int reps) {
        return SetWork{.reps = reps, .rounds = 1, .max_unbroken = Reps{2000}, .away = Seconds{0}};
    };
    EXPECT_EQ(value_of(plan_sets(work(999))).scheme.text(), "999");
    EXPECT_REFUSED(plan_sets(work(1000)));
    EXPECT_EQ(value_of(plan_sets(work(1))).scheme.text(), "1");
    EXPECT_REFUSED(plan_sets(work(0)));
    EXPECT_EQ(value_of(rest_needed(work(9), 9)), Seconds{0});
    EXPECT_REFUSED(rest_needed(work(9), 10));
    EXPECT_REFUSED(rest_needed(work(9), 0));
    auto none_kept = work(9);
    none_kept.max_unbroken = Reps{9};
    none_kept.margin = Reps{0};
    EXPECT_EQ(value_of(plan_sets(none_kept)).scheme.text(), "9") << "to the last rep";
    none_kept.margin = Reps{-0.1};
    EXPECT_REFUSED(plan_sets(none_kept));
    EXPECT_TRUE(max_noise(Reps{1}, MaximumFrom::test));
    EXPECT_REFUSED(max_noise(Reps{below(1)}, MaximumFrom::test));
    EXPECT_TRUE(recovery_from(Reps{2}, Reps{1}, Seconds{60}));
    EXPECT_REFUSED(recovery_from(Reps{2}, Reps{below(1)}, Seconds{60}));
    EXPECT_REFUSED(recovery_from(Reps{2}, Reps{2}, Seconds{60}));
    EXPECT_REFUSED(recovery_from(Reps{2}, Reps{1}, Seconds{0}));
    EXPECT_EQ(cautious_recovery(0.25), 0.6);
    EXPECT_EQ(cautious_recovery(1.44), 1.2);
    EXPECT_EQ(cautious_recovery(4), 1.6);
}

TEST(Bounds, Amounts) {
    EXPECT_EQ(value_of(parse_amounts("0")).list, std::vector<double>{0});
    EXPECT_EQ(value_of(parse_amounts("0.5")).list, std::vector<double>{0.5});
    EXPECT_EQ(value_of(parse_amounts("99999")).list, std::vector<double>{99'999});
    EXPECT_REFUSED(parse_amounts("100000"));
    EXPECT_EQ(value_of(parse_amounts("21\u201315\u20149")).list, (std::vector<double>{21, 15, 9})) << "any dash";
    EXPECT_EQ(value_of(parse_amounts("max")).of_round(1), 0) << "nothing is fixed";
    std::string hundred = "1";
    for (int i = 2; i <= 100; ++i)
        hundred += "-" + std::to_string(i);
    EXPECT_EQ(value_of(parse_amounts(hundred)).rounds(), 100);
    EXPECT_REFUSED(parse_amounts(hundred + "-101"));
    EXPECT_EQ(value_of(parse_amounts("1-2-…-100")).rounds(), 100);
    EXPECT_REFUSED(parse_amounts("1-2-…-101"));
    EXPECT_EQ(value_of(parse_amounts("1-2-…-3")).list, (std::vector<double>{1, 2, 3})) << "one step is enough";
    EXPECT_REFUSED(parse_amounts("1-2-…-2"));
    EXPECT_REFUSED(parse_amounts("5-5-…")) << "it does not grow";
    EXPECT_EQ(value_of(parse_amounts("3-6-…")).of_round(1), 3);
    EXPECT_EQ(value_of(parse_amounts("3-6-…")).of_round(0), 0);
    EXPECT_EQ(value_of(parse_amounts("21-15-9")).of_round(1), 21);
}

TEST(Bounds, Forecast) {
    const std::vector<Seconds> one{Seconds{1}};
    const auto reps = value_of(RepsPerRound::every_round(1));
    EXPECT_TRUE(forecast(Seconds{1e6}, one, reps, 0.8));
    EXPECT_REFUSED(forecast(Seconds{1e6 + 1}, one, reps, 0.8));
    EXPECT_REFUSED(forecast(Seconds{10}, one, reps, 0.8, Seconds{0.9e-5}));
    EXPECT_TRUE(forecast(Seconds{1}, one, reps, 0.8)) << "the last round ends at the cap";
    EXPECT_REFUSED(forecast(Seconds{below(1)}, one, reps, 0.8));
    EXPECT_TRUE(forecast_finish(1e6, one, 0.8));
    EXPECT_REFUSED(forecast_finish(above(1e6), one, 0.8));
    EXPECT_TRUE(forecast_finish(1, one, 0.8));
    EXPECT_REFUSED(forecast_finish(below(1), one, 0.8));
    for (const double confidence : {0.0, 1.0})
        EXPECT_REFUSED(forecast(Seconds{10}, one, reps, confidence));
    EXPECT_REFUSED(fade(one));
    EXPECT_REFUSED(steadiness(one));
}

TEST(Bounds, Scheme) {
    EXPECT_EQ(value_of(Scheme::near_even(999, 999)).sets(), 999);
    EXPECT_REFUSED(Scheme::near_even(1000, 1));
    EXPECT_REFUSED(Scheme::near_even(9, 10));
    EXPECT_REFUSED(Scheme::near_even(9, 0));
    EXPECT_EQ(value_of(Scheme::near_even(1, 1)).text(), "1");
}

TEST(Bounds, Score) {
    EXPECT_TRUE(RepsPerRound::every_round(1e9));
    EXPECT_REFUSED(RepsPerRound::every_round(1e9 + 1));
    EXPECT_REFUSED(RepsPerRound::every_round(0));
    const auto thirty = value_of(RepsPerRound::every_round(30));
    EXPECT_EQ(value_of(score_text(Reps{0}, thirty)), "0+0");
    EXPECT_EQ(value_of(score_text(Reps{29}, thirty)), "0+29");
    EXPECT_EQ(value_of(score_text(Reps{30}, thirty)), "1+0");
}

TEST(Bounds, AnnouncedTimesAndCounts) {
    const auto of = [](const std::string& text) { return read_announcement(text); };
    const auto asked = [](const Announcement& read) {
        return !read.marks.empty() && read.marks.front().kind == MarkKind::asked;
    };
    EXPECT_EQ(of("239 min AMRAP: 5 burpees").cap, Seconds{239 * 60});
    EXPECT_TRUE(asked(of("240 min AMRAP: 5 burpees"))) << "below 4 hours";
    EXPECT_EQ(of("AMRAP 120: 5 burpees").cap, Seconds{7200});
    EXPECT_NE(of("AMRAP 121: 5 burpees").cap, Seconds{7260}) << "nobody means a bare 121 as minutes";
    EXPECT_EQ(of("AMRAP 1: 5 burpees").cap, Seconds{60});
    EXPECT_EQ(of("teams of 20, AMRAP 12: 5 burpees").team, 20);
    EXPECT_EQ(of("teams of 21, AMRAP 12: 5 burpees").team, 1);
    EXPECT_TRUE(asked(of("teams of 21, AMRAP 12: 5 burpees")));
    EXPECT_EQ(of("200 rounds for time: 5 burpees").rounds, 200);
    EXPECT_TRUE(asked(of("201 rounds for time: 5 burpees")));
}

} // namespace
} // namespace pacecells
