/// Pictures as a grey printer gives them, and what is left of a meaning there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"

#include <QImage>
#include <QPainter>

#include <cmath>
#include <functional>
#include <vector>

namespace ohmwright {

/// How much a pixel has to differ from its ground to be seen, of 255: 3:1 on white is 106 away, a hair line 45.
inline constexpr int seenFrom = 60;

inline QImage inGrey(const QImage& picture) {
    return picture.convertToFormat(QImage::Format_Grayscale8);
}

inline bool isInk(const QImage& grey, int x, int y, int ground) {
    return std::abs(qGray(grey.pixel(x, y)) - ground) >= seenFrom;
}

/// Painted on the canvas at four times its size, in grey.
inline QImage greyOf(const QSize& size, const std::function<void(QPainter&)>& paint) {
    constexpr double scale = 4.0;
    QImage image(size * scale, QImage::Format_RGB32);
    image.setDevicePixelRatio(scale);
    image.fill(Theme::current().colours().canvas);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(Theme::current().font(TextRole::body));
    paint(painter);
    painter.end();
    return inGrey(image);
}

/// What can be told of a line without its colour.
struct LineLook {
    double thickness = 0.0;  ///< px
    double inked = 0.0;      ///< Share of its length.
    double dash = 0.0;       ///< Mean length of an inked piece, px; of a solid line its whole length.

    [[nodiscard]] bool isLike(const LineLook& other) const {
        const auto near = [](double a, double b) { return std::abs(a - b) <= 0.2 * std::max(a, b); };
        return near(thickness, other.thickness) && near(inked, other.inked) && near(dash, other.dash);
    }
};

/// @param inkAt  whether the line is inked at each place along it, one a px.
inline LineLook lookOf(const std::vector<bool>& inkAt, double thickness) {
    int inked = 0;
    int pieces = 0;
    for (std::size_t i = 0; i < inkAt.size(); ++i) {
        inked += inkAt[i] ? 1 : 0;
        pieces += inkAt[i] && (i == 0 || !inkAt[i - 1]) ? 1 : 0;
    }
    return {thickness, inkAt.empty() ? 0.0 : inked / static_cast<double>(inkAt.size()),
            pieces == 0 ? 0.0 : inked / static_cast<double>(pieces)};
}

/// The pen drawn along 400 px.
inline LineLook lookOf(const QPen& pen) {
    constexpr int length = 400;
    constexpr int scale = 4;
    const QImage grey = greyOf({length, 12}, [&pen](QPainter& painter) {
        painter.setPen(pen);
        painter.drawLine(QPointF(0, 6), QPointF(length, 6));
    });
    const int ground = qGray(Theme::current().colours().canvas.rgb());
    std::vector<bool> inkAt;
    int thickest = 0;
    for (int x = 0; x < length; ++x) {
        int rows = 0;
        for (int y = 0; y < grey.height(); ++y) {
            rows += isInk(grey, x * scale, y, ground) ? 1 : 0;
        }
        inkAt.push_back(rows > 0);
        thickest = std::max(thickest, rows);
    }
    return lookOf(inkAt, thickest / static_cast<double>(scale));
}

/// Share of the pixels inked in either picture that are inked in one alone: 0 of the same shape, 1 of shapes apart.
inline double shapeDifference(const QImage& a, const QImage& b) {
    const int ground = qGray(Theme::current().colours().canvas.rgb());
    int either = 0;
    int one = 0;
    for (int y = 0; y < a.height(); ++y) {
        for (int x = 0; x < a.width(); ++x) {
            const bool first = isInk(a, x, y, ground);
            const bool second = isInk(b, x, y, ground);
            either += first || second ? 1 : 0;
            one += first != second ? 1 : 0;
        }
    }
    return either == 0 ? 0.0 : one / static_cast<double>(either);
}

}  // namespace ohmwright
