// Prints as PDF: the whole pack (wall, heats, cards, judge's sheets), only what changed since the last print, and cards of
// a division or a person, in one file or in one for each.
//
// Everything is laid out by the workbook and printed from a copy; the person's document is only read. A file gets its
// final name when it is whole, so that neither a full disk nor a cancel leaves half of one.
#include "form.h"
#include "main_thread.h"
#include "press.h"
#include "store.h"

#include "pacecells/text.h"

#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/ui/dialogs/FolderPicker.hpp>

#include <rtl/uri.hxx>

#include <algorithm>
#include <set>

namespace pacecells {

namespace {

constexpr std::string_view everyone = "all";
constexpr std::string_view of_division = "division:";
constexpr std::string_view of_athlete = "athlete:";

std::vector<Form::Option> who_can_be_chosen(const std::vector<Starter>& cards) {
    std::vector<Form::Option> options{{std::string(everyone), tr("Everyone")}};
    std::set<std::string> divisions;
    for (const auto& card : cards)
        if (!card.division.empty() && divisions.insert(card.division).second)
            options.push_back({std::string(of_division) + card.division, tr("Division: %1", card.division)});
    for (const auto& card : cards)
        if (card.card.hasElements())
            options.push_back({std::string(of_athlete) + card.name, card.name});
    return options;
}

void refuse_nobody(const Press& press) {
    if (press.starters().empty())
        throw Refusal{tr("Nobody starts: the roster is empty, or everybody's plan is not today.")};
}

std::vector<const Starter*> chosen_cards(const std::vector<Starter>& cards, const std::string& who) {
    std::vector<const Starter*> chosen;
    for (const auto& card : cards)
        if (card.card.hasElements() && (who == everyone || who == std::string(of_division) + card.division ||
                                        who == std::string(of_athlete) + card.name))
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
            throw Refusal{tr("No folder was chosen.")};
        return folder;
    }
    const auto picker = css::ui::dialogs::FolderPicker::create(context.component());
    picker->setTitle(utf16(tr("Folder for the cards")));
    return picker->execute() != 0 ? std::optional{utf8(picker->getDirectory())} : std::nullopt;
}

// People who start and get no card, by name, as a line of its own; empty where there are none.
std::string without_card(const std::vector<Starter>& starters) {
    std::string names;
    for (const auto& one : starters)
        if (!one.card.hasElements())
            names += (names.empty() ? "" : ", ") + one.name;
    return names.empty() ? "" : "\n" + tr("No card for %1: see To fix on the sheet Roster.", names);
}

bool each_in_a_file(Context& context, Press& press, const std::vector<const Starter*>& cards) {
    auto folder = folder_for_cards(context);
    if (!folder)
        return false;
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
        refuse_locked(context, urls.back()); // before the first is written
        there += files->exists(utf16(urls.back()));
    }
    if (there > 0 &&
        !context.ask(tr("%1 of these files already exist. Replace them?", std::to_string(there)), "Overwrite"))
        return false;

    std::optional<Dialog> window;
    std::optional<Dialog::Field> bar;
    if (context.interactive()) {
        window.emplace(context, tr("Cards"));
        window->paragraph(tr("Saving %1 files…", std::to_string(cards.size())));
        bar = window->progress();
        window->open();
    }
    std::size_t written = 0;
    for (; written < cards.size(); ++written) {
        if (window) {
            window->set_progress(*bar, static_cast<double>(written) / static_cast<double>(cards.size()));
            window->breathe();
            if (window->cancelled())
                break;
        }
        press.print({.wall = false, .heats = false, .cards = {cards[written]}, .judges = {}}, urls[written]);
    }
    if (window)
        window->close();
    context.say(
        tr("%1 of %2 cards saved in %3.", std::to_string(written), std::to_string(cards.size()), shown_path(*folder)) +
        without_card(press.starters()));
    return written == cards.size();
}

bool all_in_one_file(Context& context, Press& press, const std::vector<const Starter*>& cards) {
    const auto url = save_file(context, tr("Cards"), "cards.pdf", {{"PDF", "*.pdf"}});
    if (!url)
        return false;
    press.print({.wall = false, .heats = false, .cards = cards, .judges = {}}, *url);
    context.say(tr("Cards saved: %1 (%2).", std::to_string(cards.size()), shown_path(*url)) +
                without_card(press.starters()));
    return true;
}

void make_cards(Context& context) {
    const EventCells event(context.document());
    auto printed = printed_before(event.document());
    if (!version_settled(context, event, printed))
        return;
    Press press(context, event.document(), false);
    refuse_nobody(press);
    Form form(context, tr("Cards"), 260, 80, 120);
    form.choice("Who", tr("~Cards of"), who_can_be_chosen(press.starters()));
    form.choice("Files", tr("~Files"),
                {{"one", tr("one file, four cards on a page")}, {"each", tr("a file for each athlete")}});
    std::vector<const Starter*> chosen;
    bool each = false;
    if (!form.fill(tr("~Save"), [&](const Form& typed) {
            chosen = chosen_cards(press.starters(), typed.text("Who"));
            each = typed.text("Files") == "each";
        }))
        return;
    if (chosen.empty())
        throw Refusal{tr("None of them gets a card: see To fix on the sheet Roster.")};
    if (!(each ? each_in_a_file(context, press, chosen) : all_in_one_file(context, press, chosen)))
        return;
    for (const auto* one : chosen)
        printed.people[digest_of_name(one->name)].card = digest_of(one->card);
    remember(event.document(), printed);
}

// --- the pack ----------------------------------------------------------------------------------------------------

// Prints an order; what it holds counts as printed when the file is there.
void print_order(Context& context, const Document& document, Press& press, const Press::Order& order, Printed printed,
                 const std::string& title, const std::string& file) {
    const auto url = save_file(context, title, file, {{"PDF", "*.pdf"}});
    if (!url)
        return;
    press.print(order, *url);
    if (order.wall)
        printed.wall = press.wall();
    if (order.heats)
        printed.heats = press.heats();
    std::map<Digest, PrintedPerson> people; // who no longer starts is forgotten
    for (const auto& one : press.starters())
        people[digest_of_name(one.name)] = printed.people[digest_of_name(one.name)];
    for (const auto* one : order.cards)
        people[digest_of_name(one->name)].card = digest_of(one->card);
    for (const auto* one : order.judges)
        people[digest_of_name(one->name)].judge = digest_of(one->judge);
    printed.people = std::move(people);
    remember(document, printed);
    std::string what;
    const auto add = [&](const std::string& part) { what += (what.empty() ? "" : ", ") + part; };
    if (order.wall)
        add(tr("wall"));
    if (order.heats)
        add(tr("heats"));
    if (!order.cards.empty())
        add(tr("cards: %1", std::to_string(order.cards.size())));
    if (!order.judges.empty())
        add(tr("judge's sheets: %1", std::to_string(order.judges.size())));
    context.say(tr("Saved: %1", shown_path(*url)) + " (" + what + ")" + without_card(press.starters()));
}

void print_pack(Context& context) {
    const EventCells event(context.document());
    auto printed = printed_before(event.document());
    if (!version_settled(context, event, printed))
        return;
    Press press(context, event.document(), true);
    Press::Order order{.wall = press.wall() != 0, .heats = !press.starters().empty(), .cards = {}, .judges = {}};
    if (!order.wall) // which needs no names
        refuse_nobody(press);
    for (const auto& one : press.starters()) {
        if (one.card.hasElements())
            order.cards.push_back(&one);
        if (one.judge.hasElements())
            order.judges.push_back(&one);
    }
    print_order(context, event.document(), press, order, printed, tr("Print pack"), "prints.pdf");
}

void print_changed(Context& context) {
    const EventCells event(context.document());
    auto printed = printed_before(event.document());
    if (printed.nothing())
        throw Refusal{tr("Nothing was printed yet. Print the whole pack first.")};
    if (!version_settled(context, event, printed))
        return;
    Press press(context, event.document(), true);
    Press::Order order{.wall = press.wall() != 0 && press.wall() != printed.wall,
                       .heats = !press.starters().empty() && press.heats() != printed.heats,
                       .cards = {},
                       .judges = {}};
    std::set<Digest> start;
    for (const auto& one : press.starters()) {
        start.insert(digest_of_name(one.name));
        const auto before = printed.people[digest_of_name(one.name)];
        if (one.card.hasElements() && digest_of(one.card) != before.card)
            order.cards.push_back(&one);
        if (one.judge.hasElements() && digest_of(one.judge) != before.judge)
            order.judges.push_back(&one);
    }
    const auto gone = std::count_if(printed.people.begin(), printed.people.end(),
                                    [&](const auto& person) { return !start.contains(person.first); });
    if (!order.wall && !order.heats && order.cards.empty() && order.judges.empty())
        throw Refusal{tr("Nothing changed since the last print.")};
    print_order(context, event.document(), press, order, printed, tr("Print what changed"), "changes.pdf");
    if (gone > 0)
        context.say(tr("No longer starting since the last print: %1. Take those cards out.", std::to_string(gone)));
}

// The office copies a sheet without keeping its own painting out, so these run where the painting runs.
const Command cards_command{"cards", [](Context& context) { on_main_thread(context, [&] { make_cards(context); }); }};
const Command pack_command{"print-pack",
                           [](Context& context) { on_main_thread(context, [&] { print_pack(context); }); }};
const Command changed_command{"print-changed",
                              [](Context& context) { on_main_thread(context, [&] { print_changed(context); }); }};

} // namespace

} // namespace pacecells
