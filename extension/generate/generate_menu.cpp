// Writes into a folder of the build what the office shows around the cells: the menu's registration and the table of
// texts. Fails where a text lacks a language.
#include "menu.h"

#include <nlohmann/json.hpp>

#include <array>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <stdexcept>
#include <string>

namespace {

using Json = nlohmann::ordered_json;
using Texts = std::map<std::string, std::map<std::string, std::string>>; // English, then by language

constexpr std::array languages{"de", "es", "fr"};

Texts read_texts(const std::filesystem::path& folder) {
    Texts texts;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".json")
            continue;
        std::ifstream file(entry.path());
        const auto json = Json::parse(file);
        for (const auto& [english, others] : json.items()) {
            const auto where = entry.path().filename().string() + ", \"" + english + "\": ";
            auto& row = texts[english];
            for (const auto* language : languages) {
                const auto text = others.value(language, std::string());
                if (text.empty())
                    throw std::runtime_error(where + "nothing in " + language);
                if (!row[language].empty() && row[language] != text)
                    throw std::runtime_error(where + "another file has it differently in " + language);
                row[language] = text;
            }
            if (others.size() != languages.size())
                throw std::runtime_error(where + "a language too many");
        }
    }
    return texts;
}

void table(std::ostream& out, const Texts& texts) {
    for (const auto& [english, others] : texts) {
        out << "{" << Json(english).dump() << ", {";
        for (const auto* language : languages)
            out << Json(others.at(language)).dump() << ", ";
        out << "}},\n";
    }
}

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text)
        result += c == '&' ? "&amp;" : c == '<' ? "&lt;" : std::string(1, c);
    return result;
}

void title(std::ostream& out, const Texts& texts, std::string_view english) {
    const auto found = texts.find(std::string(english));
    if (found == texts.end())
        throw std::runtime_error("menu: no text \"" + std::string(english) + "\"");
    out << "<prop oor:name=\"Title\" oor:type=\"xs:string\"><value xml:lang=\"en-US\">" << escaped(english)
        << "</value>";
    for (const auto& [language, text] : found->second)
        out << "<value xml:lang=\"" << language << "\">" << escaped(text) << "</value>";
    out << "</prop>";
}

void item(std::ostream& out, const Texts& texts, const pacecells::MenuItem& entry, std::string_view node) {
    out << "<node oor:name=\"" << node << "\" oor:op=\"replace\">"
        << "<prop oor:name=\"URL\" oor:type=\"xs:string\"><value>" << pacecells::protocol << entry.command
        << "</value></prop><prop oor:name=\"Target\" oor:type=\"xs:string\"><value>_self</value></prop>";
    title(out, texts, entry.label);
    out << "</node>\n";
}

void separator(std::ostream& out, std::string_view node) {
    out << "<node oor:name=\"" << node << "\" oor:op=\"replace\"><prop oor:name=\"URL\" oor:type=\"xs:string\">"
        << "<value>private:separator</value></prop></node>\n";
}

// Node names sort as they should stand.
std::string node_name(std::size_t index, bool is_separator) {
    return "m" + std::string(index < 10 ? "0" : "") + std::to_string(index) + (is_separator ? "a" : "b");
}

void menu(std::ostream& out, const Texts& texts) {
    constexpr std::string_view context = "<prop oor:name=\"Context\" oor:type=\"xs:string\">"
                                         "<value>com.sun.star.sheet.SpreadsheetDocument</value></prop>";
    out << R"(<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
 oor:name="Addons" oor:package="org.openoffice.Office"><node oor:name="AddonUI">
<node oor:name="OfficeMenuBar"><node oor:name="org.pacecells.menu" oor:op="replace">
)";
    out << context;
    title(out, texts, "~Pacecells");
    out << "<node oor:name=\"Submenu\">\n";
    std::size_t index = 0;
    for (const auto& entry : pacecells::menu) {
        if (entry.starts_group)
            separator(out, node_name(index, true));
        item(out, texts, entry, node_name(index, false));
        ++index;
    }
    out << "</node></node></node>\n<node oor:name=\"OfficeToolBar\"><node "
           "oor:name=\"org.pacecells.toolbar\" "
           "oor:op=\"replace\">\n";
    index = 0;
    for (const auto& entry : pacecells::menu) {
        if (entry.in_toolbar) {
            out << "<node oor:name=\"" << node_name(index, false) << "\" oor:op=\"replace\">" << context
                << "<prop oor:name=\"URL\" oor:type=\"xs:string\"><value>" << pacecells::protocol << entry.command
                << "</value></prop><prop oor:name=\"Target\" oor:type=\"xs:string\"><value>_self</value></prop>";
            title(out, texts, entry.label);
            out << "</node>\n";
        }
        ++index;
    }
    out << "</node></node>\n<node oor:name=\"Images\">\n";
    for (const auto& entry : pacecells::menu) {
        out << "<node oor:name=\"org.pacecells.images." << entry.command << "\" oor:op=\"replace\">"
            << "<prop oor:name=\"URL\" oor:type=\"xs:string\"><value>" << pacecells::protocol << entry.command
            << "</value></prop><node oor:name=\"UserDefinedImages\">"
            << "<prop oor:name=\"ImageSmallURL\" oor:type=\"xs:string\"><value>%origin%/icons/" << entry.command
            << "_16.png</value></prop><prop oor:name=\"ImageBigURL\" oor:type=\"xs:string\"><value>%origin%/icons/"
            << entry.command << "_26.png</value></prop></node></node>\n";
    }
    out << "</node></node></oor:component-data>\n";
}

} // namespace

int main(int count, char** arguments) {
    if (count != 3) {
        std::cerr << "usage: generate_menu FOLDER_OF_TEXTS FOLDER_TO_WRITE\n";
        return 2;
    }
    try {
        const std::filesystem::path folder(arguments[2]);
        std::filesystem::create_directories(folder);
        const auto texts = read_texts(arguments[1]);
        const auto write = [&](const char* name, const auto& what) {
            std::ofstream file(folder / name, std::ios::binary);
            what(file, texts);
            if (!file.flush())
                throw std::runtime_error("cannot write " + (folder / name).string());
        };
        write("texts.inc", table);
        write("Addons.xcu", menu);
    } catch (const std::exception& problem) {
        std::cerr << "generate_menu: " << problem.what() << "\n";
        return 1;
    }
    return 0;
}
