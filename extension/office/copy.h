// A document of its own with the same contents, out of sight, to work on while the person's stays as it is.
#pragma once

#include "event_cells.h"

namespace pacecells {

class Copy {
  public:
    // Through a temporary file whose name nobody else has; it is gone again when the copy is open. Undo and automatic
    // calculation are off in it, and its sheets are open.
    Copy(const Context& context, const Document& original);
    ~Copy();
    Copy(const Copy&) = delete;
    Copy& operator=(const Copy&) = delete;

    [[nodiscard]] const Document& document() const { return document_; }
    [[nodiscard]] Range sheet(sal_Int32 index) const;
    [[nodiscard]] sal_Int32 sheets() const;

    void protect_again() const; // the sheets that were protected without a password

  private:
    void unprotect();

    Document document_;
    std::vector<Range> opened_;
};

[[nodiscard]] Range part(const Range& sheet, const css::table::CellRangeAddress& where);

} // namespace pacecells
