// Answers cases for tests/reference/check.py: one case a line on standard input, a name and numbers, one answer a line.
// An answer is numbers with all their digits; an error is a word in the place of its number.
#include "pacecells/critical_power.h"
#include "pacecells/forecast.h"
#include "pacecells/reserve.h"
#include "pacecells/score.h"
#include "pacecells/sets.h"

#include <iomanip>
#include <iostream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

using namespace pacecells;

namespace {

const char* word(const Error& error) {
    switch (error.kind) {
    case ErrorKind::out_of_domain:
        return "out_of_domain";
    case ErrorKind::no_solution:
        return "no_solution";
    case ErrorKind::not_available:
        return "not_available";
    }
    return "?";
}

double number(double value) { return value; }
template <class Tag>
double number(Quantity<Tag> value) {
    return value.value();
}

template <class T>
void print(const Result<T>& result) {
    if (result)
        std::cout << number(*result) << ' ';
    else
        std::cout << word(result.error()) << ' ';
}

MixedTask task(const std::vector<double>& in) {
    return {.cap = Seconds{in[0]},
            .calories = Kilocalories{in[1]},
            .other = {.time = Seconds{in[2]}, .walk = Seconds{in[6]}, .rest = Seconds{in[7]}},
            .values = {.critical = Watts{in[3]}, .reserve = Joules{in[4]}},
            .work_share = in[5]};
}

SetWork set_work(const std::vector<double>& in) {
    return {.reps = static_cast<int>(in[0]),
            .rounds = in[1],
            .max_unbroken = Reps{in[2]},
            .away = Seconds{in[3]},
            .margin = Reps{in[4]},
            .recovery = in[5]};
}

void answer(const std::string& name, const std::vector<double>& in) {
    if (name == "critical") { // time, watts, time, watts, ...
        std::vector<Seconds> times;
        std::vector<Watts> watts;
        for (std::size_t i = 0; i + 1 < in.size(); i += 2) {
            times.emplace_back(in[i]);
            watts.emplace_back(in[i + 1]);
        }
        if (const auto fit = fit_critical_power(times, watts)) {
            std::cout << fit->values.critical.value() << ' ' << fit->values.reserve.value() << ' ';
            if (fit->r_squared)
                std::cout << fit->critical_error->value() << ' ' << fit->reserve_error->value() << ' '
                          << *fit->r_squared;
        } else {
            std::cout << word(fit.error());
        }
    } else if (name == "forecast") { // cap, confidence, plan or 0, clocks; one rep a round
        const auto one = RepsPerRound::every_round(1);
        const std::vector<Seconds> clocks(in.begin() + 3, in.end());
        const auto planned = in[2] > 0 ? std::optional{Seconds{in[2]}} : std::nullopt;
        if (const auto got = forecast(Seconds{in[0]}, clocks, *one, in[1], planned)) {
            print(got->low);
            print(got->expected);
            print(got->high);
        } else {
            std::cout << word(got.error());
        }
    } else if (name == "fade") { // clocks
        const std::vector<Seconds> clocks(in.begin(), in.end());
        print(fade(clocks));
        print(steadiness(clocks));
    } else if (name == "left") { // task, rate, round or 0
        print(reserve_left(task(in), CaloriesPerHour{in[8]}, in[9] > 0 ? std::optional{in[9]} : std::nullopt));
    } else if (name == "hold") { // task, keep
        print(hold_rate(task(in), in[8]));
    } else if (name == "sets_left") { // rounds, maximum, away, rest, recovery, sets
        std::string scheme;
        for (std::size_t i = 5; i < in.size(); ++i)
            scheme += (i > 5 ? "-" : "") + std::to_string(static_cast<int>(in[i]));
        print(reps_left(*Scheme::parse(scheme), in[0], Reps{in[1]}, Seconds{in[2]}, Seconds{in[3]}, in[4]));
    } else if (name == "sets_plan") { // reps, rounds, maximum, away, margin, recovery, rest
        if (const auto plan = plan_sets(set_work(in), Seconds{in[6]}))
            std::cout << plan->scheme.sets() << ' ' << plan->rest.value();
        else
            std::cout << word(plan.error());
    } else if (name == "sets_rest") { // reps, rounds, maximum, away, margin, recovery, sets
        print(rest_needed(set_work(in), static_cast<int>(in[6])));
    } else if (name == "sets_recovery") { // first, second, rest
        print(recovery_from(Reps{in[0]}, Reps{in[1]}, Seconds{in[2]}));
    } else {
        std::cout << "unknown case " << name;
    }
    std::cout << '\n';
}

} // namespace

int main() {
    std::cout << std::setprecision(17);
    for (std::string line; std::getline(std::cin, line);) {
        std::istringstream words{line};
        std::string name;
        words >> name;
        std::vector<double> in;
        for (double value; words >> value;)
            in.push_back(value);
        answer(name, in);
    }
}
