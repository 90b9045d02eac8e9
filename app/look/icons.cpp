// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/icons.h"

#include "app/look/theme.h"

#include <QIconEngine>
#include <QPainter>
#include <QPixmap>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr double iconGrid = 20.0;  // tokens icon.grid

QPainterPath undoPath() {
    QPainterPath path(QPointF(7, 3.5));
    path.lineTo(3, 7.5);
    path.lineTo(7, 11.5);
    path.moveTo(3, 7.5);
    path.lineTo(12, 7.5);
    path.arcTo(QRectF(7.5, 7.5, 9, 9), 90, -180);
    path.lineTo(9.5, 16.5);
    return path;
}

QPainterPath printPath() {
    QPainterPath path;
    path.addRect(6, 2.5, 8, 4.5);
    path.moveTo(6, 14);
    path.lineTo(3, 14);
    path.lineTo(3, 7);
    path.lineTo(17, 7);
    path.lineTo(17, 14);
    path.lineTo(14, 14);
    path.addRect(6, 11.5, 8, 6);
    return path;
}

QPainterPath openPath() {
    QPainterPath path(QPointF(2.5, 16));
    path.lineTo(2.5, 4);
    path.lineTo(7.5, 4);
    path.lineTo(9.5, 6.5);
    path.lineTo(16, 6.5);
    path.lineTo(16, 9.5);
    path.moveTo(2.5, 16);
    path.lineTo(5.5, 9.5);
    path.lineTo(18.5, 9.5);
    path.lineTo(15.5, 16);
    path.closeSubpath();
    return path;
}

/// An arrow into a tray: nothing here was ever a diskette.
QPainterPath savePath() {
    QPainterPath path(QPointF(10, 2.5));
    path.lineTo(10, 11.5);
    path.moveTo(6, 8);
    path.lineTo(10, 12);
    path.lineTo(14, 8);
    path.moveTo(3, 12.5);
    path.lineTo(3, 17);
    path.lineTo(17, 17);
    path.lineTo(17, 12.5);
    return path;
}

QPainterPath sunPath() {
    QPainterPath path;
    path.addEllipse(QPointF(10, 10), 3.4, 3.4);
    for (int ray = 0; ray < 8; ++ray) {
        QTransform turn;
        turn.translate(10, 10).rotate(45.0 * ray);
        path.moveTo(turn.map(QPointF(6.2, 0)));
        path.lineTo(turn.map(QPointF(8.2, 0)));
    }
    return path;
}

QPainterPath moonPath() {
    QPainterPath disc;
    disc.addEllipse(QPointF(9.5, 10.5), 7, 7);
    QPainterPath bite;
    bite.addEllipse(QPointF(13, 7), 6, 6);
    return disc.subtracted(bite).simplified();
}

class LookIconEngine : public QIconEngine {
public:
    LookIconEngine(IconName name, IconGround ground) : m_name(name), m_ground(ground) {}

    void paint(QPainter* painter, const QRect& box, QIcon::Mode mode, QIcon::State state) override {
        const ThemeColours& c = Theme::current().colours();
        const bool onInk = m_ground == IconGround::ink || state == QIcon::On;
        const QColor usable = onInk ? c.panel : c.ink;
        paintIcon(*painter, box, m_name, mode == QIcon::Disabled ? c.ink3 : usable);
    }

    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
        QPixmap pixmap(size);
        pixmap.fill(Qt::transparent);
        QPainter painter(&pixmap);
        paint(&painter, QRect(QPoint(0, 0), size), mode, state);
        return pixmap;
    }

    QIconEngine* clone() const override { return new LookIconEngine(*this); }

private:
    IconName m_name;
    IconGround m_ground;
};

}  // namespace

QPainterPath iconPath(IconName name) {
    switch (name) {
        case IconName::undo:
            return undoPath();
        case IconName::redo:
            return QTransform(-1, 0, 0, 1, iconGrid, 0).map(undoPath());
        case IconName::print:
            return printPath();
        case IconName::open:
            return openPath();
        case IconName::save:
            return savePath();
        case IconName::sun:
            return sunPath();
        case IconName::moon:
            return moonPath();
        case IconName::plus:
        case IconName::minus:
            break;
    }
    QPainterPath path(QPointF(4, 10));
    path.lineTo(16, 10);
    if (name == IconName::plus) {
        path.moveTo(10, 4);
        path.lineTo(10, 16);
    }
    return path;
}

void paintIcon(QPainter& painter, const QRectF& box, IconName name, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double scale = std::min(box.width(), box.height()) / iconGrid;
    painter.translate(box.center() - QPointF(iconGrid, iconGrid) * (scale / 2));
    painter.scale(scale, scale);
    painter.setPen(QPen(colour, line::icon, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(iconPath(name));
    painter.restore();
}

QIcon icon(IconName name, IconGround ground) {
    return QIcon(new LookIconEngine(name, ground));
}

void paintMark(QPainter& painter, const QRectF& box) {
    const ThemeColours& c = Theme::current().colours();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    constexpr double grid = 24.0;
    const double scale = std::min(box.width(), box.height()) / grid;
    painter.translate(box.center() - QPointF(grid, grid) * (scale / 2));
    painter.scale(scale, scale);
    const QRectF ring(3, 1.5, 18, 18);
    QPainterPath omega(QPointF(2.5, 21.5));
    omega.lineTo(8.8, 21.5);
    omega.lineTo(8.8, 18.9);
    omega.arcTo(ring, 249, -318);
    omega.lineTo(15.2, 21.5);
    painter.setPen(QPen(c.ink, 2.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPath(omega);
    painter.setPen(QPen(c.now, 2.6, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(QPointF(16, 21.5), QPointF(21.5, 21.5));
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.ink);
    painter.drawEllipse(QPointF(2.5, 21.5), 2.2, 2.2);
    painter.setBrush(c.now);
    painter.drawEllipse(QPointF(21.5, 21.5), 2.2, 2.2);
    painter.restore();
}

QIcon markIcon() {
    QIcon result;
    for (const int side : {16, 24, 32, 48, 64, 128, 256}) {
        QPixmap pixmap(side, side);
        pixmap.fill(Qt::transparent);
        QPainter painter(&pixmap);
        paintMark(painter, QRectF(0, 0, side, side));
        painter.end();
        result.addPixmap(pixmap);
    }
    return result;
}

}  // namespace ohmwright
