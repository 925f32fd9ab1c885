// Files that are whole or not there: written beside their place under another name, then moved into it.
#pragma once

#include "office.h"

#include <com/sun/star/frame/XStorable.hpp>

namespace pacecells {

// Refused with a sentence where the file cannot be written; what stood there before is untouched then.
void store_whole(const Context& context, const css::uno::Reference<css::frame::XStorable>& document,
                 const std::string& url, Properties how);

// For sentences: file:///home/ida/My%20list.pdf as a person writes it.
[[nodiscard]] std::string shown_path(const std::string& url);

} // namespace pacecells
