// New workbooks from the package's templates, in the language of the interface.
#include "office.h"

namespace pacecells {

namespace {

void open_template(Context& context, std::string_view file) {
    load(context, template_url(context, file),
         {{"AsTemplate", css::uno::Any(true)}, {"Hidden", css::uno::Any(!context.interactive())}});
}

const Command new_wall{"new-wall", [](Context& context) { open_template(context, "wall.ots"); }};
const Command new_roster{"new-roster", [](Context& context) { open_template(context, "roster.ots"); }};

} // namespace

} // namespace pacecells
