// The screens of this computer, as far as they are known.
#pragma once

#include <com/sun/star/awt/Rectangle.hpp>

#include <vector>

namespace pacecells {

// By number, from 1 on; none where nobody tells.
[[nodiscard]] std::vector<css::awt::Rectangle> screens();

} // namespace pacecells
