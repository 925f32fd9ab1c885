#include "results.h"

#include "pacecells/delimited.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

namespace {

using Words = std::vector<std::string>;

// A heading in words; the places of the words in it allow to cut a movement's name out as it was written.
struct Heading {
    std::string text;
    Words words;
    std::vector<std::pair<std::size_t, std::size_t>> places; // first byte, and the one behind the last
};

Heading heading_of(const std::string& text) {
    Heading heading{text, {}, {}};
    auto plain = fold_name(text);
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
const Spellings machine_value_spellings = headings({"critical", "reserve", "date", "time", "calories"});
const Spellings movement_value_spellings = headings({"longest", "one_rep_max", "rep_s", "recovery"});
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
    std::size_t value = 0;     // which field
};

Column column_of(const std::string& text) {
    const auto heading = heading_of(text);
    Stretch all{0, heading.words.size()};
    if (is(heading, all, name_spellings))
        return {Column::name, 0, {}, 0};
    while (!all.empty() && is(heading, {all.to - 1, all.to}, unit_spellings))
        --all.to;
    for (std::size_t value = 0; value < of_machine; ++value)
        for (const auto& spelling : machine_value_spellings[value])
            if (const auto rest = beside(heading, all, spelling))
                for (std::size_t machine = 0; machine < machine_count; ++machine)
                    if (value >= machine_cells[machine].first && is(heading, *rest, machine_spellings[machine]))
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

std::size_t heading_row(const TextRows& rows) {
    constexpr std::size_t deepest = 12; // titles may stand above
    for (std::size_t row = 0; row < std::min(rows.size(), deepest); ++row)
        if (std::ranges::any_of(rows[row], [&](const auto& cell) { return column_of(cell).kind == Column::name; }))
            return row;
    throw Refusal{tr("No line of this list has a heading for the name. Use headings such as: %1.",
                     tr("Name; Rower critical power; Rower reserve; Rower date; Pull-up longest set"))};
}

// The columns of a list. A heading may be spread over two lines, the machine or movement above the first of its
// columns.
std::vector<Column> columns_of_list(const TextRows& rows, std::size_t row, ResultFile& file) {
    std::vector<Column> columns;
    std::string above;
    for (std::size_t i = 0; i < rows[row].size(); ++i) {
        if (row > 0 && i < rows[row - 1].size() && !rows[row - 1][i].empty())
            above = rows[row - 1][i];
        const auto& own = rows[row][i];
        auto column = column_of(own);
        if (column.kind == Column::unread && !above.empty() && !own.empty())
            column = column_of(above + " " + own);
        const bool again = column.kind != Column::unread && std::ranges::any_of(columns, [&](const Column& other) {
                               return other.kind == column.kind && other.which == column.which &&
                                      other.value == column.value &&
                                      fold_name(other.movement_name) == fold_name(column.movement_name);
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

} // namespace

ResultFile read_results_list(const std::string& text) {
    ResultFile file;
    const auto rows = delimited_rows(text);
    const auto first = heading_row(rows);
    auto columns = columns_of_list(rows, first, file);
    for (auto& column : columns) {
        if (column.kind != Column::movement)
            continue;
        const auto wanted = fold_name(column.movement_name);
        const auto found =
            std::ranges::find_if(file.movements, [&](const auto& known) { return fold_name(known) == wanted; });
        column.which = static_cast<std::size_t>(found - file.movements.begin());
        if (found == file.movements.end())
            file.movements.push_back(column.movement_name);
    }
    const auto recovery = of_movement - 1; // stays as it is where the list does not have it
    if (std::ranges::none_of(
            columns, [&](const Column& column) { return column.kind == Column::movement && column.value == recovery; }))
        file.of_each_movement = recovery;
    for (std::size_t row = first + 1; row < rows.size(); ++row) {
        auto person = person_with({}, file);
        for (std::size_t i = 0; i < std::min(columns.size(), rows[row].size()); ++i) {
            const auto& cell = rows[row][i];
            const auto& column = columns[i];
            if (column.kind == Column::name)
                person.name = std::string(trim(cell));
            if (column.kind == Column::unread || column.kind == Column::name || says_nothing(cell))
                continue;
            const bool machine = column.kind == Column::machine;
            auto& results = machine ? person.machines[column.which] : person.movements[column.which];
            const auto& field = machine ? machine_fields[column.value] : movement_fields[column.value];
            if (const auto value = typed_value(field, cell))
                results.put(column.value, field, *value);
            else
                results.refuse(field, pacecells::quoted(cell));
        }
        if (!person.name.empty())
            file.people.push_back(std::move(person));
    }
    return file;
}

} // namespace pacecells
