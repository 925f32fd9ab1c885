#include "pacecells/announcement.h"

#include "block.h"
#include "expect.h"

#include "pacecells/clock.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace pacecells {
namespace {

constexpr std::string_view kinds[] = {"not understood", "asked", "taken", "converted"};

std::string joined(const std::vector<std::string>& all, std::string_view between) {
    std::string text;
    for (std::size_t i = 0; i < all.size(); ++i)
        text += (i > 0 ? std::string(between) : "") + all[i];
    return text;
}

// One for each division; alike for all: once.
std::string by_division(std::vector<std::string> values) {
    for (auto& value : values)
        value = value.empty() ? "?" : value;
    if (std::ranges::all_of(values, [&](const auto& value) { return value == values.front(); }))
        values.resize(1);
    return joined(values, "/");
}

std::string time_text(Seconds time) { return value_of(clock_text(time)); }

// An announcement as tests/data/announcements.txt writes what is expected.
std::string described(const Announcement& read, std::string_view text) {
    std::string all = "=";
    all += read.format ? " " + std::string(words_of(WordList::format)[static_cast<std::size_t>(*read.format)].key) : "";
    for (const auto& [name, time] : {std::pair{"cap", read.cap}, std::pair{"every", read.every},
                                     std::pair{"work", read.work}, std::pair{"rest", read.rest}})
        all += time ? std::string(" ") + name + " " + time_text(*time) : "";
    for (const auto& [name, count] :
         {std::pair{"rounds", read.rounds}, std::pair{"windows", read.windows}, std::pair{"at once", read.at_once}})
        all += count ? std::string(" ") + name + " " + std::to_string(*count) : "";
    all += read.team > 1 ? " team " + std::to_string(read.team) : "";
    all += read.any_split ? " any split" : "";
    all += !read.in_turn ? "" : *read.in_turn ? " in turn" : " together";
    all +=
        read.scoring ? " " + std::string(words_of(WordList::scoring)[static_cast<std::size_t>(*read.scoring)].key) : "";
    all += read.title.empty() ? "" : "\ntitle " + read.title;
    all += read.tiebreak.empty() ? "" : "\ntie-break " + read.tiebreak;
    all += read.divisions.size() > 1 ? "\nfor " + joined(read.divisions, ", ") : "";
    for (const auto& station : read.stations) {
        const auto unit = static_cast<std::size_t>(station.unit);
        all += "\n- " + (unit == 0 ? "?" : std::string(words_of(WordList::unit)[unit - 1].key)) + "; " +
               station.movement + "; " + by_division(station.amounts);
        std::vector<std::string> loads;
        for (const auto& load : station.loads)
            loads.push_back(load ? number_text(*load) : "");
        const bool any = std::ranges::any_of(loads, [](const auto& load) { return !load.empty(); });
        all += any ? "; " + by_division(loads) : "";
        all += station.when == When::first ? "; first" : station.when == When::last ? "; last" : "";
    }
    for (const auto& mark : read.marks)
        all += "\n! " + std::string(kinds[static_cast<std::size_t>(mark.kind)]) + ": " +
               std::string(text.substr(mark.range.from, mark.range.to - mark.range.from));
    return all;
}

struct Example {
    Language language;
    std::string text, expected;
    int line;
};

// "en> text", "> " for its further lines, then what is expected; blank lines between.
std::vector<Example> examples(const std::string& name = "announcements") {
    std::ifstream file{std::string{PACECELLS_TEST_DATA} + "/" + name + ".txt"};
    std::vector<Example> all;
    int number = 0;
    for (std::string line; std::getline(file, line);) {
        ++number;
        if (line.empty() || line.starts_with('#'))
            continue;
        const auto language = parse_language(line.substr(0, 2));
        if (language && line.substr(2, 2) == "> ")
            all.push_back({*language, line.substr(4), "", number});
        else if (line.starts_with("> "))
            all.back().text += "\n" + line.substr(2);
        else
            all.back().expected += (all.back().expected.empty() ? "" : "\n") + line;
    }
    return all;
}

// As what each piece was read.
std::string read_as(const Announcement& read, std::string_view text) {
    static constexpr const char* names[] = {"?",      "mark", "filler",   "title",    "format", "time",
                                            "rounds", "team", "scoring",  "tiebreak", "when",   "division",
                                            "amount", "unit", "movement", "load"};
    std::string all;
    std::optional<ReadAs> before;
    for (const auto& piece : read.pieces) {
        if (piece.as == ReadAs::punctuation)
            continue;
        if (before != piece.as)
            all += (before ? "; " : "\n: ") + std::string(names[static_cast<std::size_t>(piece.as)]);
        before = piece.as;
        all += " " + std::string(text.substr(piece.range.from, piece.range.to - piece.range.from));
    }
    return all;
}

// Just inside and just outside of what can be read.
TEST(Announcement, AtTheEdges) {
    const auto all = examples("announcement_edges");
    for (const auto& [language, text, expected, line] : all) {
        const auto read = read_announcement(text, language);
        EXPECT_EQ(described(read, text) + read_as(read, text), expected) << "line " << line << ": " << text;
    }
    EXPECT_GE(all.size(), 50u);
}

TEST(Announcement, AHundredInFourLanguages) {
    const auto all = examples();
    std::map<Language, int> count;
    for (const auto& example : all) {
        EXPECT_EQ(described(read_announcement(example.text, example.language), example.text), example.expected)
            << "line " << example.line << ": " << example.text;
        ++count[example.language];
    }
    EXPECT_GE(all.size(), 100u);
    for (const auto& [language, number] : count)
        EXPECT_GE(number, 20);
    EXPECT_EQ(count.size(), language_keys().size());
}

std::string replaced(std::string text, std::string_view piece, std::string_view other) {
    for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at + other.size()))
        text.replace(at, piece.size(), other);
    return text;
}

// Phones and word processors write other characters; what is read is the same.
TEST(Announcement, TypographyChangesNothing) {
    constexpr std::pair<std::string_view, std::string_view> pairs[] = {
        {"-", "\u2010"},  {"-", "\u2011"},   {"-", "\u2013"},     {"-", "\u2014"},     {"-", "\u2212"},
        {" ", "\u00a0"},  {" ", "\u202f"},   {" ", "\u2009"},     {" ", "\t"},         {"(", "["},
        {")", "]"},       {"\u2026", "..."}, {"\u2026", ".."},    {"'", "\u2019"},     {"'", "\u2032"},
        {"'", "\u00b4"},  {"\"", "\u201c"},  {"\"", "\u201d"},    {"\"", "\u201e"},    {"\"", "\u2033"},
        {"\"", "\u00ab"}, {"\"", "\u00bb"},  {" x ", " \u00d7 "}, {" + ", " \u2795 "}, {"\n", "\n\n"}};
    for (const auto& [usual, other] : pairs) {
        int tried = 0;
        for (const auto& example : examples()) {
            const auto text = replaced(example.text, usual, other);
            if (text == example.text || example.text.find(other) != std::string::npos)
                continue;
            ++tried;
            EXPECT_EQ(replaced(described(read_announcement(text, example.language), text), other, usual),
                      example.expected)
                << text;
        }
        EXPECT_GT(tried, 0) << usual << " as " << other;
    }
}

// The same in capitals and after blank lines, with a full stop at the end or none.
TEST(Announcement, CapitalsAndEndsChangeNothing) {
    for (const auto& example : examples()) {
        auto capitals = example.text;
        for (auto& letter : capitals)
            letter = letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
        EXPECT_EQ(fold_name(described(read_announcement(capitals, example.language), capitals)),
                  fold_name(example.expected))
            << capitals;
        for (const auto& text : {"\n \n" + example.text, example.text + ".", example.text + "!"})
            EXPECT_EQ(described(read_announcement(text, example.language), text), example.expected) << text;
    }
}

// The block as a sheet holds it: the cells of the announcement and of the usual paces.
Table block_of(const Announcement& read, Language language) {
    std::map<std::string, std::map<std::size_t, TableCell>> cells;
    for (auto& cell : announcement_cells(read, language))
        cells[cell.key.substr(cell.key.find('.') + 1)][cell.row] = cell.value;
    std::vector<std::vector<TableCell>> rows{{"pacecells.workout", "value"}, {"version", 1.0}};
    rows.push_back({"language", std::string(language_keys()[static_cast<std::size_t>(language)])});
    for (const auto& [key, values] : cells)
        if (key.find('.') == std::string::npos)
            rows.push_back({key, values.at(0)});
    std::vector<TableCell> header{"stations", "no", "movement", "unit", "when"};
    std::vector<TableCell> names{"divisions", {}, {}, {}, {}};
    for (const std::string part : {"amount.", "load."})
        for (std::size_t d = 1; d <= read.divisions.size(); ++d) {
            header.emplace_back(part + std::to_string(d));
            names.push_back(part == "amount." ? cells["divisions.amount." + std::to_string(d)][0] : TableCell{});
        }
    rows.push_back(header);
    rows.push_back(names);
    for (std::size_t station = 0; station < read.stations.size(); ++station) {
        std::vector<TableCell> row{"station", static_cast<double>(station + 1)};
        for (std::size_t column = 2; column < header.size(); ++column)
            row.push_back(cells["stations." + std::get<std::string>(header[column])][station]);
        rows.push_back(row);
    }
    for (auto& cell : pace_cells(read))
        cells[cell.key.substr(cell.key.find('.') + 1)][cell.row] = cell.value;
    rows.push_back(
        {"paces", "no", "rep_s", "calh", "pace", "handling_s", "steps", "grip", "away_share", "longest", "counts"});
    for (std::size_t station = 0; station < read.stations.size(); ++station)
        rows.push_back({"pace", static_cast<double>(station + 1), cells["paces.rep_s"][station],
                        cells["paces.calh"][station], cells["paces.pace"][station],
                        cells["paces.handling_s"][station]});
    rows.push_back({"end"});
    Table table{.rows = rows.size(), .columns = 30, .cells = {}};
    for (auto& row : rows) {
        row.resize(table.columns);
        table.cells.insert(table.cells.end(), row.begin(), row.end());
    }
    return table;
}

// Everything that leaves nothing open is a workout that the model reads, with the same content.
TEST(Announcement, ItsCellsAreAWorkout) {
    int compared = 0;
    for (const auto& example : examples()) {
        const auto read = read_announcement(example.text, example.language);
        const bool open =
            std::ranges::any_of(read.marks, [](const auto& mark) { return mark.kind == MarkKind::asked; });
        const bool intervals = read.format == Format::intervals;
        if (open)
            continue;
        const auto workout = read_workout(block_of(read, example.language));
        ASSERT_TRUE(workout) << example.text << "\n" << workout.error().message();
        ++compared;
        EXPECT_EQ(workout->settings.format, read.format);
        if (!intervals) {
            EXPECT_NEAR(workout->settings.cap.value(), read.cap->value(), 1e-6);
        }
        EXPECT_EQ(workout->settings.windows, read.windows);
        EXPECT_EQ(workout->settings.in_turn, read.in_turn.value_or(false));
        EXPECT_EQ(workout->settings.team, read.team);
        EXPECT_EQ(workout->settings.rounds, read.rounds);
        EXPECT_EQ(workout->settings.tiebreak, read.tiebreak);
        ASSERT_EQ(workout->divisions.size(), read.divisions.size());
        ASSERT_EQ(workout->stations.size(), read.stations.size());
        for (std::size_t i = 0; i < read.stations.size(); ++i) {
            const auto& station = workout->stations[i];
            EXPECT_EQ(station.unit, read.stations[i].unit);
            EXPECT_EQ(station.when, read.stations[i].when);
            for (std::size_t d = 0; d < read.divisions.size(); ++d) {
                EXPECT_EQ(workout->divisions[d].name, read.divisions[d]);
                const auto amounts = value_of(parse_amounts(read.stations[i].amounts[d]));
                if (!workout->settings.in_turn) {
                    EXPECT_EQ(station.divisions[d].amounts.list, amounts.list);
                    EXPECT_EQ(station.divisions[d].amounts.open, amounts.open);
                }
                EXPECT_EQ(station.divisions[d].load, read.stations[i].loads[d]);
            }
        }
    }
    EXPECT_GE(compared, 60);
}

TEST(Announcement, IntervalsAndTeamsHaveCellsToo) {
    const auto cells = announcement_cells(
        read_announcement("in pairs, one works at a time, any way, every 3 min x 6: 15 cal row; score: lowest window"),
        parse_language("de").value());
    std::map<std::string, TableCell> found;
    for (const auto& cell : cells)
        found[cell.key] = cell.value;
    EXPECT_EQ(found["workout.format"], TableCell{"Intervalle"});
    EXPECT_EQ(found["workout.every_s"], TableCell{180.0});
    EXPECT_EQ(found["workout.windows"], TableCell{6.0});
    EXPECT_EQ(found["workout.cap"], TableCell{18.0 * 60 / 86400});
    EXPECT_EQ(found["workout.team"], TableCell{2.0});
    EXPECT_EQ(found["workout.at_once"], TableCell{1.0});
    EXPECT_EQ(found["workout.split"], TableCell{"beliebig"});
    EXPECT_EQ(found["workout.scoring"], TableCell{"schwächstes Fenster"});
    EXPECT_EQ(found["workout.stations.unit"], TableCell{"Rudern cal"});
}

TEST(Announcement, WhatIsNotSaidHasNoCell) {
    const auto read = read_announcement("AMRAP 10: 200 m run, 10 cal row, 8 burpees");
    std::vector<std::string> keys;
    for (const auto& cell : announcement_cells(read, Language{}))
        keys.push_back(cell.key);
    EXPECT_EQ(joined(keys, " "), "workout.format workout.cap workout.divisions.amount.1 workout.stations.movement "
                                 "workout.stations.unit workout.stations.amount.1 workout.stations.movement "
                                 "workout.stations.unit workout.stations.amount.1 workout.stations.movement "
                                 "workout.stations.unit workout.stations.amount.1");
    keys.clear();
    for (const auto& cell : pace_cells(read))
        keys.push_back(cell.key + " " + std::to_string(cell.row));
    EXPECT_EQ(joined(keys, ", "), "workout.paces.pace 0, workout.paces.calh 1, workout.paces.handling_s 1, "
                                  "workout.paces.rep_s 2");
}

// The texts under [announcement] and [announcement in de] of an example event, by language.
std::map<std::string, std::string> texts_of_example(const std::string& name) {
    std::ifstream file{std::string{PACECELLS_TEST_DATA} + "/../../templates/examples/" + name + ".txt"};
    std::map<std::string, std::string> texts;
    std::string language;
    for (std::string line; std::getline(file, line);) {
        if (line.starts_with("[announcement"))
            language = line == "[announcement]" ? "en" : line.substr(std::string("[announcement in ").size(), 2);
        else if (line.starts_with("["))
            language.clear();
        else if (!language.empty())
            texts[language] += line + "\n";
    }
    return texts;
}

// Nobody is asked anything about them, and they say the same in each language.
TEST(Announcement, TheExampleEventsAreUnderstood) {
    for (const std::string name : {"chipper", "intervals", "pairs", "scheme"}) {
        const auto texts = texts_of_example(name);
        ASSERT_EQ(texts.size(), language_keys().size()) << name;
        const auto english = read_announcement(texts.at("en"));
        EXPECT_GE(english.stations.size(), 3u) << name;
        for (const auto& [key, text] : texts) {
            const auto read = read_announcement(text, *parse_language(key));
            for (const auto& mark : read.marks)
                ADD_FAILURE() << text << mark.reason.message();
            EXPECT_EQ(read.format, english.format) << text;
            EXPECT_EQ(read.cap, english.cap) << text;
            EXPECT_EQ(read.windows, english.windows) << text;
            EXPECT_EQ(read.scoring, english.scoring) << text;
            EXPECT_EQ(read.team, english.team) << text;
            EXPECT_EQ(read.any_split, english.any_split) << text;
            EXPECT_EQ(read.tiebreak.empty(), english.tiebreak.empty()) << text;
            ASSERT_EQ(read.stations.size(), english.stations.size()) << text;
            for (std::size_t i = 0; i < read.stations.size(); ++i) {
                EXPECT_EQ(read.stations[i].unit, english.stations[i].unit) << text;
                EXPECT_EQ(read.stations[i].amounts, english.stations[i].amounts) << text;
                EXPECT_EQ(read.stations[i].loads, english.stations[i].loads) << text;
                const auto pace = usual_pace(read.stations[i]);
                ASSERT_TRUE(pace);
                EXPECT_TRUE(pace->known) << read.stations[i].movement;
                EXPECT_EQ(pace->rate, usual_pace(english.stations[i])->rate) << read.stations[i].movement;
            }
        }
    }
}

TEST(Announcement, AsManyAsFitInAWindow) {
    const auto read = read_announcement("E3MOM 12, all in each window: 200 m run, max wall balls 9 kg");
    ASSERT_EQ(read.stations.size(), 2u);
    EXPECT_EQ(read.stations[1].amounts, std::vector<std::string>{"max"});
    EXPECT_TRUE(read.marks.empty());
}

TEST(Announcement, NumbersAsPeopleWriteThem) {
    const auto metres = [](const std::string& written) {
        const auto read = read_announcement("3 rounds for time, cap 20: " + written + " m run, 5 burpees");
        return read.stations.size() == 2 ? read.stations.front().amounts.front() : "?";
    };
    for (const auto* thousand : {"1000", "1,000", "1.000", "1\u00a0000", "1\u202f000"})
        EXPECT_EQ(metres(thousand), "1000") << thousand;
    EXPECT_EQ(metres("12.500"), "12500");
    EXPECT_EQ(metres("100.000"), "100000");
    EXPECT_EQ(metres("1200.5"), "1200.5") << "no thousands of thousands";
    EXPECT_EQ(metres("0.250"), "0.25") << "nobody writes 250 as 0.250";
    const auto load = [](const std::string& written) {
        return read_announcement("10 min AMRAP: 5 cleans " + written + " kg").stations.at(0).loads.at(0).value_or(-1);
    };
    EXPECT_EQ(load("42.5"), 42.5);
    EXPECT_EQ(load("42,5"), 42.5);
    EXPECT_EQ(load("999"), 999);
    EXPECT_EQ(load("9"), 9);
}

TEST(Announcement, TimesAsPeopleWriteThem) {
    const auto cap = [](const std::string& written) {
        return read_announcement("For time, cap " + written + ": 50 burpees, 500 m row")
            .cap.value_or(Seconds{-1})
            .value();
    };
    EXPECT_EQ(cap("12"), 720);
    EXPECT_EQ(cap("12 min"), 720);
    EXPECT_EQ(cap("12:30"), 750);
    EXPECT_EQ(cap("12 min 30 s"), 750);
    EXPECT_EQ(cap("12 Min. 30 s"), 750);
    EXPECT_EQ(cap("90 s"), 90);
    EXPECT_EQ(cap("1 h"), 3600);
    EXPECT_EQ(cap("1 h 5 min"), 3900);
    EXPECT_EQ(cap("1:05:00"), 3900);
    EXPECT_EQ(cap("100:00"), 6000);
    EXPECT_EQ(cap("12-min"), 720);
}

TEST(Announcement, LinesMayBeNumbered) {
    const std::string plain = "10 min AMRAP\n5 burpees\n8 cal row\n12 air squats";
    const auto wanted = described(read_announcement(plain), plain);
    for (const auto& [first, second, third] :
         {std::array{"1. ", "2. ", "3. "}, {"1) ", "2) ", "3) "}, {"A) ", "B) ", "C) "}, {"- ", "- ", "- "}}) {
        const std::string text =
            "10 min AMRAP\n" +
            (first + ("5 burpees\n" + (second + ("8 cal row\n" + (third + std::string{"12 air squats"})))));
        EXPECT_EQ(described(read_announcement(text), text), wanted) << text;
    }
}

TEST(Announcement, OneDivisionImpliesTheOther) {
    const auto divisions = [](const std::string& text) { return joined(read_announcement(text).divisions, ", "); };
    EXPECT_EQ(divisions("10 min AMRAP, women: 5 burpees"), "men, women");
    EXPECT_EQ(divisions("10 min AMRAP, men: 5 burpees"), "men, women");
}

TEST(Announcement, MarksAreShownInTheirPlace) {
    const std::string text = "17 min AMRAP: 12/10 cal ski, 6 sandbags blue";
    const std::vector<Mark> marks{{{14, 19}, MarkKind::taken, say("This is not a name.")},
                                  {{29, 44}, MarkKind::asked, say("This is not a name.")},
                                  {{40, 44}, MarkKind::not_understood, say("This is not a name.")},
                                  {{44, 44}, MarkKind::asked, say("This is not a name.")}};
    EXPECT_EQ(with_marks(text, std::span(marks).first(1)), "17 min AMRAP: [1: 12/10] cal ski, 6 sandbags blue");
    EXPECT_EQ(with_marks(text, marks), "17 min AMRAP: [1: 12/10] cal ski, [2: 6 sandbags [3: blue]][4: ]");
    EXPECT_EQ(with_marks(text, {}), text);
    EXPECT_EQ(with_marks("", std::span(marks).last(1)), "");
}

// Whatever is in the text is in a piece, and what is not understood is in a mark.
TEST(Announcement, NothingIsLost) {
    for (const auto& example : examples()) {
        const auto read = read_announcement(example.text, example.language);
        std::size_t at = 0;
        for (const auto& piece : read.pieces) {
            EXPECT_EQ(trim(example.text.substr(at, piece.range.from - at)), "");
            at = piece.range.to;
            if (piece.as == ReadAs::not_understood) {
                EXPECT_TRUE(std::ranges::any_of(read.marks, [&](const Mark& mark) {
                    return mark.range.from <= piece.range.from && piece.range.to <= mark.range.to;
                })) << example.text;
            }
        }
        EXPECT_EQ(trim(std::string_view(example.text).substr(at)), "");
    }
}

} // namespace
} // namespace pacecells
