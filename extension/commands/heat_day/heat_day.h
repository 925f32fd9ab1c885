// The heat day of one open event workbook: which heat, its clock, what a key does. It lives as long as the workbook is
// open, with or without its window.
//
// A stamp belongs to a person. It goes first to the log on the disk, then between two keys to the sheet, and leaves the
// queue only when it is in the row that is surely this person's; until then the window's own record counts.
//
// heat_day.cpp      keys and questions
// heat_day_heat.cpp which heat, the way to the sheet and back
// heat_day_stamps.cpp what a key does
// heat_day_correct.cpp rounds put right afterwards, steps taken back
// heat_day_logs.cpp after a crash
// heat_day_view.cpp what there is to see
#pragma once

#include "heat_day_journal.h"
#include "heat_day_keys.h"
#include "heat_day_sheet.h"
#include "results_list.h"

#include "pacecells/running_heat.h"

#include <deque>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

namespace pacecells {

// What went wrong in doing that, if anything.
template <class Do>
[[nodiscard]] std::optional<std::string> sentence_of(Do what) {
    try {
        what();
        return std::nullopt;
    } catch (const Refusal& refusal) {
        return refusal.sentence;
    } catch (const css::uno::Exception& problem) {
        return tr("That did not work. LibreOffice says: %1", utf8(problem.Message));
    } catch (const std::exception& problem) {
        return tr("That did not work. LibreOffice says: %1", problem.what());
    }
}

[[nodiscard]] std::optional<int> whole_number(const std::string& typed);
[[nodiscard]] std::string time_text(Seconds time, int decimals = 0);
[[nodiscard]] bool same_value(const CellValue& a, const CellValue& b);

// What the window shows.
struct RowView {
    std::string lane;
    std::string key; // of the lane, where it is not its number
    std::string name;
    std::string round;      // what is next: round and target clock
    std::string ahead;      // "ahead 0:04"
    std::string outlook;    // result expected
    std::string range;      // from low to high
    std::string room_name;  // for the room: of a minor the lane alone
    std::string room_round; // without targets
    std::string room_ahead; // "?" where a stamp is overdue
    int tone = 0;           // 1 ahead, -1 behind
    bool fresh = false;     // stamped a moment ago
    bool quiet = false;     // withdrawn or finished
    friend bool operator==(const RowView&, const RowView&) = default;
};

struct ButtonView {
    char key = ' ';
    std::string label;
    friend bool operator==(const ButtonView&, const ButtonView&) = default;
};

struct View {
    std::string title;
    std::string clock;
    std::string left;
    std::vector<RowView> rows;
    std::string message;
    std::string question; // what is being asked; then `typed` is the answer so far
    std::string typed;
    std::vector<ButtonView> buttons;
    bool ctrl = false; // letters are commands only with Ctrl
    bool dark = false;
    bool room = false;   // the room's window is open
    int room_screen = 0; // there, from 1; 0: beside this window
    friend bool operator==(const View&, const View&) = default;
};

class HeatDay {
  public:
    static constexpr Seconds count_in{10};
    static constexpr Seconds lull{0.02}; // after a key, before the sheet is written: others may follow at once

    HeatDay(Context& context, bool dark);
    ~HeatDay();
    HeatDay(const HeatDay&) = delete;
    HeatDay& operator=(const HeatDay&) = delete;

    // The view of the workbook that it was opened from last.
    void seen_from(const Context& context) { context_ = context; }

    // Called by the window, on the main thread. What goes wrong becomes the message.
    void press(const KeyPress& key);
    void click_row(std::size_t row, Seconds when);
    void click_back(std::size_t row);
    void click_button(char letter, Seconds when);

    // Called between keys: brings what was stamped into the sheet, a step at a time, so that no key waits long for the
    // sheet to recalculate.
    void work(Seconds now);

    [[nodiscard]] View view(Seconds now);
    // A beep is wanted, and a minute of the running heat has passed since the last call or it was asked for just now.
    [[nodiscard]] bool beep_due(Seconds now);
    void no_sound(); // it could not be made
    void close_room() { room_ = false; }
    [[nodiscard]] KeyLayout keys() const { return keys_; }
    void read_keyboard() { lane_keys_ = lane_keys(keys_); }
    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

    // What the disk kept of a heat is not all in the workbook: the window asks about it.
    [[nodiscard]] bool found_a_log() const { return found_.has_value(); }
    [[nodiscard]] bool running() const { return heat_ && heat_->start() && !ended_; }
    [[nodiscard]] const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document() const {
        return sheet_.document();
    }

  private:
    enum class Ask {
        nothing,
        heat,
        running_at,
        partial_lane,
        partial,
        tiebreak_lane,
        withdraw_lane,
        soon,
        rounds_lane,
        rounds,
        add,
        end,
        again,
        recover,
        give_up,
        log_only,
        screen
    };

    // What cannot be done becomes the message; the sheet is read again, so that both agree.
    template <class Do>
    void guarded(Do what) {
        if (const auto sentence = sentence_of(what)) {
            message_ = *sentence;
            (void)sentence_of([&] { reload(); }); // the workbook may be going away
        }
    }
    void act(char letter, Seconds now);
    void next_keys();
    void room();
    void answer(Seconds now);
    [[nodiscard]] bool lane_asked() const;
    void pick(std::size_t row, Seconds when);
    void ask(Ask what, const std::string& question);
    void ask_partial(std::size_t row);
    void nothing_asked();
    void escape();

    // heat_day_heat.cpp
    void choose(int heat);
    void seat(std::vector<Seat> seats);
    void read_offsets();
    [[nodiscard]] std::optional<std::size_t> row_of_lane(int lane) const;
    [[nodiscard]] bool may_start(Seconds now);
    void start_or_ask(Seconds now);
    void start(Seconds zero);
    void must_be_alone(Seconds now) const;
    void apply(const std::string& title, const std::vector<CellChange>& changes);
    [[nodiscard]] bool write_next(); // false: nothing that can be written now
    void write_all();
    void place_all();
    void find_people();
    void rename(std::size_t row, const std::string& name);
    [[nodiscard]] bool waits(const std::string& name) const;
    void reload();
    void journal(const std::string& lines);
    void tell(const std::vector<Fix>& fixes); // changed after the end

    // heat_day_stamps.cpp
    void press_lane(std::size_t row, Seconds when); // a stamp, or the question whether it is one
    void ask_soon();
    void stamp(std::size_t row, Seconds when);
    void take_back(std::size_t row);
    void tiebreak(std::size_t row, Seconds when);
    void withdraw(std::size_t row);
    void partial(std::size_t row, const std::string& typed, Seconds now);
    void add(const std::string& begins);
    void clear_heat();
    void end();
    [[nodiscard]] std::string refusal(Verdict verdict, std::size_t row) const;
    [[nodiscard]] std::string who(std::size_t row) const;

    // heat_day_correct.cpp
    void ask_rounds(std::size_t row);
    void correct(std::size_t row, const std::string& typed, Seconds now);
    void step_back();
    [[nodiscard]] CellValue day_at(std::size_t row, Seconds clock) const;
    [[nodiscard]] std::vector<CellChange> changed_rounds(std::size_t row, const LaneRecord& before) const;

    // heat_day_logs.cpp
    struct Kept {
        std::vector<Seat> seats;
        std::map<std::string, std::string> renamed; // in the log, on the sheet
        std::vector<CellChange> missing;            // on the sheet, by its names
    };
    [[nodiscard]] Kept kept(const HeatLog& log);
    [[nodiscard]] std::vector<Correction> corrections(); // of all heats that ended
    void find_ended_log();
    void look_for_logs();
    void recover(Seconds now);
    [[nodiscard]] std::vector<StoredLog> left_running();
    [[nodiscard]] static bool in_use(const StoredLog& stored);

    // heat_day_view.cpp
    [[nodiscard]] RowView row_view(std::size_t row, Seconds now);
    [[nodiscard]] std::optional<double> two_rounds(std::size_t row) const;
    [[nodiscard]] std::string trouble() const;

    static std::vector<HeatDay*> open_days_; // on the main thread alone

    Context context_;
    EventSheet sheet_;
    std::filesystem::path folder_;
    std::string user_; // at this office, for what is changed afterwards
    HeatTask task_;
    int number_ = 0;
    std::optional<RunningHeat> heat_;
    std::vector<Seat> seats_;
    std::vector<Found> places_;     // of the seats, as last seen
    bool placed_ = false;           // each of them was given a row
    std::set<std::string> private_; // names that the room does not see, in the form that is compared
    std::set<std::string> known_;   // names that were on the sheet Results
    bool ended_ = false;
    std::optional<double> day_zero_; // seconds since 1970 at 0:00
    std::unique_ptr<Journal> journal_;
    std::optional<StoredLog> found_;
    std::set<std::filesystem::path> declined_; // logs not to be asked about again
    HeatCells logged_;                         // the sheet as the journal knows it
    std::filesystem::path ended_log_;          // of this heat, if it ended: what is changed now is told there
    struct Step {
        std::string title;
        std::vector<CellChange> changes;
    };
    std::vector<Step> done_;   // how each step of this heat was before
    std::deque<Step> waiting_; // not yet in the sheet
    bool held_ = false;        // and cannot be written now
    Seconds retry_{0};
    std::string held_reason_;
    bool warned_ = false; // of a file that is read-only or shared
    Seconds last_key_{0};
    KeyGuard guard_;

    struct Press {
        std::size_t row;
        Seconds when;
    };
    std::deque<Press> soon_; // keys that came too soon after the last one of their lane

    Ask asking_ = Ask::nothing;
    std::size_t asked_row_ = 0;
    std::string question_;
    std::string typed_;
    bool replace_ = false; // the next key begins anew
    std::string message_;
    std::vector<std::optional<Seconds>> fresh_;
    Seconds reloaded_{0};
    KeyLayout keys_ = KeyLayout::row;
    std::vector<std::string> lane_keys_;
    bool dark_;
    bool room_ = false;
    int room_screen_ = 0;
    bool beeps_ = false;
    bool beep_now_ = false;
    int minutes_ = 0;
};

} // namespace pacecells
