// The readers of text: what they accept has a written form, and reading that gives the same again.
// The first byte of an input picks the reader, the rest is the text.
#include "reader.h"

#include "pacecells/clock.h"
#include "pacecells/delimited.h"
#include "pacecells/ergometer.h"
#include "pacecells/heat_log.h"
#include "pacecells/loads.h"
#include "pacecells/score.h"
#include "pacecells/sets.h"
#include "pacecells/stations.h"
#include "pacecells/text.h"

#include "claim.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace {

using namespace pacecells;

void clock_reader(std::string_view text) {
    const auto time = parse_clock(text);
    if (!time) {
        claim(!time.error().message().empty(), "a refusal says why");
        return;
    }
    claim(std::isfinite(time->value()) && time->value() >= 0, "a time is finite and not negative");
    for (int decimals = 0; decimals <= 3; ++decimals) {
        const auto written = clock_text(*time, decimals);
        if (!written) {
            claim(time->value() > 1e9, "every time up to 1e9 s can be written");
            return;
        }
        const auto again = parse_clock(*written);
        claim(again.has_value(), "what is written can be read");
        claim(std::abs(again->value() - time->value()) <= 0.5 * std::pow(10, -decimals) + 2e-6 + 1e-15 * time->value(),
              "rounded by half a unit at most");
        claim(*clock_text(*again, decimals) == *written, "written again the same");
    }
}

void day_time_reader(std::string_view text) {
    const auto time = Read<DayTime>::from(Cell{std::string(text)});
    claim(!time || (time->days >= 0 && time->days < 1), "a time of day is within the day");
}

void score_reader(std::string_view text) {
    const auto score = parse_score(text);
    if (!score)
        return;
    claim(score->rounds >= 0 && score->reps >= 0 && score->rounds == std::floor(score->rounds) &&
              score->reps == std::floor(score->reps),
          "whole rounds and reps");
    const auto each = RepsPerRound::every_round(score->reps + 1);
    if (!each)
        return;
    const auto reps = reps_of(*score, *each);
    claim(reps.has_value(), "fewer reps than a round has");
    const auto written = score_text(*reps, *each);
    if (!written)
        return; // more reps than are written
    const auto again = parse_score(*written);
    claim(again && again->rounds == score->rounds && again->reps == score->reps, "read again the same");
}

void scheme_reader(std::string_view text) {
    const auto scheme = Scheme::parse(text);
    if (!scheme)
        return;
    claim(scheme->sets() >= 1 && scheme->reps() >= scheme->sets() && scheme->reps() <= Scheme::max_reps &&
              scheme->rests() >= 0,
          "at least a set, a rep in each, not too many");
    const auto again = Scheme::parse(scheme->text());
    claim(again && *again == *scheme && again->text() == scheme->text(), "read again the same");
}

// Outer spaces and the case of letters do not matter.
template <class Parse>
void option_reader(std::string_view text, Parse parse) {
    std::string loud = "  ";
    for (const char c : text)
        loud += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    loud += '\t';
    const auto option = parse(text);
    const auto again = parse(std::string_view{loud});
    claim(option.has_value() == again.has_value() && (!option || *option == *again), "case and spaces do not matter");
}

// Written again with every field in quotes, a list is the same.
void list_reader(std::string_view text) {
    const auto rows = delimited_rows(text);
    std::string written;
    for (const auto& row : rows) {
        claim(!row.empty(), "a row has fields");
        for (std::size_t i = 0; i < row.size(); ++i) {
            written += i > 0 ? "\t\"" : "\"";
            for (const char c : row[i])
                written += c == '"' ? std::string("\"\"") : std::string(1, c);
            written += '"';
        }
        written += '\n';
    }
    claim(delimited_rows(written) == rows, "read again the same");
    const auto table = columns_of(rows, {{{"name"}, {"score", "reps"}}});
    claim(std::ranges::all_of(table.rows, [](const auto& row) { return row.size() == 2; }), "a text for each column");
}

std::string lines_of(const HeatLog& log) {
    std::string lines = heat_line(log.event, log.heat);
    if (log.boot_start && log.day_start && log.cap)
        lines += start_line(*log.boot_start, log.boot, *log.day_start, *log.cap);
    for (std::size_t lane = 0; lane < log.lanes.size(); ++lane)
        lines += lane_line(static_cast<int>(lane) + 1, log.lanes[lane]);
    for (const auto& [cell, value] : log.cells)
        lines += set_line({std::get<0>(cell), std::get<1>(cell), std::get<2>(cell), value});
    return log.ended ? lines + end_line() : lines;
}

void heat_log_reader(std::string_view text) {
    const auto log = read_heat_log(text);
    if (!log)
        return;
    const auto lines = lines_of(*log);
    const auto again = read_heat_log(lines);
    claim(again && again->cells == log->cells && again->lanes == log->lanes && again->ended == log->ended &&
              again->event == log->event && again->heat == log->heat,
          "a log read again is the same");
    claim(lines_of(*again) == lines, "and written again too");
}

void helpers(std::string_view text) {
    const auto inner = trim(text);
    claim(trim(inner) == inner, "trimmed once and for all");
    const auto folded = fold(text);
    claim(fold(folded) == folded && folded.size() <= text.size(), "folded once and for all");
    claim(quoted(text).size() <= 45, "what is quoted stays short");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0)
        return 0;
    const std::string_view text(reinterpret_cast<const char*>(data + 1), size - 1);
    switch (*data % 11) {
    case 0:
        clock_reader(text);
        break;
    case 1:
        day_time_reader(text);
        break;
    case 2:
        score_reader(text);
        break;
    case 3:
        scheme_reader(text);
        break;
    case 4:
        option_reader(text, parse_unit);
        break;
    case 5:
        option_reader(text, parse_machine);
        option_reader(text, parse_erg_unit);
        break;
    case 6:
        option_reader(text, parse_order);
        break;
    case 7:
        option_reader(text, parse_load_formula);
        break;
    case 8:
        list_reader(text);
        break;
    case 9:
        heat_log_reader(text);
        break;
    default:
        helpers(text);
    }
    return 0;
}
