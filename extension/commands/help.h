// The help that comes with the package: pages of HTML, which need neither the office's help nor the network.
#pragma once

#include "command.h"

namespace pacecells {

// Opens a page such as "index" or "ERG.TIME", in the language of the interface. Without windows it names the file.
void show_help(Context& context, std::string_view page);

} // namespace pacecells
