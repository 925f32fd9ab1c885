// The running count of a judge's sheet, counted by hand.
#include "judge_cells.h"

#include "block.h"
#include "expect.h"

#include <string>

namespace pacecells {
namespace {

Workout on(int stations, const std::string& format) {
    return value_of(read_workout(block::of_stations(stations, format)));
}

// A line from column 0 to the last with something in it.
std::string line_of(const Workout& workout, int line, double goal = 0) {
    std::string text;
    for (int column = 0; column <= judge_columns; ++column) {
        const auto cell = judge_cell(workout, 0, line, column, goal);
        if (!cell.empty())
            text += (column > 0 ? "|" : "") + cell;
    }
    return text;
}

TEST(JudgeCells, CountAloudUpToTwoRoundsAboveTheGoal) {
    const auto two = on(2, "format | amrap\ncap | 20:00");
    EXPECT_EQ(line_of(two, 0, 2.5), "running count|R1|R2|R3|R4|R5");
    EXPECT_EQ(line_of(two, 1, 2.5), "10 Move 1|10 |30 |50 |70 |90 ");
    EXPECT_EQ(line_of(two, 2, 2.5), "10 Move 2|20 |40 |60 |80 |100 ");
    EXPECT_EQ(line_of(two, 3, 2.5), "");
}

TEST(JudgeCells, OneRoundHasAColumnOfClocks) {
    const auto once = on(3, "format | time\ncap | 20:00");
    EXPECT_EQ(line_of(once, 0), "running count|reps|clock");
    EXPECT_EQ(line_of(once, 3), "10 Move 3|30 | ");
    EXPECT_EQ(line_of(once, 4), "");
}

TEST(JudgeCells, RoundsBeyondTheColumnsGoOnBelow) {
    const auto many = on(3, "format | time\ncap | 60:00\nrounds | 20");
    EXPECT_EQ(judge_cell(many, 0, 0, 12, 0), "R12");
    EXPECT_EQ(line_of(many, 4), "running count|R13|R14|R15|R16|R17|R18|R19|R20");
    EXPECT_EQ(line_of(many, 5), "clock| | | | | | | | ");
    EXPECT_EQ(judge_cell(many, 0, 6, 1, 0), "370 ") << "12 rounds of 30, and 10";
    EXPECT_EQ(judge_cell(many, 0, 8, 8, 0), "600 ");
    EXPECT_EQ(line_of(many, 9), "");
}

TEST(JudgeCells, SayFromWhichRoundOnThereIsNoRoom) {
    const std::string sixteen = "format | time\ncap | 60:00\nrounds | 16", beyond = "from R13: on a sheet of your own";
    EXPECT_EQ(line_of(on(5, sixteen), 6), "running count|R13|R14|R15|R16") << "5 lines, 2 of a heading, 5 lines";
    for (const int stations : {6, 8, 11}) {
        const auto crowded = on(stations, sixteen);
        EXPECT_EQ(judge_cell(crowded, 0, 0, 0, 0), "running count");
        EXPECT_EQ(line_of(crowded, stations + 1), beyond) << stations;
        EXPECT_EQ(line_of(crowded, stations + 2), "") << stations;
    }
    EXPECT_EQ(line_of(on(12, sixteen), 0), beyond + "|R1|R2|R3|R4|R5|R6|R7|R8|R9|R10|R11|R12");
    const auto open = on(6, "format | amrap\ncap | 60:00");
    EXPECT_EQ(line_of(open, 7, 10), "") << "12 rounds: the goal and two more";
    EXPECT_EQ(line_of(open, 7, 10.5), beyond);
    EXPECT_EQ(line_of(on(6, "format | time\ncap | 60:00\nrounds | 12"), 7), "");
    const auto turns = on(2, "format | intervals\nevery_s | 60\nwindows | 26\nin_turn | yes");
    EXPECT_EQ(judge_cell(turns, 0, 0, 12, 0), "23–24");
    EXPECT_EQ(line_of(turns, 3), "from R25: on a sheet of your own");
}

TEST(JudgeCells, StationsInTurnHaveAColumnForEachTime) {
    const auto turns = on(3, "format | intervals\nevery_s | 60\nwindows | 8\nin_turn | yes");
    EXPECT_EQ(line_of(turns, 0), "running count|1–3|4–6|7–8");
    EXPECT_EQ(line_of(turns, 1), "10 Move 1|10 |10 |10 ");
    EXPECT_EQ(line_of(turns, 3), "10 Move 3|10 |10 ") << "there is no ninth window";
}

} // namespace
} // namespace pacecells
