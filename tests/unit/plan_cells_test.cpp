// WORKOUT and ATHLETE as a cell asks them, without an office: what is read, what is kept, and how places are told.
#include "block.h"
#include "catalog.h"
#include "recorded.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace {

using namespace pacecells;

// A table on a sheet, which counts what is read of it.
class Sheet : public Area {
  public:
    Sheet(std::string name, std::string_view text, Address first = {0, 0, 0})
        : name_(std::move(name)), table_(block::table(text)), first_(first) {}

    [[nodiscard]] int rows() const override { return static_cast<int>(table_.rows); }
    [[nodiscard]] int columns() const override { return static_cast<int>(table_.columns); }
    [[nodiscard]] Address first() const override { return first_; }
    [[nodiscard]] std::string sheet() const override { return name_; }
    [[nodiscard]] Result<Table> part(int row, int column, int rows, int columns) const override {
        read_ += rows * columns;
        Table part{static_cast<std::size_t>(rows), static_cast<std::size_t>(columns), {}};
        for (int r = row; r < row + rows; ++r)
            for (int c = column; c < column + columns; ++c)
                part.cells.push_back(table_.at(static_cast<std::size_t>(r), static_cast<std::size_t>(c)));
        return part;
    }

    [[nodiscard]] bool calculated(int row, int column) const override { return row == 0 && column == calculated_; }

    [[nodiscard]] int read() const { return read_; }
    void formula_in_first_row(int column) { calculated_ = column; }

  private:
    std::string name_;
    Table table_;
    Address first_;
    mutable int read_ = 0;
    int calculated_ = -1;
};

using SheetPointer = std::shared_ptr<const Sheet>;

SheetPointer sheet(std::string name, std::string_view text, Area::Address first = {0, 0, 0}) {
    return std::make_shared<const Sheet>(std::move(name), text, first);
}

constexpr std::string_view tests_table = "name | ski.critical | ski.reserve | longest\n"
                                         "Name | W | J | Ring rows\n"
                                         "Ilka Moorvane | 190 | 15000 | 14\n"
                                         "Bero Tann | 240 | 18000 | 25\n";

// A row of cells, as a formula hands it over.
Argument row_of(std::string_view text) {
    const auto table = block::table(text);
    Range range{1, static_cast<int>(table.columns), {}};
    for (const auto& cell : table.cells) {
        if (const auto* number = std::get_if<double>(&cell))
            range.cells.emplace_back(*number);
        else if (const auto* words = std::get_if<std::string>(&cell))
            range.cells.emplace_back(*words);
        else
            range.cells.emplace_back(Blank{});
    }
    return range;
}

struct Event {
    SheetPointer workout = sheet("Workout", block::tide_table);
    SheetPointer tests = sheet("Tests", tests_table);

    [[nodiscard]] Cell ask(std::string_view method, std::string_view athlete, std::vector<Argument> more = {},
                           std::string_view keys = "name | division | group | goal") const {
        const Row* row = find_method(method);
        std::vector<Argument> arguments{AreaPointer(workout), AreaPointer(tests), row_of(keys), row_of(athlete)};
        arguments.insert(arguments.end(), more.begin(), more.end());
        arguments.resize(row->arity, Omitted{});
        return std::get<Cell>(row->evaluate(arguments));
    }
};

constexpr std::string_view plan_keys = "name | division | plan | goal";

double number(const Cell& cell) {
    const auto* value = std::get_if<double>(&cell);
    EXPECT_NE(value, nullptr);
    return value ? *value : -1e300;
}

std::string message(const Cell& cell) {
    const auto* error = std::get_if<Error>(&cell);
    return error ? error->message() : "";
}

// A function that reads the block of the workout first.
Cell ask(std::string_view method, const SheetPointer& workout, std::vector<Argument> more) {
    const Row* row = find_method(method);
    more.insert(more.begin(), AreaPointer(workout));
    more.resize(row->arity, Omitted{});
    return std::get<Cell>(row->evaluate(more));
}

std::string text(const Cell& cell) {
    const auto* words = std::get_if<std::string>(&cell);
    return words ? *words : std::holds_alternative<Blank>(cell) ? "" : "no text: " + message(cell);
}

TEST(PlanCells, ABlankNameReadsNothing) {
    const Event event;
    EXPECT_TRUE(std::holds_alternative<Blank>(event.ask("athleteGoal", " | scaled | | 6")));
    EXPECT_EQ(event.workout->read() + event.tests->read(), 0);
}

TEST(PlanCells, OfTheTestsOnlyTheHeadingsTheNamesAndTheAthletesRowAreRead) {
    const Event event;
    EXPECT_EQ(number(event.ask("athleteGoal", "Bero Tann | scaled | | 6")), 6);
    EXPECT_EQ(event.tests->read(), 2 * 4 + 2 + 4);
}

TEST(PlanCells, APlanIsKnownByContentsAndNamedByPlace) {
    const auto broken = block::with(std::string(block::tide_table), "cap       | Cap", "caap      | Cap");
    const Event here{sheet("Workout", broken), sheet("Tests", tests_table)};
    const Event there{sheet("Other", broken, {3, 2, 10}), sheet("Tests", tests_table)};
    const auto sentence = [](const Event& event) {
        return message(event.ask("athleteGoal", "Ilka Moorvane | scaled | | 6"));
    };
    EXPECT_TRUE(sentence(here).starts_with("Workout.A5: the key \"caap\" is not known")) << sentence(here);
    EXPECT_TRUE(sentence(there).starts_with("Other.C15: ")) << sentence(there);
}

TEST(PlanCells, ChangedContentsChangeThePlan) {
    const auto rate = [](std::string_view workout, std::string_view tests, std::string_view athlete) {
        return number(Event{sheet("W", workout), sheet("T", tests)}.ask("athleteRate", athlete));
    };
    const std::string tide(block::tide_table);
    const std::string tests(tests_table);
    const auto plain = rate(tide, tests, "Ilka Moorvane | scaled | | 6");
    EXPECT_NE(rate(tide, block::with(tests, "| 190", "| 230"), "Ilka Moorvane | scaled | | 6"), plain);
    EXPECT_NE(rate(block::with(tide, "17:00", "9:00"), tests, "Ilka Moorvane | scaled | | 3"), plain);
    EXPECT_NE(rate(tide, tests, "Bero Tann | scaled | | 6"), plain);
    EXPECT_EQ(rate(tide, tests, "Ilka Moorvane | scaled | | 6"), plain);
}

TEST(PlanCells, ANumberIsNotTheTextOfIt) {
    const Event event;
    EXPECT_EQ(number(event.ask("athleteGoal", "Ilka Moorvane | scaled | | 6")), 6);
    EXPECT_EQ(number(event.ask("athleteGoal", "Ilka Moorvane | scaled | | 5+0")), 5);
}

TEST(PlanCells, NamesOfTheTestsAreTheSameHoweverTheyAreWritten) {
    const Event twice{sheet("Workout", block::tide_table),
                      sheet("Tests", std::string(tests_table) + "ilka  MOORVANE | 200 | 16000 |\n")};
    EXPECT_TRUE(
        message(twice.ask("athleteGoal", "Ilka Moorvane | scaled | | 6")).starts_with("Tests.A3 and Tests.A5: "));
}

// The block of the example with text in its first row, as a formula or typed, and what WORKOUT.CHECK says of it.
struct Sealed {
    std::shared_ptr<Sheet> workout;
    std::string said;
    int read = 0;
};

Sealed checked(const std::string& below, const std::string& seal, bool formula = true) {
    const std::string first = "pacecells.workout |        | value | ";
    auto workout = std::make_shared<Sheet>("Workout", first + seal + below);
    workout->formula_in_first_row(formula ? 3 : -1);
    const Row* row = find_method("workoutCheck");
    const auto said = std::get<Cell>(row->evaluate(std::vector<Argument>{AreaPointer(workout)}));
    const auto* text = std::get_if<std::string>(&said);
    return {workout, text ? *text : message(said), workout->read()};
}

std::string below_first(std::string_view block) { return std::string(block.substr(block.find('\n'))); }

std::string seal(const std::string& below) {
    const auto whole = checked(below, "").workout;
    const auto columns = static_cast<std::size_t>(whole->columns());
    auto rows = std::make_shared<Sheet>("Workout", below.substr(1));
    EXPECT_EQ(static_cast<std::size_t>(rows->columns()), columns);
    return std::get<std::string>(
        std::get<Cell>(find_method("workoutSeal")->evaluate(std::vector<Argument>{AreaPointer(rows)})));
}

TEST(PlanCells, OfASealedBlockTheFirstRowAloneIsReadOnceItIsKnown) {
    const auto below = block::with(below_first(block::tide_table), "17:00", "16:10");
    const auto first = checked(below, seal(below));
    EXPECT_EQ(first.said, "");
    const auto again = checked(below, seal(below));
    EXPECT_EQ(again.said, "");
    EXPECT_EQ(again.read, again.workout->columns());
    EXPECT_LT(again.read, first.read);
}

TEST(PlanCells, ASealOfOtherCellsIsNotBelieved) {
    const auto below = block::with(below_first(block::tide_table), "17:00", "16:20");
    const auto broken = block::with(below, "cap       | Cap", "caap      | Cap");
    EXPECT_EQ(checked(below, seal(below)).said, "");
    const auto refused = [&](const Sealed& sealed) {
        EXPECT_NE(sealed.said.find("\"caap\""), std::string::npos) << sealed.said;
        EXPECT_GT(sealed.read, sealed.workout->columns());
    };
    for (int turn = 0; turn < 2; ++turn)
        refused(checked(broken, "seal 00000000-0000-5000-8000-000000000000"));
    refused(checked(broken, seal(below), false)); // typed or pasted as a value: it no longer follows the cells
    EXPECT_NE(seal(broken), seal(below));
    EXPECT_EQ(seal(below), seal(below));
}

TEST(PlanCells, ReasonsComeFromTheSameCodeAsTheNumbers) {
    const Event event;
    const auto plain = number(event.ask("athleteRate", "Bero Tann | scaled | | 6"));
    Recorded recorded;
    {
        const Recording recording(recorded);
        EXPECT_EQ(number(event.ask("athleteRate", "Bero Tann | scaled | | 6")), plain);
    }
    ASSERT_TRUE(recorded.about);
    const auto step = recorded.reasons.find(recorded.about->fact, recorded.about->station);
    ASSERT_TRUE(step);
    EXPECT_EQ(recorded.reasons.steps()[*step].value.number, plain);
    bool test_seen = false;
    for (const auto& one : recorded.reasons.steps())
        for (const auto& input : one.from)
            if (input.place && input.place->table == Place::Table::tests) {
                const auto cell = recorded.origin.address(*input.place);
                ASSERT_TRUE(cell);
                EXPECT_EQ(cell->row, 3) << "the athlete's row of the sheet, not of what was read";
                test_seen = true;
            }
    EXPECT_TRUE(test_seen);
    EXPECT_EQ(number(event.ask("athleteRate", "Bero Tann | scaled | | 6")), plain);
}

// What HEAT.TEAM says of a row, and how many cells of the people it reads for that.
struct InTeam {
    SheetPointer people = sheet("Roster", "Ilka Moorvane | scaled | | | Herons\n"
                                          "Bero Tann | scaled | | | herons\n"
                                          "Tam Quillane | scaled | | | \n"
                                          " | | | | Herons\n");

    [[nodiscard]] Cell ask(const SheetPointer& workout, int row, int index) const {
        const auto tests = sheet("Tests", tests_table);
        const std::vector<Argument> arguments{
            AreaPointer(workout), AreaPointer(tests), row_of("name | division | group | goal | team"),
            AreaPointer(people),  Cell{double(row)},  Cell{double(index)}};
        return std::get<Cell>(find_method("heatTeam")->evaluate(arguments));
    }
};

TEST(PlanCells, WhereNobodyIsInATeamOneRowOfPeopleIsRead) {
    const InTeam asked;
    const auto alone = sheet("Workout", block::tide_table);
    EXPECT_EQ(std::get<std::string>(asked.ask(alone, 2, 1)), "Bero Tann");
    EXPECT_TRUE(std::holds_alternative<Blank>(asked.ask(alone, 2, 6)));
    EXPECT_EQ(asked.people->read(), 2 * 5);
}

TEST(PlanCells, APairIsFoundHoweverItsTeamIsWritten) {
    const InTeam asked;
    const auto pairs = sheet("Workout", block::with(std::string(block::tide_table), "steps     | Steps           | 3\n",
                                                    "steps | Steps | 3\nteam | | 2\n"));
    EXPECT_EQ(std::get<std::string>(asked.ask(pairs, 1, 1)), "Herons");
    EXPECT_TRUE(std::holds_alternative<Blank>(asked.ask(pairs, 2, 1))) << "the first person has the lane";
    EXPECT_EQ(std::get<std::string>(asked.ask(pairs, 2, 2)), "herons: Ilka Moorvane + Bero Tann");
    EXPECT_TRUE(std::holds_alternative<Blank>(asked.ask(pairs, 3, 6))) << "in no team";
    EXPECT_EQ(text(asked.ask(pairs, 2, 7)), "Bero Tann (Ilka + Bero)");
    EXPECT_EQ(text(asked.ask(pairs, 3, 7)), "Tam Quillane");
    const auto turns = text(asked.ask(pairs, 2, 4));
    EXPECT_EQ(turns.substr(0, 15), "Ilka: ski cal 6");
    EXPECT_EQ(text(asked.ask(pairs, 2, 8)), "") << turns << " is too long for a card";
    const auto shorter =
        sheet("Workout", block::with(block::with(std::string(block::tide_table), "steps     | Steps           | 3\n",
                                                 "steps | Steps | 3\nteam | | 2\n"),
                                     "Box step-overs", "Box"));
    EXPECT_EQ(text(asked.ask(shorter, 2, 8)), text(asked.ask(shorter, 2, 4)));
    EXPECT_NE(text(asked.ask(shorter, 2, 8)), "");
    EXPECT_EQ(text(asked.ask(pairs, 3, 8)), "");
    Event event;
    event.workout = pairs;
    const auto note = [&](std::string_view team) {
        return text(event.ask("athleteNote", "Tam Quillane | scaled | | " + std::string(team), {},
                              "name | division | plan | team"));
    };
    EXPECT_TRUE(note("").starts_with("Enter a team: the workout is for teams of 2."));
    EXPECT_EQ(note("Herons").find("Enter a team"), std::string::npos);
    EXPECT_TRUE(std::holds_alternative<Blank>(asked.ask(pairs, 4, 1))) << "nobody";
    EXPECT_EQ(message(asked.ask(pairs, 5, 1)), "The row is a whole number from 1 to 4; got 5.");
}

TEST(PlanCells, AnEasyPlanHasAnEndInPlaceOfAGoal) {
    const Event event;
    const auto line = [&](std::string_view athlete, int index, double later = 0) {
        return event.ask("athleteCard", athlete, {Cell{double(index)}, Cell{1.0}, Cell{later / 86400}}, plan_keys);
    };
    const auto* easy = "Bero Tann | scaled | easy |";
    EXPECT_EQ(text(line(easy, 15)), "easy");
    EXPECT_EQ(text(line(easy, 1)), "plan for the day");
    EXPECT_NEAR(number(line(easy, 2)) * 86400, 510, 1e-6) << "half the cap";
    EXPECT_NEAR(number(line(easy, 2, 70)) * 86400, 580, 1e-6) << "on the clock of those who start first";
    EXPECT_EQ(text(line(easy, 3)), "stop at this clock");
    EXPECT_EQ(text(line(easy, 4)), "at a pace at which you can talk");
    EXPECT_EQ(text(line(easy, 13)), "or after 3 rounds");
    EXPECT_EQ(text(line(easy, 14)), "whichever comes first");
    for (const int index : {5, 6, 7, 8, 9, 10, 11, 12, 16, 17, 18})
        EXPECT_TRUE(std::holds_alternative<Blank>(line(easy, index))) << index;
    const auto* full = "Bero Tann | scaled | | 6";
    EXPECT_EQ(text(line(full, 15)), "6");
    EXPECT_EQ(text(line(full, 16)), "sets");
    EXPECT_EQ(text(line(full, 17)), "for 6");
    EXPECT_EQ(text(line(full, 18)).substr(0, 5), "for 5");
    EXPECT_TRUE(std::holds_alternative<Blank>(line("Bero Tann | scaled | not today |", 15)));
    EXPECT_TRUE(std::holds_alternative<Blank>(line("Bero Tann | no such division | | 6", 15))) << "the roster says why";
}

TEST(PlanCells, OneRowThatCannotBeReadKeepsNobodyFromAHeat) {
    const Event event;
    const auto rank = [&](std::string_view athlete) { return event.ask("athleteScore", athlete, {Cell{6.0}}); };
    EXPECT_EQ(number(rank("Bero Tann | scaled | | ")),
              number(event.ask("athleteScore", "Bero Tann | scaled | | ", {Cell{2.0}})));
    EXPECT_TRUE(std::holds_alternative<Blank>(rank("Bero Tann | no such division | | ")));
    Event timed;
    timed.workout = sheet("Workout", block::with(block::with(std::string(block::tide_table), "AMRAP", "for time"),
                                                 "rounds    | Rounds          |", "rounds | Rounds | 3"));
    EXPECT_LT(number(timed.ask("athleteScore", "Bero Tann | scaled | | ", {Cell{6.0}})), 0)
        << "a shorter time is better";
}

TEST(PlanCells, HeatsOfTheRosterAsColumns) {
    auto workout = sheet("Workout", block::tide_table);
    const auto people = [] {
        Range range{3, 4, {}};
        for (const auto* cell : {"Ilka Moorvane", "scaled", "", "", "Bero Tann", "scaled", "", "", "Tam Quillane",
                                 "open", "not today", ""})
            range.cells.emplace_back(*cell ? Cell{std::string(cell)} : Cell{Blank{}});
        return range;
    }();
    const auto day = [&](int column) {
        const std::vector<Argument> arguments{AreaPointer(workout),
                                              row_of("name | division | plan | team"),
                                              people,
                                              Range{3, 1, {Cell{1.0}, Cell{2.0}, Cell{Blank{}}}},
                                              Range{3, 1, {Cell{Blank{}}, Cell{Blank{}}, Cell{std::string("yes")}}},
                                              Omitted{},
                                              Omitted{},
                                              Omitted{},
                                              Cell{double(column)}};
        return find_method("heatDay")->evaluate(arguments);
    };
    const auto names = std::get<Range>(day(4));
    EXPECT_EQ(names.rows, 3);
    EXPECT_EQ(text(names.cells[0]), "Bero Tann") << "the better one has lane 1";
    EXPECT_EQ(text(names.cells[1]), "Ilka Moorvane");
    EXPECT_TRUE(std::holds_alternative<Blank>(names.cells[2])) << "not there today";
    EXPECT_EQ(text(std::get<Range>(day(5)).cells[0]), "Tam Quillane") << "but judges";
    EXPECT_EQ(text(std::get<Range>(day(7)).cells[1]), "scaled");
    EXPECT_TRUE(std::holds_alternative<Blank>(std::get<Range>(day(8)).cells[0])) << "nobody shares";
    EXPECT_EQ(text(std::get<Cell>(day(0))), "4 lanes per heat, a heat every 17:00, slowest first");
    workout = sheet("Workout", block::with(std::string(block::tide_table), "ski  | 4", "ski  |"));
    EXPECT_EQ(text(std::get<Cell>(day(0))), "everybody starts together") << "no machine is counted, nor the floor";
}

TEST(PlanCells, WhereAndWhenSomebodyStarts) {
    const auto workout = sheet("Workout", block::tide_table);
    const auto start = [&](std::string_view place) { return text(ask("heatStart", workout, {row_of(place)})); };
    EXPECT_EQ(start("2 | 3"), "Heat 2, lane 3");
    EXPECT_EQ(start("2 | 3 | 0.75 | Bero Tann | | 0"), "Heat 2, lane 3, 18:00");
    EXPECT_EQ(start("2 | 3 | | Bero Tann | | 0.00081"), "Heat 2, lane 3, start at 1:10");
    EXPECT_EQ(start(" | "), "");
    const auto row = [](int lane) {
        return std::get<Cell>(find_method("heatRow")->evaluate(
            std::vector<Argument>{row_of("1 | 1 | 1 | 2 | 3 |"), row_of("1 | 1 | 2 | 2 | 2 |"), Cell{double(lane)}}));
    };
    EXPECT_EQ(number(row(1)), 1);
    EXPECT_EQ(number(row(2)), 3) << "two of a team share the first";
    EXPECT_EQ(number(row(3)), 4);
    EXPECT_EQ(number(row(4)), 5) << "the same lane of another heat";
    EXPECT_EQ(number(row(5)), 0);
}

TEST(PlanCells, APersonOfTheListOfHeatsIsFoundAsNamesAreEverywhere) {
    const auto names = row_of("Ada Brimsole | Bero  Tann | Sel* | bero tann");
    const auto find = [&](const Cell& name, const Argument& lanes, double index) {
        return number(std::get<Cell>(
            find_method("heatPerson")->evaluate(std::vector<Argument>{name, names, lanes, Cell{index}})));
    };
    const auto person = [&](const Cell& name) { return find(name, row_of("Gulls | | Ada Brimsole |"), 1); };
    EXPECT_EQ(person(Cell{"ada brimsole "}), 1) << "a name goes before a team";
    EXPECT_EQ(person(Cell{"Bero Tann"}), 2);
    EXPECT_EQ(person(Cell{"gulls"}), 1) << "a team is the row of its first person";
    EXPECT_EQ(person(Cell{"Selka"}), 0) << "a star is a star";
    EXPECT_EQ(person(Cell{" "}), 0) << "rows without a team have nobody's name";
    EXPECT_EQ(find(Cell{"gulls"}, Omitted{}, 1), 0);
    EXPECT_EQ(find(Cell{"Bero Tann"}, Omitted{}, 2), 2);
    EXPECT_EQ(find(Cell{"Selka"}, Omitted{}, 2), 0);
    EXPECT_EQ(find(Cell{""}, Omitted{}, 2), 0) << "blank rows are nobody";
}

TEST(PlanCells, AResultAsItIsWrittenAndWhatItRanksBy) {
    const auto workout = sheet("Workout", block::tide_table);
    const auto result = [&](std::string_view typed, int index) {
        return ask("workoutResult", workout,
                   {Cell{std::string("scaled")}, row_of(typed),
                    Range{3, 1, {Cell{"1:10"}, Cell{"2:25"}, Cell{Blank{}}}}, Cell{double(index)}});
    };
    EXPECT_EQ(text(result("6 | | | |", 2)), "2+6");
    EXPECT_EQ(number(result("6 | | | |", 3)), number(result("6 | | | |", 1)));
    EXPECT_EQ(text(result("6 | | | | yes", 2)), "withdrew");
    EXPECT_TRUE(std::holds_alternative<Blank>(result("6 | | | | yes", 3)));
    EXPECT_EQ(text(result("500 | | | |", 2)), "! unreadable");
    EXPECT_TRUE(std::holds_alternative<Blank>(result("500 | | | |", 3)));
    EXPECT_NE(message(result("500 | | | |", 1)), "");
    const auto renamed = [&](double index) {
        return ask("workoutResult", workout, {Cell{std::string("open")}, Cell{6.0}, Omitted{}, Cell{index}});
    };
    EXPECT_EQ(message(renamed(2)), "There is no division \"open\" in the workout.");
    EXPECT_TRUE(std::holds_alternative<Blank>(renamed(3))) << "no place with it";
    EXPECT_TRUE(std::holds_alternative<Blank>(renamed(4)));
    EXPECT_EQ(text(ask("workoutResult", workout, {Cell{0.0}, Cell{6.0}, Omitted{}, Cell{2.0}})), "! unreadable")
        << "a blank cell alone";
    EXPECT_EQ(text(result("6 | | | 5:30.5 |", 2)), "2+6");
    EXPECT_EQ(text(result("6 | | | late |", 2)), "! unreadable") << "the tie-break";
    EXPECT_TRUE(std::holds_alternative<Blank>(
        ask("workoutResult", workout,
            {Cell{std::string("scaled")}, Cell{std::string()}, Range{2, 1, {Cell{"2:25"}, Cell{"1:10"}}}, Cell{4.0}})))
        << "clocks that go back";
    // 70 s, then 75: 5 s of 72.5
    EXPECT_NEAR(number(result("", 4)), 5 / 72.5, 1e-9);
    const auto uneven = sheet("Workout", block::with(std::string(block::tide_table), "Sandbags   | rep     |      |",
                                                     "Sandbags | rep | first |"));
    EXPECT_TRUE(std::holds_alternative<Blank>(
        ask("workoutResult", uneven,
            {Cell{std::string("scaled")}, Cell{std::string()}, Range{2, 1, {Cell{"1:10"}, Cell{"2:25"}}}, Cell{4.0}})))
        << "rounds that differ";
    const auto no_unit = sheet(
        "Workout", block::with(std::string(block::tide_table), "Sandbags   | rep     |", "Sandbags   |         |"));
    const auto unplanned = [&](std::string_view typed, double index) {
        return ask("workoutResult", no_unit, {Cell{std::string("scaled")}, row_of(typed), row_of("|"), Cell{index}});
    };
    EXPECT_NE(message(unplanned("6 | | | |", 2)), "") << "a workout that is not complete";
    EXPECT_TRUE(std::holds_alternative<Blank>(unplanned("| | | |", 2))) << "of it, nothing typed";
    EXPECT_TRUE(std::holds_alternative<Blank>(unplanned("6 | | | |", 3)));
}

TEST(PlanCells, UsualValuesAreThoseOfTheMovementElseOfItsMachine) {
    const auto list = sheet("Lists", "usual.name | usual.rep_s | usual.handling_s\n"
                                     "Ring rows | 2 | \n"
                                     "ski cal | | 6\n"
                                     "Sandbags | 5 | 0\n");
    const auto usual = [&](std::string key, std::string movement, std::string unit) {
        return ask("workoutUsual", list, {Cell{std::move(key)}, Cell{std::move(movement)}, Cell{std::move(unit)}});
    };
    EXPECT_EQ(number(usual("usual.rep_s", "  RING rows ", "rep")), 2);
    EXPECT_EQ(number(usual("usual.handling_s", "Ring rows", "ski cal")), 6) << "no value for the movement";
    EXPECT_EQ(number(usual("usual.handling_s", "Sandbags", "ski cal")), 0) << "0 is a value";
    EXPECT_TRUE(std::holds_alternative<Blank>(usual("usual.handling_s", "", "")));
    EXPECT_TRUE(std::holds_alternative<Blank>(usual("usual.rep_s", "no such", "rep")));
    EXPECT_EQ(message(usual("usual.grip", "Ring rows", "")), "The list has no column \"usual.grip\".");
}

TEST(PlanCells, WhatIsNoBlockIsRefused) {
    const Row* row = find_method("workoutCheck");
    const auto answer = std::get<Cell>(row->evaluate(std::vector<Argument>{Cell{5.0}}));
    EXPECT_EQ(message(answer), "takes a range of cells.");
    const Event wide{sheet("W", std::string(1500, '\n')), sheet("T", tests_table)};
    EXPECT_EQ(message(wide.ask("athleteGoal", "Ilka Moorvane | scaled | | 6")),
              "takes the cells of a workout, at most 1000 rows and 200 columns.");
}

} // namespace
