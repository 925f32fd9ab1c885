#include "heat_day_painted.h"

#include <com/sun/star/awt/InvalidateStyle.hpp>
#include <com/sun/star/awt/PosSize.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/WindowAttribute.hpp>
#include <com/sun/star/awt/WindowDescriptor.hpp>
#include <com/sun/star/awt/XTopWindow.hpp>
#include <com/sun/star/awt/XVclWindowPeer.hpp>
#include <com/sun/star/awt/XWindowPeer.hpp>

#include <utility>

// A title for a window that is no frame is marked deprecated, with nothing in its place.
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;

void PaintedWindow::make(const css::awt::Rectangle& place, const std::string& title) {
    namespace Attribute = css::awt::WindowAttribute;
    css::awt::WindowDescriptor wanted;
    wanted.Type = css::awt::WindowClass_TOP;
    wanted.WindowServiceName = "window";
    wanted.Parent = as<css::awt::XWindowPeer>(context_.frame()->getContainerWindow());
    wanted.ParentIndex = -1;
    wanted.Bounds = place;
    wanted.WindowAttributes = Attribute::BORDER | Attribute::MOVEABLE | Attribute::SIZEABLE | Attribute::CLOSEABLE;
    window_.set(css::awt::Toolkit::create(context_.component())->createWindow(wanted), css::uno::UNO_QUERY_THROW);
    need<css::awt::XTopWindow>(window_)->addTopWindowListener(this);
    window_->addPaintListener(this);
    window_->addWindowListener(this);
    window_->setPosSize(place.X, place.Y, place.Width, place.Height, css::awt::PosSize::POSSIZE);
    need<css::awt::XVclWindowPeer>(window_)->setProperty("Title", Any(utf16(title)));
}

void PaintedWindow::call_it(const std::string& name) {
    if (window_.is())
        need<css::awt::XVclWindowPeer>(window_)->setProperty("AccessibleName", Any(utf16(name)));
}

void PaintedWindow::close() {
    const Reference<css::uno::XInterface> alive(static_cast<cppu::OWeakObject*>(this));
    let_go();
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

void PaintedWindow::disposing(const css::lang::EventObject& event) {
    if (!window_.is() || event.Source != window_)
        return;
    try {
        let_go();
    } catch (...) { // nothing of ours may pass into the office
    }
    window_.clear();
}

void PaintedWindow::look_again() {
    if (window_.is())
        need<css::awt::XWindowPeer>(window_)->invalidate(css::awt::InvalidateStyle::NOERASE);
}

void PaintedWindow::windowClosing(const css::lang::EventObject&) {
    const Reference<css::uno::XInterface> alive(static_cast<cppu::OWeakObject*>(this));
    try {
        close();
        closed_by_its_button();
    } catch (...) {
    }
}

void PaintedWindow::windowResized(const css::awt::WindowEvent&) {
    try {
        look_again();
    } catch (...) {
    }
}

void PaintedWindow::windowPaint(const css::awt::PaintEvent&) {
    try {
        if (window_.is())
            paint_all();
    } catch (...) {
    }
}

void PaintedWindow::paint_all() {
    const auto [left, top, width, height] = window_->getPosSize();
    if (width < 50 || height < 50)
        return;
    const auto screen = need<css::awt::XDevice>(window_);
    const auto sheet = screen->createDevice(width, height);
    Painter painter(sheet, theme_of(window_, theme_turned()));
    painter.box(0, 0, width, height, painter.colours().paper, painter.colours().paper);
    paint(painter, width, height);
    screen->createGraphics()->copy(sheet, 0, 0, width, height, 0, 0, width, height);
}

} // namespace pacecells
