#include "dialog.h"

#include "office.h"

#include <com/sun/star/awt/PosSize.hpp>
#include <com/sun/star/awt/PushButtonType.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XButton.hpp>
#include <com/sun/star/awt/XControlModel.hpp>
#include <com/sun/star/awt/XListBox.hpp>
#include <com/sun/star/awt/XTextComponent.hpp>
#include <com/sun/star/awt/XToolkitExperimental.hpp>
#include <com/sun/star/awt/XTopWindow.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/awt/grid/DefaultGridColumnModel.hpp>
#include <com/sun/star/awt/grid/DefaultGridDataModel.hpp>
#include <com/sun/star/awt/grid/XGridColumn.hpp>
#include <com/sun/star/awt/grid/XGridColumnModel.hpp>
#include <com/sun/star/awt/grid/XGridRowSelection.hpp>
#include <com/sun/star/awt/grid/XGridSelectionListener.hpp>
#include <com/sun/star/awt/grid/XMutableGridDataModel.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <cppuhelper/implbase5.hxx>

#include <algorithm>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using rtl::OUString;

namespace {

constexpr int margin = 6;
constexpr int gap = 4;
constexpr int line_height = 9;
constexpr int field_height = 13;
constexpr int row_height = 18; // two lines of hint beside a field
constexpr int button_height = 15;

Any integer(int value) { return Any(static_cast<sal_Int32>(value)); }

Sequence<OUString> strings(const std::vector<std::string>& texts) {
    Sequence<OUString> result(static_cast<sal_Int32>(texts.size()));
    std::transform(texts.begin(), texts.end(), result.getArray(), [](const auto& text) { return utf16(text); });
    return result;
}

} // namespace

// What happens in the window, passed on; nothing thrown by our own functions reaches the office.
class DialogListener
    : public cppu::WeakImplHelper5<css::awt::XActionListener, css::awt::XTextListener, css::awt::XItemListener,
                                   css::awt::grid::XGridSelectionListener, css::awt::XTopWindowListener> {
  public:
    explicit DialogListener(Dialog& dialog) : dialog_(dialog) {}

    void SAL_CALL actionPerformed(const css::awt::ActionEvent& event) override {
        dialog_.pressed(utf8(event.ActionCommand));
    }
    void SAL_CALL textChanged(const css::awt::TextEvent&) override { dialog_.changed(); }
    void SAL_CALL itemStateChanged(const css::awt::ItemEvent&) override { dialog_.changed(); }
    void SAL_CALL selectionChanged(const css::awt::grid::GridSelectionEvent&) override { dialog_.changed(); }
    void SAL_CALL windowClosing(const css::lang::EventObject&) override { dialog_.cancelled_ = true; }
    void SAL_CALL windowOpened(const css::lang::EventObject&) override {}
    void SAL_CALL windowClosed(const css::lang::EventObject&) override {}
    void SAL_CALL windowMinimized(const css::lang::EventObject&) override {}
    void SAL_CALL windowNormalized(const css::lang::EventObject&) override {}
    void SAL_CALL windowActivated(const css::lang::EventObject&) override {}
    void SAL_CALL windowDeactivated(const css::lang::EventObject&) override {}
    void SAL_CALL disposing(const css::lang::EventObject&) override {}

  private:
    Dialog& dialog_; // outlives the controls that call us
};

// --- building ----------------------------------------------------------------------------------------------------

Dialog::Dialog(Context& context, const std::string& title, int width, int label_width, int field_width)
    : context_(context), dialog_model_(create(context.component(), "com.sun.star.awt.UnoControlDialogModel")),
      models_(dialog_model_, css::uno::UNO_QUERY_THROW), width_(width), label_width_(label_width),
      field_width_(field_width), span_(width - 2 * margin) {
    set_property(dialog_model_, "Title", Any(utf16(title)));
    set_property(dialog_model_, "Width", integer(width));
    set_property(dialog_model_, "Closeable", Any(true));
    set_property(dialog_model_, "Moveable", Any(true));
}

Dialog::~Dialog() {
    try {
        if (dialog_.is())
            dialog_->dispose();
    } catch (const css::uno::Exception&) { // already gone with its parent
    }
}

Reference<css::beans::XPropertySet> Dialog::insert(const char* service, const std::string& name, int x, int y,
                                                   int width, int height) {
    const auto made =
        need<css::lang::XMultiServiceFactory>(dialog_model_)
            ->createInstance(OUString::createFromAscii("com.sun.star.awt.") + OUString::createFromAscii(service));
    auto model = need<css::beans::XPropertySet>(made);
    set_property(model, "PositionX", integer(x));
    set_property(model, "PositionY", integer(y));
    set_property(model, "Width", integer(width));
    set_property(model, "Height", integer(height));
    set_property(model, "TabIndex", Any(static_cast<sal_Int16>(count_++)));
    models_->insertByName(utf16(name), Any(made));
    return model;
}

Reference<css::beans::XPropertySet> Dialog::model(const std::string& name) const {
    return {models_->getByName(utf16(name)), css::uno::UNO_QUERY_THROW};
}

Reference<css::awt::XControl> Dialog::control(const std::string& name) const {
    return need<css::awt::XControlContainer>(dialog_)->getControl(utf16(name));
}

void Dialog::label(const std::string& text, int x, int y, int width, const std::string& name) {
    if (text.empty() && name.empty())
        return;
    const auto made = insert("UnoControlFixedTextModel", name.empty() ? "label" + std::to_string(count_) : name, x, y,
                             width, line_height);
    set_property(made, "Label", Any(utf16(text)));
}

Dialog::Field Dialog::with_hint(const std::string& name, const std::string& hint, int y) {
    const int x = margin + label_width_ + gap + field_width_ + gap;
    Field field{name, name + "_hint", hint};
    const auto made = insert("UnoControlFixedTextModel", field.hint_name, x, y, width_ - margin - x, row_height);
    set_property(made, "Label", Any(utf16(hint)));
    set_property(made, "MultiLine", Any(true));
    return field;
}

void Dialog::left(int width) {
    part_top_ = y_;
    span_ = width;
}

void Dialog::right() {
    part_end_ = y_;
    y_ = part_top_;
    x_ = margin + span_ + gap;
    span_ = width_ - margin - x_;
}

void Dialog::whole() {
    y_ = std::max(y_, part_end_);
    x_ = margin;
    span_ = width_ - 2 * margin;
}

void Dialog::paragraph(const std::string& text, int lines, bool bold) {
    const auto made =
        insert("UnoControlFixedTextModel", "text" + std::to_string(count_), x_, y_, span_, lines * line_height);
    set_property(made, "Label", Any(utf16(text)));
    set_property(made, "MultiLine", Any(true));
    if (bold)
        set_property(made, "FontWeight", Any(bold_weight));
    y_ += lines * line_height + gap;
}

Dialog::Field Dialog::line() {
    const std::string name = "line" + std::to_string(count_);
    label("", x_, y_, span_, name);
    y_ += line_height + gap;
    return {name, {}, {}};
}

Dialog::Field Dialog::entry(const std::string& text, const std::string& initial, const std::string& hint) {
    label(text, margin, y_ + 2, label_width_);
    const std::string name = "entry" + std::to_string(count_);
    const auto made = insert("UnoControlEditModel", name, margin + label_width_ + gap, y_, field_width_, field_height);
    set_property(made, "Text", Any(utf16(initial)));
    watched_.push_back(name);
    auto field = with_hint(name, hint, y_ + 2);
    y_ += row_height + gap;
    return field;
}

Dialog::Field Dialog::choice(const std::string& text, const std::vector<std::string>& items, int selected,
                             const std::string& hint) {
    label(text, margin, y_ + 2, label_width_);
    const std::string name = "choice" + std::to_string(count_);
    const auto made =
        insert("UnoControlListBoxModel", name, margin + label_width_ + gap, y_, field_width_, field_height);
    set_property(made, "Dropdown", Any(true));
    set_property(made, "LineCount", Any(static_cast<sal_Int16>(12)));
    set_property(made, "StringItemList", Any(strings(items)));
    const auto chosen = static_cast<sal_Int16>(selected);
    set_property(made, "SelectedItems", Any(Sequence<sal_Int16>(&chosen, selected < 0 ? 0 : 1)));
    watched_.push_back(name);
    auto field = with_hint(name, hint, y_ + 2);
    y_ += row_height + gap;
    return field;
}

Dialog::Field Dialog::list(const std::string& text, const std::vector<std::string>& items, int height) {
    label(text, x_, y_, span_);
    y_ += line_height + 1;
    const std::string name = "list" + std::to_string(count_);
    const auto made = insert("UnoControlListBoxModel", name, x_, y_, span_, height);
    set_property(made, "StringItemList", Any(strings(items)));
    watched_.push_back(name);
    y_ += height + gap;
    return {name, {}, {}};
}

Dialog::Field Dialog::memo(const std::string& text, const std::string& initial, int height, bool read_only) {
    if (!text.empty()) {
        label(text, x_, y_, span_);
        y_ += line_height + 1;
    }
    const std::string name = "memo" + std::to_string(count_);
    const auto made = insert("UnoControlEditModel", name, x_, y_, span_, height);
    set_property(made, "MultiLine", Any(true));
    set_property(made, "VScroll", Any(true));
    set_property(made, "ReadOnly", Any(read_only));
    set_property(made, "Text", Any(utf16(initial)));
    if (!read_only)
        watched_.push_back(name);
    y_ += height + gap;
    return {name, {}, {}};
}

Dialog::Field Dialog::table(const std::string& text, const std::vector<std::string>& headers, int height,
                            const std::vector<int>& shares) {
    if (!text.empty()) {
        label(text, x_, y_, span_);
        y_ += line_height + 1;
    }
    const std::string name = "table" + std::to_string(count_);
    const auto made = insert("grid.UnoControlGridModel", name, x_, y_, span_, height);
    const auto columns = css::awt::grid::DefaultGridColumnModel::create(context_.component());
    for (std::size_t i = 0; i < headers.size(); ++i) {
        const auto column = columns->createColumn();
        column->setTitle(utf16(headers[i]));
        column->setFlexibility(i < shares.size() ? shares[i] : 1);
        columns->addColumn(column);
    }
    set_property(made, "ColumnModel", Any(columns));
    set_property(made, "GridDataModel", Any(css::awt::grid::DefaultGridDataModel::create(context_.component())));
    set_property(made, "ShowColumnHeader", Any(true));
    set_property(made, "VScroll", Any(true));
    set_property(made, "Tabstop", Any(true));
    y_ += height + gap;
    return {name, {}, {}};
}

Dialog::Field Dialog::progress() {
    const std::string name = "progress" + std::to_string(count_);
    const auto made = insert("UnoControlProgressBarModel", name, x_, y_, span_, 10);
    set_property(made, "ProgressValueMin", integer(0));
    set_property(made, "ProgressValueMax", integer(1000));
    y_ += 10 + gap;
    return {name, {}, {}};
}

std::vector<Dialog::Field> Dialog::fields(const std::vector<Part>& parts) {
    std::vector<Field> made_fields;
    int x = margin;
    for (const auto& part : parts) {
        if (part.label_width > 0) {
            label(part.label, x, y_ + 2, part.label_width);
            x += part.label_width + 2;
        }
        const bool list = !part.items.empty() && !part.typed;
        const std::string name = (list ? "choice" : "entry") + std::to_string(count_);
        const auto made = insert(list                 ? "UnoControlListBoxModel"
                                 : part.items.empty() ? "UnoControlEditModel"
                                                      : "UnoControlComboBoxModel",
                                 name, x, y_, part.width, field_height);
        if (!part.items.empty()) {
            set_property(made, "Dropdown", Any(true));
            set_property(made, "LineCount", Any(static_cast<sal_Int16>(14)));
            set_property(made, "StringItemList", Any(strings(part.items)));
        }
        constexpr sal_Int16 first = 0;
        if (list)
            set_property(made, "SelectedItems", Any(Sequence<sal_Int16>(&first, 1)));
        else
            set_property(made, "Text", Any(utf16(part.initial)));
        set_property(made, "HelpText", Any(utf16(part.spoken)));
        watched_.push_back(name);
        made_fields.push_back({name, sentence_name, {}});
        x += part.width + gap;
    }
    y_ += field_height + gap; // GTK draws fields higher than asked
    return made_fields;
}

void Dialog::headings(const std::vector<std::pair<std::string, int>>& texts_and_widths) {
    int x = margin;
    y_ += gap;
    for (const auto& [text, width] : texts_and_widths) {
        label(text, x, y_, width);
        x += width + gap;
    }
    y_ += line_height + 1;
}

void Dialog::sentence(const std::string& hint, int lines) {
    sentence_hint_ = hint;
    const auto made =
        insert("UnoControlFixedTextModel", sentence_name, margin, y_ + 2, width_ - 2 * margin, lines * line_height);
    set_property(made, "Label", Any(utf16(hint)));
    set_property(made, "MultiLine", Any(true));
    y_ += lines * line_height + gap;
}

void Dialog::button(const std::string& text, std::function<void()> action) {
    const std::string name = "button" + std::to_string(actions_.size());
    actions_.emplace_back(name, std::move(action));
    labels_.push_back(text);
}

int Dialog::button_width(const std::string& text) {
    return std::max(60, 4 * utf16(text).getLength() + 12); // a character is 4 units wide, more or less
}

void Dialog::push_button(const std::string& name, const std::string& text, int x, bool is_default) {
    const auto made = insert("UnoControlButtonModel", name, x, y_, button_width(text), button_height);
    set_property(made, "Label", Any(utf16(text)));
    set_property(made, "DefaultButton", Any(is_default));
    if (name == "cancel" || name == "close")
        set_property(made, "PushButtonType", Any(static_cast<sal_Int16>(css::awt::PushButtonType_CANCEL)));
}

void Dialog::build() {
    int x = margin;
    for (std::size_t i = 0; i < actions_.size(); x += button_width(labels_[i++]) + gap)
        push_button(actions_[i].first, labels_[i], x, false);
    y_ += button_height + margin;
    set_property(dialog_model_, "Height", integer(y_));

    dialog_ = need<css::awt::XControl>(create(context_.component(), "com.sun.star.awt.UnoControlDialog"));
    dialog_->setModel(need<css::awt::XControlModel>(dialog_model_));
    need<css::awt::XWindow>(dialog_)->setVisible(false);
    dialog_->createPeer(need<css::awt::XToolkit>(css::awt::Toolkit::create(context_.component())),
                        as<css::awt::XWindowPeer>(context_.frame()->getContainerWindow()));
    centre();
    listen();
    changed();
}

// Over the window it belongs to.
void Dialog::centre() {
    const auto outer = context_.frame()->getContainerWindow()->getPosSize();
    const auto window = need<css::awt::XWindow>(dialog_);
    const auto inner = window->getPosSize();
    window->setPosSize(std::max<sal_Int32>(0, (outer.Width - inner.Width) / 2),
                       std::max<sal_Int32>(0, (outer.Height - inner.Height) / 3), 0, 0, css::awt::PosSize::POS);
}

void Dialog::listen() {
    const Reference<DialogListener> listener(new DialogListener(*this));
    for (const auto& name : watched_) {
        const auto one = control(name);
        if (const auto text = as<css::awt::XTextComponent>(one); text.is())
            text->addTextListener(listener.get());
        else if (const auto list = as<css::awt::XListBox>(one); list.is())
            list->addItemListener(listener.get());
        else if (const auto grid = as<css::awt::grid::XGridRowSelection>(one); grid.is())
            grid->addSelectionListener(listener.get());
    }
    std::vector<std::string> buttons{"accept"};
    for (const auto& action : actions_)
        buttons.push_back(action.first);
    for (const auto& name : buttons) {
        const auto one = as<css::awt::XButton>(control(name));
        if (!one.is())
            continue;
        one->setActionCommand(utf16(name));
        one->addActionListener(listener.get());
    }
}

// --- while it is open --------------------------------------------------------------------------------------------

void Dialog::changed() {
    if (!changed_ || filling_)
        return;
    filling_ = true; // what the function itself sets is no change by the person
    try {
        changed_();
    } catch (...) { // a preview that fails leaves the window as it is; accepting tells why
    }
    filling_ = false;
}

void Dialog::pressed(const std::string& name) {
    std::string sentence;
    try {
        if (name == "accept") {
            if (!accept_ || accept_())
                end(1);
            return;
        }
        for (const auto& [button, action] : actions_)
            if (button == name) {
                action();
                changed(); // what it set tells no listener
            }
        return;
    } catch (const Refusal& refusal) {
        sentence = refusal.sentence;
    } catch (const css::uno::Exception& problem) {
        sentence = tr("That did not work. LibreOffice says: %1", utf8(problem.Message));
    } catch (const std::exception& problem) {
        sentence = tr("That did not work. LibreOffice says: %1", problem.what());
    }
    try {
        context_.say(sentence);
    } catch (const css::uno::Exception&) { // no window to say it in
    }
}

void Dialog::end(int result) { need<css::awt::XDialog2>(dialog_)->endDialog(result); }

bool Dialog::run(const std::string& accept_label, std::function<bool()> accept) {
    accept_ = std::move(accept);
    const auto cancel = tr("Cancel");
    const int at = width_ - margin - button_width(cancel);
    push_button("accept", accept_label, at - gap - button_width(accept_label), true);
    push_button("cancel", cancel, at, false);
    build();
    return need<css::awt::XDialog2>(dialog_)->execute() == 1;
}

void Dialog::show() {
    push_button("close", tr("Close"), width_ - margin - button_width(tr("Close")), true);
    build();
    need<css::awt::XDialog2>(dialog_)->execute();
}

void Dialog::open() {
    actions_.emplace_back("stop", [this] { cancelled_ = true; });
    labels_.push_back(tr("Cancel"));
    build();
    const Reference<DialogListener> listener(new DialogListener(*this));
    if (const auto top = as<css::awt::XTopWindow>(dialog_); top.is())
        top->addTopWindowListener(listener.get());
    need<css::awt::XWindow>(dialog_)->setVisible(true);
    breathe();
}

void Dialog::breathe() {
    const auto toolkit = css::awt::Toolkit::create(context_.component());
    if (const auto loop = as<css::awt::XToolkitExperimental>(toolkit); loop.is())
        loop->processEventsToIdle();
}

void Dialog::close() { need<css::awt::XWindow>(dialog_)->setVisible(false); }

} // namespace pacecells
