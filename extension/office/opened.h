// A file opened out of sight, to read from; closed again whatever happens.
#pragma once

#include "event_cells.h"

namespace pacecells {

class Opened {
  public:
    // Without macros and links. Refused in words where the office cannot open it, or it is no spreadsheet.
    Opened(const Context& context, const std::string& url);
    ~Opened();
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;

    [[nodiscard]] const Document& document() const { return document_; }

  private:
    void close();

    css::uno::Reference<css::lang::XComponent> opened_;
    Document document_;
};

} // namespace pacecells
