// Prints the plans of cases for tests/reference/naive_plan.py. A case on standard input: its parts (tests/unit/plan_lines.h)
// with a line "--" between, and "==". The last line of each answer is "==".
#include "../unit/plan_lines.h"

#include <iostream>
#include <string>
#include <vector>

int main() {
    std::vector<std::string> parts(1);
    for (std::string text; std::getline(std::cin, text);) {
        if (text == "--") {
            parts.emplace_back();
        } else if (text == "==") {
            pacecells::plan_lines::answer(std::cout, parts);
            std::cout << "==\n";
            parts.assign(1, {});
        } else {
            parts.back() += text + "\n";
        }
    }
}
