#include "heat_day_room.h"

#include "heat_day_paint.h"
#include "heat_day_screens.h"

#include <com/sun/star/awt/InvalidateStyle.hpp>
#include <com/sun/star/awt/PosSize.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/WindowAttribute.hpp>
#include <com/sun/star/awt/WindowDescriptor.hpp>
#include <com/sun/star/awt/XTopWindow.hpp>
#include <com/sun/star/awt/XVclWindowPeer.hpp>

#include <algorithm>
#include <utility>

// A title for a window that is no frame is marked deprecated, with nothing in its place.
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

namespace {

constexpr int least_rows = 6; // so that few lanes do not become posters

} // namespace

RoomWindow::RoomWindow(const Context& context, std::function<void()> closed)
    : context_(context), closed_(std::move(closed)) {}

void RoomWindow::open() {
    const auto around = context_.frame()->getContainerWindow()->getPosSize();
    css::awt::Rectangle place(around.X + 60, around.Y + 60, std::max(640, around.Width * 8 / 10),
                              std::max(400, around.Height * 8 / 10));
    const auto all = screens();
    if (view_.room_screen > 0 && view_.room_screen <= static_cast<int>(all.size()))
        place = all[static_cast<std::size_t>(view_.room_screen - 1)];
    css::awt::WindowDescriptor wanted;
    wanted.Type = css::awt::WindowClass_TOP;
    wanted.WindowServiceName = "window";
    wanted.Parent = as<css::awt::XWindowPeer>(context_.frame()->getContainerWindow());
    wanted.ParentIndex = -1;
    wanted.Bounds = place;
    wanted.WindowAttributes = css::awt::WindowAttribute::BORDER | css::awt::WindowAttribute::MOVEABLE |
                              css::awt::WindowAttribute::SIZEABLE | css::awt::WindowAttribute::CLOSEABLE;
    window_.set(css::awt::Toolkit::create(context_.component())->createWindow(wanted), css::uno::UNO_QUERY_THROW);
    need<css::awt::XTopWindow>(window_)->addTopWindowListener(this);
    window_->addPaintListener(this);
    window_->addWindowListener(this);
    window_->setPosSize(place.X, place.Y, place.Width, place.Height, css::awt::PosSize::POSSIZE);
    need<css::awt::XVclWindowPeer>(window_)->setProperty("Title", Any(utf16(tr("Heat, for the room"))));
    window_->setVisible(true);
}

void RoomWindow::show(const View& view) {
    view_ = view;
    if (!window_.is())
        open();
    look_again();
}

void RoomWindow::close() {
    const Reference<css::uno::XInterface> alive(static_cast<cppu::OWeakObject*>(this));
    const auto window = std::exchange(window_, {});
    if (!window.is())
        return;
    try {
        window->removePaintListener(this);
        window->removeWindowListener(this);
        need<css::awt::XTopWindow>(window)->removeTopWindowListener(this);
        window->setVisible(false);
        need<css::lang::XComponent>(window)->dispose();
    } catch (const css::uno::Exception&) { // it is gone already
    }
}

void RoomWindow::look_again() {
    if (window_.is())
        need<css::awt::XWindowPeer>(window_)->invalidate(css::awt::InvalidateStyle::NOERASE);
}

void RoomWindow::windowClosing(const css::lang::EventObject&) {
    try {
        const auto closed = closed_;
        close();
        closed();
    } catch (...) { // nothing of ours may pass into the office
    }
}

void RoomWindow::windowResized(const css::awt::WindowEvent&) {
    try {
        look_again();
    } catch (...) {
    }
}

void RoomWindow::windowPaint(const css::awt::PaintEvent&) {
    try {
        if (window_.is())
            paint();
    } catch (...) {
    }
}

void RoomWindow::disposing(const css::lang::EventObject& event) {
    if (window_.is() && event.Source == window_)
        window_.clear();
}

void RoomWindow::paint() {
    const auto place = window_->getPosSize();
    const int width = place.Width;
    const int height = place.Height;
    if (width < 50 || height < 50)
        return;
    const auto screen = need<css::awt::XDevice>(window_);
    const auto sheet = screen->createDevice(width, height); // painted unseen, then shown at once
    Painter painter(sheet, theme_of(window_, view_.dark));
    using Align = Painter::Align;
    const auto& colours = painter.colours();
    painter.box(0, 0, width, height, colours.paper, colours.paper);
    const int pad = std::max(8, width / 80);
    const int head = height / 4;
    painter.text(pad, 0, width / 2, head, view_.clock, head * 85 / 100, true, colours.ink);
    painter.text(width / 2, 0, width / 2 - pad, head, view_.left, head * 45 / 100, true, colours.ink, Align::right);
    const int rows = std::max(least_rows, static_cast<int>(view_.rows.size()));
    const int tall = (height - head) / rows;
    const int size = std::min(tall * 70 / 100, width * 55 / 1000);
    int top = head;
    for (const auto& row : view_.rows) {
        painter.rule(0, top, width);
        const auto ink = row.quiet ? colours.soft : colours.ink;
        const auto tone = row.tone > 0 ? colours.ahead : row.tone < 0 ? colours.behind : ink;
        int x = pad;
        const auto column = [&](int share, const std::string& what, sal_Int32 colour) {
            const int wide = (width - 2 * pad) * share / 100;
            painter.text(x, top, wide - pad, tall, what, size, true, colour);
            x += wide;
        };
        column(9, row.lane, ink);
        column(43, row.name, ink);
        column(24, row.room_round, ink);
        column(24, row.room_ahead, tone);
        top += tall;
    }
    screen->createGraphics()->copy(sheet, 0, 0, width, height, 0, 0, width, height);
}

} // namespace pacecells
