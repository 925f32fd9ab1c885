// The heat day of one open event workbook: which heat, its clock, what a key does. It lives as long as the workbook is
// open, with or without its window.
#pragma once

#include "heat_day_journal.h"
#include "heat_day_sheet.h"

#include "pacecells/running_heat.h"

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace pacecells {

// What the window shows.
struct RowView {
    std::string lane;
    std::string name;
    std::string round;   // what is next: round and target clock
    std::string ahead;   // "ahead 0:04"
    std::string outlook; // result expected
    std::string range;   // from low to high
    int tone = 0;        // 1 ahead, -1 behind
    bool fresh = false;  // stamped a moment ago
    bool quiet = false;  // withdrawn or finished
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
    bool dark = false;
    friend bool operator==(const View&, const View&) = default;
};

// A key as the window hands it over.
struct KeyPress {
    Seconds when{0};
    double day = 0; // when, since 1970
    int lane = -1;  // from 0: a digit
    bool shift = false;
    char letter = 0;  // 'A' to 'Z'
    std::string text; // what would be typed
    enum class Edit { none, enter, escape, backspace } edit = Edit::none;
};

class HeatDay {
  public:
    HeatDay(Context& context, bool dark);
    ~HeatDay();
    HeatDay(const HeatDay&) = delete;
    HeatDay& operator=(const HeatDay&) = delete;

    // The view of the workbook that it was opened from last.
    void seen_from(const Context& context) { context_ = context; }

    // Called by the window, on the main thread. What goes wrong becomes the message.
    void press(const KeyPress& key);
    void click_row(std::size_t row, Seconds when, double day);
    void click_back(std::size_t row);
    void click_button(char letter, Seconds when);

    // Called between keys: brings what was stamped into the sheet, a step at a time, so that no key waits long for the
    // sheet to recalculate.
    void work(Seconds now);

    [[nodiscard]] View view(Seconds now);
    // A beep is wanted, and a minute of the running heat has passed since the last call or it was asked for just now.
    [[nodiscard]] bool beep_due(Seconds now);
    void no_sound(); // it could not be made
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
        add,
        end,
        again,
        recover,
        give_up
    };

    template <class Do>
    void guarded(Do what);
    void act(char letter, Seconds now);
    void answer(Seconds now);
    void pick(std::size_t row, Seconds when, double day);
    void ask(Ask what, const std::string& question);
    void nothing_asked();

    void choose(int heat);
    void seat(std::vector<Seat> seats);
    [[nodiscard]] std::optional<std::size_t> row_of_lane(int lane) const;
    void start(Seconds zero, double day_zero);
    [[nodiscard]] bool may_start(Seconds now);
    void start_or_ask(Seconds now);
    void stamp(std::size_t row, Seconds when, double day);
    void take_back(std::size_t row);
    void tiebreak(std::size_t row, Seconds when);
    void withdraw(std::size_t row);
    void partial(std::size_t row, const std::string& typed, Seconds now);
    void ask_partial(std::size_t row);
    void add(const std::string& begins);
    void end();
    void clear_heat();
    [[nodiscard]] std::vector<CellChange> missing(const HeatLog& log);
    void look_for_logs();
    void recover(Seconds now);
    void must_be_alone(Seconds now) const;
    [[nodiscard]] std::vector<StoredLog> left_running();
    [[nodiscard]] static bool in_use(const StoredLog& stored);

    void apply(const std::string& title, const std::vector<CellChange>& changes);
    void write_next();
    void write_all();
    void reload();
    void journal(const std::string& lines);
    [[nodiscard]] RowView row_view(std::size_t row, Seconds now);
    [[nodiscard]] std::string refusal(Verdict verdict, std::size_t row) const;
    [[nodiscard]] std::string who(std::size_t row) const;

    Context context_;
    EventSheet sheet_;
    std::filesystem::path folder_;
    HeatTask task_;
    int number_ = 0;
    std::optional<RunningHeat> heat_;
    std::vector<Seat> seats_;
    bool ended_ = false;
    std::unique_ptr<Journal> journal_;
    std::optional<StoredLog> found_;
    std::map<std::tuple<std::string, std::string, int>, CellValue> logged_; // the sheet as the journal knows it
    struct Step {
        std::string title;
        std::vector<CellChange> changes;
    };
    std::deque<Step> waiting_; // not yet in the sheet
    Seconds last_key_{0};
    KeyGuard guard_;

    Ask asking_ = Ask::nothing;
    std::size_t asked_row_ = 0;
    std::string question_;
    std::string typed_;
    std::string message_;
    std::vector<std::optional<Seconds>> fresh_;
    Seconds reloaded_{0};
    bool dark_;
    bool beeps_ = false;
    bool beep_now_ = false;
    int minutes_ = 0;
};

} // namespace pacecells
