#include "athlete_tests.h"

#include "pacecells/clock.h"
#include "pacecells/ergometer.h"

#include <cmath>
#include <map>

namespace pacecells {

namespace {

using Refusal = std::optional<Error>;

constexpr std::size_t key_row = 0;
constexpr std::size_t label_row = 1; // over the columns of a movement its name
constexpr std::size_t first_row = 2;

constexpr std::string_view machine_names[] = {"row", "ski", "bike", "armbike"};
constexpr std::string_view machine_keys[] = {"critical", "reserve", "date", "time", "calories"};
constexpr std::string_view movement_keys[] = {"longest", "max", "rep_s", "recovery"};
constexpr std::string_view other_keys[] = {"name",        "factor",       "factor_sd", "result.calh",
                                           "result.time", "result.share", "result.sd"};

template <class List>
bool contains(const List& list, std::string_view key) {
    for (const auto one : list)
        if (one == key)
            return true;
    return false;
}

bool is_machine_key(std::string_view key) {
    const auto dot = key.find('.');
    return dot != std::string_view::npos && contains(machine_names, key.substr(0, dot)) &&
           contains(machine_keys, key.substr(dot + 1));
}

class TestsReader {
  public:
    TestsReader(const Workout& workout, const Table& tests, Athlete& athlete)
        : workout_(workout), tests_(tests), athlete_(athlete) {}

    Refusal read() {
        if (tests_.rows <= first_row)
            return {}; // no tests at all
        if (auto error = find_columns())
            return error;
        if (auto error = find_row())
            return error;
        if (!row_)
            return {};
        athlete_.tested = true;
        for (std::size_t m = 0; m < std::size(machine_names); ++m)
            if (auto error = read_machine(std::string(machine_names[m]) + ".", athlete_.machines[m]))
                return error;
        for (const auto& [movement, columns] : movements_)
            if (auto error = read_movement(movement, columns))
                return error;
        return read_results();
    }

  private:
    using Columns = std::map<std::string, std::size_t, std::less<>>;

    static Place at(std::size_t row, std::size_t column) { return {Place::Table::tests, row, column}; }

    Refusal find_columns() {
        for (std::size_t column = 0; column < tests_.columns; ++column) {
            const std::string key = fold(cell_text(tests_.at(key_row, column)));
            if (key.empty())
                continue;
            if (contains(movement_keys, key)) {
                const std::string movement = cell_text(tests_.at(label_row, column));
                if (movement.empty())
                    continue; // a column that is not used
                if (!movements_[fold_name(movement)].emplace(key, column).second)
                    return out_of_domain("%1: the tests have two columns %2 for %3.", at(key_row, column), quoted(key),
                                         quoted(movement));
                names_.emplace(fold_name(movement), movement);
                continue;
            }
            if (!contains(other_keys, key) && !is_machine_key(key))
                return out_of_domain("%1: the key %2 is not known over the tests.", at(key_row, column), quoted(key));
            if (!columns_.emplace(key, column).second)
                return out_of_domain("%1: the key %2 is there twice over the tests.", at(key_row, column), quoted(key));
        }
        if (!columns_.contains("name"))
            return out_of_domain("The key %1 is missing over the tests. Was a column deleted?", quoted("name"));
        return {};
    }

    Refusal find_row() {
        const auto sought = fold_name(athlete_.name);
        const std::size_t column = columns_.find("name")->second;
        for (std::size_t row = first_row; row < tests_.rows; ++row) {
            if (fold_name(cell_text(tests_.at(row, column))) != sought)
                continue;
            if (row_)
                return out_of_domain("%1 and %2: the tests have the name %3 twice.", at(*row_, column), at(row, column),
                                     quoted(athlete_.name));
            row_ = row;
        }
        return {};
    }

    // A number of the athlete's row; nothing where the column or the cell is missing.
    Refusal number(std::optional<std::size_t> column, double from, double to, std::optional<double>& into,
                   std::optional<Seconds> (*as_time)(const TableCell&) = nullptr) const {
        if (!column || is_blank(tests_.at(*row_, *column)))
            return {};
        const auto& cell = tests_.at(*row_, *column);
        std::optional<double> value = as_time ? std::optional<double>{} : cell_number(cell);
        if (as_time)
            if (const auto time = as_time(cell))
                value = time->value();
        if (value && *value == 0)
            return {}; // a result of a formula that is blank
        if (!value || !(*value >= from && *value <= to))
            return out_of_domain("%1: this test of %2 cannot be read: a number from %3 to %4 is needed.",
                                 at(*row_, *column), quoted(athlete_.name), from, to);
        into = value;
        return {};
    }
    std::optional<std::size_t> column(const Columns& columns, const std::string& key) const {
        const auto found = columns.find(key);
        if (found == columns.end())
            return {};
        return found->second;
    }
    std::optional<Place> place(std::optional<std::size_t> column) const {
        if (!column)
            return {};
        return at(*row_, *column);
    }

    Refusal read_machine(const std::string& prefix, MachineTests& tests) const {
        const auto key = [&](const char* name) { return column(columns_, prefix + name); };
        std::optional<double> critical;
        std::optional<double> reserve;
        std::optional<double> time;
        std::optional<double> calories;
        if (auto error = number(key("critical"), 20, 900, critical))
            return error;
        if (auto error = number(key("reserve"), 500, 80'000, reserve))
            return error;
        if (auto error = number(key("date"), 1, 200'000, tests.date))
            return error;
        if (auto error = number(key("time"), 20, 4 * 3600, time, cell_time))
            return error;
        if (auto error = number(key("calories"), 1, 5000, calories))
            return error;
        if (critical && reserve) {
            tests.values = CriticalPower{Watts{*critical}, Joules{*reserve}};
            tests.values_place = place(key("critical"));
            if (const auto beyond = beyond_the_best(*tests.values))
                return above_the_best(*tests.values_place, power_for(*beyond, *tests.values), *beyond);
        }
        if (tests.date)
            tests.date_place = place(key("date"));
        if (time && calories) {
            tests.time = Seconds{*time};
            tests.calories = Kilocalories{*calories};
            tests.single_place = place(key("time"));
            return single_beyond_belief(tests, prefix == "armbike.");
        }
        return {};
    }

    static Refusal single_beyond_belief(const MachineTests& tests, bool fan_bike) {
        const auto rate = rate_for(*tests.calories, *tests.time);
        if (rate && fan_bike && *rate > most_on_fan_bike)
            return out_of_domain("%1: %2 cal/h on the fan bike is more than anybody holds. Is the unit right?",
                                 *tests.single_place, std::round(rate->value()));
        if (!rate || fan_bike)
            return {};
        const auto watts = power(*rate);
        const auto most = most_watts(*tests.time);
        return watts && most && *watts > *most ? above_the_best(*tests.single_place, watts, *tests.time) : Refusal{};
    }

    static Refusal above_the_best(const Place& place, const Result<Watts>& watts, Seconds time) {
        const auto most = most_watts(time);
        const auto clock = clock_text(time);
        if (!watts || !most || !clock)
            return {};
        return out_of_domain("%1: %2 W for %3 is more than the best in the world hold, about %4 W. Is the unit right?",
                             place, std::round(watts->value()), *clock, std::round(most->value()));
    }

    Refusal read_movement(const std::string& movement, const Columns& columns) {
        MovementTests tests;
        std::optional<double> longest;
        std::optional<double> rep;
        if (auto error = number(column(columns, "longest"), 1, 999, longest))
            return error;
        if (auto error = number(column(columns, "max"), 1, 999, tests.maximum))
            return error;
        if (auto error = number(column(columns, "rep_s"), 0.1, 600, rep, cell_seconds))
            return error;
        if (auto error = number(column(columns, "recovery"), 0.3, 3, tests.recovery))
            return error;
        if (longest)
            tests.longest = Reps{*longest};
        if (rep)
            tests.rep = Seconds{*rep};
        tests.longest_place = place(column(columns, "longest"));
        tests.maximum_place = place(column(columns, "max"));
        tests.rep_place = place(column(columns, "rep_s"));
        tests.recovery_place = place(column(columns, "recovery"));
        bool used = false;
        for (std::size_t i = 0; i < workout_.stations.size(); ++i)
            if (fold_name(workout_.stations[i].movement) == movement) {
                athlete_.movements[i] = tests;
                used = true;
            }
        if (!used && some_station_without_tests())
            athlete_.notes.push_back(
                say("Tests: %1 is not a movement of this workout.", quoted(names_.find(movement)->second)));
        return {};
    }

    bool some_station_without_tests() const {
        for (const auto& station : workout_.stations)
            if (station.unit == Unit::rep && !movements_.contains(fold_name(station.movement)))
                return true;
        return false;
    }

    Refusal read_results() {
        std::optional<double> factor;
        std::optional<double> rate;
        std::optional<double> time;
        const auto key = [&](const char* name) { return column(columns_, name); };
        if (auto error = number(key("factor"), 0.8, 1.2, factor))
            return error;
        if (auto error = number(key("factor_sd"), 0.001, 1, athlete_.factor_error))
            return error;
        if (auto error = number(key("result.calh"), 301, 5000, rate))
            return error;
        if (auto error = number(key("result.time"), 20, 4 * 3600, time, cell_time))
            return error;
        if (auto error = number(key("result.share"), 0.1, 1, athlete_.result_share))
            return error;
        if (auto error = number(key("result.sd"), 0.001, 1, athlete_.result_error))
            return error;
        athlete_.factor = factor.value_or(1);
        athlete_.factor_place = place(key("factor"));
        if (rate && time) {
            athlete_.result_rate = CaloriesPerHour{*rate};
            athlete_.result_cap = Seconds{*time};
            athlete_.result_place = place(key("result.calh"));
        }
        return {};
    }

    const Workout& workout_;
    const Table& tests_;
    Athlete& athlete_;
    Columns columns_;
    std::map<std::string, Columns> movements_; // by folded name
    std::map<std::string, std::string> names_; // folded, as typed
    std::optional<std::size_t> row_;
};

} // namespace

std::optional<Error> read_tests(const Workout& workout, const Table& tests, Athlete& athlete) {
    return TestsReader{workout, tests, athlete}.read();
}

} // namespace pacecells
