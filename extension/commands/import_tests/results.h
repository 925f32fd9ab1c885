// What a file of test results knows: values by person, machine and movement, each checked by what the sheet Tests takes.
#pragma once

#include "event_cells.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

enum class FieldKind { number, date, time };

struct ResultField {
    ShownText label;
    FieldKind kind;
    double least; // what the sheet Tests takes
    double most;
};

inline constexpr std::size_t of_machine = 5; // a machine's values, in the order of their columns
inline constexpr std::size_t of_movement = 4;
inline constexpr std::size_t date_of_test = 2;

inline constexpr std::array<ResultField, of_machine> machine_fields{{
    {"critical power", FieldKind::number, 20, 900},
    {"reserve", FieldKind::number, 500, 80000},
    {"date", FieldKind::date, 36526, 73050},
    {"time of one test", FieldKind::time, 20.0 / 86400, 4.0 / 24 - 1e-9},
    {"calories of one test", FieldKind::number, 1, 2000},
}};
inline constexpr std::array<ResultField, of_movement> movement_fields{{
    {"longest set", FieldKind::number, 1, 999},
    {"one-rep max", FieldKind::number, 1, 999},
    {"seconds per rep", FieldKind::number, 0.17, 600},
    {"recovery", FieldKind::number, 0.1, 10},
}};

// The cells of a machine on the sheet Tests; the fan bike has its date and single test alone, for its calories follow no
// formula of power.
struct MachineCells {
    const char* name;
    std::size_t first; // of machine_fields
};
inline constexpr std::array<MachineCells, 4> machine_cells{
    {{"tests_row", 0}, {"tests_ski", 0}, {"tests_bike", 0}, {"tests_armbike", date_of_test}}};
inline constexpr std::size_t machine_count = machine_cells.size();

[[nodiscard]] std::string shown(const ResultField& field, double value);
[[nodiscard]] std::optional<double> typed_value(const ResultField& field, std::string_view text);

// The values of one machine or one movement.
struct Results {
    std::vector<std::optional<double>> values;
    std::string unreadable; // the first that cannot be taken over, in words; then none is

    [[nodiscard]] bool known() const {
        return std::ranges::any_of(values, [](const auto& value) { return value.has_value(); });
    }
    void refuse(const ResultField& field, const std::string& text);
    void put(std::size_t column, const ResultField& field, double value);
};

struct TestedPerson {
    std::string name;
    std::array<Results, machine_count> machines;
    std::vector<Results> movements; // in the order of ResultFile::movements
    std::string note;
};

struct ResultFile {
    std::vector<std::string> movements;
    std::size_t of_each_movement = of_movement; // values that the file has columns for, the first ones
    std::vector<TestedPerson> people;
    std::vector<std::string> unread; // columns whose heading says nothing known
};

[[nodiscard]] TestedPerson person_with(std::string name, const ResultFile& file);

// A workbook of ours that another command takes is refused: the sentence names the command.
void refuse_what_goes_elsewhere(const Document& document);

// Another event workbook, an older tests workbook, or a list as CSV. Refused with a sentence where it is none of these.
[[nodiscard]] ResultFile read_results(const Context& context, const std::string& url);
[[nodiscard]] ResultFile read_results_workbook(const Document& document);
[[nodiscard]] ResultFile read_results_list(const std::string& text);

} // namespace pacecells
