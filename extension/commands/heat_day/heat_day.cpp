#include "heat_day.h"

#include "heat_day_clock.h"
#include "heat_day_screens.h"

#include "pacecells/clock.h"
#include "pacecells/words.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <utility>

namespace pacecells {

namespace {

std::string trimmed(const std::string& typed) {
    const auto from = typed.find_first_not_of(' ');
    return from == std::string::npos ? std::string() : typed.substr(from, typed.find_last_not_of(' ') - from + 1);
}

constexpr const char* keys_file = "keys";
constexpr std::size_t guarded_lanes = 20;

// A click and a key of the same lane are one key to the guard.
std::size_t guarded_key(int lane) { return static_cast<std::size_t>(lane) % guarded_lanes; }

// As the office's own settings have it; else as the computer knows who is logged in.
std::string user_of(const Context& context) {
    std::string name;
    for (const char* part : {"givenname", "sn"})
        if (const auto word = utf8(setting(context.component(), "/org.openoffice.UserProfile/Data", part));
            !word.empty())
            name += (name.empty() ? "" : " ") + word;
    const char* account = std::getenv("USER");
    return name.empty() && account ? account : name;
}

} // namespace

std::optional<int> whole_number(const std::string& typed) {
    int value = 0;
    const auto* end = typed.data() + typed.size();
    const auto [stop, problem] = std::from_chars(typed.data(), end, value);
    return problem == std::errc() && stop == end ? std::optional(value) : std::nullopt;
}

std::string time_text(Seconds time, int decimals) {
    const auto written = clock_text(time, decimals);
    return written ? *written : std::string();
}

bool same_value(const CellValue& a, const CellValue& b) {
    const auto* x = std::get_if<double>(&a);
    const auto* y = std::get_if<double>(&b);
    return x && y ? std::abs(*x - *y) < 1e-9 : a == b;
}

std::vector<HeatDay*> HeatDay::open_days_;

HeatDay::HeatDay(Context& context, bool dark)
    : context_(context), sheet_(context.document()), folder_(log_folder(context)), user_(user_of(context)),
      dark_(dark) {
    const auto all = sheet_.lines();
    const auto has_times = [&](int heat) {
        for (int row = 0; row < static_cast<int>(all.size()); ++row) {
            const auto& line = all[static_cast<std::size_t>(row)];
            if (line.heat == heat && !record_of(sheet_.written(row, line.name)).clocks.empty())
                return true;
        }
        return false;
    };
    int chosen = 0;
    if (std::ifstream(folder_ / keys_file) >> chosen && chosen > 0 && chosen <= static_cast<int>(KeyLayout::halves))
        keys_ = static_cast<KeyLayout>(chosen);
    read_keyboard();
    int heat = 1; // the first that has no times yet
    for (const int heats = sheet_.heats(); heat < heats && has_times(heat);)
        ++heat;
    choose(heat);
    open_days_.push_back(this);
    look_for_logs();
}

HeatDay::~HeatDay() {
    std::erase(open_days_, this);
    (void)sentence_of([&] { write_all(); }); // the workbook may be gone; the log has it
}

// --- what the window hands over ----------------------------------------------------------------------------------

void HeatDay::press(const KeyPress& key) {
    last_key_ = key.when;
    guarded([&] {
        const bool writing = asking_ == Ask::heat || asking_ == Ask::running_at || asking_ == Ask::partial ||
                             asking_ == Ask::add || asking_ == Ask::again || asking_ == Ask::rounds ||
                             asking_ == Ask::screen;
        const bool yes_or_no = asking_ == Ask::end || asking_ == Ask::recover || asking_ == Ask::give_up ||
                               asking_ == Ask::log_only || asking_ == Ask::soon;
        if (key.edit == KeyPress::Edit::escape) {
            escape();
        } else if (key.edit == KeyPress::Edit::enter) {
            if (asking_ != Ask::nothing)
                answer(key.when);
        } else if (key.edit == KeyPress::Edit::backspace) {
            replace_ = false;
            while (!typed_.empty() && (static_cast<unsigned char>(typed_.back()) & 0xC0) == 0x80)
                typed_.pop_back();
            if (!typed_.empty())
                typed_.pop_back();
        } else if (key.lane >= 0 && !writing) {
            const bool accepted = guard_.accept(guarded_key(key.lane) + (key.shift ? guarded_lanes : 0), key.when);
            if (!accepted && !lane_asked())
                return;
            const auto row = row_of_lane(key.lane + 1);
            if (!row)
                throw Refusal{tr("There is no lane %1 in this heat.", std::to_string(key.lane + 1))};
            if (key.shift)
                take_back(*row);
            else
                pick(*row, key.when);
        } else if (writing) {
            if (std::exchange(replace_, false))
                typed_.clear();
            if (typed_.size() + key.text.size() <= 60)
                typed_ += key.text;
        } else if (key.letter && !yes_or_no) {
            act(key.letter, key.when);
        }
    });
}

void HeatDay::click_row(std::size_t row, Seconds when) {
    last_key_ = when;
    guarded([&] {
        if (row < seats_.size() && (guard_.accept(guarded_key(seats_[row].lane - 1), when) || lane_asked()))
            pick(row, when);
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
            escape();
        else
            act(letter, when);
    });
}

bool HeatDay::lane_asked() const {
    return asking_ == Ask::partial_lane || asking_ == Ask::tiebreak_lane || asking_ == Ask::withdraw_lane ||
           asking_ == Ask::rounds_lane;
}

// A lane: what was asked for it, or a stamp.
void HeatDay::pick(std::size_t row, Seconds when) {
    switch (asking_) {
    case Ask::partial_lane:
        return ask_partial(row);
    case Ask::tiebreak_lane:
        return tiebreak(row, when);
    case Ask::withdraw_lane:
        return withdraw(row);
    case Ask::rounds_lane:
        return ask_rounds(row);
    default:
        return press_lane(row, when);
    }
}

void HeatDay::act(char letter, Seconds now) {
    const bool busy = running() && !heat_->over(now);
    switch (letter) {
    case 'H':
        if (running())
            throw Refusal{tr("Heat %1 is running. Only one heat can run at a time: end it first with E.",
                             std::to_string(number_))};
        ask(Ask::heat, tr("Heat, 1 to %1:", std::to_string(sheet_.heats())));
        typed_ = ended_ && number_ < sheet_.heats() ? std::to_string(number_ + 1) : std::string();
        replace_ = true;
        break;
    case 'S':
        start_or_ask(now);
        break;
    case 'R':
        if (may_start(now))
            ask(Ask::running_at, tr("Type what the clock will show, then press Enter at that moment, such as 2:30:"));
        break;
    case 'P':
        ask(Ask::partial_lane, tr("Partial score: which lane?"));
        break;
    case 'T':
        ask(Ask::tiebreak_lane, tr("Tie-break now: which lane?"));
        break;
    case 'W':
        ask(Ask::withdraw_lane, tr("Withdraw or bring back: which lane?"));
        break;
    case 'I':
        ask(Ask::rounds_lane, tr("Rounds to correct: which lane?"));
        break;
    case 'U':
        step_back();
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
        message_ = beeps_ ? tr("Beep every minute.") : tr("No beep.");
        break;
    case 'K':
        next_keys();
        break;
    case 'V':
        room();
        break;
    case 'L':
        dark_ = !dark_;
        break;
    case 'O':
    case 'J':
        if (busy)
            throw Refusal{tr("Not while the clock is running: it would delay your key presses.")};
        if (letter == 'O') {
            list_results(context_, sheet_, corrections());
        } else {
            const int next = heat_ && heat_->start() ? number_ + 1 : number_;
            sheet_.show_judges(next, context_.frame()->getController());
            message_ = tr("The judge sheets of heat %1 are now open: print them from there.", std::to_string(next));
        }
        break;
    default:
        break;
    }
}

// On another screen where there is one.
void HeatDay::room() {
    const auto all = screens();
    room_screen_ = 0;
    if (room_ || all.size() < 2) {
        room_ = !room_;
        return;
    }
    const auto here = context_.frame()->getContainerWindow()->getPosSize();
    std::string list;
    std::string other;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto number = std::to_string(i + 1);
        list += (list.empty() ? "" : "; ") + number + ": " + std::to_string(all[i].Width) + " × " +
                std::to_string(all[i].Height);
        const auto x = here.X + here.Width / 2;
        if (other.empty() && (x < all[i].X || x >= all[i].X + all[i].Width))
            other = number;
    }
    ask(Ask::screen, tr("The room's window: on which screen? %1.", list));
    typed_ = other;
    replace_ = true;
}

// The choice is the person's at this computer, for every workbook.
void HeatDay::next_keys() {
    keys_ = keys_ == KeyLayout::row ? KeyLayout::pad : keys_ == KeyLayout::pad ? KeyLayout::halves : KeyLayout::row;
    read_keyboard();
    std::error_code ignored; // then it is chosen anew next time
    std::filesystem::create_directories(folder_, ignored);
    std::ofstream(folder_ / keys_file) << static_cast<int>(keys_) << '\n';
    const auto these = [&](std::size_t from, std::size_t to) {
        std::string all;
        for (; from < to; ++from)
            all += (all.empty() ? "" : " ") + lane_keys_[from];
        return all;
    };
    switch (keys_) {
    case KeyLayout::row:
        message_ = tr("Lanes by the row of digits. Shift takes back.");
        break;
    case KeyLayout::pad:
        message_ = tr("Lanes by the numeric pad, with and without Num Lock. Shift takes back.");
        break;
    case KeyLayout::halves:
        message_ = tr("Two judges, half a keyboard each: %1 and %2. Shift takes back; commands with Ctrl.", these(0, 5),
                      these(5, 10));
        break;
    }
}

void HeatDay::ask(Ask what, const std::string& question) {
    asking_ = what;
    question_ = question;
    typed_.clear();
    replace_ = false;
    message_.clear();
}

void HeatDay::nothing_asked() { ask(Ask::nothing, {}); }

void HeatDay::escape() {
    const auto asked = asking_;
    nothing_asked();
    if (asked == Ask::soon && !soon_.empty()) {
        soon_.pop_front();
        ask_soon();
    }
    if (asked == Ask::recover && found_) {
        declined_.insert(found_->path);
        found_.reset();
        if (!running())
            look_for_logs();
    }
}

void HeatDay::ask_partial(std::size_t row) {
    if (heat_->record(row).finish)
        throw Refusal{refusal(Verdict::finished, row)};
    ask(Ask::partial, tr("%1: reps of round %2:", who(row), std::to_string(heat_->record(row).clocks.size() + 1)));
    asked_row_ = row;
}

void HeatDay::answer(Seconds now) {
    const auto asked = asking_;
    const auto typed = trimmed(typed_);
    replace_ = true; // if it is refused
    switch (asked) {
    case Ask::heat: {
        const auto heat = whole_number(typed);
        if (!heat || *heat < 1 || *heat > sheet_.heats())
            throw Refusal{tr("Heat %1 is not on the sheet Heats.", typed)};
        nothing_asked();
        choose(*heat);
        break;
    }
    case Ask::running_at: {
        const auto clock = parse_clock(typed);
        if (!clock || *clock >= task_.cap)
            throw Refusal{tr("Enter minutes and seconds below the cap, such as 2:30; got %1.", typed)};
        nothing_asked();
        start(now - *clock);
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
    case Ask::soon: {
        const auto press = soon_.front();
        soon_.pop_front();
        ask_soon();
        stamp(press.row, press.when);
        break;
    }
    case Ask::rounds:
        correct(asked_row_, typed, now);
        asking_ = Ask::nothing; // the message stays
        question_.clear();
        typed_.clear();
        break;
    case Ask::add:
        nothing_asked();
        add(typed);
        break;
    case Ask::end:
        nothing_asked();
        end();
        break;
    case Ask::again:
        if (!same_name(typed, tr("delete")))
            throw Refusal{tr("Nothing was deleted. Type %1, or press Esc.", tr("delete"))};
        nothing_asked();
        clear_heat();
        start(now + count_in);
        break;
    case Ask::screen: {
        const auto screen = whole_number(typed);
        if (!screen || *screen < 1 || *screen > static_cast<int>(screens().size()))
            throw Refusal{tr("There is no screen %1.", typed)};
        nothing_asked();
        room_ = true;
        room_screen_ = *screen;
        break;
    }
    case Ask::log_only:
        nothing_asked();
        warned_ = true;
        message_ = tr("The clock is not running yet: S starts it.");
        break;
    case Ask::recover:
        nothing_asked();
        recover(now);
        break;
    case Ask::give_up:
        nothing_asked();
        for (const auto& stored : left_running())
            close_log(stored.path);
        message_ = tr("The clock is not running yet: S starts it.");
        break;
    default:
        break;
    }
}

void HeatDay::no_sound() {
    beeps_ = false;
    message_ = tr("LibreOffice cannot play sounds here: no beep.");
}

bool HeatDay::beep_due(Seconds now) {
    if (std::exchange(beep_now_, false))
        return true;
    if (!running() || heat_->clock(now).value() < 0 || heat_->over(now - Seconds{1}))
        return false;
    const int minutes = static_cast<int>(heat_->clock(now).value() / 60);
    const bool due = beeps_ && minutes > minutes_;
    minutes_ = minutes;
    return due;
}

} // namespace pacecells
