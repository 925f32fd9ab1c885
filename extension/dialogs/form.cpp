#include "form.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace pacecells {

namespace {

// In front of a sentence about a field.
std::string called(std::string label) {
    std::erase(label, '~');
    return label + ": ";
}

} // namespace

Form::Form(Context& context, const std::string& title, int width, int label_width, int field_width)
    : context_(context), dialog_(context, title, width, label_width, field_width) {}

void Form::entry(const std::string& name, const std::string& label, const std::string& initial,
                 const std::string& hint) {
    fields_.push_back({name, label, initial, {}, dialog_.entry(label, initial, hint), false});
}

void Form::choice(const std::string& name, const std::string& label, const std::vector<Option>& options,
                  const std::string& hint) {
    std::vector<std::string> labels;
    for (const auto& option : options)
        labels.push_back(option.label);
    fields_.push_back({name, label, options.front().value, options, dialog_.choice(label, labels, 0, hint), false});
}

void Form::line(std::vector<Part> parts) {
    std::vector<Dialog::Part> looks;
    for (auto& part : parts) {
        for (const auto& option : part.options)
            part.items.push_back(option.label);
        part.typed = part.options.empty();
        looks.push_back(part);
    }
    auto made = dialog_.fields(looks);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        auto& part = parts[i];
        fields_.push_back({part.name, part.spoken.empty() ? part.label : part.spoken,
                           part.options.empty() ? part.initial : part.options.front().value, part.options, made[i],
                           true});
    }
}

const Form::Named& Form::find(const std::string& name) const {
    return *std::find_if(fields_.begin(), fields_.end(), [&](const auto& field) { return field.name == name; });
}

std::string Form::text(const std::string& name) const {
    const auto& named = find(name);
    if (!context_.interactive()) {
        const std::string given(trim(context_.argument(name, named.initial)));
        const bool known = named.options.empty() || std::any_of(named.options.begin(), named.options.end(),
                                                                [&](const auto& one) { return one.value == given; });
        if (!known)
            throw FieldRefusal{name, tr("%1 is not one of the choices.", given)};
        return given;
    }
    if (named.options.empty())
        return std::string(trim(dialog_.text(named.field)));
    const int chosen = dialog_.selected(named.field);
    return chosen < 0 ? std::string() : named.options[static_cast<std::size_t>(chosen)].value;
}

Seconds Form::time(const std::string& name, Seconds below) const {
    const auto parsed = parse_clock(text(name));
    if (!parsed || !(*parsed > Seconds{0}) || !(*parsed < below))
        throw FieldRefusal{name, tr("Needs a time such as 20:00, above 0:00 and below %1.", *clock_text(below))};
    return *parsed;
}

double Form::number(const std::string& name, double least, double most) const {
    const auto number = typed_number(text(name));
    if (!number || !(*number >= least) || !(*number <= most))
        throw FieldRefusal{name, tr("Needs a number from %1 to %2.", shown_number(least, 3), shown_number(most, 3))};
    return *number;
}

void Form::clear_hints() {
    for (const auto& named : fields_)
        dialog_.clear(named.field);
}

std::string Form::sentence(const FieldRefusal& refusal) const {
    const auto& named = find(refusal.field);
    return named.shares_sentence ? called(named.label) + refusal.sentence : refusal.sentence;
}

bool Form::fill(const std::string& accept_label, const Read& read, const Read& preview) {
    if (!context_.interactive()) {
        try {
            read(*this);
        } catch (const FieldRefusal& refusal) {
            throw Refusal{called(find(refusal.field).label) + refusal.sentence};
        }
        return true;
    }
    if (preview)
        dialog_.on_change([this, preview] {
            clear_hints();
            try {
                preview(*this);
            } catch (const FieldRefusal& refusal) {
                dialog_.hint(find(refusal.field).field, sentence(refusal));
            }
        });
    return dialog_.run(accept_label, [this, read] {
        clear_hints();
        try {
            read(*this);
            return true;
        } catch (const FieldRefusal& refusal) {
            return dialog_.refuse(find(refusal.field).field, sentence(refusal));
        }
    });
}

std::optional<double> typed_number(std::string_view text) {
    std::string plain(trim(text));
    if (const auto comma = plain.find(','); comma != std::string::npos && plain.find('.') == std::string::npos)
        plain[comma] = '.';
    double value = 0;
    const auto* end = plain.data() + plain.size();
    const auto [next, problem] = std::from_chars(plain.data(), end, value);
    if (problem != std::errc{} || next != end || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::string shown_number(double value, int decimals) {
    char digits[64];
    const auto [end, problem] = std::to_chars(digits, std::end(digits), value, std::chars_format::fixed, decimals);
    if (problem != std::errc{})
        return number_text(value);
    std::string text(digits, end);
    if (text.find('.') != std::string::npos) {
        while (text.back() == '0')
            text.pop_back();
        if (text.back() == '.')
            text.pop_back();
    }
    return text == "-0" ? "0" : with_decimal_mark(std::move(text));
}

} // namespace pacecells
