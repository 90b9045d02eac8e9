// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_boxes.h"

#include "app/papers/paper_frame.h"
#include "app/papers/sheet_text.h"

#include <QObject>
#include <QPainter>

namespace ohmwright {

namespace {

QString wordOf(BoxState state) {
    switch (state) {
        case BoxState::failed:
            return QObject::tr("failed");
        case BoxState::skipped:
            return QObject::tr("skipped");
        case BoxState::refused:
            return QObject::tr("refused");
        case BoxState::open:
        case BoxState::passed:
            break;
    }
    return {};
}

}  // namespace

double boxRoom(BoxState state) {
    const QString word = wordOf(state);
    return tickBox + 8.0 + (word.isEmpty() ? 0.0 : widthOf({{word, true, print::smallPixels, false}}) + 8.0);
}

void paintBox(QPainter& painter, const QRectF& line, BoxState state) {
    paintTickBox(painter, line);
    if (state == BoxState::open) {
        return;
    }
    const QRectF box(line.right() - tickBox - 4.0, line.center().y() - tickBox / 2.0, tickBox + 4.0, tickBox);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    if (state == BoxState::passed) {
        painter.setPen(QPen(print::ink(), 2.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.drawPolyline(QPolygonF({box.topLeft() + QPointF(4.0, 8.0), box.topLeft() + QPointF(8.0, 12.0),
                                        box.topLeft() + QPointF(15.0, 3.0)}));
    } else if (state == BoxState::failed) {
        painter.setPen(QPen(print::ink(), 2.0));
        painter.drawLine(box.topLeft() + QPointF(4.0, 3.0), box.bottomRight() - QPointF(4.0, 3.0));
        painter.drawLine(box.topRight() + QPointF(-4.0, 3.0), box.bottomLeft() + QPointF(4.0, -3.0));
    } else if (state == BoxState::skipped) {
        painter.fillRect(box.adjusted(1.0, 1.0, -1.0, -1.0), QBrush(print::ink(), Qt::BDiagPattern));
    } else {
        painter.fillRect(QRectF(box.left() + 3.0, box.center().y() - 2.0, box.width() - 6.0, 4.0), print::ink());
    }
    painter.restore();
    const QString word = wordOf(state);
    drawText(painter, {box.left() - 80.0, line.top(), 74.0, line.height()}, word, Qt::AlignRight, true,
             print::smallPixels);
}

void paintBlank(QPainter& painter, const QRectF& box, const QString& read) {
    painter.setPen(QPen(print::ink(), 1.0));
    painter.drawLine(QPointF(box.left(), box.bottom() - 4.0), QPointF(box.right(), box.bottom() - 4.0));
    drawText(painter, box.adjusted(2.0, -2.0, 0.0, -2.0), read, Qt::AlignLeft, true, print::smallPixels);
}

}  // namespace ohmwright
