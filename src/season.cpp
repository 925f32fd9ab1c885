#include "pacecells/season.h"

#include "pacecells/words.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace pacecells {

namespace {

class Standings {
  public:
    Standings(std::span<const SeasonEvent> events, const SeasonRules& rules) : events_(events), rules_(rules) {}

    Result<std::vector<SeasonRow>> made() {
        for (std::size_t e = 0; e < events_.size(); ++e)
            if (auto error = place_in(e))
                return *std::move(error);
        for (auto& row : rows_)
            count(row);
        rank();
        return std::move(rows_);
    }

  private:
    std::optional<Error> place_in(std::size_t e) {
        const auto& event = events_[e];
        std::vector<std::optional<double>> scores;
        std::vector<std::string> divisions;
        std::vector<std::optional<double>> tiebreaks;
        for (const auto& result : event.results) {
            scores.emplace_back(result.score);
            divisions.push_back(fold_name(result.division));
            tiebreaks.push_back(result.tiebreak);
        }
        const auto places =
            Places::in({.scores = scores, .order = event.order, .groups = divisions, .tiebreaks = tiebreaks});
        if (!places)
            return places.error();
        std::set<std::string> seen;
        for (std::size_t i = 0; i < event.results.size(); ++i) {
            const auto& result = event.results[i];
            const auto place = places->of({.score = result.score, .group = divisions[i], .tiebreak = result.tiebreak});
            if (!place)
                return place.error();
            if (!seen.insert(fold_name(result.name)).second)
                return out_of_domain("%1 has two results in one event.", quoted(result.name));
            auto& row = row_of(result.name);
            row.name = result.name;
            row.division = result.division;
            row.places[e] = *place;
            ++row.events;
            ++took_part_[{e, divisions[i]}];
        }
        division_order(event);
        return {};
    }

    void division_order(const SeasonEvent& event) {
        for (const auto& result : event.results)
            order_.try_emplace(fold_name(result.division), order_.size());
    }

    SeasonRow& row_of(const std::string& name) {
        const auto [known, fresh] = by_name_.try_emplace(fold_name(name), rows_.size());
        if (fresh) {
            rows_.push_back({.name = name, .division = {}, .places = {}, .counts = {}});
            rows_.back().places.resize(events_.size());
        }
        return rows_[known->second];
    }

    // Missed events, and which places are among the best.
    void count(SeasonRow& row) const {
        for (std::size_t e = 0; e < events_.size(); ++e) {
            const auto field = took_part_.find({e, fold_name(row.division)});
            if (row.places[e] || field == took_part_.end() || rules_.missed == Missed::nothing)
                continue;
            row.places[e] = rules_.missed == Missed::fixed ? rules_.fixed_place : field->second + 1;
        }
        std::vector<std::size_t> there;
        for (std::size_t e = 0; e < events_.size(); ++e)
            if (row.places[e])
                there.push_back(e);
        std::ranges::stable_sort(there, {}, [&](std::size_t e) { return *row.places[e]; });
        if (rules_.best > 0 && there.size() > static_cast<std::size_t>(rules_.best))
            there.resize(static_cast<std::size_t>(rules_.best));
        row.counts.assign(events_.size(), false);
        for (const auto e : there) {
            row.counts[e] = true;
            row.points += *row.places[e];
        }
    }

    // What a row is ranked by, less is better: results missing, points, the places that count from the best on.
    static std::vector<int> key_of(const SeasonRow& row) {
        std::vector<int> places;
        for (std::size_t e = 0; e < row.places.size(); ++e)
            if (row.counts[e])
                places.push_back(*row.places[e]);
        std::ranges::sort(places);
        std::vector<int> key{-static_cast<int>(places.size()), row.points};
        key.insert(key.end(), places.begin(), places.end());
        return key;
    }

    void rank() {
        std::ranges::sort(rows_, [&](const SeasonRow& a, const SeasonRow& b) {
            const auto of_a = order_.at(fold_name(a.division));
            const auto of_b = order_.at(fold_name(b.division));
            if (of_a != of_b)
                return of_a < of_b;
            const auto key_a = key_of(a);
            const auto key_b = key_of(b);
            return key_a != key_b ? key_a < key_b : fold_name(a.name) < fold_name(b.name);
        });
        int in_division = 0;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const bool first = i == 0 || !same_name(rows_[i].division, rows_[i - 1].division);
            in_division = first ? 1 : in_division + 1;
            const bool shared = !first && key_of(rows_[i]) == key_of(rows_[i - 1]);
            rows_[i].place = shared ? rows_[i - 1].place : in_division;
        }
    }

    std::span<const SeasonEvent> events_;
    const SeasonRules& rules_;
    std::vector<SeasonRow> rows_;
    std::map<std::string, std::size_t> by_name_;
    std::map<std::pair<std::size_t, std::string>, int> took_part_; // event and division: people
    std::map<std::string, std::size_t> order_;                     // of divisions
};

} // namespace

Result<std::vector<SeasonRow>> season(std::span<const SeasonEvent> events, const SeasonRules& rules) {
    if (rules.best < 0)
        return out_of_domain("The results that count must be 0 or more; got %1.", rules.best);
    if (rules.fixed_place < 1)
        return out_of_domain("The place of a missed event must be 1 or more; got %1.", rules.fixed_place);
    return Standings{events, rules}.made();
}

} // namespace pacecells
