// A file opened out of sight, to read from; closed again whatever happens.
#pragma once

#include "event_cells.h"

namespace pacecells {

class Opened {
  public:
    // Without macros and links. Exceptions of the office pass.
    Opened(const Context& context, const std::string& url);
    ~Opened();
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;

    [[nodiscard]] Document spreadsheet() const; // null where it is none

  private:
    css::uno::Reference<css::lang::XComponent> document_;
};

} // namespace pacecells
