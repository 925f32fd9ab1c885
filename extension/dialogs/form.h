// A dialog whose fields have names, so that a command reads them the same way whether a person typed them or they came
// as arguments of a dispatch without windows.
//
//     Form form(context, tr("Pace table"));
//     form.entry("Cap", tr("~Cap"), "20:00", tr("Minutes and seconds, such as 20:00."));
//     Seconds cap{0};
//     const auto read = [&](const Form& typed) { cap = typed.time("Cap", Seconds{4 * 3600}); };
//     if (!form.fill(tr("~Insert"), read))
//         return; // cancelled
//
// What `read` refuses, by time() and number() or by throwing a FieldRefusal, stands beside the field, which gets the
// focus; without windows it is the refusal of the command.
#pragma once

#include "dialog.h"

#include "pacecells/quantity.h"

namespace pacecells {

struct FieldRefusal {
    std::string field;
    std::string sentence;
};

class Form {
  public:
    using Read = std::function<void(const Form&)>;
    struct Option {
        std::string value; // as in arguments
        std::string label;
    };

    explicit Form(Context& context, const std::string& title, int width = 260, int label_width = 80,
                  int field_width = 60);

    void entry(const std::string& name, const std::string& label, const std::string& initial,
               const std::string& hint = {});
    void choice(const std::string& name, const std::string& label, const std::vector<Option>& options,
                const std::string& hint = {});
    // Fields side by side, in one line. Where `spoken` is empty the label is what the field is called in a refusal.
    struct Part : Dialog::Part {
        std::string name;
        std::vector<Option> options = {}; // a choice of these alone
    };
    void line(std::vector<Part> parts);

    // For all that is not a named field.
    [[nodiscard]] Dialog& dialog() { return dialog_; }

    // What stands in the field, without outer spaces; of a choice its value.
    [[nodiscard]] std::string text(const std::string& name) const;
    // A time above 0 and below a limit. Refuses all else.
    [[nodiscard]] Seconds time(const std::string& name, Seconds below) const;
    // A number with point or comma from least to most.
    [[nodiscard]] double number(const std::string& name, double least, double most) const;
    [[nodiscard]] bool empty(const std::string& name) const { return text(name).empty(); }

    // True when `read` agreed, false when cancelled. `preview` is called with every change, and may refuse too, which
    // then shows beside the field without moving the focus.
    [[nodiscard]] bool fill(const std::string& accept_label, const Read& read, const Read& preview = {});

  private:
    struct Named {
        std::string name;
        std::string label;
        std::string initial;
        std::vector<Option> options;
        Dialog::Field field;
        bool shares_sentence = false; // which has to say what it is about
    };
    [[nodiscard]] const Named& find(const std::string& name) const;
    void clear_hints();
    [[nodiscard]] std::string sentence(const FieldRefusal& refusal) const;

    Context& context_;
    Dialog dialog_;
    std::vector<Named> fields_;
};

// A number as typed, with a decimal point or comma; nothing else around it.
[[nodiscard]] std::optional<double> typed_number(std::string_view text);
// For people, in the language of the interface: at most so many decimals, none that are zero.
[[nodiscard]] std::string shown_number(double value, int decimals);

} // namespace pacecells
