// Tables at the cursor: goals with their round times, and rates of the ergometer with what they mean. The window shows
// what the model makes of the entries; the sheet gets formulas, so that it goes on calculating.
#include "form.h"
#include "office.h"

#include "pacecells/clock.h"
#include "pacecells/ergometer.h"
#include "pacecells/pace.h"

#include <com/sun/star/awt/FontWeight.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

#include <cmath>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr Seconds longest_cap{4 * 3600.0};
constexpr int most_rows = 500; // of a table that someone reads

std::string shown(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : std::string();
}

// The block being written, its cells counted from its top left.
class Block {
  public:
    explicit Block(const Reference<css::table::XCellRange>& range, const Context& context)
        : range_(range), document_(context.document()), where_(address(range)) {}

    void text(sal_Int32 column, sal_Int32 row, const std::string& value) {
        cell(column, row)->setFormula(utf16("'" + value));
    }
    void heading(sal_Int32 column, sal_Int32 row, const std::string& value) {
        text(column, row, value);
        set_property(cell(column, row), "CharWeight", Any(css::awt::FontWeight::BOLD));
        set_property(cell(column, row), "IsTextWrapped", Any(true));
    }
    void number(sal_Int32 column, sal_Int32 row, double value) { cell(column, row)->setValue(value); }
    void formula(sal_Int32 column, sal_Int32 row, const std::string& value) {
        cell(column, row)->setFormula(utf16(value));
    }
    [[nodiscard]] Reference<css::table::XCellRange> rows(sal_Int32 left, sal_Int32 top, sal_Int32 right,
                                                         sal_Int32 bottom) const {
        return range_->getCellRangeByPosition(left, top, right, bottom);
    }
    void format(sal_Int32 left, sal_Int32 top, sal_Int32 right, sal_Int32 bottom, const char* code) {
        set_property(rows(left, top, right, bottom), "NumberFormat", Any(number_format(document_, code)));
    }
    [[nodiscard]] std::string name(sal_Int32 column, sal_Int32 row, bool absolute) const {
        return cell_name(where_.StartColumn + column, where_.StartRow + row, absolute);
    }

  private:
    Reference<css::table::XCell> cell(sal_Int32 column, sal_Int32 row) const {
        return range_->getCellByPosition(column, row);
    }

    Reference<css::table::XCellRange> range_;
    Reference<css::sheet::XSpreadsheetDocument> document_;
    css::table::CellRangeAddress where_;
};

// A number for a formula in the office's own notation, exact.
std::string formula_number(double value) { return utf8(rtl::OUString::number(value)); }

void select(const Context& context, const Reference<css::table::XCellRange>& range) {
    need<css::view::XSelectionSupplier>(view(context))->select(Any(range));
}

// --- pace table --------------------------------------------------------------------------------------------------

struct PaceTable {
    Seconds cap{0};
    double from = 0;
    double to = 0;
    double step = 0;
    std::optional<Kilocalories> calories;
    Seconds other{0};
    std::vector<GoalRow> rows;
};

PaceTable read_pace_table(const Form& form) {
    PaceTable table;
    table.cap = form.time("Cap", longest_cap);
    table.from = form.number("From", 1, 1000);
    table.to = form.number("To", table.from, 1000);
    table.step = form.number("Step", 0.01, 1000);
    if (!form.empty("Calories")) {
        table.calories = Kilocalories{form.number("Calories", 0.1, 1000)};
        table.other = Seconds{form.empty("Other") ? 0 : form.number("Other", 0, longest_cap.value())};
        if (table.other > Seconds{0} && table.other < Seconds{0.17})
            throw FieldRefusal{"Other", tr("Needs plain seconds, such as 90.")};
    }
    if ((table.to - table.from) / table.step > most_rows)
        throw FieldRefusal{"Step", tr("That would be more than %1 rows.", std::to_string(most_rows))};
    auto rows = goal_table(table.cap, table.from, table.to, table.step, table.calories, table.other);
    if (!rows)
        throw FieldRefusal{"Cap", tr(rows.error())};
    table.rows = *std::move(rows);
    return table;
}

Dialog::Rows preview(const PaceTable& table) {
    Dialog::Rows rows;
    for (const auto& row : table.rows)
        rows.push_back({shown_number(row.goal, 2), shown(row.round_time), shown(row.half_clock),
                        row.need ? shown_number(row.need->value(), 0) : ""});
    return rows;
}

void write_pace_table(Block& block, const PaceTable& table) {
    const bool rated = table.calories.has_value();
    const auto last = static_cast<sal_Int32>(table.rows.size()) + 2;
    block.heading(0, 0, tr("Cap"));
    block.number(0, 1, table.cap.value() / 86400);
    block.format(0, 1, 0, 1, "[M]:SS");
    std::string arguments = block.name(0, 1, true) + ";" + formula_number(table.from) + ";" + formula_number(table.to) +
                            ";" + formula_number(table.step);
    if (rated) {
        block.heading(1, 0, tr("Calories per round"));
        block.number(1, 1, table.calories->value());
        block.heading(2, 0, tr("Everything else, s"));
        block.number(2, 1, table.other.value());
        arguments += ";" + block.name(1, 1, true) + ";" + block.name(2, 1, true);
    }
    block.heading(0, 2, tr("Rounds"));
    block.heading(1, 2, tr("Round time"));
    block.heading(2, 2, tr("Clock at halfway"));
    if (rated)
        block.heading(3, 2, tr("cal/h"));
    need<css::sheet::XArrayFormulaRange>(block.rows(0, 3, rated ? 3 : 2, last))
        ->setArrayFormula(utf16("=PACE.TABLE(" + arguments + ")"));
    block.format(1, 3, 2, last, "[M]:SS");
    if (rated)
        block.format(3, 3, 3, last, "0");
}

void pace_table(Context& context) {
    Form form(context, tr("Pace table"), 330, 92);
    form.entry("Cap", tr("~Cap"), "20:00", tr("Minutes and seconds."));
    form.entry("From", tr("~From rounds"), "6");
    form.entry("To", tr("~To rounds"), "12");
    form.entry("Step", tr("In ~steps of"), "1", tr("Rounds from one line to the next."));
    form.entry("Calories", tr("Ca~lories per round"), "", tr("On the ergometer. Blank: no rate is shown."));
    form.entry("Other", tr("E~verything else per round"), "0", tr("Seconds for everything except the ergometer."));
    const auto table_field =
        form.dialog().table(tr("Preview"), {tr("Rounds"), tr("Round time"), tr("Clock at halfway"), tr("cal/h")}, 90);
    PaceTable table;
    const auto read = [&](const Form& typed) { table = read_pace_table(typed); };
    const auto show = [&](const Form& typed) {
        form.dialog().set_rows(table_field, {});
        form.dialog().set_rows(table_field, preview(read_pace_table(typed)));
    };
    if (!form.fill(tr("~Insert"), read, show))
        return;
    const auto range = place_at_cursor(context, table.calories ? 4 : 3, static_cast<sal_Int32>(table.rows.size()) + 3);
    if (!range.is())
        return;
    Undo undo(context.document(), tr("Insert pace table"));
    Block block(range, context);
    write_pace_table(block, table);
    undo.done();
    select(context, range);
}

// --- ergometer table ---------------------------------------------------------------------------------------------

struct ErgometerTable {
    std::string machine;
    Kilocalories calories{0};
    std::vector<double> rates;
};

ErgometerTable read_ergometer_table(const Form& form) {
    ErgometerTable table;
    table.machine = form.text("Machine");
    table.calories = Kilocalories{form.number("Calories", 0.1, 10000)};
    const double from = form.number("From", 301, 10000); // at 300 nothing moves
    const double to = form.number("To", from, 10000);
    const double step = form.number("Step", 1, 10000);
    const auto count = static_cast<int>(std::floor((to - from) / step + 1e-9)) + 1;
    if (count > most_rows)
        throw FieldRefusal{"Step", tr("That would be more than %1 rows.", std::to_string(most_rows))};
    for (int i = 0; i < count; ++i)
        table.rates.push_back(from + i * step);
    return table;
}

Dialog::Rows preview(const ErgometerTable& table) {
    const auto machine = parse_machine(table.machine);
    Dialog::Rows rows;
    for (const double rate : table.rates) {
        const auto watts = convert(rate, ErgUnit::calories_per_hour, ErgUnit::watts, *machine);
        const auto split = convert(rate, ErgUnit::calories_per_hour, ErgUnit::split, *machine);
        const auto time = time_for(table.calories, CaloriesPerHour{rate});
        rows.push_back({shown_number(rate, 1), watts ? shown_number(*watts, 0) : "",
                        split ? shown(Seconds{*split}) : "", time ? shown(*time) : ""});
    }
    return rows;
}

std::string split_heading(const std::string& machine) {
    return machine == "bike" ? tr("Time for 1000 m") : tr("Time for 500 m");
}

void write_ergometer_table(Block& block, const ErgometerTable& table) {
    block.heading(0, 0, tr("Machine"));
    block.text(0, 1, table.machine);
    block.heading(1, 0, tr("Calories"));
    block.number(1, 1, table.calories.value());
    block.heading(0, 2, tr("cal/h"));
    block.heading(1, 2, tr("Watts"));
    block.heading(2, 2, split_heading(table.machine));
    block.heading(3, 2, tr("Time for the calories"));
    const auto machine = block.name(0, 1, true);
    const auto calories = block.name(1, 1, true);
    sal_Int32 row = 3;
    for (const double rate : table.rates) {
        const auto rate_cell = block.name(0, row, false);
        block.number(0, row, rate);
        block.formula(1, row, "=ERG.CONVERT(" + rate_cell + ";\"cal/h\";\"W\";" + machine + ")");
        block.formula(2, row, "=ERG.CONVERT(" + rate_cell + ";\"cal/h\";\"split\";" + machine + ")");
        block.formula(3, row, "=ERG.TIME(" + calories + ";" + rate_cell + ")");
        ++row;
    }
    block.format(1, 3, 1, row - 1, "0");
    block.format(2, 3, 3, row - 1, "[M]:SS");
}

void ergometer_table(Context& context) {
    Form form(context, tr("Ergometer table"), 330);
    form.choice("Machine", tr("~Machine"), {{"row", tr("Rower")}, {"ski", tr("Ski")}, {"bike", tr("Bike")}});
    form.entry("Calories", tr("~Calories"), "15", tr("Their time is shown."));
    form.entry("From", tr("~From cal/h"), "700");
    form.entry("To", tr("~To cal/h"), "1500");
    form.entry("Step", tr("In ~steps of"), "50");
    const auto table_field =
        form.dialog().table(tr("Preview"), {tr("cal/h"), tr("Watts"), tr("Split"), tr("Time for the calories")}, 100);
    ErgometerTable table;
    const auto read = [&](const Form& typed) { table = read_ergometer_table(typed); };
    const auto show = [&](const Form& typed) {
        form.dialog().set_rows(table_field, {});
        form.dialog().set_rows(table_field, preview(read_ergometer_table(typed)));
    };
    if (!form.fill(tr("~Insert"), read, show))
        return;
    const auto range = place_at_cursor(context, 4, static_cast<sal_Int32>(table.rates.size()) + 3);
    if (!range.is())
        return;
    Undo undo(context.document(), tr("Insert ergometer table"));
    Block block(range, context);
    write_ergometer_table(block, table);
    undo.done();
    select(context, range);
}

const Command pace_table_command{"pace-table", pace_table};
const Command ergometer_table_command{"ergometer-table", ergometer_table};

} // namespace

} // namespace pacecells
