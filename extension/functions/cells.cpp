#include "cells.h"

namespace pacecells {

std::string Area::cell_name(int row, int column) const {
    const auto start = first();
    std::string letters;
    for (int number = start.column + column + 1; number > 0; number = (number - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (number - 1) % 26));
    return sheet() + "." + letters + std::to_string(start.row + row + 1);
}

} // namespace pacecells
