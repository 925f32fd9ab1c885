// Puts the people who start onto the sheet Results, by name: heat and lane as values, in the order of the heats. What is
// there for a person stays with that person, and whoever has a result stays in the heat and lane of that result.
#include "event_cells.h"

#include "pacecells/day.h"
#include "pacecells/words.h"

#include <algorithm>
#include <vector>

namespace pacecells {

namespace {

struct Starter {
    std::string name;
    double heat;
    double lane;
    double later; // than the heat, on a machine that is shared; a time
};

enum HeatColumn : sal_Int32 { heat_column, lane_column, start_column, name_column, judge_column, later_column };

std::vector<Starter> starters(const EventCells& event) {
    std::vector<Starter> all;
    std::size_t people = 0;
    const auto names = rows_by_name(event.values("roster_name"));
    const auto lanes = event.find("roster_lane").is() ? event.texts("roster_lane") : std::vector<std::string>();
    for (const auto& row : event.values("heat_list")) {
        Starter starter{text_of(row[name_column]), 0, 0, 0};
        if (starter.name.empty())
            continue;
        if (!(row[heat_column] >>= starter.heat) || !(row[lane_column] >>= starter.lane))
            throw Refusal{tr("The sheet Heats gives %1 no heat and lane. Correct that there first.", starter.name)};
        if (row.getLength() > later_column)
            row[later_column] >>= starter.later;
        ++people;
        if (!all.empty() && all.back().heat == starter.heat && all.back().lane == starter.lane)
            continue; // the partners of a team have one result
        if (const auto person = names.find(fold_name(starter.name)); person != names.end() && !lanes.empty())
            if (const auto& lane = lanes[static_cast<std::size_t>(person->second.front())]; !lane.empty())
                starter.name = lane;
        all.push_back(std::move(starter));
    }
    std::size_t who_start = 0;
    const auto plans = event.texts("roster_plan");
    const auto on_roster = event.texts("roster_name");
    for (std::size_t row = 0; row < on_roster.size(); ++row)
        who_start += !on_roster[row].empty() && starts_today(plans[row]);
    if (people != who_start)
        throw Refusal{tr("The sheet Heats lists %1 people and %2 start. Correct the workout and the roster first.",
                         std::to_string(people), std::to_string(who_start))};
    if (all.empty())
        throw Refusal{tr("Nobody starts: the roster is empty, or everybody's plan is not today.")};
    return all;
}

// Two people of one name cannot be told apart by name.
void refuse_twice(const Rows& names, ShownText sentence) {
    for (const auto& [key, rows] : rows_by_name(names))
        if (rows.size() > 1)
            throw Refusal{tr(sentence, text_of(names[rows.front()][0]))};
}

class StartList {
  public:
    explicit StartList(const EventCells& event) : event_(event), names_(event.values("results_name")) {
        refuse_twice(event.values("roster_name"),
                     "%1 is on the roster twice. Add a letter to one of the names, so that results stay with one.");
        refuse_twice(names_, "%1 is on the sheet Results twice. Clear one of the rows.");
        rows_ = rows_by_name(names_);
        for (const auto* name : {"results_partial", "results_finish", "results_left", "results_tiebreak", "results_out",
                                 "results_clocks", "results_stamps"})
            typed_.push_back(event.values(name));
    }

    std::string put(const std::vector<Starter>& starters) {
        const auto names = event_.at("results_name");
        const auto heats = event_.at("results_heat");
        const auto lanes = event_.at("results_lane");
        const auto later = column_by_key(event_.at("results"), "offset");
        NamedRows gone = rows_;
        for (const auto& starter : starters)
            gone.erase(fold_name(starter.name));
        std::size_t kept = 0;
        for (const auto& [key, rows] : gone) {
            if (has_result(rows.front())) {
                ++kept;
                continue;
            }
            for (const auto& range : {names, heats, lanes, later})
                if (range.is())
                    put_blank(range, 0, rows.front());
            freed_.push_back(rows.front());
        }
        std::size_t added = 0;
        for (const auto& starter : starters) {
            auto row = row_of(starter.name);
            if (!row) {
                row = free_row();
                put_text(names, 0, *row, starter.name);
                ++added;
            } else if (has_result(*row)) {
                continue; // the result was made in that heat and lane
            }
            put_number(heats, 0, *row, starter.heat);
            put_number(lanes, 0, *row, starter.lane);
            if (later.is() && starter.later > 0)
                put_number(later, 0, *row, starter.later);
            else if (later.is())
                put_blank(later, 0, *row);
        }
        auto text = tr("Starting: %1. On the sheet Results: %2 new, %3 taken off.", std::to_string(starters.size()),
                       std::to_string(added), std::to_string(freed_.size()));
        if (kept > 0)
            text += " " + tr("Not starting, but kept for their results: %1.", std::to_string(kept));
        return text;
    }

  private:
    [[nodiscard]] bool has_result(sal_Int32 row) const {
        return std::ranges::any_of(typed_, [&](const Rows& values) {
            return std::any_of(values[row].begin(), values[row].end(), [](const auto& value) { return !blank(value); });
        });
    }

    [[nodiscard]] std::optional<sal_Int32> row_of(const std::string& name) const {
        const auto found = rows_.find(fold_name(name));
        return found == rows_.end() ? std::nullopt : std::optional(found->second.front());
    }

    // A row without a name and without anybody's result.
    sal_Int32 free_row() {
        while (next_ < names_.getLength() && (has_result(next_) || (!blank(names_[next_][0]) && !freed(next_))))
            ++next_;
        if (next_ == names_.getLength())
            throw Refusal{tr("The sheet Results has no free row left.")};
        return next_++;
    }
    [[nodiscard]] bool freed(sal_Int32 row) const { return std::ranges::find(freed_, row) != freed_.end(); }

    const EventCells& event_;
    Rows names_;
    NamedRows rows_;
    std::vector<Rows> typed_;
    std::vector<sal_Int32> freed_;
    sal_Int32 next_ = 0;
};

void start_list(Context& context) {
    const EventCells event(context.document());
    const auto all = starters(event);
    StartList list(event);
    Undo undo(event.document(), tr("Start list"));
    const auto said = list.put(all);
    undo.done();
    context.say(said);
}

const Command command{"start-list", start_list};

} // namespace

} // namespace pacecells
