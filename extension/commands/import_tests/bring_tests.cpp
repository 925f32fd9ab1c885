// Results of tests into the event workbook, by name: from the tests workbook, or from a list as CSV. What will happen
// is shown before anything is written. A machine's values, and a movement's, are taken over together or not at all:
// values of two different tests never stand side by side.
#include "form.h"
#include "office.h"
#include "store.h"

#include "pacecells/clock.h"
#include "pacecells/critical_power.h"
#include "pacecells/delimited.h"
#include "pacecells/ergometer.h"
#include "pacecells/text.h"

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/i18n/CharacterClassification.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <map>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using Document = Reference<css::sheet::XSpreadsheetDocument>;
using Range = Reference<css::table::XCellRange>;

constexpr std::array machine_ranges{"tests_row", "tests_ski", "tests_bike", "tests_armbike"};
constexpr std::size_t machine_count = machine_ranges.size();

// --- what a value may be -----------------------------------------------------------------------------------------

enum class Kind { number, date, time, share };

struct Quantity {
    Text label;
    Kind kind;
    double least; // what the sheet Tests takes
    double most;
};

constexpr std::size_t of_machine = 6; // a machine's values, in the order of their columns
constexpr std::size_t of_movement = 3;
constexpr std::size_t date_of_test = 2;

constexpr std::array<Quantity, of_machine> machine_quantities{{
    {"critical power", Kind::number, 20, 900},
    {"reserve", Kind::number, 500, 80000},
    {"date", Kind::date, 36526, 73050},
    {"time of one test", Kind::time, 20.0 / 86400, 4.0 / 24 - 1e-9},
    {"calories of one test", Kind::number, 1, 2000},
    {"effort between", Kind::share, 0.1, 2},
}};
constexpr std::array<Quantity, of_movement> movement_quantities{{
    {"longest set", Kind::number, 1, 999},
    {"one-repetition maximum", Kind::number, 1, 999},
    {"seconds a rep", Kind::number, 0.17, 600},
}};

std::string date_text(double days) {
    using namespace std::chrono;
    const year_month_day day{sys_days{1899y / December / 30} + std::chrono::days{static_cast<int>(days)}};
    const auto padded = [](unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); };
    return std::to_string(static_cast<int>(day.year())) + "-" + padded(static_cast<unsigned>(day.month())) + "-" +
           padded(static_cast<unsigned>(day.day()));
}

std::string shown(const Quantity& quantity, double value) {
    if (quantity.kind == Kind::date && value >= quantity.least && value <= quantity.most)
        return date_text(value);
    if (quantity.kind == Kind::time)
        if (const auto text = clock_text(Seconds{value * 86400}))
            return *text;
    if (quantity.kind == Kind::share)
        return shown_number(value * 100, 1) + " %";
    return shown_number(value, 2);
}

std::optional<double> typed_value(const Quantity& quantity, std::string_view text) {
    switch (quantity.kind) {
    case Kind::date:
        return typed_date(text);
    case Kind::time:
        if (const auto time = parse_clock(text))
            return time->value() / 86400;
        return std::nullopt;
    case Kind::share:
        if (text.ends_with('%')) {
            const auto percent = typed_number(text.substr(0, text.size() - 1));
            return percent ? std::optional(*percent / 100) : std::nullopt;
        }
        return typed_number(text);
    case Kind::number:
        return typed_number(text);
    }
    return std::nullopt;
}

// --- what a file knows -------------------------------------------------------------------------------------------

// The values of one machine or one movement.
struct Results {
    std::vector<std::optional<double>> values;
    std::string unreadable; // the first that cannot be taken over, in words; then none is

    [[nodiscard]] bool known() const {
        return std::ranges::any_of(values, [](const auto& value) { return value.has_value(); });
    }
    void refuse(const Quantity& quantity, const std::string& text) {
        if (unreadable.empty())
            unreadable = tr("%1: %2 cannot be taken over", tr(quantity.label), text);
    }
    void put(std::size_t column, const Quantity& quantity, double value) {
        if (value >= quantity.least && value <= quantity.most)
            values[column] = value;
        else
            refuse(quantity, shown(quantity, value));
    }
};

struct Person {
    std::string name;
    std::array<Results, machine_count> machines;
    std::vector<Results> movements; // in the order of File::movements
    std::string note;
};

struct File {
    std::vector<std::string> movements;
    std::vector<Person> people;
    std::vector<std::string> unread; // columns whose heading says nothing known
};

Person person_with(std::string name, std::size_t movements) {
    Person person;
    person.name = std::move(name);
    for (auto& machine : person.machines)
        machine.values.resize(of_machine);
    person.movements.resize(movements);
    for (auto& movement : person.movements)
        movement.values.resize(of_movement);
    return person;
}

// As people compare names: case and spaces do not matter.
class Folder {
  public:
    explicit Folder(const Context& context)
        : characters_(css::i18n::CharacterClassification::create(context.component())) {}

    [[nodiscard]] std::string lower(const std::string& text) const {
        const auto wide = utf16(text);
        return utf8(characters_->toLower(wide, 0, wide.getLength(), css::lang::Locale()));
    }
    [[nodiscard]] std::string operator()(const std::string& text) const { return fold(lower(text)); }

  private:
    Reference<css::i18n::XCharacterClassification> characters_;
};

// --- a workbook --------------------------------------------------------------------------------------------------

std::string text_of(const Any& cell) {
    rtl::OUString text;
    if (cell >>= text)
        return std::string(trim(utf8(text)));
    if (double number = 0; cell >>= number)
        return number_text(number);
    return {};
}

template <std::size_t count>
void take(Results& results, const std::array<Quantity, count>& quantities, const Sequence<Any>& row,
          std::size_t first_column) {
    for (std::size_t i = 0; i < count; ++i) {
        const auto& cell = row[static_cast<sal_Int32>(first_column + i)];
        double number = 0;
        if (!cell.hasValue())
            results.refuse(quantities[i], tr("an error"));
        else if (cell >>= number)
            results.put(i, quantities[i], number);
        else if (const auto text = text_of(cell); !text.empty())
            results.refuse(quantities[i], pacecells::quoted(text));
    }
}

// The cells as they are: an error has no value, a blank is an empty text.
Rows cells_of(const Document& document, std::string_view name, sal_Int32 rows, std::size_t columns) {
    const auto range = find_name(document, name);
    auto cells = range.is() ? need<css::sheet::XCellRangeData>(range)->getDataArray() : Rows();
    if (!cells.hasElements() || (rows > 0 && cells.getLength() != rows) ||
        cells[0].getLength() != static_cast<sal_Int32>(columns))
        throw Refusal{tr("This workbook is no tests workbook of Pacecells: the cells named %1 are missing or others.",
                         std::string(name))};
    return cells;
}

File read_workbook(const Document& document) {
    File file;
    const auto names = cells_of(document, "tests_name", 0, 1);
    const auto rows = names.getLength();
    std::array<Rows, machine_count> machines;
    for (std::size_t m = 0; m < machine_count; ++m)
        machines[m] = cells_of(document, machine_ranges[m], rows, of_machine);
    const auto heading_range = find_name(document, "tests_movements");
    const auto columns =
        heading_range.is()
            ? static_cast<std::size_t>(address(heading_range).EndColumn - address(heading_range).StartColumn + 1)
            : of_movement;
    const auto headings = cells_of(document, "tests_movements", 1, columns - columns % of_movement);
    const auto sets = cells_of(document, "tests_sets", rows, columns);
    const auto note_range = find_name(document, "tests_note");
    const auto notes = note_range.is() ? values_of(note_range) : Rows();
    for (std::size_t k = 0; k < columns; k += of_movement)
        file.movements.push_back(text_of(headings[0][static_cast<sal_Int32>(k)]));
    for (sal_Int32 row = 0; row < rows; ++row) {
        auto person = person_with(text_of(names[row][0]), file.movements.size());
        if (person.name.empty())
            continue;
        for (std::size_t m = 0; m < machine_count; ++m)
            take(person.machines[m], machine_quantities, machines[m][row], 0);
        for (std::size_t k = 0; k < file.movements.size(); ++k)
            take(person.movements[k], movement_quantities, sets[row], k * of_movement);
        if (row < notes.getLength())
            person.note = text_of(notes[row][0]);
        file.people.push_back(std::move(person));
    }
    return file;
}

// A file opened out of sight, to read from; closed again whatever happens.
class Opened {
  public:
    Opened(const Context& context, const std::string& url)
        : document_(load(context, url,
                         {{"Hidden", Any(true)},
                          {"ReadOnly", Any(true)},
                          {"MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE)},
                          {"UpdateDocMode", Any(css::document::UpdateDocMode::NO_UPDATE)}})) {}
    ~Opened() {
        try {
            need<css::util::XCloseable>(document_)->close(true);
        } catch (const css::uno::Exception&) { // it will go when the office lets it
        }
    }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;

    [[nodiscard]] Document spreadsheet() const {
        auto document = as<css::sheet::XSpreadsheetDocument>(document_);
        if (!document.is())
            throw Refusal{tr("This file is no spreadsheet. Choose the tests workbook, or a list saved as CSV.")};
        return document;
    }

  private:
    Reference<css::lang::XComponent> document_;
};

// --- a list ------------------------------------------------------------------------------------------------------

using Words = std::vector<std::string>;

// A heading in words; the places of the words in it allow to cut a movement's name out as it was written.
struct Heading {
    std::string text;
    Words words;
    std::vector<std::pair<std::size_t, std::size_t>> places; // first byte, and the one behind the last
};

Heading heading_of(const Folder& folder, const std::string& text) {
    Heading heading{text, {}, {}};
    auto plain = folder.lower(text);
    if (plain.size() != text.size())
        heading.text = plain;
    for (const std::string_view mark : {"\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x80\x99"})
        for (auto at = plain.find(mark); at != std::string::npos; at = plain.find(mark))
            plain.replace(at, mark.size(), mark.size(), ' ');
    constexpr std::string_view between = " \t\r\n,:;()/_-.'";
    for (auto from = plain.find_first_not_of(between); from != std::string::npos;) {
        const auto to = std::min(plain.find_first_of(between, from), plain.size());
        heading.words.push_back(plain.substr(from, to - from));
        heading.places.emplace_back(from, to);
        from = plain.find_first_not_of(between, to);
    }
    return heading;
}

using Spellings = std::vector<std::vector<std::string>>;
const Spellings machine_spellings = headings({"row", "ski", "bike", "armbike"});
const Spellings machine_value_spellings = headings({"critical", "reserve", "date", "time", "calories", "effort"});
const Spellings movement_value_spellings = headings({"longest", "one_rep_max", "rep_s"});
const std::vector<std::string> name_spellings = headings({"name"}).front();
const std::vector<std::string> unit_spellings{"w", "watt", "watts", "j", "kg", "s", "%"};

Words words_of(std::string_view text) {
    Words words;
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        words.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

struct Stretch { // of words in a heading
    std::size_t from;
    std::size_t to;

    [[nodiscard]] bool empty() const { return from == to; }
};

// Where the spelling stands at the front or the end of the stretch: what is left beside it.
std::optional<Stretch> beside(const Heading& heading, Stretch in, const std::string& spelling) {
    const auto words = words_of(spelling);
    if (words.size() > in.to - in.from)
        return std::nullopt;
    const auto at = [&](std::size_t i) { return heading.words.begin() + static_cast<std::ptrdiff_t>(i); };
    if (std::equal(words.begin(), words.end(), at(in.from)))
        return Stretch{in.from + words.size(), in.to};
    if (std::equal(words.begin(), words.end(), at(in.to - words.size())))
        return Stretch{in.from, in.to - words.size()};
    return std::nullopt;
}

bool is(const Heading& heading, Stretch in, const std::vector<std::string>& spellings) {
    return std::ranges::any_of(spellings, [&](const std::string& spelling) {
        const auto rest = beside(heading, in, spelling);
        return rest && rest->empty();
    });
}

// What a column of a list holds.
struct Column {
    enum { unread, name, machine, movement } kind = unread;
    std::size_t which = 0;     // machine
    std::string movement_name; // as written
    std::size_t value = 0;     // which quantity
};

Column column_of(const Folder& folder, const std::string& text) {
    const auto heading = heading_of(folder, text);
    Stretch all{0, heading.words.size()};
    if (is(heading, all, name_spellings))
        return {Column::name, 0, {}, 0};
    while (!all.empty() && is(heading, {all.to - 1, all.to}, unit_spellings))
        --all.to;
    for (std::size_t value = 0; value < of_machine; ++value)
        for (const auto& spelling : machine_value_spellings[value])
            if (const auto rest = beside(heading, all, spelling))
                for (std::size_t machine = 0; machine < machine_count; ++machine)
                    if (is(heading, *rest, machine_spellings[machine]))
                        return {Column::machine, machine, {}, value};
    for (std::size_t value = 0; value < of_movement; ++value)
        for (const auto& spelling : movement_value_spellings[value])
            if (const auto rest = beside(heading, all, spelling); rest && !rest->empty()) {
                const auto from = heading.places[rest->from].first;
                const auto to = heading.places[rest->to - 1].second;
                return {Column::movement, 0, heading.text.substr(from, to - from), value};
            }
    return {};
}

std::size_t heading_row(const Folder& folder, const TextRows& rows) {
    constexpr std::size_t deepest = 12; // titles may stand above
    for (std::size_t row = 0; row < std::min(rows.size(), deepest); ++row)
        if (std::ranges::any_of(rows[row],
                                [&](const auto& cell) { return column_of(folder, cell).kind == Column::name; }))
            return row;
    throw Refusal{tr("No line of this list has a heading for the name. Needed are headings such as: %1.",
                     tr("Name; Rower critical power; Rower reserve; Rower date; Pull-up longest set"))};
}

// The columns of a list. A heading may be spread over two lines, the machine or movement above the first of its
// columns.
std::vector<Column> columns_of_list(const Folder& folder, const TextRows& rows, std::size_t row, File& file) {
    std::vector<Column> columns;
    std::string above;
    for (std::size_t i = 0; i < rows[row].size(); ++i) {
        if (row > 0 && i < rows[row - 1].size() && !rows[row - 1][i].empty())
            above = rows[row - 1][i];
        const auto& own = rows[row][i];
        auto column = column_of(folder, own);
        if (column.kind == Column::unread && !above.empty() && !own.empty())
            column = column_of(folder, above + " " + own);
        const bool again = column.kind != Column::unread && std::ranges::any_of(columns, [&](const Column& other) {
                               return other.kind == column.kind && other.which == column.which &&
                                      other.value == column.value &&
                                      folder(other.movement_name) == folder(column.movement_name);
                           });
        if (again)
            column = {};
        if (column.kind == Column::unread && !own.empty())
            file.unread.push_back(own);
        columns.push_back(std::move(column));
    }
    return columns;
}

bool says_nothing(std::string_view text) { return text.empty() || text == "-" || text == "\xE2\x80\x93"; }

File read_list(const Folder& folder, const std::string& text) {
    File file;
    const auto rows = delimited_rows(text);
    const auto first = heading_row(folder, rows);
    auto columns = columns_of_list(folder, rows, first, file);
    for (auto& column : columns) {
        if (column.kind != Column::movement)
            continue;
        const auto wanted = folder(column.movement_name);
        const auto found =
            std::ranges::find_if(file.movements, [&](const auto& known) { return folder(known) == wanted; });
        column.which = static_cast<std::size_t>(found - file.movements.begin());
        if (found == file.movements.end())
            file.movements.push_back(column.movement_name);
    }
    for (std::size_t row = first + 1; row < rows.size(); ++row) {
        auto person = person_with({}, file.movements.size());
        for (std::size_t i = 0; i < std::min(columns.size(), rows[row].size()); ++i) {
            const auto& cell = rows[row][i];
            const auto& column = columns[i];
            if (column.kind == Column::name)
                person.name = std::string(trim(cell));
            if (column.kind == Column::unread || column.kind == Column::name || says_nothing(cell))
                continue;
            const bool machine = column.kind == Column::machine;
            auto& results = machine ? person.machines[column.which] : person.movements[column.which];
            const auto& quantity = machine ? machine_quantities[column.value] : movement_quantities[column.value];
            if (const auto value = typed_value(quantity, cell))
                results.put(column.value, quantity, *value);
            else
                results.refuse(quantity, pacecells::quoted(cell));
        }
        if (!person.name.empty())
            file.people.push_back(std::move(person));
    }
    return file;
}

// --- what nobody holds -------------------------------------------------------------------------------------------

// Why a machine's values cannot be an athlete's: more watts than the best in the world hold.
std::optional<Error> beyond_belief(const std::vector<std::optional<double>>& values) {
    std::vector<std::pair<Seconds, Result<Watts>>> held;
    const auto& time = values[date_of_test + 1];
    const auto& calories = values[date_of_test + 2];
    if (time && calories) {
        const Seconds taken{*time * 86400};
        const auto rate = rate_for(Kilocalories{*calories}, taken);
        held.emplace_back(taken, rate ? power(*rate) : Result<Watts>{rate.error()});
    }
    if (values[0] && values[1]) {
        constexpr Seconds usual_cap{1200};
        held.emplace_back(usual_cap, power_for(usual_cap, {Watts{*values[0]}, Joules{*values[1]}}));
    }
    for (const auto& [seconds, watts] : held)
        if (watts)
            if (const auto judged = believable(*watts, seconds); !judged)
                return judged.error();
    return std::nullopt;
}

void leave_out_what_nobody_holds(File& file) {
    constexpr std::size_t air_braked = 3; // the arm bike's calories follow no formula
    for (auto& person : file.people)
        for (std::size_t m = 0; m < air_braked; ++m)
            if (auto& results = person.machines[m]; results.unreadable.empty())
                if (const auto error = beyond_belief(results.values))
                    results.unreadable = tr(*error);
}

// --- any file ----------------------------------------------------------------------------------------------------

File read_file(const Context& context, const Folder& folder, const std::string& url) {
    const auto bytes = bytes_of(context, url);
    const bool package = bytes.starts_with("PK") || bytes.starts_with("\xD0\xCF\x11\xE0") || bytes.starts_with("<?xml");
    if (!package) {
        const auto text = decoded_text(bytes);
        if (!text)
            throw Refusal{
                tr("This file is neither a workbook nor a list. Choose the tests workbook, or a list saved as CSV.")};
        return read_list(folder, *text);
    }
    try {
        const Opened opened(context, url);
        return read_workbook(opened.spreadsheet());
    } catch (const css::uno::Exception&) {
        throw Refusal{tr("%1 cannot be opened.", shown_path(url))};
    }
}

// --- what will happen --------------------------------------------------------------------------------------------

// The sheet Tests of the event workbook, as it stands.
struct Sheet {
    explicit Sheet(const Document& document)
        : roster(values_of(named_range(document, "roster_name"))),
          names(values_of(named_range(document, "tests_name"))),
          headings(values_of(named_range(document, "tests_movements"))),
          sets(values_of(named_range(document, "tests_sets"))),
          stations(values_of(named_range(document, "station_movements"))) {
        for (std::size_t m = 0; m < machine_count; ++m)
            machines[m] = values_of(named_range(document, machine_ranges[m]));
    }

    [[nodiscard]] std::size_t slots() const { return static_cast<std::size_t>(headings[0].getLength()) / of_movement; }
    [[nodiscard]] Any heading(std::size_t slot) const {
        return headings[0][static_cast<sal_Int32>(slot * of_movement)];
    }

    Rows roster;
    Rows names;
    Rows headings;
    Rows sets;
    Rows stations;
    std::array<Rows, machine_count> machines;
};

bool blank(const Sequence<Any>& row, std::size_t first, std::size_t count) {
    for (std::size_t i = first; i < first + count; ++i)
        if (!text_of(row[static_cast<sal_Int32>(i)]).empty())
            return false;
    return true;
}

struct Write { // one machine's or movement's values of one athlete
    std::string range;
    sal_Int32 row;
    sal_Int32 column;
    std::vector<std::optional<double>> values;
};

struct Line { // of the report
    std::string name;
    std::string happens;
    std::vector<std::string> details;
};

struct Plan {
    std::vector<std::pair<std::size_t, std::string>> headings; // slot, movement
    std::vector<std::pair<sal_Int32, std::string>> names;      // row, as on the roster
    std::vector<Write> writes;
    std::vector<Line> lines;
    std::string summary;

    [[nodiscard]] bool empty() const { return writes.empty(); }
};

class Planner {
  public:
    Planner(const Folder& folder, const Sheet& sheet, const File& file) : folder_(folder), sheet_(sheet), file_(file) {
        for (const auto& row : sheet_.roster)
            if (const auto name = text_of(row[0]); !name.empty())
                roster_[folder_(name)].push_back(name);
        for (sal_Int32 row = 0; row < sheet_.names.getLength(); ++row)
            if (const auto name = text_of(sheet_.names[row][0]); !name.empty())
                rows_[folder_(name)].push_back(row);
        for (const auto& person : file_.people)
            ++in_file_[folder_(person.name)];
    }

    Plan plan() {
        find_slots();
        for (const auto& person : file_.people)
            consider(person);
        summarise();
        return std::move(plan_);
    }

  private:
    // Each name once, on the roster, in the file and on the sheet: only then is it known whose results they are.
    [[nodiscard]] std::string left_out(const std::string& key) const {
        const auto found = roster_.find(key);
        if (found == roster_.end())
            return tr("not on the roster");
        if (in_file_.at(key) > 1)
            return tr("twice in the file: left out");
        if (found->second.size() > 1)
            return tr("twice on the roster: left out");
        if (const auto rows = rows_.find(key); rows != rows_.end() && rows->second.size() > 1)
            return tr("twice on the sheet Tests: left out");
        return {};
    }

    [[nodiscard]] bool wanted(std::size_t movement) const {
        return std::ranges::any_of(file_.people, [&](const Person& person) {
            return left_out(folder_(person.name)).empty() && person.movements[movement].known();
        });
    }

    // A movement's columns on the sheet: those with its name, else free ones. The event's own movements choose first.
    void find_slots() {
        std::map<std::string, std::size_t> named;
        std::vector<std::size_t> free;
        for (std::size_t slot = 0; slot < sheet_.slots(); ++slot) {
            const auto name = text_of(sheet_.heading(slot));
            if (!name.empty())
                named.emplace(folder_(name), slot);
            else if (std::ranges::all_of(sheet_.sets,
                                         [&](const auto& row) { return blank(row, slot * of_movement, of_movement); }))
                free.push_back(slot);
        }
        slots_.resize(file_.movements.size());
        std::vector<std::size_t> order;
        for (const bool first : {true, false})
            for (std::size_t k = 0; k < file_.movements.size(); ++k)
                if (in_event(file_.movements[k]) == first)
                    order.push_back(k);
        auto next = free.begin();
        for (const auto k : order) {
            const auto key = folder_(file_.movements[k]);
            if (key.empty() || !wanted(k))
                continue;
            if (const auto found = named.find(key); found != named.end()) {
                if (std::ranges::find(slots_, std::optional(found->second)) == slots_.end())
                    slots_[k] = found->second;
                else
                    no_column_.push_back(file_.movements[k]); // a second of that name in the file
            } else if (next != free.end()) {
                plan_.headings.emplace_back(*next, file_.movements[k]);
                named.emplace(key, *next);
                slots_[k] = *next++;
            } else {
                no_column_.push_back(file_.movements[k]);
            }
        }
    }

    [[nodiscard]] bool in_event(const std::string& movement) const {
        return std::ranges::any_of(sheet_.stations,
                                   [&](const auto& row) { return folder_(text_of(row[0])) == folder_(movement); });
    }

    // A row without a name and without results.
    std::optional<sal_Int32> free_row() {
        for (; next_row_ < sheet_.names.getLength(); ++next_row_) {
            const auto row = next_row_;
            const bool taken = !text_of(sheet_.names[row][0]).empty() ||
                               !blank(sheet_.sets[row], 0, static_cast<std::size_t>(sheet_.sets[row].getLength())) ||
                               std::ranges::any_of(sheet_.machines, [&](const Rows& cells) {
                                   return !blank(cells[row], 0, of_machine);
                               });
            if (!taken)
                return next_row_++;
        }
        return std::nullopt;
    }

    void consider(const Person& person) {
        const auto key = folder_(person.name);
        Line line{person.name, left_out(key), {}};
        if (!line.happens.empty()) {
            ++(roster_.contains(key) ? twice_ : unmatched_);
        } else if (!knows_anything(person)) {
            line.happens = tr("no results");
            add_problems(person, line);
            ++without_;
        } else if (const auto there = rows_.find(key); there != rows_.end()) {
            const bool changed = compare(person, there->second.front(), line);
            line.happens = changed ? tr("changed") : tr("unchanged");
            ++(changed ? changed_ : unchanged_);
            const auto& name = roster_.at(key).front(); // the sheets find each other by the very spelling
            if (changed && text_of(sheet_.names[there->second.front()][0]) != name)
                plan_.names.emplace_back(there->second.front(), name);
        } else if (const auto row = free_row()) {
            compare(person, *row, line);
            line.happens = tr("new");
            ++new_;
            plan_.names.emplace_back(*row, roster_.at(key).front());
        } else {
            line.happens = tr("no free row on the sheet Tests");
            ++no_row_;
        }
        if (!person.note.empty())
            line.details.push_back(person.note);
        plan_.lines.push_back(std::move(line));
    }

    [[nodiscard]] bool knows_anything(const Person& person) const {
        const auto good = [](const Results& results) { return results.known() && results.unreadable.empty(); };
        for (std::size_t k = 0; k < person.movements.size(); ++k)
            if (slots_[k] && good(person.movements[k]))
                return true;
        return std::ranges::any_of(person.machines, good);
    }

    void add_problems(const Person& person, Line& line) const {
        for (std::size_t m = 0; m < machine_count; ++m)
            add_problem(person.machines[m], machine_title(m), line);
        for (std::size_t k = 0; k < person.movements.size(); ++k)
            add_problem(person.movements[k], file_.movements[k], line);
    }
    static void add_problem(const Results& results, const std::string& title, Line& line) {
        if (!results.unreadable.empty())
            line.details.push_back(title + ": " + results.unreadable);
    }

    static std::string machine_title(std::size_t machine) {
        const std::array titles{tr("Rower"), tr("Ski ergometer"), tr("Bike ergometer"), tr("Arm bike")};
        return titles[machine];
    }

    // Whether anything will be written into the row.
    bool compare(const Person& person, sal_Int32 row, Line& line) {
        const auto before = plan_.writes.size();
        for (std::size_t m = 0; m < machine_count; ++m)
            compare(person.machines[m], machine_quantities, machine_title(m), machine_ranges[m],
                    sheet_.machines[m][row], row, 0, line);
        for (std::size_t k = 0; k < person.movements.size(); ++k)
            if (slots_[k])
                compare(person.movements[k], movement_quantities, file_.movements[k], "tests_sets", sheet_.sets[row],
                        row, *slots_[k] * of_movement, line);
        return plan_.writes.size() > before;
    }

    template <std::size_t count>
    void compare(const Results& results, const std::array<Quantity, count>& quantities, const std::string& title,
                 const char* range, const Sequence<Any>& there, sal_Int32 row, std::size_t column, Line& line) {
        add_problem(results, title, line);
        if (!results.known() || !results.unreadable.empty())
            return;
        std::string words;
        bool older = false;
        for (std::size_t i = 0; i < count; ++i) {
            const auto& old_cell = there[static_cast<sal_Int32>(column + i)];
            const auto& value = results.values[i];
            double number = 0;
            const bool was_number = old_cell >>= number;
            const auto old_text = was_number ? shown(quantities[i], number) : text_of(old_cell);
            const bool same =
                value ? was_number && std::abs(number - *value) <= 1e-9 * std::abs(*value) : old_text.empty();
            if (same)
                continue;
            words += (words.empty() ? "" : ", ") + tr(quantities[i].label) + " ";
            if (!old_text.empty())
                words += old_text + " \xE2\x86\x92 ";
            words += value ? shown(quantities[i], *value) : tr("blank");
            older |= count == of_machine && i == date_of_test && was_number && value && *value < number;
        }
        if (words.empty())
            return;
        line.details.push_back(title + ": " + words + (older ? " (" + tr("older than what stands there") + ")" : ""));
        plan_.writes.push_back({range, row, static_cast<sal_Int32>(column), results.values});
    }

    void summarise() {
        auto& text = plan_.summary;
        text = tr("%1 new, %2 changed, %3 unchanged, %4 not on the roster.", std::to_string(new_),
                  std::to_string(changed_), std::to_string(unchanged_), std::to_string(unmatched_));
        const auto add = [&](std::size_t count, Text sentence) {
            if (count > 0)
                text += " " + tr(sentence, std::to_string(count));
        };
        add(twice_, "%1 left out, for the name stands twice.");
        add(without_, "%1 without results.");
        add(no_row_, "%1 find no free row.");
        const auto list = [&](const std::vector<std::string>& what, Text sentence) {
            std::string all;
            for (const auto& one : what)
                all += (all.empty() ? "" : ", ") + one;
            if (!all.empty())
                text += " " + tr(sentence, all);
        };
        std::vector<std::string> added;
        for (const auto& [slot, movement] : plan_.headings)
            added.push_back(movement);
        list(added, "New movements on the sheet: %1.");
        list(no_column_, "No free columns on the sheet Tests for: %1.");
        list(file_.unread, "Columns not read: %1.");
    }

    const Folder& folder_;
    const Sheet& sheet_;
    const File& file_;
    Plan plan_;
    std::map<std::string, std::vector<std::string>> roster_; // folded: as written
    std::map<std::string, std::vector<sal_Int32>> rows_;     // of the sheet Tests
    std::map<std::string, int> in_file_;
    std::vector<std::optional<std::size_t>> slots_; // of each of the file's movements
    std::vector<std::string> no_column_;
    sal_Int32 next_row_ = 0;
    std::size_t new_ = 0;
    std::size_t changed_ = 0;
    std::size_t unchanged_ = 0;
    std::size_t unmatched_ = 0;
    std::size_t twice_ = 0;
    std::size_t without_ = 0;
    std::size_t no_row_ = 0;
};

// --- the report, and writing -------------------------------------------------------------------------------------

std::string report(const Plan& plan) {
    auto text = plan.summary;
    for (const auto& line : plan.lines) {
        text += "\n" + line.name + ": " + line.happens;
        for (const auto& detail : line.details)
            text += "; " + detail;
    }
    return text;
}

Dialog::Rows table_of(const Plan& plan) {
    Dialog::Rows rows;
    for (const auto& line : plan.lines) {
        rows.push_back({line.name, line.happens, line.details.empty() ? "" : line.details.front()});
        for (std::size_t i = 1; i < line.details.size(); ++i)
            rows.push_back({"", "", line.details[i]});
    }
    return rows;
}

bool agreed(Context& context, const Plan& plan) {
    if (!context.interactive()) {
        context.say(report(plan));
        return context.argument("Write", "true") != "false";
    }
    Dialog dialog(context, tr("Bring in test results"), 420);
    dialog.paragraph(plan.summary, 3);
    const auto table =
        dialog.table(tr("What will ~happen"), {tr("Name"), tr("In the file"), tr("Results")}, 150, {10, 9, 24});
    dialog.on_change([&] { dialog.set_rows(table, table_of(plan)); });
    if (plan.empty()) {
        dialog.show();
        return false;
    }
    return dialog.run(tr("~Bring in"), [] { return true; });
}

// Screens wait until all is written.
class Quiet {
  public:
    explicit Quiet(const Document& document) : model_(need<css::frame::XModel>(document)) { model_->lockControllers(); }
    ~Quiet() {
        try {
            model_->unlockControllers();
        } catch (const css::uno::Exception&) { // closed meanwhile
        }
    }
    Quiet(const Quiet&) = delete;
    Quiet& operator=(const Quiet&) = delete;

  private:
    Reference<css::frame::XModel> model_;
};

void put_text(const Range& range, sal_Int32 column, sal_Int32 row, const std::string& text) {
    need<css::text::XText>(range->getCellByPosition(column, row))->setString(utf16(text));
}

void write(const Document& document, const Plan& plan) {
    const Quiet quiet(document);
    Undo undo(document, tr("Bring in test results"));
    const auto headings = named_range(document, "tests_movements");
    for (const auto& [slot, movement] : plan.headings)
        put_text(headings, static_cast<sal_Int32>(slot * of_movement), 0, movement);
    const auto names = named_range(document, "tests_name");
    for (const auto& [row, name] : plan.names)
        put_text(names, 0, row, name);
    std::map<std::string, Range> ranges;
    for (const auto& one : plan.writes) {
        auto& range = ranges[one.range];
        if (!range.is())
            range = named_range(document, one.range);
        auto column = one.column;
        for (const auto& value : one.values) { // one by one: arrays of values cannot be undone
            const auto cell = range->getCellByPosition(column++, one.row);
            if (value)
                cell->setValue(*value);
            else
                cell->setFormula({});
        }
    }
    undo.done();
}

void bring_tests(Context& context) {
    const auto document = context.document();
    const Sheet sheet(document);
    const auto url = open_file(context, tr("Bring in test results"),
                               {{tr("Test results"), "*.ods;*.xlsx;*.csv;*.txt"}, {tr("All files"), "*.*"}});
    if (!url)
        return;
    const Folder folder(context);
    auto file = read_file(context, folder, *url);
    leave_out_what_nobody_holds(file);
    if (file.people.empty())
        throw Refusal{tr("There are no names in this file.")};
    const auto plan = Planner(folder, sheet, file).plan();
    if (agreed(context, plan) && !plan.empty())
        write(document, plan);
}

const Command bring_tests_command{"bring-tests", bring_tests};

} // namespace

} // namespace pacecells
