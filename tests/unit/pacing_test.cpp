#include "pacecells/pacing.h"

#include "pacecells/athlete_plan.h"
#include "pacecells/text.h"

#include "block.h"
#include "expect.h"
#include "random.h"

#include <cmath>
#include <string>

namespace pacecells {
namespace {

// Step by step: the task in many parts, effort in shares of critical power, what is above it taken from the reserve; the
// least slowing down with which the reserve lasts.
double stepped(double time, double drift, double reserve, double gain) {
    constexpr int parts = 4000;
    const auto spent = [&](double slower) {
        double sum = 0;
        for (int i = 0; i < parts; ++i) {
            const double length = 1 + drift * ((i + 0.5) / parts - 0.5);
            const double effort = (1 + reserve / time) * (1 + gain * (1 / (slower * length) - 1));
            sum += std::max(0.0, effort - 1) * slower * length * time / parts;
        }
        return sum;
    };
    double low = 1;
    double high = 8;
    if (spent(low) <= reserve * (1 + 1e-9))
        return 0;
    for (int i = 0; i < 50; ++i)
        (spent((low + high) / 2) > reserve ? low : high) = (low + high) / 2;
    return time * (high - 1);
}

double cost(double time, double drift, double reserve = 75, double gain = 1) {
    return value_of(pacing_cost(Seconds{time}, drift, Seconds{reserve}, gain)).value();
}

TEST(Pacing, AgreesWithSteppingThroughTheTask) {
    EXPECT_NEAR(cost(1020, 0.2), 2.1015, 1e-4);
    EXPECT_EQ(cost(1020, 0.12), 0) << "at no time below critical power";
    Random random;
    int lost = 0;
    for (int i = 0; i < 300; ++i) {
        const double time = random.between(120, 5400);
        const double drift = random.between(-0.8, 0.8);
        const double reserve = random.between(20, 150);
        const double gain = random.between(1, 4);
        const double got = cost(time, drift, reserve, gain);
        ASSERT_NEAR(got, stepped(time, drift, reserve, gain), 1e-5 * time)
            << time << ' ' << drift << ' ' << reserve << ' ' << gain;
        lost += got > 0 ? 1 : 0;
    }
    EXPECT_GT(lost, 150);
}

// Fukuba and Whipp 1999, abstract: who is below critical speed in any part of the way never makes it up; the reserve over
// critical speed says how much the pace may differ. Here speed is effort, and the slowest part is at one of the ends.
TEST(Pacing, IsLostOnlyBelowCriticalSpeed) {
    Random random;
    int below = 0;
    for (int i = 0; i < 2000; ++i) {
        const double critical = random.between(3, 6);    // m/s
        const double reserve = random.between(100, 400); // m
        const double time = random.between(120, 3600);
        const double even = critical + reserve / time;
        const double drift = random.between(-0.5, 0.5);
        const double slowest = even / (1 + std::abs(drift) / 2);
        if (std::abs(slowest / critical - 1) < 1e-6)
            continue;
        EXPECT_EQ(cost(time, drift, reserve / critical) > 0, slowest < critical)
            << critical << ' ' << reserve << ' ' << time << ' ' << drift;
        below += slowest < critical ? 1 : 0;
    }
    EXPECT_GT(below, 300);
    EXPECT_LT(below, 1700);
}

// Even is never worse, and more drift, a longer task, less reserve or a steeper effort never cost less.
TEST(Pacing, KeepsItsOrder) {
    Random random;
    for (int i = 0; i < 3000; ++i) {
        const double time = random.between(60, 7200);
        const double drift = random.between(0, 0.9);
        const double reserve = random.between(10, 200);
        const double gain = random.between(1, 5);
        const double got = cost(time, drift, reserve, gain);
        ASSERT_GE(got, 0);
        ASSERT_EQ(cost(time, 0, reserve, gain), 0);
        ASSERT_DOUBLE_EQ(cost(time, -drift, reserve, gain), got) << "either way";
        ASSERT_GE(cost(time, 1.1 * drift, reserve, gain), got - 1e-9);
        ASSERT_GE(cost(1.1 * time, drift, reserve, gain), got - 1e-9);
        ASSERT_LE(cost(time, drift, 1.1 * reserve, gain), got + 1e-9);
        ASSERT_GE(cost(time, drift, reserve, 1.1 * gain), got - 1e-9);
    }
}

TEST(Pacing, RefusesWhatCannotBeMeant) {
    for (const double bad : {0.0, -1.0, infinite, not_a_number}) {
        EXPECT_REFUSED(pacing_cost(Seconds{bad}, 0.1));
        EXPECT_REFUSED(pacing_cost(Seconds{600}, 0.1, Seconds{bad}));
    }
    EXPECT_REFUSED(pacing_cost(Seconds{600}, 1.1));
    EXPECT_REFUSED(pacing_cost(Seconds{600}, -1.1));
    EXPECT_TRUE(pacing_cost(Seconds{600}, -1));
    EXPECT_TRUE(pacing_cost(Seconds{600}, 1));
    EXPECT_REFUSED(pacing_cost(Seconds{600}, not_a_number));
    EXPECT_REFUSED(pacing_cost(Seconds{600}, 0.1, Seconds{75}, 0.9));
    EXPECT_DOUBLE_EQ(reserve_time({Watts{240}, Joules{18000}}).value(), 75);
}

// --- in a plan ---------------------------------------------------------------------------------------------------

Plan plan(const std::string& settings, const std::string& keys = "", const std::string& cells = "",
          std::string text = std::string{block::tide_table}) {
    text = block::with(text, "rounds    | Rounds          |\n", "rounds    | Rounds          |\n" + settings);
    const auto workout = value_of(read_workout(block::table(text)));
    const auto tests = "name | ski.critical | ski.reserve\nName | |\nIlka Moorvane | 190 | 15000\n";
    const auto athlete = value_of(read_athlete(workout, block::table(tests), block::table("name | division" + keys),
                                               block::table("Ilka Moorvane | scaled" + cells)));
    return plan_for(workout, athlete);
}

bool says(const Plan& plan, const std::string& words) {
    for (const auto& note : plan.notes)
        if (note.message().find(words) != std::string::npos)
            return true;
    return false;
}

TEST(Pacing, BendsTheClocksOfACard) {
    const Plan even = plan("");
    const Plan fade = plan("pacing | | fade\nfade | | 0.2\n");
    const Plan faster = plan("pacing | | faster at the end\npush | | 0.2\n");
    EXPECT_EQ(even.drift, 0);
    EXPECT_FALSE(even.pacing_cost);
    EXPECT_DOUBLE_EQ(fade.drift, 0.2);
    EXPECT_DOUBLE_EQ(faster.drift, -0.2);
    const auto first = [](const Plan& one) { return one.goal->rounds.front().time.value(); };
    const auto last = [](const Plan& one) { return one.goal->rounds.back().time.value(); };
    EXPECT_LT(first(fade), last(fade));
    EXPECT_GT(first(faster), last(faster));
    EXPECT_DOUBLE_EQ(fade.goal->rounds.back().clock.value(), fade.goal->goal.clock.value());
    EXPECT_TRUE(says(fade, "Pacing: fade (20%), which costs"));
    EXPECT_TRUE(says(faster, "Pacing: faster at the end (20%), which costs"));
    EXPECT_FALSE(says(even, "Pacing"));
    EXPECT_TRUE(says(plan("pacing | | fade\nfade | | 0.02\n"), "costs nothing against even"));
}

TEST(Pacing, OfAPersonComesBeforeThatOfTheEvent) {
    const std::string event = "pacing | | fade\nfade | | 0.3\n";
    EXPECT_EQ(plan(event, " | pacing", " | even").pacing, Pacing::even);
    EXPECT_EQ(plan(event, " | pacing", " | ").pacing, Pacing::fade);
    EXPECT_EQ(plan("", " | pacing", " | am Ende schneller").pacing, Pacing::faster) << "in any language";
    EXPECT_EQ(plan(event, " | pacing | answer", " | even | more_left").pacing, Pacing::faster)
        << "after the practice round";
    const auto workout = value_of(read_workout(block::table(std::string{block::tide_table})));
    EXPECT_REFUSED(read_athlete(workout, block::table("name\nName\n"), block::table("name | division | pacing"),
                                block::table("Ilka Moorvane | scaled | zigzag")));
}

// What is lost of the goal, in its unit; half a second is the least that is said. Fades of 5 to 50 %.
void expect_said(const std::string& text, const std::string& goal, const std::string& unit,
                 double (*amount)(const Goal&, double lost)) {
    int nothing = 0;
    int least = 0;
    int said = 0;
    for (int i = 100; i <= 1000; ++i) {
        const double fade = i / 2000.0;
        const Plan made = plan("pacing | | fade\nfade | | " + number_text(fade) + "\n", " | goal", " | " + goal, text);
        const double lost = made.pacing_cost->value();
        const auto costs = lost < 0.5 ? "nothing" : number_text(amount(made.goal->goal, lost)) + unit;
        EXPECT_TRUE(says(made, "Pacing: fade (" + number_text(std::round(fade * 1000) / 10) + "%), which costs " +
                                   costs + " against even pace."))
            << fade << ' ' << lost << ' ' << costs;
        nothing += lost > 0.46 && lost < 0.5 ? 1 : 0;
        least += lost >= 0.5 && lost < 0.54 ? 1 : 0;
        said += lost >= 5 ? 1 : 0;
    }
    EXPECT_GT(nothing, 0);
    EXPECT_GT(least, 0);
    EXPECT_GT(said, 0);
}

TEST(Pacing, SaysWhatItCostsInTheUnitOfTheGoal) {
    const std::string tide{block::tide_table};
    expect_said(tide, "", " reps", [](const Goal& goal, double lost) {
        return std::round(10 * lost / goal.clock.value() * goal.score.reps) / 10;
    });
    const auto timed = block::with(block::with(tide, "| AMRAP", "| for time"),
                                   "station   | 1  |            | ski cal |      | 14       | 12 ",
                                   "station | 1 | | ski cal | | 200 | 150");
    expect_said(timed, "16:00", " s", [](const Goal&, double lost) { return std::round(lost); });
    auto runs = tide;
    for (const auto* row :
         {"| Sandbags   | rep     |      | 6        | 6  ", "| Box step-overs | rep |      | 10       | 8  ",
          "| Ring rows  | rep     |      | 8        | 6  "})
        runs = block::with(runs, row, "| | | | | ");
    runs = block::with(runs, "|            | ski cal |      | 14       | 12 ", "| Run | run m | | 200 | 200");
    runs = block::with(runs, "| 1  |       | 620  |      | 4 ", "| 1 | | | 5:00 | 4");
    expect_said(runs, "", " rounds", [](const Goal& goal, double lost) {
        return std::round(100 * lost / goal.clock.value() * goal.score.rounds) / 100;
    });
}

// The suggested goal is what the pacing leaves: never above that of even pace, and lower the more it costs.
TEST(Pacing, TheSuggestedGoalAllowsForIt) {
    double rounds = plan("").suggested->score.rounds;
    double lost = 0;
    const double even = rounds;
    for (const auto* fade : {"0.06", "0.12", "0.2", "0.3", "0.4", "0.5"}) {
        // The same fade is in the forecast, so the goal is compared with that of even pace at it.
        const std::string usual = std::string("fade | | ") + fade + "\n";
        const Plan with = plan("pacing | | fade\n" + usual);
        EXPECT_LE(with.suggested->score.rounds, plan(usual).suggested->score.rounds) << fade;
        EXPECT_GE(with.pacing_cost->value(), lost) << fade;
        lost = with.pacing_cost->value();
        rounds = with.suggested->score.rounds;
    }
    EXPECT_LT(rounds, even);
    EXPECT_GT(lost, 10);
    EXPECT_EQ(plan("push | | 0.06\npacing | | faster\n").suggested->score.rounds, even) << "6 % cost nothing here";
}

} // namespace
} // namespace pacecells
