// Reading and writing files that a person chose.
#pragma once

#include "office.h"

#include <com/sun/star/frame/XStorable.hpp>

#include <optional>
#include <string>
#include <vector>

namespace pacecells {

// A file is whole or not there: written beside its place under another name, then moved into it. Refused with a
// sentence where it cannot be written, or is open elsewhere; what stood there before is untouched then.
void store_whole(const Context& context, const css::uno::Reference<css::frame::XStorable>& document,
                 const std::string& url, Properties how);

// The same as a PDF, with the language of the document and its title, or this title where one is given. Tagged, so that a
// screen reader reads it in order, where the office tags every cell.
void store_pdf(const Context& context, const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document,
               const std::string& url, const std::string& title = {});

// Whether the office, here or elsewhere, has noted that somebody has the file open.
[[nodiscard]] bool locked(const Context& context, const std::string& url);

// A sentence where it has: of several files, all are asked before the first is written.
void refuse_locked(const Context& context, const std::string& url);

// Removes what the office kept of a file from before it was saved, in its own folder or beside the file; newer offices do
// so unasked. Gives those that could not be removed, for sentences.
[[nodiscard]] std::vector<std::string> remove_backups(const Context& context, const std::string& url);

// All of a file, at most 64 MiB of it. Refused with a sentence where it cannot be opened.
[[nodiscard]] std::string bytes_of(const Context& context, const std::string& url);

// Text as UTF-8, as UTF-16 where it says so or, where it is neither, as older programs write it. None where it is no
// text.
[[nodiscard]] std::optional<std::string> decoded_text(const std::string& bytes);

// For sentences: file:///home/ida/My%20list.pdf as a person writes it.
[[nodiscard]] std::string shown_path(const std::string& url);

} // namespace pacecells
