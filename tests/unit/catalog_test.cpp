// The catalog as a whole, and what the typed readers and the array form make of cells.
#include "catalog.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace pacecells;

Answer evaluate(std::string_view method, std::vector<Argument> arguments) {
    const Row* row = find_method(method);
    if (!row)
        return Cell{no_solution("There is no such function.")};
    arguments.resize(row->arity, Omitted{});
    return row->evaluate(arguments);
}

Argument cell(double value) { return Cell{value}; }
Argument cell(const char* text) { return Cell{std::string(text)}; }
Argument column(std::vector<Cell> cells) {
    const int rows = static_cast<int>(cells.size());
    return Range{rows, 1, std::move(cells)};
}

double number(const Answer& answer) {
    const auto* one = std::get_if<Cell>(&answer);
    const auto* value = one ? std::get_if<double>(one) : nullptr;
    EXPECT_NE(value, nullptr);
    return value ? *value : -1e300;
}

std::string message(const Answer& answer) {
    const auto* one = std::get_if<Cell>(&answer);
    const auto* error = one ? std::get_if<Error>(one) : nullptr;
    return error ? error->message() : "";
}

bool refused(const Answer& answer) {
    const auto* one = std::get_if<Cell>(&answer);
    const auto* error = one ? std::get_if<Error>(one) : nullptr;
    return error && error->kind == ErrorKind::out_of_domain;
}

TEST(Catalog, HoldsEveryReleasedName) {
    std::set<std::string> present;
    for (const auto& row : catalog())
        EXPECT_TRUE(present.insert(std::string(row.method) + " " + std::string(row.name)).second) << row.name;
    std::ifstream file(PACECELLS_NAMES_LOCK);
    std::size_t released = 0;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#')
            continue;
        EXPECT_TRUE(present.contains(line)) << line << ": workbooks hold this name, it must never change";
        ++released;
    }
    EXPECT_GT(released, 0U);
}

TEST(Catalog, EveryRowTellsWhatAPersonNeeds) {
    for (const auto& row : catalog()) {
        EXPECT_FALSE(row.description.empty()) << row.name;
        EXPECT_FALSE(row.domain.empty()) << row.name;
        EXPECT_FALSE(row.source.empty()) << row.name;
        EXPECT_FALSE(row.example.answer.empty()) << row.name;
        bool optional_seen = false;
        for (const auto& parameter : row.parameters()) {
            EXPECT_FALSE(parameter.description.empty()) << row.name << " " << parameter.name;
            EXPECT_TRUE(parameter.optional || !optional_seen) << row.name << ": a required one after an optional one";
            optional_seen |= parameter.optional;
        }
    }
}

// The arguments of an example as the office hands them over: numbers, texts in quotes, inline arrays {1|2}, left out.
std::vector<Argument> arguments_of(std::string_view typed) {
    const auto one = [](std::string_view text) -> Cell {
        if (text.starts_with('"'))
            return std::string(text.substr(1, text.size() - 2));
        return std::stod(std::string(text));
    };
    std::vector<std::string> parts(1);
    int depth = 0;
    bool quoted = false;
    for (const char c : typed) {
        quoted ^= c == '"';
        depth += quoted ? 0 : (c == '{') - (c == '}');
        if (c == ';' && !quoted && depth == 0)
            parts.emplace_back();
        else
            parts.back() += c;
    }
    std::vector<Argument> arguments;
    for (std::string_view part : parts) {
        if (part.empty()) {
            arguments.emplace_back(Omitted{});
        } else if (part.starts_with('{')) {
            std::vector<Cell> cells;
            part = part.substr(1, part.size() - 2);
            for (;;) {
                const auto end = part.find('|');
                cells.push_back(one(part.substr(0, end)));
                if (end == std::string_view::npos)
                    break;
                part.remove_prefix(end + 1);
            }
            arguments.push_back(column(std::move(cells)));
        } else {
            arguments.emplace_back(one(part));
        }
    }
    return arguments;
}

std::vector<Cell> cells_of(const Answer& answer) {
    if (const auto* one = std::get_if<Cell>(&answer))
        return {*one};
    return std::get<Range>(answer).cells;
}

// Functions of a range as an object are asked in the office: their default is the constant that the adapter reads.
TEST(Catalog, ALeftOutParameterIsTakenAsItsDefault) {
    int compared = 0;
    for (const auto& row : catalog()) {
        const auto parameters = row.parameters();
        if (std::ranges::any_of(parameters, &Parameter::area))
            continue;
        for (std::size_t i = 0; i < parameters.size(); ++i) {
            const auto& value = parameters[i].left_out;
            EXPECT_FALSE(value.number && !value.word.empty());
            if (!value.number && value.word.empty())
                continue;
            EXPECT_TRUE(parameters[i].optional) << row.name << " " << parameters[i].name;
            auto arguments = arguments_of(row.example.arguments);
            arguments.resize(row.arity, Omitted{});
            arguments[i] = Omitted{};
            const auto left_out = cells_of(row.evaluate(arguments));
            arguments[i] =
                value.number ? Cell{*value.number / (parameters[i].time ? 86400 : 1)} : Cell{std::string(value.word)};
            const auto typed = cells_of(row.evaluate(arguments));
            ASSERT_EQ(left_out.size(), typed.size()) << row.name << " " << parameters[i].name;
            for (std::size_t k = 0; k < typed.size(); ++k) {
                ASSERT_EQ(left_out[k].index(), typed[k].index()) << row.name << " " << parameters[i].name;
                EXPECT_FALSE(std::holds_alternative<Error>(typed[k])) << row.name << " " << parameters[i].name;
                if (const auto* number = std::get_if<double>(&typed[k])) {
                    EXPECT_NEAR(std::get<double>(left_out[k]), *number, 1e-12) << row.name << " " << parameters[i].name;
                }
                if (const auto* text = std::get_if<std::string>(&typed[k])) {
                    EXPECT_EQ(std::get<std::string>(left_out[k]), *text) << row.name << " " << parameters[i].name;
                }
            }
            ++compared;
        }
    }
    EXPECT_GT(compared, 25);
}

// Every parameter in turn, the others as in the example. Functions of a range as an object read cells by their own rules.
TEST(Catalog, NoParameterTakesANumberThatNobodyCanMean) {
    const double date = 46351; // a day of 2026 as Calc counts
    // A date is a number that may be meant: joules, metres, the day of a start, whoever is called by a number.
    const std::set<std::string_view> may_be_a_date{"reserve_J", "distance", "known_distance", "first_start", "judges"};
    int asked = 0;
    for (const auto& row : catalog()) {
        const auto parameters = row.parameters();
        if (std::ranges::any_of(parameters, &Parameter::area))
            continue;
        for (std::size_t i = 0; i < parameters.size(); ++i) {
            auto arguments = arguments_of(row.example.arguments);
            arguments.resize(row.arity, Omitted{});
            for (const double value : {1e308, -1e308, date}) {
                if (parameters[i].name == "judges" || (value == date && may_be_a_date.contains(parameters[i].name)))
                    continue;
                // Read only beside a goal or a score in text.
                if (parameters[i].name == "reps_per_round" && value < 0)
                    continue;
                arguments[i] = cell(value);
                EXPECT_TRUE(refused(row.evaluate(arguments))) << row.name << " " << parameters[i].name << " " << value;
                ++asked;
            }
        }
    }
    EXPECT_GT(asked, 500);
}

TEST(Cells, ATimeIsAShareOfADayOrText) {
    EXPECT_NEAR(number(evaluate("paceRound", {cell(18.0 / 1440), cell(8)})) * 86400, 135, 1e-9);
    EXPECT_NEAR(number(evaluate("paceRound", {cell("18:00"), cell(8)})) * 86400, 135, 1e-9);
}

TEST(Cells, HoursWhereMinutesWereMeantAreCaught) {
    EXPECT_TRUE(refused(evaluate("paceRound", {cell(20.0 / 24), cell(8)})));
    EXPECT_TRUE(refused(evaluate("paceRehearsal", {cell(2.5 / 24)})));
    EXPECT_TRUE(refused(evaluate("paceRounds", {cell("18:00"), cell("19:00")})));
    EXPECT_TRUE(refused(evaluate("ergConvert", {cell("10:00"), cell("split"), cell("W")})));
}

TEST(Cells, ATimeWhereSecondsAreMeantIsUnderstoodBelowAnHour) {
    const auto plain = number(evaluate("ergTime", {cell(15), cell(1000), cell(6.0)}));
    EXPECT_NEAR(number(evaluate("ergTime", {cell(15), cell(1000), cell(6.0 / 86400)})), plain, 1e-12);
    EXPECT_NEAR(number(evaluate("ergTime", {cell(15), cell(1000), cell("0:06")})), plain, 1e-12);
    EXPECT_TRUE(refused(evaluate("ergTime", {cell(15), cell(1000), cell(1.0 / 24)})));
    EXPECT_TRUE(refused(evaluate("ergTime", {cell(15), cell(1000), cell(0.1699)})));
    EXPECT_FALSE(refused(evaluate("ergTime", {cell(15), cell(1000), cell(0.17)})));
}

TEST(Cells, WhatNobodyCanMeanIsRefused) {
    const double date = 46351; // a day of 2026 as Calc counts
    EXPECT_TRUE(refused(evaluate("ergTime", {cell(date), cell(1000)})));
    EXPECT_TRUE(refused(evaluate("ergTime", {cell(15), cell(date)})));
    EXPECT_TRUE(refused(evaluate("paceErgneed", {cell("2:00"), cell(1e308), cell(60)})));
    EXPECT_TRUE(refused(evaluate("testFloor", {cell("18:00"), cell(3001), cell(18000)})));
    EXPECT_TRUE(refused(evaluate("testFloor", {cell("18:00"), cell(240), cell(100001)})));
    EXPECT_TRUE(refused(evaluate("setsMaxreps", {cell(1001), cell(2000)})));
    EXPECT_FALSE(refused(evaluate("setsMaxreps", {cell(999), cell(1000)})));
    EXPECT_TRUE(refused(evaluate("paceErgneed", {cell("2:00"), cell(10), cell(14'401)})));
    EXPECT_EQ(message(evaluate("setsPlan", {cell(9), cell(9), cell(18), cell(14'401)})),
              "needs a number up to 14400, got 14401: nobody can mean more.");
    EXPECT_FALSE(refused(evaluate("setsPlan", {cell(9), cell(9), cell(18), cell(14'400)})));
    EXPECT_TRUE(refused(evaluate("setsPlan", {cell(9), cell(9), cell(18), cell(80), cell(3), cell(1), cell(101)})));
    EXPECT_TRUE(refused(evaluate("scoreForecast", {cell("20:00"), cell("2:10"), column({30.0, 46351.0})})));
    EXPECT_TRUE(refused(evaluate("testCritical", {column({2.0 / 1440, 12.0 / 1440}), column({400.0, 3001.0})})));
    EXPECT_TRUE(refused(evaluate("paceRound", {cell("20:00"), cell(10'000)})));
    EXPECT_TRUE(refused(evaluate("scoreReps", {cell(10'000), cell(30)})));
}

TEST(Cells, AConversionHasTheBoundOfItsUnit) {
    const auto from = [](auto value, const char* unit, const char* to) {
        return evaluate("ergConvert", {cell(value), cell(unit), cell(to)});
    };
    EXPECT_TRUE(refused(from(5001.0, "cal/h", "W")));
    EXPECT_FALSE(refused(from(5000.0, "cal/h", "W")));
    EXPECT_TRUE(refused(from(3001.0, "W", "cal/h")));
    EXPECT_FALSE(refused(from(3000.0, "W", "cal/h")));
    // 500 m at 3000 W: 500 (2.80 / 3000)^(1/3) = 48.86 s.
    EXPECT_FALSE(refused(from("0:48.9", "split", "W")));
    EXPECT_EQ(message(from("0:48", "split", "W")), "A split of 48 s is 3165 W: nobody can mean more than 3000 W.");
}

TEST(StationsBlock, AnAmountNobodyCanMeanIsRefused) {
    const auto time = [](const char* unit, double amount, Cell rate) {
        return evaluate("planRoundtime", {cell(unit), cell(amount), column({std::move(rate)}), cell(0.0)});
    };
    EXPECT_TRUE(refused(time("rep", 10'000, 2.0)));
    EXPECT_FALSE(refused(time("rep", 9'999, 2.0)));
    EXPECT_TRUE(refused(time("row cal", 10'001, 1000.0)));
    EXPECT_TRUE(refused(time("row cal", 15, 5'001.0)));
    EXPECT_TRUE(refused(time("run m", 100'001, std::string("4:30"))));
    EXPECT_TRUE(refused(time("hold", 14'401, 0.0)));
    EXPECT_FALSE(refused(time("hold", 14'400, 0.0)));
}

TEST(Cells, ATimeOfDayIsNeverNegative) {
    const std::vector<Argument> heats{cell("A"), cell(80), cell(2), cell("-0:30")};
    EXPECT_TRUE(refused(evaluate("heatList", heats)));
}

TEST(Cells, WhatIsLeftOutIsTheDefaultAndWhatIsBlankIsZero) {
    EXPECT_NEAR(number(evaluate("paceRehearsal", {cell("2:12"), Omitted{}})) * 86400, 160, 1e-9);
    EXPECT_TRUE(refused(evaluate("paceRehearsal", {cell("2:12"), cell(0.0)})));
    EXPECT_TRUE(refused(evaluate("paceRehearsal", {Omitted{}})));
}

TEST(Cells, OneValueIsNotARangeOfSeveral) {
    EXPECT_TRUE(refused(evaluate("ergTime", {cell(15), column({1000.0, 900.0})})));
    EXPECT_NEAR(number(evaluate("ergTime", {cell(15), column({1000.0})})) * 86400, 54, 1e-9);
}

TEST(Cells, AMessageNamesTheArgument) {
    const auto answer = evaluate("ergTime", {cell(15), Omitted{}});
    EXPECT_EQ(message(answer), "is needed and was left out.");
    EXPECT_EQ(std::get_if<Error>(std::get_if<Cell>(&answer))->argument, 1);
}

TEST(Cells, ASentenceThatIsWholeNamesNoArgument) {
    const auto answer = evaluate("ergConvert", {cell(1000), cell("knots"), cell("W")});
    EXPECT_EQ(message(answer), "\"knots\" is not a unit here: write cal/h, W or split.");
    EXPECT_EQ(std::get_if<Error>(std::get_if<Cell>(&answer))->argument, -1);
}

TEST(Cells, WhatTheCallerCouldNotHandOverIsRefused) {
    const Argument broken = Cell{out_of_domain("takes rows of equal length.")};
    for (const auto& answer : {evaluate("ergTime", {broken, cell(1000)}), evaluate("ergTime", {cell(15), broken}),
                               evaluate("scoreFade", {broken}), evaluate("ergTime", {cell(15), cell(1000), broken})})
        EXPECT_EQ(message(answer), "takes rows of equal length.");
}

TEST(ArrayForm, RefusesMoreTextsThanTheOfficeCanShow) {
    const auto blanks = [](int rows) {
        Range range{rows, 1, {}};
        range.cells.resize(static_cast<std::size_t>(rows), Blank{});
        range.cells.front() = 15.0;
        return range;
    };
    EXPECT_TRUE(refused(evaluate("ergTime", {blanks(100'002), cell(1000)})));
    EXPECT_FALSE(refused(evaluate("ergTime", {blanks(100'001), cell(1000)})));
    Range numbers{200'000, 1, {}};
    numbers.cells.resize(200'000, Cell{15.0});
    EXPECT_FALSE(refused(evaluate("ergTime", {numbers, cell(1000)})));
}

TEST(ArrayForm, KeepsTheShapeWithErrorsAndBlanksInTheirPlace) {
    const auto answer = evaluate("ergTime", {column({15.0, Blank{}, -1.0, 30.0}), cell(1000)});
    const auto* range = std::get_if<Range>(&answer);
    ASSERT_NE(range, nullptr);
    ASSERT_EQ(range->rows, 4);
    ASSERT_EQ(range->columns, 1);
    EXPECT_NEAR(*std::get_if<double>(&range->cells[0]) * 86400, 54, 1e-9);
    EXPECT_TRUE(std::holds_alternative<Blank>(range->cells[1]));
    EXPECT_TRUE(std::holds_alternative<Error>(range->cells[2]));
    EXPECT_NEAR(*std::get_if<double>(&range->cells[3]) * 86400, 108, 1e-9);
}

TEST(ArrayForm, PlacesGroupByGroup) {
    const auto answer =
        evaluate("scorePlace", {column({44.0, 42.0, Blank{}, 41.0}), column({44.0, 42.0, Blank{}, 41.0}), Omitted{},
                                column({std::string("A"), std::string("b"), Blank{}, std::string(" B")}),
                                column({std::string("A"), std::string("b"), Blank{}, std::string(" B")})});
    const auto* range = std::get_if<Range>(&answer);
    ASSERT_NE(range, nullptr);
    EXPECT_EQ(*std::get_if<double>(&range->cells[0]), 1);
    EXPECT_EQ(*std::get_if<double>(&range->cells[1]), 1);
    EXPECT_TRUE(std::holds_alternative<Blank>(range->cells[2]));
    EXPECT_EQ(*std::get_if<double>(&range->cells[3]), 2);
}

TEST(StationsBlock, BlankRowsAreSpareAndBlankCellsAreZero) {
    const auto round = evaluate("planRoundtime", {column({std::string("rep"), Blank{}, std::string("Row  CAL")}),
                                                  column({10.0, std::string("spare"), 15.0}),
                                                  column({3.0, Blank{}, 1000.0}), column({6.0, Blank{}, Blank{}})});
    EXPECT_NEAR(number(round) * 86400, 30 + 6 + 54, 1e-9);
}

TEST(StationsBlock, AMissingRateIsRefusedOnlyWhereItIsNeeded) {
    const std::vector<Argument> needed{column({std::string("rep"), std::string("hold")}), column({10.0, 30.0}),
                                       column({Blank{}, Blank{}}), column({0.0, 0.0})};
    EXPECT_TRUE(refused(evaluate("planRoundtime", needed)));
    const std::vector<Argument> dropped{column({std::string("rep"), std::string("hold")}), column({0.0, 30.0}),
                                        column({Blank{}, Blank{}}), column({5.0, 0.0})};
    EXPECT_NEAR(number(evaluate("planRoundtime", dropped)) * 86400, 30, 1e-9);
}

} // namespace
