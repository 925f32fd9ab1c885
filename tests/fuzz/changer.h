// Changes formulas as a fuzzer wants them: an example of the catalog, some of its arguments exchanged.
#pragma once

#include "formula.h"

#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <iterator>
#include <limits>
#include <random>
#include <string>
#include <vector>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace pacecells::fuzz {

inline constexpr double minute = 1.0 / 1440;

class Changer {
    std::size_t below(std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_); }
    bool chance(std::size_t one_in) { return below(one_in) == 0; }
    double from(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
    const auto& pick(const auto& list) {
        return *(std::begin(list) + static_cast<std::ptrdiff_t>(below(std::size(list))));
    }

  public:
    explicit Changer(unsigned seed) : random_(seed) {}

    Formula change(std::optional<Formula> formula) {
        if (!formula || chance(8))
            formula = fuzz::example(*pick(alone()));
        do {
            change(formula->arguments[below(formula->arguments.size())]);
        } while (chance(2));
        return *std::move(formula);
    }

  private:
    // The functions that need no cells of a sheet.
    static const std::vector<const Row*>& alone() {
        static const auto rows = [] {
            std::vector<const Row*> found;
            for (const auto& row : catalog())
                if (std::ranges::none_of(row.parameters(), &Parameter::area))
                    found.push_back(&row);
            return found;
        }();
        return rows;
    }

    void change(Argument& argument) {
        auto* one = std::get_if<Cell>(&argument);
        auto* range = std::get_if<Range>(&argument);
        if (chance(10)) {
            argument = Omitted{};
        } else if (chance(12)) {
            argument = any_range();
        } else if (one && chance(12)) {
            argument = Range{static_cast<int>(1 + below(3)), 1, {}};
            auto& made = *std::get_if<Range>(&argument);
            for (int row = 0; row < made.rows; ++row)
                made.cells.push_back(any_cell());
        } else if (one) {
            change(*one);
        } else if (range) {
            change(*range);
        } else {
            argument = any_cell();
        }
    }

    void change(Range& range) {
        const auto columns = static_cast<std::ptrdiff_t>(range.columns);
        if (chance(4) && range.rows > 1) {
            range.cells.erase(range.cells.end() - columns, range.cells.end());
            --range.rows;
        } else if (chance(4) && range.cells.size() < 200) {
            const std::vector<Cell> last(range.cells.end() - columns, range.cells.end());
            range.cells.insert(range.cells.end(), last.begin(), last.end());
            ++range.rows;
            change(range.cells.back());
        } else {
            change(range.cells[below(range.cells.size())]);
        }
    }

    void change(Cell& one) {
        if (auto* value = std::get_if<double>(&one); value && !chance(4)) {
            const double steps[] = {*value * 2,
                                    *value / 2,
                                    *value + 1,
                                    *value - 1,
                                    *value * from(0.9, 1.1),
                                    std::round(*value),
                                    -*value,
                                    std::nextafter(*value, 1e9)};
            *value = pick(steps);
        } else if (auto* words = std::get_if<std::string>(&one); words && !words->empty() && !chance(4)) {
            words->resize(words->size() + 8);
            const auto size =
                LLVMFuzzerMutate(reinterpret_cast<std::uint8_t*>(words->data()), words->size() - 8, words->size());
            words->resize(size);
            std::erase(*words, '"');
        } else {
            one = any_cell();
        }
    }

    Cell any_cell() {
        static const std::string words[] = {
            "2:30",  "1:02:30", "20:00", "0:00",  "9:00",    "7+21", "0+0",     "3-3-3", "3-2/3-2", "4x2",    "9x1",
            "split", "cal/h",   "W",     "row",   "ski",     "bike", "armbike", "rep",   "row cal", "bike m", "run m",
            "hold",  "carry m", "rest",  "epley", "brzycki", "high", "low",     "a",     "",        " "};
        static const double odd[] = {0.0,
                                     -0.0,
                                     1,
                                     -1,
                                     2147483647,
                                     2147483648.0,
                                     4294967296.0,
                                     1e9,
                                     1e15,
                                     1e300,
                                     std::numeric_limits<double>::max(),
                                     std::numeric_limits<double>::min(),
                                     std::numeric_limits<double>::denorm_min(),
                                     std::numeric_limits<double>::infinity(),
                                     -std::numeric_limits<double>::infinity(),
                                     std::numeric_limits<double>::quiet_NaN(),
                                     std::bit_cast<double>(0x7FF80000000001F6u),
                                     std::bit_cast<double>(0x7FF0000000000001u),
                                     0.17,
                                     0.9,
                                     1e-9,
                                     1 - 1e-9,
                                     300,
                                     999,
                                     1000};
        switch (below(8)) {
        case 0:
            return Blank{};
        case 1:
            return pick(words);
        case 2:
            return pick(odd);
        case 3:
            return from(0, 2);
        case 4:
            return from(0.1, 30) * minute;
        case 5:
            return std::round(from(0, 40));
        case 6:
            return std::round(from(0, 2000));
        default:
            return std::bit_cast<double>(std::uniform_int_distribution<std::uint64_t>()(random_));
        }
    }

    Range any_range() {
        Range range{static_cast<int>(1 + below(6)), static_cast<int>(1 + below(3)), {}};
        for (int i = 0; i < range.rows * range.columns; ++i)
            range.cells.push_back(any_cell());
        return range;
    }

    std::minstd_rand random_;
};

} // namespace pacecells::fuzz
