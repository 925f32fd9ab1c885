// Writes the help pages: HTML that opens in any browser. One page per function follows from the catalog; the pages on
// first steps and workbooks are written by hand in package/help, <page>_<language>.html without head and foot.
#include "catalog.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using pacecells::Row;
using Json = nlohmann::json;

struct Words {
    const char* language;
    const char* contents;
    const char* functions;
    const char* workbooks;
    const char* arguments;
    const char* may_be_left_out;
    const char* example;
    const char* gives;
    const char* first;
    const char* domain;
    const char* source;
};

constexpr Words all_words[] = {
    {"en", "Contents", "Functions", "Workbooks", "Arguments", "may be left out", "Example", "gives", "first",
     "What is refused, what has no answer", "Source"},
    {"de", "Inhalt", "Funktionen", "Arbeitsmappen", "Argumente", "kann fehlen", "Beispiel", "ergibt", "zuerst",
     "Was abgelehnt wird, was keine Antwort hat", "Quelle"},
    {"es", "Contenido", "Funciones", "Libros", "Argumentos", "puede omitirse", "Ejemplo", "da", "primero",
     "Qué se rechaza, qué no tiene respuesta", "Fuente"},
    {"fr", "Sommaire", "Fonctions", "Classeurs", "Arguments", "peut être omis", "Exemple", "donne", "d’abord",
     "Ce qui est refusé, ce qui n’a pas de réponse", "Source"},
};

constexpr const char* guides[] = {"first-steps", "heat-day"};
constexpr const char* workbooks[] = {"event", "tests", "wall"};

constexpr const char* style = R"(:root { color-scheme: light dark; }
body { font: 1rem/1.5 sans-serif; max-width: 44rem; margin: 0 auto; padding: 1rem; }
code { font-size: 1.05em; white-space: nowrap; }
pre { padding: .6rem .8rem; border: 1px solid; overflow-x: auto; white-space: pre-wrap; }
table { border-collapse: collapse; }
th, td { border: 1px solid; padding: .2rem .5rem; text-align: left; vertical-align: top; }
nav { font-size: .9rem; }
)";

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text)
        result += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
    return result;
}

std::string read_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        throw std::runtime_error("cannot read " + path.string());
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

// What stands between <h1> and </h1>.
std::string heading(const std::string& page) {
    const auto start = page.find("<h1>");
    const auto end = page.find("</h1>");
    if (start == std::string::npos || end == std::string::npos)
        throw std::runtime_error("a help page without <h1>");
    return page.substr(start + 4, end - start - 4);
}

// The wizard's texts in one language; English from the catalog.
class Texts {
  public:
    Texts(const std::filesystem::path& package, const std::string& language) : language_(language) {
        if (language == "en")
            return;
        json_ = Json::parse(read_file(package / ("functions_" + language + ".json")));
        domains_ = Json::parse(read_file(package / "texts" / "domains.json"));
    }
    // As the office writes it in that language.
    [[nodiscard]] std::string number(std::string_view english) const {
        std::string text(english);
        if (!json_.is_null())
            std::ranges::replace(text, '.', ',');
        return text;
    }
    // Domain or source of a function.
    [[nodiscard]] std::string domain(std::string_view english) const {
        return json_.is_null() ? std::string(english)
                               : domains_.at(std::string(english)).at(language_).get<std::string>();
    }
    [[nodiscard]] std::string description(const Row& row) const {
        return json_.is_null() ? std::string(row.description)
                               : json_.at(std::string(row.name)).at("description").get<std::string>();
    }
    [[nodiscard]] std::string description(const Row& row, const pacecells::Parameter& parameter) const {
        return json_.is_null() ? std::string(parameter.description)
                               : json_.at(std::string(row.name))
                                     .at("parameters")
                                     .at(std::string(parameter.name))
                                     .get<std::string>();
    }

  private:
    std::string language_;
    Json json_;
    Json domains_;
};

std::string synopsis(const Row& row) {
    std::string text = std::string(row.name) + "(";
    for (const auto& parameter : row.parameters()) {
        text += &parameter == row.parameters().data() ? "" : "; ";
        text += parameter.optional ? "[" + std::string(parameter.name) + "]" : std::string(parameter.name);
    }
    return text + ")";
}

std::string page(const Words& words, const std::string& title, const std::string& body) {
    return "<!DOCTYPE html>\n<html lang=\"" + std::string(words.language) +
           "\">\n<head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>" + title +
           " – Pacecells</title><link rel=\"stylesheet\" href=\"../style.css\"></head>\n<body>\n" + body +
           "\n<nav><p><a href=\"index.html\">" + words.contents + "</a></p></nav>\n</body>\n</html>\n";
}

std::string function_page(const Words& words, const Row& row, const Texts& texts) {
    std::string body = "<h1>" + std::string(row.name) + "</h1>\n<p><code>" + escaped(synopsis(row)) +
                       "</code></p>\n<p>" + escaped(texts.description(row)) + "</p>\n<h2>" + words.arguments +
                       "</h2>\n<table>\n";
    for (const auto& parameter : row.parameters())
        body += "<tr><th>" + escaped(parameter.name) + "</th><td>" + escaped(texts.description(row, parameter)) +
                (parameter.optional ? " (" + std::string(words.may_be_left_out) + ")" : "") + "</td></tr>\n";
    const std::string first = row.kind == pacecells::Kind::array ? " (" + std::string(words.first) + ")" : "";
    return body + "</table>\n<h2>" + words.example + "</h2>\n<p><code>=" + escaped(row.name) + "(" +
           escaped(row.example.arguments) + ")</code> " + words.gives + " <code>" +
           escaped(texts.number(row.example.answer)) + "</code>" + first + "</p>\n<h2>" + words.domain + "</h2>\n<p>" +
           escaped(texts.domain(row.domain)) + "</p>\n<h2>" + words.source + "</h2>\n<p>" +
           escaped(texts.domain(row.source)) + "</p>";
}

std::string index_page(const Words& words, const Texts& texts, const std::map<std::string, std::string>& titles) {
    const auto link = [&](const std::string& name) {
        return "<li><a href=\"" + name + ".html\">" + titles.at(name) + "</a></li>\n";
    };
    std::string body = "<h1>Pacecells</h1>\n<ul>\n";
    for (const auto* name : guides)
        body += link(name);
    body += "</ul>\n<h2>" + std::string(words.workbooks) + "</h2>\n<ul>\n";
    for (const auto* name : workbooks)
        body += link(name);
    body += "</ul>\n<h2>" + std::string(words.functions) + "</h2>\n<table>\n";
    for (const auto& row : pacecells::catalog())
        body += "<tr><td><a href=\"" + std::string(row.name) + ".html\">" + std::string(row.name) + "</a></td><td>" +
                escaped(texts.description(row)) + "</td></tr>\n";
    return body + "</table>";
}

void write(const std::filesystem::path& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text;
    if (!file.flush())
        throw std::runtime_error("cannot write " + path.string());
}

void write_language(const Words& words, const std::filesystem::path& package, const std::filesystem::path& folder) {
    const std::string language = words.language;
    std::filesystem::create_directories(folder);
    const Texts texts(package, language);
    std::map<std::string, std::string> titles;
    std::vector<std::string> pages(std::begin(guides), std::end(guides));
    pages.insert(pages.end(), std::begin(workbooks), std::end(workbooks));
    for (const auto& name : pages) {
        const auto body = read_file(package / "help" / (name + "_" + language + ".html"));
        titles[name] = heading(body);
        write(folder / (name + ".html"), page(words, titles[name], body));
    }
    for (const auto& row : pacecells::catalog())
        write(folder / (std::string(row.name) + ".html"),
              page(words, std::string(row.name), function_page(words, row, texts)));
    write(folder / "index.html", page(words, words.contents, index_page(words, texts, titles)));
}

} // namespace

int main(int count, char** arguments) {
    if (count != 3) {
        std::cerr << "usage: generate_help PACKAGE FOLDER_TO_WRITE\n";
        return 2;
    }
    try {
        const std::filesystem::path folder(arguments[2]);
        std::filesystem::remove_all(folder); // a page of a function that is gone goes too
        for (const auto& words : all_words)
            write_language(words, arguments[1], folder / words.language);
        write(folder / "style.css", style);
    } catch (const std::exception& problem) {
        std::cerr << "generate_help: " << problem.what() << "\n";
        return 1;
    }
    return 0;
}
