// A window that is painted by ourselves: unseen first, then shown at once.
#pragma once

#include "heat_day_paint.h"

#include <com/sun/star/awt/Rectangle.hpp>
#include <com/sun/star/awt/XPaintListener.hpp>
#include <com/sun/star/awt/XTopWindowListener.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/awt/XWindowListener.hpp>
#include <cppuhelper/implbase3.hxx>

#include <string>

namespace pacecells {

class PaintedWindow
    : public cppu::WeakImplHelper3<css::awt::XPaintListener, css::awt::XTopWindowListener, css::awt::XWindowListener> {
  public:
    explicit PaintedWindow(const Context& context) : context_(context) {}
    [[nodiscard]] bool is_open() const { return window_.is(); }
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

  protected:
    // Not shown yet.
    void make(const css::awt::Rectangle& place, const std::string& title);
    void look_again();
    // What a screen reader says of it.
    void call_it(const std::string& name);

    virtual void paint(Painter& painter, int width, int height) = 0;
    [[nodiscard]] virtual bool theme_turned() const = 0;
    virtual void let_go() {}               // the window goes: of all that belongs to it
    virtual void closed_by_its_button() {} // by a person

    Context context_;
    css::uno::Reference<css::awt::XWindow> window_;

  private:
    void paint_all();
};

} // namespace pacecells
