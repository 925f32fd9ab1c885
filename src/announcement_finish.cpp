// What an announcement comes to: divisions, units, kilograms, windows, and what it leaves open.
#include "announcement_draft.h"

#include "pacecells/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace pacecells {

namespace {

constexpr double kilograms_per_pound = 0.45359237; // exact: the international pound of 1959
constexpr double metres_per_mile = 1609.344;       // exact: the international mile of 1959
constexpr double most_load = 999;                  // as the block takes it

TextRange whole(const Draft& draft) {
    if (draft.format_range)
        return *draft.format_range;
    for (const auto& token : draft.tokens)
        if (!token.is("\n"))
            return token.range;
    return {0, draft.text.size()};
}

std::optional<double> number(std::string_view text) {
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (text.empty() || read.ec != std::errc{} || read.ptr != text.data() + text.size())
        return {};
    return value;
}

// The words of a movement, for what kind of work it is.
struct Kind {
    std::optional<Machine> machine;
    bool machine_only = false;
    bool run = false;
    bool carry = false;
    bool hold = false;
};
Kind kind_of(const std::string& movement) {
    Kind kind;
    const auto tokens = tokens_of(movement);
    bool only = true;
    for (std::size_t at = 0; at < tokens.size();) {
        const auto machine = phrase_at(tokens, at, tokens.size(), "machine");
        const auto what = phrase_at(tokens, at, tokens.size(), "kind");
        if (machine && !kind.machine) {
            static constexpr std::array<std::string_view, 4> names{"row", "ski", "bike", "armbike"};
            const auto place = std::ranges::find(names, machine->key) - names.begin();
            kind.machine = static_cast<Machine>(place);
        }
        kind.run = kind.run || (what && what->key == "run");
        kind.carry = kind.carry || (what && what->key == "carry");
        kind.hold = kind.hold || (what && what->key == "hold");
        const auto filler = phrase_at(tokens, at, tokens.size(), "filler");
        only = only && (machine || filler);
        at = machine ? machine->end : what ? what->end : filler ? filler->end : at + 1;
    }
    kind.machine_only = kind.machine && only;
    return kind;
}

class Finisher {
  public:
    explicit Finisher(Draft& draft) : draft_(draft), result_(draft.result) {}

    void finish() {
        finish_intervals();
        finish_rests();
        drop_words();
        finish_divisions();
        for (auto& station : draft_.stations)
            finish_station(station);
        if (!draft_.scheme.empty() && !scheme_used_)
            ask(draft_.scheme_range, say("No station uses this list."));
        finish_format();
    }

  private:
    void mark(TextRange where, MarkKind kind, Said reason) { draft_.mark(where, kind, std::move(reason)); }
    void ask(TextRange where, Said reason) { mark(where, MarkKind::asked, std::move(reason)); }

    void finish_intervals() {
        const bool fixed = result_.work && (draft_.repeats || draft_.rest_range) && result_.format != Format::time;
        if (fixed || result_.every)
            result_.format = Format::intervals;
        if (draft_.total && !result_.every) // how long a window is cannot be read
            ask(draft_.total_range, say("This time is not a whole number of windows."));
        if (result_.format != Format::intervals) {
            result_.rounds = draft_.repeats;
            return;
        }
        const auto place = draft_.window_range.value_or(whole(draft_));
        if (result_.every && draft_.total) {
            const double count = *draft_.total / *result_.every;
            if (count >= 1 && count == std::floor(count) && count <= most_plan_rounds)
                result_.windows = static_cast<int>(count);
            else
                ask(place, say("This time is not a whole number of windows."));
            result_.rounds = draft_.repeats; // through the stations
        } else {
            result_.windows = draft_.repeats;
        }
        if (!result_.windows && !draft_.total)
            ask(place, say("It does not say how many windows there are."));
    }

    // A rest between rounds is the last station, wherever it is said.
    void move_rests() {
        auto& stations = draft_.stations;
        const auto between =
            std::stable_partition(stations.begin(), stations.end(), [](const auto& one) { return !one.between; });
        for (auto rest = between; rest != stations.end(); ++rest)
            mark(rest->range, MarkKind::taken, say("This rest is taken as the last station of each round."));
    }

    // In intervals a rest belongs to the windows; else it is a station.
    void finish_rests() {
        if (result_.format != Format::intervals)
            return move_rests();
        for (auto station = draft_.stations.begin(); station != draft_.stations.end();) {
            if (!station->rest || (result_.rest && *result_.rest != *station->rest)) {
                ++station;
                continue;
            }
            result_.rest = station->rest;
            station = draft_.stations.erase(station);
        }
        if (!result_.windows)
            return;
        const double count = *result_.windows;
        const auto total =
            result_.every  ? result_.every->value() * count
            : result_.work ? result_.work->value() * count + (result_.rest ? result_.rest->value() * (count - 1) : 0)
                           : 0;
        if (!result_.cap && total > 0)
            result_.cap = Seconds{total};
    }

    // Words without a number are a station only where a rep scheme gives it one, or in a window as many as fit.
    void drop_words() {
        std::erase_if(draft_.stations, [&](const DraftStation& station) {
            const bool words = station.amounts.empty() && station.unit.empty() && station.loads.empty() &&
                               !station.rest && !station.most;
            if (!words || !draft_.scheme.empty() || result_.format == Format::intervals)
                return false;
            for (auto& token : draft_.tokens)
                if (token.range.from >= station.range.from && token.range.to <= station.range.to &&
                    token.kind != Token::Kind::mark)
                    token.as = ReadAs::not_understood;
            return true;
        });
        if (draft_.stations.empty())
            ask(whole(draft_), say("There is no station in this text."));
        while (draft_.stations.size() > static_cast<std::size_t>(most_stations)) {
            const auto& last = draft_.stations.back();
            ask(last.range, say("There are more than %1 stations.", most_stations));
            if (!last.loads.empty()) // on a line of their own they are outside the station's range
                ask(last.load_range, say("There are more than %1 stations.", most_stations));
            draft_.stations.pop_back();
        }
    }

    void add_division(std::string_view key) {
        if (!key.empty() && std::ranges::find(draft_.divisions, key) == draft_.divisions.end())
            draft_.divisions.push_back(key);
    }
    // "45 kg, scaled 30 kg": the other one is as prescribed.
    void add_counterpart() {
        static constexpr std::pair<std::string_view, std::string_view> pairs[] = {{"prescribed", "scaled"},
                                                                                  {"men", "women"}};
        for (const auto& [first, second] : pairs)
            if (draft_.divisions.size() == 1 &&
                (draft_.divisions.front() == first || draft_.divisions.front() == second))
                draft_.divisions = {first, second};
    }
    void finish_divisions() {
        std::size_t most = std::max<std::size_t>(draft_.scheme.size(), 1);
        TextRange where = whole(draft_);
        for (const auto& station : draft_.stations)
            for (const auto& [values, range] :
                 {std::pair{&station.amounts, station.amount_range}, std::pair{&station.loads, station.load_range}}) {
                for (const auto& value : *values)
                    add_division(value.division);
                if (values->size() > most) {
                    most = values->size();
                    where = range;
                }
            }
        const auto name = [&](std::string_view key) {
            result_.divisions.emplace_back(announcement_word("division", key, draft_.language));
        };
        add_counterpart();
        if (!draft_.divisions.empty()) {
            for (const auto key : draft_.divisions)
                name(key);
            return;
        }
        if (most == 1)
            return name("prescribed");
        if (most == 2) {
            draft_.divisions = {"men", "women"};
            name("men");
            name("women");
            mark(where, MarkKind::taken, say("It does not say for whom the numbers are: taken as men, then women."));
            return;
        }
        ask(where, say("It does not say for whom the numbers are."));
        for (std::size_t i = 1; i <= std::min<std::size_t>(most, most_divisions); ++i)
            result_.divisions.push_back(std::to_string(i));
    }

    // Values by division: one for all, one for each, or by the names given.
    std::vector<std::string> by_division(const std::vector<DraftValue>& values, TextRange where) {
        const std::size_t count = result_.divisions.size();
        std::vector<std::string> result(count);
        const bool named = std::ranges::any_of(values, [](const auto& one) { return !one.division.empty(); });
        if (values.size() == 1 && !named) {
            std::ranges::fill(result, values.front().text);
            return result;
        }
        std::optional<std::string> rest;
        for (std::size_t i = 0; i < values.size(); ++i) {
            const auto found = std::ranges::find(draft_.divisions, values[i].division);
            const std::size_t place = values[i].division.empty()
                                          ? (named ? count : i)
                                          : static_cast<std::size_t>(found - draft_.divisions.begin());
            if (place < count)
                result[place] = values[i].text;
            else
                rest = values[i].text;
        }
        const auto empty = std::ranges::count(result, "");
        if (named && rest && empty == 1) { // "45 kg (women 30 kg)"
            *std::ranges::find(result, "") = *rest;
            return result;
        }
        if (empty > 0 || rest)
            ask(where, say("These are %1 numbers, but there are %2 divisions.", values.size(), count));
        return result;
    }

    void finish_station(const DraftStation& draft) {
        AnnouncedStation station;
        station.movement = draft.movement;
        station.when = draft.when;
        station.range = draft.range;
        const std::size_t count = result_.divisions.size();
        station.loads.resize(count);
        if (draft.rest) {
            station.unit = Unit::rest;
            station.movement = announcement_word("key", "rest", draft_.language);
            station.amounts.assign(count, number_text(draft.rest->value()));
            result_.stations.push_back(std::move(station));
            return;
        }
        const bool schemed = draft.amounts.empty() && !draft.most;
        const auto& amounts = schemed ? draft_.scheme : draft.amounts;
        const bool fits = schemed && !draft_.scheme.empty();
        scheme_used_ = scheme_used_ || fits;
        const auto where = fits ? draft_.scheme_range : draft.amounts.empty() ? draft.range : draft.amount_range;
        if (fits && draft.joined)
            mark(draft.range, MarkKind::taken, say("This is taken as one station."));
        if (fits && draft.afterthought && draft.unit.empty() && draft.loads.empty())
            mark(draft.range, MarkKind::taken, say("This is taken as a station."));
        if (draft.most && result_.format == Format::intervals) {
            station.amounts.assign(count, "max");
        } else if (amounts.empty()) {
            ask(where, say("It does not say how many."));
            station.amounts.assign(count, "");
        } else {
            station.amounts = by_division(amounts, where);
        }
        finish_unit(draft, station, where);
        check_amounts(station, where);
        finish_loads(draft, station);
        result_.stations.push_back(std::move(station));
    }

    void scale(AnnouncedStation& station, double factor, TextRange where) {
        for (auto& amount : station.amounts) {
            const auto value = number(amount);
            if (value)
                amount = number_text(std::round(*value * factor));
            else if (!amount.empty())
                ask(where, say("Enter a list of distances in metres."));
        }
    }

    void finish_unit(const DraftStation& draft, AnnouncedStation& station, TextRange where) {
        const Kind kind = kind_of(draft.movement);
        const auto machine = [&](const std::array<Unit, 4>& units) {
            station.unit = units[static_cast<std::size_t>(*kind.machine)];
        };
        if (draft.unit == "cal") {
            if (kind.machine && !kind.machine_only)
                mark(draft.range, MarkKind::taken,
                     say("More than a machine is named here: it is taken as one station."));
            if (kind.machine)
                machine({Unit::row_cal, Unit::ski_cal, Unit::bike_cal, Unit::armbike_cal});
            else
                ask(draft.range, say("Calories on which machine: row, ski, bike or fan bike?"));
        } else if (draft.unit == "m" || draft.unit == "km" || draft.unit == "mi") {
            if (draft.unit == "mi" && number(station.amounts.front()))
                mark(where, MarkKind::converted, say("A mile is written as %1 m.", std::round(metres_per_mile)));
            if (draft.unit != "m")
                scale(station, draft.unit == "km" ? 1000 : metres_per_mile, where);
            if (kind.run)
                station.unit = Unit::run_m;
            else if (kind.carry)
                station.unit = Unit::carry_m;
            else if (kind.machine)
                machine({Unit::row_m, Unit::ski_m, Unit::bike_m, Unit::blank});
            else if (!draft.movement.empty()) {
                station.unit = Unit::carry_m;
                mark(draft.range, MarkKind::taken, say("These metres are taken as metres carried."));
            }
            if (station.unit == Unit::blank)
                ask(draft.range, say("Metres of what: a run, a carry, or which machine?"));
        } else if (draft.unit == "s" || draft.unit == "min") {
            if (draft.unit == "min")
                scale(station, 60, where);
            if (kind.machine || kind.run || kind.carry)
                return ask(draft.range, say("Work for a time has no unit: give calories, metres or reps."));
            station.unit = Unit::hold;
            if (!kind.hold)
                mark(draft.range, MarkKind::taken, say("This time is taken as a hold."));
        } else if (kind.machine_only || (kind.run && draft.unit.empty())) {
            ask(draft.range, say("Is that calories, metres or reps?"));
        } else {
            station.unit = Unit::rep;
        }
    }

    void check_amounts(const AnnouncedStation& station, TextRange where) {
        for (const auto& text : station.amounts) {
            if (text.empty())
                continue;
            const auto amounts = parse_amounts(text);
            if (!amounts)
                return ask(where, {amounts.error().sentence, amounts.error().told});
            if (result_.format == Format::amrap && amounts->rounds())
                return ask(where, say("This list ends, but the workout is as many rounds as possible."));
            if (draft_.repeats && result_.format != Format::intervals && amounts->rounds() &&
                *amounts->rounds() != *draft_.repeats)
                return ask(where, say("This list is for %1 rounds, but the workout has %2.", *amounts->rounds(),
                                      *draft_.repeats));
        }
    }

    void finish_loads(const DraftStation& draft, AnnouncedStation& station) {
        if (draft.loads.empty())
            return;
        const auto texts = by_division(draft.loads, draft.load_range);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            auto load = number(texts[i]);
            if (load && draft.pounds) {
                const double kilograms = std::round(*load * kilograms_per_pound * 10) / 10;
                if (i == 0 || texts[i] != texts[i - 1])
                    mark(draft.load_range, MarkKind::converted, say("%1 lb are %2 kg.", *load, kilograms));
                load = kilograms;
            }
            if (load && *load > most_load) {
                ask(draft.load_range, say("A load must be no more than %1 kg.", most_load));
                load.reset();
            }
            station.loads[i] = load;
        }
    }

    void finish_format() {
        if (draft_.tokens.empty() || draft_.stations.empty())
            return;
        const bool intervals = result_.format == Format::intervals;
        if (!result_.format)
            ask(whole(draft_),
                say("It does not say whether this is for time, as many rounds as possible, or intervals."));
        if (!intervals && !result_.cap)
            ask(whole(draft_), say("It does not say the cap."));
        if (result_.team > 1 && !result_.at_once) {
            result_.at_once = 1;
            mark(draft_.team_range.value_or(whole(draft_)), MarkKind::taken,
                 say("It does not say how many work at a time: one is taken."));
        }
        if (result_.at_once && *result_.at_once > result_.team)
            ask(whole(draft_), say("More people work at a time than there are in a team."));
        if (intervals && result_.stations.size() > 1 && !result_.in_turn)
            ask(draft_.window_range.value_or(whole(draft_)),
                say("It does not say whether a window holds one station, in turn, or all."));
        if (!intervals && result_.scoring && result_.scoring != Scoring::total)
            ask(whole(draft_), say("Only intervals have windows to score."));
    }

    Draft& draft_;
    Announcement& result_;
    bool scheme_used_ = false;
};

} // namespace

void finish(Draft& draft) { Finisher{draft}.finish(); }

} // namespace pacecells
