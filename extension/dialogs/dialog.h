// A window with fields, laid out from top to bottom: label, field, and to the right of the field a hint, which gives
// way to a sentence when what was typed is refused. Positions are in the office's dialog units, which grow with the
// font and the scaling of the screen; colours are the system's.
//
//     Dialog dialog(context, tr("Pace table"));
//     const auto cap = dialog.entry(tr("~Cap"), "20:00", tr("such as 20:00"));
//     if (!dialog.run(tr("~Insert"), [&] { return dialog.text(cap).empty() ? dialog.refuse(cap, tr("…")) : true; }))
//         return; // cancelled
//
// The keyboard is enough: Tab follows the order of construction, a ~ in a label names the letter that jumps to its
// field with Alt, Enter accepts, Escape cancels.
#pragma once

#include "command.h"

#include <com/sun/star/awt/XControl.hpp>
#include <com/sun/star/awt/XControlContainer.hpp>
#include <com/sun/star/awt/XDialog2.hpp>
#include <com/sun/star/awt/grid/XMutableGridDataModel.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameContainer.hpp>

#include <functional>
#include <utility>
#include <vector>

namespace pacecells {

class Dialog {
  public:
    struct Field { // what entry() and the others hand out
        std::string name;
        std::string hint_name;
        std::string hint;
    };
    using Rows = std::vector<std::vector<std::string>>;

    // Widths in dialog units: a letter is about 4 wide, a line 8 to 10 high.
    explicit Dialog(Context& context, const std::string& title, int width = 260, int label_width = 80,
                    int field_width = 60);
    ~Dialog();
    Dialog(const Dialog&) = delete;
    Dialog& operator=(const Dialog&) = delete;

    // --- building, top to bottom ---
    // What comes next is in the left part, so many units wide; then right() for the part beside it, and whole() to go on
    // below both.
    void left(int width);
    void right();
    void whole();
    void paragraph(const std::string& text, int lines = 1, bool bold = false);
    [[nodiscard]] Field line(); // a line of text that changes, with set_text
    [[nodiscard]] Field entry(const std::string& label, const std::string& initial, const std::string& hint = {});
    [[nodiscard]] Field choice(const std::string& label, const std::vector<std::string>& items, int selected = 0,
                               const std::string& hint = {});
    // Items one below the other, over the whole width, none of them selected.
    [[nodiscard]] Field list(const std::string& label, const std::vector<std::string>& items, int height);
    // Several lines with scrollbars, over the whole width; the label may be empty.
    Field memo(const std::string& label, const std::string& initial, int height, bool read_only);
    // A table to look at, over the whole width, with scrollbars; the shares of its columns in the width, or all alike.
    [[nodiscard]] Field table(const std::string& label, const std::vector<std::string>& headers, int height,
                              const std::vector<int>& shares = {});
    void watch(const Field& table) { watched_.push_back(table.name); } // choosing a row of it is a change too
    [[nodiscard]] Field progress();
    // Fields side by side in one line, each behind its own label. What is refused, or the hint, stands in the sentence
    // of the dialog, placed by sentence().
    struct Part {
        std::string label; // before the field; may be empty
        int label_width = 0;
        int width = 60;
        std::string initial = {};
        std::vector<std::string> items = {}; // to choose from
        bool typed = true;                   // anything may be typed beside the items
        std::string spoken = {};             // what the field is, where no label says it: for a pointer or a reader
    };
    [[nodiscard]] std::vector<Field> fields(const std::vector<Part>& parts);
    // The headings of a table to fill in: texts above the fields of the next line.
    void headings(const std::vector<std::pair<std::string, int>>& texts_and_widths);
    void sentence(const std::string& hint, int lines);
    // A further button beside the usual ones, at the bottom.
    void button(const std::string& label, std::function<void()> action);
    // Ends the window from such a button, as if cancelled.
    void leave() { end(0); }

    // --- while it is open ---
    [[nodiscard]] std::string text(const Field& field) const;
    void set_text(const Field& field, const std::string& text);
    [[nodiscard]] int selected(const Field& field) const; // of a choice, list or table, from 0; -1 for none
    void set_rows(const Field& field, const Rows& rows);
    void set_row(const Field& field, int row, const std::vector<std::string>& cells); // the row stays selected
    void select_row(const Field& field, int row);
    void focus(const Field& field);
    void set_progress(const Field& field, double share);

    // The sentence beside the field, the focus into it. Always false, so that an accept function can return it.
    bool refuse(const Field& field, const std::string& sentence);
    // The sentence alone, while typing goes on.
    void hint(const Field& field, const std::string& sentence) { say(field.hint_name, sentence, true); }
    // Back to the hint.
    void clear(const Field& field);

    // Called once before the window shows and after each change by the person.
    void on_change(std::function<void()> changed) { changed_ = std::move(changed); }
    // Called once, when the window shows: for work with progress.
    [[nodiscard]] bool cancelled() const { return cancelled_; }

    // Until the person accepts and `accept` agrees (true), or cancels (false).
    [[nodiscard]] bool run(const std::string& accept_label, std::function<bool()> accept);
    // With one button to close it.
    void show();
    // Not modal, while the command works: opens the window with a cancel button, and looks after its events each time
    // breathe() is called; cancelled() tells whether the person wants to stop.
    void open();
    void breathe();
    void close();

  private:
    friend class DialogListener;
    static constexpr auto* sentence_name = "sentence";
    static constexpr float bold_weight = 150;
    static constexpr float normal_weight = 100;

    css::uno::Reference<css::beans::XPropertySet> insert(const char* service, const std::string& name, int x, int y,
                                                         int width, int height);
    void label(const std::string& text, int x, int y, int width, const std::string& name = {});
    Field with_hint(const std::string& name, const std::string& hint, int y);
    css::uno::Reference<css::beans::XPropertySet> model(const std::string& name) const;
    css::uno::Reference<css::awt::XControl> control(const std::string& name) const;
    css::uno::Reference<css::awt::grid::XMutableGridDataModel> data_of(const Field& field) const;
    [[nodiscard]] static int button_width(const std::string& text);
    void push_button(const std::string& name, const std::string& label, int x, bool is_default);
    void build();
    void centre();
    void listen();
    void pressed(const std::string& name);
    void changed();
    void say(const std::string& name, const std::string& text, bool refusal);
    void end(int result);

    Context& context_;
    css::uno::Reference<css::uno::XInterface> dialog_model_;
    css::uno::Reference<css::container::XNameContainer> models_;
    css::uno::Reference<css::awt::XControl> dialog_;
    int width_;
    int label_width_;
    int field_width_;
    int x_ = 6;        // of what takes the whole width, or that of its part
    int span_ = 0;     // its width
    int part_top_ = 0; // of the parts side by side
    int part_end_ = 0;
    int y_ = 6;
    int count_ = 0;
    std::vector<std::string> watched_; // controls whose changes matter
    std::vector<std::pair<std::string, std::function<void()>>> actions_;
    std::vector<std::string> labels_;
    std::string sentence_hint_;
    std::function<void()> changed_;
    std::function<bool()> accept_;
    bool cancelled_ = false;
    bool filling_ = false;
};

} // namespace pacecells
