#include "job.h"

#include <com/sun/star/awt/XWindow2.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <cppuhelper/supportsservice.hxx>

#include <algorithm>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;
using rtl::OUString;

namespace {

Any named(const css::uno::Sequence<css::beans::NamedValue>& values, const char* name) {
    const auto* found =
        std::find_if(values.begin(), values.end(), [&](const auto& value) { return value.Name.equalsAscii(name); });
    return found == values.end() ? Any() : found->Value;
}

} // namespace

Job::Job(Reference<css::uno::XComponentContext> component, const char* service)
    : component_(std::move(component)), service_(OUString::createFromAscii(service)) {}

Any SAL_CALL Job::execute(const css::uno::Sequence<css::beans::NamedValue>& arguments) {
    try {
        css::uno::Sequence<css::beans::NamedValue> environment;
        Reference<css::sheet::XSpreadsheetDocument> document;
        named(arguments, "Environment") >>= environment;
        named(environment, "Model") >>= document;
        const auto controller = document.is() ? need<css::frame::XModel>(document)->getCurrentController() : nullptr;
        if (controller.is())
            happened(document, controller->getFrame());
    } catch (...) {
    }
    return {};
}

OUString SAL_CALL Job::getImplementationName() { return service_ + "Implementation"; }
sal_Bool SAL_CALL Job::supportsService(const OUString& name) { return cppu::supportsService(this, name); }
css::uno::Sequence<OUString> SAL_CALL Job::getSupportedServiceNames() { return {&service_, 1}; }

bool is_visible(const Reference<css::frame::XFrame>& frame) {
    const auto window =
        frame.is() ? as<css::awt::XWindow2>(frame->getContainerWindow()) : Reference<css::awt::XWindow2>();
    return window.is() && window->isVisible();
}

} // namespace pacecells
