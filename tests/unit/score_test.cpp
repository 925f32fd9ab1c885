#include "pacecells/score.h"

#include "data.h"
#include "expect.h"
#include "random.h"

#include <numeric>

namespace pacecells {
namespace {

using Numbers = std::vector<double>;
using Column = std::vector<std::optional<double>>;

RepsPerRound thirty() { return value_of(RepsPerRound::every_round(30)); }

Result<Reps> reps(const char* text, const RepsPerRound& reps_per_round) {
    const auto score = parse_score(text);
    return score ? reps_of(*score, reps_per_round) : score.error();
}

// ---- reading and writing scores ----

TEST(Score, ReadsRoundsAndReps) {
    const auto score = value_of(parse_score("7+21"));
    EXPECT_EQ(score.rounds, 7);
    EXPECT_EQ(score.reps, 21);
    EXPECT_EQ(value_of(parse_score(" 7 + 21 ")).reps, 21);
    EXPECT_EQ(value_of(parse_score("0+0")).rounds, 0);
    EXPECT_EQ(value_of(parse_score("999999999+21")).rounds, 999'999'999);
    for (const char* bad : {"", "7", "231", "+", "7+", "+21", "7+21+3", "7.5+2", "-7+2", "7+-2", "7 2+1", "a+b",
                            "7+1e2", "9999999999+1", "7\xC2\xB2+1"})
        EXPECT_REFUSED(parse_score(bad)) << bad;
}

TEST(Score, TwoRoundsOfAListAreAList) {
    const Numbers list{10, 12};
    const auto two = value_of(RepsPerRound::by_round(list));
    EXPECT_EQ(two.of_rounds(2), 22);
    EXPECT_NEAR(two.of_rounds(1.5).value(), 16, 1e-12);
    EXPECT_EQ(two.of_rounds(2 + 1e-10), 22) << "a trace beyond the last is the last";
    EXPECT_FALSE(two.of_rounds(2.001));
}

// Beyond 10^15 a double leaves out numbers soon; nobody does so many.
TEST(Score, AtTheEdges) {
    const Seconds cap{600};
    EXPECT_EQ(value_of(project(cap, Seconds{0.5}, Reps{1})), Reps{1200});
    EXPECT_EQ(project(cap, Seconds{0}, Reps{1}).error().message().find("The time so far is 0:00"), 0u);
    EXPECT_EQ(value_of(project(cap, cap, Reps{1e15})), Reps{1e15});
    EXPECT_REFUSED(project(cap, cap, Reps{1.05e15}));
    EXPECT_EQ(value_of(capped(Reps{1e15}, cap)), cap + Seconds{1e15});
    EXPECT_REFUSED(capped(Reps{1e15 + 1}, cap));
    EXPECT_EQ(value_of(result_text(cap, cap, Reps{1})), "CAP+1");
    EXPECT_EQ(value_of(result_text(Seconds{1}, cap)), "0:01");
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

// ---- results ----

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
    EXPECT_EQ(value_of(result_text(cap, cap, Reps{23})), "CAP+23");
    EXPECT_EQ(value_of(result_text(value_of(capped(Reps{23}, cap)), cap, Reps{23})), "CAP+23");
    EXPECT_EQ(value_of(result_text(Seconds{0}, cap, Reps{23})), "CAP+23") << "no time typed";
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

// A tie-break of 0 is one left out, but only beside the own score.
TEST(Place, NobodyWithThisScoreHasABlankTieBreak) {
    const Column scores{12, 10};
    const Column tiebreaks{std::nullopt, 5};
    EXPECT_REFUSED(both({.score = 10, .tiebreak = 0}, {.scores = scores, .tiebreaks = tiebreaks}));
    EXPECT_EQ(value_of(both({.score = 12, .tiebreak = 0}, {.scores = scores, .tiebreaks = tiebreaks})), 1);
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
