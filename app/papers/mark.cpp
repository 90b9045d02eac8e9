// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/mark.h"

#include "app/papers/sheet_text.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace ohmwright {

void paintPrintMark(QPainter& painter, const QRectF& box) {
    constexpr double grid = 24.0;
    const double scale = std::min(box.width(), box.height()) / grid;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.center() - QPointF(grid, grid) * (scale / 2.0));
    painter.scale(scale, scale);
    QPainterPath omega(QPointF(2.5, 21.5));
    omega.lineTo(8.8, 21.5);
    omega.lineTo(8.8, 18.9);
    omega.arcTo(QRectF(3.0, 1.5, 18.0, 18.0), 249.0, -318.0);
    omega.lineTo(15.2, 21.5);
    omega.lineTo(21.5, 21.5);
    painter.setPen(QPen(print::ink(), 2.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(omega);
    painter.setPen(Qt::NoPen);
    painter.setBrush(print::ink());
    painter.drawEllipse(QPointF(2.5, 21.5), 2.2, 2.2);
    painter.drawEllipse(QPointF(21.5, 21.5), 2.2, 2.2);
    painter.restore();
}

}  // namespace ohmwright
