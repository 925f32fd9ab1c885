#include "pacecells/result.h"

namespace pacecells {

std::string Error::message() const {
    std::vector<std::string> values;
    for (const auto& one : told) {
        const auto* number = std::get_if<double>(&one);
        values.push_back(number ? number_text(*number) : *std::get_if<std::string>(&one));
    }
    return filled(sentence, values);
}

} // namespace pacecells
