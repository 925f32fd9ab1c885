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

std::string bytes_of(const Context& context, const std::string& url) {
    constexpr sal_Int32 most = 64 << 20;
    css::uno::Sequence<sal_Int8> bytes;
    try {
        const auto stream = css::ucb::SimpleFileAccess::create(context.component())->openFileRead(utf16(url));
        stream->readBytes(bytes, most);
        stream->closeInput();
    } catch (const css::uno::Exception&) {
        throw Refusal{tr("%1 cannot be opened.", shown_path(url))};
    }
    return {reinterpret_cast<const char*>(bytes.getConstArray()), static_cast<std::size_t>(bytes.getLength())};
}

std::string decoded_text(const std::string& bytes) {
    rtl::OUString text;
    if (!rtl_convertStringToUString(
            &text.pData, bytes.data(), static_cast<sal_Int32>(bytes.size()), RTL_TEXTENCODING_UTF8,
            RTL_TEXTTOUNICODE_FLAGS_UNDEFINED_ERROR | RTL_TEXTTOUNICODE_FLAGS_MBUNDEFINED_ERROR |
                RTL_TEXTTOUNICODE_FLAGS_INVALID_ERROR))
        text = rtl::OUString(bytes.data(), static_cast<sal_Int32>(bytes.size()), RTL_TEXTENCODING_MS_1252);
    return utf8(text);
}

std::string shown_path(const std::string& url) {
    rtl::OUString path;
    if (osl::FileBase::getSystemPathFromFileURL(utf16(url), path) != osl::FileBase::E_None)
        return url;
    return utf8(path);
}

} // namespace pacecells
