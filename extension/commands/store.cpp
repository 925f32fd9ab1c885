#include "store.h"

#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <osl/file.hxx>

namespace pacecells {

void store_whole(const Context& context, const css::uno::Reference<css::frame::XStorable>& document,
                 const std::string& url, Properties how) {
    const auto unfinished = utf16(url + ".part");
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    try {
        document->storeToURL(unfinished, properties(how));
        files->move(unfinished, utf16(url));
    } catch (const css::uno::Exception&) {
        try {
            files->kill(unfinished);
        } catch (const css::uno::Exception&) {
            // It was never begun.
        }
        throw Refusal{
            tr("%1 could not be written. Is the folder there, with room and the right to write?", shown_path(url))};
    }
}

std::string shown_path(const std::string& url) {
    rtl::OUString path;
    if (osl::FileBase::getSystemPathFromFileURL(utf16(url), path) != osl::FileBase::E_None)
        return url;
    return utf8(path);
}

} // namespace pacecells
