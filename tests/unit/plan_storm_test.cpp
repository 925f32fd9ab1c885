// Blocks with cells typed over: whatever is read is planned, in finite numbers and order.
#include "pacecells/athlete_plan.h"

#include "block.h"
#include "expect.h"
#include "random.h"

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {
namespace {

constexpr std::string_view typed[] = {
    "",      "0",           "1",     "2.5",       "7",        "60",    "999",     "20000",
    "1e300", "-3",          "0.01",  "0.5",       "3:59:59",  "0:01",  "21-15-9", "1-2-3-…",
    "max",   "rest",        "rep",   "row m",     "bike cal", "last",  "first",   "for time",
    "yes",   "any",         "40/60", "intervals", "AMRAP",    "x",     "end",     "hold",
    "0.3",   "armbike cal", "run m", "carry m",   "10-9-…-1", "40000", "0-0-5-…", "6 + Ring rows"};

void expect_in_order(const Workout& on, const Plan& plan) {
    const auto sound = [](double value) { return std::isfinite(value) && value >= 0; };
    ASSERT_TRUE(plan.goal);
    EXPECT_TRUE(sound(plan.low.reps) && sound(plan.expected.reps) && sound(plan.high.reps));
    if (!plan.expected.time && !plan.low.time && !plan.high.time) {
        EXPECT_LE(plan.low.reps, plan.expected.reps);
        EXPECT_LE(plan.expected.reps, plan.high.reps);
    }
    for (const auto* line : {&plan.goal, &plan.next_down}) {
        if (!*line)
            continue;
        double before = 0;
        for (const auto& round : (*line)->rounds) {
            EXPECT_TRUE(sound(round.clock.value()));
            EXPECT_GE(round.clock.value(), before - 1e-6);
            for (const auto& one : round.stations)
                if (one) {
                    EXPECT_TRUE(sound(one->value()));
                    EXPECT_GE(one->value(), before - 1e-6);
                }
            before = round.clock.value();
        }
        if (on.settings.format != Format::intervals) {
            EXPECT_LE((*line)->goal.clock.value(), on.settings.cap.value() + 1e-6);
        }
    }
    for (const auto& machine : plan.machines)
        EXPECT_TRUE(sound(machine.rate.value()) && sound(machine.doubt));
    for (const auto& station : plan.stations)
        if (station.sets) {
            EXPECT_EQ(station.sets->open.reps(), station.sets->reps);
            EXPECT_LE(station.sets->rest, longest_break);
        }
    if (plan.card) {
        EXPECT_LE(plan.card->advice.hold.value(), std::max(plan.card->floor, plan.card->advice.never_above).value());
    }
    for (const auto& note : plan.notes)
        EXPECT_FALSE(note.message().empty());
}

TEST(AthletePlan, HoldsWhateverIsTypedOverTheBlock) {
    Random random;
    const Table plain = block::table(block::tide_table);
    const Table keys = block::table("name | division | group | goal | answer | share\n");
    int planned = 0;
    for (int i = 0; i < 2000; ++i) {
        Table made = plain;
        for (int change = random.whole(1, 4); change > 0; --change) {
            const auto at = static_cast<std::size_t>(random.whole(0, static_cast<int>(made.cells.size()) - 1));
            made.cells[at] =
                block::cell(typed[static_cast<std::size_t>(random.whole(0, static_cast<int>(std::size(typed)) - 1))]);
        }
        const auto on = read_workout(made);
        if (!on) {
            ASSERT_FALSE(on.error().message().empty());
            continue;
        }
        Table row = block::table("Mara Lindqvarn | x | x | x | x | x\n");
        const auto pick = [&](std::size_t column, std::initializer_list<const char*> texts) {
            row.cells[column] = block::cell(texts.begin()[random.whole(0, static_cast<int>(texts.size()) - 1)]);
        };
        row.cells[1] =
            on->divisions[static_cast<std::size_t>(random.whole(0, static_cast<int>(on->divisions.size()) - 1))].name;
        pick(2, {"", "quick", "steady"});
        pick(3, {"", "1", "6.5", "199", "0.2", "3+5", "2 + Ring rows", "0:30", "16:00"});
        pick(4, {"", "only just", "no", "with more left"});
        pick(5, {"", "0.01", "99", "0.5"});
        const auto who = read_athlete(
            *on,
            block::table("name | ski.critical | ski.reserve | ski.time | ski.calories | longest | max | recovery\n"
                         "Name | | | | | Sandbags | Sandbags | Sandbags\n"
                         "Mara Lindqvarn | 20 | 500 | 3:00 | 30 | 1 | 45 | 0.3\n"),
            keys, row);
        if (!who) {
            ASSERT_FALSE(who.error().message().empty());
            continue;
        }
        ++planned;
        Reasons reasons;
        expect_in_order(*on, plan_for(*on, *who, &reasons));
        if (HasFailure()) {
            for (std::size_t r = 0; r < made.rows; ++r) {
                std::string line;
                for (std::size_t c = 0; c < made.columns; ++c)
                    line += cell_text(made.at(r, c)) + " | ";
                ADD_FAILURE() << line;
            }
            return;
        }
    }
    EXPECT_GT(planned, 150);
}

} // namespace
} // namespace pacecells
