#include "load_cells.h"
#include "wording.h"

#include "pacecells/load_table.h"

#include "pacecells/running_heat.h"

#include "block.h"
#include "data.h"
#include "expect.h"

#include <numeric>
#include <string>

namespace pacecells {
namespace {

const std::string workout_text =
    "pacecells.workout | | value\n"
    "version | | 1\n"
    "language | | en\n"
    "format | | time\n"
    "cap | | 15:00\n"
    "stations | no | movement | unit | when | amount.1 | amount.2 | load.1 | load.2\n"
    "divisions | | | | | long | short | |\n"
    "station | 1 | Deadlifts | rep | | 21-15-9 | 15-12-9 | 100 | 60\n"
    "station | 2 | Dumbbell snatches | rep | | 21-15-9 | 15-12-9 | 22.5 | 15\n"
    "station | 3 | Row | row cal | | 12 | 10 | |\n"
    "station | 4 | Thrusters | rep | | 9 | 9 | 43 | 15\n"
    "station | 5 | deadlifts | rep | | 5 | 5 | 100 | 60\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | 3 | | | | | | | 30 |\n"
    "pace | 2 | 3 | | | | | | | 30 |\n"
    "pace | 3 | | 800 | | | | | | |\n"
    "pace | 4 | 3 | | | | | | | 30 |\n"
    "pace | 5 | 3 | | | | | | | 30 |\n"
    "end |\n";

struct Person {
    Workout workout;
    Athlete athlete;
};

Person person(const std::string& tests, const std::string& row, const std::string& text = workout_text) {
    Person made{value_of(read_workout(block::table(text))), {}};
    made.athlete = value_of(
        read_athlete(made.workout, block::table(tests), block::table("name | division | plan"), block::table(row)));
    return made;
}

std::vector<LoadLine> lines_of(const Person& one, const Bar& bar = {}) {
    return load_table(one.workout, one.athlete, bar);
}

std::string side(const std::optional<OnBar>& on) { return on && on->each_side ? plates_text(*on->each_side) : "-"; }

const std::string maxima = "name | max | max | max\n"
                           "Name | Deadlifts | Thrusters | Dumbbell snatches\n"
                           "Ilka Moorvane | 150 | 70 | 30\n";

TEST(LoadTable, ALadderIsLookedAtAsFarAsThereAreClocks) {
    auto text = block::with(workout_text, "format | | time", "format | | amrap");
    text = block::with(text, "Deadlifts | rep | | 21-15-9 | 15-12-9", "Deadlifts | rep | | 1-2-3-… | 2-4-6-…");
    text = block::with(text, "snatches | rep | | 21-15-9 | 15-12-9", "snatches | rep | | 5 | 5");
    text = block::with(text, "deadlifts | rep | | 5 | 5", "deadlifts | rep | | 60 | 5");
    text = block::with(text, "| 100 | 60\nstation | 2", "| 90 | 60\nstation | 2");
    EXPECT_EQ(lines_of(person(maxima, "Ilka Moorvane | long |", text))[0].reps, most_heat_rounds);
    EXPECT_EQ(lines_of(person(maxima, "Ilka Moorvane | short |", text))[0].reps, 2 * most_heat_rounds);
}

TEST(LoadTable, ALoadOfNothingIsNone) {
    const auto lines = lines_of(
        person(maxima, "Ilka Moorvane | long |", block::with(workout_text, "| 9 | 9 | 43 | 15", "| 9 | 9 | 0 | 15")));
    ASSERT_EQ(lines.size(), 3u);
    EXPECT_FALSE(lines[2].load) << "thrusters";
    EXPECT_FALSE(lines[2].share);
    EXPECT_TRUE(lines[2].maximum);
}

TEST(LoadTable, RepsLieBetweenTheTwoFormulas) {
    // By hand: Epley 30 (1 / share - 1), Brzycki 37 - 36 share; whole reps.
    struct Case {
        double share;
        int from, to;
    };
    for (const auto& one :
         {Case{1, 1, 1}, Case{0.9, 3, 4}, Case{0.8, 7, 8}, Case{0.7, 11, 12}, Case{0.6, 15, 20}, Case{0.5, 19, 30}}) {
        const auto reps = value_of(reps_expected(one.share));
        EXPECT_EQ(reps.from, one.from) << one.share;
        EXPECT_EQ(reps.to, one.to) << one.share;
    }
    for (const auto& row : data::table("load_handbook").rows) {
        const auto reps = value_of(reps_expected(row.number("percent") / 100));
        EXPECT_GE(row.number("reps"), reps.from - 1) << row.number("percent");
        EXPECT_LE(row.number("reps"), reps.to + 1) << row.number("percent");
    }
    EXPECT_REFUSED(reps_expected(0));
    EXPECT_REFUSED(reps_expected(1.1));
}

TEST(LoadTable, SaysWhatGoesOnTheBar) {
    const auto one = person(maxima, "Ilka Moorvane | long |");
    const auto lines = lines_of(one);
    ASSERT_EQ(lines.size(), 3u) << "deadlifts once, although they come twice";
    const auto& lifts = lines[0];
    EXPECT_EQ(lifts.reps, 21) << "of the largest round";
    EXPECT_EQ(lifts.maximum, 150);
    EXPECT_EQ(lifts.load, 100);
    EXPECT_NEAR(*lifts.share, 2.0 / 3, 1e-12);
    EXPECT_EQ(side(lifts.made), "25 + 15") << "(100 - 20) / 2";
    EXPECT_EQ(lifts.unbroken->from, 13) << "37 - 36 x 2/3";
    EXPECT_EQ(lifts.unbroken->to, 15) << "30 x 1/2";
    EXPECT_EQ(lifts.up_to->load, 75) << "half of 150 for 15 reps or more";
    EXPECT_EQ(side(lifts.up_to), "25 + 2.5");
    ASSERT_TRUE(lifts.caution);
    EXPECT_EQ(lifts.caution->message(),
              "Deadlifts: the load is 67% of the maximum; for 21 reps per round more than 50% "
              "is a reason to scale.");
    // 75, 90, 105, 120, 135 kg.
    for (std::size_t k = 0; k < lifts.steps.size(); ++k)
        EXPECT_EQ(lifts.steps[k]->load, 75 + 15 * static_cast<double>(k));
    EXPECT_EQ(side(lifts.steps[2]), "25 + 15 + 2.5");

    const auto& snatches = lines[1];
    EXPECT_EQ(side(snatches.made), "-") << "no barbell";
    EXPECT_EQ(snatches.steps[0]->load, 15);
    EXPECT_TRUE(snatches.caution) << "75 % for 21 reps";

    const auto& thrusters = lines[2];
    EXPECT_EQ(thrusters.load, 43);
    EXPECT_EQ(thrusters.made->load, 42.5) << "43 kg are not made of plates";
    EXPECT_EQ(side(thrusters.made), "10 + 1.25");
    EXPECT_EQ(thrusters.up_to->load, 47.5) << "70 % of 70 for 5 to 9 reps are 49";
    EXPECT_FALSE(thrusters.caution) << "61 %";
}

TEST(LoadTable, InPounds) {
    const auto lines = lines_of(person(maxima, "Ilka Moorvane | long |"), {LoadUnit::pounds, 45});
    EXPECT_NEAR(*lines[0].maximum, 330.693, 0.001) << "150 kg";
    EXPECT_EQ(lines[0].made->load, 220) << "220.46";
    EXPECT_EQ(side(lines[0].made), "45 + 35 + 5 + 2.5");
    EXPECT_EQ(lines[0].steps[0]->load, 165) << "half of 330.7";
    EXPECT_NEAR(*lines[0].share, 2.0 / 3, 1e-12) << "the same share in any unit";
}

// The plates add up, steps follow the shares, and who is stronger never gets less on the bar.
TEST(LoadTable, KeepsItsOrder) {
    double before = 0;
    for (double maximum = 25; maximum <= 300; maximum += 2.5) {
        const auto tests = "name | max\nName | Deadlifts\nIlka Moorvane | " + std::to_string(maximum) + "\n";
        for (const Bar bar : {Bar{}, Bar{LoadUnit::kilograms, 15}, Bar{LoadUnit::pounds, 45}}) {
            const auto line = lines_of(person(tests, "Ilka Moorvane | short |"), bar).front();
            double last = 0;
            for (const auto& step : line.steps) {
                ASSERT_TRUE(step);
                EXPECT_GE(step->load, last);
                last = step->load;
                if (step->each_side) {
                    const double plates = std::accumulate(step->each_side->begin(), step->each_side->end(), 0.0);
                    EXPECT_NEAR(bar.weight + 2 * plates, step->load, 1e-9);
                } else {
                    EXPECT_LT(step->load, bar.weight);
                }
            }
            EXPECT_EQ(line.caution.has_value(), maximum * load_limit(15) < 60 - 1e-6) << maximum;
            EXPECT_LE(line.up_to->load, *line.maximum * load_limit(15) + 1e-9);
            if (bar.unit == LoadUnit::kilograms && bar.weight == 20) {
                EXPECT_GE(line.steps[3]->load, before);
                before = line.steps[3]->load;
            }
        }
    }
}

TEST(LoadTable, WhoHasNoMaximumGetsTheBarAlone) {
    const auto lines = lines_of(person("name\nName\n", "Bero Tann | long |"));
    ASSERT_EQ(lines.size(), 2u) << "deadlifts and thrusters; dumbbells have no plates";
    EXPECT_EQ(side(lines[0].made), "25 + 15");
    EXPECT_FALSE(lines[0].maximum);
    EXPECT_FALSE(lines[0].steps[0]);
    EXPECT_FALSE(lines[0].caution);
    const auto lighter = lines_of(person("name\nName\n", "Bero Tann | short |"));
    ASSERT_EQ(lighter.size(), 1u) << "15 kg are less than the bar";
    EXPECT_EQ(lines_of(person("name\nName\n", "Bero Tann | short |"), {LoadUnit::kilograms, 15}).size(), 2u);
    EXPECT_EQ(lines_of(person(maxima, "Ilka Moorvane | long | technique")).size(), 3u);
    EXPECT_TRUE(lines_of(person(maxima, "Ilka Moorvane | long | not today")).empty());
    EXPECT_TRUE(lines_of(person(maxima, " | long |")).empty());
}

TEST(LoadTable, KnowsOtherImplementsInEveryLanguage) {
    for (const auto* name : {"Deadlifts", "Thrusters", "hang power cleans", "Kreuzheben", "Sentadillas traseras",
                             "soulevé de terre", "box squats", "épaulés-jetés"})
        EXPECT_FALSE(implement_of(name)) << name;
    struct Case {
        const char* name;
        const char* implement;
    };
    for (const auto& [name, implement] :
         {Case{"Dumbbell snatches", "dumbbell"}, Case{"KB swings", "kettlebell"}, Case{"KB-swings", "kettlebell"},
          Case{"Wall balls", "ball"}, Case{"sandbags over shoulder", "sandbag"}, Case{"Goblet squats", "loose"},
          Case{"Kurzhantel-Umsetzen", "dumbbell"}, Case{"Sandsäcke", "sandbag"},
          Case{"swings con pesa rusa", "kettlebell"}, Case{"Lanzamiento de balón", "ball"},
          Case{"arraché haltère", "dumbbell"}, Case{"sac de sable", "sandbag"}, Case{"dumbbell step-overs", "dumbbell"},
          Case{"step-overs with a dumbbell", "dumbbell"}})
        EXPECT_EQ(implement_of(name), implement) << name;
}

TEST(LoadTable, SaysWhatToFetch) {
    const auto one = person(maxima, "Ilka Moorvane | long |");
    const auto lines = lines_of(one);
    EXPECT_FALSE(lines[0].implement) << "deadlifts";
    EXPECT_EQ(lines[1].implement, "dumbbell");
    constexpr std::size_t sides = 5;
    const auto kilograms = load_cells(one.workout, lines[1], {}, Language::en);
    EXPECT_EQ(std::get<std::string>(kilograms[sides]), "dumbbell, 22.5 kg");
    EXPECT_TRUE(std::holds_alternative<std::monostate>(kilograms[first_share_column + 1])) << "no dash";
    const Bar bar{LoadUnit::pounds, 45};
    EXPECT_EQ(std::get<std::string>(load_cells(one.workout, lines_of(one, bar)[1], bar, Language::en)[sides]),
              "dumbbell, 49.6 lb")
        << "as announced, not rounded to plates: 22.5 / 0.45359237";
    EXPECT_EQ(fetched("sandbag", 45, LoadUnit::kilograms, Language::en).sentence, "1 %1, %2 %3");
    EXPECT_EQ(spoken(fetched("sandbag", 45, LoadUnit::kilograms, Language::en), Language::en), "1 sandbag, 45 kg");
    EXPECT_EQ(spoken(fetched("loose", 20, LoadUnit::kilograms, Language::en), Language::en), "weight of 20 kg");
    const auto light = person("name | max\nName | Thrusters\nBero Tann | 40\n", "Bero Tann | short |");
    EXPECT_EQ(std::get<std::string>(load_cells(light.workout, lines_of(light).back(), {}, Language::en)[sides]),
              "a lighter bar")
        << "15 kg on a bar of 20";
}

TEST(LoadTable, AboveTheMaximumIsSaid) {
    const auto lines = lines_of(person("name | max\nName | Deadlifts\nCilla Feld | 90\n", "Cilla Feld | long |"));
    EXPECT_EQ(lines[0].caution->message(), "Deadlifts: the load is above the athlete's maximum; scale it.");
    EXPECT_FALSE(lines[0].unbroken);
    EXPECT_FALSE(load_caution("Cleans", 1, 1)->message().empty()) << "the maximum itself is more than 80 %";
    EXPECT_FALSE(load_caution("Cleans", 0.8, 1));
}

// In a pair each does half of the reps, and a load is judged by those.
TEST(LoadTable, InATeamTheOwnRepsCount) {
    const auto team = block::with(workout_text, "version | | 1\n", "version | | 1\nteam | | 2\nat_once | | 1\n");
    const auto one = person(maxima, "Ilka Moorvane | long |", team);
    EXPECT_EQ(lines_of(one)[0].reps, 11) << "half of 21, up";
    EXPECT_EQ(lines_of(one)[0].up_to->load, 90) << "60 % of 150 for 10 reps or more";
    const auto plan = plan_for(one.workout, one.athlete);
    bool said = false;
    for (const auto& note : plan.notes)
        said = said || note.message().find("for 11 reps per round more than 60%") != std::string::npos;
    EXPECT_TRUE(said);
}

} // namespace
} // namespace pacecells
