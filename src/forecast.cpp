// Symbols as in the header. Times are in median rounds (A = 1) from here on, so that no square overflows.
#include "pacecells/forecast.h"

#include "pacecells/clock.h"
#include "pacecells/line.h"
#include "pacecells/text.h"

#include "check.h"
#include "quiet.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <vector>

namespace pacecells {
namespace {

// Judgement, all of them; shares of the median round where nothing else is said.
constexpr double noise = 0.04;        // of a round
constexpr double noise_rounds = 8;    // that this counts for beside the rounds seen
constexpr double usual_fade = 0.06;   // over the whole task
constexpr double fade_spread = 0.05;  // of athletes
constexpr double memory = 0.35;       // of the task: a round so long ago counts e times less
constexpr double plan_spread = 0.10;  // of a round about its plan, as a share of it
constexpr double plan_slack = 0.20;   // a first round this far from its plan does not stand alone
constexpr double level_spread = 0.03; // of the level to come
constexpr double drift_spread = 0.05; // of the change to come
constexpr double slow_spread = 0.09;  // more on the slow side: of a round to come
constexpr double slow_drift = 0.08;   // more on the slow side: of the change to come
constexpr double most_rounds = 1e6;

double square(double x) { return x * x; }
double middle(double a, double b, double c) { return std::max(std::min(a, b), std::min(std::max(a, b), c)); }

double median(std::vector<double> values) {
    const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), half, values.end());
    return values.size() % 2 == 1 ? *half : (*half + *std::max_element(values.begin(), half)) / 2;
}

// The factor e^z, straight on from z = 1.
double growth(double z) { return z <= 1 ? std::exp(z) : std::numbers::e * z; }

// Upper quantile of Student's t.
double student(double freedom, double confidence) {
    return boost::math::quantile(
        boost::math::complement(boost::math::students_t_distribution<double, Quiet>(freedom), (1 - confidence) / 2));
}

std::string said(Seconds time) {
    const auto text = clock_text(time);
    return text ? *text : number_text(time.value()) + " s";
}

Error no_clock_yet() { return not_available("No round is finished yet: a forecast needs the clock of one or more."); }

std::optional<Error> bad_clocks(std::span<const Seconds> clocks, std::size_t least) {
    if (clocks.size() < least)
        return out_of_domain("There are %1 round clocks; %2 or more are needed.", clocks.size(), least);
    Seconds before{0};
    for (const Seconds clock : clocks) {
        if (!(clock > before) || !std::isfinite(clock.value()))
            return out_of_domain("A round ends at %1 after %2; the clock must rise from round to round.", said(clock),
                                 said(before));
        before = clock;
    }
    return {};
}

double round_time(std::span<const Seconds> clocks, std::size_t i) {
    return clocks[i].value() - (i == 0 ? 0 : clocks[i - 1].value());
}

std::vector<double> rounds_of(std::span<const Seconds> clocks) {
    std::vector<double> rounds(clocks.size());
    for (std::size_t i = 0; i < rounds.size(); ++i)
        rounds[i] = round_time(clocks, i);
    return rounds;
}

// The usual round: what times are measured in.
double usual_round(const std::vector<double>& rounds, std::optional<Seconds> planned) {
    if (planned && rounds.size() == 1)
        return planned->value();
    if (planned && rounds.size() == 2)
        return middle(rounds[0], rounds[1], planned->value());
    return median(rounds);
}

// What the rounds so far say of those to come.
class Course {
  public:
    // Domain: rounds and plan above 0, in usual rounds; n at least as many as rounds.
    Course(const std::vector<double>& rounds, double n, std::optional<double> plan)
        : done_(static_cast<double>(rounds.size())), n_(n) {
        const std::size_t m = rounds.size();
        const double fade = usual_fade / n;
        std::vector<double> level(m);
        for (std::size_t i = 0; i < m; ++i)
            level[i] = rounds[i] - fade * (static_cast<double>(i + 1) - done_);

        std::vector<double> trust(m);
        double mean_x = 0;
        double mean_y = 0;
        const double older = std::exp(-1 / (memory * n));
        std::vector<double> weight(m);
        double age = 1;
        double alone_last = 0;
        for (std::size_t i = m; i-- > 0; age *= older) {
            const double alone = stands_alone(level, i, plan);
            if (i + 1 == m) {
                alone_last = alone;
                trust[i] = std::min(1.0, 1.5 * noise / std::abs(alone));
            } else {
                trust[i] = std::min(1.0, 5 / (4 + square(alone / noise)));
            }
            weight[i] = trust[i] * age * (i == 0 ? 0.5 : 1);
            weight_ += weight[i];
            mean_x += weight[i] * static_cast<double>(i + 1);
            mean_y += weight[i] * rounds[i];
        }
        mean_x /= weight_;
        mean_y /= weight_;
        const double lambda = square(noise / (fade_spread / n));
        spread_ = lambda;
        double xy = lambda * fade;
        for (std::size_t i = 0; i < m; ++i) {
            const double x = static_cast<double>(i + 1) - mean_x;
            spread_ += weight[i] * square(x);
            xy += weight[i] * x * (rounds[i] - mean_y);
        }
        slope_ = xy / spread_;
        if (plan) {
            const double plan_weight = square(noise / (plan_spread * *plan));
            const double planned = std::max(*plan + fade * (mean_x - (n + 1) / 2), *plan / 2); // the least: wild plans
            mean_y = (weight_ * mean_y + plan_weight * planned) / (weight_ + plan_weight);
            weight_ += plan_weight;
        }
        double residuals = 0;
        for (std::size_t i = 0; i < m; ++i)
            residuals += trust[i] * square(rounds[i] - mean_y - slope_ * (static_cast<double>(i + 1) - mean_x));
        variance_ = (noise_rounds * square(noise) + residuals) / freedom();
        jump_ = m == 1 ? 0 : 0.25 * square(alone_last) * (1 - trust[m - 1]);
        since_mean_ = done_ - mean_x;
        next_ = std::max(mean_y + slope_ * (since_mean_ + 0.5), mean_y / 4); // the least: wild rounds
    }

    [[nodiscard]] double freedom() const { return noise_rounds - 1 + done_; }

    // Rounds that fit into a time, and the time they take; each undoes the other.
    [[nodiscard]] double rounds_in(double time) const {
        const double squared = square(next_) + 2 * slope_ * time;
        return 2 * time / (next_ + std::sqrt(std::max(squared, square(next_) / 4)));
    }
    [[nodiscard]] double time_of(double rounds) const {
        return std::max(next_ * rounds + slope_ * square(rounds) / 2, 0.75 * next_ * rounds);
    }

    // Standard error of the time for so many rounds more, and the larger one of the slow side.
    [[nodiscard]] double error(double x) const { return std::sqrt(variance(x)); }
    [[nodiscard]] double slow_error(double x) const {
        return std::sqrt(variance(x) + square(slow_drift) * x * x * x / (3 * n_) + square(slow_spread) * x);
    }

  private:
    // How far a round is from what the rounds about it say.
    static double stands_alone(const std::vector<double>& level, std::size_t i, std::optional<double> plan) {
        const std::size_t m = level.size();
        if (m == 1)
            return plan ? std::max(0.0, std::abs(level[0] - *plan) - plan_slack * *plan) : 0;
        if (m == 2)
            return level[i] - (plan ? middle(level[0], level[1], *plan) : (level[0] + level[1]) / 2);
        const std::size_t centre = std::clamp<std::size_t>(i, 1, m - 2);
        return level[i] - middle(level[centre - 1], level[centre], level[centre + 1]);
    }

    [[nodiscard]] double variance(double x) const {
        const double lever = since_mean_ + (x + 1) / 2;
        return variance_ * x + square(x) * (variance_ / weight_ + square(lever) * variance_ / spread_ + jump_) +
               square(level_spread) * square(x) + square(drift_spread) * x * x * x / (3 * n_);
    }

    double done_;
    double n_;
    double weight_ = 0;
    double spread_ = 0; // Sxx + lambda
    double slope_ = 0;
    double since_mean_ = 0; // rounds between their weighted mean and the last
    double next_ = 0;
    double variance_ = 0;
    double jump_ = 0;
};

std::optional<Error> bad_options(double confidence, std::optional<Seconds> planned) {
    if (!(confidence > 0) || !(confidence < 1))
        return out_of_domain("The confidence must be between 0 and 1, such as 0.9; got %1.", confidence);
    if (planned && !positive(planned->value()))
        return out_of_domain("The planned round must be above 0 s; got %1.", planned->value());
    return {};
}

Error too_many_rounds() {
    return out_of_domain("The rounds are too short for the cap: more than a million would fit.");
}

// The rounds in units of the usual one, which is left in their place.
Course course_of(std::vector<double> rounds, double usual, double n, std::optional<Seconds> planned) {
    for (double& round : rounds)
        round /= usual;
    return {rounds, n, planned ? std::optional{planned->value() / usual} : std::nullopt};
}

Line line_of_rounds(std::span<const Seconds> clocks) {
    return fit_line(
        clocks.size(), [](std::size_t i) { return static_cast<double>(i + 1); },
        [clocks](std::size_t i) { return round_time(clocks, i); });
}

} // namespace

Result<Forecast> forecast(Seconds cap, std::span<const Seconds> clocks, const RepsPerRound& reps_per_round,
                          double confidence, std::optional<Seconds> planned) {
    if (!positive(cap.value()))
        return out_of_domain("The cap must be above 0 s; got %1.", cap.value());
    if (clocks.empty())
        return no_clock_yet();
    if (auto error = bad_clocks(clocks, 1))
        return *error;
    if (!(clocks.back() <= cap))
        return out_of_domain("The last round ends at %1, after the cap of %2.", said(clocks.back()), said(cap));
    if (auto error = bad_options(confidence, planned))
        return *error;
    std::vector<double> rounds = rounds_of(clocks);
    const double usual = usual_round(rounds, planned);
    const auto done = static_cast<double>(rounds.size());
    const double n = std::max(cap.value() / usual, done);
    if (!(n <= most_rounds) || (planned && !(cap / *planned <= most_rounds)))
        return too_many_rounds();

    const double to_go = (cap - clocks.back()).value() / usual;
    double more = 0;
    double low = 0;
    double high = 0;
    if (to_go > 0) {
        const Course course = course_of(std::move(rounds), usual, n, planned);
        more = course.rounds_in(to_go);
        const double t = student(course.freedom(), confidence);
        low = more * std::exp(-t * course.slow_error(more) / to_go);
        high = more * growth(t * course.error(more) / to_go);
    }
    const auto in_reps = [&](double x) -> Result<Reps> {
        const auto reps = reps_per_round.of_rounds(done + x);
        if (!reps)
            return no_solution("The score goes beyond the rounds with known reps.");
        return Reps{*reps};
    };
    return Forecast{.low = in_reps(low), .expected = in_reps(more), .high = in_reps(high)};
}

Result<FinishForecast> forecast_finish(double rounds, std::span<const Seconds> clocks, double confidence,
                                       std::optional<Seconds> planned) {
    if (clocks.empty())
        return no_clock_yet();
    if (auto error = bad_clocks(clocks, 1))
        return *error;
    if (auto error = bad_options(confidence, planned))
        return *error;
    std::vector<double> done = rounds_of(clocks);
    const double more = rounds - static_cast<double>(done.size());
    if (!(more >= 0))
        return out_of_domain("There are %1 round clocks, but the task has %2 rounds.", done.size(), rounds);
    if (!(rounds <= most_rounds))
        return out_of_domain("The rounds must be a million at most; got %1.", rounds);
    const Seconds last = clocks.back();
    if (more == 0)
        return FinishForecast{.early = last, .expected = last, .late = last};
    const Seconds usual{usual_round(done, planned)};
    const Course course = course_of(std::move(done), usual.value(), rounds, planned);
    const double left = course.time_of(more);
    const double t = student(course.freedom(), confidence);
    return FinishForecast{.early = last + left * std::exp(-t * course.error(more) / left) * usual,
                          .expected = last + left * usual,
                          .late = last + left * growth(t * course.slow_error(more) / left) * usual};
}

Result<double> fade(std::span<const Seconds> clocks) {
    if (auto error = bad_clocks(clocks, 2))
        return *error;
    const Line line = line_of_rounds(clocks);
    const double share = line.slope / line.mean_y;
    if (!std::isfinite(share))
        return out_of_domain("The round times are too large to compute with.");
    return share;
}

Result<double> steadiness(std::span<const Seconds> clocks) {
    if (auto error = bad_clocks(clocks, 2))
        return *error;
    const Line line = line_of_rounds(clocks);
    const double variation = std::sqrt(line.syy / static_cast<double>(clocks.size() - 1)) / line.mean_y;
    if (!std::isfinite(variation))
        return out_of_domain("The round times are too large to compute with.");
    return variation;
}

} // namespace pacecells
