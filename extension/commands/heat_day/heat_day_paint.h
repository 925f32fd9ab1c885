// Painting of the heat day's windows: text that grows with the window, in two themes.
#pragma once

#include "office.h"

#include <com/sun/star/awt/XDevice.hpp>
#include <com/sun/star/awt/XFont.hpp>
#include <com/sun/star/awt/XGraphics.hpp>
#include <com/sun/star/awt/XWindow.hpp>

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace pacecells {

struct Palette {
    sal_Int32 paper, ink, soft, line, ahead, behind, fresh;
};

struct Theme {
    const Palette& palette;
    rtl::OUString face;
};

// The office's own, light or dark; turned round where that is wanted.
[[nodiscard]] Theme theme_of(const css::uno::Reference<css::awt::XWindow>& window, bool turned);

class Painter {
  public:
    Painter(css::uno::Reference<css::awt::XDevice> device, Theme theme);

    [[nodiscard]] const Palette& colours() const { return palette_; }
    void box(int left, int top, int width, int height, sal_Int32 fill, sal_Int32 edge);
    void rule(int left, int top, int right);

    enum class Align { left, centre, right };
    // In one line, in the middle of the height; smaller where it would not fit, cut where it still does not.
    void text(int left, int top, int width, int height, const std::string& what, int size, bool bold, sal_Int32 colour,
              Align align = Align::left);
    [[nodiscard]] int width_of(const std::string& what, int size, bool bold);
    // The size, up to this one, at which a column of bold texts is alike: one far too long is smaller by itself.
    template <class Rows, class Text>
    [[nodiscard]] int size_for(const Rows& rows, Text text, int width, int size) {
        const int least = size * 75 / 100;
        for (const auto& row : rows)
            if (const int wide = width_of(row.*text, size, true); wide > width)
                size = std::max(least, size * width / wide);
        return size;
    }

  private:
    css::uno::Reference<css::awt::XFont> font_of(int size, bool bold);

    css::uno::Reference<css::awt::XDevice> device_;
    css::uno::Reference<css::awt::XGraphics> graphics_;
    const Palette& palette_;
    rtl::OUString face_;
    std::map<std::pair<int, bool>, css::uno::Reference<css::awt::XFont>> fonts_;
};

} // namespace pacecells
