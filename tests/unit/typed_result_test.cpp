#include "pacecells/typed_result.h"

#include "block.h"
#include "expect.h"
#include "random.h"

#include "pacecells/score.h"

#include <string>
#include <vector>

namespace pacecells {
namespace {

const std::string rounds =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | AMRAP\ncap | 12:00\n"
    "stations | no | movement | unit | when | amount.1 | amount.2\n"
    "divisions | | | | | open | grown\n"
    "station | 1 | Rowing | row cal | | 12 | 10\n"
    "station | 2 | Floor presses | rep | | 10 | 3-5-7-…\n"
    "station | 3 | Run | run m | | 200 | 200\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | | 1000 | | 4 | | | | |\n"
    "pace | 2 | 2 | | | | | | | 20 |\n"
    "pace | 3 | | | 5:00 | | | | | |\n"
    "end |\n";
const std::string timed =
    block::with(rounds, "format | AMRAP\ncap | 12:00\n", "format | for time\ncap | 12:00\nrounds | 4\n");

Workout read(const std::string& text) { return value_of(read_workout(block::table(text))); }
std::vector<Seconds> clocks(const std::vector<double>& all) { return {all.begin(), all.end()}; }

ReadResult result(const std::string& text, const TypedResult& typed, std::size_t division = 0) {
    const auto made = value_of(read_result(read(text), division, typed));
    return made ? *made : ReadResult{-1, {}, "none"};
}
std::string refusal(const std::string& text, const TypedResult& typed) {
    const auto made = read_result(read(text), 0, typed);
    return made ? "read" : made.error().message();
}

TEST(TypedResult, OfRoundsIsRoundsDoneAndRepsOfTheOpenOne) {
    const auto two = clocks({150, 301});
    EXPECT_EQ(result(rounds, {.clocks = two, .reps = "6"}).reps, 2 * 22 + 6);
    EXPECT_EQ(result(rounds, {.clocks = two, .reps = " 6 "}).text, "2+6");
    EXPECT_EQ(result(rounds, {.clocks = two}).text, "2+0") << "nothing of the third";
    EXPECT_EQ(result(rounds, {.reps = "0"}).text, "0+0") << "somebody came, and did nothing";
    EXPECT_EQ(result(rounds, {.reps = "21"}).reps, 21);
    EXPECT_EQ(result(rounds, {}).text, "none");
    // 10 + 3, 10 + 5, then the 17 of the third are open
    EXPECT_EQ(result(rounds, {.clocks = two, .reps = "16"}, 1).reps, 13 + 15 + 16);
    EXPECT_FALSE(result(rounds, {.clocks = two}).time);
}

TEST(TypedResult, OfRoundsRefusesWhatCannotBe) {
    const auto two = clocks({150, 301});
    EXPECT_EQ(refusal(rounds, {.clocks = two, .reps = "22"}),
              "The reps of the open round must be whole and fewer than its 22; got \"22\".");
    for (const auto* wrong : {"2.5", "-1", "six", "1 2", "1e999", "nan", "+3"})
        EXPECT_NE(refusal(rounds, {.clocks = two, .reps = wrong}), "read") << wrong;
    EXPECT_EQ(refusal(rounds, {.clocks = clocks({150, 150})}),
              "The clock of round 2 must be later than the one before and not past the cap.");
    EXPECT_NE(refusal(rounds, {.clocks = clocks({0, 150})}), "read");
    EXPECT_NE(refusal(rounds, {.clocks = clocks({150, 721})}), "read") << "past the cap";
    EXPECT_EQ(refusal(rounds, {.clocks = clocks({150, 720})}), "read");
    std::vector<Seconds> many;
    for (int k = 1; k <= most_plan_rounds; ++k)
        many.emplace_back(k * 700.0 / most_plan_rounds);
    EXPECT_NE(refusal(rounds, {.clocks = many}), "read");
    many.pop_back();
    EXPECT_EQ(refusal(rounds, {.clocks = many}), "read");
    EXPECT_REFUSED(read_result(read(rounds), 2, {}));
}

TEST(TypedResult, ForTimeIsTheFinishOrTheRepsLeft) {
    const auto finished = result(timed, {.reps = "9", .finish = Seconds{642}});
    EXPECT_EQ(finished.time, Seconds{642});
    EXPECT_EQ(finished.text, "10:42") << "reps of an open round are none of a workout for time";
    const auto capped = result(timed, {.finish = Seconds{642}, .reps_left = 23.0});
    EXPECT_EQ(capped.time, Seconds{743}) << "a second for each";
    EXPECT_EQ(capped.text, "CAP+23");
    EXPECT_EQ(result(timed, {.finish = Seconds{720}, .reps_left = 0.0}).text, "12:00");
    EXPECT_EQ(result(timed, {.finish = Seconds{0}}).text, "none");
    EXPECT_EQ(result(timed, {.clocks = clocks({150, 100})}).text, "none") << "clocks alone are no result";
    EXPECT_NE(refusal(timed, {.finish = Seconds{721}}), "read");
    EXPECT_EQ(refusal(timed, {.reps_left = 88.0}), "read");
    EXPECT_EQ(refusal(timed, {.reps_left = 89.0}), "The workout has 88 reps in all; got 89 left.");
    EXPECT_NE(refusal(timed, {.reps_left = 2.5}), "read");
}

// Split the other way: the score that stands in text is the total again, and every rep more is one more.
TEST(TypedResult, AgreesWithTheScoreReadBack) {
    const auto workout = read(rounds);
    Random random;
    for (int i = 0; i < 10'000; ++i) {
        const auto division = static_cast<std::size_t>(random.whole(0, 1));
        std::vector<double> reps;
        for (int k = 1; k <= 30; ++k)
            reps.push_back(division == 0 ? 22 : 10 + 1 + 2 * k);
        const auto by_round = value_of(RepsPerRound::by_round(reps));
        const auto done = static_cast<std::size_t>(random.whole(0, 28));
        std::vector<Seconds> at;
        for (std::size_t k = 1; k <= done; ++k)
            at.emplace_back(20.0 * static_cast<double>(k));
        const auto open = random.whole(0, static_cast<int>(reps[done]) - 1);
        const auto typed = std::to_string(open);
        const auto made = value_of(read_result(workout, division, {.clocks = at, .reps = typed}));
        ASSERT_TRUE(made);
        EXPECT_EQ(value_of(reps_of(value_of(parse_score(made->text)), by_round)).value(), made->reps);
        EXPECT_EQ(value_of(score_text(Reps{made->reps}, by_round)), made->text);
    }
}

} // namespace
} // namespace pacecells
