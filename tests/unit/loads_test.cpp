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
    EXPECT_REFUSED(one_rep_max(1e308, Reps{1000}));
    EXPECT_REFUSED(max_reps(5e-324, 1e308));
    EXPECT_TRUE(one_rep_max(100, Reps{36.9}, LoadFormula::brzycki));
    EXPECT_TRUE(one_rep_max(100, Reps{100}));
    EXPECT_EQ(value_of(parse_load_formula(" Epley ")), LoadFormula::epley);
    EXPECT_EQ(value_of(parse_load_formula("BRZYCKI")), LoadFormula::brzycki);
    EXPECT_REFUSED(parse_load_formula(""));
    EXPECT_REFUSED(parse_load_formula("epleys"));
}

} // namespace
} // namespace pacecells
