#include "pacecells/delimited.h"

#include "pacecells/text.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <optional>

namespace pacecells {

namespace {

char separator_of(std::string_view text) {
    constexpr std::array candidates{'\t', ';', ','};
    std::array<std::size_t, candidates.size()> seen{};
    bool quoted_part = false;
    for (const char c : text) {
        if (c == '"')
            quoted_part = !quoted_part;
        if (quoted_part)
            continue;
        if (c == '\n' && std::ranges::any_of(seen, [](std::size_t n) { return n > 0; }))
            break;
        for (std::size_t i = 0; i < candidates.size(); ++i)
            seen[i] += c == candidates[i];
    }
    return candidates[static_cast<std::size_t>(std::ranges::max_element(seen) - seen.begin())];
}

std::optional<std::size_t> column_named(const ColumnNames& names, std::string_view heading) {
    const auto wanted = fold(heading);
    for (std::size_t i = 0; i < names.spellings.size(); ++i)
        if (std::ranges::find(names.spellings[i], wanted) != names.spellings[i].end())
            return i;
    return std::nullopt;
}

} // namespace

TextRows delimited_rows(std::string_view text) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark))
        text.remove_prefix(byte_order_mark.size());
    const char separator = separator_of(text);

    TextRows rows;
    std::vector<std::string> row;
    std::string field;
    bool was_quoted = false;
    const auto end_field = [&] {
        row.emplace_back(was_quoted ? field : std::string(trim(field)));
        field.clear();
        was_quoted = false;
    };
    const auto end_row = [&] {
        end_field();
        if (std::ranges::any_of(row, [](const std::string& cell) { return !trim(cell).empty(); }))
            rows.push_back(std::move(row));
        row.clear();
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '"' && !was_quoted && trim(field).empty()) {
            was_quoted = true;
            field.clear();
            for (++i; i < text.size(); ++i) {
                if (text[i] != '"')
                    field += text[i];
                else if (i + 1 < text.size() && text[i + 1] == '"')
                    field += text[i++];
                else
                    break;
            }
        } else if (c == separator) {
            end_field();
        } else if (c == '\n' || c == '\r') {
            end_row();
        } else if (!was_quoted || !trim({&c, 1}).empty()) { // spaces after a quoted field are no part of it
            field += c;
        }
    }
    end_row();
    return rows;
}

ColumnTable columns_of(const TextRows& rows, const ColumnNames& names) {
    ColumnTable table;
    if (rows.empty())
        return table;
    std::vector<std::optional<std::size_t>> places; // where each column of the list goes
    for (const auto& heading : rows.front()) {
        places.push_back(column_named(names, heading));
        table.heading |= places.back().has_value();
    }
    if (table.heading) {
        for (std::size_t i = 0; i < places.size(); ++i)
            if (!places[i] && !rows.front()[i].empty())
                table.unknown.push_back(rows.front()[i]);
    } else {
        const auto widest = std::ranges::max_element(rows, {}, [](const auto& row) { return row.size(); })->size();
        places.resize(widest);
        for (std::size_t i = 0; i < widest; ++i)
            places[i] = i < names.spellings.size() ? std::optional{i} : std::nullopt;
    }
    for (std::size_t r = table.heading ? 1 : 0; r < rows.size(); ++r) {
        std::vector<std::string> cells(names.spellings.size());
        for (std::size_t i = 0; i < rows[r].size() && i < places.size(); ++i)
            if (places[i] && cells[*places[i]].empty())
                cells[*places[i]] = rows[r][i];
        table.rows.push_back(std::move(cells));
    }
    return table;
}

std::optional<double> typed_date(std::string_view text) {
    using namespace std::chrono;
    std::array<int, 3> parts{};
    std::size_t part = 0;
    std::size_t digits = 0;
    char separator = 0;
    for (const char c : text) {
        if (c >= '0' && c <= '9') {
            if (++digits > 4)
                return std::nullopt;
            parts[part] = parts[part] * 10 + (c - '0');
        } else {
            if ((c != '-' && c != '.' && c != '/') || digits == 0 || ++part > 2 || (separator != 0 && c != separator))
                return std::nullopt;
            separator = c;
            digits = 0;
        }
    }
    if (part != 2 || digits == 0)
        return std::nullopt;
    auto [a, b, c] = parts;
    if (separator == '-')
        std::swap(a, c); // year first
    if (separator == '/' && b > 12)
        std::swap(a, b); // month first
    else if (separator == '/' && a <= 12 && a != b)
        return std::nullopt;
    if (a > 31 || b > 12) // before the calendar's types cut them to a byte
        return std::nullopt;
    const year_month_day day{year{c < 100 ? 2000 + c : c}, month{static_cast<unsigned>(b)},
                             std::chrono::day{static_cast<unsigned>(a)}};
    if (!day.ok())
        return std::nullopt;
    return (sys_days{day} - sys_days{1899y / December / 30}).count();
}

} // namespace pacecells
