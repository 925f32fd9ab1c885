// Why a plan says what it says, in words: what was found, from what, by which rule, and where that was typed.
#pragma once

#include "recorded.h"

#include <com/sun/star/table/CellAddress.hpp>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

struct ReasonLine {
    std::string text;
    std::optional<com::sun::star::table::CellAddress> cell; // where its value was typed
};

using CellOf = std::function<std::optional<com::sun::star::table::CellAddress>(const Place&)>;
using NameOf = std::function<std::string(const com::sun::star::table::CellAddress&)>;

// The step that the answer is about, then those that it came from, each once.
[[nodiscard]] std::vector<ReasonLine> reason_lines(const Recorded& recorded, const CellOf& cell_of,
                                                   const NameOf& name_of);

} // namespace pacecells
