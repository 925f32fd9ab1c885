#include "pacecells/loads.h"

#include "data.h"
#include "expect.h"
#include "random.h"

namespace pacecells {
namespace {

TEST(Load, BothFormulasStayNearTheHandbook) {
    const auto table = data::table("load_handbook");
    for (const auto& row : table.rows) {
        const Reps reps{row.number("reps")};
        for (const auto formula : {LoadFormula::epley, LoadFormula::brzycki}) {
            const double percent = 100 / value_of(one_rep_max(1, reps, formula));
            EXPECT_NEAR(percent, row.number("percent"), table.tolerance) << reps.value() << " reps";
        }
    }
}

TEST(Load, KnownValues) {
    // Epley 1985: 1RM = w (1 + r / 30); Brzycki 1993: 1RM = 36 w / (37 - r). Worked out by hand.
    EXPECT_NEAR(value_of(one_rep_max(100, Reps{5})), 116.6667, 5e-5);
    EXPECT_EQ(value_of(one_rep_max(100, Reps{5}, LoadFormula::brzycki)), 112.5);
    // Printed by calculators of the formula on the web: 100 kg and 5 reps are 116.67 by Epley and 112.5 by Brzycki; 200 lb
    // and 8 reps are 200 / (1.0278 - 0.0278 x 8) = 248.32 by Brzycki, whose numbers are rounded to four figures.
    EXPECT_NEAR(value_of(one_rep_max(100, Reps{5})), 116.67, 0.005);
    EXPECT_NEAR(value_of(one_rep_max(200, Reps{8}, LoadFormula::brzycki)), 248.32, 248.32 * 2e-4);
    EXPECT_NEAR(value_of(max_reps(80, 100)).value(), 7.5, 1e-12);
    EXPECT_NEAR(value_of(max_reps(80, 100, LoadFormula::brzycki)).value(), 8.2, 1e-12);
    EXPECT_NEAR(value_of(one_rep_max(75, Reps{10})), value_of(one_rep_max(75, Reps{10}, LoadFormula::brzycki)), 1e-12)
        << "the two agree at 10 reps";
}

TEST(Load, OneRepIsTheMaximumItself) {
    for (const auto formula : {LoadFormula::epley, LoadFormula::brzycki}) {
        EXPECT_EQ(value_of(one_rep_max(100, Reps{1}, formula)), 100);
        EXPECT_EQ(value_of(max_reps(100, 100, formula)).value(), 1);
        EXPECT_GE(value_of(max_reps(99, 100, formula)).value(), 1);
        EXPECT_EQ(value_of(max_reps(0.1 + 0.2, 0.3, formula)).value(), 1) << "a rounding error above the maximum";
        EXPECT_REFUSED(max_reps(100.1, 100, formula));
    }
}

TEST(Load, MaximumAndRepsUndoEachOther) {
    Random random;
    for (int i = 0; i < 5000; ++i) {
        const double load = random.between(1, 300);
        const Reps reps{random.between(1.001, 36)};
        for (const auto formula : {LoadFormula::epley, LoadFormula::brzycki}) {
            const double most = value_of(one_rep_max(load, reps, formula));
            ASSERT_NEAR(value_of(max_reps(load, most, formula)).value(), reps.value(), 1e-9);
            ASSERT_GE(value_of(max_reps(0.9 * load, most, formula)), value_of(max_reps(load, most, formula)));
        }
    }
}

TEST(Load, RefusesWhatCannotBeMeant) {
    for (const double bad : {0.0, -1.0, infinite, -infinite, not_a_number}) {
        EXPECT_REFUSED(max_reps(bad, 100));
        EXPECT_REFUSED(max_reps(100, bad));
        EXPECT_REFUSED(one_rep_max(bad, Reps{5}));
        EXPECT_REFUSED(one_rep_max(100, Reps{bad}));
    }
    EXPECT_REFUSED(one_rep_max(100, Reps{0.99}));
    EXPECT_REFUSED(one_rep_max(100, Reps{37}, LoadFormula::brzycki));
    for (const double reps : {37.0, 37.5})
        EXPECT_EQ(
            one_rep_max(100, Reps{reps}, LoadFormula::brzycki).error().message().find("The reps must be below 37"), 0u);
    EXPECT_EQ(usual_bar(LoadUnit::kilograms), 20) << "common practice, no source";
    EXPECT_EQ(usual_bar(LoadUnit::pounds), 45);
    EXPECT_REFUSED(one_rep_max(1e308, Reps{1000}));
    EXPECT_REFUSED(max_reps(5e-324, 1e308));
    EXPECT_TRUE(one_rep_max(100, Reps{36.9}, LoadFormula::brzycki));
    EXPECT_TRUE(one_rep_max(100, Reps{100}));
    EXPECT_EQ(value_of(parse_load_formula(" Epley ")), LoadFormula::epley);
    EXPECT_EQ(value_of(parse_load_formula("BRZYCKI")), LoadFormula::brzycki);
    EXPECT_REFUSED(parse_load_formula(""));
    EXPECT_REFUSED(parse_load_formula("epleys"));
}

TEST(Plates, KnownBars) {
    // Worked out by hand: the load less the bar, halved, in the largest plates first.
    const auto text = [](double load, double bar, LoadUnit unit) {
        return plates_text(value_of(plates_each_side(load, bar, unit)));
    };
    EXPECT_EQ(text(72.5, 20, LoadUnit::kilograms), "25 + 1.25");
    EXPECT_EQ(text(60, 20, LoadUnit::kilograms), "20");
    EXPECT_EQ(text(140, 15, LoadUnit::kilograms), "25 + 25 + 10 + 2.5");
    EXPECT_EQ(text(20, 20, LoadUnit::kilograms), "0");
    EXPECT_EQ(text(135, 45, LoadUnit::pounds), "45");
    EXPECT_EQ(text(190, 45, LoadUnit::pounds), "45 + 25 + 2.5");
}

// Whatever the load, the plates add up to it, and a lighter one follows a heavier one.
TEST(Plates, AddUpToTheLoad) {
    for (const auto unit : {LoadUnit::kilograms, LoadUnit::pounds})
        for (const double bar : {0.0, 15.0, 20.0, 35.0, 45.0})
            for (double load = bar; load <= 400; load += load_step(unit)) {
                const auto plates = value_of(plates_each_side(load, bar, unit));
                double sum = bar;
                for (std::size_t i = 0; i < plates.size(); ++i) {
                    sum += 2 * plates[i];
                    EXPECT_TRUE(i == 0 || plates[i] <= plates[i - 1]);
                }
                EXPECT_NEAR(sum, load, 1e-9);
            }
}

TEST(Plates, TheNearestLoadThatPlatesMake) {
    EXPECT_EQ(value_of(share_of_maximum(100, 0.72)), 72.5);
    EXPECT_EQ(value_of(share_of_maximum(100, 0.7125)), 70) << "half-way: the lower";
    EXPECT_EQ(value_of(share_of_maximum(225, 0.7, LoadUnit::pounds)), 155) << "157.5 is half-way";
    Random random;
    for (int i = 0; i < 300; ++i) {
        const double most = random.between(20, 300);
        const double share = random.between(0.3, 1);
        const double load = value_of(share_of_maximum(most, share));
        EXPECT_LE(std::abs(load - most * share), 1.25 + 1e-9);
        EXPECT_NEAR(std::remainder(load, 2.5), 0, 1e-9);
        EXPECT_GE(value_of(share_of_maximum(most * 1.1, share)), load) << "a stronger one never gets less";
    }
}

TEST(Plates, Refused) {
    EXPECT_REFUSED(plates_each_side(19, 20));
    EXPECT_REFUSED(plates_each_side(61, 20)) << "no plates of half a kilogram";
    EXPECT_REFUSED(plates_each_side(2000, 20));
    EXPECT_REFUSED(plates_each_side(60, -1));
    EXPECT_REFUSED(share_of_maximum(0, 0.5));
    EXPECT_REFUSED(share_of_maximum(100, 1.6));
    EXPECT_FALSE(parse_load_unit("stone"));
    EXPECT_EQ(value_of(parse_load_unit(" LB ")), LoadUnit::pounds);
}

} // namespace
} // namespace pacecells
