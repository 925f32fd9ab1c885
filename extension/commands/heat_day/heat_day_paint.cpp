#include "heat_day_paint.h"

#include <com/sun/star/awt/FontWeight.hpp>
#include <com/sun/star/awt/XStyleSettingsSupplier.hpp>

#include <algorithm>

namespace pacecells {

using css::uno::Reference;
using rtl::OUString;

namespace {

// Ink on paper at a contrast of at least 7 to 1; ahead and behind differ in lightness too, and in words.
constexpr Palette light{0xFFFFFF, 0x10161C, 0x46525C, 0xC3CBD2, 0x00557F, 0x8A2D00, 0xFFF2B8};
constexpr Palette dark{0x14181C, 0xF4F6F8, 0xB7C1CA, 0x3C4650, 0x8FD0FF, 0xFFB08A, 0x4A4210};

bool is_dark(sal_Int32 colour) {
    return 299 * ((colour >> 16) & 255) + 587 * ((colour >> 8) & 255) + 114 * (colour & 255) < 128000;
}

} // namespace

Theme theme_of(const Reference<css::awt::XWindow>& window, bool turned) {
    bool at_night = turned;
    OUString face;
    if (const auto styled = as<css::awt::XStyleSettingsSupplier>(window); styled.is()) {
        const auto style = styled->getStyleSettings();
        face = style->getLabelFont().Name;
        at_night = turned != is_dark(style->getWindowColor());
    }
    return {at_night ? dark : light, face};
}

Painter::Painter(Reference<css::awt::XDevice> device, Theme theme)
    : device_(std::move(device)), graphics_(device_->createGraphics()), palette_(theme.palette),
      face_(std::move(theme.face)) {}

void Painter::box(int left, int top, int width, int height, sal_Int32 fill, sal_Int32 edge) {
    graphics_->setFillColor(fill);
    graphics_->setLineColor(edge);
    graphics_->drawRect(left, top, width, height);
}

void Painter::rule(int left, int top, int right) {
    graphics_->setLineColor(palette_.line);
    graphics_->drawLine(left, top, right, top);
}

void Painter::text(int left, int top, int width, int height, const std::string& what, int size, bool bold,
                   sal_Int32 colour, Align align) {
    if (what.empty() || width <= 0)
        return;
    auto shown = utf16(what);
    auto font = font_of(size, bold);
    int wide = font->getStringWidth(shown);
    if (wide > width) {
        int smaller = size * width / wide + 1;
        do {
            font = font_of(--smaller, bold);
            wide = font->getStringWidth(shown);
        } while (wide > width && smaller > size * 55 / 100);
        while (wide > width && shown.getLength() > 2) {
            shown = shown.copy(0, shown.getLength() - 2) + OUString(u'\x2026');
            wide = font->getStringWidth(shown);
        }
    }
    const auto metric = font->getFontMetric();
    graphics_->setFont(font);
    graphics_->setTextColor(colour);
    const int x = align == Align::left ? left : align == Align::right ? left + width - wide : left + (width - wide) / 2;
    graphics_->drawText(x, top + (height - metric.Ascent - metric.Descent) / 2, shown);
}

int Painter::width_of(const std::string& what, int size, bool bold) {
    return font_of(size, bold)->getStringWidth(utf16(what));
}

Reference<css::awt::XFont> Painter::font_of(int size, bool bold) {
    auto& font = fonts_[{size, bold}];
    if (!font.is()) {
        css::awt::FontDescriptor descriptor;
        descriptor.Name = face_;
        descriptor.Height = static_cast<sal_Int16>(std::clamp(size, 6, 2000));
        descriptor.Weight = bold ? css::awt::FontWeight::BOLD : css::awt::FontWeight::NORMAL;
        font = device_->getFont(descriptor);
    }
    return font;
}

} // namespace pacecells
