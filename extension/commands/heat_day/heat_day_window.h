// The window of the heat day: large rows to be read from two metres, painted by ourselves so that they grow with the
// window; every button is a key too.
#pragma once

#include "heat_day.h"
#include "heat_day_event_times.h"
#include "heat_day_room.h"
#include "heat_day_sound.h"

#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/awt/XKeyListener.hpp>
#include <com/sun/star/awt/XMouseListener.hpp>
#include <cppuhelper/implbase2.hxx>

#include <rtl/ref.hxx>

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace pacecells {

// Made and destroyed on the main thread; calls there a hundred times a second until it is destroyed.
class Ticker {
  public:
    Ticker(const css::uno::Reference<css::uno::XComponentContext>& component, std::function<void()> called);
    ~Ticker();
    Ticker(const Ticker&) = delete;
    Ticker& operator=(const Ticker&) = delete;
    void done(); // the call has been worked off: the next may come

  private:
    struct Shared;
    class Beat;
    std::shared_ptr<Shared> shared_;
    rtl::Reference<Beat> beat_;
};

class HeatWindow
    : public cppu::ImplInheritanceHelper2<PaintedWindow, css::awt::XKeyListener, css::awt::XMouseListener> {
  public:
    HeatWindow(const Context& context, std::shared_ptr<HeatDay> day, std::function<void(const View&)> published);
    void open();
    void show(); // to the front

    void SAL_CALL keyPressed(const css::awt::KeyEvent& event) override;
    void SAL_CALL keyReleased(const css::awt::KeyEvent&) override {}
    void SAL_CALL mousePressed(const css::awt::MouseEvent& event) override;
    void SAL_CALL mouseReleased(const css::awt::MouseEvent&) override {}
    void SAL_CALL mouseEntered(const css::awt::MouseEvent&) override {}
    void SAL_CALL mouseExited(const css::awt::MouseEvent&) override {}
    void SAL_CALL windowActivated(const css::lang::EventObject&) override;
    void SAL_CALL disposing(const css::lang::EventObject& event) override { PaintedWindow::disposing(event); }

  private:
    struct Spot { // what a click does
        int left, top, width, height;
        enum class What { stamp, back, button } what;
        std::size_t row;
        char letter;
    };

    void beat();
    void refresh();
    void show_room();
    void paint(Painter& painter, int width, int height) override;
    [[nodiscard]] bool theme_turned() const override { return view_.dark; }
    void let_go() override;

    std::shared_ptr<HeatDay> day_;
    std::function<void(const View&)> published_;
    std::unique_ptr<EventTimes> times_;
    std::unique_ptr<Ticker> ticker_;
    Beeper beeper_;
    rtl::Reference<RoomWindow> room_;
    std::string name_; // for screen readers
    int beats_ = 0;
    View view_;
    std::vector<Spot> spots_;
};

} // namespace pacecells
