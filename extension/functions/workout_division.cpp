#include "workout_division.h"

namespace pacecells {

namespace {

Result<std::size_t> division_in(const Workout& workout, const std::optional<NumberOrText>& name) {
    if (!name)
        return std::size_t{0};
    const auto* number = std::get_if<double>(&name->value);
    const auto text = number ? number_text(*number) : *std::get_if<std::string>(&name->value);
    const auto found = workout.division(text);
    if (!found)
        return out_of_domain("There is no division %1 in the workout.", quoted(text));
    return *found;
}

} // namespace

bool names_none(const NumberOrText& division) {
    const auto* number = std::get_if<double>(&division.value);
    return number ? *number == 0 : is_blank(Cell{std::get<std::string>(division.value)});
}

Result<InDivision> division_of(const AreaPointer& workout, const std::optional<NumberOrText>& name) {
    const auto task = workout_in(workout);
    if (!task)
        return task.error();
    const auto division = division_in(**task, name);
    if (!division)
        return division.error();
    return InDivision{*task, *division};
}

} // namespace pacecells
