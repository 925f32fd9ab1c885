// Shows the selected times as minutes and seconds, and has times typed there read that way.
#include "office.h"

namespace pacecells {

namespace {

void show_as_minutes(Context& context) {
    const auto ranges = selected_ranges(context);
    Undo undo(context.document(), tr("Show as minutes and seconds"));
    const css::uno::Any format(number_format(context.document(), "[M]:SS"));
    for (const auto& range : ranges)
        set_property(range, "NumberFormat", format);
    undo.done();
}

const Command minutes{"minutes", show_as_minutes};

} // namespace

} // namespace pacecells
