// Format, cap, rounds, windows, teams: what an announcement says besides its stations.
#include "announcement_draft.h"

#include "pacecells/text.h"

#include <algorithm>
#include <cmath>

namespace pacecells {

namespace {

constexpr double longest_s = 4 * 3600;
constexpr double most_bare_minutes = 120; // "AMRAP 20": minutes, common practice; above it nobody means them
constexpr int most_team = 20;

// A setting begins at a token of a clause, or not.
class SettingsReader {
  public:
    SettingsReader(Draft& draft, std::size_t from, std::size_t end) : draft_(draft), from_(from), end_(end) {}

    void read() {
        std::size_t run = from_;
        for (std::size_t at = from_; at < end_;) {
            const std::size_t after = setting(at, run == at || blank(run, at));
            if (after == at) {
                ++at;
                continue;
            }
            draft_.any_setting = true;
            read_run(run, at);
            run = at = after;
        }
        read_run(run, end_);
    }

  private:
    const Tokens& tokens() const { return draft_.tokens; }
    bool is(std::size_t at, std::string_view mark) const { return at < end_ && tokens()[at].is(mark); }
    bool is_number(std::size_t at) const { return at < end_ && tokens()[at].kind == Token::Kind::number; }
    std::optional<Phrase> phrase(std::size_t at, std::string_view list = "key") const {
        return phrase_at(tokens(), at, end_, list);
    }
    bool has_key(std::size_t at, std::string_view key) const { return is_phrase(tokens(), at, end_, "key", key); }

    bool blank(std::size_t from, std::size_t to) const {
        while (from < to && (tokens()[from].kind == Token::Kind::mark || phrase_at(tokens(), from, to, "filler")))
            ++from;
        return from == to;
    }
    std::size_t skip(std::size_t at, std::string_view marks = "") const {
        for (;;) {
            if (const auto filler = phrase(at, "filler"); filler && !phrase(at))
                at = filler->end;
            else if (at < end_ && tokens()[at].kind == Token::Kind::mark &&
                     marks.find(tokens()[at].word) != std::string_view::npos)
                ++at;
            else
                return at;
        }
    }
    // Nothing that a number before could belong to.
    bool boundary(std::size_t at) const {
        if (at >= end_)
            return true;
        const auto& token = tokens()[at];
        return (token.kind == Token::Kind::mark &&
                std::string_view{":()/="}.find(token.word) != std::string_view::npos) ||
               phrase(at).has_value();
    }

    template <class T>
    void set(std::optional<T>& to, T value, std::size_t from, std::size_t end, ReadAs as) {
        draft_.take(from, end, as);
        if (to && *to != value)
            draft_.mark(draft_.range(from, end), MarkKind::asked, say("This was said before, and otherwise."));
        else
            to = value;
    }
    void set_time(std::optional<Seconds>& to, Seconds value, std::size_t from, std::size_t end) {
        if (value.value() >= 1 && value.value() < longest_s)
            return set(to, value, from, end, ReadAs::time);
        draft_.take(from, end, ReadAs::time);
        draft_.mark(draft_.range(from, end), MarkKind::asked, say("A time must be from a second to below 4 hours."));
    }
    void set_count(std::optional<int>& to, double value, double most, std::size_t from, std::size_t end, ReadAs as) {
        if (value >= 1 && value <= most && value == std::floor(value))
            return set(to, static_cast<int>(value), from, end, as);
        draft_.take(from, end, as);
        draft_.mark(draft_.range(from, end), MarkKind::asked, say("A whole number from 1 to %1 is needed here.", most));
    }
    void set_format(Format format, std::size_t from, std::size_t end) {
        if (draft_.result.format == Format::intervals) {
            draft_.take(from, end, ReadAs::format); // what is done in each window
            return;
        }
        draft_.format_range = draft_.range(from, end);
        if (format == Format::intervals)
            draft_.result.format.reset();
        set(draft_.result.format, format, from, end, ReadAs::format);
    }
    void set_every(Seconds time, std::size_t from, std::size_t end) {
        set_format(Format::intervals, from, end);
        draft_.window_range = draft_.range(from, end);
        set_time(draft_.result.every, time, from, end);
    }
    void set_total(Seconds time, std::size_t from, std::size_t end) {
        draft_.total_range = draft_.range(from, end);
        set_time(draft_.total, time, from, end);
    }
    void repeat(double count, std::size_t from, std::size_t end) {
        draft_.repeats_range = draft_.range(from, end);
        set_count(draft_.repeats, count, most_plan_rounds, from, end, ReadAs::rounds);
    }

    // 17 min, or a bare 17 with nothing behind that it could count.
    std::optional<TimeRead> minutes(std::size_t at) const {
        if (auto time = time_at(tokens(), at, end_))
            return time;
        if (!is_number(at) || tokens()[at].value < 1 || tokens()[at].value > most_bare_minutes || !boundary(at + 1))
            return {};
        const auto next = phrase(at + 1);
        if (next && (next->key == "rounds" || next->key == "windows" || next->key == "times"))
            return {};
        return TimeRead{Seconds{60 * tokens()[at].value}, at + 1};
    }

    std::size_t setting(std::size_t at, bool fresh) {
        if (tokens()[at].is("\""))
            return title(at);
        if (is_number(at) || tokens()[at].kind == Token::Kind::clock) {
            if (const auto time = time_at(tokens(), at, end_))
                if (const std::size_t after = timed(at, *time, fresh); after > at)
                    return after;
            return is_number(at) ? counted(at, fresh) : at;
        }
        return worded(at);
    }

    std::size_t title(std::size_t at) {
        std::size_t close = at + 1;
        while (close < end_ && !tokens()[close].is("\""))
            ++close;
        if (close >= end_ || close == at + 1 || !draft_.result.title.empty())
            return at;
        const auto from = tokens()[at].range.to;
        draft_.result.title = trim(draft_.text.substr(from, tokens()[close].range.from - from));
        draft_.take(at, close + 1, ReadAs::title);
        return close + 1;
    }

    // A time and what it is for.
    std::size_t timed(std::size_t at, const TimeRead& read, bool fresh) {
        const std::size_t next = skip(read.end, "-");
        const auto key = phrase(next);
        if (key && key->key == "amrap") {
            if (draft_.result.work == read.time || draft_.result.every)
                draft_.take(at, key->end, ReadAs::format);
            else
                set_time(draft_.result.cap, read.time, at, next);
            set_format(Format::amrap, next, key->end);
            return key->end;
        }
        if (key && key->key == "emom") {
            set_total(read.time, at, next);
            return emom(next, *key);
        }
        if (key && key->key == "cap") {
            set_time(draft_.result.cap, read.time, at, key->end);
            return key->end;
        }
        if (key && key->key == "rest")
            return rest(read.time, at, key->end);
        if (key && key->key == "work") {
            set_time(draft_.result.work, read.time, at, key->end);
            return key->end;
        }
        if (key && key->key == "time") {
            take_as_cap(read.time, at, next);
            return next;
        }
        if (key && key->key == "times" && is_number(key->end) && boundary(key->end + 1)) {
            set_time(draft_.result.work, read.time, at, read.end);
            repeat(tokens()[key->end].value, next, key->end + 1);
            return key->end + 1;
        }
        if (!fresh || !(read.end >= end_ || is(read.end, ":") || is(read.end, ")")))
            return at;
        if (draft_.result.every)
            set_total(read.time, at, read.end);
        else
            take_as_cap(read.time, at, read.end);
        return read.end;
    }
    void take_as_cap(Seconds time, std::size_t from, std::size_t end) {
        set_time(draft_.result.cap, time, from, end);
        draft_.mark(draft_.range(from, end), MarkKind::taken, say("This is taken as the cap."));
    }

    // A number and what it counts.
    std::size_t counted(std::size_t at, bool fresh) {
        const auto group = group_at(tokens(), at, end_);
        if (group->listed)
            return fresh ? scheme(at, *group) : at;
        if (group->values.size() > 1)
            return at;
        const double value = tokens()[at].value;
        const auto key = phrase(at + 1);
        if (!key)
            return at;
        if (key->key == "rounds" || key->key == "windows" || key->key == "rft") {
            const std::size_t after = skip(key->end);
            if (key->key == "rft")
                set_format(Format::time, at, key->end);
            repeat(value, at, key->end);
            draft_.take(key->end, after, ReadAs::filler);
            return after;
        }
        if (key->key == "amrap" || key->key == "emom" || key->key == "cap") {
            const auto time = minutes(at);
            return time ? timed(at, *time, fresh) : at;
        }
        if (key->key == "team_suffix") {
            team(value, at, key->end);
            return key->end;
        }
        if (key->key != "times")
            return at;
        const std::size_t next = skip(key->end);
        if (const auto time = time_at(tokens(), next, end_)) {
            const auto what = phrase(skip(time->end, "-"));
            const bool known = what && (what->key == "amrap" || what->key == "work" || what->key == "rest");
            if (!known && !boundary(time->end))
                return at;
            repeat(value, at, next);
            if (what && what->key == "rest")
                return next;
            const std::size_t after = what && what->key == "work" ? what->end : time->end;
            set_time(draft_.result.work, time->time, next, after);
            return after;
        }
        if (!has_key(next, "every") && !has_key(next, "every_minute") && !is(next, ":"))
            return at;
        repeat(value, at, next);
        return next;
    }

    std::size_t scheme(std::size_t at, const Group& group) {
        std::size_t end = group.end;
        if (const auto unit = phrase(end, "unit"); unit && unit->key == "rep")
            end = unit->end;
        std::size_t next = skip(end);
        if (!boundary(next) || !draft_.scheme.empty())
            return at;
        if (const auto key = phrase(next); key && key->key == "rounds")
            next = end = key->end;
        for (const auto& value : group.values)
            draft_.scheme.push_back({value, {}});
        draft_.scheme_range = draft_.range(at, end);
        draft_.take(at, end, ReadAs::amount);
        draft_.take(end, next, ReadAs::filler);
        return next;
    }

    std::size_t worded(std::size_t at) {
        if (const std::size_t after = named_divisions(at); after > at)
            return after;
        if (const auto scoring = phrase(at, "scoring"))
            return scored(at, *scoring);
        const auto key = phrase(at);
        if (!key)
            return at;
        const std::size_t next = skip(key->end, ":=");
        const auto time = minutes(next);
        if (key->key == "amrap") {
            const auto bare = minutes(skip(key->end));
            set_format(Format::amrap, at, key->end);
            if (bare || (time && boundary(time->end))) {
                set_time(draft_.result.cap, time->time, key->end, time->end);
                return time->end;
            }
            return key->end;
        }
        if (key->key == "emom")
            return emom(at, *key);
        if (key->key == "every_minute") {
            set_every(Seconds{60}, at, key->end);
            return windows(key->end);
        }
        if (key->key == "every") {
            const auto read = time_at(tokens(), skip(key->end), end_);
            if (!read)
                return at;
            set_every(read->time, at, read->end);
            return windows(read->end);
        }
        if (key->key == "time" || key->key == "rft") {
            set_format(Format::time, at, key->end);
            return key->end;
        }
        if (key->key == "cap" && time) {
            set_time(draft_.result.cap, time->time, at, time->end);
            return time->end;
        }
        if (key->key == "rest" && time)
            return rest(time->time, at, time->end);
        if (key->key == "work" && time) {
            set_time(draft_.result.work, time->time, at, time->end);
            return time->end;
        }
        if (key->key == "times" && is_number(key->end) && boundary(key->end + 1) &&
            (draft_.result.every || draft_.result.work)) {
            repeat(tokens()[key->end].value, at, key->end + 1);
            return key->end + 1;
        }
        if (key->key == "minute_no" && is_number(key->end) && is(key->end + 1, ":")) {
            set(draft_.result.in_turn, true, at, key->end + 2, ReadAs::filler);
            return key->end + 2;
        }
        if (key->key == "first" || key->key == "last") {
            draft_.when = key->key == "first" ? When::first : When::last;
            draft_.take(at, next, ReadAs::when);
            return next;
        }
        if (key->key == "score" && phrase(next, "scoring"))
            return scored(at, *phrase(next, "scoring"));
        if (key->key == "tiebreak")
            return tiebreak(at, next);
        return teams(at, *key);
    }

    std::size_t scored(std::size_t at, const Phrase& scoring) {
        const auto which = find_word(WordList::scoring, scoring.key);
        set(draft_.result.scoring, static_cast<Scoring>(which.value_or(0)), at, scoring.end, ReadAs::scoring);
        return scoring.end;
    }

    std::size_t tiebreak(std::size_t at, std::size_t next) {
        if (next >= end_)
            return at;
        const auto range = draft_.range(next, end_);
        draft_.result.tiebreak = trim(draft_.text.substr(range.from, range.to - range.from));
        draft_.take(at, end_, ReadAs::tiebreak);
        return end_;
    }

    std::size_t teams(std::size_t at, const Phrase& key) {
        if (key.key == "pairs") {
            team(2, at, key.end);
            return key.end;
        }
        if (key.key == "team_of" && is_number(key.end)) {
            team(tokens()[key.end].value, at, key.end + 1);
            return key.end + 1;
        }
        if (key.key == "one_at_once")
            set(draft_.result.at_once, 1, at, key.end, ReadAs::team);
        else if (key.key == "all_at_once") {
            set(draft_.result.at_once, std::max(2, draft_.result.team), at, key.end, ReadAs::team);
            draft_.all_at_once = draft_.result.at_once != 1;
        } else if (key.key == "any_split")
            draft_.result.any_split = true;
        else if (key.key == "in_turn" || key.key == "together")
            set(draft_.result.in_turn, key.key == "in_turn", at, key.end, ReadAs::rounds);
        else
            return at;
        draft_.take(at, key.end, key.key == "any_split" ? ReadAs::team : *tokens()[at].as);
        return key.end;
    }
    void team(double people, std::size_t from, std::size_t end) {
        std::optional<int> to;
        draft_.team_range = draft_.range(from, end);
        set_count(to, people, most_team, from, end, ReadAs::team);
        draft_.result.team = to.value_or(draft_.result.team);
        if (draft_.all_at_once) // "all work, teams of 3"
            draft_.result.at_once = std::max(2, draft_.result.team);
    }

    // EMOM 20, E2MOM x 10, EMOM for 20 min.
    std::size_t emom(std::size_t at, const Phrase& key) {
        set_every(Seconds{60 * key.number.value_or(1)}, at, key.end);
        return windows(key.end);
    }
    std::size_t windows(std::size_t at) {
        const std::size_t next = skip(at, ":");
        if (const auto times = phrase(next); times && times->key == "times" && is_number(times->end)) {
            repeat(tokens()[times->end].value, next, times->end + 1);
            return times->end + 1;
        }
        const auto total = minutes(skip(at));
        const auto later = minutes(next);
        const auto& read = total ? total : later;
        if (read && boundary(read->end) && !is(next, ")")) {
            set_total(read->time, at, read->end);
            return read->end;
        }
        return at;
    }

    // Rest of intervals, between rounds, or a station of its own.
    std::size_t rest(Seconds time, std::size_t at, std::size_t end) {
        const std::size_t next = skip(end);
        const auto between = phrase(next);
        if (between && between->key == "between")
            end = between->end;
        std::optional<Seconds> read;
        set_time(read, time, at, end);
        if (!read)
            return end;
        DraftStation station;
        station.rest = read;
        station.between = between && between->key == "between";
        station.range = draft_.range(at, end);
        draft_.rest_range = station.range;
        draft_.stations.push_back(std::move(station));
        return end;
    }

    // men/women, scaled/as prescribed.
    std::size_t named_divisions(std::size_t at) {
        std::vector<std::string_view> keys;
        std::size_t end = at;
        for (std::size_t next = at;; ++next) {
            const auto division = phrase(next, "division");
            if (!division)
                break;
            keys.push_back(draft_.division(next, *division));
            next = end = division->end;
            if (!is(next, "/"))
                break;
        }
        if (keys.size() < 2)
            return at;
        draft_.take(at, end, ReadAs::division);
        if (keys == std::vector<std::string_view>{"men", "men"}) { // one letter for either
            keys[1] = "women";
            draft_.mark(draft_.range(at, end), MarkKind::taken, say("This is taken as men, then women."));
        }
        if (!draft_.divisions.empty() && draft_.divisions != keys)
            draft_.mark(draft_.range(at, end), MarkKind::asked, say("This was said before, and otherwise."));
        else
            draft_.divisions = std::move(keys);
        return end;
    }

    // Tokens that no setting took.
    void read_run(std::size_t from, std::size_t end) {
        while (from < end && (tokens()[from].kind == Token::Kind::mark && !tokens()[from].is("(")))
            draft_.take(from, from + 1, ReadAs::punctuation), ++from;
        if (blank(from, end))
            return draft_.take(from, end, ReadAs::filler);
        for (std::size_t at = from; at < end; ++at)
            if (tokens()[at].is(":") && splits(from, at, end)) {
                read_part(from, at);
                draft_.take(at, at + 1, ReadAs::punctuation);
                return read_part(at + 1, end);
            }
        read_part(from, end);
    }
    // "Harbour steps: 12 cal", but not "Run: 400 m".
    bool splits(std::size_t from, std::size_t colon, std::size_t end) const {
        for (std::size_t at = from; at < colon; ++at)
            if (tokens()[at].kind != Token::Kind::word || phrase_at(tokens(), at, colon, "machine") ||
                phrase_at(tokens(), at, colon, "kind") || phrase_at(tokens(), at, colon, "division"))
                return false;
        return colon + 1 < end && tokens()[colon + 1].kind == Token::Kind::number;
    }
    void read_part(std::size_t from, std::size_t end) {
        const bool words = std::all_of(tokens().begin() + static_cast<std::ptrdiff_t>(from),
                                       tokens().begin() + static_cast<std::ptrdiff_t>(end),
                                       [](const Token& one) { return one.kind == Token::Kind::word; });
        const bool heads = end == tokens().size() || tokens()[end].is("\n") || tokens()[end].is(":");
        if (words && heads && !draft_.any_setting && draft_.stations.empty() && draft_.result.title.empty() &&
            !phrase_at(tokens(), from, end, "unit") && end < tokens().size()) {
            const auto range = draft_.range(from, end);
            draft_.result.title = draft_.text.substr(range.from, range.to - range.from);
            draft_.take(from, end, ReadAs::title);
            draft_.mark(range, MarkKind::taken, say("This is taken as the title."));
            return;
        }
        read_station(draft_, from, end);
    }

    Draft& draft_;
    std::size_t from_;
    std::size_t end_;
};

} // namespace

void read_clause(Draft& draft, std::size_t from, std::size_t end) { SettingsReader{draft, from, end}.read(); }

} // namespace pacecells
