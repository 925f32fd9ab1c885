#include "past_results.h"

#include "tests_plan.h"

#include "pacecells/athlete.h"
#include "pacecells/words.h"
#include "pacecells/workout.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace pacecells {

namespace {

bool could_go_on(const LogbookTable& results, sal_Int32 row) {
    return find_word(WordList::answer, results.text(row, "answer")) ==
           static_cast<std::size_t>(PracticeAnswer::more_left);
}

// The rows of a table from the oldest date on.
std::vector<sal_Int32> by_date(const LogbookTable& table) {
    auto rows = table.rows();
    std::ranges::stable_sort(rows, {}, [&](sal_Int32 row) { return table.number(row, "date").value_or(0); });
    return rows;
}

// How long each event was, by date and folded title.
using Lengths = std::map<std::pair<double, std::string>, std::pair<Seconds, bool>>; // and whether it was for time

Lengths lengths_in(const LogbookTable& events) {
    Lengths lengths;
    for (const auto row : events.rows())
        if (const auto cap = events.number(row, "cap"); cap && *cap > 0)
            lengths[{events.number(row, "date").value_or(0), fold_name(events.text(row, "event"))}] = {
                Seconds{*cap * seconds_per_day},
                find_word(WordList::format, events.text(row, "format")) == static_cast<std::size_t>(Format::time)};
    return lengths;
}

std::optional<EarlierEvent> earlier(const LogbookTable& results, sal_Int32 row, const Lengths& lengths) {
    const auto rate = results.number(row, "held");
    const auto error = results.number(row, "ratio_sd");
    const auto share = results.number(row, "share");
    const auto length = lengths.find({results.number(row, "date").value_or(0), fold_name(results.text(row, "event"))});
    if (!rate || !error || !share || length == lengths.end())
        return std::nullopt;
    auto [time, for_time] = length->second;
    if (const auto score = results.number(row, "score"); for_time && score && *score > 0)
        time = std::min(time, Seconds{*score});
    const auto watts = power(CaloriesPerHour{*rate});
    if (!watts || !(watts->value() > 0) || !(*error > 0) || !(*share > 0))
        return std::nullopt;
    return EarlierEvent{{*watts, *error}, time, *share};
}

// The first station for calories, which is what the rates of a plan are about.
std::optional<std::size_t> main_machine(const EventCells& event) {
    for (const auto& unit : event.texts("workout.stations.unit"))
        if (const auto place = find_word(WordList::unit, unit)) {
            const auto known = static_cast<Unit>(*place + 1);
            if (rate_kind(known) == RateKind::calories_per_hour && machine_of(known) != Machine::armbike)
                return static_cast<std::size_t>(*machine_of(known));
        }
    return std::nullopt;
}

constexpr sal_Int32 first_row = 2; // of the sheet Tests: below keys and headings

// The sheet Tests, by key and row of people.
class Tests {
  public:
    explicit Tests(const EventCells& event)
        : range_(event.at("tests")), names_(event.at("tests_name")), name_cells_(event.values("tests_name")),
          rows_(rows_by_name(name_cells_)) {
        const auto cells = event.values("tests");
        for (sal_Int32 i = 0; i < cells[0].getLength(); ++i)
            columns_.emplace(text_of(cells[0][i]), i);
    }

    [[nodiscard]] const NamedRows& rows() const { return rows_; }

    // Of an event made before there was such a column nothing is written.
    void put(sal_Int32 row, std::string_view key, double value) {
        if (const auto column = columns_.find(key); column != columns_.end())
            put_number(range_, column->second, first_row + row, value);
    }

    // The row of a person, or the next free one; nothing where the name is there twice or the sheet is full.
    std::optional<sal_Int32> row_of(const std::string& name) {
        if (const auto found = rows_.find(fold_name(name)); found != rows_.end())
            return found->second.size() == 1 ? std::optional(found->second.front()) : std::nullopt;
        while (free_ < name_cells_.getLength() && !blank(name_cells_[free_][0]))
            ++free_;
        if (free_ == name_cells_.getLength())
            return std::nullopt;
        put_text(names_, 0, free_, name);
        return free_++;
    }

  private:
    Range range_;
    Range names_;
    Rows name_cells_;
    NamedRows rows_;
    std::map<std::string, sal_Int32, std::less<>> columns_;
    sal_Int32 free_ = 0;
};

bool has_numbers(const css::uno::Sequence<css::uno::Any>& row) {
    return std::ranges::any_of(row, [](const auto& cell) { return !blank(cell); });
}

} // namespace

std::map<std::string, std::vector<Observation>> observations_in(const LogbookTable& results) {
    std::map<std::string, std::vector<Observation>> all;
    for (const auto row : by_date(results)) {
        const auto ratio = results.number(row, "ratio");
        const auto error = results.number(row, "ratio_sd");
        if (ratio && error && says_what_can_be_held(ratio, could_go_on(results, row)))
            all[fold_name(results.text(row, "name"))].push_back({*ratio, *error});
    }
    return all;
}

std::map<std::string, std::vector<EarlierEvent>> held_in(const Logbook& logbook, Machine machine) {
    std::map<std::string, std::vector<EarlierEvent>> all;
    const auto results = logbook.table("results");
    const auto lengths = lengths_in(logbook.table("events"));
    for (const auto row : by_date(results)) {
        if (!says_what_can_be_held(std::nullopt, could_go_on(results, row)) ||
            find_word(WordList::machine, results.text(row, "machine")) != static_cast<std::size_t>(machine))
            continue;
        if (const auto event = earlier(results, row, lengths))
            all[fold_name(results.text(row, "name"))].push_back(*event);
    }
    return all;
}

void write_past_results(const EventCells& event, const Logbook& logbook, const std::vector<std::string>& names) {
    Tests tests(event);
    const auto observations = observations_in(logbook.table("results"));
    for (const auto& [name, rows] : tests.rows())
        if (const auto found = observations.find(name); found != observations.end())
            if (const auto factor = personal_factor(found->second)) {
                tests.put(rows.front(), "factor", factor->value);
                tests.put(rows.front(), "factor_sd", factor->error);
            }
    const auto machine = main_machine(event);
    if (!machine)
        return;
    const auto held = held_in(logbook, static_cast<Machine>(*machine));
    const auto tested = event.values(machine_cells[*machine].name);
    bool written = false;
    for (const auto& name : names) {
        const auto found = held.find(fold_name(name));
        if (found == held.end())
            continue;
        const auto its = tests.rows().find(found->first);
        if (its != tests.rows().end() && has_numbers(tested[its->second.front()]))
            continue; // tests come first
        const auto& last = found->second.back();
        const auto mean = held_lately(found->second);
        const auto rate = mean ? calorie_rate(mean->power) : Result<CaloriesPerHour>{mean.error()};
        const auto row = rate ? tests.row_of(name) : std::nullopt;
        if (!row)
            continue;
        tests.put(*row, "result.calh", rate->value());
        tests.put(*row, "result.time", last.cap.value() / seconds_per_day);
        tests.put(*row, "result.share", last.share);
        tests.put(*row, "result.sd", mean->error);
        written = true;
    }
    if (written)
        write_tests(event, {}); // shows the sheet
}

} // namespace pacecells
