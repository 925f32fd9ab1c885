#include "plan_reasons.h"

#include "texts.h"

#include "pacecells/clock.h"
#include "pacecells/text.h"

#include <cmath>
#include <set>

namespace pacecells {

namespace {

constexpr std::size_t most_steps = 40; // that someone reads

std::string number(double value, double decimals = 1) {
    const double scale = std::pow(10, decimals);
    return with_decimal_mark(number_text(std::round(value * scale) / scale));
}

std::string shown(const Value& value) {
    switch (value.measure) {
    case Measure::number:
        return number(value.number, 3);
    case Measure::reps:
        return tr("%1 reps", number(value.number));
    case Measure::rounds:
        return tr("%1 rounds", number(value.number, 2));
    case Measure::seconds:
        if (value.number >= 60)
            if (const auto text = clock_text(Seconds{value.number}, 0))
                return *text;
        return number(value.number) + " s";
    case Measure::cal_per_hour:
        return number(value.number, 0) + " cal/h";
    case Measure::watts:
        return number(value.number, 0) + " W";
    case Measure::share:
        return number(value.number * 100) + " %";
    case Measure::text:
        break;
    }
    return value.text;
}

class Walk {
  public:
    Walk(const Recorded& recorded, const CellOf& cell_of, const NameOf& name_of)
        : recorded_(recorded), cell_of_(cell_of), name_of_(name_of) {}

    void step(std::size_t index) {
        if (index >= recorded_.reasons.steps().size() || seen_.size() >= most_steps || !seen_.insert(index).second)
            return;
        const auto& one = recorded_.reasons.steps()[index];
        lines.push_back(ReasonLine{tr("%1: %2", titled(one), shown(one.value)), {}});
        if (!one.rule.sentence.empty())
            lines.push_back({"  " + tr("Rule: %1", said(one.rule)), {}});
        for (const auto& input : one.from)
            lines.push_back(line(input));
        for (const auto& input : one.from)
            if (input.step)
                step(*input.step);
    }

    std::vector<ReasonLine> lines;

  private:
    ReasonLine line(const Input& input) const {
        ReasonLine made{"  " + tr("%1: %2", said(input.what), shown(input.value)), {}};
        if (input.place)
            made.cell = cell_of_(*input.place);
        if (made.cell)
            made.text += " (" + name_of_(*made.cell) + ")";
        return made;
    }

    // With the station, where there are several of a kind.
    [[nodiscard]] std::string titled(const Step& step) const {
        auto text = said(step.what);
        const auto* workout = recorded_.workout.get();
        if (step.station && workout && *step.station < workout->stations.size())
            if (const auto& movement = workout->stations[*step.station].movement; text.find(movement) == text.npos)
                text += ", " + movement;
        return text;
    }

    // With cells by their names.
    [[nodiscard]] std::string said(Said sentence) const {
        for (auto& told : sentence.told)
            if (const auto* place = std::get_if<Place>(&told))
                if (const auto cell = cell_of_(*place))
                    told = name_of_(*cell);
        return tr(sentence);
    }

    const Recorded& recorded_;
    const CellOf& cell_of_;
    const NameOf& name_of_;
    std::set<std::size_t> seen_;
};

} // namespace

std::vector<ReasonLine> reason_lines(const Recorded& recorded, const CellOf& cell_of, const NameOf& name_of) {
    Walk walk(recorded, cell_of, name_of);
    if (recorded.about)
        if (const auto step = recorded.reasons.find(recorded.about->fact, recorded.about->station))
            walk.step(*step);
    return std::move(walk.lines);
}

} // namespace pacecells
