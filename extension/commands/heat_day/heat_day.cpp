#include "heat_day.h"

#include "heat_day_clock.h"

#include "pacecells/clock.h"
#include "pacecells/score.h"

#include <com/sun/star/util/XStringSubstitution.hpp>
#include <osl/file.hxx>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>

namespace pacecells {

namespace {

constexpr Seconds count_in{10};
constexpr Seconds freshness{2};
constexpr Seconds reload_every{0.5};
constexpr Seconds lull{0.1}; // after a key, before the sheet is written: others may follow at once
constexpr double seconds_of_day = 86400;
constexpr double keep_logs = 30 * seconds_of_day;

std::vector<HeatDay*> open_days; // on the main thread alone

std::string text(Seconds time, int decimals = 0) {
    const auto written = clock_text(time, decimals);
    return written ? *written : std::string();
}

// As a gym clock shows it: a second shows when it is complete.
std::string on_clock(Seconds time) { return text(Seconds{std::floor(time.value())}); }

std::optional<int> whole(const std::string& typed) {
    int value = 0;
    const auto* end = typed.data() + typed.size();
    const auto [stop, problem] = std::from_chars(typed.data(), end, value);
    return problem == std::errc() && stop == end ? std::optional(value) : std::nullopt;
}

std::string trimmed(const std::string& typed) {
    const auto from = typed.find_first_not_of(' ');
    return from == std::string::npos ? std::string() : typed.substr(from, typed.find_last_not_of(' ') - from + 1);
}

bool same(const CellValue& a, const CellValue& b) {
    const auto* x = std::get_if<double>(&a);
    const auto* y = std::get_if<double>(&b);
    return x && y ? std::abs(*x - *y) < 1e-9 : a == b;
}

std::filesystem::path log_folder(const Context& context) {
    const auto places =
        need<css::util::XStringSubstitution>(create(context.component(), "com.sun.star.util.PathSubstitution"));
    rtl::OUString path;
    osl::FileBase::getSystemPathFromFileURL(places->substituteVariables("$(user)", true), path);
    return std::filesystem::path(utf8(path)) / "pacecells";
}

} // namespace

HeatDay::HeatDay(Context& context, bool dark)
    : context_(context), sheet_(context.document()), folder_(log_folder(context)), dark_(dark) {
    int heat = 1; // the first that has no times yet
    const auto has_times = [&](const Seat& seat) { return !record_of(sheet_.written(seat.name)).clocks.empty(); };
    for (const int heats = sheet_.heats(); heat < heats; ++heat) {
        const auto seats = sheet_.seats(heat);
        if (std::none_of(seats.begin(), seats.end(), has_times))
            break;
    }
    choose(heat);
    open_days.push_back(this);
    look_for_logs();
}

HeatDay::~HeatDay() {
    open_days.erase(std::remove(open_days.begin(), open_days.end(), this), open_days.end());
    try {
        write_all();
    } catch (...) { // the workbook is gone; the log has it
    }
}

// What cannot be done becomes the message; the sheet is read again, so that both agree.
template <class Do>
void HeatDay::guarded(Do what) {
    std::string sentence;
    try {
        what();
        return;
    } catch (const Refusal& refusal) {
        sentence = refusal.sentence;
    } catch (const css::uno::Exception& problem) {
        sentence = tr("That did not work. The office says: %1", utf8(problem.Message));
    } catch (const std::exception& problem) {
        sentence = tr("That did not work. The office says: %1", problem.what());
    }
    message_ = sentence;
    try {
        reload();
    } catch (...) { // the workbook is going away
    }
}

// --- what the window hands over ----------------------------------------------------------------------------------

void HeatDay::press(const KeyPress& key) {
    last_key_ = key.when;
    guarded([&] {
        const bool writing =
            asking_ == Ask::heat || asking_ == Ask::running_at || asking_ == Ask::partial || asking_ == Ask::add;
        if (key.edit == KeyPress::Edit::escape) {
            nothing_asked();
        } else if (key.edit == KeyPress::Edit::enter) {
            if (asking_ != Ask::nothing)
                answer(key.when);
        } else if (key.edit == KeyPress::Edit::backspace) {
            while (!typed_.empty() && (static_cast<unsigned char>(typed_.back()) & 0xC0) == 0x80)
                typed_.pop_back();
            if (!typed_.empty())
                typed_.pop_back();
        } else if (key.lane >= 0 && !writing) {
            const bool lane_asked =
                asking_ == Ask::partial_lane || asking_ == Ask::tiebreak_lane || asking_ == Ask::withdraw_lane;
            const bool accepted = guard_.accept(static_cast<std::size_t>(key.lane) + (key.shift ? 20 : 0), key.when);
            if (!accepted && !lane_asked)
                return;
            const auto row = row_of_lane(key.lane + 1);
            if (!row)
                throw Refusal{tr("There is no lane %1 in this heat.", std::to_string(key.lane + 1))};
            if (key.shift)
                take_back(*row);
            else
                pick(*row, key.when, key.day);
        } else if (writing) {
            if (typed_.size() + key.text.size() <= 60)
                typed_ += key.text;
        } else if (key.letter) {
            act(key.letter, key.when);
        }
    });
}

void HeatDay::click_row(std::size_t row, Seconds when, double day) {
    last_key_ = when;
    guarded([&] {
        if (row < seats_.size() && guard_.accept(row % 10, when))
            pick(row, when, day);
    });
}

void HeatDay::click_back(std::size_t row) {
    guarded([&] {
        if (row < seats_.size())
            take_back(row);
    });
}

void HeatDay::click_button(char letter, Seconds when) {
    guarded([&] {
        if (letter == '\n')
            answer(when);
        else if (letter == '\x1b')
            nothing_asked();
        else
            act(letter, when);
    });
}

// A lane: what was asked for it, or a stamp.
void HeatDay::pick(std::size_t row, Seconds when, double day) {
    switch (asking_) {
    case Ask::partial_lane:
        return ask_partial(row);
    case Ask::tiebreak_lane:
        return tiebreak(row, when);
    case Ask::withdraw_lane:
        return withdraw(row);
    default:
        return stamp(row, when, day);
    }
}

void HeatDay::act(char letter, Seconds now) {
    const bool busy = running() && !heat_->over(now);
    switch (letter) {
    case 'H':
        if (running())
            throw Refusal{tr("Heat %1 is running. Two heats at once are not possible: end it first, with E.",
                             std::to_string(number_))};
        ask(Ask::heat, tr("Heat, 1 to %1:", std::to_string(sheet_.heats())));
        typed_ = ended_ && number_ < sheet_.heats() ? std::to_string(number_ + 1) : std::string();
        break;
    case 'S':
        start_or_ask(now);
        break;
    case 'R':
        if (may_start(now))
            ask(Ask::running_at, tr("What does the clock show at Enter? Minutes and seconds, such as 2:30:"));
        break;
    case 'P':
        ask(Ask::partial_lane, tr("Partial score: which lane?"));
        break;
    case 'T':
        ask(Ask::tiebreak_lane, tr("Tie-break now: which lane?"));
        break;
    case 'W':
        ask(Ask::withdraw_lane, tr("Withdrawn, or back again: which lane?"));
        break;
    case 'A':
        ask(Ask::add, tr("Athlete to add, as on the roster; the first letters are enough:"));
        break;
    case 'E':
        if (running())
            ask(Ask::end, tr("End heat %1? Enter: yes. Esc: no.", std::to_string(number_)));
        break;
    case 'B':
        beeps_ = !beeps_;
        beep_now_ = beeps_; // to be heard at once
        message_ = beeps_ ? tr("A beep each minute.") : tr("No beep.");
        break;
    case 'L':
        dark_ = !dark_;
        break;
    case 'O':
    case 'J':
        if (busy)
            throw Refusal{tr("Not while the clock runs: it would hold up the keys.")};
        if (letter == 'O') {
            sheet_.list_results(context_);
        } else {
            const int next = heat_ && heat_->start() ? number_ + 1 : number_;
            sheet_.show_judges(next, context_.frame()->getController());
            message_ = tr("The judge sheets of heat %1 are in front: print them there.", std::to_string(next));
        }
        break;
    default:
        break;
    }
}

void HeatDay::ask(Ask what, const std::string& question) {
    asking_ = what;
    question_ = question;
    typed_.clear();
    message_.clear();
}

void HeatDay::nothing_asked() { ask(Ask::nothing, {}); }

void HeatDay::answer(Seconds now) {
    const auto asked = asking_;
    const auto typed = trimmed(typed_);
    switch (asked) {
    case Ask::heat: {
        const auto heat = whole(typed);
        if (!heat || *heat < 1 || *heat > sheet_.heats())
            throw Refusal{tr("Heat %1 is not on the sheet Heats.", typed)};
        nothing_asked();
        choose(*heat);
        break;
    }
    case Ask::running_at: {
        const auto clock = parse_clock(typed);
        if (!clock || *clock >= task_.cap)
            throw Refusal{tr("Give minutes and seconds below the cap, such as 2:30; got %1.", typed)};
        nothing_asked();
        start(now - *clock, day_now() - clock->value());
        break;
    }
    case Ask::partial: {
        const auto row = asked_row_;
        partial(row, typed, now);
        nothing_asked();
        if (heat_->over(now)) // the last scores, one lane after the other
            for (std::size_t step = 1; step < seats_.size(); ++step) {
                const auto next = (row + step) % seats_.size();
                const auto& record = heat_->record(next);
                if (!record.partial && !record.out && !record.finish)
                    return ask_partial(next);
            }
        break;
    }
    case Ask::add:
        nothing_asked();
        add(typed);
        break;
    case Ask::end:
        nothing_asked();
        end();
        break;
    case Ask::again:
        nothing_asked();
        clear_heat();
        start(now + count_in, day_now() + count_in.value());
        break;
    case Ask::recover:
        nothing_asked();
        recover(now);
        break;
    case Ask::give_up:
        nothing_asked();
        for (const auto& stored : left_running())
            put_aside(stored.path);
        message_ = tr("The clock is not running yet: S starts it.");
        break;
    default:
        break;
    }
}

// --- the heat ----------------------------------------------------------------------------------------------------

// The lanes are taken from the sheet Heats once: who is added to the roster later moves nobody in this heat.
void HeatDay::choose(int heat) {
    task_ = sheet_.task();
    number_ = heat;
    ended_ = false;
    heat_.reset();
    seat(sheet_.seats(heat));
    if (seats_.empty())
        message_ = tr("Nobody stands in heat %1 yet: the sheet Heats is made from the roster.", std::to_string(heat));
}

void HeatDay::seat(std::vector<Seat> seats) {
    const auto start = heat_ ? heat_->start() : std::nullopt;
    seats_ = std::move(seats);
    heat_.emplace(task_);
    for (const auto& one : seats_)
        heat_->add_lane(sheet_.plan(one.name));
    if (start)
        heat_->start_at(*start);
    fresh_.assign(seats_.size(), std::nullopt);
    reload();
}

std::optional<std::size_t> HeatDay::row_of_lane(int lane) const {
    for (std::size_t row = 0; row < seats_.size(); ++row)
        if (seats_[row].lane == lane)
            return row;
    return std::nullopt;
}

// One floor, one heat, whichever of the open workbooks it is in.
void HeatDay::must_be_alone(Seconds now) const {
    for (auto* other : open_days)
        if (other != this && other->running() && !other->heat_->over(now))
            throw Refusal{tr("Heat %1 of %2 is running in another workbook. Two heats at once are not possible: end it "
                             "there first, with E.",
                             std::to_string(other->number_), other->sheet_.title())};
}

// Other heats that by the time of day run on, though no workbook that is open holds them.
std::vector<StoredLog> HeatDay::left_running() {
    auto logs = stored_logs(folder_);
    const auto key = sheet_.key();
    std::erase_if(logs, [&](const StoredLog& stored) {
        const auto& log = stored.log;
        return log.ended || !log.day_start || !log.cap || day_now() - *log.day_start > *log.cap || in_use(stored) ||
               (log.event == key && log.heat == number_);
    });
    return logs;
}

bool HeatDay::may_start(Seconds now) {
    if (running())
        throw Refusal{tr("Heat %1 is running already.", std::to_string(number_))};
    must_be_alone(now);
    const auto others = left_running();
    if (others.empty())
        return true;
    ask(Ask::give_up, tr("Heat %1 was not ended and still runs. Give it up? Enter: yes. Esc: no.",
                         std::to_string(others.front().log.heat)));
    return false;
}

void HeatDay::start_or_ask(Seconds now) {
    if (!may_start(now))
        return;
    reload();
    for (std::size_t row = 0; row < seats_.size(); ++row)
        if (!heat_->record(row).clocks.empty() || heat_->record(row).finish)
            return ask(Ask::again, tr("Heat %1 has times already. Clear them and start anew? Enter: yes. Esc: no.",
                                      std::to_string(number_)));
    start(now + count_in, day_now() + count_in.value());
}

void HeatDay::start(Seconds zero, double day_zero) {
    if (seats_.empty())
        throw Refusal{
            tr("Nobody stands in heat %1 yet: the sheet Heats is made from the roster.", std::to_string(number_))};
    const auto key = sheet_.key();
    for (const auto& stored : stored_logs(folder_))
        if (stored.log.event == key && stored.log.heat == number_ && !in_use(stored))
            put_aside(stored.path);
    ended_ = false;
    minutes_ = 0;
    heat_->start_at(zero);
    logged_.clear();
    journal_.reset();
    try {
        journal_ = std::make_unique<Journal>(Journal::new_path(folder_, number_));
    } catch (const std::exception&) { // the heat matters more than its copy; the view says that there is none
    }
    std::string lines = heat_line(key, number_) + start_line(zero.value(), computer_run(), day_zero, task_.cap.value());
    for (const auto& seat : seats_)
        lines += lane_line(seat.lane, seat.name);
    journal(lines);
    reload();
}

void HeatDay::journal(const std::string& lines) {
    if (journal_ && !lines.empty())
        journal_->write(lines);
}

// First the log, then between two keys the sheet: what the log has can be put back whatever happens to the office.
void HeatDay::apply(const std::string& title, const std::vector<CellChange>& changes) {
    std::string lines;
    for (const auto& change : changes) {
        lines += set_line(change);
        const auto place = std::make_tuple(change.range, change.athlete, change.column);
        if (change.value == CellValue{})
            logged_.erase(place);
        else
            logged_[place] = change.value;
    }
    journal(lines);
    waiting_.push_back({title, changes});
    message_ = title;
}

void HeatDay::write_next() {
    const auto step = std::move(waiting_.front());
    waiting_.pop_front();
    sheet_.write(step.title, step.changes);
}

void HeatDay::write_all() {
    while (!waiting_.empty())
        write_next();
}

void HeatDay::work(Seconds now) {
    if (!waiting_.empty() && now - last_key_ >= lull)
        guarded([&] { write_next(); });
}

// The sheet is the truth: undone steps and corrections typed there count. What changed there is logged too.
void HeatDay::reload() {
    write_all();
    if (!heat_)
        return;
    std::map<std::tuple<std::string, std::string, int>, CellValue> now;
    for (std::size_t row = 0; row < seats_.size(); ++row) {
        const auto written = sheet_.written(seats_[row].name);
        heat_->set_record(row, record_of(written));
        for (const auto& cell : written)
            now[{cell.range, cell.athlete, cell.column}] = cell.value;
    }
    if (!running())
        return;
    std::string lines;
    for (const auto& [place, value] : now)
        if (const auto known = logged_.find(place); known == logged_.end() || !same(known->second, value))
            lines += set_line({std::get<0>(place), std::get<1>(place), std::get<2>(place), value});
    for (const auto& [place, value] : logged_)
        if (!now.contains(place))
            lines += set_line({std::get<0>(place), std::get<1>(place), std::get<2>(place), {}});
    journal(lines);
    logged_ = std::move(now);
}

std::string HeatDay::who(std::size_t row) const {
    return tr("Lane %1, %2", std::to_string(seats_[row].lane), seats_[row].name);
}

std::string HeatDay::refusal(Verdict verdict, std::size_t row) const {
    switch (verdict) {
    case Verdict::not_running:
        return tr("The clock is not running yet: S starts it.");
    case Verdict::over:
        return tr("The cap has passed. Type the partial score with P.");
    case Verdict::out:
        return tr("%1: withdrawn. W takes that back.", who(row));
    case Verdict::finished:
        return tr("%1: has finished.", who(row));
    case Verdict::full:
        return tr("%1: the sheet holds no more than 40 rounds.", who(row));
    case Verdict::not_later:
        return tr("%1: not later than the stamp before.", who(row));
    case Verdict::nothing_there:
        return tr("%1: no stamp to take back.", who(row));
    case Verdict::taken:
        break;
    }
    return {};
}

void HeatDay::stamp(std::size_t row, Seconds when, double day) {
    if (ended_)
        throw Refusal{tr("Heat %1 has ended. H chooses the next one.", std::to_string(number_))};
    const auto before = heat_->record(row);
    const auto stamp = heat_->stamp(row, when);
    if (stamp.verdict != Verdict::taken)
        throw Refusal{refusal(stamp.verdict, row)};
    const auto& name = seats_[row].name;
    const double clock = stamp.clock.value() / seconds_of_day;
    std::vector<CellChange> changes{{"day_clocks", name, stamp.round - 1, clock},
                                    {"day_stamps", name, stamp.round - 1, share_of_day(day)}};
    if (before.partial)
        changes.push_back({"day_partial", name, 0, {}});
    if (before.left)
        changes.push_back({"day_left", name, 0, {}});
    if (stamp.finishes)
        changes.push_back({"day_finish", name, 0, clock});
    apply(tr("%1: round %2 at %3", who(row), std::to_string(stamp.round), text(stamp.clock, 1)), changes);
    fresh_[row] = when;
}

void HeatDay::take_back(std::size_t row) {
    const auto& name = seats_[row].name;
    const auto stamp = heat_->take_back(row);
    if (stamp.verdict != Verdict::taken)
        throw Refusal{refusal(stamp.verdict, row)};
    std::vector<CellChange> changes{{"day_clocks", name, stamp.round - 1, {}},
                                    {"day_stamps", name, stamp.round - 1, {}}};
    if (stamp.finishes)
        changes.push_back({"day_finish", name, 0, {}});
    apply(tr("%1: round %2 taken back", who(row), std::to_string(stamp.round)), changes);
    fresh_[row].reset();
}

void HeatDay::tiebreak(std::size_t row, Seconds when) {
    nothing_asked();
    const auto stamp = heat_->tiebreak(row, when);
    if (stamp.verdict != Verdict::taken)
        throw Refusal{refusal(stamp.verdict, row)};
    apply(tr("%1: tie-break %2", who(row), text(stamp.clock, 1)),
          {{"day_tiebreak", seats_[row].name, 0, stamp.clock.value() / seconds_of_day}});
}

void HeatDay::withdraw(std::size_t row) {
    nothing_asked();
    const bool out = heat_->record(row).out;
    apply(out ? tr("%1: back again", who(row)) : tr("%1: withdrawn", who(row)),
          {{"day_out", seats_[row].name, 0, out ? CellValue{} : CellValue{sheet_.yes()}}});
    reload();
}

void HeatDay::ask_partial(std::size_t row) {
    if (heat_->record(row).finish)
        throw Refusal{refusal(Verdict::finished, row)};
    ask(Ask::partial, tr("%1: reps of round %2:", who(row), std::to_string(heat_->record(row).clocks.size() + 1)));
    asked_row_ = row;
}

void HeatDay::partial(std::size_t row, const std::string& typed, Seconds now) {
    const auto& name = seats_[row].name;
    const auto reps = whole(typed);
    if (!typed.empty() && (!reps || !heat_->fits_open_round(row, *reps)))
        throw Refusal{tr("A partial score is whole and below the reps of its round; got %1.", typed)};
    std::vector<CellChange> changes{{"day_partial", name, 0, reps ? CellValue{double(*reps)} : CellValue{}}};
    if (task_.format == HeatFormat::for_time && heat_->over(now)) {
        const auto left = reps ? heat_->left(row, *reps) : std::nullopt;
        changes.push_back({"day_left", name, 0, left ? CellValue{*left} : CellValue{}});
    }
    apply(tr("%1: partial score %2", who(row), typed), changes);
    reload();
}

void HeatDay::add(const std::string& begins) {
    const auto name = sheet_.athlete(begins);
    if (!name)
        throw Refusal{tr("%1 is not one name of the roster. Type it on the sheet Roster first.", begins)};
    for (const auto& seat : seats_)
        if (seat.name == *name)
            throw Refusal{tr("%1 stands in lane %2 already.", *name, std::to_string(seat.lane))};
    Seat late{1, *name};
    while (row_of_lane(late.lane))
        ++late.lane;
    auto seats = seats_;
    seats.insert(std::find_if(seats.begin(), seats.end(), [&](const Seat& seat) { return seat.lane > late.lane; }),
                 late);
    if (running())
        journal(lane_line(late.lane, late.name));
    seat(std::move(seats));
    message_ = tr("%1 is in lane %2.", *name, std::to_string(late.lane));
}

void HeatDay::clear_heat() {
    std::vector<CellChange> changes;
    for (const auto& seat : seats_)
        for (auto& cell : sheet_.written(seat.name)) {
            cell.value = {};
            changes.push_back(std::move(cell));
        }
    apply(tr("Heat %1: times cleared", std::to_string(number_)), changes);
}

void HeatDay::end() {
    reload();
    journal(end_line());
    journal_.reset();
    ended_ = true;
    message_ = tr("Heat %1 has ended. H chooses the next one.", std::to_string(number_));
}

bool HeatDay::in_use(const StoredLog& stored) {
    return std::any_of(open_days.begin(), open_days.end(),
                       [&](const HeatDay* day) { return day->journal_ && day->journal_->path() == stored.path; });
}

// --- after a crash -----------------------------------------------------------------------------------------------

// What a log has and the sheet has not. Of a heat that ended, only cells that are empty now: later corrections stay.
std::vector<CellChange> HeatDay::missing(const HeatLog& log) {
    std::vector<CellChange> changes;
    for (const auto& [place, value] : log.cells) {
        const auto& [range, athlete, column] = place;
        if (column < 0 || column >= static_cast<int>(RunningHeat::most_rounds) || !range.starts_with("day_") ||
            !sheet_.knows(athlete))
            continue;
        const auto there = sheet_.value(range, athlete, column);
        if (!same(there, value) && (!log.ended || there == CellValue{}))
            changes.push_back({range, athlete, column, value});
    }
    return changes;
}

void HeatDay::look_for_logs() {
    const auto key = sheet_.key();
    for (auto& stored : stored_logs(folder_)) {
        if (in_use(stored) || stored.log.event != key)
            continue;
        const bool old = stored.log.day_start && day_now() - *stored.log.day_start > keep_logs;
        const bool known = std::any_of(stored.log.lanes.begin(), stored.log.lanes.end(),
                                       [&](const std::string& name) { return sheet_.knows(name); });
        if (old || !known || (stored.log.ended && missing(stored.log).empty())) {
            if (old && stored.log.ended)
                put_aside(stored.path);
            continue;
        }
        const auto cells = std::to_string(stored.log.cells.size());
        const auto heat = std::to_string(stored.log.heat);
        ask(Ask::recover,
            stored.log.ended
                ? tr("This file lacks entries of heat %1 that were kept on the disk. Put them back? Enter: yes. Esc: "
                     "not now.",
                     heat)
                : tr("Heat %1 was interrupted; %2 entries were kept on the disk. Put them back and go on? "
                     "Enter: yes. Esc: not now.",
                     heat, cells));
        found_ = std::move(stored);
        return;
    }
}

void HeatDay::recover(Seconds now) {
    if (!found_ || running())
        return;
    const auto stored = *std::exchange(found_, std::nullopt);
    const auto& log = stored.log;
    choose(std::max(1, log.heat));
    std::vector<Seat> seats;
    for (std::size_t i = 0; i < log.lanes.size(); ++i)
        if (sheet_.knows(log.lanes[i]))
            seats.push_back({static_cast<int>(i) + 1, log.lanes[i]});
    if (!log.ended)
        must_be_alone(now);
    const auto changes = missing(log);
    seat(std::move(seats));
    if (!log.ended && log.boot_start && log.day_start) {
        // The computer's own clock where it ran on, else the time of day.
        heat_->start_at(log.boot == computer_run() ? Seconds{*log.boot_start}
                                                   : now - Seconds{day_now() - *log.day_start});
        logged_ = log.cells;
        std::erase_if(logged_, [](const auto& cell) { return cell.second == CellValue{}; });
        try {
            journal_ = std::make_unique<Journal>(stored.path);
            journal("\n"); // ends a line that was torn
        } catch (const std::exception&) {
            // as in start()
        }
    } else {
        ended_ = true;
    }
    const auto title = tr("Heat %1: %2 entries put back", std::to_string(log.heat), std::to_string(changes.size()));
    if (!changes.empty())
        sheet_.write(title, changes);
    reload();
    message_ = title;
    if (ended_)
        look_for_logs();
}

// --- what there is to see ----------------------------------------------------------------------------------------

RowView HeatDay::row_view(std::size_t row, Seconds now) {
    const auto& record = heat_->record(row);
    const auto& plan = heat_->plan(row);
    const bool over = heat_->over(now) || ended_;
    RowView view;
    view.lane = std::to_string(seats_[row].lane);
    view.name = seats_[row].name;
    view.fresh = fresh_[row] && now - *fresh_[row] < freshness;
    if (record.out) {
        view.round = tr("withdrawn");
        view.quiet = true;
        return view;
    } else if (record.finish) {
        view.round = tr("done at %1", text(*record.finish, 1));
        view.quiet = true;
    } else if (over) {
        view.round = std::to_string(record.clocks.size()) + "+" +
                     (record.partial ? std::to_string(static_cast<int>(*record.partial)) : "?");
    } else {
        const auto round = std::to_string(record.clocks.size() + 1);
        const auto target = heat_->next_target(row);
        view.round = target ? tr("round %1 by %2", round, text(*target)) : tr("round %1", round);
    }
    if (const auto ahead = heat_->ahead(row, now); ahead && !over) {
        const auto amount = text(Seconds{std::round(std::abs(ahead->value()))});
        if (std::abs(ahead->value()) < 0.5) {
            view.ahead = tr("on time");
        } else {
            view.tone = ahead->value() > 0 ? 1 : -1;
            view.ahead = view.tone > 0 ? tr("ahead %1", amount) : tr("behind %1", amount);
        }
    }
    if (over) {
        view.ahead = sheet_.shown("day_result", seats_[row].name);
        const auto place = sheet_.shown("day_place", seats_[row].name);
        if (!place.empty())
            view.outlook = tr("place %1", place);
        return view;
    }
    const auto outlook = heat_->outlook(row);
    const auto shown = [&](const std::optional<double>& value) -> std::string {
        if (!value || !(*value >= 0))
            return {};
        if (task_.format == HeatFormat::for_time)
            return *value <= task_.cap.value() ? text(Seconds{*value}) : tr("over the cap");
        const auto per_round = RepsPerRound::by_round(plan.reps);
        if (!per_round)
            return {};
        const auto score = score_text(Reps{*value}, *per_round);
        return score ? *score : std::string();
    };
    if (!record.finish)
        view.outlook = shown(outlook.expected);
    if (outlook.low || outlook.high)
        view.range = tr("%1 to %2", outlook.low ? shown(outlook.low) : "?", outlook.high ? shown(outlook.high) : "?");
    return view;
}

View HeatDay::view(Seconds now) {
    View view;
    view.dark = dark_;
    try {
        if (waiting_.empty() && (now - reloaded_ >= reload_every || now < reloaded_)) {
            reloaded_ = now;
            reload();
        }
        view.title = sheet_.title();
        if (!view.title.empty())
            view.title += ", ";
        view.title += tr("heat %1", std::to_string(number_));
        if (!heat_->start() || ended_) {
            view.clock = ended_ ? tr("ended") : text(Seconds{0});
            view.left = tr("cap %1", text(task_.cap));
        } else if (heat_->clock(now).value() < 0) {
            view.clock = "−" + std::to_string(static_cast<int>(std::ceil(-heat_->clock(now).value())));
            view.left = tr("counting in");
        } else if (heat_->over(now)) {
            view.clock = text(task_.cap);
            view.left = tr("time is up");
        } else {
            const Seconds whole{std::floor(heat_->clock(now).value())};
            view.clock = on_clock(whole);
            view.left = tr("left %1", text(task_.cap - whole));
        }
        for (std::size_t row = 0; row < seats_.size(); ++row)
            view.rows.push_back(row_view(row, now));
    } catch (const Refusal& refusal) {
        message_ = refusal.sentence;
    } catch (const css::uno::Exception& problem) {
        message_ = utf8(problem.Message);
    } catch (const std::exception& problem) {
        message_ = problem.what();
    }
    view.message = message_;
    if (running() && !(journal_ && journal_->good()))
        view.message += (message_.empty() ? "" : "   ") +
                        tr("The disk does not take the copy of this heat: save the workbook often.");
    view.question = question_;
    view.typed = typed_;
    if (asking_ != Ask::nothing) {
        view.buttons = {{'\n', tr("Enter")}, {'\x1b', tr("Esc")}};
    } else if (running()) {
        view.buttons = {{'P', tr("partial")},  {'T', tr("tie-break")}, {'W', tr("withdraw")},   {'A', tr("add")},
                        {'E', tr("end heat")}, {'B', tr("beep")},      {'L', tr("light, dark")}};
        if (heat_->over(now))
            view.buttons = {{'P', tr("partial")},
                            {'W', tr("withdraw")},
                            {'E', tr("end heat")},
                            {'O', tr("results list")},
                            {'J', tr("judge sheets")}};
    } else {
        view.buttons = {{'S', tr("start")},        {'R', tr("running")},    {'H', tr("heat")},
                        {'A', tr("add")},          {'P', tr("partial")},    {'O', tr("results list")},
                        {'J', tr("judge sheets")}, {'L', tr("light, dark")}};
    }
    return view;
}

void HeatDay::no_sound() {
    beeps_ = false;
    message_ = tr("This office cannot play sounds: no beep.");
}

bool HeatDay::beep_due(Seconds now) {
    if (std::exchange(beep_now_, false))
        return true;
    if (!running() || heat_->clock(now).value() < 0 || heat_->clock(now) > task_.cap + Seconds{1})
        return false;
    const int minutes = static_cast<int>(heat_->clock(now).value() / 60);
    const bool due = beeps_ && minutes > minutes_;
    minutes_ = minutes;
    return due;
}

} // namespace pacecells
