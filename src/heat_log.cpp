#include "pacecells/heat_log.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <initializer_list>

namespace pacecells {

namespace {

constexpr int most_lanes = 200;

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == '\\')
            result += "\\\\";
        else if (c == '\t')
            result += "\\t";
        else if (c == '\n')
            result += "\\n";
        else
            result += c;
    }
    return result;
}

std::string plain(std::string_view text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\\' && i + 1 < text.size()) {
            const char next = text[++i];
            result += next == 't' ? '\t' : next == 'n' ? '\n' : next;
        } else {
            result += text[i];
        }
    }
    return result;
}

// Shortest text that reads back as the same number, whatever the language.
std::string exact(double value) {
    std::array<char, 40> buffer{};
    const auto [end, problem] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return problem == std::errc() ? std::string(buffer.data(), end) : std::string("0");
}

std::optional<double> number(std::string_view text) {
    double value = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (problem != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::optional<int> whole(std::string_view text) {
    int value = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (problem != std::errc() || end != text.data() + text.size())
        return std::nullopt;
    return value;
}

std::string line(std::initializer_list<std::string_view> fields) {
    std::string result;
    for (const auto field : fields)
        result += (result.empty() ? "" : "\t") + escaped(field);
    return result + "\n";
}

std::vector<std::string_view> fields_of(std::string_view text) {
    std::vector<std::string_view> fields;
    while (true) {
        const auto tab = text.find('\t');
        fields.push_back(text.substr(0, tab));
        if (tab == std::string_view::npos)
            return fields;
        text.remove_prefix(tab + 1);
    }
}

std::string written(const CellValue& value) {
    if (const auto* amount = std::get_if<double>(&value))
        return exact(*amount);
    const auto* text = std::get_if<std::string>(&value);
    return text ? "=" + *text : "-";
}

std::optional<CellValue> value_of(std::string_view text) {
    if (text == "-")
        return CellValue{};
    if (text.starts_with("="))
        return CellValue{plain(text.substr(1))};
    if (const auto value = number(text))
        return CellValue{*value};
    return std::nullopt;
}

void rename(HeatLog& log, const std::string& before, const std::string& after) {
    std::replace(log.lanes.begin(), log.lanes.end(), before, after);
    for (auto& fix : log.fixes)
        if (fix.change.athlete == before)
            fix.change.athlete = after;
    HeatCells cells;
    for (auto& [place, value] : log.cells) {
        const auto& [range, athlete, column] = place;
        cells[{range, athlete == before ? after : athlete, column}] = std::move(value);
    }
    log.cells = std::move(cells);
}

void take(HeatLog& log, const std::vector<std::string_view>& fields) {
    const auto kind = fields[0];
    if (kind == "start" && fields.size() == 5) {
        log.boot_start = number(fields[1]);
        log.boot = plain(fields[2]);
        log.day_start = number(fields[3]);
        log.cap = number(fields[4]);
    } else if (kind == "lane" && fields.size() == 3) {
        const auto lane = whole(fields[1]);
        if (!lane || *lane < 1 || *lane > most_lanes)
            return;
        log.lanes.resize(std::max(log.lanes.size(), static_cast<std::size_t>(*lane)));
        log.lanes[static_cast<std::size_t>(*lane) - 1] = plain(fields[2]);
    } else if (kind == "set" && fields.size() == 5) {
        const auto column = whole(fields[3]);
        auto value = value_of(fields[4]);
        if (column && value)
            log.cells[{plain(fields[1]), plain(fields[2]), *column}] = *std::move(value);
    } else if (kind == "name" && fields.size() == 3) {
        rename(log, plain(fields[1]), plain(fields[2]));
    } else if (kind == "end" && fields.size() == 1) {
        log.ended = true;
    } else if (kind == "fix" && fields.size() == 8) {
        const auto column = whole(fields[3]);
        auto before = value_of(fields[4]);
        auto after = value_of(fields[5]);
        const auto day = number(fields[6]);
        if (column && before && after && day)
            log.fixes.push_back({{plain(fields[1]), plain(fields[2]), *column, *std::move(after)},
                                 *std::move(before),
                                 *day,
                                 plain(fields[7])});
    }
}

} // namespace

std::string heat_line(std::string_view event, int heat) { return line({"heat", "1", event, std::to_string(heat)}); }

std::string start_line(double boot_start, std::string_view boot, double day_start, double cap) {
    return line({"start", exact(boot_start), boot, exact(day_start), exact(cap)});
}

std::string lane_line(int lane, std::string_view athlete) { return line({"lane", std::to_string(lane), athlete}); }

std::string set_line(const CellChange& change) {
    return line({"set", change.range, change.athlete, std::to_string(change.column), written(change.value)});
}

std::string fix_line(const Fix& fix) {
    const auto& change = fix.change;
    return line({"fix", change.range, change.athlete, std::to_string(change.column), written(fix.before),
                 written(change.value), exact(fix.day), fix.who});
}

std::string name_line(std::string_view before, std::string_view after) { return line({"name", before, after}); }

std::string end_line() { return line({"end"}); }

HeatCells HeatLog::fixed() const {
    auto all = cells;
    for (const auto& [change, before, day, who] : fixes)
        all[{change.range, change.athlete, change.column}] = change.value;
    return all;
}

std::optional<HeatLog> read_heat_log(std::string_view text) {
    std::optional<HeatLog> log;
    for (auto end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
        const auto fields = fields_of(text.substr(0, end));
        text.remove_prefix(end + 1);
        if (!log) {
            if (fields.size() != 4 || fields[0] != "heat" || fields[1] != "1")
                return std::nullopt;
            const auto heat = whole(fields[3]);
            if (!heat)
                return std::nullopt;
            log.emplace();
            log->event = plain(fields[2]);
            log->heat = *heat;
        } else {
            take(*log, fields);
        }
    }
    return log;
}

} // namespace pacecells
