// What is printed: the rows of the people there are, not all the rows there could be.
#pragma once

#include "command.h"

namespace pacecells {

// Ends the print area of each sheet that lists people with the last of them, or gives it back the rows of those who came
// since. Other sheets stay as they are.
void fit_prints(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document);

} // namespace pacecells
