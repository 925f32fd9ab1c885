// How often the ranges of a forecast hold: athletes are simulated in eight worlds and forecast on the way, and what
// they really reached is held against the range. Prints tables; nothing passes or fails.
//
// An athlete does 4 to 15 rounds, each off by 2 to 6 % at random. The worlds are invented, so the numbers say how the
// rules behave and not how people do. The seed is fixed: the table is the same in every run.
#include "pacecells/forecast.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <optional>
#include <random>
#include <string_view>
#include <vector>

namespace {

using namespace pacecells;

constexpr Seconds cap{1200};
constexpr int athletes = 400;
constexpr std::array parts{0.15, 0.30, 0.50, 0.70, 0.85}; // of the task

class Chance {
  public:
    double between(double from, double to) { return std::uniform_real_distribution<double>{from, to}(engine_); }
    double normal() { return std::normal_distribution<double>{}(engine_); }

  private:
    std::mt19937_64 engine_{20};
};

// How long a round takes beside the usual one, by its number from 0 and the part of the task that is done before it.
using Course = std::function<double(int, double)>;

struct World {
    std::string_view name;
    std::function<Course(Chance&, double)> course; // for so many rounds
};

double late(double from, double part, double times) { return part >= from ? times : 1; }

const std::array worlds{
    World{"steady", [](Chance&, double) { return [](int, double) { return 1.0; }; }},
    World{"fade 6 %", [](Chance&, double) { return [](int, double part) { return 0.97 + 0.06 * part; }; }},
    World{"fade 15 %", [](Chance&, double) { return [](int, double part) { return 0.925 + 0.15 * part; }; }},
    World{"blow-up: 12 to 30 % slower from 35 to 80 % on",
          [](Chance& chance, double) {
              return [from = chance.between(0.35, 0.80), times = chance.between(1.12, 1.30)](int, double part) {
                  return late(from, part, times);
              };
          }},
    World{"sprint: the last 15 % are 8 % faster",
          [](Chance&, double) { return [](int, double part) { return late(0.85, part, 0.92); }; }},
    World{"one bad round, 25 to 60 % slower",
          [](Chance& chance, double rounds) {
              return [which = static_cast<int>(chance.between(0, rounds)),
                      times = chance.between(1.25, 1.60)](int round, double) { return round == which ? times : 1; };
          }},
    World{"bad first round, 25 to 60 % slower",
          [](Chance& chance, double) {
              return [times = chance.between(1.25, 1.60)](int round, double) { return round == 0 ? times : 1; };
          }},
    World{"fast start: 12 and 5 % faster",
          [](Chance&, double) {
              return [](int round, double) { return round == 0 ? 0.88 : round == 1 ? 0.95 : 1.0; };
          }},
};

struct Athlete {
    std::vector<Seconds> clocks; // beyond the cap, too
    Seconds usual;

    [[nodiscard]] std::size_t done_by(double part) const {
        const auto after = std::upper_bound(clocks.begin(), clocks.end(), part * cap);
        return std::max<std::size_t>(1, static_cast<std::size_t>(after - clocks.begin()));
    }
    [[nodiscard]] double score() const { // in rounds, the last pro rata
        const auto whole =
            static_cast<std::size_t>(std::upper_bound(clocks.begin(), clocks.end(), cap) - clocks.begin());
        const Seconds before = whole == 0 ? Seconds{0} : clocks[whole - 1];
        return static_cast<double>(whole) + (cap - before) / (clocks[whole] - before);
    }
};

Athlete athlete_in(const World& world, Chance& chance) {
    const double rounds = chance.between(4, 15);
    const double noise = chance.between(0.02, 0.06);
    const Course course = world.course(chance, rounds);
    Athlete athlete{.clocks = {}, .usual = cap / rounds};
    Seconds clock{0};
    for (int round = 0; round < 60; ++round) {
        const double times = course(round, clock / cap) * std::max(0.3, 1 + noise * chance.normal());
        athlete.clocks.push_back(clock += athlete.usual * times);
    }
    return athlete;
}

class Tally {
  public:
    void add(double expected, double really, bool in_80, bool in_90, double width) {
        ++count_;
        squares_ += (expected - really) * (expected - really);
        in_80_ += in_80 ? 1 : 0;
        in_90_ += in_90 ? 1 : 0;
        widths_.push_back(width);
    }
    [[nodiscard]] double error() const { return std::sqrt(squares_ / count_); }
    [[nodiscard]] double covered_80() const { return 100 * in_80_ / count_; }
    [[nodiscard]] double covered_90() const { return 100 * in_90_ / count_; }
    [[nodiscard]] double median_width() {
        const auto half = widths_.begin() + static_cast<std::ptrdiff_t>(widths_.size() / 2);
        std::nth_element(widths_.begin(), half, widths_.end());
        return *half;
    }

  private:
    double count_ = 0;
    double squares_ = 0;
    double in_80_ = 0;
    double in_90_ = 0;
    std::vector<double> widths_;
};

void add_score(Tally& tally, const Athlete& athlete, double part, std::optional<Seconds> planned) {
    const auto one = RepsPerRound::every_round(1);
    const std::span<const Seconds> done{athlete.clocks.data(), athlete.done_by(part)};
    if (!(done.back() < cap))
        return;
    const auto at_80 = forecast(cap, done, *one, 0.8, planned);
    const auto at_90 = forecast(cap, done, *one, 0.9, planned);
    const double really = athlete.score();
    const auto inside = [&](const Forecast& range) {
        return range.low->value() <= really && really <= range.high->value();
    };
    tally.add(at_90->expected->value(), really, inside(*at_80), inside(*at_90),
              at_90->high->value() - at_90->low->value());
}

// The clock at the end of the last whole round before the cap, in usual rounds.
void add_finish(Tally& tally, const Athlete& athlete, double part) {
    const auto all = static_cast<std::size_t>(athlete.score());
    const std::size_t done = athlete.done_by(part);
    if (done >= all)
        return;
    const std::span<const Seconds> clocks{athlete.clocks.data(), done};
    const auto at_80 = forecast_finish(static_cast<double>(all), clocks, 0.8);
    const auto at_90 = forecast_finish(static_cast<double>(all), clocks, 0.9);
    const Seconds really = athlete.clocks[all - 1];
    const auto inside = [&](const FinishForecast& range) { return range.early <= really && really <= range.late; };
    tally.add(at_90->expected / athlete.usual, really / athlete.usual, inside(*at_80), inside(*at_90),
              (at_90->late - at_90->early) / athlete.usual);
}

template <class Add>
void table(const char* title, Add add) {
    std::printf("\n%s: error (root mean square, rounds), covered by the 80 / 90 %% range\n\n| world |", title);
    for (const double part : parts)
        std::printf(" %.0f %% |", 100 * part);
    std::printf("\n|---|---|---|---|---|---|\n");
    Chance chance;
    Tally all;
    for (const World& world : worlds) {
        std::array<Tally, parts.size()> tallies;
        for (int i = 0; i < athletes; ++i) {
            const Athlete athlete = athlete_in(world, chance);
            const Seconds plan = athlete.usual * (1 + 0.08 * chance.normal());
            for (std::size_t k = 0; k < parts.size(); ++k) {
                add(tallies[k], athlete, parts[k], plan);
                add(all, athlete, parts[k], plan);
            }
        }
        std::printf("| %s |", world.name.data());
        for (const Tally& tally : tallies)
            std::printf(" %.2f, %.0f / %.0f |", tally.error(), tally.covered_80(), tally.covered_90());
        std::printf("\n");
    }
    std::printf("| all alike | %.3f, %.1f / %.1f; 90 %% range %.2f rounds wide (median) |\n", all.error(),
                all.covered_80(), all.covered_90(), all.median_width());
}

} // namespace

int main() {
    table("Score at the cap",
          [](Tally& tally, const Athlete& athlete, double part, Seconds) { add_score(tally, athlete, part, {}); });
    table("The same with a planned round that is 8 % off", add_score);
    table("Clock at the finish",
          [](Tally& tally, const Athlete& athlete, double part, Seconds) { add_finish(tally, athlete, part); });
}
