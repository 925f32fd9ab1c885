// Between the office's values and ours: what a caller hands over for an argument, and what goes back.
#include "arguments.h"

#include <com/sun/star/uno/Sequence.hxx>
#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <initializer_list>

namespace {

using namespace pacecells;
using com::sun::star::uno::Any;
using com::sun::star::uno::Sequence;
using Rows = Sequence<Sequence<Any>>;

Sequence<Any> row(std::initializer_list<double> numbers) {
    Sequence<Any> cells(static_cast<sal_Int32>(numbers.size()));
    auto* cell = cells.getArray();
    for (const double number : numbers)
        *cell++ <<= number;
    return cells;
}

Rows rows(std::initializer_list<Sequence<Any>> lines) { return {lines.begin(), static_cast<sal_Int32>(lines.size())}; }

const Error* refusal(const Argument& argument) {
    const auto* cell = std::get_if<Cell>(&argument);
    return cell ? std::get_if<Error>(cell) : nullptr;
}

// A column of so many rows, the first `filled` of them numbers, the others empty as the office hands them over.
Argument column(sal_Int32 count, sal_Int32 filled, sal_Int32 beside = 0) {
    Rows cells(count);
    auto* const lines = cells.getArray();
    for (sal_Int32 r = 0; r < count; ++r) {
        lines[r].realloc(1);
        lines[r].getArray()[0] = r < filled ? Any(static_cast<double>(r)) : Any(rtl::OUString());
    }
    return to_argument(Any(cells), beside);
}

int rows_of(const Argument& argument) {
    const auto* range = std::get_if<Range>(&argument);
    return range ? range->rows : -1;
}

TEST(Arguments, NothingIsLeftOut) { EXPECT_TRUE(std::holds_alternative<Omitted>(to_argument(Any()))); }

TEST(Arguments, ARangeComesRowByRow) {
    const auto argument = to_argument(Any(rows({row({1, 2, 3}), row({4, 5, 6})})));
    const auto* range = std::get_if<Range>(&argument);
    ASSERT_NE(range, nullptr);
    EXPECT_EQ(range->rows, 2);
    EXPECT_EQ(range->columns, 3);
    EXPECT_EQ(*std::get_if<double>(&range->at(1, 0)), 4);
}

TEST(Arguments, RowsOfUnequalLengthAreRefused) { // no formula can make them, another caller can
    for (const auto& unequal : {rows({row({1, 2}), row({3})}), rows({row({1}), row({2, 3})}), rows({row({}), row({1})}),
                                rows({row({1, 2}), row({})})}) {
        const auto argument = to_argument(Any(unequal));
        ASSERT_NE(refusal(argument), nullptr);
        EXPECT_EQ(refusal(argument)->message(), "takes rows of equal length.");
    }
}

TEST(Arguments, AWholeColumnEndsAfterItsLastFilledCell) {
    EXPECT_EQ(rows_of(column(65'537, 3)), 3);
    EXPECT_EQ(rows_of(column(1'048'576, 70'000)), 70'000);
    EXPECT_EQ(rows_of(column(65'537, 0)), 1);
    EXPECT_EQ(rows_of(column(65'537, 3, 5)), 5); // beside a column of five
    EXPECT_EQ(rows_of(column(65'537, 3, 2)), 3);
    EXPECT_EQ(rows_of(column(65'536, 3, 5)), 65'536);
    EXPECT_EQ(rows_of(column(65'536, 3)), 65'536); // the shape of a range that someone chose stays
}

TEST(Arguments, ErrorsGoBackAsTheOfficesCodes) {
    const auto code = [](const Error& error) {
        double value = 0;
        EXPECT_TRUE(to_any(Answer{Cell{error}}) >>= value);
        EXPECT_TRUE(std::isnan(value));
        std::uint64_t bits = 0;
        std::memcpy(&bits, &value, sizeof bits);
        return static_cast<unsigned>(bits);
    };
    EXPECT_EQ(code(out_of_domain("no")), 502U);
    EXPECT_EQ(code(no_solution("no")), 523U);
    EXPECT_EQ(code(not_available("no")), 32767U);
}

} // namespace
