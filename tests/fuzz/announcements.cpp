// The readers of announcements and of names: whatever the text is, all of it is in the result or marked.
#include "pacecells/announcement.h"
#include "pacecells/text.h"

#include "claim.h"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace pacecells;

bool within(TextRange inner, TextRange outer) { return outer.from <= inner.from && inner.to <= outer.to; }

void marks_inside(const std::vector<Mark>& marks, std::string_view text) {
    for (const auto& mark : marks) {
        claim(mark.range.from <= mark.range.to && mark.range.to <= text.size(), "a mark is inside the text");
        claim(!mark.reason.message().empty(), "a mark says why");
    }
}

// Every piece is in the result, or marked.
void announcement_reader(std::string_view text) {
    const auto read = read_announcement(text);
    marks_inside(read.marks, text);
    const auto marked = [&](TextRange range) {
        return std::ranges::any_of(read.marks, [&](const Mark& mark) { return within(range, mark.range); });
    };
    std::size_t at = 0;
    for (const auto& piece : read.pieces) {
        claim(piece.range.from >= at && piece.range.to > piece.range.from, "pieces are in order");
        for (; at < piece.range.from; ++at)
            claim(std::isalnum(static_cast<unsigned char>(text[at])) == 0, "between pieces are only spaces");
        at = piece.range.to;
        if (marked(piece.range))
            continue;
        const auto word = text.substr(piece.range.from, piece.range.to - piece.range.from);
        const auto& stations = read.stations;
        const bool loads = std::ranges::any_of(stations, [](const auto& station) {
            return std::ranges::any_of(station.loads, [](const auto& load) { return load.has_value(); });
        });
        const bool movement = std::ranges::any_of(
            stations, [&](const auto& station) { return station.movement.find(word) != std::string::npos; });
        claim(piece.as != ReadAs::not_understood, "what is not understood is marked");
        claim(piece.as != ReadAs::movement || movement, "a movement is in its station");
        claim(piece.as != ReadAs::load || loads, "a load is in its station");
        claim(piece.as != ReadAs::amount || !stations.empty(), "an amount is in its station");
        claim(piece.as != ReadAs::title || !read.title.empty(), "a title is the title");
        claim(piece.as != ReadAs::tiebreak || !read.tiebreak.empty(), "a tie-break is the tie-break");
        claim(piece.as != ReadAs::time || read.cap || read.work || read.rest || read.every || !stations.empty(),
              "a time is one of the workout's");
        claim(piece.as != ReadAs::format || read.format, "a format is the workout's");
    }
    for (; at < text.size(); ++at)
        claim(std::isalnum(static_cast<unsigned char>(text[at])) == 0, "behind the pieces are only spaces");
    claim(!read.divisions.empty() && read.stations.size() <= static_cast<std::size_t>(most_stations),
          "a division, and no more stations than can be planned");
    for (const auto& station : read.stations) {
        claim(station.amounts.size() == read.divisions.size() && station.loads.size() == read.divisions.size(),
              "amounts and loads of each division");
        claim(station.range.to <= text.size(), "a station is inside the text");
        for (const auto& amount : station.amounts)
            claim(!amount.empty() || !read.marks.empty(), "an open amount is asked for");
    }
    for (const auto& cell : announcement_cells(read, Language::en))
        claim(cell.key.starts_with("workout.") && !is_blank(cell.value), "a cell has a key and a value");
}

void names_reader(std::string_view text) {
    const auto read = read_names(text, {}, text.size() % 2 == 1);
    marks_inside(read.marks, text);
    for (const auto& person : read.people) {
        claim(text.substr(person.range.from, person.range.to - person.range.from) == person.name,
              "a name is in the text as it is written");
        claim(trim(person.name) == person.name && !person.name.empty(), "without outer spaces");
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    announcement_reader(text);
    names_reader(text);
    return 0;
}
