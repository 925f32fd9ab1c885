// Between the office's values and ours. Nothing here throws; what cannot be read becomes an error value.
#pragma once

#include "cells.h"

#include <com/sun/star/table/XCellRange.hpp>
#include <com/sun/star/uno/Any.hxx>

namespace pacecells {

// What the office hands over for one argument: nothing, a value, or a range row by row. An empty text inside a range is
// how an empty cell arrives there: Blank. A range that long that only whole columns are ends after its last filled cell,
// or after so many rows where another whole column of the same call is filled further.
[[nodiscard]] Argument to_argument(const com::sun::star::uno::Any& value, sal_Int32 rows_of_columns = 0);

// Rows of a whole column up to its last filled cell, at least 1; 0 for all else.
[[nodiscard]] sal_Int32 filled_rows(const com::sun::star::uno::Any& value);
[[nodiscard]] inline sal_Int32 filled_rows(const com::sun::star::uno::Reference<com::sun::star::table::XCellRange>&) {
    return 0;
}

// A range as an object. To read it may throw what the office throws.
[[nodiscard]] Argument to_argument(const com::sun::star::uno::Reference<com::sun::star::table::XCellRange>& range,
                                   sal_Int32 rows_of_columns = 0);

// What a formula gives back: a value, or a sequence of rows. An error is a not-a-number that carries the office's error
// code, which costs a fifth of an exception and works inside arrays too. A Blank is an empty text.
[[nodiscard]] com::sun::star::uno::Any to_any(const Answer& answer);

// The office's error codes.
enum ErrorCode : unsigned { illegal_argument = 502, no_value = 519, no_convergence = 523, not_available_code = 32767 };

[[nodiscard]] double error_value(ErrorCode code);

} // namespace pacecells
