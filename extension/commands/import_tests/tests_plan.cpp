#include "tests_plan.h"

#include "form.h"

#include "pacecells/words.h"

#include <com/sun/star/sheet/XSheetCellRange.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Sequence;

// The sheet Tests of the event workbook, as it is.
struct Sheet {
    explicit Sheet(const EventCells& event)
        : roster(event.values("roster_name")), names(event.values("tests_name")),
          headings(event.values("tests_movements")), sets(event.values("tests_sets")),
          stations(event.texts("workout.stations.movement")) {
        for (std::size_t m = 0; m < machine_count; ++m)
            machines[m] = event.values(machine_cells[m].name);
    }

    [[nodiscard]] std::size_t slots() const { return static_cast<std::size_t>(headings[0].getLength()) / of_movement; }
    [[nodiscard]] Any heading(std::size_t slot) const {
        return headings[0][static_cast<sal_Int32>(slot * of_movement)];
    }

    Rows roster;
    Rows names;
    Rows headings;
    Rows sets;
    std::vector<std::string> stations;
    std::array<Rows, machine_count> machines;
};

bool blank(const Sequence<Any>& row, std::size_t first, std::size_t count) {
    for (std::size_t i = first; i < first + count; ++i)
        if (!pacecells::blank(row[static_cast<sal_Int32>(i)]))
            return false;
    return true;
}

class Planner {
  public:
    Planner(const Sheet& sheet, const ResultFile& file) : sheet_(sheet), file_(file) {
        for (const auto& row : sheet_.roster)
            if (const auto name = text_of(row[0]); !name.empty())
                roster_[fold_name(name)].push_back(name);
        for (sal_Int32 row = 0; row < sheet_.names.getLength(); ++row)
            if (const auto name = text_of(sheet_.names[row][0]); !name.empty())
                rows_[fold_name(name)].push_back(row);
        for (const auto& person : file_.people)
            ++in_file_[fold_name(person.name)];
    }

    TestPlan plan() {
        find_slots();
        for (const auto& person : file_.people)
            consider(person);
        summarise();
        return std::move(plan_);
    }

  private:
    // Each name once, on the roster, in the file and on the sheet: only then is it known whose results they are.
    [[nodiscard]] std::string left_out(const std::string& key) const {
        const auto found = roster_.find(key);
        if (found == roster_.end())
            return tr("not on the roster");
        if (in_file_.at(key) > 1)
            return tr("twice in the file: skipped");
        if (found->second.size() > 1)
            return tr("twice on the roster: skipped");
        if (const auto rows = rows_.find(key); rows != rows_.end() && rows->second.size() > 1)
            return tr("twice on the sheet Tests: skipped");
        return {};
    }

    [[nodiscard]] bool wanted(std::size_t movement) const {
        return std::ranges::any_of(file_.people, [&](const TestedPerson& person) {
            return left_out(fold_name(person.name)).empty() && person.movements[movement].known();
        });
    }

    // A movement's columns on the sheet: those with its name, else free ones. The event's own movements choose first.
    void find_slots() {
        std::map<std::string, std::size_t> named;
        std::vector<std::size_t> free;
        for (std::size_t slot = 0; slot < sheet_.slots(); ++slot) {
            const auto name = text_of(sheet_.heading(slot));
            if (!name.empty())
                named.emplace(fold_name(name), slot);
            else if (std::ranges::all_of(sheet_.sets,
                                         [&](const auto& row) { return blank(row, slot * of_movement, of_movement); }))
                free.push_back(slot);
        }
        slots_.resize(file_.movements.size());
        std::vector<std::size_t> order;
        for (const bool first : {true, false})
            for (std::size_t k = 0; k < file_.movements.size(); ++k)
                if (in_event(file_.movements[k]) == first)
                    order.push_back(k);
        auto next = free.begin();
        for (const auto k : order) {
            const auto key = fold_name(file_.movements[k]);
            if (key.empty() || !wanted(k))
                continue;
            if (const auto found = named.find(key); found != named.end()) {
                if (std::ranges::find(slots_, std::optional(found->second)) == slots_.end())
                    slots_[k] = found->second;
                else
                    no_column_.push_back(file_.movements[k]); // a second of that name in the file
            } else if (next != free.end()) {
                plan_.headings.emplace_back(*next, file_.movements[k]);
                named.emplace(key, *next);
                slots_[k] = *next++;
            } else {
                no_column_.push_back(file_.movements[k]);
            }
        }
    }

    [[nodiscard]] bool in_event(const std::string& movement) const {
        return std::ranges::any_of(sheet_.stations, [&](const auto& name) { return same_name(name, movement); });
    }

    // A row without a name and without results.
    std::optional<sal_Int32> free_row() {
        for (; next_row_ < sheet_.names.getLength(); ++next_row_) {
            const auto row = next_row_;
            const bool taken = !text_of(sheet_.names[row][0]).empty() ||
                               !blank(sheet_.sets[row], 0, static_cast<std::size_t>(sheet_.sets[row].getLength())) ||
                               std::ranges::any_of(sheet_.machines, [&](const Rows& cells) {
                                   return !blank(cells[row], 0, static_cast<std::size_t>(cells[row].getLength()));
                               });
            if (!taken)
                return next_row_++;
        }
        return std::nullopt;
    }

    void consider(const TestedPerson& person) {
        const auto key = fold_name(person.name);
        TestLine line{person.name, left_out(key), {}};
        if (!line.happens.empty()) {
            ++(roster_.contains(key) ? twice_ : unmatched_);
        } else if (!knows_anything(person)) {
            line.happens = tr("no results");
            add_problems(person, line);
            ++without_;
        } else if (const auto there = rows_.find(key); there != rows_.end()) {
            const bool changed = compare(person, there->second.front(), line);
            line.happens = changed ? tr("changed") : tr("unchanged");
            ++(changed ? changed_ : unchanged_);
            const auto& name = roster_.at(key).front(); // the sheets find each other by the very spelling
            if (changed && text_of(sheet_.names[there->second.front()][0]) != name)
                plan_.names.emplace_back(there->second.front(), name);
        } else if (const auto row = free_row()) {
            compare(person, *row, line);
            line.happens = tr("new");
            ++new_;
            plan_.names.emplace_back(*row, roster_.at(key).front());
        } else {
            line.happens = tr("no free row on the sheet Tests");
            ++no_row_;
        }
        if (!person.note.empty())
            line.details.push_back(person.note);
        plan_.lines.push_back(std::move(line));
    }

    [[nodiscard]] bool knows_anything(const TestedPerson& person) const {
        const auto good = [](const Results& results) { return results.known() && results.unreadable.empty(); };
        for (std::size_t k = 0; k < person.movements.size(); ++k)
            if (slots_[k] && good(person.movements[k]))
                return true;
        return std::ranges::any_of(person.machines, good);
    }

    void add_problems(const TestedPerson& person, TestLine& line) const {
        for (std::size_t m = 0; m < machine_count; ++m)
            add_problem(person.machines[m], machine_title(m), line);
        for (std::size_t k = 0; k < person.movements.size(); ++k)
            add_problem(person.movements[k], file_.movements[k], line);
    }
    static void add_problem(const Results& results, const std::string& title, TestLine& line) {
        if (!results.unreadable.empty())
            line.details.push_back(tr("%1: %2", title, results.unreadable));
    }

    static std::string machine_title(std::size_t machine) {
        const std::array titles{tr("Rower"), tr("Ski ergometer"), tr("Bike ergometer"), tr("Fan bike")};
        return titles[machine];
    }

    // Whether anything will be written into the row.
    bool compare(const TestedPerson& person, sal_Int32 row, TestLine& line) {
        const auto before = plan_.writes.size();
        for (std::size_t m = 0; m < machine_count; ++m)
            compare(person.machines[m], machine_fields, machine_title(m),
                    {machine_cells[m].name, row, 0, machine_cells[m].first}, sheet_.machines[m][row], line);
        for (std::size_t k = 0; k < person.movements.size(); ++k)
            if (slots_[k])
                compare(person.movements[k], movement_fields, file_.movements[k],
                        {"tests_sets", row, *slots_[k] * of_movement, 0}, sheet_.sets[row], line);
        return plan_.writes.size() > before;
    }

    struct Place {
        const char* range;
        sal_Int32 row;
        std::size_t column;
        std::size_t first; // the first of the values that has a column
    };
    template <std::size_t count>
    void compare(const Results& results, const std::array<ResultField, count>& fields, const std::string& title,
                 const Place& place, const Sequence<Any>& there, TestLine& line) {
        add_problem(results, title, line);
        if (!results.known() || !results.unreadable.empty())
            return;
        std::string words;
        bool older = false;
        for (std::size_t i = place.first; i < results.values.size(); ++i) {
            const auto& old_cell = there[static_cast<sal_Int32>(place.column + i - place.first)];
            const auto& value = results.values[i];
            double number = 0;
            const bool was_number = old_cell >>= number;
            const auto old_text = was_number ? shown(fields[i], number) : text_of(old_cell);
            const bool same =
                value ? was_number && std::abs(number - *value) <= 1e-9 * std::abs(*value) : old_text.empty();
            if (same)
                continue;
            words += (words.empty() ? "" : ", ") + tr(fields[i].label) + " ";
            if (!old_text.empty())
                words += old_text + " \xE2\x86\x92 ";
            words += value ? shown(fields[i], *value) : tr("blank");
            older |= count == of_machine && i == date_of_test && was_number && value && *value < number;
        }
        if (words.empty())
            return;
        line.details.push_back(tr("%1: %2", title, words) + (older ? " (" + tr("older than what is there") + ")" : ""));
        plan_.writes.push_back(
            {place.range,
             place.row,
             static_cast<sal_Int32>(place.column),
             {results.values.begin() + static_cast<std::ptrdiff_t>(place.first), results.values.end()}});
    }

    void summarise() {
        auto& text = plan_.summary;
        text = tr("%1 new, %2 changed, %3 unchanged, %4 not on the roster.", std::to_string(new_),
                  std::to_string(changed_), std::to_string(unchanged_), std::to_string(unmatched_));
        const auto add = [&](std::size_t count, ShownText sentence) {
            if (count > 0)
                text += " " + tr(sentence, std::to_string(count));
        };
        add(twice_, "%1 left out: the name appears twice.");
        add(without_, "%1 without results.");
        add(no_row_, "No free row for %1.");
        const auto list = [&](const std::vector<std::string>& what, ShownText sentence) {
            std::string all;
            for (const auto& one : what)
                all += (all.empty() ? "" : ", ") + one;
            if (!all.empty())
                text += " " + tr(sentence, all);
        };
        std::vector<std::string> added;
        for (const auto& [slot, movement] : plan_.headings)
            added.push_back(movement);
        list(added, "New movements on the sheet: %1.");
        list(no_column_, "No free columns on the sheet Tests for: %1.");
        list(file_.unread, "Columns not read: %1.");
    }

    const Sheet& sheet_;
    const ResultFile& file_;
    TestPlan plan_;
    std::map<std::string, std::vector<std::string>> roster_; // folded: as written
    std::map<std::string, std::vector<sal_Int32>> rows_;     // of the sheet Tests
    std::map<std::string, int> in_file_;
    std::vector<std::optional<std::size_t>> slots_; // of each of the file's movements
    std::vector<std::string> no_column_;
    sal_Int32 next_row_ = 0;
    std::size_t new_ = 0;
    std::size_t changed_ = 0;
    std::size_t unchanged_ = 0;
    std::size_t unmatched_ = 0;
    std::size_t twice_ = 0;
    std::size_t without_ = 0;
    std::size_t no_row_ = 0;
};

void show_sheet(const Range& cells) {
    const auto sheet = need<css::sheet::XSheetCellRange>(cells)->getSpreadsheet();
    set_property(sheet, "IsVisible", Any(true));
}

} // namespace

void write_tests(const EventCells& event, const TestPlan& plan) {
    const auto headings = event.at("tests_movements");
    for (const auto& [slot, movement] : plan.headings)
        put_text(headings, static_cast<sal_Int32>(slot * of_movement), 0, movement);
    const auto names = event.at("tests_name");
    for (const auto& [row, name] : plan.names)
        put_text(names, 0, row, name);
    std::map<std::string, Range> ranges;
    for (const auto& one : plan.writes) {
        auto& range = ranges[one.range];
        if (!range.is())
            range = event.at(one.range);
        auto column = one.column;
        for (const auto& value : one.values) { // one by one: arrays of values cannot be undone
            if (value)
                put_number(range, column++, one.row, *value);
            else
                put_blank(range, column++, one.row);
        }
    }
    show_sheet(names); // hidden while it is empty
}

TestPlan plan_tests(const EventCells& event, const ResultFile& file) {
    const Sheet sheet(event);
    return Planner(sheet, file).plan();
}

} // namespace pacecells
