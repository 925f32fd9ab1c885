// The PLAN family: what a cell hands over, and what the model makes of it.
#include "family.h"

#include "pacecells/stations.h"
#include "pacecells/reserve.h"

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
            return out_of_domain("Units are one column, one row a station.");
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
        result.amounts_ = numbers(amounts, [](int, const Cell& cell) { return plain(cell); });
        result.extras_ = numbers(extras, [](int, const Cell& cell) { return seconds(cell); });
        result.rates_ = numbers(
            rates, [&](int row, const Cell& cell) { return rate(result.units_[static_cast<std::size_t>(row)], cell); });
        result.columns_ = {amounts.columns, rates.columns, extras.columns};
        if (counts)
            for (int row = 0; row < counts->rows; ++row) {
                const auto& cell = counts->at(row, 0);
                result.counts_.push_back(is_blank(cell) ? credit(result.units_[static_cast<std::size_t>(row)])
                                                        : plain(cell));
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
    static double plain(const Cell& cell) {
        const auto number = Read<Number>::from(is_blank(cell) ? Cell{Blank{}} : cell);
        return number ? number->value : unreadable;
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
            return plain(cell);
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
                               std::optional<Number> k) {
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
                                     RawCells extras, std::optional<Number> station) {
    const auto stations = Stations::from(units, amounts, rates, extras);
    if (!stations)
        return stations.error();
    return erg_need(cap.value, goal.value, stations->view(), station ? std::optional{station->value} : std::nullopt);
}

MixedTask task_in(const Duration& cap, const CalorieNumber& calories, const PlainSeconds& other, const PowerNumber& critical,
                  const ReserveNumber& reserve) {
    return {cap.value, Kilocalories{calories.value}, other.value, values_in(critical, reserve)};
}

Result<CaloriesPerHour> plan_hold(Duration cap, CalorieNumber calories, PlainSeconds other, PowerNumber critical,
                                  ReserveNumber reserve, std::optional<Number> effort, std::optional<Number> keep) {
    auto task = task_in(cap, calories, other, critical, reserve);
    task.effort_between = value_or(effort, task.effort_between);
    return hold_rate(task, value_or(keep, 0.10));
}

Result<double> plan_reserve(Duration cap, CalorieNumber calories, PlainSeconds other, PowerNumber critical,
                            ReserveNumber reserve, RateNumber rate, std::optional<Number> effort,
                            std::optional<Number> round) {
    auto task = task_in(cap, calories, other, critical, reserve);
    task.effort_between = value_or(effort, task.effort_between);
    return reserve_left(task, CaloriesPerHour{rate.value}, round ? std::optional{round->value} : std::nullopt);
}

Result<double> plan_effort(Duration cap, CalorieNumber calories, PlainSeconds other, PowerNumber critical,
                           ReserveNumber reserve, RateNumber rate, std::optional<Number> keep) {
    return effort_between(task_in(cap, calories, other, critical, reserve), CaloriesPerHour{rate.value},
                          value_or(keep, 0.10));
}

// NOLINTEND(performance-unnecessary-value-param)

constexpr std::string_view reserve_balance =
    "Differential balance of the reserve, Skiba et al. 2015. effort_between has no source: fit it with PLAN.EFFORT.";
constexpr std::string_view stations_domain =
    "units, amounts, rates and extras_s have equally many rows; an amount of 0 drops the station for that round. "
    "Err:502 for a unit that is not known or a rate that a round needs and has not; Err:523 for a round beyond the "
    "last "
    "of several columns.";
constexpr std::string_view units_text = "Unit of each station, in working order: rep, row cal, ski cal, bike cal, "
                                        "armbike cal, row m, ski m, bike m, run m, "
                                        "carry m, hold or rest.";
constexpr std::string_view amounts_text = "Amount at each station; one column, or one column for each round.";
constexpr std::string_view rates_text =
    "Rate at each station: seconds a rep, cal/h, split, time for 1000 m of running, or seconds a metre of carrying.";
constexpr std::string_view extras_text =
    "Seconds at each station for walking, picking up and rests between sets, after its work.";
constexpr std::string_view keep_text = "Share of the reserve not to be touched; 0.10 if left out.";
constexpr std::string_view effort_text = "Effort at the other stations as a share of critical power; 1.10 if left out.";

constexpr Row rows[] = {
    row<&plan_roundtime>("planRoundtime", "PLAN.ROUNDTIME", "Time of round k at these stations.",
                         {{"units", units_text},
                          {"amounts", amounts_text},
                          {"rates", rates_text},
                          {"extras_s", extras_text},
                          {"k", "Round; 1 if left out."}},
                         stations_domain, arithmetic, {"{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "1:40"}),
    row<&plan_score>("planScore", "PLAN.SCORE", "Reps done when the clock shows this, walked station by station.",
                     {{"clock", "What the clock shows."},
                      {"units", units_text},
                      {"amounts", amounts_text},
                      {"rates", rates_text},
                      {"extras_s", extras_text},
                      {"counts", "Points for one unit of amount, beside the units; by the unit if left out or blank."}},
                     stations_domain, arithmetic, {"\"5:00\";{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "75"}),
    row<&plan_finish>("planFinish", "PLAN.FINISH", "Time to finish so many rounds.",
                      {{"rounds", "Rounds, whole."},
                       {"units", units_text},
                       {"amounts", amounts_text},
                       {"rates", rates_text},
                       {"extras_s", extras_text}},
                      stations_domain, arithmetic, {"3;{\"rep\"|\"row cal\"};{10|15};{3|1000};{6|10}", "5:00"}),
    row<&plan_ergneed>(
        "planErgneed", "PLAN.ERGNEED",
        "Rate in cal/h at a calorie station that just makes the goal; all calorie stations change by one factor.",
        {{"cap", cap_text},
         {"goal", "Goal in rounds; a decimal is that share of the last round's reps."},
         {"units", units_text},
         {"amounts", amounts_text},
         {"rates", rates_text},
         {"extras_s", extras_text},
         {"station", "Row of that station; the first calorie station if left out."}},
        "Err:523 where no rate makes it.", arithmetic,
        {"\"6:00\";4;{\"rep\"|\"row cal\"};{10|15};{3|900};{6|10}", "1227.27"}),
    row<&plan_hold>("planHold", "PLAN.HOLD",
                    "The ceiling: highest cal/h on the ergometer that keeps the reserve to the last round.",
                    {{"cap", cap_text},
                     {"calories", erg_calories_text},
                     {"other_s", other_text},
                     {"critical_W", critical_text},
                     {"reserve_J", reserve_text},
                     {"effort_between", effort_text},
                     {"keep", keep_text}},
                    "keep at least 0 and below 1. Err:523 where every rate keeps it or none does.", reserve_balance,
                    {"\"20:00\";14;94;251;20100;1", "1327.87"}),
    row<&plan_reserve>(
        "planReserve", "PLAN.RESERVE", "Share of the reserve left after the ergometer of a round.",
        {{"cap", cap_text},
         {"calories", erg_calories_text},
         {"other_s", other_text},
         {"critical_W", critical_text},
         {"reserve_J", reserve_text},
         {"cal_per_hour", "Rate on the ergometer in cal/h."},
         {"effort_between", effort_text},
         {"round", "Round; the last one if left out."}},
        "At least 300 cal/h; negative where the reserve would be overdrawn. Err:523 for a round not begun "
        "before the cap.",
        reserve_balance, {"\"10:00\";10;60;250;20000;1000;1", "1"}),
    row<&plan_effort>("planEffort", "PLAN.EFFORT",
                      "Effort at the other stations that a rate really held implies: PLAN.HOLD turned round.",
                      {{"cap", cap_text},
                       {"calories", erg_calories_text},
                       {"other_s", other_text},
                       {"critical_W", critical_text},
                       {"reserve_J", reserve_text},
                       {"cal_per_hour", "Rate really held in cal/h."},
                       {"keep", keep_text}},
                      "Err:523 where the reserve does not bind at that rate.", reserve_balance,
                      {"\"20:00\";14;94;251;20100;1328", "1.0"}),
};

} // namespace

std::span<const Row> plan_rows() { return rows; }

} // namespace pacecells
