#include "logbook_place.h"

#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/util/XChangesBatch.hpp>

#include <array>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

Reference<css::beans::XPropertySet> settings(const Context& context, const char* access) {
    const auto provider = css::configuration::theDefaultProvider::get(context.component());
    const css::beans::PropertyValue path("nodepath", 0, Any(rtl::OUString("/org.pacecells.Settings/Logbook")),
                                         css::beans::PropertyState_DIRECT_VALUE);
    return Reference<css::beans::XPropertySet>(
        provider->createInstanceWithArguments(rtl::OUString::createFromAscii(access),
                                              css::uno::Sequence<Any>(std::array{Any(path)}.data(), 1)),
        css::uno::UNO_QUERY_THROW);
}

} // namespace

std::optional<std::string> logbook_place(const Context& context) {
    rtl::OUString place;
    settings(context, "com.sun.star.configuration.ConfigurationAccess")->getPropertyValue("Place") >>= place;
    return place.isEmpty() ? std::nullopt : std::optional(utf8(place));
}

void remember_logbook(const Context& context, const std::string& url) {
    const auto node = settings(context, "com.sun.star.configuration.ConfigurationUpdateAccess");
    node->setPropertyValue("Place", Any(utf16(url)));
    need<css::util::XChangesBatch>(node)->commitChanges();
}

} // namespace pacecells
