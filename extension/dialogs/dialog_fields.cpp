// What an open window shows, and what is typed or chosen in it.
#include "dialog.h"

#include "office.h"

#include <com/sun/star/awt/XListBox.hpp>
#include <com/sun/star/awt/XTextComponent.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/awt/grid/XGridControl.hpp>
#include <com/sun/star/awt/grid/XGridRowSelection.hpp>

#include <algorithm>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using rtl::OUString;

std::string Dialog::text(const Field& field) const {
    return utf8(need<css::awt::XTextComponent>(control(field.name))->getText());
}

void Dialog::set_text(const Field& field, const std::string& text) {
    const auto set = model(field.name);
    set->setPropertyValue(set->getPropertySetInfo()->hasPropertyByName("Text") ? OUString("Text") : OUString("Label"),
                          Any(utf16(text)));
}

int Dialog::selected(const Field& field) const {
    if (const auto grid = as<css::awt::grid::XGridRowSelection>(control(field.name)); grid.is()) {
        const auto rows = grid->getSelectedRows();
        return rows.hasElements() ? rows[0] : -1;
    }
    return need<css::awt::XListBox>(control(field.name))->getSelectedItemPos();
}

Reference<css::awt::grid::XMutableGridDataModel> Dialog::data_of(const Field& field) const {
    Reference<css::awt::grid::XMutableGridDataModel> data;
    get_property(model(field.name), "GridDataModel") >>= data;
    return data;
}

void Dialog::set_row(const Field& field, int row, const std::vector<std::string>& cells) {
    const auto data = data_of(field);
    for (std::size_t i = 0; i < cells.size(); ++i)
        data->updateCellData(static_cast<sal_Int32>(i), row, Any(utf16(cells[i])));
}

void Dialog::select_row(const Field& field, int row) {
    const auto grid = control(field.name);
    need<css::awt::grid::XGridControl>(grid)->goToCell(0, row); // where the arrow keys begin
    need<css::awt::grid::XGridRowSelection>(grid)->selectRow(row);
}

void Dialog::focus(const Field& field) { need<css::awt::XWindow>(control(field.name))->setFocus(); }

void Dialog::set_rows(const Field& field, const Rows& rows) {
    const auto data = data_of(field);
    data->removeAllRows();
    Sequence<Any> headings(static_cast<sal_Int32>(rows.size()));
    Sequence<Sequence<Any>> cells(headings.getLength());
    auto* next = cells.getArray();
    for (const auto& row : rows) {
        next->realloc(static_cast<sal_Int32>(row.size()));
        std::transform(row.begin(), row.end(), next->getArray(), [](const auto& text) { return Any(utf16(text)); });
        ++next;
    }
    data->addRows(headings, cells);
}

void Dialog::set_progress(const Field& field, double share) {
    set_property(model(field.name), "ProgressValue", Any(static_cast<sal_Int32>(share * 1000)));
}

void Dialog::say(const std::string& name, const std::string& text, bool refusal) {
    if (name.empty())
        return;
    set_property(model(name), "Label", Any(utf16(text)));
    set_property(model(name), "FontWeight", Any(refusal ? bold_weight : normal_weight));
}

bool Dialog::refuse(const Field& field, const std::string& sentence) {
    say(field.hint_name, sentence, true);
    focus(field);
    return false;
}

void Dialog::clear(const Field& field) {
    say(field.hint_name, field.hint_name == sentence_name ? sentence_hint_ : field.hint, false);
}

} // namespace pacecells
