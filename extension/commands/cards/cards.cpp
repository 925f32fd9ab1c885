// The athletes' cards as PDF: all, a division or one; in one file or in one for each athlete.
//
// The cards are laid out by the workbook. They are copied as values into a document of their own, moved up so that no
// place stays empty, and printed from there; the person's document is only read. A file gets its final name when it is
// whole, so that neither a full disk nor a cancel leaves half of one.
#include "dialog.h"
#include "form.h"
#include "main_thread.h"
#include "office.h"
#include "store.h"

#include "pacecells/text.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameContainer.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheets2.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/ui/dialogs/FolderPicker.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XProtectable.hpp>

#include <rtl/uri.hxx>

#include <algorithm>
#include <set>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;

using Document = Reference<css::sheet::XSpreadsheetDocument>;

struct Card {
    std::string name;
    std::string division;
    Sequence<Sequence<Any>> cells;
};

// Where the cards stand: two side by side, the next two below.
struct Grid {
    css::table::CellRangeAddress first;
    sal_Int32 step_right;
    sal_Int32 step_down;

    explicit Grid(const Document& document)
        : first(address(named_range(document, "card_one"))),
          step_right(address(named_range(document, "card_two")).StartColumn - first.StartColumn),
          step_down(first.EndRow - first.StartRow + 1) {}

    [[nodiscard]] css::table::CellRangeAddress of(std::size_t card) const {
        auto place = first;
        const auto right = static_cast<sal_Int32>(card % 2) * step_right;
        const auto down = static_cast<sal_Int32>(card / 2) * step_down;
        place.StartColumn += right;
        place.EndColumn += right;
        place.StartRow += down;
        place.EndRow += down;
        return place;
    }
    // The print area of so many cards: whole rows of two.
    [[nodiscard]] css::table::CellRangeAddress of_first(std::size_t cards) const {
        auto area = of(cards - 1);
        area.StartColumn = first.StartColumn;
        area.StartRow = first.StartRow;
        if (cards > 1)
            area.EndColumn = of(1).EndColumn;
        return area;
    }
};

Reference<css::table::XCellRange> part(const Reference<css::table::XCellRange>& sheet,
                                       const css::table::CellRangeAddress& where) {
    return sheet->getCellRangeByPosition(where.StartColumn, where.StartRow, where.EndColumn, where.EndRow);
}

Reference<css::table::XCellRange> sheet_of(const Document& document, sal_Int32 index) {
    const auto sheets = need<css::container::XIndexAccess>(document->getSheets());
    return Reference<css::table::XCellRange>(sheets->getByIndex(index), css::uno::UNO_QUERY_THROW);
}

std::string text_in(const Any& value) {
    rtl::OUString text;
    value >>= text;
    return utf8(text);
}

std::vector<Card> cards_of(const Document& document, const Grid& grid) {
    const auto names = values_of(named_range(document, "roster_name"));
    const auto divisions = values_of(named_range(document, "roster_division"));
    const auto sheet = sheet_of(document, grid.first.Sheet);
    std::vector<Card> cards;
    for (std::size_t i = 0; i < static_cast<std::size_t>(names.getLength()); ++i) {
        Card card{{}, {}, values_of(part(sheet, grid.of(i)))};
        card.name = text_in(card.cells[0][0]);
        if (card.name.empty())
            continue;
        for (sal_Int32 row = 0; row < names.getLength(); ++row)
            if (text_in(names[row][0]) == card.name)
                card.division = text_in(divisions[row][0]);
        cards.push_back(std::move(card));
    }
    return cards;
}

// A document of its own with the layout of the cards.
class Press {
  public:
    Press(const Context& context, const Grid& grid) : context_(context), grid_(grid) {
        const auto document = context.document();
        copy_ = need<css::sheet::XSpreadsheetDocument>(load(context, "private:factory/scalc", {{"Hidden", Any(true)}}));
        const auto sheets = need<css::sheet::XSpreadsheets2>(copy_->getSheets());
        const auto original = need<css::container::XNamed>(sheet_of(document, grid.first.Sheet));
        sheets->importSheet(document, original->getName(), 0);
        sheet_ = sheet_of(copy_, 0);
        if (const auto protection = as<css::util::XProtectable>(sheet_); protection.is() && protection->isProtected())
            protection->unprotect({});
        copy_page_style(document, get_property(original, "PageStyle"));
        blank_ = values_of(part(sheet_, grid.first));
        for (auto* row = blank_.begin(); row != blank_.end(); ++row)
            for (auto* cell = row->begin(); cell != row->end(); ++cell)
                *cell <<= rtl::OUString();
        while (need<css::container::XIndexAccess>(copy_->getSheets())->getCount() > 1) {
            const auto last = sheet_of(copy_, 1);
            copy_->getSheets()->removeByName(need<css::container::XNamed>(last)->getName());
        }
    }
    ~Press() {
        try {
            need<css::util::XCloseable>(copy_)->close(true);
        } catch (const css::uno::Exception&) {
            // Somebody else keeps it open; it holds nothing that is not elsewhere.
        }
    }
    Press(const Press&) = delete;
    Press& operator=(const Press&) = delete;

    // Puts these cards into the first places and prints them into a file.
    void print(const std::vector<const Card*>& cards, const std::string& url) {
        const std::size_t used = cards.size() + cards.size() % 2; // a lone last card leaves the place beside it blank
        for (std::size_t i = 0; i < used; ++i)
            set_values(part(sheet_, grid_.of(i)), i < cards.size() ? cards[i]->cells : blank_);
        auto area = grid_.of_first(cards.size());
        area.Sheet = 0;
        need<css::sheet::XPrintAreas>(sheet_)->setPrintAreas({&area, 1});

        store_whole(context_, need<css::frame::XStorable>(copy_), url,
                    {{"FilterName", Any(rtl::OUString("calc_pdf_Export"))}});
    }

  private:
    // A sheet comes along without the style of its pages.
    void copy_page_style(const Document& document, const Any& name) {
        const auto styles = [](const Document& of) {
            const auto families = need<css::style::XStyleFamiliesSupplier>(of)->getStyleFamilies();
            return Reference<css::container::XNameContainer>(families->getByName("PageStyles"),
                                                             css::uno::UNO_QUERY_THROW);
        };
        rtl::OUString title;
        name >>= title;
        const Reference<css::beans::XPropertySet> from(styles(document)->getByName(title), css::uno::UNO_QUERY_THROW);
        const Reference<css::beans::XPropertySet> to(
            need<css::lang::XMultiServiceFactory>(copy_)->createInstance("com.sun.star.style.PageStyle"),
            css::uno::UNO_QUERY_THROW);
        styles(copy_)->insertByName("cards", Any(to));
        for (const auto* side : {"IsLandscape", "Width", "Height", "LeftMargin", "RightMargin", "TopMargin",
                                 "BottomMargin", "HeaderIsOn", "FooterIsOn", "CenterHorizontally", "CenterVertically",
                                 "PageScale", "ScaleToPages", "ScaleToPagesX", "ScaleToPagesY"})
            to->setPropertyValue(rtl::OUString::createFromAscii(side),
                                 from->getPropertyValue(rtl::OUString::createFromAscii(side)));
        set_property(sheet_, "PageStyle", Any(rtl::OUString("cards")));
    }

    const Context& context_;
    Grid grid_;
    Document copy_;
    Reference<css::table::XCellRange> sheet_;
    Sequence<Sequence<Any>> blank_;
};

// --- the command -------------------------------------------------------------------------------------------------

constexpr std::string_view everyone = "all";
constexpr std::string_view of_division = "division:";
constexpr std::string_view of_athlete = "athlete:";

std::vector<Form::Option> who_can_be_chosen(const std::vector<Card>& cards) {
    std::vector<Form::Option> options{{std::string(everyone), tr("Everyone")}};
    std::set<std::string> divisions;
    for (const auto& card : cards)
        if (!card.division.empty() && divisions.insert(card.division).second)
            options.push_back({std::string(of_division) + card.division, tr("Division: %1", card.division)});
    for (const auto& card : cards)
        options.push_back({std::string(of_athlete) + card.name, card.name});
    return options;
}

std::vector<const Card*> chosen_cards(const std::vector<Card>& cards, const std::string& who) {
    std::vector<const Card*> chosen;
    for (const auto& card : cards)
        if (who == everyone || who == std::string(of_division) + card.division ||
            who == std::string(of_athlete) + card.name)
            chosen.push_back(&card);
    return chosen;
}

// A name as a file can have it, each one once.
std::string file_name(const std::string& name, std::set<std::string>& taken) {
    std::string plain;
    for (const char c : name)
        plain +=
            static_cast<unsigned char>(c) < ' ' || std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos
                ? '_'
                : c;
    if (plain.starts_with('.'))
        plain.front() = '_';
    auto unique = plain;
    for (int i = 2; !taken.insert(fold(unique)).second; ++i)
        unique = plain + " " + std::to_string(i);
    return unique + ".pdf";
}

std::optional<std::string> folder_for_cards(Context& context) {
    if (!context.interactive()) {
        const auto folder = context.argument("Folder");
        if (!folder)
            throw Refusal{tr("No folder was named.")};
        return folder;
    }
    const auto picker = css::ui::dialogs::FolderPicker::create(context.component());
    picker->setTitle(utf16(tr("Folder for the cards")));
    return picker->execute() != 0 ? std::optional{utf8(picker->getDirectory())} : std::nullopt;
}

void each_in_a_file(Context& context, const Grid& grid, const std::vector<const Card*>& cards) {
    auto folder = folder_for_cards(context);
    if (!folder)
        return;
    if (folder->ends_with('/'))
        folder->pop_back();
    std::set<std::string> taken;
    std::vector<std::string> urls;
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    std::size_t there = 0;
    for (const auto* card : cards) {
        const auto encoded = rtl::Uri::encode(utf16(file_name(card->name, taken)), rtl_UriCharClassPchar,
                                              rtl_UriEncodeIgnoreEscapes, RTL_TEXTENCODING_UTF8);
        urls.push_back(*folder + "/" + utf8(encoded));
        there += files->exists(utf16(urls.back()));
    }
    if (there > 0 &&
        !context.ask(tr("%1 of these files are there already. Replace them?", std::to_string(there)), "Overwrite"))
        return;

    std::optional<Dialog> window;
    std::optional<Dialog::Field> bar;
    if (context.interactive()) {
        window.emplace(context, tr("Cards"));
        window->paragraph(tr("Writing %1 files…", std::to_string(cards.size())));
        bar = window->progress();
        window->open();
    }
    Press press(context, grid);
    std::size_t written = 0;
    for (; written < cards.size(); ++written) {
        if (window) {
            window->set_progress(*bar, static_cast<double>(written) / static_cast<double>(cards.size()));
            window->breathe();
            if (window->cancelled())
                break;
        }
        press.print({cards[written]}, urls[written]);
    }
    if (window)
        window->close();
    context.say(tr("%1 of %2 cards written into %3.", std::to_string(written), std::to_string(cards.size()),
                   shown_path(*folder)));
}

void all_in_one_file(Context& context, const Grid& grid, const std::vector<const Card*>& cards) {
    const auto url = save_file(context, tr("Cards"), "cards.pdf", {{"PDF", "*.pdf"}});
    if (!url)
        return;
    Press(context, grid).print(cards, *url);
    context.say(tr("%1 cards written: %2.", std::to_string(cards.size()), shown_path(*url)));
}

void make_cards(Context& context) {
    const auto document = context.document();
    const Grid grid(document); // refused in a workbook without cards
    const auto cards = cards_of(document, grid);
    if (cards.empty())
        throw Refusal{tr("There is nobody on the roster yet.")};
    Form form(context, tr("Cards"), 260, 80, 120);
    form.choice("Who", tr("~Cards of"), who_can_be_chosen(cards));
    form.choice("Files", tr("~Files"),
                {{"one", tr("one file, four cards on a page")}, {"each", tr("a file for each athlete")}});
    std::vector<const Card*> chosen;
    bool each = false;
    if (!form.fill(tr("~Write"), [&](const Form& typed) {
            chosen = chosen_cards(cards, typed.text("Who"));
            each = typed.text("Files") == "each";
        }))
        return;
    if (each)
        each_in_a_file(context, grid, chosen);
    else
        all_in_one_file(context, grid, chosen);
}

// The office copies a sheet without keeping its own painting out, so this runs where the painting runs.
const Command command{"cards", [](Context& context) { on_main_thread(context, [&] { make_cards(context); }); }};

} // namespace

} // namespace pacecells
