// The room's window: what athletes and judges may see, on a projector. No keys, and no projections.
#pragma once

#include "heat_day.h"
#include "heat_day_painted.h"

#include <functional>
#include <utility>

namespace pacecells {

class RoomWindow : public PaintedWindow {
  public:
    // `closed`: somebody closed it by its button.
    RoomWindow(const Context& context, std::function<void()> closed)
        : PaintedWindow(context), closed_(std::move(closed)) {}
    void show(const View& view); // opens it where it is not open

  private:
    void open();
    void paint(Painter& painter, int width, int height) override;
    [[nodiscard]] bool theme_turned() const override { return view_.dark; }
    void closed_by_its_button() override { closed_(); }

    std::function<void()> closed_;
    View view_;
};

} // namespace pacecells
