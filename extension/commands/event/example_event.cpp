// An example event: the event workbook, filled from a list of what a gym would have typed. The lists are in
// templates/examples, and say themselves how they are written.
#include "announced.h"
#include "dialog.h"
#include "event_cells.h"
#include "prints.h"
#include "store.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include <array>
#include <charconv>
#include <chrono>
#include <sstream>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

std::optional<int> whole(std::string_view text) {
    int value = 0;
    const auto* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    return error == std::errc{} && stop == end ? std::optional(value) : std::nullopt;
}

std::optional<double> decimal(std::string_view text) {
    double value = 0;
    const auto* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    return error == std::errc{} && stop == end ? std::optional(value) : std::nullopt;
}

// 2026-11-28 as days since Calc's day zero.
std::optional<double> date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-')
        return std::nullopt;
    const auto year = whole(text.substr(0, 4));
    const auto month = whole(text.substr(5, 2));
    const auto day = whole(text.substr(8));
    if (!year || !month || !day)
        return std::nullopt;
    using namespace std::chrono;
    const auto since = [](int y, int m, int d) {
        return sys_days(std::chrono::year(y) / std::chrono::month(static_cast<unsigned>(m)) /
                        std::chrono::day(static_cast<unsigned>(d)));
    };
    return static_cast<double>((since(*year, *month, *day) - since(1899, 12, 30)).count());
}

std::optional<double> number(std::string_view text) {
    if (const auto value = decimal(text))
        return value;
    if (const auto value = date(text))
        return value;
    if (const auto time = parse_clock(text))
        return time->value() / 86400;
    return std::nullopt;
}

// The cells under one heading: name, and what else stands in the brackets.
struct Block {
    Range cells;
    Range list;           // from which the words come, if any
    bool units = false;   // words of that list by their keys
    bool skipped = false; // belongs to another language
};

Block heading(const EventCells& cells, const std::string& line) {
    std::istringstream words(line);
    std::string name;
    std::string relation;
    std::string other;
    words >> name >> relation >> other;
    Block block;
    block.cells = cells.at(name);
    block.skipped = relation == "in" && other != interface_language();
    block.units = name.ends_with(".unit");
    if (relation == "as" || block.units)
        block.list = cells.at(block.units ? "list_units" : other);
    return block;
}

std::string word(const Range& list, int place) {
    const auto where = address(list);
    const bool across = where.EndColumn > where.StartColumn;
    const auto cell = list->getCellByPosition(across ? place - 1 : 0, across ? 0 : place - 1);
    return utf8(need<css::text::XText>(cell)->getString());
}

void write(const Block& block, sal_Int32 column, sal_Int32 row, std::string_view text) {
    if (text.empty())
        return;
    if (block.list.is()) {
        const auto place =
            block.units ? static_cast<int>(find_word(WordList::unit, text).value_or(0)) + 1 : whole(text).value_or(1);
        put_text(block.cells, column, row, word(block.list, place));
    } else if (const auto value = number(text))
        put_number(block.cells, column, row, *value);
    else
        put_text(block.cells, column, row, std::string(text));
}

constexpr std::string_view announcement_name = "announcement";

// What is under [announcement] or, where there is one, under [announcement in de].
std::string announcement_of(const std::string& list) {
    const std::string name(announcement_name);
    const std::string own = name + " in " + std::string(interface_language());
    std::istringstream lines(list);
    std::string text;
    bool open = false;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with('[')) {
            const auto heading = line.substr(1, line.find(']') - 1);
            open = heading == name || heading == own;
            if (open)
                text.clear();
        } else if (open)
            text += line + "\n";
    }
    return text;
}

void fill(const Document& document, const std::string& list) {
    const EventCells event(document);
    std::istringstream lines(list);
    if (const auto text = announcement_of(list); !text.empty()) {
        const auto language = event.language();
        write_announcement(event, read_announcement(text, language), UsualPaces(), language);
    }
    Block block;
    sal_Int32 row = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with('#'))
            continue;
        if (line.starts_with('[')) {
            const auto name = line.substr(1, line.find(']') - 1);
            block = name.starts_with(announcement_name) ? Block() : heading(event, name);
            row = 0;
            continue;
        }
        std::istringstream cells(line);
        sal_Int32 column = 0;
        for (std::string cell; block.cells.is() && !block.skipped && std::getline(cells, cell, ';');)
            write(block, column++, row, trim(cell));
        ++row;
    }
}

void open_example(Context& context, const std::string& name, const std::string& title) {
    const auto list = bytes_of(context, package_url(context) + "/examples/" + name + ".txt");
    const auto made = load(context, template_url(context, "event.ots"),
                           {{"AsTemplate", Any(true)}, {"Hidden", Any(!context.interactive())}});
    try {
        const auto document = need<css::sheet::XSpreadsheetDocument>(made);
        Undo undo(document, title);
        const auto sums = need<css::sheet::XCalculatable>(document);
        sums->enableAutomaticCalculation(false);
        fill(document, list);
        sums->enableAutomaticCalculation(true);
        sums->calculateAll();
        fit_prints(document);
        need<css::document::XDocumentPropertiesSupplier>(made)->getDocumentProperties()->setTitle(utf16(title));
        undo.done();
    } catch (...) { // rather none than one half filled
        need<css::util::XCloseable>(made)->close(true);
        throw;
    }
}

std::string format_text(std::size_t place) {
    return std::string(pacecells::word(WordList::format, place, *parse_language(interface_language())));
}

void example_event(Context& context) {
    const std::array<std::pair<std::string, std::string>, 7> examples{
        {{"rounds", format_text(0)},
         {"ladder", tr("%1 with a rep scheme", format_text(0))},
         {"time", format_text(1)},
         {"scheme", tr("%1 with a rep scheme", format_text(1))},
         {"chipper", tr("%1: a chipper", format_text(1))},
         {"intervals", format_text(2)},
         {"pairs", tr("%1 in pairs", format_text(0))}}};
    auto chosen = examples.begin();
    if (const auto asked = context.argument("Example")) {
        while (chosen != examples.end() && chosen->first != *asked)
            ++chosen;
        if (chosen == examples.end()) {
            std::string names;
            for (const auto& [name, title] : examples)
                names += (names.empty() ? "" : ", ") + name;
            throw Refusal{tr("There is no example %1. There are: %2.", *asked, names)};
        }
    } else if (context.interactive()) {
        Dialog dialog(context, tr("Example event"), 260, 50, 140);
        dialog.paragraph(tr("An invented gym with everything filled in, from the roster to the review. It opens as a "
                            "new workbook: try out what you like."),
                         3);
        std::vector<std::string> titles;
        for (const auto& example : examples)
            titles.push_back(example.second);
        const auto field = dialog.choice(tr("~Format"), titles);
        if (!dialog.run(tr("~Open"), [] { return true; }))
            return;
        chosen += dialog.selected(field);
    }
    open_example(context, chosen->first, tr("Example: %1", chosen->second));
}

const Command command{"example-event", example_event};

} // namespace

} // namespace pacecells
