// The page of cards that is part of the workbook: it follows what is typed by itself, but for the heights of its rows.
#pragma once

#include "prints.h"

namespace pacecells {

// No text on it is cut, no row is blank on all of its cards, and it prints as many to a page as can be read.
void fit_live_cards(const Document& document);

} // namespace pacecells
