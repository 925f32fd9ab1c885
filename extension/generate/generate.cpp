// Writes what follows from the catalog into a folder of the build: the interface, its registration, the methods, and
// the lists that help pages, README and tests are made from. Nothing it writes is edited or committed.
#include "catalog.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <string>

namespace {

using pacecells::Row;
using Json = nlohmann::ordered_json;

// critical_W -> criticalW; words that the interface language keeps for itself get a tail.
std::string idl_name(std::string_view name) {
    static const std::set<std::string_view> keywords{"in", "out", "inout", "any", "get", "set", "sets", "raises"};
    std::string result;
    bool upper = false;
    for (const char c : name) {
        if (c == '_') {
            upper = true;
            continue;
        }
        result += upper ? static_cast<char>(std::toupper(static_cast<unsigned char>(c))) : c;
        upper = false;
    }
    return keywords.contains(name) ? result + "Value" : result;
}

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        switch (c) {
        case '&':
            result += "&amp;";
            break;
        case '<':
            result += "&lt;";
            break;
        case '>':
            result += "&gt;";
            break;
        case '"':
            result += "&quot;";
            break;
        default:
            result += c;
        }
    }
    return result;
}

std::string upper(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return result;
}

std::string synopsis(const Row& row) {
    std::string result = std::string(row.name) + "(";
    for (std::size_t i = 0; i < row.arity; ++i) {
        if (i)
            result += "; ";
        const auto& parameter = row.storage[i];
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

// Texts of the other languages: {"ERG.TIME": {"description": "…", "parameters": {"calories": "…"}}}.
using Languages = std::map<std::string, Json>;

Languages languages(const std::filesystem::path& folder) {
    Languages result;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const auto name = entry.path().filename().string();
        if (!name.starts_with("functions_") || entry.path().extension() != ".json")
            continue;
        std::ifstream file(entry.path());
        result[entry.path().stem().string().substr(10)] = Json::parse(file);
    }
    return result;
}

void idl(std::ostream& out) {
    out << "module org { module pacecells {\n\ninterface XFunctions : com::sun::star::uno::XInterface {\n";
    for (const auto& row : pacecells::catalog()) {
        out << "    any " << row.method << "(";
        for (std::size_t i = 0; i < row.arity; ++i)
            out << (i ? ", " : "") << "[in] any " << idl_name(row.storage[i].name);
        out << ");\n";
    }
    out << "};\n\n}; };\n";
}

void methods(std::ostream& out) {
    std::size_t index = 0;
    for (const auto& row : pacecells::catalog()) {
        out << "Any SAL_CALL " << row.method << "(";
        for (std::size_t i = 0; i < row.arity; ++i)
            out << (i ? ", " : "") << "const Any& a" << i;
        out << ") override { return call(" << index++;
        for (std::size_t i = 0; i < row.arity; ++i)
            out << ", a" << i;
        out << "); }\n";
    }
}

void value(std::ostream& out, std::string_view language, std::string_view text) {
    out << "<value xml:lang=\"" << language << "\">" << escaped(text) << "</value>";
}

void property(std::ostream& out, std::string_view name, std::string_view english, const Languages& others,
              const auto& find) {
    out << "<prop oor:name=\"" << name << "\" oor:type=\"xs:string\">";
    value(out, "en", english);
    for (const auto& [language, texts] : others)
        value(out, language, find(texts));
    out << "</prop>";
}

void registration(std::ostream& out, const Languages& others) {
    out << R"(<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
 oor:name="CalcAddIns" oor:package="org.openoffice.Office"><node oor:name="AddInInfo">
<node oor:name="org.pacecells.Functions" oor:op="replace"><node oor:name="AddInFunctions">
)";
    for (const auto& row : pacecells::catalog()) {
        const std::string name(row.name);
        out << "<node oor:name=\"" << row.method << "\" oor:op=\"replace\">"
            << "<prop oor:name=\"DisplayName\" oor:type=\"xs:string\">";
        value(out, "en", row.name);
        out << "</prop>";
        property(out, "Description", row.description, others,
                 [&](const Json& texts) { return texts.at(name).at("description").get<std::string>(); });
        out << "<prop oor:name=\"Category\"><value>Add-In</value></prop><node oor:name=\"Parameters\">\n";
        for (const auto& parameter : row.parameters()) {
            const std::string shown(parameter.name);
            out << "  <node oor:name=\"" << idl_name(shown) << "\" oor:op=\"replace\">"
                << "<prop oor:name=\"DisplayName\" oor:type=\"xs:string\">";
            value(out, "en", shown);
            out << "</prop>";
            property(out, "Description", parameter.description, others,
                     [&](const Json& texts) { return texts.at(name).at("parameters").at(shown).get<std::string>(); });
            out << "</node>\n";
        }
        out << "</node></node>\n";
    }
    out << "</node></node></node></oor:component-data>\n";
}

void list(std::ostream& out) {
    Json rows = Json::array();
    for (const auto& row : pacecells::catalog()) {
        Json parameters = Json::array();
        for (const auto& parameter : row.parameters())
            parameters.push_back(
                {{"name", parameter.name}, {"description", parameter.description}, {"optional", parameter.optional}});
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
    out << rows.dump(1) << "\n";
}

// The table of functions for the README.
void table(std::ostream& out) {
    out << "| function | gives |\n|---|---|\n";
    for (const auto& row : pacecells::catalog()) {
        std::string description(row.description);
        for (std::size_t at = 0; (at = description.find('|', at)) != std::string::npos; at += 2)
            description.insert(at, "\\");
        out << "| `" << synopsis(row) << "` | " << description << " |\n";
    }
}

} // namespace

int main(int count, char** arguments) {
    if (count != 3) {
        std::cerr << "usage: generate FOLDER_OF_TEXTS FOLDER_TO_WRITE\n";
        return 2;
    }
    try {
        const std::filesystem::path folder(arguments[2]);
        std::filesystem::create_directories(folder);
        const auto others = languages(arguments[1]);
        const auto write = [&](const char* name, const auto& what) {
            std::ofstream file(folder / name, std::ios::binary);
            what(file);
            if (!file.flush())
                throw std::runtime_error("cannot write " + (folder / name).string());
        };
        write("functions.idl", idl);
        write("methods.inc", methods);
        write("CalcAddIns.xcu", [&](std::ostream& out) { registration(out, others); });
        write("catalog.json", list);
        write("functions.md", table);
    } catch (const std::exception& problem) {
        std::cerr << "generate: " << problem.what() << "\n";
        return 1;
    }
    return 0;
}
