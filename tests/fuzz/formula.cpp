#include "formula.h"

#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace pacecells::fuzz {

namespace {

constexpr std::size_t most_cells = 4096;

class Reader {
  public:
    explicit Reader(std::string_view text) : left_(text) {}

    bool take(char c) {
        if (left_.empty() || left_.front() != c)
            return false;
        left_.remove_prefix(1);
        return true;
    }
    bool at(std::string_view any_of) const { return left_.empty() || any_of.find(left_.front()) != any_of.npos; }
    std::string_view until(char c) {
        const auto part = left_.substr(0, left_.find(c));
        left_.remove_prefix(part.size());
        return part;
    }

    std::optional<Cell> cell() {
        if (take('_'))
            return Cell{Blank{}};
        if (take('"')) {
            std::string text(until('"'));
            if (!take('"'))
                return {};
            return Cell{std::move(text)};
        }
        if (take('#')) {
            std::uint64_t bits = 0;
            if (!number([&](const char* from, const char* to) { return std::from_chars(from, to, bits, 16); }))
                return {};
            return Cell{std::bit_cast<double>(bits)};
        }
        double value = 0;
        if (!number([&](const char* from, const char* to) { return std::from_chars(from, to, value); }))
            return {};
        return Cell{value};
    }

    std::optional<Argument> argument() {
        if (at(";)"))
            return Argument{Omitted{}};
        if (!take('{')) {
            auto single = cell();
            if (!single)
                return {};
            return Argument{*std::move(single)};
        }
        Range range{1, 0, {}};
        int column = 0;
        for (;;) {
            auto next = cell();
            if (!next || range.cells.size() == most_cells)
                return {};
            range.cells.push_back(*std::move(next));
            ++column;
            if (take('\\'))
                continue;
            if (range.rows > 1 && column != range.columns)
                return {};
            range.columns = column;
            if (take('}'))
                return Argument{std::move(range)};
            if (!take('|'))
                return {};
            ++range.rows;
            column = 0;
        }
    }

  private:
    template <class Convert>
    bool number(Convert convert) {
        const auto [end, problem] = convert(left_.data(), left_.data() + left_.size());
        if (problem != std::errc{})
            return false;
        left_.remove_prefix(static_cast<std::size_t>(end - left_.data()));
        return true;
    }

    std::string_view left_;
};

std::string written(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return '"' + *text + '"';
    const auto* number = std::get_if<double>(&cell);
    if (!number)
        return "_";
    std::array<char, 32> digits{};
    if (std::isfinite(*number)) {
        const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), *number).ptr;
        return {digits.data(), end};
    }
    const auto bits = std::bit_cast<std::uint64_t>(*number);
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), bits, 16).ptr;
    return '#' + std::string(digits.data(), end);
}

} // namespace

std::optional<Formula> read(std::string_view text) {
    Reader reader(text);
    Formula formula;
    formula.row = find_method(reader.until('('));
    if (!formula.row || !reader.take('('))
        return {};
    do {
        auto argument = reader.argument();
        if (!argument || formula.arguments.size() == formula.row->arity)
            return {};
        formula.arguments.push_back(*std::move(argument));
    } while (reader.take(';'));
    if (!reader.take(')'))
        return {};
    formula.arguments.resize(formula.row->arity, Omitted{});
    return formula;
}

std::string write(const Formula& formula) {
    std::string text(formula.row->method);
    char before = '(';
    for (const auto& argument : formula.arguments) {
        text += before;
        before = ';';
        if (const auto* cell = std::get_if<Cell>(&argument)) {
            text += written(*cell);
        } else if (const auto* range = std::get_if<Range>(&argument)) {
            for (std::size_t i = 0; i < range->cells.size(); ++i) {
                text += i == 0 ? '{' : i % static_cast<std::size_t>(range->columns) == 0 ? '|' : '\\';
                text += written(range->cells[i]);
            }
            text += '}';
        }
    }
    return text + ')';
}

Formula example(const Row& row) {
    return *read(std::string(row.method) + '(' + std::string(row.example.arguments) + ')');
}

} // namespace pacecells::fuzz
