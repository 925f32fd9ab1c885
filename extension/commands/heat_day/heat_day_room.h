// The room's window: what athletes and judges may see, on a projector. No keys, and no projections.
#pragma once

#include "heat_day.h"

#include <com/sun/star/awt/XPaintListener.hpp>
#include <com/sun/star/awt/XTopWindowListener.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/awt/XWindowListener.hpp>
#include <cppuhelper/implbase3.hxx>

#include <functional>

namespace pacecells {

class RoomWindow
    : public cppu::WeakImplHelper3<css::awt::XPaintListener, css::awt::XTopWindowListener, css::awt::XWindowListener> {
  public:
    // `closed`: somebody closed it by its button.
    RoomWindow(const Context& context, std::function<void()> closed);
    void show(const View& view); // opens it where it is not open
    void close();

    void SAL_CALL windowPaint(const css::awt::PaintEvent&) override;
    void SAL_CALL windowClosing(const css::lang::EventObject&) override;
    void SAL_CALL windowOpened(const css::lang::EventObject&) override {}
    void SAL_CALL windowClosed(const css::lang::EventObject&) override {}
    void SAL_CALL windowMinimized(const css::lang::EventObject&) override {}
    void SAL_CALL windowNormalized(const css::lang::EventObject&) override {}
    void SAL_CALL windowActivated(const css::lang::EventObject&) override {}
    void SAL_CALL windowDeactivated(const css::lang::EventObject&) override {}
    void SAL_CALL windowResized(const css::awt::WindowEvent&) override;
    void SAL_CALL windowMoved(const css::awt::WindowEvent&) override {}
    void SAL_CALL windowShown(const css::lang::EventObject&) override {}
    void SAL_CALL windowHidden(const css::lang::EventObject&) override {}
    void SAL_CALL disposing(const css::lang::EventObject& event) override;

  private:
    void open();
    void paint();
    void look_again();

    Context context_;
    std::function<void()> closed_;
    css::uno::Reference<css::awt::XWindow> window_;
    View view_;
};

} // namespace pacecells
