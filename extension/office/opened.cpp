#include "opened.h"

#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/util/XCloseable.hpp>

namespace pacecells {

using css::uno::Any;

Opened::Opened(const Context& context, const std::string& url)
    : document_(load(context, url,
                     {{"Hidden", Any(true)},
                      {"ReadOnly", Any(true)},
                      {"MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE)},
                      {"UpdateDocMode", Any(css::document::UpdateDocMode::NO_UPDATE)}})) {}

Opened::~Opened() {
    try {
        need<css::util::XCloseable>(document_)->close(true);
    } catch (const css::uno::Exception&) { // it will go when the office lets it
    }
}

Document Opened::spreadsheet() const { return as<css::sheet::XSpreadsheetDocument>(document_); }

} // namespace pacecells
