// Texts: ours are UTF-8, the office's UTF-16.
#pragma once

#include <rtl/string.hxx>
#include <rtl/ustring.hxx>

#include <algorithm>
#include <string>
#include <string_view>

namespace pacecells {

[[nodiscard]] inline std::string utf8(const rtl::OUString& text) {
    const auto* const begin = text.getStr();
    const auto* const end = begin + text.getLength();
    if (std::all_of(begin, end, [](sal_Unicode c) { return c < 0x80; }))
        return {begin, end}; // options, units and most names: no detour
    const rtl::OString bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
}

[[nodiscard]] inline rtl::OUString utf16(std::string_view text) {
    return {text.data(), static_cast<sal_Int32>(text.size()), RTL_TEXTENCODING_UTF8};
}

} // namespace pacecells
