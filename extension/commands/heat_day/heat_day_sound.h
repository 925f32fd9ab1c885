// The beep of the heat day.
#pragma once

#include "office.h"

#include <com/sun/star/media/XPlayer.hpp>

#include <filesystem>

namespace pacecells {

class Beeper {
  public:
    // Whether this office can. The sound is a file in that folder, made once.
    [[nodiscard]] bool beep(const css::uno::Reference<css::uno::XComponentContext>& component,
                            const std::filesystem::path& folder);
    void stop(); // before the office goes down

  private:
    css::uno::Reference<css::media::XPlayer> player_;
};

} // namespace pacecells
