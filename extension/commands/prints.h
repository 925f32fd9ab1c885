// What is printed: the rows of the people there are, not all the rows there could be.
#pragma once

#include "command.h"

namespace pacecells {

// Narrows the print areas of a workbook of ours (the names paper_… in templates/NAMES.md) to its filled rows. Sheets
// without such names stay as they are.
void fit_prints(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document);

} // namespace pacecells
