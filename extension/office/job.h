// What the office hands over to a job of ours (package/office/Jobs.xcu).
#pragma once

#include "office.h"

#include <com/sun/star/beans/NamedValue.hpp>

namespace pacecells {

// The spreadsheet that the event is about; a null reference where it is none.
[[nodiscard]] css::uno::Reference<css::sheet::XSpreadsheetDocument>
document_of_job(const css::uno::Sequence<css::beans::NamedValue>& arguments);
[[nodiscard]] bool is_visible(const css::uno::Reference<css::frame::XFrame>& frame);

} // namespace pacecells
