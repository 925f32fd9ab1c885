#include "heat_day.h"

#include "event_cells.h"
#include "heat_day_clock.h"

#include "pacecells/words.h"

#include <algorithm>
#include <utility>

namespace pacecells {

namespace {

constexpr Seconds retry_every{0.5};

} // namespace

// The lanes are taken from the sheets once: who is added to the roster later moves nobody in this heat.
void HeatDay::choose(int heat) {
    (void)sentence_of([&] { write_all(); });
    const bool left = !waiting_.empty(); // their log has them
    waiting_.clear();
    task_ = sheet_.task();
    number_ = heat;
    ended_ = false;
    heat_.reset();
    day_zero_.reset();
    done_.clear();
    soon_.clear();
    seat(sheet_.seats(heat));
    find_ended_log();
    if (seats_.empty())
        message_ = tr("Nobody is in heat %1 yet: the sheet Heats is made from the roster.", std::to_string(heat));
    if (left)
        look_for_logs();
}

void HeatDay::seat(std::vector<Seat> seats) {
    const auto start = heat_ ? heat_->start() : std::nullopt;
    std::map<std::string, std::pair<LaneRecord, Seconds>> lanes; // of whom the sheet does not have all yet
    for (std::size_t row = 0; heat_ && row < seats_.size(); ++row)
        lanes[seats_[row].name] = {heat_->record(row), heat_->plan(row).offset};
    seats_ = std::move(seats);
    heat_.emplace(task_);
    for (auto& plan : sheet_.plans(seats_))
        heat_->add_lane(std::move(plan));
    read_offsets();
    for (std::size_t row = 0; row < seats_.size(); ++row)
        if (const auto known = lanes.find(seats_[row].name); known != lanes.end()) {
            heat_->set_record(row, known->second.first);
            if (start) // whatever the sheet says meanwhile
                heat_->set_offset(row, known->second.second);
        }
    if (start)
        heat_->start_at(*start);
    fresh_.assign(seats_.size(), std::nullopt);
    places_.assign(seats_.size(), {});
    placed_ = false;
    known_.clear();
    ended_log_.clear(); // what differs now was changed before
    reload();
}

void HeatDay::read_offsets() {
    const auto offsets = sheet_.offsets(seats_);
    for (std::size_t row = 0; row < seats_.size(); ++row)
        heat_->set_offset(row, offsets[row]);
}

std::optional<std::size_t> HeatDay::row_of_lane(int lane) const {
    for (std::size_t row = 0; row < seats_.size(); ++row)
        if (seats_[row].lane == lane)
            return row;
    return std::nullopt;
}

// One floor, one heat, whichever of the open workbooks it is in.
void HeatDay::must_be_alone(Seconds now) const {
    for (auto* other : open_days_)
        if (other != this && other->running() && !other->heat_->over(now))
            throw Refusal{tr("Heat %1 of %2 is running in another workbook. Only one heat can run at a time: end it "
                             "there first with E.",
                             std::to_string(other->number_), other->sheet_.title())};
}

bool HeatDay::may_start(Seconds now) {
    if (running())
        throw Refusal{tr("Heat %1 is running already.", std::to_string(number_))};
    must_be_alone(now);
    sheet_.refuse_doubles(seats_);
    if (!warned_ && !sheet_.writable()) {
        ask(Ask::log_only, tr("This file is read-only: entries of the heat go to a log on the disk, and into the sheet "
                              "only once the file can be written. Go on? Enter: yes. Esc: no."));
        return false;
    }
    if (!warned_ && sheet_.shared()) {
        ask(Ask::log_only, tr("This file is shared: what others save can meet your entries. They are kept in a log on "
                              "the disk too. Go on? Enter: yes. Esc: no."));
        return false;
    }
    if (const auto others = left_running(); !others.empty()) {
        ask(Ask::give_up, tr("Heat %1 was never ended and is still running. Abandon it? Enter: yes. Esc: no.",
                             std::to_string(others.front().log.heat)));
        return false;
    }
    return true;
}

void HeatDay::start_or_ask(Seconds now) {
    if (!may_start(now))
        return;
    reload();
    for (std::size_t row = 0; row < seats_.size(); ++row)
        if (!heat_->record(row).clocks.empty() || heat_->record(row).finish)
            return ask(
                Ask::again,
                tr("Heat %1 has times already. To delete them and start again, type %2. Esc: nothing is deleted.",
                   std::to_string(number_), tr("delete")));
    start(now + count_in);
}

void HeatDay::start(Seconds zero) {
    if (seats_.empty())
        throw Refusal{
            tr("Nobody is in heat %1 yet: the sheet Heats is made from the roster.", std::to_string(number_))};
    place_all();
    const auto key = sheet_.key();
    for (const auto& stored : stored_logs(folder_))
        if (stored.log.event == key && stored.log.heat == number_ && !in_use(stored))
            put_aside(stored.path);
    ended_ = false;
    minutes_ = 0;
    read_offsets();
    ended_log_.clear();
    heat_->start_at(zero);
    day_zero_ = day_of(zero);
    logged_.clear();
    journal_.reset();
    try {
        journal_ = std::make_unique<Journal>(Journal::new_path(folder_, number_));
    } catch (const std::exception&) { // the heat matters more than its copy; the view says that there is none
    }
    std::string lines =
        heat_line(key, number_) + start_line(zero.value(), computer_run(), *day_zero_, task_.cap.value());
    for (const auto& seat : seats_)
        lines += lane_line(seat.lane, seat.name);
    journal(lines);
    reload();
}

void HeatDay::journal(const std::string& lines) {
    if (journal_ && !lines.empty())
        journal_->write(lines);
}

void HeatDay::tell(const std::vector<Fix>& fixes) {
    if (ended_log_.empty() || fixes.empty())
        return;
    std::string lines;
    for (const auto& fix : fixes)
        lines += fix_line(fix);
    append_to_log(ended_log_, lines);
}

// --- to the sheet and back ---------------------------------------------------------------------------------------

// First the log, then between two keys the sheet: what the log has can be put back whatever happens to the office.
void HeatDay::apply(const std::string& title, const std::vector<CellChange>& changes) {
    std::string lines;
    std::vector<Fix> fixes;
    Step before{title, {}};
    for (const auto& change : changes) {
        lines += set_line(change);
        const auto place = std::make_tuple(change.range, change.athlete, change.column);
        const auto known = logged_.find(place);
        const auto was = known == logged_.end() ? CellValue{} : known->second;
        before.changes.push_back({change.range, change.athlete, change.column, was});
        if (!same_value(was, change.value))
            fixes.push_back({change, was, day_now(), user_});
        if (change.value == CellValue{})
            logged_.erase(place);
        else
            logged_[place] = change.value;
    }
    journal(lines);
    tell(fixes);
    done_.push_back(std::move(before));
    waiting_.push_back({title, changes});
    message_ = title;
}

// A row of Results for each person, before anything is written there.
void HeatDay::place_all() {
    if (placed_ || !sheet_.writable())
        return;
    sheet_.place(number_, seats_);
    placed_ = true;
    known_ = sheet_.known();
    find_people();
}

void HeatDay::find_people() {
    places_ = sheet_.places(number_, seats_, known_);
    for (std::size_t row = 0; row < seats_.size(); ++row) {
        if (!places_[row].row || places_[row].name == seats_[row].name)
            continue;
        if (placed_)
            rename(row, places_[row].name);
        else
            places_[row].row.reset(); // who was there before a heat is somebody else
    }
    if (placed_)
        known_.merge(sheet_.known());
}

// Somebody's name was corrected on the sheet: everything that is known by the old one moves along.
void HeatDay::rename(std::size_t row, const std::string& name) {
    const auto old = std::exchange(seats_[row].name, name);
    known_.erase(fold_name(old)); // it may be undone
    journal(name_line(old, name));
    if (!ended_log_.empty())
        append_to_log(ended_log_, name_line(old, name));
    const auto follow = [&](Step& step) {
        for (auto& change : step.changes)
            if (change.athlete == old)
                change.athlete = name;
    };
    std::ranges::for_each(waiting_, follow);
    std::ranges::for_each(done_, follow);
    HeatCells logged;
    for (auto& [place, value] : logged_) {
        const auto& [range, athlete, column] = place;
        logged[{range, athlete == old ? name : athlete, column}] = std::move(value);
    }
    logged_ = std::move(logged);
    if (running())
        message_ = tr("%1 is called %2 on the sheet Results now.", old, name);
}

bool HeatDay::waits(const std::string& name) const {
    return std::any_of(waiting_.begin(), waiting_.end(), [&](const Step& step) {
        return std::any_of(step.changes.begin(), step.changes.end(),
                           [&](const CellChange& change) { return change.athlete == name; });
    });
}

// What waits for one person does not hold up the others, and nothing of a person overtakes what waits.
bool HeatDay::write_next() {
    held_ = !waiting_.empty();
    held_reason_.clear();
    if (waiting_.empty())
        return false;
    if (!sheet_.writable()) {
        held_reason_ = tr("This file is read-only: entries wait, and are kept on the disk.");
        return false;
    }
    const auto wrong = sentence_of([&] { place_all(); });
    if (wrong) {
        held_reason_ = *wrong;
        return false;
    }
    find_people();
    PersonRows rows;
    for (std::size_t row = 0; row < seats_.size(); ++row)
        if (places_[row].row)
            rows[seats_[row].name] = *places_[row].row;
    std::set<std::string> held;
    for (auto step = waiting_.begin(); step != waiting_.end(); ++step) {
        const auto waits = [&](const CellChange& change) {
            return !rows.contains(change.athlete) || held.contains(change.athlete);
        };
        if (std::any_of(step->changes.begin(), step->changes.end(), waits)) {
            for (const auto& change : step->changes)
                held.insert(change.athlete);
            continue;
        }
        if (const auto refused = sentence_of([&] { sheet_.write(step->title, step->changes, rows); })) {
            held_reason_ = *refused;
            return false;
        }
        waiting_.erase(step);
        held_ = false;
        return true;
    }
    return false;
}

void HeatDay::write_all() {
    while (write_next()) {
    }
}

void HeatDay::work(Seconds now) {
    if (waiting_.empty() || now - last_key_ < lull || now < retry_)
        return;
    if (const auto wrong = sentence_of([&] {
            if (!write_next() && !waiting_.empty())
                retry_ = now + retry_every;
        })) {
        held_ = true;
        held_reason_ = *wrong;
        retry_ = now + retry_every;
    }
}

// The sheet is the truth: undone steps and corrections typed there count. What changed there is logged too. Of somebody
// whose row is not sure, or whose entries wait, the window's record stays.
void HeatDay::reload() {
    write_all();
    if (!heat_)
        return;
    find_people();
    private_ = private_names(sheet_.document());
    HeatCells now;
    for (std::size_t row = 0; row < seats_.size(); ++row) {
        const auto& name = seats_[row].name;
        if (!places_[row].row || waits(name)) {
            for (const auto& [place, value] : logged_)
                if (std::get<1>(place) == name)
                    now[place] = value;
            continue;
        }
        const auto written = sheet_.written(*places_[row].row, name);
        heat_->set_record(row, record_of(written));
        for (const auto& cell : written)
            now[{cell.range, cell.athlete, cell.column}] = cell.value;
    }
    std::string lines;
    std::vector<Fix> fixes;
    const auto changed = [&](const auto& place, const CellValue& was, const CellValue& value) {
        const CellChange change{std::get<0>(place), std::get<1>(place), std::get<2>(place), value};
        lines += set_line(change);
        fixes.push_back({change, was, day_now(), user_});
    };
    for (const auto& [place, value] : now)
        if (const auto known = logged_.find(place); known == logged_.end() || !same_value(known->second, value))
            changed(place, known == logged_.end() ? CellValue{} : known->second, value);
    for (const auto& [place, value] : logged_)
        if (!now.contains(place))
            changed(place, value, {});
    if (running())
        journal(lines);
    tell(fixes);
    logged_ = std::move(now);
}

} // namespace pacecells
