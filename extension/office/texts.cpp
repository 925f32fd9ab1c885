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

// Of each language, as text_languages, all texts one after the other.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Woverlength-strings"
constexpr const char* translations[] = {
#include "translations.inc"
};
#pragma GCC diagnostic pop

using Texts = std::vector<std::string_view>;

// The texts of a language, in the order of english_texts.
const Texts& texts_of(std::size_t which) {
    static const auto all = [] {
        std::vector<Texts> made;
        for (const char* text : translations)
            for (made.emplace_back(); made.back().size() < std::size(english_texts);
                 text += made.back().back().size() + 1)
                made.back().emplace_back(text);
        return made;
    }();
    return all[which];
}

// A sentence in one of text_languages, in English where it is no row.
std::string_view in_language(std::string_view english, std::size_t which) {
    const auto& keys = texts_of(0);
    const auto found = std::ranges::lower_bound(keys, english);
    return found != keys.end() && *found == english ? texts_of(which)[static_cast<std::size_t>(found - keys.begin())]
                                                    : english;
}

// A sentence in the language of a workbook.
std::string_view in_workbook(std::string_view english, Language wanted) {
    for (std::size_t i = 0; i < std::size(text_languages); ++i)
        if (parse_language(text_languages[i].code) == wanted)
            return in_language(english, i);
    return english;
}

[[maybe_unused]] const bool cells_are_translated = (translate_with(in_workbook, date_order), true);

} // namespace

void read_interface_language(const css::uno::Reference<css::uno::XComponentContext>& component) {
    const auto locale = utf8(setting(component, "/org.openoffice.Setup/L10N", "ooLocale"));
    const auto package = find_package(component);
    const auto spoken_by_office = [&](const auto& one) { return locale.starts_with(one.code); };
    const auto in_package = [&](const auto& one) {
        return package && exists(*package + "/templates/" + std::string(one.code));
    };
    auto chosen = std::ranges::find_if(text_languages, spoken_by_office);
    if (chosen == std::end(text_languages))
        chosen = std::begin(text_languages);
    if (!in_package(*chosen))
        if (const auto other = std::ranges::find_if(text_languages, in_package); other != std::end(text_languages))
            chosen = other;
    language = static_cast<std::size_t>(chosen - std::begin(text_languages));
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

std::string tr(ShownText text) { return std::string(texts_of(language)[text.row()]); }

std::string translated(std::string_view english) { return std::string(in_language(english, language)); }

std::string tr(const Said& said) {
    std::vector<std::string> values;
    std::ranges::transform(said.told, std::back_inserter(values), shown);
    return filled(translated(said.sentence), values);
}

std::string tr(const Error& error) { return tr(Said{error.sentence, error.told}); }

} // namespace pacecells
