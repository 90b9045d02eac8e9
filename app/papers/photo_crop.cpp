// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/photo_crop.h"

#include "app/papers/sheet_text.h"

#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace ohmwright {

namespace {

constexpr double longestSide = 178.0;  ///< As wide as the widest part picture.
constexpr double tallest = 132.0;
constexpr double captionHeight = 16.0;
constexpr double ringRadius = 6.5;
constexpr double labelHeight = 16.0;
constexpr double labelGap = 4.0;

QSizeF printedSize(const StepPhoto& photo) {
    return QSizeF(photo.picture.size()).scaled(longestSide, tallest, Qt::KeepAspectRatio);
}

/// A ring that is seen on any ground, in colour or grey.
void paintRing(QPainter& painter, const QPointF& at) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(print::paper(), 5.0));
    painter.drawEllipse(at, ringRadius, ringRadius);
    painter.setPen(QPen(print::ink(), 2.0));
    painter.drawEllipse(at, ringRadius, ringRadius);
}

/// Beside the ring on the side away from the other legs, inside the picture and off what is taken.
QRectF labelBox(const QRectF& picture, const QPointF& at, const QPointF& middle, double width,
                const std::vector<QRectF>& taken) {
    const double reach = ringRadius + labelGap;
    const double x = at.x() < middle.x() ? at.x() - reach - width : at.x() + reach;
    const double otherX = at.x() < middle.x() ? at.x() + reach : at.x() - reach - width;
    const double above = at.y() - reach - labelHeight, below = at.y() + reach;
    const double beside = at.y() - labelHeight / 2.0, over = at.x() - width / 2.0;
    const bool isRow = std::abs(at.x() - middle.x()) >= std::abs(at.y() - middle.y());
    const QPointF upright(over, at.y() < middle.y() ? above : below);
    const std::array places{isRow ? QPointF(x, beside) : upright, isRow ? QPointF(over, above) : QPointF(x, beside),
                            QPointF(over, below), QPointF(over, above), QPointF(otherX, beside)};
    const auto isFree = [&](const QRectF& box) {
        return picture.contains(box) &&
               std::none_of(taken.begin(), taken.end(), [&box](const QRectF& other) { return other.intersects(box); });
    };
    for (const QPointF& place : places) {
        const QRectF box(place, QSizeF(width, labelHeight));
        if (isFree(box)) {
            return box;
        }
    }
    const double left =
        std::clamp(places.front().x(), picture.left(), std::max(picture.left(), picture.right() - width));
    const double top = std::clamp(places.front().y(), picture.top(), picture.bottom() - labelHeight);
    return {left, top, width, labelHeight};
}

void paintLabels(QPainter& painter, const QRectF& picture, const StepPhoto& photo, const std::vector<QPointF>& places) {
    QPointF middle;
    std::vector<QRectF> taken;
    for (const QPointF& at : places) {
        middle += at / static_cast<double>(places.size());
        taken.emplace_back(at.x() - ringRadius, at.y() - ringRadius, 2.0 * ringRadius, 2.0 * ringRadius);
    }
    for (std::size_t k = 0; k < places.size(); ++k) {
        const QString& words = photo.rings[k].words;
        const double width = widthOf({{words, true, print::smallPixels}}) + 6.0;
        const QRectF box = labelBox(picture, places[k], middle, width, taken);
        taken.push_back(box);
        painter.fillRect(box, print::paper());
        painter.setPen(QPen(print::ink(), 1.0));
        drawText(painter, box, words, Qt::AlignHCenter, true, print::smallPixels);
    }
}

}  // namespace

QSizeF sizeOf(const StepPhoto& photo) {
    return photo.picture.isNull() ? QSizeF() : printedSize(photo) + QSizeF(0.0, captionHeight);
}

void paintPhoto(QPainter& painter, const QRectF& box, const StepPhoto& photo) {
    if (photo.picture.isNull()) {
        return;
    }
    const QSizeF size = printedSize(photo);
    const QRectF place(QPointF(box.right() - size.width(), box.top()), size);
    const double scale = size.width() / photo.picture.width();
    std::vector<QPointF> places;
    for (const StepPhoto::Ring& ring : photo.rings) {
        places.push_back(place.topLeft() + scale * ring.at);
    }
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    painter.drawImage(place, photo.picture);
    painter.setPen(QPen(print::ink(), 1.0));
    painter.drawRect(place);
    for (const QPointF& at : places) {
        paintRing(painter, at);
    }
    paintLabels(painter, place, photo, places);
    painter.setPen(QPen(print::ink(), 1.0));
    drawText(painter, {place.left(), place.bottom(), place.width(), captionHeight}, photo.side, Qt::AlignRight, false,
             print::smallPixels);
    painter.restore();
}

}  // namespace ohmwright
