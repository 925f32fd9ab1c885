#include "job.h"

#include <com/sun/star/awt/XWindow2.hpp>

#include <algorithm>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

Any named(const css::uno::Sequence<css::beans::NamedValue>& values, const char* name) {
    const auto* found =
        std::find_if(values.begin(), values.end(), [&](const auto& value) { return value.Name.equalsAscii(name); });
    return found == values.end() ? Any() : found->Value;
}

} // namespace

Reference<css::sheet::XSpreadsheetDocument>
document_of_job(const css::uno::Sequence<css::beans::NamedValue>& arguments) {
    css::uno::Sequence<css::beans::NamedValue> environment;
    Reference<css::sheet::XSpreadsheetDocument> document;
    named(arguments, "Environment") >>= environment;
    named(environment, "Model") >>= document;
    return document;
}

bool is_visible(const Reference<css::frame::XFrame>& frame) {
    const auto window =
        frame.is() ? as<css::awt::XWindow2>(frame->getContainerWindow()) : Reference<css::awt::XWindow2>();
    return window.is() && window->isVisible();
}

} // namespace pacecells
