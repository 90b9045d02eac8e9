/// Pictures of painted things in both themes: saved for looking at, and asked which colours they hold.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"

#include <QDir>
#include <QImage>
#include <QPainter>
#include <QWidget>

#include <cstdlib>
#include <functional>

namespace ohmwright {

inline const char* themeName(ThemeKind kind) {
    return kind == ThemeKind::light ? "light" : "dark";
}

inline constexpr std::array bothThemes{ThemeKind::light, ThemeKind::dark};

/// Saves as NAME-light.png or NAME-dark.png.
inline void savePicture(const QImage& image, const QString& name) {
    QDir().mkpath(OHMWRIGHT_PICTURES_DIR);
    const QString theme = themeName(Theme::current().kind());
    image.save(QString("%1/look-%2-%3.png").arg(OHMWRIGHT_PICTURES_DIR, name, theme));
}

/// Paints on the canvas colour of the theme in force, at twice the size, and saves it.
inline QImage paintedPicture(const QString& name, const QSize& size, const std::function<void(QPainter&)>& paint) {
    QImage image(size * 2, QImage::Format_RGB32);
    image.setDevicePixelRatio(2.0);
    image.fill(Theme::current().colours().canvas);
    QPainter painter(&image);
    painter.setFont(Theme::current().font(TextRole::body));
    paint(painter);
    painter.end();
    savePicture(image, name);
    return image;
}

inline QImage grabbedPicture(const QString& name, QWidget& widget) {
    const QImage image = widget.grab().toImage().convertToFormat(QImage::Format_RGB32);
    savePicture(image, name);
    return image;
}

/// Pixels of exactly this colour, give or take 2 of 255 in each channel (blending rounds).
inline int pixelsOf(const QImage& image, const QColor& colour) {
    int count = 0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            const QColor pixel = image.pixelColor(x, y);
            if (std::abs(pixel.red() - colour.red()) <= 2 && std::abs(pixel.green() - colour.green()) <= 2 &&
                std::abs(pixel.blue() - colour.blue()) <= 2) {
                ++count;
            }
        }
    }
    return count;
}

/// Puts the light theme and the plain text size back at the end of a test.
class ThemeGuard {
public:
    ThemeGuard() = default;
    ~ThemeGuard() {
        Theme::current().setKind(ThemeKind::light);
        Theme::current().setTextScale(1.0);
    }
    ThemeGuard(const ThemeGuard&) = delete;
    ThemeGuard& operator=(const ThemeGuard&) = delete;
};

}  // namespace ohmwright
