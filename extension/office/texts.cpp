#include "texts.h"

#include "office.h"
#include "wording.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <vector>

namespace pacecells {

namespace {

std::atomic<std::size_t> language{0}; // of the office; the same until it is restarted

struct Heading {
    std::string_view key;
    std::string_view spelling;
};
constexpr Heading all_headings[] = {
#include "headings.inc"
};

std::string shown(const Told& told) {
    const auto* number = std::get_if<double>(&told);
    if (!number)
        return with_date_order(told_text(told));
    if (std::isnan(*number))
        return tr("no number");
    return with_decimal_mark(number_text(*number));
}

std::string_view in_language(const TextRow& row, std::size_t which) {
    return which == 0 ? row.english : row.others[which - 1];
}

// A sentence in the language of a workbook.
std::string_view in_workbook(std::string_view english, Language wanted) {
    const auto row = detail::find_text(english);
    if (row == std::size(text_rows))
        return english;
    for (std::size_t i = 0; i < std::size(text_languages); ++i)
        if (parse_language(text_languages[i].code) == wanted)
            return in_language(text_rows[row], i);
    return english;
}

[[maybe_unused]] const bool cells_are_translated = (translate_with(in_workbook, date_order), true);

} // namespace

void read_interface_language(const css::uno::Reference<css::uno::XComponentContext>& component) {
    const auto locale = setting(component, "/org.openoffice.Setup/L10N", "ooLocale");
    for (std::size_t i = 0; i < std::size(text_languages); ++i)
        if (utf8(locale).substr(0, 2) == text_languages[i].code)
            language = i;
}

std::string_view interface_language() { return text_languages[language].code; }

std::vector<std::vector<std::string>> headings(std::initializer_list<std::string_view> keys) {
    std::vector<std::vector<std::string>> result;
    for (const auto key : keys) {
        auto& spellings = result.emplace_back();
        for (const auto& heading : all_headings)
            if (heading.key == key)
                spellings.emplace_back(heading.spelling);
    }
    return result;
}

std::string with_decimal_mark(std::string number) {
    if (const auto point = number.find('.'); point != std::string::npos)
        number.replace(point, 1, text_languages[language].decimal);
    return number;
}

std::string with_date_order(const std::string& text) { return in_date_order(text, text_languages[language].date); }

std::string_view date_order(Language wanted) {
    for (const auto& known : text_languages)
        if (parse_language(known.code) == wanted)
            return known.date;
    return text_languages[0].date;
}

std::string tr(Text text) { return std::string(in_language(text.row(), language)); }

std::string translated(std::string_view english) {
    const auto row = detail::find_text(english);
    return std::string(row < std::size(text_rows) ? in_language(text_rows[row], language) : english);
}

std::string tr(const Said& said) {
    std::vector<std::string> values;
    std::ranges::transform(said.told, std::back_inserter(values), shown);
    return filled(translated(said.sentence), values);
}

std::string tr(const Error& error) { return tr(Said{error.sentence, error.told}); }

} // namespace pacecells
