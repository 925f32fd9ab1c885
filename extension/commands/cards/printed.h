// What was printed, so that a second print holds only what changed, and a correction of the announcement gets a number of
// its own. Kept in a property of the document, as digests: no name is stored.
#pragma once

#include "event_cells.h"

#include <cstdint>
#include <map>

namespace pacecells {

using Digest = std::uint64_t;

// Of texts and numbers, cell by cell.
[[nodiscard]] Digest digest_of(const Rows& rows);
[[nodiscard]] Digest digest_of_name(const std::string& name);

struct PrintedPerson {
    Digest card = 0; // 0: not printed
    Digest judge = 0;
};

struct Printed {
    double announcement = 0;
    Digest workout = 0; // cap, stations, amounts and loads
    Digest wall = 0;
    Digest heats = 0;
    std::map<Digest, PrintedPerson> people; // by the digest of the name

    [[nodiscard]] bool nothing() const { return workout == 0; }
};

[[nodiscard]] Printed printed_before(const Document& document);
void remember(const Document& document, const Printed& printed);
void forget_printed(const Document& document);

// Where cap, amounts or loads differ from those printed and the announcement still has the number it was printed with:
// asks for the next one and writes it into the workbook. False where the person cancels. Without windows the argument
// Announcement answers. `by_hand`: the office itself has printed, with the old number.
[[nodiscard]] bool version_settled(Context& context, const EventCells& event, Printed& printed, bool by_hand = false);

} // namespace pacecells
