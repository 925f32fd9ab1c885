// The loads of everyone as PDF: what goes on the bar, by person, for the coach. It is laid out on a sheet of a copy of the
// workbook, with the workbook's own styles; the person's document is only read.
#include "copy.h"
#include "form.h"
#include "load_cells.h"
#include "logbook_tests.h"
#include "main_thread.h"
#include "prints.h"
#include "store.h"
#include "wording.h"

#include "pacecells/athlete.h"
#include "pacecells/load_table.h"

#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XMergeable.hpp>

#include <cmath>
#include <optional>

namespace pacecells {

namespace {

using css::uno::Any;

constexpr std::string_view everyone = "all";
constexpr std::string_view of_division = "division:";

struct PersonLoads {
    std::string name;
    std::string division;
    std::vector<LoadLine> lines;
};

struct BarChoice {
    const char* value; // as in arguments, and as shown
    Bar bar;
};
constexpr BarChoice bars[] = {
    {"20 kg", {LoadUnit::kilograms, 20}}, {"15 kg", {LoadUnit::kilograms, 15}}, {"10 kg", {LoadUnit::kilograms, 10}},
    {"45 lb", {LoadUnit::pounds, 45}},    {"35 lb", {LoadUnit::pounds, 35}},    {"15 lb", {LoadUnit::pounds, 15}},
};

// Who has something to load, in the order of the roster.
std::vector<PersonLoads> loads_of(const EventCells& event, const Workout& workout, const std::string& who,
                                  const Bar& bar) {
    const auto tests = table_of(event.values("tests"));
    const auto keys = table_of(event.values("roster_keys"));
    const auto people = event.values("roster_people");
    std::vector<PersonLoads> all;
    for (const auto& row : people) {
        const auto athlete = read_athlete(workout, tests, keys, table_of(Rows(&row, 1)));
        if (!athlete || !athlete->division)
            continue; // what is wrong with a row, the roster says
        const auto& division = workout.divisions[*athlete->division].name;
        if (who != everyone && who != std::string(of_division) + division)
            continue;
        auto lines = load_table(workout, *athlete, bar);
        if (!lines.empty())
            all.push_back({athlete->name, division, std::move(lines)});
    }
    return all;
}

// --- the page ----------------------------------------------------------------------------------------------------

struct PageColumn {
    sal_Int32 width; // 1/100 mm
    int first;       // of load_cells, and what is below it in the cell
    std::optional<int> below = {};
};
constexpr int name_alone = -1;
// Name, movement, maximum, reps, load with its sides, reps unbroken, the heaviest for the reps; then a load with its sides
// for each share.
std::vector<PageColumn> page_columns() {
    std::vector<PageColumn> columns{{3500, name_alone}, {2900, 0}, {2000, 1}, {1300, 2},
                                    {2800, 3, 5},       {2000, 6}, {1600, 7}};
    for (int k = 0; k < static_cast<int>(load_shares.size()); ++k)
        columns.push_back({2550, first_share_column + 2 * k, first_share_column + 2 * k + 1});
    return columns;
}
constexpr sal_Int32 heading_row = 3; // from 0; the first of a person is below it
constexpr sal_Int32 heading_height = 1400;
constexpr sal_Int32 note_height = 1000;
constexpr sal_Int32 sentence_height = 600;

class Page {
  public:
    Page(const Copy& copy, Language language) : language_(language) {
        const auto count = copy.sheets();
        copy.document()->getSheets()->insertNewByName("Pacecells loads", static_cast<sal_Int16>(count));
        sheet_ = copy.sheet(count);
        for (sal_Int32 column = 0; column <= last_column(); ++column)
            set_property(need<css::table::XColumnRowRange>(range(0, column, column))->getColumns(), "Width",
                         Any(columns_[static_cast<std::size_t>(column)].width));
    }

    [[nodiscard]] const Range& sheet() const { return sheet_; }
    [[nodiscard]] sal_Int32 last_column() const { return static_cast<sal_Int32>(columns_.size()) - 1; }

    // In a style of the workbook.
    void text(sal_Int32 column, sal_Int32 row, const std::string& words, const char* style) {
        put_text(sheet_, column, row, words);
        set_property(range(row, column, column), "CellStyle",
                     Any("pace-" + rtl::OUString::createFromAscii(style).replace(' ', '-')));
    }
    void across(sal_Int32 row, const std::string& words, const char* style, sal_Int32 height) {
        text(0, row, words, style);
        need<css::util::XMergeable>(range(row, 0, last_column()))->merge(true);
        set_height(row, height);
    }
    void headings(const Bar& bar) {
        const auto all = load_headings(bar, language_);
        for (sal_Int32 column = 0; column <= last_column(); ++column) {
            const auto& one = columns_[static_cast<std::size_t>(column)];
            text(column, heading_row, one.first == name_alone ? spoken(say("Name"), language_) : composed(all, one),
                 "column head");
        }
        set_height(heading_row, heading_height);
    }
    // Gives the row after the last.
    sal_Int32 person(sal_Int32 row, const Workout& workout, const Bar& bar, const PersonLoads& person) {
        for (const auto& line : person.lines) {
            const auto cells = load_cells(workout, line, bar, language_);
            for (sal_Int32 column = 0; column <= last_column(); ++column) {
                const auto& one = columns_[static_cast<std::size_t>(column)];
                const bool words = column < 2;
                text(column, row, one.first == name_alone ? person.name : composed(cells, one),
                     words ? "cell shrunk" : "cell center");
                if (!words)
                    set_property(range(row, column, column), "IsTextWrapped", Any(true));
            }
            set_property(need<css::table::XColumnRowRange>(range(row, 0, 0))->getRows(), "OptimalHeight", Any(true));
            ++row;
            if (line.caution)
                across(row++, "▲ " + spoken(*line.caution, language_), "card rule", sentence_height);
        }
        return row;
    }

  private:
    [[nodiscard]] Range range(sal_Int32 row, sal_Int32 first, sal_Int32 last) const {
        return sheet_->getCellRangeByPosition(first, row, last, row);
    }
    void set_height(sal_Int32 row, sal_Int32 height) const {
        set_property(need<css::table::XColumnRowRange>(range(row, 0, 0))->getRows(), "Height", Any(height));
    }
    [[nodiscard]] std::string shown(const TableCell& cell) const {
        if (const auto* number = std::get_if<double>(&cell))
            return spoken(*number, language_);
        const auto* words = std::get_if<std::string>(&cell);
        return words ? *words : std::string();
    }
    // A load with its sides below; that of the division with its share.
    [[nodiscard]] std::string composed(const std::vector<TableCell>& cells, const PageColumn& column) const {
        constexpr int load = 3;
        constexpr int share = 4;
        auto words = shown(cells[static_cast<std::size_t>(column.first)]);
        if (const auto* part = std::get_if<double>(&cells[share]); part && column.first == load)
            words += " (" + spoken(say("%1%", std::round(100 * *part)), language_) + ")";
        if (column.below)
            words += "\n" + shown(cells[static_cast<std::size_t>(*column.below)]);
        return words;
    }

    Language language_;
    Range sheet_;
    std::vector<PageColumn> columns_ = page_columns();
};

void print(const Context& context, const Document& original, const EventCells& event, const Workout& workout,
           const std::vector<PersonLoads>& people, const Bar& bar, const std::string& url) {
    const Copy copy(context, original);
    const auto language = workout.settings.language;
    Page page(copy, language);
    page.text(0, 0, spoken(say("Loads"), language), "title");
    page.text(0, 1, event.text("event_heading"), "stamp");
    page.headings(bar);
    sal_Int32 row = heading_row + 1;
    for (const auto& person : people)
        row = page.person(row, workout, bar, person);
    page.across(
        row,
        spoken(say("Bar of %1 %2; loads to the nearest %3 %2. Reps are unbroken and fresh, between Brzycki 1993 "
                   "and Epley 1985; a person may be a quarter off. What is too heavy for the reps is common "
                   "practice.",
                   bar.weight, std::string(bar.unit == LoadUnit::kilograms ? "kg" : "lb"), load_step(bar.unit)),
               language),
        "card words", note_height);
    // as the roster prints: paper, margins, caution, date and page
    const auto roster = copy.sheet(address(named_range(copy.document(), "roster_name")).Sheet);
    rtl::OUString style;
    get_property(roster, "PageStyle") >>= style;
    for (sal_Int32 i = 0; i < copy.sheets(); ++i)
        need<css::sheet::XPrintAreas>(copy.sheet(i))->setPrintAreas({});
    set_property(page.sheet(), "PageStyle", Any(style));
    css::table::CellRangeAddress area{static_cast<sal_Int16>(copy.sheets() - 1), 0, 0, page.last_column(), row};
    const auto prints = need<css::sheet::XPrintAreas>(page.sheet());
    prints->setPrintAreas({&area, 1});
    prints->setTitleRows({area.Sheet, 0, 0, page.last_column(), heading_row});
    prints->setPrintTitleRows(true);
    stamp_prints(copy.document(), language);
    store_pdf(context, copy.document(), url, event.text("event_heading") + " · " + spoken(say("Loads"), language));
}

void loads(Context& context) {
    const EventCells event(context.document());
    const auto workout = read_workout(table_of(event.values("workout")));
    if (!workout)
        throw Refusal{tr("The workout is not complete yet: %1", tr(workout.error()))};
    std::vector<Form::Option> who{{std::string(everyone), tr("Everyone")}};
    for (const auto& division : workout->divisions)
        if (!division.name.empty())
            who.push_back({std::string(of_division) + division.name, tr("Division: %1", division.name)});
    std::vector<Form::Option> options;
    for (const auto& one : bars)
        options.push_back({one.value, one.value});
    Form form(context, tr("Loads by person"), 340, 80, 120);
    form.choice("Who", tr("~Loads of"), who);
    form.choice("Bar", tr("~Bar"), options, tr("The page uses the unit of the bar."));
    std::vector<PersonLoads> people;
    Bar bar;
    if (!form.fill(tr("~Save"), [&](const Form& typed) {
            const auto chosen = typed.text("Bar");
            for (const auto& one : bars)
                if (chosen == one.value)
                    bar = one.bar;
            people = loads_of(event, *workout, typed.text("Who"), bar);
            if (people.empty())
                throw FieldRefusal{"Who",
                                   tr("Nobody here has a load on a bar or a one-rep max (1RM) on the sheet Tests.")};
        }))
        return;
    const auto url = save_file(context, tr("Loads by person"), "loads.pdf", {{"PDF", "*.pdf"}});
    if (!url)
        return;
    print(context, event.document(), event, *workout, people, bar, *url);
    context.say(tr("Loads saved: %1 people (%2).", std::to_string(people.size()), shown_path(*url)));
}

// As the cards: it works on a copy that is painted nowhere.
const Command command{"loads", [](Context& context) { on_main_thread(context, [&] { loads(context); }); }};

} // namespace

} // namespace pacecells
