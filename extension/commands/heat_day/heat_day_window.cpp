#include "heat_day_window.h"

#include "heat_day_clock.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XTopWindow.hpp>

#include <cppuhelper/implbase1.hxx>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <condition_variable>
#include <map>
#include <mutex>
#include <thread>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;
using rtl::OUString;

// --- Ticker ------------------------------------------------------------------------------------------------------

namespace {

// On plain X a key may lie in the office's hands unseen until something wakes it: its own output, written just before
// it sleeps, can bring the key in with it. So it is woken often; the window is looked at anew less often.
constexpr std::chrono::milliseconds beat{10};
constexpr int beats_a_look = 10;

} // namespace

struct Ticker::Shared {
    std::mutex mutex;
    std::condition_variable wake;
    bool stop = false;
    bool waiting = false; // posted, and not yet worked off
};

// What the thread has posted may arrive, and be let go of, when the window is gone.
class Ticker::Beat : public cppu::WeakImplHelper1<css::awt::XCallback> {
  public:
    explicit Beat(std::function<void()> called) : called_(std::move(called)) {}
    void SAL_CALL notify(const Any&) override {
        if (const auto called = called_)
            called();
    }
    void forget() { called_ = nullptr; }

  private:
    std::function<void()> called_; // on the main thread alone
};

// The thread keeps what it needs and ends by itself: nobody waits for it while holding what it may want.
Ticker::Ticker(const Reference<css::uno::XComponentContext>& component, std::function<void()> called)
    : shared_(std::make_shared<Shared>()), beat_(new Beat(std::move(called))) {
    std::thread([shared = shared_, called = Reference<css::awt::XCallback>(beat_.get()),
                 poster = css::awt::AsyncCallback::create(component)] {
        std::unique_lock lock(shared->mutex);
        while (!shared->stop) {
            shared->wake.wait_for(lock, beat);
            if (shared->stop || shared->waiting)
                continue;
            shared->waiting = true;
            lock.unlock();
            try {
                poster->addCallback(called, Any());
            } catch (...) { // the office is going down
                return;
            }
            lock.lock();
        }
    }).detach();
}

Ticker::~Ticker() {
    beat_->forget();
    const std::lock_guard lock(shared_->mutex);
    shared_->stop = true;
    shared_->wake.notify_all();
}

void Ticker::done() {
    const std::lock_guard lock(shared_->mutex);
    shared_->waiting = false;
}

// --- HeatWindow --------------------------------------------------------------------------------------------------

HeatWindow::HeatWindow(const Context& context, std::shared_ptr<HeatDay> day, std::function<void(const View&)> published)
    : ImplInheritanceHelper2(context), day_(std::move(day)), published_(std::move(published)) {}

void HeatWindow::open() {
    const auto room = css::awt::Toolkit::create(context_.component())->getWorkArea();
    const auto around = context_.frame()->getContainerWindow()->getPosSize();
    const int width = std::max(640, std::min(room.Width, around.Width) * 9 / 10);
    const int height = std::max(420, std::min(room.Height, around.Height) * 9 / 10);
    make({around.X + 20, around.Y + 20, width, height}, tr("Run heats"));
    window_->addKeyListener(this);
    window_->addMouseListener(this);
    refresh();
    window_->setVisible(true);
    window_->setFocus();
    day_->read_keyboard();
    ticker_ = std::make_unique<Ticker>(context_.component(), [this] { beat(); });
}

void HeatWindow::show() {
    if (!window_.is())
        return open();
    need<css::awt::XTopWindow>(window_)->toFront();
    window_->setFocus();
}

void HeatWindow::let_go() {
    ticker_.reset();
    times_.reset();
    beeper_.stop();
    if (room_.is())
        room_->close();
    room_.clear();
}

void HeatWindow::beat() {
    const Reference<css::uno::XInterface> alive(static_cast<cppu::OWeakObject*>(this));
    try {
        if (!window_.is() || !ticker_)
            return;
        ticker_->done();
        if (!times_) // the window is on the screen by now
            times_ = std::make_unique<EventTimes>(window_);
        times_->beat();
        day_->work(steady_now());
        if (++beats_ % beats_a_look != 0)
            return;
        if (day_->beep_due(steady_now()) && !beeper_.beep(context_.component(), day_->folder()))
            day_->no_sound();
        refresh();
    } catch (...) { // nothing of ours may pass into the office
    }
}

void HeatWindow::show_room() {
    if (view_.room && window_.is()) {
        if (!room_.is())
            room_ = new RoomWindow(context_, [this] { day_->close_room(); });
        room_->show(view_);
    } else if (room_.is()) {
        room_->close();
        room_.clear();
    }
}

void HeatWindow::refresh() {
    auto view = day_->view(steady_now());
    if (view == view_)
        return;
    view_ = std::move(view);
    published_(view_);
    if (sentence_of([&] { show_room(); })) // whatever the room's window does, this one goes on
        day_->close_room();
    const auto& said = view_.question.empty() ? view_.message : view_.question;
    if (const auto name = tr("Run heats") + ": " + (said.empty() ? view_.title : said); name != name_)
        call_it(name_ = name);
    look_again();
}

void HeatWindow::keyPressed(const css::awt::KeyEvent& event) {
    try {
        const auto when = times_ ? times_->key(event) : EventTimes::click(); // before anything else
        day_->press(key_press(event, day_->keys(), when));
        refresh();
    } catch (...) {
    }
}

void HeatWindow::mousePressed(const css::awt::MouseEvent& event) {
    try {
        const auto when = EventTimes::click();
        const auto spot = std::find_if(spots_.begin(), spots_.end(), [&](const Spot& one) {
            return event.X >= one.left && event.X < one.left + one.width && event.Y >= one.top &&
                   event.Y < one.top + one.height;
        });
        if (spot == spots_.end())
            return;
        if (spot->what == Spot::What::stamp)
            day_->click_row(spot->row, when);
        else if (spot->what == Spot::What::back)
            day_->click_back(spot->row);
        else
            day_->click_button(spot->letter, when);
        refresh();
    } catch (...) {
    }
}

void HeatWindow::windowActivated(const css::lang::EventObject&) {
    try {
        if (window_.is())
            window_->setFocus();
    } catch (...) {
    }
}

void HeatWindow::paint(Painter& painter, int width, int height) {
    const auto& colours = painter.colours();
    using Align = Painter::Align;

    spots_.clear();
    const int pad = std::max(6, width / 100);
    const int head = height * 17 / 100;
    const int foot = height * 15 / 100;
    const int side = width * 30 / 100;
    int title = head * 34 / 100; // smaller where the number of the heat would be cut off
    while (title > head / 6 && painter.width_of(view_.title, title, true) > side - pad)
        --title;
    painter.text(pad, 0, side - pad, head, view_.title, title, true, colours.ink);
    painter.text(side, 0, width - 2 * side, head, view_.clock, head * 92 / 100, true, colours.ink, Align::centre);
    painter.text(width - side, 0, side - pad, head, view_.left, head * 40 / 100, true, colours.ink, Align::right);

    const int rows = std::max<int>(4, static_cast<int>(view_.rows.size()));
    const int tall = (height - head - foot) / rows;
    const int big = std::min(tall * 76 / 100, width * 45 / 1000);
    const int small = big * 72 / 100;
    constexpr int lane_share = 70, name_share = 280;
    const int names = painter.size_for(view_.rows, &RowView::name, width * name_share / 1000 - pad, big);
    for (std::size_t i = 0; i < view_.rows.size(); ++i) {
        const auto& row = view_.rows[i];
        const int top = head + static_cast<int>(i) * tall;
        if (row.fresh)
            painter.box(0, top, width, tall, colours.fresh, colours.ink);
        painter.rule(0, top, width);
        const auto ink = row.quiet ? colours.soft : colours.ink;
        const auto tone = row.tone > 0 ? colours.ahead : row.tone < 0 ? colours.behind : ink;
        int x = pad;
        const auto column = [&](int share, const std::string& what, int size, bool bold, sal_Int32 colour,
                                Align align) {
            const int wide = width * share / 1000;
            painter.text(x, top, wide - pad, tall, what, size, bold, colour, align);
            x += wide;
        };
        if (!row.key.empty())
            painter.text(x, top, width * 18 / 1000, tall, row.key, small, true, colours.soft);
        column(lane_share, row.lane, big, true, ink, row.key.empty() ? Align::centre : Align::right);
        column(name_share, row.name, names, true, ink, Align::left);
        column(220, row.round, small, false, ink, Align::left);
        column(190, row.ahead, big * 85 / 100, true, tone, Align::left);
        const int rest = width * 930 / 1000 - x;
        const bool two_lines = !row.range.empty();
        painter.text(x, top + (two_lines ? tall * 6 / 100 : 0), rest - pad, two_lines ? tall * 55 / 100 : tall,
                     row.outlook, small, true, ink);
        painter.text(x, top + tall * 58 / 100, rest - pad, tall * 36 / 100, row.range, small * 55 / 100, false,
                     colours.soft);
        const int back = width * 930 / 1000;
        painter.box(back, top + tall / 6, width - back - pad, tall * 2 / 3, colours.paper, colours.soft);
        painter.text(back + 3, top + tall / 6, width - back - pad - 6, tall * 2 / 3, tr("back"), small * 70 / 100,
                     false, colours.soft, Align::centre);
        spots_.push_back({back, top, width - back, tall, Spot::What::back, i, ' '});
        spots_.push_back({0, top, back, tall, Spot::What::stamp, i, ' '});
    }

    const int line = foot / 2;
    const int top = height - foot;
    painter.rule(0, top, width);
    const bool asked = !view_.question.empty();
    const auto said =
        asked ? view_.question + " " + view_.typed + "_" + (view_.message.empty() ? "" : "   ") + view_.message
              : view_.message;
    painter.text(pad, top, width - 2 * pad, line, said, line * 58 / 100, asked, colours.ink);
    const auto label_of = [](const ButtonView& button) {
        return button.key > ' ' ? std::string(1, button.key) + "  " + button.label : button.label;
    };
    int size = line * 46 / 100; // smaller where the buttons would not all fit
    const auto wide_of = [&](const ButtonView& button) {
        return painter.width_of(label_of(button), size, true) + size * 3 / 2;
    };
    const std::string held = view_.ctrl && !asked ? tr("Ctrl") + " +" : std::string(); // with each of them
    const auto held_width = [&] { return held.empty() ? 0 : painter.width_of(held, size, true) + size; };
    const auto all_fit = [&] {
        int all = pad + held_width();
        for (const auto& button : view_.buttons)
            all += wide_of(button) + pad / 2;
        return all <= width;
    };
    while (size > 8 && !all_fit())
        --size;
    painter.text(pad, top + line + line / 10, held_width(), line * 8 / 10, held, size, true, colours.soft);
    int x = pad + held_width();
    for (const auto& button : view_.buttons) {
        const int wide = wide_of(button);
        painter.box(x, top + line + line / 10, wide, line * 8 / 10, colours.paper, colours.soft);
        painter.text(x, top + line + line / 10, wide, line * 8 / 10, label_of(button), size, true, colours.ink,
                     Align::centre);
        spots_.push_back({x, top + line, wide, line, Spot::What::button, 0, button.key});
        x += wide + pad / 2;
    }
}

} // namespace pacecells
