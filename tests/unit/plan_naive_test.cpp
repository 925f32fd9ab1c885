// Plans beside those of a second, naive implementation (tests/reference/naive_plan.py), which wrote tests/data/plans.txt.
#include "plan_lines.h"

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace pacecells {
namespace {

std::optional<double> number(const std::string& word) {
    double value = 0;
    const auto read = std::from_chars(word.data(), word.data() + word.size(), value);
    return read.ptr == word.data() + word.size() ? std::optional(value) : std::nullopt;
}

// "*" is what the naive plan does not say.
bool alike(const std::string& got, const std::string& wanted) {
    const auto a = number(got);
    const auto b = number(wanted);
    return wanted == "*" || got == wanted || (a && b && std::abs(*a - *b) <= 1e-6 * (1 + std::abs(*b)));
}

// How many numbers are compared.
int compare(const std::string& got, const std::string& wanted, const std::string& which) {
    std::istringstream ours{got};
    std::istringstream naive{wanted};
    int compared = 0;
    for (std::string line, other; std::getline(naive, other);) {
        EXPECT_TRUE(std::getline(ours, line)) << which << ": no line for " << other;
        std::istringstream words{line};
        std::istringstream others{other};
        for (std::string word, want; others >> want; ++compared) {
            words >> word;
            EXPECT_TRUE(alike(word, want)) << which << "\ngot      " << line << "\nexpected " << other;
            if (!alike(word, want))
                return compared;
        }
    }
    return compared;
}

TEST(NaivePlan, IsThatOfTheModel) {
    std::ifstream file{std::string{PACECELLS_TEST_DATA} + "/plans.txt"};
    std::vector<std::string> parts(1);
    int cases = 0;
    int compared = 0;
    for (std::string text; std::getline(file, text);) {
        if (text.starts_with('#'))
            continue;
        if (text == "--") {
            parts.emplace_back();
        } else if (text == "==") {
            std::ostringstream got;
            plan_lines::answer(got, parts);
            compared += compare(got.str(), parts.at(3), parts[0]);
            ++cases;
            parts.assign(1, {});
        } else {
            parts.back() += text + "\n";
        }
    }
    EXPECT_GE(cases, 120);
    EXPECT_GE(compared, 15000);
}

} // namespace
} // namespace pacecells
