#include "pacecells/window_score.h"

#include "block.h"
#include "expect.h"
#include "random.h"

#include <algorithm>
#include <string>
#include <vector>

namespace pacecells {
namespace {

// Four windows of three minutes: 12 calories and 10 presses, then as many ring rows as fit.
const std::string together =
    "pacecells.workout | value\nversion | 1\nlanguage | en\nformat | intervals\n"
    "work_s | 180\nrest_s | 60\nwindows | 4\nscoring | lowest window\n"
    "stations | no | movement | unit | when | amount.1\n"
    "divisions | | | | | open\n"
    "station | 1 | Rowing | row cal | | 12\n"
    "station | 2 | Floor presses | rep | | 10\n"
    "station | 3 | Ring rows | rep | | max\n"
    "paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts\n"
    "pace | 1 | | 1000 | | 4 | | | | |\n"
    "pace | 2 | 2 | | | | | | | 20 | 0\n"
    "pace | 3 | 2 | | | | | | | 18 |\n"
    "end |\n";
// A row and presses in turn, a minute each.
const std::string in_turn =
    block::with(block::with(block::with(together, "| 20 | 0", "| 20 |"),
                            "work_s | 180\nrest_s | 60\nwindows | 4\nscoring | lowest window\n",
                            "every_s | 60\nwindows | 5\nin_turn | yes\nscoring | sum of the windows\n"),
                "station | 3 | Ring rows | rep | | max\n", "");

Workout read(const std::string& text) { return value_of(read_workout(block::table(text))); }
double score(const std::string& text, const std::string& typed) {
    return value_of(window_score(read(text), 0, typed)).score;
}
std::string refusal(const std::string& text, const std::string& typed) {
    const auto result = window_score(read(text), 0, typed);
    return result ? "read" : result.error().message();
}

TEST(WindowScore, IsTheLowestOrTheSum) {
    EXPECT_EQ(score(together, "30 28 27 29"), 27);
    EXPECT_EQ(score(together, " 30, 28;27 + 29 "), 27) << "whatever is between";
    EXPECT_EQ(score(together, "27"), 27) << "the score alone";
    EXPECT_EQ(score(together, "30 28 0 29"), 0) << "a window left out counts";
    EXPECT_EQ(score(in_turn, "12 10 12 9 11"), 54);
    EXPECT_EQ(score(in_turn, "54"), 54);
    const auto two = read(block::with(in_turn, "windows | 5", "windows | 2"));
    EXPECT_EQ(value_of(window_score(two, 0, "22")).score, 22);
    EXPECT_TRUE(value_of(window_score(two, 0, "22")).windows.empty());
    EXPECT_EQ(value_of(window_score(two, 0, "12 9")).windows, (std::vector<double>{12, 9}));
    const auto one = read(block::with(in_turn, "windows | 5", "windows | 1"));
    EXPECT_EQ(value_of(window_score(one, 0, "11")).windows, std::vector<double>{11}) << "a window, and the score";
    const auto total = block::with(together, "lowest window", "total");
    EXPECT_EQ(score(total, "30 28 27 29"), 114);
    EXPECT_EQ(value_of(window_score(read(total), 0, "30 28 27 29")).windows, (std::vector<double>{30, 28, 27, 29}));
}

TEST(WindowScore, KnowsWhatFits) {
    // 12 calories, presses that count nothing, and rows of 0.17 s for three minutes.
    EXPECT_EQ(most_in_window(read(together), 0, 1), 12 + 1058);
    EXPECT_EQ(most_in_window(read(in_turn), 0, 1), 12);
    EXPECT_EQ(most_in_window(read(in_turn), 0, 2), 10);
    const auto uncounted = block::with(in_turn, "| 20 |", "| 20 | 0");
    EXPECT_EQ(most_in_window(read(uncounted), 0, 2), 0) << "presses count nothing";
    EXPECT_EQ(score(uncounted, "12 12 11"), 35) << "and their windows are left out";
    const auto calories = block::with(in_turn, "row cal | | 12", "row cal | | max");
    EXPECT_EQ(most_in_window(read(calories), 0, 1), 83) << "a minute at 5000 cal/h";
    EXPECT_EQ(most_in_window(read(calories), 0, 3), 83) << "and again";
    const auto longer = block::with(calories, "every_s | 60", "every_s | 18");
    EXPECT_EQ(most_in_window(read(longer), 0, 1), 25) << "18 s at 5000 cal/h, just";
    EXPECT_EQ(score(calories, "21 10 20 10 19"), 80);
}

TEST(WindowScore, RefusesWhatCannotBe) {
    EXPECT_NE(refusal(together, "30 28.5 27 29").find("whole numbers"), std::string::npos) << "no half reps";
    EXPECT_NE(refusal(together, "30 -2 27 29").find("whole numbers"), std::string::npos);
    EXPECT_NE(refusal(together, "30 many").find("whole numbers"), std::string::npos);
    EXPECT_NE(refusal(together, " ").find("whole numbers"), std::string::npos);
    EXPECT_EQ(refusal(together, "30 28 27"),
              "There are 4 windows, and reps of 3: give those of every window, 0 for none.");
    EXPECT_NE(refusal(together, "30 28 27 29 30").find("of 5"), std::string::npos);
    EXPECT_NE(refusal(together, "30 28 1071 29").find("Window 3 has more reps than can be done"), std::string::npos);
    EXPECT_NE(refusal(together, "1071").find("at most 1070"), std::string::npos);
    EXPECT_NE(refusal(in_turn, "13 10 12 10 12").find("Window 1"), std::string::npos);
    EXPECT_NE(refusal(in_turn, "12 10 12 11 12").find("Window 4"), std::string::npos) << "10 presses in the fourth";
    EXPECT_NE(refusal(in_turn, "57").find("at most 56"), std::string::npos) << "12 + 10 + 12 + 10 + 12";
    EXPECT_EQ(score(in_turn, "56"), 56);
    EXPECT_REFUSED(window_score(read(together), 1, "30 28 27 29"));
    const Workout rounds = read(std::string{block::tide_table});
    EXPECT_REFUSED(window_score(rounds, 0, "30"));
}

// More in a window never lowers the score, and the lowest is in the list.
TEST(WindowScore, KeepsItsOrder) {
    Random random;
    const auto text = [](const std::vector<double>& windows) {
        std::string all;
        for (const double one : windows)
            all += std::to_string(static_cast<int>(one)) + " ";
        return all;
    };
    for (const auto& workout : {together, block::with(together, "lowest window", "sum of the windows")})
        for (int i = 0; i < 200; ++i) {
            std::vector<double> windows;
            for (int k = 0; k < 4; ++k)
                windows.push_back(random.whole(0, 60));
            const double before = score(workout, text(windows));
            EXPECT_TRUE(workout != together || before == *std::ranges::min_element(windows));
            windows[static_cast<std::size_t>(random.whole(0, 3))] += 1;
            EXPECT_GE(score(workout, text(windows)), before);
        }
}

} // namespace
} // namespace pacecells
