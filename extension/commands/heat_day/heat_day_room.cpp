#include "heat_day_room.h"

#include "heat_day_screens.h"

#include <algorithm>

namespace pacecells {

namespace {

constexpr int least_rows = 6; // so that few lanes do not become posters
constexpr int lane_share = 8, name_share = 43, round_share = 23, ahead_share = 26; // of the width

} // namespace

void RoomWindow::open() {
    const auto around = context_.frame()->getContainerWindow()->getPosSize();
    css::awt::Rectangle place(around.X + 60, around.Y + 60, std::max(640, around.Width * 8 / 10),
                              std::max(400, around.Height * 8 / 10));
    const auto all = screens();
    if (view_.room_screen > 0 && view_.room_screen <= static_cast<int>(all.size()))
        place = all[static_cast<std::size_t>(view_.room_screen - 1)];
    make(place, tr("Heat, for the room"));
    window_->setVisible(true);
}

void RoomWindow::show(const View& view) {
    view_ = view;
    if (!window_.is())
        open();
    look_again();
}

void RoomWindow::paint(Painter& painter, int width, int height) {
    using Align = Painter::Align;
    const auto& colours = painter.colours();
    const int pad = std::max(8, width / 80);
    const int head = height / 4;
    painter.text(pad, 0, width / 2, head, view_.clock, head * 85 / 100, true, colours.ink);
    painter.text(width / 2, 0, width / 2 - pad, head, view_.left, head * 45 / 100, true, colours.ink, Align::right);
    const int rows = std::max(least_rows, static_cast<int>(view_.rows.size()));
    const int tall = (height - head) / rows;
    const int size = std::min(tall * 82 / 100, width * 55 / 1000);
    const auto width_of = [&](int share) { return (width - 2 * pad) * share / 100 - 2 * pad; };
    const int names = painter.size_for(view_.rows, &RowView::room_name, width_of(name_share), size);
    const int rounds = painter.size_for(view_.rows, &RowView::room_round, width_of(round_share), size);
    const int aheads = painter.size_for(view_.rows, &RowView::room_ahead, width_of(ahead_share), size);
    int top = head;
    for (const auto& row : view_.rows) {
        painter.rule(0, top, width);
        const auto ink = row.quiet ? colours.soft : colours.ink;
        const auto tone = row.tone > 0 ? colours.ahead : row.tone < 0 ? colours.behind : ink;
        int x = pad;
        const auto column = [&](int share, const std::string& what, int letters, sal_Int32 colour) {
            painter.text(x, top, width_of(share), tall, what, letters, true, colour);
            x += width_of(share) + 2 * pad;
        };
        column(lane_share, row.lane, size, ink);
        column(name_share, row.room_name, names, ink);
        column(round_share, row.room_round, rounds, ink);
        column(ahead_share, row.room_ahead, aheads, tone);
        top += tall;
    }
}

} // namespace pacecells
