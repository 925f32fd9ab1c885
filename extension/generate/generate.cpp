// Leaves the catalog of functions and the menu as one JSON. write.py makes everything else from it.
#include "catalog.h"
#include "menu.h"

#include "pacecells/words.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iostream>
#include <string>

namespace {

using Json = nlohmann::ordered_json;

std::string upper(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return result;
}

std::string synopsis(const pacecells::Row& row) {
    std::string result = std::string(row.name) + "(";
    for (const auto& parameter : row.parameters()) {
        result += &parameter == row.parameters().data() ? "" : "; ";
        result += parameter.optional ? "[" + std::string(parameter.name) + "]" : std::string(parameter.name);
    }
    return result + ")";
}

std::string_view kind_name(pacecells::Kind kind) {
    switch (kind) {
    case pacecells::Kind::number:
        return "number";
    case pacecells::Kind::time:
        return "time";
    case pacecells::Kind::text:
        return "text";
    case pacecells::Kind::array:
        break;
    }
    return "array";
}

Json left_out(const pacecells::Default& value) {
    if (value.number)
        return *value.number;
    return value.word.empty() ? Json() : Json(value.word);
}

Json functions() {
    auto rows = Json::array();
    for (const auto& row : pacecells::catalog()) {
        auto parameters = Json::array();
        for (const auto& parameter : row.parameters())
            parameters.push_back({{"name", parameter.name},
                                  {"type", parameter.area ? "range" : "any"},
                                  {"description", parameter.description},
                                  {"left_out", left_out(parameter.left_out)},
                                  {"optional", parameter.optional},
                                  {"time", parameter.time},
                                  {"most", parameter.most}});
        rows.push_back({{"method", row.method},
                        {"saved", "ORG.PACECELLS.FUNCTIONS." + upper(row.method)},
                        {"name", row.name},
                        {"family", row.family()},
                        {"kind", kind_name(row.kind)},
                        {"synopsis", synopsis(row)},
                        {"description", row.description},
                        {"domain", row.domain},
                        {"source", row.source},
                        {"parameters", parameters},
                        {"formula", "=" + std::string(row.name) + "(" + std::string(row.example.arguments) + ")"},
                        {"answer", row.example.answer}});
    }
    return rows;
}

Json menu() {
    auto items = Json::array();
    for (const auto& submenu : pacecells::menu)
        for (const auto& item : submenu.items)
            items.push_back({{"submenu", submenu.label},
                             {"command", item.command},
                             {"label", item.label},
                             {"starts_group", item.starts_group},
                             {"in_toolbar", item.in_toolbar}});
    return {{"title", pacecells::menu_title}, {"protocol", pacecells::protocol}, {"items", items}};
}

// The words that workbooks offer to choose from: key and text in each language.
Json words() {
    Json lists;
    for (std::size_t i = 0; i < pacecells::word_lists; ++i) {
        const auto list = static_cast<pacecells::WordList>(i);
        auto& entries = lists[std::string(pacecells::name_of(list))] = Json::array();
        for (const auto& word : pacecells::words_of(list)) {
            Json entry{{"key", word.key}};
            for (std::size_t language = 0; language < word.text.size(); ++language)
                entry[std::string(pacecells::language_keys()[language])] = word.text[language];
            entries.push_back(entry);
        }
    }
    return lists;
}

} // namespace

int main(int count, char** arguments) {
    if (count != 2) {
        std::cerr << "usage: generate FILE_TO_WRITE\n";
        return 2;
    }
    const Json catalog{{"functions", functions()}, {"menu", menu()}, {"words", words()}};
    std::ofstream file(arguments[1], std::ios::binary);
    file << catalog.dump(1) << "\n";
    if (file.flush())
        return 0;
    std::cerr << "generate: cannot write " << arguments[1] << "\n";
    return 1;
}
