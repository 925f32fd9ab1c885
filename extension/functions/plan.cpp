// The PLAN family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/advice.h"
#include "pacecells/learning.h"
#include "pacecells/reserve.h"
#include "pacecells/stations.h"

namespace pacecells {

namespace {

// The rows read the kind of a parameter from its type, so parameters are values.
// NOLINTBEGIN(performance-unnecessary-value-param)

// The four ranges of a stations block (and the points for one unit of amount) as the model views them.
class Stations {
  public:
    static Result<Stations> from(const RawCells& units, const RawCells& amounts, const RawCells& rates,
                                 const RawCells& extras, const std::optional<RawCells>& counts = {}) {
        if (units.columns != 1)
            return out_of_domain("Units are one column, one row per station.");
        for (const auto* part : {&amounts, &rates, &extras})
            if (part->rows != units.rows)
                return out_of_domain("Units, amounts, rates and extras need ranges of equal height.");
        if (counts && (counts->rows != units.rows || counts->columns != 1))
            return out_of_domain("Counts are one column beside the units.");

        Stations result;
        for (const auto& cell : units.cells) {
            const auto unit = unit_in(cell);
            if (!unit)
                return unit.error();
            result.units_.push_back(*unit);
        }
        result.amounts_ = numbers(amounts, [&](int row, const Cell& cell) {
            return amount(result.units_[static_cast<std::size_t>(row)], cell);
        });
        result.extras_ = numbers(extras, [](int, const Cell& cell) { return seconds(cell); });
        result.rates_ = numbers(
            rates, [&](int row, const Cell& cell) { return rate(result.units_[static_cast<std::size_t>(row)], cell); });
        result.columns_ = {amounts.columns, rates.columns, extras.columns};
        if (counts)
            for (int row = 0; row < counts->rows; ++row) {
                const auto& cell = counts->at(row, 0);
                result.counts_.push_back(is_blank(cell) ? credit(result.units_[static_cast<std::size_t>(row)])
                                                        : plain<CountNumber>(cell));
            }
        return result;
    }

    [[nodiscard]] pacecells::Block view() const {
        const auto part = [](const std::vector<double>& cells, int columns) {
            return pacecells::Cells{cells, static_cast<std::size_t>(columns)};
        };
        return {units_, part(amounts_, columns_[0]), part(rates_, columns_[1]), part(extras_, columns_[2]), counts_};
    }

  private:
    static constexpr double unreadable = std::numeric_limits<double>::quiet_NaN(); // refused where a round needs it

    static Result<Unit> unit_in(const Cell& cell) {
        if (is_blank(cell))
            return Unit::blank;
        const auto* text = std::get_if<std::string>(&cell);
        return parse_unit(text ? *text : number_text(*std::get_if<double>(&cell)));
    }
    template <class T>
    static double plain(const Cell& cell) {
        const auto number = Read<T>::from(is_blank(cell) ? Cell{Blank{}} : cell);
        return number ? number->value : unreadable;
    }
    static double amount(Unit unit, const Cell& cell) {
        if (unit == Unit::rep)
            return plain<CountNumber>(cell);
        switch (rate_kind(unit)) {
        case RateKind::none:
            return plain<NumberUpTo<most_plain_seconds>>(cell); // a hold or a rest
        case RateKind::calories_per_hour:
            return plain<CalorieNumber>(cell);
        case RateKind::seconds_each:
        case RateKind::split:
            break;
        }
        return plain<DistanceNumber>(cell);
    }
    static double seconds(const Cell& cell) {
        const auto number = Read<PlainSeconds>::from(is_blank(cell) ? Cell{Blank{}} : cell);
        return number ? number->value.value() : unreadable;
    }
    static double rate(Unit unit, const Cell& cell) {
        switch (rate_kind(unit)) {
        case RateKind::none:
            return 0;
        case RateKind::seconds_each:
            return seconds(cell);
        case RateKind::calories_per_hour:
            return plain<RateNumber>(cell);
        case RateKind::split:
            break;
        }
        const auto time = detail::read_time(cell, unit == Unit::run_m ? 60 : 10, true);
        return time ? time->value() : unreadable;
    }
    static std::vector<double> numbers(const RawCells& range, const auto& read_cell) {
        std::vector<double> result;
        result.reserve(range.cells.size());
        for (int row = 0; row < range.rows; ++row)
            for (int column = 0; column < range.columns; ++column)
                result.push_back(read_cell(row, range.at(row, column)));
        return result;
    }

    std::vector<Unit> units_;
    std::vector<double> amounts_, rates_, extras_, counts_;
    std::array<int, 3> columns_{};
};

Result<Seconds> plan_roundtime(RawCells units, RawCells amounts, RawCells rates, RawCells extras,
                               std::optional<CountNumber> k) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return round_time(stations->view(), value_or(k, 1.0));
}

Result<Reps> plan_score(AnyTime clock, RawCells units, RawCells amounts, RawCells rates, RawCells extras,
                        std::optional<RawCells> counts) {
    const auto stations = Stations::from(units, amounts, rates, extras, counts);
    if (!stations)
        return stations.error();
    return score_at(clock.value, stations->view());
}

Result<Seconds> plan_finish(CountNumber rounds, RawCells units, RawCells amounts, RawCells rates, RawCells extras) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return finish_time(rounds.value, stations->view());
}

Result<CaloriesPerHour> plan_ergneed(Duration cap, CountNumber goal, RawCells units, RawCells amounts, RawCells rates,
                                     RawCells extras, std::optional<CountNumber> station) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return erg_need(cap.value, goal.value, stations->view(), station ? std::optional{station->value} : std::nullopt);
}

OtherStations other_in(const PlainSeconds& time, const std::optional<PlainSeconds>& walk,
                       const std::optional<PlainSeconds>& rest) {
    return {time.value, value_or(walk, Seconds{0}), value_or(rest, Seconds{0})};
}

Result<double> plan_share(PlainSeconds other, std::optional<PlainSeconds> walk, std::optional<PlainSeconds> rest,
                          std::optional<Number> factor, std::optional<Number> keep) {
    return planned_share(other_in(other, walk, rest), value_or(factor, 1.0), value_or(keep, usual_keep));
}

Result<CaloriesPerHour> plan_hold(Duration cap, CalorieNumber calories, PlainSeconds other, PowerNumber critical,
                                  ReserveNumber reserve, std::optional<Number> work_share, std::optional<Number> keep,
                                  std::optional<PlainSeconds> walk, std::optional<PlainSeconds> rest) {
    const MixedTask task{cap.value, Kilocalories{calories.value}, other_in(other, walk, rest),
                         values_in(critical, reserve), value_or(work_share, usual_work_share)};
    return hold_rate(task, value_or(keep, usual_keep));
}

Result<double> plan_reserve(Duration cap, CalorieNumber calories, PlainSeconds other, PowerNumber critical,
                            ReserveNumber reserve, RateNumber rate, std::optional<Number> work_share,
                            std::optional<CountNumber> round, std::optional<PlainSeconds> walk,
                            std::optional<PlainSeconds> rest) {
    const MixedTask task{cap.value, Kilocalories{calories.value}, other_in(other, walk, rest),
                         values_in(critical, reserve), value_or(work_share, usual_work_share)};
    return reserve_left(task, CaloriesPerHour{rate.value}, round ? std::optional{round->value} : std::nullopt);
}

Result<Answer> plan_factor(Numbers ratios, Numbers errors, std::optional<ErrorNumber> spread,
                           std::optional<Whole> index) {
    if (ratios.values.size() != errors.values.size())
        return out_of_domain("Every result needs a ratio and its error: there are %1 ratios and %2 errors.",
                             ratios.values.size(), errors.values.size());
    std::vector<Observation> results;
    for (std::size_t i = 0; i < ratios.values.size(); ++i) {
        if (ratios.values[i].has_value() != errors.values[i].has_value())
            return out_of_domain("Every result needs a ratio and its error: result %1 has only one of them.", i + 1);
        if (ratios.values[i])
            results.push_back({*ratios.values[i], *errors.values[i]});
    }
    const auto factor = personal_factor(results, value_or(spread, usual_spread));
    if (!factor)
        return factor.error();
    return pick(Range{1, 2, {to_cell(factor->value), to_cell(factor->error)}}, {}, index);
}

Result<Answer> plan_advice(RateNumber needed, RateNumber floor, RateNumber ceiling, ErrorNumber doubt,
                           std::optional<Whole> index) {
    const auto advice = advise(CaloriesPerHour{needed.value}, CaloriesPerHour{floor.value},
                               CaloriesPerHour{ceiling.value}, doubt.value);
    if (!advice)
        return advice.error();
    return pick(Range{1,
                      4,
                      {to_cell(advice->hold), to_cell(advice->never_above),
                       to_cell(static_cast<int>(advice->situation)), to_cell(advice->chance)}},
                {}, index);
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view reserve_balance =
    "Differential balance of the reserve, Skiba et al. 2015; work_share and walking at 0.3 of critical power are "
    "judgement.";
constexpr std::string_view stations_domain =
    "units, amounts, rates and extras_s have equally many rows; an amount of 0 drops the station for that round. "
    "Err:502 for a unit that is not known or a rate that a round needs and has not; Err:523 for a round beyond the "
    "last "
    "of several columns.";
constexpr std::string_view units_text = "Unit of each station, in order: rep, row cal, ski cal, bike cal, armbike cal, "
                                        "row m, ski m, bike m, run m, carry m, hold or rest.";
constexpr std::string_view amounts_text = "Amount at each station; one column, or one column for each round.";
constexpr std::string_view rates_text =
    "Rate at each station: seconds per rep, cal/h, split, time for 1000 m of running, or seconds per metre carried.";
constexpr std::string_view extras_text =
    "Seconds at each station for walking, picking up and rests between sets, after its work.";
constexpr std::string_view keep_text = "Share of the reserve not to be touched.";
constexpr std::string_view work_share_text = "Watts at the other stations as a share of the ergometer's.";
constexpr std::string_view all_other_text = "Seconds for everything else in the round, walking and rest included.";
constexpr std::string_view walk_text = "Seconds of these for walking and picking up.";
constexpr std::string_view rest_text = "Seconds of these for rest.";

constexpr Row rows[] = {
    row<&plan_roundtime>("planRoundtime", "PLAN.ROUNDTIME", "Time of round k at these stations.",
                         {{"units", units_text},
                          {"amounts", amounts_text},
                          {"rates", rates_text},
                          {"extras_s", extras_text},
                          {"k", "Round.", 1}},
                         stations_domain, arithmetic, {"{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "1:40"}),
    row<&plan_score>(
        "planScore", "PLAN.SCORE", "Reps done when the clock shows this, counted station by station.",
        {{"clock", "What the clock shows."},
         {"units", units_text},
         {"amounts", amounts_text},
         {"rates", rates_text},
         {"extras_s", extras_text},
         {"counts",
          "Points per unit, in a column next to the units; the usual value of the unit if left out or blank."}},
        stations_domain, arithmetic, {"\"5:00\";{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "75"}),
    row<&plan_finish>("planFinish", "PLAN.FINISH", "Time to finish that many rounds.",
                      {{"rounds", "Whole rounds."},
                       {"units", units_text},
                       {"amounts", amounts_text},
                       {"rates", rates_text},
                       {"extras_s", extras_text}},
                      stations_domain, arithmetic, {"3;{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "5:00"}),
    row<&plan_ergneed>("planErgneed", "PLAN.ERGNEED",
                       "Rate in cal/h at a calorie station that just reaches the goal; all calorie stations are scaled "
                       "by the same factor.",
                       {{"cap", cap_text},
                        {"goal", "Goal in rounds; a decimal is that share of the last round's reps."},
                        {"units", units_text},
                        {"amounts", amounts_text},
                        {"rates", rates_text},
                        {"extras_s", extras_text},
                        {"station", "Row of that station; the first calorie station if left out."}},
                       "Err:523 where no rate makes it.", arithmetic,
                       {"\"6:00\";4;{\"rep\"|\"row cal\"};{10|15};{3|900};{6|10}", "1227.27"}),
    row<&plan_share>("planShare", "PLAN.SHARE",
                     "Share of the watts of TEST.ALONE to plan with in a mixed task; hand it to TEST.FLOOR.",
                     {{"other_s", all_other_text},
                      {"walk_s", walk_text, 0},
                      {"rest_s", rest_text, 0},
                      {"factor", "What past results say of the athlete, as from PLAN.FACTOR.", 1},
                      {"keep", keep_text, usual_keep}},
                     "walk_s and rest_s at most other_s together; factor 0.8 to 1.2; keep at least 0 and below 1.",
                     "Judgement: 0.75 where all the time is hard work, 0.90 where all is rest.",
                     {"150;20;30", "0.794"}),
    row<&plan_hold>("planHold", "PLAN.HOLD",
                    "The guard rail: highest cal/h on the ergometer at which the reserve never falls below keep before "
                    "the cap.",
                    {{"cap", cap_text},
                     {"calories", erg_calories_text},
                     {"other_s", all_other_text},
                     {"critical_W", critical_text},
                     {"reserve_J", reserve_text},
                     {"work_share", work_share_text, usual_work_share},
                     {"keep", keep_text, usual_keep},
                     {"walk_s", walk_text, 0},
                     {"rest_s", rest_text, 0}},
                    "work_share above 0 and at most 1; keep at least 0 and below 1; walk_s and rest_s at most other_s "
                    "together. Never above TEST.ALONE.",
                    reserve_balance, {"\"18:00\";13;88;240;18000;1", "1177.61"}),
    row<&plan_reserve>(
        "planReserve", "PLAN.RESERVE",
        "Share of the reserve left at the lowest moment before the cap, or within that many rounds.",
        {{"cap", cap_text},
         {"calories", erg_calories_text},
         {"other_s", all_other_text},
         {"critical_W", critical_text},
         {"reserve_J", reserve_text},
         {"cal_per_hour", "Rate on the ergometer in cal/h."},
         {"work_share", work_share_text, usual_work_share},
         {"round", "Rounds to look at; all before the cap if left out."},
         {"walk_s", walk_text, 0},
         {"rest_s", rest_text, 0}},
        "At least 300 cal/h; negative where the reserve would be overdrawn. Err:523 for a round not begun "
        "before the cap.",
        reserve_balance, {"\"18:00\";13;103;240;18000;1280;0.95;2;;15", "0.56"}),
    row<&plan_factor>(
        "planFactor", "PLAN.FACTOR",
        "What past results say of an athlete: the factor (1 is as the tests promise) and its standard "
        "error.",
        {{"ratios", "Watts held over watts promised, one for each result; blanks are skipped."},
         {"errors", "Standard error of each as a share, such as 0.05."},
         {"spread", "Spread of athletes about their tests.", usual_spread},
         {"index", "1 factor, 2 its error; both if left out."}},
        "Each ratio 0.4 to 2.5, errors above 0. The factor is held to 0.8 to 1.2; without results it is 1.",
        "Mean of a normal distribution with a normal prior; the spread of 0.10 is judgement.",
        {"{1.1|1.02|0.96};{0.05|0.12|0.05};;1", "1.0242"}),
    row<&plan_advice>("planAdvice", "PLAN.ADVICE",
                      "What to hold for a goal: rate, limit before the last round, situation, chance.",
                      {{"needed", "Rate in cal/h that the goal needs; 0 or blank without a goal."},
                       {"floor", "Rate in cal/h to plan with, as from TEST.FLOOR."},
                       {"ceiling", "Highest rate in cal/h, as from PLAN.HOLD."},
                       {"doubt", "How well the floor is known, as a share of its watts; 0.112 without results."},
                       {"index", "1 rate to hold, 2 limit, 3 situation, 4 chance; all four if left out."}},
                      "floor above 300 and at most ceiling, doubt above 0. Situation 1: the goal fits; 2: a stretch; "
                      "3: out of reach.",
                      "Judgement: the limit is what one athlete in four holds.", {"1000;963;1183;0.112;4", "0.31"}),
};

} // namespace

std::span<const Row> plan_rows() { return rows; }

} // namespace pacecells
