#include "texts.h"

#include "office.h"

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>

#include <atomic>

namespace pacecells {

namespace {

constexpr std::string_view languages[] = {"en", "de", "es", "fr"};
std::atomic<std::size_t> language{0}; // of the office; the same until it is restarted

} // namespace

void read_interface_language(const css::uno::Reference<css::uno::XComponentContext>& component) {
    const auto provider =
        need<css::lang::XMultiServiceFactory>(create(component, "com.sun.star.configuration.ConfigurationProvider"));
    const css::uno::Any path(css::beans::PropertyValue("nodepath", 0,
                                                       css::uno::Any(rtl::OUString("/org.openoffice.Setup/L10N")),
                                                       css::beans::PropertyState_DIRECT_VALUE));
    const auto settings = need<css::container::XNameAccess>(provider->createInstanceWithArguments(
        "com.sun.star.configuration.ConfigurationAccess", css::uno::Sequence<css::uno::Any>(&path, 1)));
    rtl::OUString locale;
    settings->getByName("ooLocale") >>= locale;
    for (std::size_t i = 0; i < std::size(languages); ++i)
        if (utf8(locale).substr(0, 2) == languages[i])
            language = i;
}

std::string_view interface_language() { return languages[language]; }

std::string tr(Text text) {
    const std::size_t which = language;
    return std::string(which == 0 ? text.row().english : text.row().others[which - 1]);
}

namespace detail {

std::string filled(std::string text, const std::string* values, std::size_t count) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const std::size_t which =
            text[i] == '%' && i + 1 < text.size() ? static_cast<std::size_t>(text[i + 1] - '1') : count;
        if (which < count) {
            result += values[which];
            ++i;
        } else {
            result += text[i];
        }
    }
    return result;
}

} // namespace detail

} // namespace pacecells
