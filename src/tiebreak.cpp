#include "pacecells/tiebreak.h"

#include "pacecells/names.h"

#include "announcement_tokens.h"

#include <algorithm>
#include <charconv>
#include <string>
#include <vector>

namespace pacecells {

namespace {

// "sandbag" and "sandbags", "sac" and "sacs": one is the other with an ending; "saecke" is no "sack", but shares enough.
bool alike(std::string_view a, std::string_view b) {
    constexpr std::size_t least = 3, ending = 2, enough = 6;
    const auto [end, _] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
    const auto same = static_cast<std::size_t>(end - a.begin());
    const auto [shorter, longer] = std::minmax({a.size(), b.size()});
    return same >= enough || (same >= least && same == shorter && longer - shorter <= ending);
}

class Reader {
  public:
    Reader(const Workout& workout, std::size_t division)
        : workout_(workout), division_(division), tokens_(tokens_of(workout.settings.tiebreak)),
          words_(plain_words(workout.settings.tiebreak)) {}

    std::optional<TieBreak> read() const {
        const auto station = named_station();
        if (!station && !says_round())
            return {}; // a station that is not of this workout is no end of a round
        if (const auto round = named_round())
            return in_workout({.round = *round, .station = station});
        if (const auto amount = number()) {
            if (const auto round = round_with(*amount, station))
                return in_workout({.round = *round, .station = station});
            return {};
        }
        const bool once = workout_.rounds(division_) == 1;
        return station && once ? std::optional(TieBreak{.round = 1, .station = station}) : std::nullopt;
    }

  private:
    const Amounts& amounts(std::size_t i) const { return workout_.stations[i].divisions[division_].amounts; }

    // The one whose movement shares most words with the sentence.
    std::optional<std::size_t> named_station() const {
        std::optional<std::size_t> found;
        long most = 0;
        for (std::size_t i = 0; i < workout_.stations.size(); ++i) {
            if (amounts(i).list.empty())
                continue;
            const auto shared =
                std::ranges::count_if(plain_words(workout_.stations[i].movement), [&](const auto& word) {
                    return std::ranges::any_of(words_, [&](const auto& said) { return alike(said, word); });
                });
            if (shared == most)
                found.reset(); // two are as near
            if (shared > most)
                found = i;
            most = std::max<long>(most, shared);
        }
        return found;
    }

    bool says_round() const {
        for (std::size_t at = 0; at < tokens_.size(); ++at)
            if (const auto word = phrase_at(tokens_, at, tokens_.size(), "key"); word && word->key == "rounds")
                return true;
        return false;
    }

    std::optional<double> number() const {
        const auto found = std::ranges::find(tokens_, Token::Kind::number, &Token::kind);
        return found == tokens_.end() ? std::nullopt : std::optional(found->value);
    }

    // "round 3", "third round"; a round of 8 is one by its amount.
    std::optional<int> named_round() const {
        for (std::size_t at = 0; at < tokens_.size(); ++at) {
            if (const auto ordinal = phrase_at(tokens_, at, tokens_.size(), "ordinal")) {
                int round = 0;
                std::from_chars(ordinal->key.data(), ordinal->key.data() + ordinal->key.size(), round);
                return round;
            }
            const auto word = phrase_at(tokens_, at, tokens_.size(), "key");
            const bool numbered = word && word->key == "rounds" && word->end < tokens_.size() &&
                                  tokens_[word->end].kind == Token::Kind::number;
            if (numbered)
                return static_cast<int>(tokens_[word->end].value);
        }
        return {};
    }

    // The only round in which a station, or the one named, has so many.
    std::optional<int> round_with(double amount, std::optional<std::size_t> station) const {
        std::optional<int> found;
        const int last = workout_.rounds(division_).value_or(most_plan_rounds);
        for (std::size_t i = 0; i < workout_.stations.size(); ++i) {
            if (amounts(i).list.empty() || (station && *station != i))
                continue;
            for (int k = 1; k <= last; ++k) {
                if (amounts(i).of_round(k) != amount)
                    continue;
                if (found && *found != k)
                    return {};
                found = k;
            }
        }
        return found;
    }

    std::optional<TieBreak> in_workout(const TieBreak& one) const {
        const auto rounds = workout_.rounds(division_);
        if (one.round < 1 || one.round > rounds.value_or(most_plan_rounds))
            return {};
        const bool there = !one.station || workout_.stations[*one.station].amount(division_, one.round, rounds) > 0;
        return there ? std::optional(one) : std::nullopt;
    }

    const Workout& workout_;
    std::size_t division_;
    Tokens tokens_;
    std::vector<std::string> words_;
};

} // namespace

std::optional<TieBreak> tiebreak_of(const Workout& workout, std::size_t division) {
    return Reader{workout, division}.read();
}

std::optional<Seconds> clock_of(const TieBreak& tiebreak, const GoalLine& line) {
    const auto index = static_cast<std::size_t>(tiebreak.round) - 1;
    if (index >= line.rounds.size())
        return {};
    const auto& round = line.rounds[index];
    if (tiebreak.station)
        return round.stations[*tiebreak.station];
    return round.whole ? std::optional(round.clock) : std::nullopt;
}

} // namespace pacecells
