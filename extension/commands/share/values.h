// Formulas replaced by what they show.
#pragma once

#include "copy.h"

namespace pacecells {

// What the cells of the range show: blanks stay blank, texts stay texts, errors are the text that people see, and times
// shown to the second are whole seconds, so that an office that cuts decimals off shows the same.
[[nodiscard]] Rows shown_values(const Range& range);

// In the copy, in place of every formula what its cell in the original shows. The original's cells are read, because
// a file does not tell an empty text from a blank.
void flatten(const Copy& copy, const Document& original);

} // namespace pacecells
