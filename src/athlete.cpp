#include "pacecells/athlete.h"

#include "pacecells/clock.h"
#include "pacecells/team.h"
#include "pacecells/text.h"

#include "athlete_tests.h"
#include "check.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace pacecells {

namespace {

using Refusal = std::optional<Error>;

constexpr std::string_view roster_keys[] = {"name",    "division", "plan",  "group", "goal",      "answer", "minor",
                                            "consent", "twice",    "share", "team",  "team_plan", "pacing"};
constexpr double longest_time = 4.0 / 24; // of a goal, part of a day: beyond it a number is rounds

bool is_whole(double value) { return value == std::floor(value); }

class GoalReader {
  public:
    GoalReader(const Workout& workout, std::size_t division, Place place)
        : workout_(workout), division_(division), place_(place), rounds_(workout.rounds(division)) {}

    Result<TypedGoal> read(const TableCell& cell) const {
        if (const auto number = cell_number(cell)) {
            if (for_time() && *number > 0 && *number < longest_time)
                return time(Seconds{*number * seconds_per_day});
            return of_rounds(*number);
        }
        const std::string text = cell_text(cell);
        if (const auto clock = parse_clock(text)) {
            if (for_time())
                return time(*clock);
            return out_of_domain("%1: the goal is a time, but the workout is as many rounds as possible: give rounds "
                                 "such as 7, or 5+20.",
                                 place_);
        }
        if (const auto number = plain_number(text))
            return of_rounds(*number);
        if (workout_.settings.format == Format::intervals)
            return out_of_domain("%1: the goal of intervals is a number: windows that hold, or reps in each where they "
                                 "are as many as fit.",
                                 place_);
        const auto plus = text.find('+');
        const bool first_round = plus == std::string::npos; // a station alone
        const auto done = first_round ? 0 : plain_number(std::string_view{text}.substr(0, plus));
        if (!done || !is_whole(*done) || !(*done >= 0 && *done < most_plan_rounds))
            return not_understood(text);
        const auto after = trim(std::string_view{text}.substr(first_round ? 0 : plus + 1));
        if (const auto reps = first_round ? std::optional<double>{} : plain_number(after))
            return score(*done, *reps, text);
        const auto station = workout_.station(after);
        if (!station)
            return out_of_domain("%1: the goal %2 names no one station: write the station as it is in the workout.",
                                 place_, quoted(text));
        if (workout_.stations[*station].amount(division_, static_cast<int>(*done) + 1, rounds_) == 0)
            return out_of_domain("%1: the goal %2 names a station that is not part of that round.", place_,
                                 quoted(text));
        TypedGoal goal{.kind = TypedGoal::Kind::station, .rounds = *done, .station = *station};
        if (auto error = beyond(*done + 1))
            return *std::move(error);
        return goal;
    }

  private:
    bool for_time() const { return workout_.settings.format == Format::time; }

    // In intervals with a station of as many as fit the goal is its reps in each window.
    bool reps_of_windows() const {
        return workout_.settings.format == Format::intervals &&
               std::ranges::any_of(workout_.stations,
                                   [&](const Station& one) { return one.divisions[division_].amounts.most; });
    }
    Error not_understood(const std::string& text) const {
        return out_of_domain("%1: the goal %2 cannot be read: write rounds such as 7, a score such as 5+20, or a "
                             "station such as 5 + rows.",
                             place_, quoted(text));
    }
    Refusal beyond(double rounds) const {
        if (rounds_ && rounds > *rounds_)
            return out_of_domain("%1: the goal is beyond the %2 rounds of the workout.", place_, *rounds_);
        return {};
    }
    Result<TypedGoal> time(Seconds time) const {
        if (!(time.value() > 0 && time <= workout_.settings.cap))
            return out_of_domain("%1: the goal must be a time up to the cap.", place_);
        return TypedGoal{.kind = TypedGoal::Kind::time, .time = time};
    }
    Result<TypedGoal> of_rounds(double rounds) const {
        if (!(rounds >= 0.1 && rounds < most_plan_rounds))
            return out_of_domain("%1: the goal must be 0.1 to %2 rounds; got %3.", place_, most_plan_rounds, rounds);
        if (auto error = beyond(rounds); error && !reps_of_windows())
            return *std::move(error);
        return TypedGoal{.kind = TypedGoal::Kind::rounds, .rounds = rounds};
    }
    Result<TypedGoal> score(double rounds, double reps, const std::string& text) const {
        if (!is_whole(reps) || !(reps >= 0))
            return not_understood(text);
        if (auto error = beyond(reps > 0 ? rounds + 1 : rounds))
            return *std::move(error);
        const double all = workout_.points(division_, static_cast<int>(rounds) + 1);
        if (reps >= all && reps > 0)
            return out_of_domain("%1: the goal %2 has more reps than that round, which has %3.", place_, quoted(text),
                                 all);
        if (rounds + reps == 0)
            return not_understood(text);
        return TypedGoal{.kind = TypedGoal::Kind::score, .rounds = rounds, .reps = reps};
    }

    const Workout& workout_;
    std::size_t division_;
    Place place_;
    std::optional<int> rounds_;
};

class RosterReader {
  public:
    RosterReader(const Workout& workout, const Table& keys, const Table& row)
        : workout_(workout), keys_(keys), row_(row) {}

    Result<Athlete> read(const Table& tests) {
        if (keys_.rows != 1 || row_.rows != 1 || keys_.columns != row_.columns)
            return out_of_domain("The keys and the athlete must be one row each, of the same columns.");
        if (auto error = find_columns())
            return *std::move(error);
        Athlete athlete;
        athlete.movements.resize(workout_.stations.size());
        athlete.name = cell_text(cell("name"));
        athlete.name_place = place("name");
        if (athlete.name.empty())
            return athlete;
        if (auto error = read_cells(athlete))
            return *std::move(error);
        if (auto error = read_tests(workout_, tests, athlete))
            return *std::move(error);
        return athlete;
    }

  private:
    Refusal find_columns() {
        for (std::size_t column = 0; column < keys_.columns; ++column) {
            const Place at{Place::Table::keys, 0, column};
            const std::string key = fold(cell_text(keys_.at(0, column)));
            if (key.empty())
                continue;
            bool known = false;
            for (const auto one : roster_keys)
                known = known || key == one;
            if (!known)
                return out_of_domain("%1: the key %2 is not known over the roster.", at, quoted(key));
            if (!columns_.emplace(key, column).second)
                return out_of_domain("%1: the key %2 is there twice.", at, quoted(key));
        }
        for (const auto needed : {"name", "division"})
            if (!columns_.contains(needed))
                return out_of_domain("The key %1 is missing over the roster. Was a column deleted?", quoted(needed));
        return {};
    }
    const TableCell& cell(std::string_view key) const {
        static const TableCell blank;
        const auto found = columns_.find(key);
        return found == columns_.end() ? blank : row_.at(0, found->second);
    }
    std::optional<Place> place(std::string_view key) const {
        const auto found = columns_.find(key);
        if (found == columns_.end())
            return {};
        return Place{Place::Table::athlete, 0, found->second};
    }

    Refusal read_cells(Athlete& athlete) const {
        if (const auto twice = cell_number(cell("twice")); twice && *twice != 0)
            return out_of_domain("%1: the name %2 is on the roster twice: add an initial.", *place("name"),
                                 quoted(athlete.name));
        if (const auto& division = cell("division"); !is_blank(division)) {
            athlete.division = workout_.division(cell_text(division));
            athlete.division_place = place("division");
            if (!athlete.division)
                return out_of_domain("%1: there is no division %2 in the workout.", *place("division"),
                                     quoted(cell_text(division)));
        }
        if (const auto& plan = cell("plan"); !is_blank(plan)) {
            const auto found = find_word(WordList::day_plan, cell_text(plan));
            if (!found)
                return out_of_domain("%1: the plan for the day %2 is not known: choose one from the list.",
                                     *place("plan"), quoted(cell_text(plan)));
            athlete.plan = static_cast<DayPlan>(*found);
        }
        const auto& consent = cell("consent");
        if (!is_blank(consent) && !(cell_number(consent) && *cell_number(consent) > 0))
            return out_of_domain("%1: the guardian's consent is the date of it.", *place("consent"));
        athlete.consent_missing = !is_blank(cell("minor")) && is_blank(consent);
        if (const auto& group = cell("group"); !is_blank(group)) {
            athlete.group = workout_.group(cell_text(group));
            athlete.group_place = place("group");
            if (!athlete.group)
                return out_of_domain("%1: there is no pace group %2 in the workout.", *place("group"),
                                     quoted(cell_text(group)));
        }
        if (const auto& answer = cell("answer"); !is_blank(answer)) {
            const auto found = find_word(WordList::answer, cell_text(answer));
            if (!found)
                return out_of_domain("%1: the answer %2 is not known: choose one from the list.", *place("answer"),
                                     quoted(cell_text(answer)));
            athlete.answer = static_cast<PracticeAnswer>(*found);
            athlete.answer_place = place("answer");
        }
        if (const auto& pacing = cell("pacing"); !is_blank(pacing)) {
            const auto found = find_word(WordList::pacing, cell_text(pacing));
            if (!found)
                return out_of_domain("%1: the pacing %2 is not known: choose one from the list.", *place("pacing"),
                                     quoted(cell_text(pacing)));
            athlete.pacing = static_cast<Pacing>(*found);
            athlete.pacing_place = place("pacing");
        }
        if (workout_.settings.team > 1 && columns_.contains("team") && is_blank(cell("team")))
            athlete.notes.push_back(say("Enter a team: the workout is for teams of %1.", workout_.settings.team));
        if (const auto& share = cell("share"); !is_blank(share) && workout_.settings.team > 1) {
            auto value = cell_number(share);
            if (value && *value >= 1)
                value = *value / 100; // per cent typed as a number
            if (!value || !(*value > 0 && *value < 1))
                return out_of_domain("%1: the share of the team's work must be above 0% and below 100%.",
                                     *place("share"));
            athlete.share = value;
        }
        if (const auto& goal = cell("goal"); !is_blank(goal) && athlete.division) {
            auto typed = GoalReader{workout_, *athlete.division, *place("goal")}.read(goal);
            if (!typed)
                return typed.error();
            athlete.goal = *typed;
            athlete.goal_place = place("goal");
        }
        if (const auto& part = cell("team_plan"); !is_blank(part) && workout_.settings.team > 1) {
            const auto team = parse_team_part(cell_text(part), workout_.stations.size());
            if (!team)
                return out_of_domain("%1: this cell is not for typing: copy it from the row above.",
                                     *place("team_plan"));
            join(athlete, *team);
        }
        return {};
    }

    const Workout& workout_;
    const Table& keys_;
    const Table& row_;
    std::map<std::string, std::size_t, std::less<>> columns_;
};

} // namespace

DayPlan plan_on(double day, std::string_view word, std::optional<double> until) {
    if (trim(word).empty() || (until && std::floor(*until) < std::floor(day)))
        return DayPlan::full;
    const auto place = find_word(WordList::day_plan, word);
    return place ? static_cast<DayPlan>(*place) : DayPlan::not_today;
}

Result<Athlete> read_athlete(const Workout& workout, const Table& tests, const Table& keys, const Table& athlete) {
    return RosterReader{workout, keys, athlete}.read(tests);
}

} // namespace pacecells
