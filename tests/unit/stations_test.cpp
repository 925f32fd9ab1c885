#include "pacecells/stations.h"

#include "expect.h"
#include "random.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace pacecells {
namespace {

using Numbers = std::vector<double>;

// Owns what a Block views.
struct Stations {
    std::vector<Unit> units;
    Numbers amounts, rates, extras, counts;
    std::size_t amount_columns = 1, rate_columns = 1, extra_columns = 1;

    [[nodiscard]] Block block() const {
        return {.units = units,
                .amounts = {amounts, amount_columns},
                .rates = {rates, rate_columns},
                .extras = {extras, extra_columns},
                .counts = counts};
    }
};

// 12 calories at 900 cal/h (48 s), 10 reps of 2.5 s, 20 m of carry at 0.5 s/m; 6 + 5 + 0 s of walking: 94 s a round.
Stations three() {
    return {.units = {Unit::row_cal, Unit::rep, Unit::carry_m},
            .amounts = {12, 10, 20},
            .rates = {900, 2.5, 0.5},
            .extras = {6, 5, 0},
            .counts = {}};
}

double score(double clock, const Stations& stations) {
    return value_of(score_at(Seconds{clock}, stations.block())).value();
}

TEST(Stations, ReadsUnitsAsPeopleTypeThem) {
    EXPECT_EQ(value_of(parse_unit("rep")), Unit::rep);
    EXPECT_EQ(value_of(parse_unit("  Row   CAL ")), Unit::row_cal);
    EXPECT_EQ(value_of(parse_unit("cal")), Unit::row_cal);
    EXPECT_EQ(value_of(parse_unit("ski cal")), Unit::ski_cal);
    EXPECT_EQ(value_of(parse_unit("bike cal")), Unit::bike_cal);
    EXPECT_EQ(value_of(parse_unit("armbike cal")), Unit::armbike_cal);
    EXPECT_EQ(value_of(parse_unit("m")), Unit::row_m);
    EXPECT_EQ(value_of(parse_unit("row m")), Unit::row_m);
    EXPECT_EQ(value_of(parse_unit("ski m")), Unit::ski_m);
    EXPECT_EQ(value_of(parse_unit("bike m")), Unit::bike_m);
    EXPECT_EQ(value_of(parse_unit("run m")), Unit::run_m);
    EXPECT_EQ(value_of(parse_unit("carry m")), Unit::carry_m);
    EXPECT_EQ(value_of(parse_unit("hold")), Unit::hold);
    EXPECT_EQ(value_of(parse_unit("rest")), Unit::rest);
    EXPECT_EQ(value_of(parse_unit("  ")), Unit::blank);
    for (const char* bad : {"reps", "km", "row", "calories", "0"})
        EXPECT_REFUSED(parse_unit(bad)) << bad;
}

TEST(Stations, OneUnitOfEach) {
    struct Row {
        Unit unit;
        double amount, rate, seconds, points;
    };
    const Row rows[] = {
        {Unit::rep, 10, 2.5, 25, 10},
        {Unit::row_cal, 15, 1000, 54, 15},
        {Unit::ski_cal, 15, 900, 60, 15},
        {Unit::bike_cal, 20, 1200, 60, 20},
        {Unit::armbike_cal, 10, 200, 180, 10},
        {Unit::row_m, 250, 120, 60, 0},
        {Unit::ski_m, 500, 125, 125, 0},
        {Unit::bike_m, 1000, 100, 100, 0},
        {Unit::run_m, 400, 300, 120, 0},
        {Unit::carry_m, 30, 0.8, 24, 0},
        {Unit::hold, 30, 0, 30, 0},
        {Unit::rest, 60, -5, 60, 0},
    };
    for (const Row& row : rows) {
        const Stations station{
            .units = {row.unit}, .amounts = {row.amount}, .rates = {row.rate}, .extras = {3}, .counts = {}};
        EXPECT_NEAR(value_of(round_time(station.block())).value(), row.seconds + 3, 1e-12);
        EXPECT_NEAR(score(row.seconds + 3, station), row.points, 1e-12);
    }
}

TEST(Stations, ARoundStationByStation) {
    EXPECT_EQ(value_of(round_time(three().block())), Seconds{94});
    EXPECT_EQ(value_of(finish_time(7, three().block())), Seconds{658});
    EXPECT_EQ(score(0, three()), 0);
    EXPECT_EQ(score(3.999, three()), 0);
    EXPECT_EQ(score(4, three()), 1) << "a calorie takes 4 s";
    EXPECT_EQ(score(4 - 1e-10, three()), 1) << "a trace short is whole";
    EXPECT_EQ(score(48, three()), 12);
    EXPECT_EQ(score(56.4, three()), 12) << "6 s of walking, then 2.4 of 2.5 s";
    EXPECT_EQ(score(56.5, three()), 13);
    EXPECT_EQ(score(93, three()), 22) << "the carry counts nothing";
    EXPECT_EQ(score(94, three()), 22);
    EXPECT_EQ(score(98, three()), 23);
    EXPECT_EQ(score(94e6 + 4, three()), 22e6 + 1) << "a million rounds at once";
}

TEST(Stations, CountsOverrideTheCredit) {
    Stations counted = three();
    counted.counts = {0, 1, 0.1};
    EXPECT_EQ(score(48, counted), 0);
    EXPECT_EQ(score(79, counted), 10);
    EXPECT_NEAR(score(86, counted), 10 + 0.4, 1e-12) << "4 m of the carry";
    EXPECT_NEAR(score(188, counted), 24, 1e-12);
}

TEST(Stations, BlankRowsAndAmountsOfZeroAreDropped) {
    Stations spare = three();
    spare.units.insert(spare.units.begin() + 1, Unit::blank);
    spare.amounts.insert(spare.amounts.begin() + 1, not_a_number);
    spare.rates.insert(spare.rates.begin() + 1, -1);
    spare.extras.insert(spare.extras.begin() + 1, 100);
    EXPECT_EQ(value_of(round_time(spare.block())), Seconds{94});
    EXPECT_EQ(score(200, spare), score(200, three()));
    Stations dropped = three();
    dropped.amounts[1] = 0;
    dropped.rates[1] = 0;
    EXPECT_EQ(value_of(round_time(dropped.block())), Seconds{94 - 25 - 5}) << "its extras too";
}

TEST(Stations, ColumnsAreRounds) {
    // A ladder: 5, 10, 15 reps of 2 s, 3 s of walking each round.
    const Stations ladder{
        .units = {Unit::rep}, .amounts = {5, 10, 15}, .rates = {2}, .extras = {3}, .counts = {}, .amount_columns = 3};
    EXPECT_EQ(value_of(round_time(ladder.block(), 2)), Seconds{23});
    EXPECT_EQ(value_of(finish_time(3, ladder.block())), Seconds{69});
    EXPECT_EQ(score(36, ladder), 15);
    EXPECT_EQ(score(38, ladder), 16);
    EXPECT_EQ(score(69, ladder), 30);
    EXPECT_UNSOLVABLE(score_at(Seconds{69.1}, ladder.block())) << "a fourth round is not given";
    EXPECT_UNSOLVABLE(round_time(ladder.block(), 4));
    EXPECT_UNSOLVABLE(finish_time(4, ladder.block()));
    EXPECT_UNSOLVABLE(finish_time(1e15, ladder.block())) << "at once, not after a long walk";
    EXPECT_UNSOLVABLE(erg_need(Seconds{600}, 3.5, ladder.block()));
}

TEST(Stations, ARoundIsCheckedWhereItIsNeeded) {
    Stations later{.units = {Unit::rep},
                   .amounts = {5, not_a_number, 0},
                   .rates = {2},
                   .extras = {0},
                   .counts = {},
                   .amount_columns = 3};
    EXPECT_EQ(score(9, later), 4);
    EXPECT_EQ(score(10, later), 5);
    EXPECT_REFUSED(score_at(Seconds{11}, later.block()));
    EXPECT_REFUSED(finish_time(2, later.block()));
    later.amounts[1] = 5;
    EXPECT_EQ(score(20, later), 10);
    EXPECT_UNSOLVABLE(score_at(Seconds{21}, later.block())) << "the third round takes no time";
    EXPECT_EQ(value_of(finish_time(3, later.block())), Seconds{20});
}

TEST(Stations, ARoundWithoutTimeHasNoScore) {
    Stations empty = three();
    empty.amounts = {0, 0, 0};
    EXPECT_UNSOLVABLE(score_at(Seconds{100}, empty.block()));
    EXPECT_EQ(value_of(round_time(empty.block())), Seconds{0});
    const Stations none{};
    EXPECT_UNSOLVABLE(score_at(Seconds{100}, none.block()));
    EXPECT_UNSOLVABLE(erg_need(Seconds{100}, 1, none.block()));
    EXPECT_UNSOLVABLE(score_at(Seconds{0}, none.block()));
}

// The second way: unit by unit, in longer arithmetic.
double walk(double clock, const Stations& stations) {
    long double now = 0;
    double points = 0;
    for (std::size_t k = 0;; ++k) {
        for (std::size_t row = 0; row < stations.units.size(); ++row) {
            const auto at = [&](const Numbers& cells, std::size_t columns) {
                return cells[row * columns + (columns == 1 ? 0 : k)];
            };
            const double amount = at(stations.amounts, stations.amount_columns);
            if (stations.units[row] == Unit::blank || amount == 0)
                continue;
            const long double rate = at(stations.rates, stations.rate_columns);
            long double each = rate;
            double count = stations.counts.empty() ? 0 : stations.counts[row];
            switch (stations.units[row]) {
            case Unit::row_cal:
            case Unit::bike_cal:
                each = 3600 / rate;
                [[fallthrough]];
            case Unit::rep:
                count = stations.counts.empty() ? 1 : count;
                break;
            case Unit::row_m:
                each = rate / 500;
                break;
            case Unit::run_m:
                each = rate / 1000;
                break;
            case Unit::rest:
                each = 1;
                break;
            default:
                break;
            }
            for (int unit = 1; unit <= amount; ++unit) {
                now += each;
                if (now > clock + each * 1e-9L)
                    return points;
                points += count;
            }
            now += at(stations.extras, stations.extra_columns);
        }
    }
}

Stations some_stations(Random& random) {
    const Unit units[] = {Unit::rep,   Unit::row_cal, Unit::bike_cal, Unit::row_m,
                          Unit::run_m, Unit::carry_m, Unit::rest,     Unit::blank};
    Stations stations;
    const std::size_t columns = random.whole(0, 1) == 0 ? 1 : 60;
    stations.amount_columns = columns;
    stations.rate_columns = random.whole(0, 1) == 0 ? 1 : columns;
    stations.extra_columns = random.whole(0, 1) == 0 ? 1 : columns;
    const bool counted = random.whole(0, 3) == 0;
    for (int row = random.whole(1, 6); row > 0; --row) {
        const Unit unit = row == 1 ? Unit::rep : units[random.whole(0, 7)];
        const auto cal = rate_kind(unit) == RateKind::calories_per_hour;
        const auto split = rate_kind(unit) == RateKind::split;
        stations.units.push_back(unit);
        if (counted)
            stations.counts.push_back(random.whole(0, 3));
        for (std::size_t k = 0; k < columns; ++k)
            stations.amounts.push_back(row == 1 ? random.whole(1, 30) : random.whole(0, split ? 400 : 30));
        for (std::size_t k = 0; k < stations.rate_columns; ++k)
            stations.rates.push_back(cal     ? 50.0 * random.whole(8, 40)
                                     : split ? random.whole(80, 400)
                                             : 0.25 * random.whole(1, 20));
        for (std::size_t k = 0; k < stations.extra_columns; ++k)
            stations.extras.push_back(random.whole(0, 12));
    }
    return stations;
}

TEST(Stations, ScoresAsAWalkUnitByUnit) {
    Random random;
    for (int i = 0; i < 2000; ++i) {
        const Stations stations = some_stations(random);
        const double longest = value_of(finish_time(stations.amount_columns == 1 ? 8 : 59, stations.block())).value();
        // Whole seconds often meet the end of a unit exactly.
        const double clock =
            random.whole(0, 1) == 0 ? std::floor(random.between(0, longest)) : random.between(0, longest);
        ASSERT_EQ(score(clock, stations), walk(clock, stations)) << clock;
    }
}

TEST(Stations, TheScoreRisesWithTheClockAndIsWholeAtTheEndOfARound) {
    Random random;
    for (int i = 0; i < 200; ++i) {
        const Stations stations = some_stations(random);
        const double longest = std::min(300.0, value_of(finish_time(60, stations.block())).value());
        double before = 0;
        for (double clock = 0; clock < longest; clock += 1.7) {
            const double now = score(clock, stations);
            ASSERT_GE(now, before);
            before = now;
        }
        for (double k = 1; k < 8; ++k) {
            const double end = value_of(finish_time(k, stations.block())).value();
            ASSERT_EQ(score(end, stations), walk(end, stations));
        }
    }
}

Stations scaled(Stations stations, double factor) {
    for (std::size_t row = 0; row < stations.units.size(); ++row)
        if (rate_kind(stations.units[row]) == RateKind::calories_per_hour)
            for (std::size_t k = 0; k < stations.rate_columns; ++k)
                stations.rates[row * stations.rate_columns + k] *= factor;
    return stations;
}

TEST(Stations, TheErgometerRateThatMakesTheGoal) {
    // 46 s of the round are no ergometer: 10 rounds in 15:00 leave 44 s for 12 calories.
    EXPECT_NEAR(value_of(erg_need(Seconds{900}, 10, three().block())).value(), 12 * 3600 / 44.0, 1e-9);
    EXPECT_NEAR(value_of(erg_need(Seconds{940}, 10, three().block())).value(), 900, 1e-9) << "the typed rate will do";
    EXPECT_UNSOLVABLE(erg_need(Seconds{900}, 20, three().block()));
    EXPECT_UNSOLVABLE(erg_need(Seconds{460}, 10, three().block())) << "no time at all";
}

TEST(Stations, AllErgometersAreRaisedByOneFactor) {
    Stations two = three();
    two.units.push_back(Unit::bike_cal);
    two.amounts.push_back(10);
    two.rates.push_back(1200);
    two.extras.push_back(0);
    const Seconds cap{1000};
    const double row = value_of(erg_need(cap, 10, two.block())).value();
    const double bike = value_of(erg_need(cap, 10, two.block(), 4)).value();
    EXPECT_NEAR(row, value_of(erg_need(cap, 10, two.block(), 1)).value(), 0);
    EXPECT_NEAR(row / 900, bike / 1200, 1e-12);
    EXPECT_NEAR(value_of(finish_time(10, scaled(two, row / 900).block())).value(), 1000, 1e-9);
    EXPECT_REFUSED(erg_need(cap, 10, two.block(), 2)) << "no calorie station";
    for (const double bad : {0.0, 5.0, 1.5, -1.0, not_a_number, infinite})
        EXPECT_REFUSED(erg_need(cap, 10, two.block(), bad));
}

TEST(Stations, ADecimalGoalIsAShareOfTheLastRoundsPoints) {
    // 1.5 rounds: of the second 11 points of 22, all of them calories.
    const double rate = value_of(erg_need(Seconds{120}, 1.5, three().block())).value();
    EXPECT_NEAR(rate, 23 * 3600 / (120.0 - 46), 1e-9);
    EXPECT_NEAR(score(120, scaled(three(), rate / 900)), 33, 0);
    // 1.75 rounds: 16.5 points, 12 calories, the walk and 4.5 reps.
    EXPECT_NEAR(value_of(erg_need(Seconds{200}, 1.75, three().block())).value(), 24 * 3600 / (200 - 46 - 6 - 4.5 * 2.5),
                1e-9);
    // Below a round.
    EXPECT_NEAR(value_of(erg_need(Seconds{60}, 0.5, three().block())).value(), 11 * 60, 1e-9);
    // A trace beside a whole goal is that goal.
    EXPECT_NEAR(value_of(erg_need(Seconds{900}, 10 - 1e-12, three().block())).value(), 12 * 3600 / 44.0, 1e-9);
    EXPECT_NEAR(value_of(erg_need(Seconds{900}, 10 + 1e-12, three().block())).value(), 12 * 3600 / 44.0, 1e-9);
}

TEST(Stations, AShareEndsWithItsLastUnit) {
    Stations two{
        .units = {Unit::row_cal, Unit::rep}, .amounts = {10, 10}, .rates = {900, 2.5}, .extras = {6, 5}, .counts = {}};
    EXPECT_NEAR(value_of(erg_need(Seconds{40}, 0.5, two.block())).value(), 900, 1e-9) << "no walk after it";
    two.counts = {0.01, 0};
    EXPECT_NEAR(value_of(erg_need(Seconds{20}, 0.5, two.block())).value(), 900, 1e-9) << "5 calories";
    // 10 calories and 20 m of which nothing counts: half of the 30 are 10 calories, the walk and 5 m of half a second.
    Stations uncounted{.units = {Unit::row_cal, Unit::blank, Unit::carry_m},
                       .amounts = {10, 0, 20},
                       .rates = {900, 0, 0.5},
                       .extras = {6, 0, 0},
                       .counts = {0, 0, 0}};
    EXPECT_NEAR(value_of(erg_need(Seconds{48.5}, 0.5, uncounted.block())).value(), 900, 1e-9);
    EXPECT_NEAR(value_of(erg_need(Seconds{20}, 1.0 / 6, uncounted.block())).value(), 900, 1e-9) << "5 calories";
}

std::string refusal(double cap, double goal, const Stations& stations, double row = 1) {
    return erg_need(Seconds{cap}, goal, stations.block(), row).error().message();
}

TEST(Stations, TheNeededRateWithFewCaloriesAndLittleTime) {
    EXPECT_NEAR(value_of(erg_need(Seconds{460.5}, 10, three().block())).value(), 120 * 3600 / 0.5, 1e-6);
    EXPECT_EQ(refusal(460, 10, three()).find("Everything else takes 460 s of the 460 s"), 0u);
    const Stations one{.units = {Unit::row_cal}, .amounts = {1}, .rates = {3600}, .extras = {0}, .counts = {}};
    EXPECT_NEAR(value_of(erg_need(Seconds{2}, 1, one.block())).value(), 1800, 1e-9);
    EXPECT_NEAR(value_of(erg_need(Seconds{1}, 0.5, one.block())).value(), 1800, 1e-9);
}

// Two ergometers in two rounds; the first has no work in the first round.
TEST(Stations, TheNeededRateIsOfTheFirstRoundWithWork) {
    Stations two{.units = {Unit::row_cal, Unit::bike_cal},
                 .amounts = {0, 10, 10, 0},
                 .rates = {900, 1000, 1200, 1300},
                 .extras = {0, 0},
                 .counts = {},
                 .amount_columns = 2,
                 .rate_columns = 2};
    // 36 s of rowing and 30 s of cycling in 132 s: half of the rates.
    EXPECT_NEAR(value_of(erg_need(Seconds{132}, 2, two.block(), 1)).value(), 500, 1e-9);
    EXPECT_NEAR(value_of(erg_need(Seconds{132}, 2, two.block(), 2)).value(), 600, 1e-9);
    EXPECT_NEAR(value_of(erg_need(Seconds{132}, 2 + 1e-10, two.block(), 1)).value(), 500, 1e-9) << "of two columns";
    EXPECT_NEAR(value_of(erg_need(Seconds{96}, 1.5, two.block(), 1)).value(), 500, 1e-9) << "48 s: 30 and half of 36";
    EXPECT_EQ(refusal(60, 1, two), "Row 1 has no calories on the way to this goal.");
    two.amounts = {10, 0, 10, 0};
    EXPECT_EQ(refusal(132, 1.5, two), "Round 2 takes no time: nothing is to be done in it.");
    two.units = {Unit::row_cal, Unit::rep};
    two.amounts = {0, 10, 10, 0};
    two.rates = {900, 1000, 2, 2};
    EXPECT_EQ(refusal(132, 1, two), "No calories are to be done on the way to this goal.");
    const auto told = [](Stations one) { return round_time(one.block(), 1).error().message(); };
    EXPECT_EQ(
        told({.units = {Unit::rep, Unit::rep}, .amounts = {1, -1}, .rates = {1, 1}, .extras = {0, 0}, .counts = {}}),
        "Row 2: the amount must be 0 or more; got -1.");
    EXPECT_EQ(
        told({.units = {Unit::rep, Unit::rep}, .amounts = {1, 1}, .rates = {1, 1}, .extras = {0, -1}, .counts = {}}),
        "Row 2: the extra time must be 0 s or more; got -1.");
    EXPECT_EQ(
        told({.units = {Unit::rep, Unit::rep}, .amounts = {1, 1}, .rates = {1, 0}, .extras = {0, 0}, .counts = {}}),
        "Row 2: the rate must be above 0; got 0.");
    EXPECT_EQ(
        told(
            {.units = {Unit::rep, Unit::rep}, .amounts = {1, 1}, .rates = {1, 1}, .extras = {0, 0}, .counts = {1, -1}}),
        "Row 2: the count must be 0 or more; got -1.");
    two.rates[1] = -1;
    EXPECT_EQ(refusal(132, 2, two), "Row 1: the rate must be above 0; got -1.");
}

TEST(Stations, TheNeededRateFinishesOnTheCap) {
    Random random;
    int made = 0;
    for (int i = 0; i < 2000; ++i) {
        const Stations stations = some_stations(random);
        const double goal = random.whole(1, 8);
        const Seconds cap{random.between(60, 3000)};
        const auto need = erg_need(cap, goal, stations.block());
        if (!need)
            continue;
        ++made;
        std::size_t row = 0;
        while (rate_kind(stations.units[row]) != RateKind::calories_per_hour)
            ++row;
        std::size_t k = 0;
        while (stations.amounts[row * stations.amount_columns + k] == 0)
            ++k;
        const double typed = stations.rates[row * stations.rate_columns + (stations.rate_columns == 1 ? 0 : k)];
        const Stations raised = scaled(stations, need->value() / typed);
        ASSERT_NEAR(value_of(finish_time(goal, raised.block())) / cap, 1, 1e-12);
    }
    EXPECT_GT(made, 300);
}

TEST(Stations, RefusesWhatCannotBeMeant) {
    const auto refused = [](const Stations& bad) {
        EXPECT_REFUSED(round_time(bad.block()));
        EXPECT_REFUSED(score_at(Seconds{100}, bad.block()));
        EXPECT_REFUSED(finish_time(3, bad.block()));
        EXPECT_REFUSED(erg_need(Seconds{900}, 3, bad.block()));
    };
    for (const double value : {-1.0, not_a_number, infinite}) {
        Stations bad = three();
        bad.amounts[1] = value;
        refused(bad);
        bad = three();
        bad.extras[1] = value;
        refused(bad);
        bad = three();
        bad.counts = {1, value, 0};
        EXPECT_REFUSED(score_at(Seconds{100}, bad.block()));
        EXPECT_REFUSED(score_at(Seconds{value}, three().block()));
    }
    for (const double value : {0.0, -1.0, not_a_number, infinite, 1e-320}) {
        Stations bad = three();
        bad.rates[0] = value;
        refused(bad);
    }
    Stations short_column = three();
    short_column.rates.pop_back();
    refused(short_column);
    short_column = three();
    short_column.counts = {1, 1};
    refused(short_column);
    short_column = three();
    short_column.extra_columns = 0;
    refused(short_column);
    for (const double bad : {0.0, -1.0, 1.5, not_a_number, infinite}) {
        EXPECT_REFUSED(round_time(three().block(), bad));
        EXPECT_REFUSED(finish_time(bad, three().block()));
    }
    for (const double bad : {0.0, -1.0, not_a_number, infinite}) {
        EXPECT_REFUSED(erg_need(Seconds{bad}, 3, three().block()));
        EXPECT_REFUSED(erg_need(Seconds{900}, bad, three().block()));
    }
    Stations huge = three();
    huge.amounts[1] = 1e308;
    huge.rates[1] = 1e300;
    refused(huge);
    Stations none = three();
    none.units[0] = Unit::rep;
    none.rates[0] = 2;
    EXPECT_UNSOLVABLE(erg_need(Seconds{900}, 3, none.block())) << "no calorie station";
    none = three();
    none.amounts[0] = 0;
    EXPECT_UNSOLVABLE(erg_need(Seconds{900}, 3, none.block())) << "no calories";
}

TEST(Stations, ExtremeClocksEndAtOnce) {
    EXPECT_TRUE(std::isfinite(score(1e300, three())));
    Stations tiny = three();
    tiny.amounts = {1e-300, 0, 0};
    tiny.extras = {0, 0, 0};
    EXPECT_REFUSED(score_at(Seconds{1e300}, tiny.block()));
    EXPECT_TRUE(score_at(Seconds{1}, tiny.block()));
    EXPECT_NEAR(value_of(erg_need(Seconds{1e300}, 1e200, three().block())).value() / (12 * 3600 * 1e-100), 1, 1e-12);
}

} // namespace
} // namespace pacecells
