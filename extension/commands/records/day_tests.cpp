#include "day_tests.h"

#include "form.h"

#include "pacecells/clock.h"
#include "pacecells/names.h"
#include "pacecells/words.h"

#include <com/sun/star/util/CellProtection.hpp>

#include <algorithm>

namespace pacecells {

namespace {

using css::uno::Any;

constexpr sal_Int32 first_row = 2; // of the range: below keys and headings

// A word of the text that is one of the names, the longest there is; then what is left of the text.
struct Found {
    std::string name;
    std::string rest;
};

std::optional<Found> name_at_front(const std::string& text, const std::vector<std::string>& names) {
    std::optional<Found> longest;
    for (const auto& name : names) {
        for (std::size_t end = text.size(); end > 0; end = text.find_last_of(' ', end - 1)) {
            if (end == std::string::npos)
                break;
            const auto front = text.substr(0, end);
            if (same_name(front, name) && (!longest || name.size() > longest->name.size()))
                longest = Found{name, std::string(trim(text.substr(end)))};
        }
    }
    return longest;
}

} // namespace

const std::vector<std::string_view>& columns_for(bool machine) {
    static const std::vector<std::string_view> of_machines{"time", "calories", "metres", "watts", "damper"};
    static const std::vector<std::string_view> of_movements{"reps", "load", "second", "rest_s"};
    return machine ? of_machines : of_movements;
}

std::vector<std::string> movements_in(const Logbook& logbook) {
    std::vector<std::string> names;
    const auto table = logbook.table("movements");
    for (const auto row : table.rows())
        if (auto name = table.text(row, "name"); !name.empty())
            names.push_back(std::move(name));
    return names;
}

DayTest read_day_test(const std::string& text, const std::vector<MachineName>& machines,
                      const std::vector<std::string>& movements) {
    std::vector<std::string> names = movements;
    for (const auto& machine : machines)
        names.push_back(machine.name);
    const auto found = name_at_front(text, names);
    if (!found) {
        const auto near = NameList{names}.find(text);
        if (!near.nearly.empty())
            throw Refusal{tr("%1 is not in the logbook. Is it %2?", text, names[near.nearly.front()])};
        throw Refusal{tr("%1 is no machine and no movement of the logbook.", text)};
    }
    DayTest test{.what = found->name};
    const auto machine =
        std::ranges::find_if(machines, [&](const auto& one) { return same_name(one.name, found->name); });
    if (machine != machines.end())
        test.machine = machine->machine;
    auto rest = found->rest;
    if (rest.empty())
        return test;
    if (const auto time = parse_clock(rest); time && test.machine) {
        test.time = *time;
        return test;
    }
    const auto unit = rest.find_last_of("0123456789") + 1;
    const auto number = typed_number(rest.substr(0, unit));
    const auto of = trim(std::string_view{rest}.substr(unit));
    if (number && test.machine && of == "m")
        test.metres = *number;
    else if (number && test.machine && of == "cal")
        test.calories = *number;
    else
        throw Refusal{tr("%1 cannot be read. Write such as: %2", pacecells::quoted(text), day_tests_example(machines))};
    return test;
}

std::string day_tests_example(const std::vector<MachineName>& machines) {
    const auto name = machines.empty() ? std::string("Rower") : machines.front().name;
    return name + " 10:00; " + name + " 2000 m";
}

DayTable::DayTable(const Document& document)
    : cells_(named_range(document, "day_tests")), values_(values_of(cells_)), rows_(values_.getLength() - first_row) {}

sal_Int32 DayTable::column(std::string_view key) const {
    for (sal_Int32 i = 0; i < values_[0].getLength(); ++i)
        if (text_of(values_[0][i]) == key)
            return i;
    throw Refusal{tr("This workbook has no column with the key %1. Undo what was deleted there.", std::string(key))};
}

Any DayTable::value(sal_Int32 row, std::string_view key) const { return values_[row + first_row][column(key)]; }

void DayTable::put(sal_Int32 row, std::string_view key, const std::string& text) const {
    put_text(cells_, column(key), row + first_row, text);
}

void DayTable::put(sal_Int32 row, std::string_view key, double number) const {
    put_number(cells_, column(key), row + first_row, number);
}

void DayTable::close(sal_Int32 row, std::string_view key) const {
    const auto cell = cells_->getCellByPosition(column(key), row + first_row);
    set_property(cell, "CellStyle", Any(rtl::OUString("pace-not-used")));
}

} // namespace pacecells
