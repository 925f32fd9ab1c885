#include "event_results.h"

#include "logbook_tests.h"
#include "wording.h"

#include "pacecells/athlete.h"
#include "pacecells/athlete_plan.h"
#include "pacecells/clock.h"
#include "pacecells/day.h"
#include "pacecells/ergometer.h"
#include "pacecells/outcome.h"
#include "pacecells/typed_result.h"
#include "pacecells/words.h"
#include "pacecells/workout.h"

#include <algorithm>
#include <map>
#include <set>

namespace pacecells {

namespace {

LogbookValue text_value(std::string text) { return {std::move(text), std::nullopt}; }
LogbookValue number_value(std::optional<double> number) { return {{}, number}; }

// The columns of the sheet Results, one below the other.
struct Columns {
    explicit Columns(const EventCells& event)
        : names(event.texts("results_name")), divisions(event.texts("results_division")),
          results(event.texts("results_result")), withdrew(event.texts("results_out")),
          partials(event.texts("results_partial")), scores(event.values("results_score")),
          finishes(event.values("results_finish")), left(event.values("results_left")),
          places(event.values("results_place")), clocks(event.values("results_clocks")) {
        erg_times.resize(names.size());
        const auto all = event.at("results");
        const auto where = address(all);
        const auto keys = values_of(all->getCellRangeByPosition(0, 0, where.EndColumn - where.StartColumn, 0));
        for (sal_Int32 i = 0; i < keys[0].getLength(); ++i) { // older events have no such column
            if (text_of(keys[0][i]) != "erg_times")
                continue;
            constexpr sal_Int32 first_row = 2; // below keys and headings
            const auto last = first_row + static_cast<sal_Int32>(names.size()) - 1;
            const auto cells = values_of(all->getCellRangeByPosition(i, first_row, i, last));
            for (std::size_t row = 0; row < names.size(); ++row)
                erg_times[row] = text_of(cells[static_cast<sal_Int32>(row)][0]);
        }
    }

    std::vector<std::string> names, divisions, results, withdrew, partials, erg_times;
    Rows scores, finishes, left, places, clocks;
};

std::optional<double> number_in(const Rows& rows, sal_Int32 row, sal_Int32 column = 0) {
    double number = 0;
    return (rows[row][column] >>= number) ? std::optional(number) : std::nullopt;
}

// "2:48 5:37 8:25"
std::string clocks_text(const Rows& clocks, sal_Int32 row) {
    std::string all;
    for (sal_Int32 k = 0; k < clocks[row].getLength(); ++k)
        if (const auto clock = number_in(clocks, row, k))
            if (const auto text = clock_text(Seconds{*clock * seconds_per_day}))
                all += (all.empty() ? "" : " ") + *text;
    return all;
}

// "1:05 1:08 1:11"
std::vector<Seconds> times_in(const std::string& text, const std::string& name) {
    std::vector<Seconds> times;
    for (std::size_t from = 0; from < text.size();) {
        const auto to = std::min(text.find_first_of(" ,;", from), text.size());
        if (to > from) {
            const auto time = parse_clock(std::string_view(text).substr(from, to - from));
            if (!time || !(time->value() > 0))
                throw Refusal{
                    tr("Sheet Results, %1: the ergometer times %2 cannot be read. Write them such as 1:05 1:08 "
                       "1:11.",
                       name, text)};
            times.push_back(*time);
        }
        from = to + 1;
    }
    return times;
}

std::string clocks_text(const std::vector<Seconds>& times) {
    std::string all;
    for (const auto time : times)
        if (const auto text = clock_text(time))
            all += (all.empty() ? "" : " ") + *text;
    return all;
}

std::optional<double> in_units(const Score& score, Format format) {
    if (format != Format::time)
        return score.reps;
    return score.time ? std::optional(score.time->value()) : std::nullopt;
}

class Reader {
  public:
    explicit Reader(const EventCells& event)
        : event_(event), columns_(event), tests_(table_of(event.values("tests"))),
          keys_(table_of(event.values("roster_keys"))), people_(event.values("roster_people")),
          on_roster_(rows_by_name(event.values("roster_name"))), names_(event.texts("roster_name")),
          plans_(event.texts("roster_plan")), groups_(event.texts("roster_group")),
          answers_(event.texts("roster_answer")) {
        auto workout = read_workout(table_of(event.values("workout")));
        if (!workout)
            throw Refusal{tr("Sheet Workout: %1", tr(workout.error()))};
        workout_ = *std::move(workout);
        if (workout_.settings.team < 2 || !event.find("roster_lane").is())
            return;
        const auto lanes = event.texts("roster_lane");
        const auto teams = event.texts("roster_team");
        for (const auto& lane : lanes)
            if (!lane.empty())
                lanes_.insert(fold_name(lane));
        for (std::size_t first = 0; first < lanes.size(); ++first)
            if (!lanes[first].empty() && !teams[first].empty())
                for (std::size_t row = 0; row < teams.size(); ++row)
                    if (same_name(teams[row], teams[first]) && !names_[row].empty() && starts_today(plans_[row]))
                        teams_[fold_name(lanes[first])].push_back(static_cast<sal_Int32>(row));
    }

    EventResults read() {
        EventResults all;
        const auto& settings = workout_.settings;
        if (!settings.date)
            throw Refusal{tr("Give the date of the event on the sheet Workout first: the logbook knows an event by "
                             "date and title.")};
        all.date = *settings.date;
        const auto line = workout_line(workout_, 0);
        all.title = settings.title.empty() ? line : settings.title;
        for (const auto& [key, rows] : rows_by_name(event_.values("results_name"))) {
            const auto& name = columns_.names[static_cast<std::size_t>(rows.front())];
            if (rows.size() > 1)
                throw Refusal{tr("%1 is on the sheet Results twice. Give one of them another name first.", name)};
        }
        for (sal_Int32 row = 0; row < columns_.clocks.getLength(); ++row)
            if (is_sound(row) && has_result(row))
                add_people(row, all);
        if (all.people.empty())
            throw Refusal{tr("Nobody has a result yet.")};
        all.event = {
            {"date", number_value(all.date)},
            {"event", text_value(all.title)},
            {"format", text_value(event_.word("list_format", static_cast<std::size_t>(settings.format)))},
            {"cap", number_value(settings.cap.value() > 0 ? std::optional(settings.cap.value() / seconds_per_day)
                                                          : std::nullopt)},
            {"workout", text_value(line)},
            {"people", number_value(static_cast<double>(all.people.size()))}};
        for (const auto& station : workout_.stations)
            if (!station.movement.empty() && !machine_of(station.unit))
                all.movements.push_back(movement(station));
        return all;
    }

  private:
    bool has_result(sal_Int32 row) const {
        const auto place = static_cast<std::size_t>(row);
        return !columns_.names[place].empty() &&
               (!columns_.results[place].empty() || number_in(columns_.clocks, row, 0).has_value());
    }

    // True, or a sentence: no result is lost in silence, or kept of nobody, or in a text that is none.
    bool is_sound(sal_Int32 row) const {
        const auto place = static_cast<std::size_t>(row);
        const auto& name = columns_.names[place];
        const auto key = fold_name(name);
        const bool typed = has_result(row) || !columns_.partials[place].empty() || number_in(columns_.finishes, row) ||
                           number_in(columns_.left, row);
        if (name.empty() || !typed)
            return true;
        const bool known = lanes_.empty() ? on_roster_.contains(key) : lanes_.contains(key);
        if (!known && (workout_.settings.team > 1 || !has_result(row)))
            throw Refusal{tr("%1 has a result on the sheet Results, and is neither a person nor a team on the roster. "
                             "Correct the roster or that name first.",
                             name)};
        if (const auto error = known && columns_.withdrew[place].empty() ? unreadable(row) : std::nullopt)
            throw Refusal{tr("Sheet Results, %1: %2", name, tr(*error))};
        return true;
    }

    // Why what is typed in a row is no result.
    std::optional<Error> unreadable(sal_Int32 row) const {
        const auto place = static_cast<std::size_t>(row);
        const auto division = workout_.division(columns_.divisions[place]);
        std::vector<Seconds> clocks;
        for (sal_Int32 k = 0; k < columns_.clocks[row].getLength(); ++k)
            if (const auto clock = number_in(columns_.clocks, row, k))
                clocks.push_back(Seconds{*clock * seconds_per_day});
        TypedResult typed{clocks, columns_.partials[place], {}, number_in(columns_.left, row)};
        if (const auto finish = number_in(columns_.finishes, row))
            typed.finish = Seconds{*finish * seconds_per_day};
        const auto read = read_result(workout_, division.value_or(workout_.divisions.size()), typed);
        return read ? std::nullopt : std::optional{read.error()};
    }

    // The result of a team is that of each of its people; what one of them can hold it does not say.
    void add_people(sal_Int32 row, EventResults& all) const {
        const auto& name = columns_.names[static_cast<std::size_t>(row)];
        if (const auto team = teams_.find(fold_name(name)); team != teams_.end()) {
            for (const auto one : team->second)
                all.people.push_back(person(row, all, names_[static_cast<std::size_t>(one)], true));
            return;
        }
        all.people.push_back(person(row, all, name, false));
    }

    PersonResult person(sal_Int32 row, const EventResults& event, const std::string& name, bool in_team) const {
        const auto place = static_cast<std::size_t>(row);
        const bool timed = workout_.settings.format == Format::time;
        PersonResult person{name, columns_.divisions[place], {}, {}};
        auto score = number_in(columns_.scores, row);
        if (score && timed)
            *score *= seconds_per_day;
        const auto erg_times = times_in(columns_.erg_times[place], person.name);
        Plan plan;
        Outcome outcome;
        std::string day_plan;
        std::string answer;
        if (const auto found = on_roster_.find(fold_name(person.name)); found != on_roster_.end()) {
            const auto on_roster = static_cast<std::size_t>(found->second.front());
            person.group = groups_[on_roster];
            day_plan = plans_[on_roster];
            answer = answers_[on_roster];
            if (const auto athlete =
                    read_athlete(workout_, tests_, keys_, table_of(Rows(&people_[found->second.front()], 1)))) {
                plan = plan_for(workout_, *athlete);
                if (!in_team)
                    outcome = outcome_of(workout_, *athlete, came_of(row, answer, erg_times));
            }
        } else {
            person.division.clear(); // the sheet says there that the name is not on the roster
        }
        const auto forecast = [&](const Score& one) {
            return number_value(plan.planned ? in_units(one, workout_.settings.format) : std::nullopt);
        };
        const auto* station = plan.main ? &workout_.stations[*plan.main] : nullptr;
        const auto machine = station ? machine_of(station->unit) : std::nullopt;
        person.row = {
            {"name", text_value(person.name)},
            {"date", number_value(event.date)},
            {"event", text_value(event.title)},
            {"division", text_value(person.division)},
            {"plan", text_value(day_plan)},
            {"result", text_value(columns_.results[place])},
            {"score", number_value(score)},
            {"place", number_value(number_in(columns_.places, row))},
            {"goal", text_value(plan.goal ? plan.goal->goal.score.text : "")},
            {"low", forecast(plan.low)},
            {"planned", forecast(plan.expected)},
            {"high", forecast(plan.high)},
            {"clocks", text_value(clocks_text(columns_.clocks, row))},
            {"machine",
             text_value(machine ? std::string(words_of(WordList::machine)[static_cast<std::size_t>(*machine)].key)
                                : "")},
            {"erg_cal", number_value(outcome.calories ? std::optional(outcome.calories->value()) : std::nullopt)},
            {"erg_times", text_value(in_team ? std::string() : clocks_text(erg_times))},
            {"answer", text_value(answer)},
            {"held", number_value(held_rate(outcome))},
            {"share", number_value(outcome.held ? std::optional(outcome.share) : std::nullopt)},
            {"ratio", number_value(outcome.observation ? std::optional(outcome.observation->ratio) : std::nullopt)},
            {"ratio_sd", number_value(outcome.held ? std::optional(outcome.held->error) : std::nullopt)}};
        return person;
    }

    // Who withdrew says nothing about what can be held.
    CameOf came_of(sal_Int32 row, const std::string& answer, const std::vector<Seconds>& erg_times) const {
        CameOf came;
        if (!columns_.withdrew[static_cast<std::size_t>(row)].empty())
            return came;
        came.ergometer_times = erg_times;
        came.could_go_on = find_word(WordList::answer, answer) == static_cast<std::size_t>(PracticeAnswer::more_left);
        if (workout_.settings.format != Format::time)
            came.reps = number_in(columns_.scores, row);
        else if (const auto left = number_in(columns_.left, row); left && *left > 0)
            came.reps_left = left;
        else if (const auto finish = number_in(columns_.finishes, row); finish && *finish > 0)
            came.time = Seconds{*finish * seconds_per_day};
        return came;
    }

    static std::optional<double> held_rate(const Outcome& outcome) {
        const auto rate =
            outcome.held ? calorie_rate(outcome.held->power) : Result<CaloriesPerHour>{CaloriesPerHour{0}};
        return outcome.held && rate ? std::optional(rate->value()) : std::nullopt;
    }

    LogbookRow movement(const Station& station) const {
        const auto usual = [](double value) { return number_value(value > 0 ? std::optional(value) : std::nullopt); };
        return {{"name", text_value(station.movement)},
                {"unit", text_value(event_.word("list_units", static_cast<std::size_t>(station.unit)))},
                {"rep_s", usual(station.usual_rate)},
                {"handling_s", usual(station.handling.value())},
                {"grip", text_value(station.grip ? event_.word("list_yes", 0) : "")},
                {"away_share", number_value(station.away_share)},
                {"longest", number_value(station.longest ? std::optional(station.longest->value()) : std::nullopt)}};
    }

    const EventCells& event_;
    Columns columns_;
    Table tests_;
    Table keys_;
    Rows people_;
    NamedRows on_roster_;
    std::set<std::string> lanes_;                         // of a workout for teams: what may stand on Results
    std::map<std::string, std::vector<sal_Int32>> teams_; // by what stands in the lane: rows of those who start
    std::vector<std::string> names_, plans_, groups_, answers_;
    Workout workout_;
};

} // namespace

EventResults results_of(const EventCells& event) { return Reader(event).read(); }

} // namespace pacecells
