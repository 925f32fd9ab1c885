// Every cell function with whatever can stand in cells: an answer is a finite value or a proper error, the array form
// agrees with single cells, and what the functions promise of each other holds.
//
// Inputs are formulas in text (formula.h), so that a finding can be read. Changes are made to formulas, not to bytes:
// an example of the catalog, some of its arguments exchanged.
#include "family.h"
#include "reader.h"

#include "pacecells/sets.h"
#include "pacecells/text.h"
#include "pacecells/words.h"

#include "changer.h"
#include "claim.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace pacecells;
using fuzz::Formula;
using Arguments = std::vector<Argument>;

constexpr double hour = 1.0 / 24;

// --- asking ------------------------------------------------------------------------------------------------------

Answer ask(const Row& row, Arguments arguments) {
    arguments.resize(row.arity, Omitted{});
    return row.evaluate(arguments);
}

Answer ask(std::string_view method, Arguments arguments) { return ask(*find_method(method), std::move(arguments)); }

Argument cell(double value) { return Cell{value}; }

const Cell* single(const Argument& argument) {
    if (const auto* range = std::get_if<Range>(&argument))
        return range->single() ? range->cells.data() : nullptr;
    return std::get_if<Cell>(&argument);
}

std::optional<double> number(const Argument& argument) {
    const auto* one = single(argument);
    const auto* value = one ? std::get_if<double>(one) : nullptr;
    return value ? std::optional{*value} : std::nullopt;
}

std::optional<double> number(const Answer& answer) {
    const auto* one = std::get_if<Cell>(&answer);
    const auto* value = one ? std::get_if<double>(one) : nullptr;
    return value ? std::optional{*value} : std::nullopt;
}

std::optional<std::string> text(const Answer& answer) {
    const auto* one = std::get_if<Cell>(&answer);
    const auto* value = one ? std::get_if<std::string>(one) : nullptr;
    return value ? std::optional{*value} : std::nullopt;
}

// A Calc time, given as a number or as text.
std::optional<double> time_in(const Argument& argument) {
    if (const auto* one = single(argument); one && std::holds_alternative<std::string>(*one))
        return number(ask("clockValue", {*one}));
    return number(argument);
}

bool near(double a, double b, double share = 1e-9) {
    return std::abs(a - b) <= share * std::max(std::abs(a), std::abs(b));
}

// --- what holds of every answer ----------------------------------------------------------------------------------

void proper(const Cell& one) {
    if (const auto* value = std::get_if<double>(&one))
        claim(std::isfinite(*value), "a number is finite");
    if (const auto* error = std::get_if<Error>(&one))
        claim(!error->message().empty(), "an error says why");
}

bool same(const Cell& a, const Cell& b) {
    if (a.index() != b.index())
        return false;
    if (const auto* value = std::get_if<double>(&a))
        return *value == *std::get_if<double>(&b);
    if (const auto* value = std::get_if<std::string>(&a))
        return *value == *std::get_if<std::string>(&b);
    if (const auto* error = std::get_if<Error>(&a))
        return error->kind == std::get_if<Error>(&b)->kind;
    return true;
}

void general(const Formula& formula, const Answer& answer) {
    const Row& row = *formula.row;
    if (const auto* one = std::get_if<Cell>(&answer)) {
        proper(*one);
        claim(!std::holds_alternative<Blank>(*one) || row.kind == Kind::array, "a single answer is not blank");
        if (const auto* value = std::get_if<double>(one); value && row.kind == Kind::time)
            claim(*value >= 0, "a time is not negative");
        return;
    }
    const auto& range = *std::get_if<Range>(&answer);
    claim(range.rows > 0 && range.columns > 0 &&
              range.cells.size() == static_cast<std::size_t>(range.rows) * static_cast<std::size_t>(range.columns),
          "an array has cells, rows times columns of them");
    for (const auto& one : range.cells)
        proper(one);
    if (row.kind == Kind::array)
        return;
    // The array form: each cell as if it stood alone.
    const auto* given = std::get_if<Range>(&formula.arguments.front());
    claim(given && given->rows == range.rows && given->columns == range.columns, "the shape of the first argument");
    Arguments alone = formula.arguments;
    for (std::size_t i = 0; i < range.cells.size(); ++i) {
        if (std::holds_alternative<Blank>(given->cells[i])) {
            claim(std::holds_alternative<Blank>(range.cells[i]), "a blank stays blank");
            continue;
        }
        alone.front() = given->cells[i];
        const auto expected = ask(row, alone);
        claim(same(range.cells[i], *std::get_if<Cell>(&expected)), "as the cell alone");
    }
}

// --- what holds of one function ----------------------------------------------------------------------------------

// Numbers of a size that people type: relations between functions are held to those, beyond them rounding rules.
bool ordinary(const Argument& argument) {
    const auto fits = [](const Cell& one) {
        const auto* value = std::get_if<double>(&one);
        return !value || *value == 0 || (std::abs(*value) >= 1e-4 && std::abs(*value) <= 1e6);
    };
    if (const auto* one = std::get_if<Cell>(&argument))
        return fits(*one);
    const auto* range = std::get_if<Range>(&argument);
    return !range || std::ranges::all_of(range->cells, fits);
}

using Check = void (*)(const Arguments& given, const Answer& answer);

void split_sums(const Arguments& given, const Answer& answer) {
    const auto scheme = text(answer);
    if (!scheme)
        return;
    const auto parsed = Scheme::parse(*scheme);
    claim(parsed && near(parsed->reps(), *number(given[0])) && near(parsed->sets(), number(given[1]).value_or(0)),
          "a split has all reps and sets");
}

void splits_end_at_the_cap(const Arguments& given, const Answer& answer) {
    const auto* rows = std::get_if<Range>(&answer);
    const auto cap = time_in(given[0]);
    if (!rows || !cap)
        return;
    double sum = 0, clock = 0;
    for (int r = 0; r < rows->rows; ++r) {
        const double time = *std::get_if<double>(&rows->at(r, 1));
        claim(time >= 0, "a round takes time");
        sum += time;
        claim(*std::get_if<double>(&rows->at(r, 2)) >= clock, "the clock runs forward");
        clock = *std::get_if<double>(&rows->at(r, 2));
    }
    claim(near(sum, *cap) && near(clock, *cap, 1e-12), "splits end at the cap");
}

void rounds_come_back(const Arguments& given, const Answer& answer) {
    const auto time = number(answer), goal = number(given[1]);
    if (!time || !goal)
        return;
    if (const auto rounds = number(ask("paceRounds", {given[0], cell(*time)})))
        claim(near(*rounds, *goal), "rounds of the round time are the goal");
}

void clock_runs_forward(const Arguments& given, const Answer& answer) {
    const auto clock = number(answer), k = number(given[2]), cap = time_in(given[0]);
    if (!clock || !k || !cap)
        return;
    claim(*clock <= *cap * (1 + 1e-12), "no clock after the cap");
    const auto before = number(ask("paceClock", {given[0], given[1], cell(*k / 2), given[3]}));
    claim(before && *before <= *clock, "the clock runs forward");
}

void rehearsal_is_slower(const Arguments& given, const Answer& answer) {
    const auto time = number(answer), planned = time_in(given[0]);
    if (time && planned)
        claim(*time >= *planned * (1 - 1e-12), "a rehearsal is not faster");
}

void table_goes_down(const Arguments& given, const Answer& answer) {
    const auto* rows = std::get_if<Range>(&answer);
    if (!rows)
        return;
    for (int r = 0; r < rows->rows; ++r) {
        const double goal = *std::get_if<double>(&rows->at(r, 0));
        claim(goal <= number(given[2]).value_or(goal) + 1e-9, "no goal beyond the last");
        if (r > 0)
            claim(goal > *std::get_if<double>(&rows->at(r - 1, 0)) &&
                      *std::get_if<double>(&rows->at(r, 1)) < *std::get_if<double>(&rows->at(r - 1, 1)),
                  "more rounds, less time for each");
    }
}

void erg_comes_back(const Arguments& given, const Answer& answer) {
    const auto time = number(answer), calories = number(given[0]), rate = number(given[1]);
    if (!time || !calories || !rate || *time >= 4 * hour || *time < 1e-6)
        return;
    if (const auto again = number(ask("ergRate", {given[0], cell(*time), given[2]})))
        claim(near(*again, *rate, 1e-6), "the rate comes back");
    if (const auto again = number(ask("ergCalories", {cell(*time), given[1], given[2]})))
        claim(std::abs(*again - *calories) <= 1e-6 * std::max(1.0, *rate), "the calories come back");
}

void conversion_comes_back(const Arguments& given, const Answer& answer) {
    const auto value = number(answer), before = number(given[0]);
    if (!value || !before)
        return;
    if (const auto again = number(ask("ergConvert", {cell(*value), given[2], given[1], given[3]})))
        claim(std::abs(*again - *before) <= 1e-6 * std::max(std::abs(*before), 1e-3), "a conversion comes back");
}

double margin_in(const Argument& margin, double most) {
    return number(margin).value_or(std::holds_alternative<Omitted>(margin) ? 0.1 * (most - 1) : 0.0);
}

void plan_keeps_the_margin(const Arguments& given, const Answer& answer) {
    const auto scheme = text(answer);
    const auto most = number(given[2]);
    if (!scheme || !most)
        return;
    auto rest = given[4];
    if (number(ask("setsTime", {Cell{"1-1"}, cell(0), rest})).value_or(0) == 0) { // planned with the sets
        const auto planned =
            number(ask("setsRest", {given[0], given[1], given[2], given[3], Omitted{}, given[5], given[6]}));
        claim(planned.has_value(), "a plan has a rest");
        if (*planned > most_plain_seconds)
            return; // no cell may hold it
        rest = cell(*planned);
    }
    const auto left = number(ask("setsLeft", {Cell{*scheme}, given[1], given[2], given[3], rest, given[6]}));
    claim(left && *left >= margin_in(given[5], *most) - 1e-6, "a plan keeps the margin");
}

void rest_is_enough(const Arguments& given, const Answer& answer) {
    const auto rest = number(answer), most = number(given[2]);
    if (!rest || !most || *rest > most_plain_seconds) // no cell may hold it
        return;
    const auto scheme =
        std::holds_alternative<Omitted>(given[4])
            ? text(ask("setsPlan", {given[0], given[1], given[2], given[3], Omitted{}, given[5], given[6]}))
            : text(ask("setsSplit", {given[0], given[4]}));
    claim(scheme.has_value(), "a rest is for sets that can be");
    const auto left = number(ask("setsLeft", {Cell{*scheme}, given[1], given[2], given[3], cell(*rest), given[6]}));
    claim(left && *left >= margin_in(given[5], *most) - 1e-6, "the rest is enough");
}

void one_rep_max_comes_back(const Arguments& given, const Answer& answer) {
    const auto reps = number(answer), most = number(given[1]);
    if (!reps || !most || *reps <= 1 || *reps > 36.9)
        return;
    const auto again = number(ask("setsOnerepmax", {given[0], cell(*reps), given[2]}));
    claim(again && near(*again, *most, 1e-6), "the maximum comes back");
}

void score_comes_back(const Arguments& given, const Answer& answer) {
    const auto score = text(answer);
    const auto reps = number(given[0]);
    if (!score || !reps)
        return;
    const auto again = number(ask("scoreReps", {Cell{*score}, given[1]}));
    claim(again && *again == std::floor(*reps + 1e-9), "whole reps come back");
}

void project_goes_on(const Arguments& given, const Answer& answer) {
    const auto reps = number(answer), before = number(given[2]);
    if (reps && before)
        claim(*reps >= *before * (1 - 1e-12), "no fewer reps at the cap");
}

void forecast_is_in_order(const Arguments&, const Answer& answer) {
    const auto* row = std::get_if<Range>(&answer);
    if (!row)
        return;
    const double* before = nullptr;
    for (const auto& one : row->cells) {
        const auto* value = std::get_if<double>(&one);
        claim(!value || !before || *before <= *value * (1 + 1e-9), "low, expected, high");
        before = value ? value : before;
    }
}

void place_is_among_them(const Arguments& given, const Answer& answer) {
    const auto place = number(answer);
    const auto* scores = std::get_if<Range>(&given[1]);
    if (place)
        claim(*place >= 1 && *place <= (scores ? static_cast<double>(scores->cells.size()) : 1), "a place among all");
}

void fit_is_positive(const Arguments&, const Answer& answer) {
    const auto* row = std::get_if<Range>(&answer);
    if (!row) // or one of the values
        return;
    claim(*std::get_if<double>(&row->cells[0]) > 0 && *std::get_if<double>(&row->cells[1]) > 0, "both above 0");
    if (const auto* r_squared = std::get_if<double>(&row->cells[4]))
        claim(*r_squared >= 0 && *r_squared <= 1, "R squared from 0 to 1");
}

void above_critical(const Arguments& given, const Answer& answer) {
    const auto watts = number(answer), critical = number(given[1]);
    if (watts && critical)
        claim(*watts >= *critical, "not below critical power");
}

void floor_is_lower(const Arguments& given, const Answer& answer) {
    if (const auto rate = number(answer)) {
        const auto alone = number(ask("testAlone", {given[0], given[1], given[2]}));
        claim(alone && *rate <= *alone * (1 + 1e-12) && *rate >= 300, "the floor is below the rate alone");
    }
}

void finish_grows(const Arguments& given, const Answer& answer) {
    const auto time = number(answer), rounds = number(given[0]);
    if (!time || !rounds || *rounds < 2)
        return;
    const auto before = number(ask("planFinish", {cell(*rounds - 1), given[1], given[2], given[3], given[4]}));
    const auto last = number(ask("planRoundtime", {given[1], given[2], given[3], given[4], given[0]}));
    claim(before && last && near(*before + *last, *time, 1e-9), "one round more takes that round's time");
}

void score_grows(const Arguments& given, const Answer& answer) {
    const auto score = number(answer), clock = time_in(given[0]);
    if (!score || !clock)
        return;
    claim(*score >= 0, "a score is not negative");
    Arguments before = given;
    before[0] = cell(*clock / 2);
    const auto half = number(ask("planScore", before));
    claim(half && *half <= *score, "a score grows with the clock");
}

void need_falls(const Arguments& given, const Answer& answer) {
    const auto rate = number(answer), cap = time_in(given[0]);
    if (!rate || !cap || *cap >= 2 * hour)
        return;
    claim(*rate > 0, "a rate is above 0");
    Arguments longer = given;
    longer[0] = cell(*cap * 1.5);
    const auto easier = number(ask("planErgneed", longer));
    claim(easier && *easier < *rate, "a longer cap needs a lower rate");
}

double keep_in(const Argument& argument) {
    return std::holds_alternative<Omitted>(argument) ? 0.1 : number(argument).value_or(0);
}

void hold_keeps_the_reserve(const Arguments& given, const Answer& answer) {
    const auto rate = number(answer);
    if (!rate || *rate > 5000)
        return;
    const auto left = number(ask("planReserve", {given[0], given[1], given[2], given[3], given[4], cell(*rate),
                                                 given[5], Omitted{}, given[7], given[8]}));
    claim(left && *left >= keep_in(given[6]) - 1e-6, "the guard rail keeps the reserve");
    const auto alone = number(ask("testAlone", {given[0], given[3], given[4]}));
    claim(alone && *rate <= *alone * (1 + 1e-12), "never above the rate alone");
}

void advice_is_in_order(const Arguments& given, const Answer& answer) {
    const auto* row = std::get_if<Range>(&answer);
    if (!row || row->cells.size() != 4)
        return;
    const auto value = [&](int column) { return *std::get_if<double>(&row->at(0, column)); };
    claim(value(0) <= value(1) && value(1) <= number(given[2]).value_or(0), "hold, limit and ceiling go up");
    claim(value(3) >= 0 && value(3) <= 1, "a chance is a share");
}

void factor_is_held(const Arguments&, const Answer& answer) {
    if (const auto* row = std::get_if<Range>(&answer); row && row->cells.size() == 2)
        claim(*std::get_if<double>(&row->at(0, 0)) >= 0.8 && *std::get_if<double>(&row->at(0, 0)) <= 1.2,
              "no factor beyond 0.8 and 1.2");
}

void share_is_a_share(const Arguments&, const Answer& answer) {
    if (const auto share = number(answer))
        claim(*share > 0 && *share <= 1, "a share to plan with is one");
}

void reserve_is_a_share(const Arguments&, const Answer& answer) {
    if (const auto left = number(answer))
        claim(*left <= 1, "not more than the whole reserve");
}

std::vector<std::string> texts_in(const Argument& argument) {
    if (const auto* range = std::get_if<Range>(&argument))
        return texts({range->rows, range->columns, range->cells});
    const auto* one = std::get_if<Cell>(&argument);
    return one ? texts({1, 1, {one, 1}}) : std::vector<std::string>{};
}

// One for each team, and for each person without one.
std::size_t lanes_needed(const std::vector<std::string>& names, const std::vector<std::string>& teams) {
    std::set<std::string> together;
    std::size_t alone = 0;
    for (std::size_t i = 0; i < names.size(); ++i)
        if (const auto team = fold_name(i < teams.size() ? teams[i] : ""); trim(names[i]).empty())
            continue;
        else if (team.empty())
            ++alone;
        else
            together.insert(team);
    return together.size() + alone;
}

void heats_are_fair(const Arguments& given, const Answer& answer) {
    const auto* rows = std::get_if<Range>(&answer);
    const auto lanes = number(given[2]);
    if (!rows || !lanes || !std::holds_alternative<Omitted>(given[6]) || !std::holds_alternative<Omitted>(given[7]))
        return;
    const bool teams = !std::holds_alternative<Omitted>(given[11]); // people of one share a lane
    double heat = 1, lane = 0;
    std::size_t begun = 0;
    int r = 0;
    for (; r < rows->rows && !std::holds_alternative<Blank>(rows->at(r, 0)); ++r) {
        const double next = *std::get_if<double>(&rows->at(r, 0));
        const double next_lane = *std::get_if<double>(&rows->at(r, 1));
        claim(next == heat || next == heat + 1, "heats follow one another");
        const bool shared = teams && next == heat && next_lane == lane;
        lane = shared ? lane : next == heat ? lane + 1 : 1;
        begun += shared ? 0 : 1;
        heat = next;
        claim(next_lane == lane && lane >= 1 && lane <= *lanes, "lanes follow one another");
    }
    claim(begun == lanes_needed(texts_in(given[0]), texts_in(given[11])), "a lane for each team and each other person");
    for (; r < rows->rows; ++r)
        for (int c = 0; c < rows->columns; ++c)
            claim(std::holds_alternative<Blank>(rows->at(r, c)), "blank rows are the last");
}

struct Promise {
    std::string_view method;
    Check check;
};
constexpr Promise promises[] = {
    {"setsSplit", split_sums},
    {"paceSplits", splits_end_at_the_cap},
    {"paceRound", rounds_come_back},
    {"paceClock", clock_runs_forward},
    {"paceRehearsal", rehearsal_is_slower},
    {"paceTable", table_goes_down},
    {"ergTime", erg_comes_back},
    {"ergConvert", conversion_comes_back},
    {"setsPlan", plan_keeps_the_margin},
    {"setsRest", rest_is_enough},
    {"setsMaxreps", one_rep_max_comes_back},
    {"scoreText", score_comes_back},
    {"scoreProject", project_goes_on},
    {"scoreForecast", forecast_is_in_order},
    {"scorePlace", place_is_among_them},
    {"testCritical", fit_is_positive},
    {"testPower", above_critical},
    {"testFloor", floor_is_lower},
    {"planFinish", finish_grows},
    {"planScore", score_grows},
    {"planErgneed", need_falls},
    {"planHold", hold_keeps_the_reserve},
    {"planReserve", reserve_is_a_share},
    {"planShare", share_is_a_share},
    {"planFactor", factor_is_held},
    {"planAdvice", advice_is_in_order},
    {"heatList", heats_are_fair},
};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto formula = fuzz::read({reinterpret_cast<const char*>(data), size});
    if (!formula)
        return 0;
    const auto answer = ask(*formula->row, formula->arguments);
    general(*formula, answer);
    if (std::ranges::all_of(formula->arguments, ordinary))
        for (const auto& promise : promises)
            if (promise.method == formula->row->method)
                promise.check(formula->arguments, answer);
    return 0;
}

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed) {
    fuzz::Changer changer(seed);
    const auto changed = fuzz::write(changer.change(fuzz::read({reinterpret_cast<const char*>(data), size})));
    if (changed.size() > most)
        return size;
    std::memcpy(data, changed.data(), changed.size());
    return changed.size();
}
