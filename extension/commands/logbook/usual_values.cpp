// Usual values of movements and machines, from the logbook to the hidden sheet of the event where its sheet Workout
// looks them up by name.
#include "from_logbook.h"

#include "pacecells/names.h"
#include "pacecells/words.h"

#include <com/sun/star/sheet/ValidationType.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

#include <algorithm>
#include <array>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;
using rtl::OUString;

constexpr std::array<std::string_view, 7> usual_keys{
    "usual.name", "usual.rep_s", "usual.calh", "usual.handling_s", "usual.grip", "usual.away_share", "usual.longest"};

// The table on the sheet of lists: its keys are in the first row, side by side.
struct Usual {
    explicit Usual(const EventCells& event) {
        const auto list = event.at("list_format");
        sheet.set(need<css::sheet::XSheetCellRange>(list)->getSpreadsheet(), css::uno::UNO_QUERY_THROW);
        constexpr sal_Int32 most_columns = 60;
        const auto keys = values_of(sheet->getCellRangeByPosition(0, 0, most_columns, 0));
        while (column < most_columns && text_of(keys[0][column]) != usual_keys.front())
            ++column;
        if (column == most_columns)
            throw Refusal{tr("This workbook has no cells named %1. Is it a Pacecells workbook?", usual_keys.front())};
    }
    Range sheet;
    sal_Int32 column = 0;
};

Any number_or_blank(const LogbookTable& table, sal_Int32 row, std::string_view key) {
    const auto number = table.number(row, key);
    return number ? Any(*number) : Any(OUString());
}

// To choose from in the cells of the movements; anything else may be typed.
void offer_names(const Range& cells, const std::string& source) {
    const Reference<css::beans::XPropertySet> rule(get_property(cells, "Validation"), css::uno::UNO_QUERY_THROW);
    rule->setPropertyValue("Type", Any(css::sheet::ValidationType_LIST));
    need<css::sheet::XSheetCondition>(rule)->setFormula1(utf16(source));
    rule->setPropertyValue("ShowErrorMessage", Any(false));
    set_property(cells, "Validation", Any(rule));
}

} // namespace

UsualPaces::UsualPaces(const Logbook& logbook) {
    const auto pace = [](const LogbookTable& table, sal_Int32 row, std::string_view rate) {
        return UsualPace{table.number(row, rate).value_or(0), Seconds{table.number(row, "handling_s").value_or(0)}};
    };
    const auto movements = logbook.table("movements");
    for (const auto row : movements.rows()) {
        names_.push_back(movements.text(row, "name"));
        movements_.push_back(pace(movements, row, "rep_s"));
    }
    const auto machines = logbook.table("machines");
    for (const auto row : machines.rows())
        if (const auto kind = find_word(WordList::machine, machines.text(row, "machine")))
            machines_.emplace(static_cast<Machine>(*kind), pace(machines, row, "calh"));
}

std::string UsualPaces::name_of(const std::string& movement) const {
    const auto match = NameList(names_).find(movement);
    return match.same.empty() && match.nearly.size() == 1 ? names_[match.nearly.front()] : movement;
}

std::optional<UsualPace> UsualPaces::find(const AnnouncedStation& station) const {
    UsualPace found;
    if (const auto machine = machine_of(station.unit);
        machine && rate_kind(station.unit) == RateKind::calories_per_hour) {
        if (const auto its = machines_.find(*machine); its != machines_.end())
            found = its->second;
    } else if (station.unit == Unit::rep) {
        if (const auto match = NameList(names_).find(station.movement); match.sure())
            found = movements_[match.same.front()];
    }
    return found.rate > 0 ? std::optional(found) : std::nullopt;
}

void take_usual_values(const EventCells& event, const Logbook& logbook) {
    const Usual usual(event);
    const auto yes = event.word("list_yes", 0);
    std::vector<css::uno::Sequence<Any>> rows;
    const auto add = [&](const std::array<Any, usual_keys.size()>& cells) {
        rows.emplace_back(cells.data(), static_cast<sal_Int32>(cells.size()));
    };
    const auto movements = logbook.table("movements");
    for (const auto row : movements.rows()) {
        const auto name = movements.text(row, "name");
        if (name.empty())
            continue;
        const bool grip = find_word(WordList::yes, movements.text(row, "grip")).has_value();
        add({Any(utf16(name)), number_or_blank(movements, row, "rep_s"), Any(OUString()),
             number_or_blank(movements, row, "handling_s"), Any(grip ? utf16(yes) : OUString()),
             number_or_blank(movements, row, "away_share"), number_or_blank(movements, row, "longest")});
    }
    const auto named = rows.size();
    const auto machines = logbook.table("machines");
    const auto kinds = event.texts("workout.machines.unit");
    const auto counts = event.at("workout.machines.count");
    for (const auto row : machines.rows()) {
        const auto kind = machines.text(row, "machine");
        const auto unit = find_word(WordList::unit, kind + " cal");
        if (!unit)
            continue;
        add({Any(utf16(event.word("list_units", *unit))), Any(OUString()), number_or_blank(machines, row, "calh"),
             number_or_blank(machines, row, "handling_s"), Any(OUString()), Any(OUString()), Any(OUString())});
        const auto place = std::ranges::find(kinds, kind);
        if (const auto count = machines.number(row, "count"); count && place != kinds.end())
            put_number(counts, 0, static_cast<sal_Int32>(place - kinds.begin()), *count);
    }
    if (rows.empty())
        return;
    const auto last = static_cast<sal_Int32>(rows.size());
    const auto width = static_cast<sal_Int32>(usual_keys.size());
    set_values(usual.sheet->getCellRangeByPosition(usual.column, 1, usual.column + width - 1, last),
               Rows(rows.data(), last));
    if (named == 0)
        return;
    const auto stations = event.at("workout.stations.movement");
    const auto where = address(stations);
    const auto first = cell_name(usual.column, 1, true);
    const auto sheet_name = get_property(usual.sheet, "AbsoluteName");
    OUString absolute; // $Lists.$A$1:$AMJ$1048576
    sheet_name >>= absolute;
    const auto sheet = utf8(absolute.copy(0, absolute.lastIndexOf('.')));
    offer_names(stations->getCellRangeByPosition(0, 0, 0, where.EndRow - where.StartRow),
                sheet + "." + first + ":" + cell_name(usual.column, static_cast<sal_Int32>(named), true));
}

} // namespace pacecells
