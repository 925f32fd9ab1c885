#include "pacecells/sets.h"

#include "expect.h"
#include "plain_sets.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>

namespace pacecells {
namespace {

TEST(Plan, WithARestTheFewestSets) {
    const auto planned = [](int reps, double rounds, double max_unbroken, double away) {
        return plan(work(reps, rounds, max_unbroken, away), 3).scheme.text();
    };
    EXPECT_EQ(planned(9, 9, 18, 80), "5-4");
    EXPECT_EQ(planned(10, 5, 15, 90), "3-3-2-2");
    EXPECT_EQ(planned(20, 5, 40, 40), "4x5");
    EXPECT_UNSOLVABLE(plan_sets(work(10, 5, 12, 90), Seconds{3}));
    EXPECT_EQ(plan(work(9, 9, 18, 80), 3).rest.value(), 3);
    EXPECT_EQ(plan(work(9, 9, 30, 80), 3).rest.value(), 0) << "one set has no rest";
}

TEST(Plan, WithoutARestSetsAndRestTogether) {
    // Check values of the simulation.
    const auto expect = [](const SetWork& task, const char* sets, double rest) {
        const auto got = plan(task);
        EXPECT_EQ(got.scheme.text(), sets);
        EXPECT_NEAR(got.rest.value(), rest, 5e-5) << sets;
        EXPECT_EQ(plan(task, 0), got) << "a rest of 0 is one left out";
        EXPECT_EQ(value_of(rest_needed(task)), got.rest);
    };
    expect(work(10, 5, 20, 120), "10", 0);
    expect(work(9, 9, 20, 80), "9", 0);
    expect(work(9, 9, 18, 80), "5-4", 3);
    expect(work(9, 9, 15, 80), "5-4", 18.2428);
    expect(work(10, 5, 12, 90), "3-3-2-2", 9.3920);
    expect(work(8, 5, 10, 90), "3-3-2", 12.1217);
    expect(work(10, 5, 8, 90), "2-2-6x1", 13.3868);
    expect(work(20, 5, 40, 40), "10-10", 7.9521);
    expect(work(5, 5, 3, 90), "5x1", 68.3816);
    EXPECT_UNSOLVABLE(plan_sets(work(1, 2, 1, 120)));
    EXPECT_UNSOLVABLE(rest_needed(work(1, 2, 1, 120)));
    EXPECT_EQ(plan(work(9, 8.5, 15, 80)), plan(work(9, 9, 15, 80))) << "half a round counts as a whole one";
}

TEST(Plan, TheMarginIsATenthOfTheRepsBeyondOne) {
    EXPECT_NEAR(default_margin(Reps{3}).value(), 0.2, 1e-12);
    EXPECT_NEAR(default_margin(Reps{20}).value(), 1.9, 1e-12);
    EXPECT_EQ(default_margin(Reps{1}).value(), 0);
    EXPECT_EQ(plan(work(10, 1, 11, 0)).scheme.text(), "10") << "exactly 1 left is enough, whatever the rounding";
    EXPECT_NE(plan(work(10, 1, 10.99, 0)).scheme.text(), "10");
    const auto with_margin = [](double margin) {
        auto task = work(9, 9, 30, 80);
        task.margin = Reps{margin};
        return plan(task).scheme.text();
    };
    EXPECT_EQ(with_margin(0), "9");
    EXPECT_EQ(with_margin(12.9797), "9");
    EXPECT_NE(with_margin(12.9798), "9");
}

TEST(Plan, AgreesWithTryingEveryNumberOfSets) {
    Random random;
    int broken = 0;
    int refused = 0;
    for (int i = 0; i < 300; ++i) {
        const auto task = random_work(random, 16, 5);
        const auto expected = plain_plan(task);
        const auto got = plan_sets(task);
        if (!expected) {
            ++refused;
            ASSERT_TRUE(has_error(got, ErrorKind::no_solution)) << told(task);
            continue;
        }
        broken += expected->sets > 1;
        ASSERT_EQ(value_of(got).scheme, value_of(Scheme::near_even(task.reps, expected->sets))) << told(task);
        ASSERT_NEAR(value_of(got).rest.value(), expected->rest, 1e-5 * (1 + expected->rest)) << told(task);
    }
    EXPECT_GT(broken, 50);
    EXPECT_GT(refused, 5);
}

TEST(Plan, WithARestAgreesWithTryingEveryNumberOfSets) {
    Random random;
    int planned = 0;
    int refused = 0;
    for (int i = 0; i < 10'000; ++i) {
        const auto task = random_work(random, 20, 6);
        const double rest = random.between(0.1, 30);
        int expected = 1;
        while (expected <= task.reps &&
               plain_left(plain_near_even(task.reps, expected), static_cast<int>(task.rounds),
                          task.max_unbroken.value(), task.away.value(), rest, task.recovery) < margin_of(task) - 1e-9)
            ++expected;
        const auto got = plan_sets(task, Seconds{rest});
        if (expected > task.reps) {
            ++refused;
            ASSERT_TRUE(has_error(got, ErrorKind::no_solution)) << told(task);
        } else {
            ++planned;
            ASSERT_EQ(value_of(got).scheme, value_of(Scheme::near_even(task.reps, expected))) << told(task);
        }
    }
    EXPECT_GT(planned, 300);
    EXPECT_GT(refused, 300);
}

// A plan is worse when it is lost, or when its rests of a round cost more than the band of the planner allows over
// those of the old one. (Within the band the planner trades rests for breaks, so that a second or a break more is no
// worse.)
void expect_no_worse(const SetWork& before, const SetWork& after) {
    const auto old_plan = plan_sets(before);
    if (!old_plan)
        return;
    const auto new_plan = plan_sets(after);
    ASSERT_TRUE(new_plan) << "lost: " << told(before) << "; " << told(after);
    ASSERT_GE(left(after, old_plan->scheme, old_plan->rest.value()), margin_of(after) - 2e-9)
        << "the old plan no longer serves: " << told(before) << "; " << told(after);
    const auto cost = [](const SetPlan& one) { return (one.scheme.sets() - 1) * one.rest.value(); };
    ASSERT_LE(cost(*new_plan), cost(*old_plan) + std::max(5.0, 0.1 * cost(*old_plan)) + 1e-6)
        << told(before) << "; " << told(after);
}

TEST(Plan, BetterConditionsNeverWorsenIt) {
    Random random;
    for (int i = 0; i < 10'000; ++i) {
        const auto task = random_work(random, 25, 12);
        const double more = random.between(0, 5);
        auto away = task;
        away.away += Seconds{more};
        expect_no_worse(task, away);
        auto stronger = task;
        stronger.max_unbroken += Reps{more};
        expect_no_worse(task, stronger);
        auto faster = task;
        faster.recovery += more;
        expect_no_worse(task, faster);
        ASSERT_FALSE(testing::Test::HasFatalFailure());

        const double rest = random.between(0.1, 30);
        if (const auto given = plan_sets(task, Seconds{rest})) {
            const auto sets = given->scheme.sets();
            ASSERT_LE(plan(task, rest + more).scheme.sets(), sets) << told(task);
            ASSERT_LE(plan(away, rest).scheme.sets(), sets) << told(task);
            ASSERT_LE(plan(stronger, rest).scheme.sets(), sets) << told(task);
            ASSERT_LE(plan(faster, rest).scheme.sets(), sets) << told(task);
        }
    }
}

TEST(Plan, EveryOrdinaryTaskHasOne) {
    int tasks = 0;
    int unbroken = 0;
    for (const int max_unbroken : {8, 12, 15, 20, 25}) {
        for (const int reps : {5, 8, 10, 12}) {
            if (reps > max_unbroken)
                continue;
            for (const int rounds : {3, 5, 8, 10}) {
                for (const double away : {60.0, 90.0, 120.0}) {
                    const auto got = plan(work(reps, rounds, max_unbroken, away));
                    ++tasks;
                    unbroken += got.scheme.sets() == 1;
                    EXPECT_LE(got.rest.value(), 30) << told(work(reps, rounds, max_unbroken, away));
                }
            }
        }
    }
    EXPECT_EQ(tasks, 216);
    EXPECT_EQ(unbroken, 117) << "as many as the simulation finds";
}

TEST(Plan, RefusesWhatCannotBeMeant) {
    const auto expect_refused = [](const SetWork& task) {
        EXPECT_REFUSED(plan_sets(task));
        EXPECT_REFUSED(plan_sets(task, Seconds{3}));
        EXPECT_REFUSED(rest_needed(task));
        EXPECT_REFUSED(rest_needed(task, 1));
        EXPECT_REFUSED(plan_fall_back(task));
    };
    for (const int bad : {0, -1, 1000, std::numeric_limits<int>::max(), std::numeric_limits<int>::min()}) {
        expect_refused(work(bad, 9, 30, 80));
        EXPECT_REFUSED(rest_needed(work(9, 9, 30, 80), bad));
    }
    for (const double bad : {0.0, -1.0, 10'000.0, 1e300, infinite, -infinite, not_a_number}) {
        expect_refused(work(9, bad, 30, 80));
        EXPECT_REFUSED(reps_left(scheme("9"), bad, Reps{30}, Seconds{80}));
    }
    for (const double bad : {-1.0, infinite, -infinite, not_a_number}) {
        expect_refused(work(9, 9, bad, 80));
        expect_refused(work(9, 9, 30, bad));
        auto task = work(9, 9, 30, 80);
        task.margin = Reps{bad};
        expect_refused(task);
        task = work(9, 9, 30, 80);
        task.recovery = bad;
        expect_refused(task);
        EXPECT_REFUSED(plan_sets(work(9, 9, 30, 80), Seconds{bad}));
        EXPECT_REFUSED(reps_left(scheme("9"), 9, Reps{bad}, Seconds{80}));
        EXPECT_REFUSED(reps_left(scheme("9"), 9, Reps{30}, Seconds{bad}));
        EXPECT_REFUSED(reps_left(scheme("9"), 9, Reps{30}, Seconds{80}, Seconds{bad}));
        EXPECT_REFUSED(reps_left(scheme("9"), 9, Reps{30}, Seconds{80}, Seconds{3}, bad));
    }
    expect_refused(work(9, 9, 0.99, 80));
    EXPECT_REFUSED(reps_left(scheme("9"), 9, Reps{30}, Seconds{80}, Seconds{3}, 0));
    EXPECT_REFUSED(reps_left(scheme("9"), 9, Reps{30}, Seconds{80}, Seconds{3}, 0.00099)); // a search without end
    EXPECT_TRUE(reps_left(scheme("9"), 9, Reps{30}, Seconds{80}, Seconds{3}, 0.001));
    EXPECT_REFUSED(rest_needed(work(9, 9, 30, 80), 10));
}

TEST(Plan, HugeNumbersGiveAnAnswerOrAnError) {
    EXPECT_EQ(plan(work(999, 1, 1e300, 0)).scheme.text(), "999");
    EXPECT_UNSOLVABLE(plan_sets(work(999, most_rounds, 30, 0), Seconds{3}));
    EXPECT_EQ(plan(work(999, most_rounds, 30, 0)).scheme.reps(), 999);
    auto task = work(999, most_rounds, 1e12, 1e300);
    task.margin = Reps{0};
    EXPECT_EQ(plan(task, 1e308).scheme.text(), "999");
    task = work(9, 9, 12, 80);
    for (const double recovery : {5e-324, 1e-300, 1e-9, 0.001, 1e9, 1e300}) {
        task.recovery = recovery;
        const auto got = plan_sets(task);
        EXPECT_TRUE(!got || std::isfinite(got->rest.value())) << recovery;
    }
    task.margin = Reps{1e300};
    EXPECT_UNSOLVABLE(plan_sets(task));
    EXPECT_TRUE(std::isfinite(left("999x1", most_rounds, 1e308, 1e308, 1e308)));
}

TEST(FallBack, IsThePlanForAWeakerDay) {
    const auto back = value_of(plan_fall_back(work(9, 9, 18, 80)));
    EXPECT_EQ(back.scheme.text(), "5-4");
    EXPECT_NEAR(back.rest.value(), 10.2, 0.05);
    EXPECT_EQ(back, plan(work(9, 9, 18 - 1.78, 80)));
    EXPECT_EQ(value_of(plan_fall_back(work(9, 9, 20, 80), {}, MaximumFrom::load)), plan(work(9, 9, 15, 80)));
    EXPECT_EQ(value_of(plan_fall_back(work(9, 9, 18, 80), Seconds{5})), plan(work(9, 9, 16.22, 80), 5));
}

TEST(FallBack, CountsOnOneAndAHalfRepsAtLeast) {
    EXPECT_EQ(value_of(plan_fall_back(work(3, 3, 1.8, 600))), plan(work(3, 3, 1.5, 600)));
    EXPECT_EQ(value_of(plan_fall_back(work(3, 3, 1.3, 600))), plan(work(3, 3, 1.3, 600)));
    EXPECT_NE(plan(work(3, 3, 1.8, 600)), plan(work(3, 3, 1.5, 600)));
}

TEST(FallBack, IsSinglesWhereNoPlanIs) {
    auto task = work(4, 5, 6, 60);
    task.margin = Reps{4};
    const auto back = value_of(plan_fall_back(task));
    EXPECT_EQ(back.scheme.text(), "4x1");
    EXPECT_EQ(back.rest, plan(task).rest);
    EXPECT_EQ(value_of(plan_fall_back(task, Seconds{0})), back) << "a rest of 0 is one left out";
    EXPECT_EQ(value_of(plan_fall_back(work(10, 5, 13.4, 90), Seconds{3})).scheme.text(), "10x1");
    EXPECT_EQ(value_of(plan_fall_back(work(10, 5, 13.4, 90), Seconds{3})).rest.value(), 3);
    EXPECT_UNSOLVABLE(plan_fall_back(work(1, 2, 1, 120)));
}

} // namespace
} // namespace pacecells
