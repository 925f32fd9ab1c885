#include "pacecells/result.h"

#include <algorithm>
#include <iterator>

namespace pacecells {

namespace {

std::string message_of(std::string_view sentence, const std::vector<Told>& told) {
    std::vector<std::string> values;
    std::ranges::transform(told, std::back_inserter(values), told_text);
    return filled(sentence, values);
}

} // namespace

std::string told_text(const Told& told) {
    if (const auto* number = std::get_if<double>(&told))
        return number_text(*number);
    if (const auto* place = std::get_if<Place>(&told))
        return "row " + std::to_string(place->row + 1) + ", column " + std::to_string(place->column + 1);
    return *std::get_if<std::string>(&told);
}

std::string Error::message() const { return message_of(sentence, told); }

std::string Said::message() const { return message_of(sentence, told); }

} // namespace pacecells
