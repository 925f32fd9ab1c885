#include "pacecells/words.h"

#include "pacecells/text.h"

namespace pacecells {

namespace {

constexpr std::string_view language_keys[] = {"en", "de", "es", "fr"};

constexpr Word formats[] = {
    {"amrap", {"AMRAP", "AMRAP", "AMRAP", "AMRAP"}},
    {"time", {"for time", "auf Zeit", "por tiempo", "au temps"}},
    {"intervals", {"intervals", "Intervalle", "intervalos", "intervalles"}},
};
constexpr Word scorings[] = {
    {"lowest", {"lowest window", "schwächstes Fenster", "ventana más baja", "plus faible fenêtre"}},
    {"sum", {"sum of the windows", "Summe der Fenster", "suma de las ventanas", "somme des fenêtres"}},
    {"total", {"total", "Gesamtzahl", "total", "total"}},
};
constexpr Word whens[] = {
    {"every", {"every round", "jede Runde", "cada ronda", "à chaque tour"}},
    {"first", {"first round only", "nur erste Runde", "solo la primera", "au premier tour"}},
    {"last", {"last round only", "nur letzte Runde", "solo la última", "au dernier tour"}},
};
// In the order of Unit, without the blank.
constexpr Word units[] = {
    {"rep", {"reps", "Wdh.", "reps.", "réps"}},
    {"row cal", {"row cal", "Rudern cal", "remo cal", "rameur cal"}},
    {"ski cal", {"ski cal", "Ski cal", "esquí cal", "ski cal"}},
    {"bike cal", {"bike cal", "Rad cal", "bici cal", "vélo cal"}},
    {"armbike cal", {"arm bike cal", "Armrad cal", "bici de brazos cal", "vélo à bras cal"}},
    {"row m", {"row m", "Rudern m", "remo m", "rameur m"}},
    {"ski m", {"ski m", "Ski m", "esquí m", "ski m"}},
    {"bike m", {"bike m", "Rad m", "bici m", "vélo m"}},
    {"run m", {"run m", "Laufen m", "carrera m", "course m"}},
    {"carry m", {"carry m", "Tragen m", "transporte m", "porté m"}},
    {"hold", {"hold s", "Halten s", "mantener s", "tenue s"}},
    {"rest", {"rest s", "Pause s", "descanso s", "repos s"}},
};
constexpr Word day_plans[] = {
    {"full", {"full", "voll", "completo", "complet"}},
    {"easy", {"easy", "locker", "suave", "léger"}},
    {"technique", {"technique", "Technik", "técnica", "technique"}},
    {"not_today", {"not today", "heute nicht", "hoy no", "pas aujourd'hui"}},
};
constexpr Word answers[] = {
    {"more_left", {"with more left", "ja, mit Luft", "sí, de sobra", "oui, avec marge"}},
    {"only_just", {"only just", "nur knapp", "muy justo", "tout juste"}},
    {"no", {"no", "nein", "no", "non"}},
};
constexpr Word yeses[] = {{"yes", {"yes", "ja", "sí", "oui"}}};
constexpr Word splits[] = {{"any", {"any way", "beliebig", "como quieran", "libre"}}};
constexpr Word rate_units[] = {
    {"cal/h", {"cal/h", "cal/h", "cal/h", "cal/h"}},
    {"W", {"W", "W", "W", "W"}},
    {"split", {"split", "Split", "ritmo", "split"}},
};

struct List {
    std::string_view name;
    std::span<const Word> words;
};
constexpr std::array<List, word_lists> lists{{{"format", formats},
                                              {"scoring", scorings},
                                              {"when", whens},
                                              {"unit", units},
                                              {"day_plan", day_plans},
                                              {"answer", answers},
                                              {"yes", yeses},
                                              {"split", splits},
                                              {"rate_unit", rate_units}}};

const List& list_of(WordList list) { return lists[static_cast<std::size_t>(list)]; }

// The lower case of the characters of two bytes in UTF-8 that have one, U+00C0 to U+04FF; others as they are.
unsigned lower(unsigned code) {
    const auto in = [code](unsigned from, unsigned to) { return code >= from && code <= to; };
    if (in(0xC0, 0xDE) && code != 0xD7)
        return code + 0x20; // À to Þ
    if (code == 0x130)
        return 'i'; // a capital i with a dot
    if (code == 0x178)
        return 0xFF; // Ÿ
    if (in(0x100, 0x137) || in(0x14A, 0x177))
        return code | 1u; // pairs, the capital is even
    if (in(0x139, 0x148) || in(0x179, 0x17E))
        return code % 2 == 1 ? code + 1 : code; // pairs, the capital is odd
    if (in(0x391, 0x3A9) && code != 0x3A2)
        return code + 0x20; // Greek
    if (in(0x410, 0x42F))
        return code + 0x20; // Cyrillic
    if (in(0x400, 0x40F))
        return code + 0x50;
    return code;
}

} // namespace

std::optional<Language> parse_language(std::string_view key) {
    const std::string folded = fold(key);
    for (std::size_t i = 0; i < languages; ++i)
        if (folded == language_keys[i])
            return static_cast<Language>(i);
    return {};
}

std::string_view name_of(WordList list) { return list_of(list).name; }

std::span<const Word> words_of(WordList list) { return list_of(list).words; }

std::optional<std::size_t> find_word(WordList list, std::string_view text) {
    const std::string sought = fold_name(text);
    const auto words = words_of(list);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (sought == fold_name(words[i].key))
            return i;
        for (const auto one : words[i].text)
            if (sought == fold_name(one))
                return i;
    }
    return {};
}

std::string_view word(WordList list, std::size_t index, Language language) {
    return words_of(list)[index].text[static_cast<std::size_t>(language)];
}

std::string fold_name(std::string_view name) {
    const std::string folded = fold(name);
    std::string result;
    result.reserve(folded.size());
    for (std::size_t i = 0; i < folded.size(); ++i) {
        const auto first = static_cast<unsigned char>(folded[i]);
        if (first < 0xC3 || first > 0xD3 || i + 1 == folded.size()) {
            result += folded[i];
            continue;
        }
        const auto second = static_cast<unsigned char>(folded[++i]);
        const unsigned code = lower((first & 0x1Fu) << 6u | (second & 0x3Fu));
        if (code < 0x80) {
            result += static_cast<char>(code);
        } else {
            result += static_cast<char>(0xC0u | code >> 6u);
            result += static_cast<char>(0x80u | (code & 0x3Fu));
        }
    }
    return result;
}

bool same_name(std::string_view a, std::string_view b) { return fold_name(a) == fold_name(b); }

} // namespace pacecells
