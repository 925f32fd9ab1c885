#include "opened.h"

#include "store.h"

#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/util/XCloseable.hpp>

namespace pacecells {

using css::uno::Any;

Opened::Opened(const Context& context, const std::string& url) {
    try {
        opened_ = load(context, url,
                       {{"Hidden", Any(true)},
                        {"ReadOnly", Any(true)},
                        {"MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE)},
                        {"UpdateDocMode", Any(css::document::UpdateDocMode::NO_UPDATE)}});
    } catch (const css::uno::Exception&) { // no such form of file, or a password
    } catch (const Refusal&) {
    }
    document_ = as<css::sheet::XSpreadsheetDocument>(opened_);
    if (!document_.is()) {
        close();
        throw Refusal{
            tr("%1 cannot be opened: it is no workbook, it has a password, or it is damaged.", shown_path(url))};
    }
}

Opened::~Opened() { close(); }

void Opened::close() {
    try {
        if (opened_.is())
            need<css::util::XCloseable>(opened_)->close(true);
    } catch (const css::uno::Exception&) { // it will go when the office lets it
    }
}

} // namespace pacecells
