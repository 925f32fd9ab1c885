// A workout as it was announced, and tonight's names, read into what the workout's block and the roster hold.
//
// The text is a message, a line or a list: "17 min AMRAP: 12/10 cal ski, 6 sandbags 45/30 kg", "21-15-9 for time, cap 9:
// ...", "E2MOM 20: ...". The words are those of all languages at once (announcement.json of each). Reading never
// refuses: what was not understood, what has to be asked, and what was taken or converted is marked in place.
#pragma once

#include "pacecells/quantity.h"
#include "pacecells/result.h"
#include "pacecells/stations.h"
#include "pacecells/table.h"
#include "pacecells/usual_pace.h"
#include "pacecells/words.h"
#include "pacecells/workout.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

// Bytes of the text, the end not included.
struct TextRange {
    std::size_t from = 0;
    std::size_t to = 0;
    friend bool operator==(const TextRange&, const TextRange&) = default;
};

// What a piece of the text was read as.
enum class ReadAs : std::uint8_t {
    not_understood,
    punctuation,
    filler, // changes nothing: "of", "the", the number of a line
    title,
    format,
    time, // cap, work, rest, every
    rounds,
    team,
    scoring,
    tiebreak,
    when,
    division,
    amount,
    unit,
    movement,
    load,
};

struct Piece {
    TextRange range;
    ReadAs as = ReadAs::not_understood;
};

enum class MarkKind : std::uint8_t {
    not_understood,
    asked,     // the text leaves it open: someone has to say
    taken,     // the text leaves it open; the result holds what is likely
    converted, // the result holds it in another unit
};

struct Mark {
    TextRange range;
    MarkKind kind = MarkKind::not_understood;
    Said reason;
};

struct AnnouncedStation {
    std::string movement;                     // as written; may be empty
    Unit unit = Unit::blank;                  // blank: asked
    When when = When::every;                  //
    std::vector<std::string> amounts;         // by division, as parse_amounts() reads them; empty text: not known
    std::vector<std::optional<double>> loads; // by division, kg
    TextRange range;
};

struct Announcement {
    std::string title;
    std::optional<Format> format;
    std::optional<Seconds> cap; // of intervals: from the first start to the end of the last window
    std::optional<int> rounds;
    std::optional<Seconds> work;
    std::optional<Seconds> rest;
    std::optional<Seconds> every;
    std::optional<int> windows;
    std::optional<bool> in_turn; // intervals: a station in each window, or all in each
    std::optional<Scoring> scoring;
    int team = 1;
    std::optional<int> at_once;
    bool any_split = false;
    std::string tiebreak;
    std::vector<std::string> divisions; // one at least
    std::vector<AnnouncedStation> stations;

    std::vector<Piece> pieces; // in order; between them are only spaces
    std::vector<Mark> marks;   // by place
};

// The language is that of the names of divisions where the text does not say them.
[[nodiscard]] Announcement read_announcement(std::string_view text, Language language = Language::en);

// A cell of the workout's block: the key as in "workout.cap" or "workout.stations.movement", the row of that part from 0.
struct KeyedCell {
    std::string key;
    std::size_t row = 0;
    TableCell value;
};

// What the block is to hold; words in that language. What is not known has no cell.
[[nodiscard]] std::vector<KeyedCell> announcement_cells(const Announcement& announcement, Language language);

// The usual pace of each station, which no announcement says: usual_pace.h.
[[nodiscard]] std::optional<UsualPace> usual_pace(const AnnouncedStation& station);
[[nodiscard]] std::vector<KeyedCell> pace_cells(const Announcement& announcement);

// The text with each mark in its place: "17 min AMRAP: [1: 12/10] cal ski" for the first of them.
[[nodiscard]] std::string with_marks(std::string_view text, std::span<const Mark> marks);

struct AnnouncedName {
    std::string name;
    std::string division; // as written; empty: not said
    std::string team;     // as written before a colon, else a number; empty: in none
    TextRange range;
};

struct AnnouncedNames {
    std::vector<AnnouncedName> people; // doubles too
    std::vector<Mark> marks;           // by place
};

// Names, one on a line or separated by commas or semicolons; a division in brackets, or after a tab or a comma where it
// is one of those given or a usual one. In a workout for teams "Kestrels: Bela + Goran" and "Bela + Goran" are teams.
[[nodiscard]] AnnouncedNames read_names(std::string_view text, std::span<const std::string> divisions = {},
                                        bool teams = false);

// The one of the divisions that is meant: the same name, or the only one that another word for it names: "w" for
// "women" or "Frauen". None where there is no such one.
[[nodiscard]] std::optional<std::string> meant_division(std::string_view written,
                                                        std::span<const std::string> divisions);

} // namespace pacecells
