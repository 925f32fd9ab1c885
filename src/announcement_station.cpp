// One station of an announcement: amounts, unit, movement, loads, in the order in which people write them.
#include "announcement_draft.h"

#include "pacecells/text.h"

#include <utility>

namespace pacecells {

namespace {

class StationReader {
  public:
    StationReader(Draft& draft, std::size_t from, std::size_t end) : draft_(draft), from_(from), end_(end) {}

    void read() {
        station_.range = draft_.range(from_, end_);
        for (std::size_t at = from_; at < end_;)
            at = read_one(at);
        end_movement();
        if (!next_division_.empty()) // no number followed
            draft_.take(division_at_, division_at_ + 1, ReadAs::not_understood);
        const bool attaches = station_.movement.empty() && station_.unit.empty() && !draft_.stations.empty() &&
                              !draft_.stations.back().rest;
        if (attaches && station_.amounts.empty() && !station_.loads.empty())
            return attach_loads();
        if (attaches && !station_.amounts.empty() && !station_.amounts.front().division.empty() &&
            station_.loads.empty())
            return attach_amounts();
        if (station_.movement.empty() && station_.unit.empty()) {
            leave();
            return;
        }
        station_.when = draft_.when;
        station_.afterthought = draft_.sentence_ended && !draft_.stations.empty();
        draft_.when = When::every;
        draft_.stations.push_back(std::move(station_));
    }

  private:
    Tokens& tokens() { return draft_.tokens; }
    std::optional<Phrase> phrase(std::size_t at, std::string_view list) { return phrase_at(tokens(), at, end_, list); }
    // Numbers alone are no station.
    void leave() {
        for (std::size_t at = from_; at < end_; ++at)
            if (tokens()[at].kind != Token::Kind::mark)
                tokens()[at].as = ReadAs::not_understood;
    }
    void attach_loads() {
        auto& last = draft_.stations.back();
        last.loads.insert(last.loads.end(), station_.loads.begin(), station_.loads.end());
        last.pounds = last.pounds || station_.pounds;
        last.load_range =
            last.load_range.to == 0 ? station_.load_range : TextRange{last.load_range.from, station_.load_range.to};
    }
    void attach_amounts() {
        auto& last = draft_.stations.back();
        last.amounts.insert(last.amounts.end(), station_.amounts.begin(), station_.amounts.end());
        last.amount_range.to = station_.amount_range.to;
    }

    std::size_t read_one(std::size_t at) {
        if (tokens()[at].kind == Token::Kind::mark) {
            wants_load_ = wants_load_ || tokens()[at].is("@");
            bracketed_ = bracketed_ || tokens()[at].is("(");
            draft_.take(at, at + 1, ReadAs::punctuation);
            return at + 1;
        }
        if (tokens()[at].kind == Token::Kind::number)
            return read_group(at);
        if (tokens()[at].kind == Token::Kind::clock)
            return read_time(at);
        if (const auto division = phrase(at, "division"); division && names_division(at, *division))
            return read_division(at, *division);
        if (const auto key = phrase(at, "key"); key && key->key == "side") {
            draft_.take(at, key->end, ReadAs::movement);
            add_movement(at, key->end);
            draft_.mark(draft_.range(at, key->end), MarkKind::asked,
                        say("For each side: is the number for one side or for both?"));
            return key->end;
        } else if (key && key->key == "max" && station_.amounts.empty()) {
            station_.most = true;
            draft_.take(at, key->end, ReadAs::amount);
            return key->end;
        }
        if (const auto unit = phrase(at, "unit"); unit && takes_unit(*unit)) {
            station_.unit = unit->key;
            draft_.take(at, unit->end, ReadAs::unit);
            return unit->end;
        }
        if (tokens()[at].word == "x") { // "6 x sandbags"
            draft_.take(at, at + 1, ReadAs::filler);
            return at + 1;
        }
        if (const auto filler = phrase(at, "filler"); filler && (movement_end_ != at || movement_end_ == 0)) {
            draft_.take(at, filler->end, ReadAs::filler);
            return filler->end;
        }
        station_.joined = station_.joined || is_phrase(tokens(), at, end_, "filler", "and");
        add_movement(at, at + 1);
        return at + 1;
    }

    // A unit apart from its number: "21-15-9: cal row", "max reps of".
    bool takes_unit(const Phrase& unit) const {
        return station_.unit.empty() && (unit.key == "cal" || (unit.key == "rep" && movement_end_ == 0));
    }

    std::size_t read_time(std::size_t at) {
        if (station_.amounts.empty()) {
            station_.amounts.push_back({number_text(tokens()[at].value), {}});
            station_.unit = "s";
            station_.amount_range = draft_.range(at, at + 1);
            draft_.take(at, at + 1, ReadAs::amount);
        } else {
            tokens()[at].as = ReadAs::not_understood;
        }
        return at + 1;
    }

    // "40 kg men" or "40 kg (men)".
    bool behind_group(std::size_t at, std::size_t end) const {
        const auto& all = draft_.tokens;
        return last_ && (group_end_ == at ||
                         (group_end_ + 1 == at && all[group_end_].is("(") && end < end_ && all[end].is(")")));
    }
    // A letter does where it is behind a unit or before a number: "40 kg m / 30 kg w", "m: 40 kg".
    bool names_division(std::size_t at, const Phrase& division) const {
        const auto& all = draft_.tokens;
        if (all[at].word.size() > 1)
            return true;
        if (behind_group(at, division.end))
            return all[group_end_ - 1].kind == Token::Kind::word;
        const bool marked = division.end < end_ && (all[division.end].is(":") || all[division.end].is("="));
        const std::size_t next = marked ? division.end + 1 : division.end;
        return next < end_ && all[next].kind == Token::Kind::number;
    }

    std::size_t read_division(std::size_t at, const Phrase& division) {
        draft_.take(at, division.end, ReadAs::division);
        auto* const last = last_ == nullptr || last_->empty() ? nullptr : &last_->back();
        const auto key = draft_.division(at, division);
        const bool behind = last && last->division.empty() && behind_group(at, division.end);
        if (behind && group_size_ > 1) // "12/10 cal men" says nothing about the 12
            draft_.take(at, division.end, ReadAs::not_understood);
        else if (behind)
            last->division = key;
        else {
            next_division_ = key;
            division_at_ = at;
        }
        return division.end;
    }

    std::size_t read_group(std::size_t at) {
        auto group = group_at(tokens(), at, end_);
        std::size_t next = group->end;
        if (several(at))
            return read_several(at);
        if (next + 1 < end_ && tokens()[next].is("-") && phrase(next + 1, "unit"))
            ++next;                                           // "400-m run"
        if (group->values.size() == 1 && in_brackets(next)) { // "12 (10) cal"
            group->values.push_back(number_text(tokens()[next + 1].value));
            next += 3;
        }
        const auto unit = phrase(next, "unit");
        const std::string_view key = unit ? unit->key : "";
        const bool height = key == "cm" || key == "in" || (key == "s" && tokens()[next].word == "\"");
        if (height) {
            add_movement(at, unit->end);
            return unit->end;
        }
        const std::size_t end = unit ? unit->end : next;
        if (key == "percent" || key == "h") {
            draft_.take(at, end, ReadAs::not_understood);
            return end;
        }
        const bool load = key == "kg" || key == "lb";
        if (load)
            return add_load(*group, at, end, key == "lb");
        const bool first =
            station_.amounts.empty() || (last_ == &station_.amounts && divided(at) && !loads_by_division(at));
        if (unit ? first : station_.amounts.empty() && !wants_load_)
            return add_amount(*group, at, next, end, key);
        if (first && !wants_load_)
            return add_amount(*group, at, next, end, key);
        // "(40/30)", "(40 men)", but not "(3 dips)".
        const bool alone = end >= end_ || tokens()[end].kind == Token::Kind::mark || phrase(end, "division");
        const bool apart = (wants_load_ || (bracketed_ && alone)) && (station_.unit.empty() || station_.unit == "rep");
        if (!unit && apart && (station_.loads.empty() || divided_loads(at)) && !group->listed) {
            draft_.mark(draft_.range(at, end), MarkKind::taken, say("It does not say kg or lb: kg is taken."));
            return add_load(*group, at, end, false);
        }
        draft_.take(at, end, ReadAs::not_understood);
        return end;
    }
    bool in_brackets(std::size_t at) {
        return at + 3 < end_ && tokens()[at].is("(") && tokens()[at + 1].kind == Token::Kind::number &&
               tokens()[at + 2].is(")") && phrase(at + 3, "unit");
    }
    // "5 cleans (men 45, women 30)": all have the 5, so the numbers of the divisions are something else. Of one division
    // it could be its own reps, and "10 burpees (men 10, women 8)" says the reps again.
    bool loads_by_division(std::size_t at) {
        const auto& amount = station_.amounts.front();
        if (!bracketed_ || movement_end_ == 0 || next_division_.empty() || !amount.division.empty() ||
            amount.text == number_text(tokens()[at].value) || !(station_.unit.empty() || station_.unit == "rep"))
            return false;
        for (std::size_t next = at + 1; next < end_ && !tokens()[next].is(")"); ++next)
            if (phrase(next, "division"))
                return true;
        return false;
    }
    // "12 cal / 10 cal", "12 men, 10 women": after a slash or where divisions are named.
    bool divided(std::size_t at) const {
        return (at > from_ && draft_.tokens[at - 1].is("/")) || !next_division_.empty() ||
               (!station_.amounts.empty() && !station_.amounts.back().division.empty());
    }

    std::size_t add_amount(const Group& group, std::size_t at, std::size_t number_end, std::size_t end,
                           std::string_view unit) {
        const bool other =
            !station_.amounts.empty() && !unit.empty() && !station_.unit.empty() && unit != station_.unit;
        if (other) {
            draft_.take(at, end, ReadAs::not_understood);
            return end;
        }
        for (const auto& value : group.values)
            station_.amounts.push_back({value, std::exchange(next_division_, {})});
        station_.amount_range = station_.amount_range.to == 0
                                    ? draft_.range(at, number_end)
                                    : TextRange{station_.amount_range.from, draft_.range(at, number_end).to};
        if (station_.unit.empty())
            station_.unit = unit;
        draft_.take(at, number_end, ReadAs::amount);
        draft_.take(number_end, end, ReadAs::unit);
        last_ = &station_.amounts;
        group_end_ = end;
        group_size_ = group.values.size();
        return end;
    }

    std::size_t add_load(const Group& group, std::size_t at, std::size_t end, bool pounds) {
        const bool other = group.listed || (!station_.loads.empty() && pounds != station_.pounds);
        if (other || (!station_.loads.empty() && !divided_loads(at))) {
            draft_.take(at, end, ReadAs::not_understood);
            return end;
        }
        for (const auto& value : group.values)
            station_.loads.push_back({value, std::exchange(next_division_, {})});
        station_.pounds = pounds;
        station_.load_range = station_.load_range.to == 0
                                  ? draft_.range(at, end)
                                  : TextRange{station_.load_range.from, draft_.range(at, end).to};
        draft_.take(at, end, ReadAs::load);
        last_ = &station_.loads;
        group_end_ = end;
        group_size_ = group.values.size();
        return end;
    }
    bool divided_loads(std::size_t at) const {
        return draft_.tokens[at - 1].is("/") || !next_division_.empty() || !station_.loads.back().division.empty();
    }

    // "2 x 16 kg", "2x15/2x10 kg": the sums. Any other product is not understood.
    std::size_t read_several(std::size_t at) {
        Group sums;
        sums.end = at;
        double times = 1;
        for (std::size_t next = at; next < end_ && tokens()[next].kind == Token::Kind::number;) {
            if (several(next)) {
                times = tokens()[next].value;
                next += 2;
            }
            sums.values.push_back(number_text(times * tokens()[next].value));
            sums.end = next + 1;
            next += 2;
            if (sums.end >= end_ || !tokens()[sums.end].is("/"))
                break;
        }
        const auto unit = phrase(sums.end, "unit");
        const std::size_t end = unit ? unit->end : sums.end;
        if (!unit || (unit->key != "kg" && unit->key != "lb")) {
            draft_.take(at, end, ReadAs::not_understood);
            return end;
        }
        draft_.mark(draft_.range(at, end), MarkKind::taken, say("This is taken as the sum of the weights."));
        return add_load(sums, at, end, unit->key == "lb");
    }
    // A number, x, and another number.
    bool several(std::size_t at) const {
        const auto& all = draft_.tokens;
        return at + 2 < end_ && all[at].kind == Token::Kind::number && all[at + 1].word == "x" &&
               all[at + 2].kind == Token::Kind::number;
    }

    void add_movement(std::size_t from, std::size_t end) {
        const auto range = draft_.range(from, end);
        const auto text = draft_.text.substr(range.from, range.to - range.from);
        if (station_.movement != text) { // "12 cal row / 10 cal row"
            station_.movement += station_.movement.empty() ? "" : " ";
            station_.movement += text;
        }
        draft_.take(from, end, ReadAs::movement);
        movement_end_ = end;
    }
    // Filler at the end is no part of the name.
    void end_movement() {
        for (std::size_t at = movement_end_; at > from_ && at <= end_ && !station_.movement.empty(); --at) {
            const auto& token = tokens()[at - 1];
            const std::string_view text = draft_.text.substr(token.range.from, token.range.to - token.range.from);
            const auto filler = phrase_at(tokens(), at - 1, at, "filler");
            if (!filler || token.as != ReadAs::movement || !station_.movement.ends_with(" " + std::string(text)))
                return;
            tokens()[at - 1].as = ReadAs::filler;
            station_.movement.resize(station_.movement.size() - text.size() - 1);
        }
    }

    Draft& draft_;
    std::size_t from_;
    std::size_t end_;
    DraftStation station_;
    std::vector<DraftValue>* last_ = nullptr; // where the last number went
    std::size_t group_end_ = 0;
    std::size_t group_size_ = 0;
    std::size_t movement_end_ = 0;
    std::string_view next_division_;
    std::size_t division_at_ = 0;
    bool wants_load_ = false; // after @
    bool bracketed_ = false;  // after (
};

} // namespace

void read_station(Draft& draft, std::size_t from, std::size_t end) { StationReader{draft, from, end}.read(); }

} // namespace pacecells
