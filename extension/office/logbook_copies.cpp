#include "logbook_copies.h"

#include "store.h"

#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <osl/time.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>

namespace pacecells {

namespace {

constexpr std::string_view ending = ".ods";

// The name of a file without folder and ending.
std::string stem_of(const std::string& url) {
    auto name = url.substr(url.find_last_of('/') + 1);
    return name.ends_with(ending) ? name.substr(0, name.size() - ending.size()) : name;
}

oslDateTime local_time() {
    TimeValue now{};
    TimeValue local{};
    oslDateTime parts{};
    osl_getSystemTime(&now);
    osl_getLocalTimeFromSystemTime(&now, &local);
    osl_getDateTimeFromTimeValue(&local, &parts);
    return parts;
}

std::string padded(int value, std::size_t digits) {
    const auto text = std::to_string(value);
    return std::string(digits - std::min(digits, text.size()), '0') + text;
}

std::optional<std::chrono::sys_days> day_in(std::string_view name) { // "2026-11-25…"
    std::array<int, 3> parts{};
    const std::array<std::size_t, 3> starts{0, 5, 8};
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto part = name.substr(std::min(starts[i], name.size()), i == 0 ? 4 : 2);
        if (std::from_chars(part.data(), part.data() + part.size(), parts[i]).ptr != part.data() + part.size() ||
            part.empty())
            return std::nullopt;
    }
    const std::chrono::year_month_day day{std::chrono::year{parts[0]},
                                          std::chrono::month{static_cast<unsigned>(parts[1])},
                                          std::chrono::day{static_cast<unsigned>(parts[2])}};
    return day.ok() ? std::optional(std::chrono::sys_days{day}) : std::nullopt;
}

} // namespace

std::string folder_of_copies(const std::string& url) {
    return url.substr(0, url.find_last_of('/') + 1) + stem_of(url) + ".copies";
}

void keep_logbook_copy(const Context& context, const std::string& url) {
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    const auto folder = folder_of_copies(url);
    const auto now = local_time();
    const auto moment = padded(now.Year, 4) + "-" + padded(now.Month, 2) + "-" + padded(now.Day, 2) + "%20" +
                        padded(now.Hours, 2) + "." + padded(now.Minutes, 2) + "." + padded(now.Seconds, 2);
    try {
        if (!files->exists(utf16(folder)))
            files->createFolder(utf16(folder));
        files->copy(utf16(url), utf16(folder + "/" + moment + std::string(ending)));
        const auto today = *day_in(moment);
        for (const auto& copy : files->getFolderContents(utf16(folder), false)) {
            const auto day = day_in(stem_of(utf8(copy)));
            if (day && (today - *day).count() > copies_kept_days)
                files->kill(copy);
        }
    } catch (const css::uno::Exception&) {
        throw Refusal{tr("No copy of the logbook could be made in %1, so nothing was written.", shown_path(folder))};
    }
}

} // namespace pacecells
