#include "store.h"

#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/util/thePathSettings.hpp>
#include <osl/file.hxx>
#include <rtl/ustrbuf.hxx>

namespace pacecells {

namespace {

// Where the office notes that somebody has a file open.
rtl::OUString lock_of(const std::string& url) {
    const auto name = url.find_last_of('/') + 1;
    return utf16(url.substr(0, name) + ".~lock." + url.substr(name) + "%23");
}

// Measured on 25.2 and 26.8; 7.4 tags only cells whose text is wrapped, and a reader would hear those alone.
bool tags_cells(const Context& context) {
    constexpr double first = 25.2;
    return setting(context.component(), "/org.openoffice.Setup/Product", "ooSetupVersion").toDouble() >= first;
}

} // namespace

void refuse_locked(const Context& context, const std::string& url) {
    if (locked(context, url))
        throw Refusal{tr("%1 is open elsewhere. Close it there, or choose another name.", shown_path(url))};
}

void store_whole(const Context& context, const css::uno::Reference<css::frame::XStorable>& document,
                 const std::string& url, Properties how) {
    const auto unfinished = url + ".part";
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    refuse_locked(context, url);
    try {
        document->storeToURL(utf16(unfinished), properties(how));
        // One step on a disk, so that at every moment the old file or the new one is there; elsewhere in the office's
        // way.
        if (osl::File::move(utf16(unfinished), utf16(url)) != osl::FileBase::E_None)
            files->move(utf16(unfinished), utf16(url));
    } catch (const css::uno::Exception&) {
        for (const auto& rest : {utf16(unfinished), lock_of(unfinished)}) // on a full disk the office forgets its lock
            osl::File::remove(rest);
        throw Refusal{
            tr("%1 could not be saved. Check that the folder exists, has space and is writable.", shown_path(url))};
    }
}

void store_pdf(const Context& context, const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document,
               const std::string& url, const std::string& title) {
    using css::uno::Any;
    if (!title.empty())
        need<css::document::XDocumentPropertiesSupplier>(document)->getDocumentProperties()->setTitle(utf16(title));
    store_whole(context, need<css::frame::XStorable>(document), url,
                {{"FilterName", Any(rtl::OUString("calc_pdf_Export"))},
                 {"FilterData", Any(properties({{"UseTaggedPDF", Any(tags_cells(context))},
                                                {"DisplayPDFDocumentTitle", Any(true)}}))}});
}

bool locked(const Context& context, const std::string& url) {
    return css::ucb::SimpleFileAccess::create(context.component())->exists(lock_of(url));
}

std::vector<std::string> remove_backups(const Context& context, const std::string& url) {
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    const auto slash = url.find_last_of('/') + 1;
    const auto name = url.substr(slash);
    const auto own = utf8(css::util::thePathSettings::get(context.component())->getBackup()) + "/";
    std::vector<std::string> left;
    // LibreOffice 7.4 names them without the ending of the file
    for (const auto& backup : {own + name + ".bak", own + name.substr(0, name.find_last_of('.')) + ".bak",
                               url.substr(0, slash) + name + ".bak"})
        try {
            if (files->exists(utf16(backup)))
                files->kill(utf16(backup));
        } catch (const css::uno::Exception&) {
            left.push_back(shown_path(backup));
        }
    return left;
}

std::string bytes_of(const Context& context, const std::string& url) {
    constexpr sal_Int32 most = 64 << 20;
    css::uno::Sequence<sal_Int8> bytes;
    try {
        const auto stream = css::ucb::SimpleFileAccess::create(context.component())->openFileRead(utf16(url));
        if (!stream.is()) // a folder
            throw Refusal{tr("%1 cannot be opened.", shown_path(url))};
        stream->readBytes(bytes, most);
        stream->closeInput();
    } catch (const css::uno::Exception&) {
        throw Refusal{tr("%1 cannot be opened.", shown_path(url))};
    }
    return {reinterpret_cast<const char*>(bytes.getConstArray()), static_cast<std::size_t>(bytes.getLength())};
}

std::optional<std::string> decoded_text(const std::string& bytes) {
    rtl::OUString text;
    const bool little = bytes.starts_with("\xFF\xFE");
    if (little || bytes.starts_with("\xFE\xFF")) {
        const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
        rtl::OUStringBuffer units;
        for (std::size_t i = 2; i + 1 < bytes.size(); i += 2)
            units.append(static_cast<sal_Unicode>(little ? byte(i) | byte(i + 1) << 8 : byte(i) << 8 | byte(i + 1)));
        text = units.makeStringAndClear();
    } else if (!rtl_convertStringToUString(
                   &text.pData, bytes.data(), static_cast<sal_Int32>(bytes.size()), RTL_TEXTENCODING_UTF8,
                   RTL_TEXTTOUNICODE_FLAGS_UNDEFINED_ERROR | RTL_TEXTTOUNICODE_FLAGS_MBUNDEFINED_ERROR |
                       RTL_TEXTTOUNICODE_FLAGS_INVALID_ERROR))
        text = rtl::OUString(bytes.data(), static_cast<sal_Int32>(bytes.size()), RTL_TEXTENCODING_MS_1252);
    return text.indexOf(u'\0') < 0 ? std::optional(utf8(text)) : std::nullopt;
}

std::string shown_path(const std::string& url) {
    rtl::OUString path;
    if (osl::FileBase::getSystemPathFromFileURL(utf16(url), path) != osl::FileBase::E_None)
        return url;
    return utf8(path);
}

} // namespace pacecells
