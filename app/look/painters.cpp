// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/painters.h"

#include "app/look/theme.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <QtMath>

#include <algorithm>
#include <numbers>

namespace ohmwright {
namespace {

constexpr double dotRadius = 4.0;   // tokens map.stateDotRadius
constexpr double bracketArm = 9.0;  // tokens map.selection

/// Restores the painter at the end of a sign.
class SavedPainter {
public:
    explicit SavedPainter(QPainter& painter) : m_painter(painter) {
        m_painter.save();
        m_painter.setRenderHint(QPainter::Antialiasing);
    }
    ~SavedPainter() { m_painter.restore(); }
    SavedPainter(const SavedPainter&) = delete;
    SavedPainter& operator=(const SavedPainter&) = delete;

private:
    QPainter& m_painter;
};

/// Upright triangle that fills the box less `inset`, point up.
QPainterPath triangleIn(const QRectF& box, double inset) {
    const QRectF inner = box.adjusted(inset, inset, -inset, -inset);
    QPainterPath path(QPointF(inner.center().x(), inner.top()));
    path.lineTo(inner.bottomRight());
    path.lineTo(inner.bottomLeft());
    path.closeSubpath();
    return path;
}

/// Squares off the box and makes it as flat as an equilateral triangle.
QRectF triangleBox(const QRectF& box) {
    const double width = std::min(box.width(), box.height() * 1.12);
    const double height = width / 1.12;
    return {box.center().x() - width / 2, box.center().y() - height / 2, width, height};
}

/// The letter stands low in the triangle, where it is wide.
void paintTriangleLetter(QPainter& painter, const QRectF& box, const QString& letter, const QColor& colour, bool bold) {
    QFont font = Theme::current().font(TextRole::body, bold);
    const double room = letter.size() > 1 ? 0.34 : 0.5;
    constexpr int leastLetter = 12;
    const int least = letter.size() > 1 ? 7 : leastLetter;
    font.setPixelSize(std::max(least, qRound(box.height() * room)));
    const QFontMetricsF metrics(font);
    painter.setFont(font);
    painter.setPen(colour);
    const double baseline = box.bottom() - box.height() * 0.13;
    painter.drawText(QPointF(box.center().x() - metrics.horizontalAdvance(letter) / 2, baseline), letter);
}

QRectF squareIn(const QRectF& box) {
    const double side = std::min(box.width(), box.height());
    return {box.center().x() - side / 2, box.center().y() - side / 2, side, side};
}

void strokeTick(QPainter& painter, const QRectF& square, const QColor& colour, double width) {
    painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    const auto at = [&](double x, double y) {
        return QPointF(square.left() + x * square.width(), square.top() + y * square.height());
    };
    QPainterPath path(at(0.16, 0.55));
    path.lineTo(at(0.40, 0.78));
    path.lineTo(at(0.84, 0.24));
    painter.drawPath(path);
}

}  // namespace

void paintRevisionTriangle(QPainter& painter, const QRectF& box, const QString& letter, TriangleState state) {
    const SavedPainter saved(painter);
    const ThemeColours& c = Theme::current().colours();
    const QRectF inner = triangleBox(box);
    const bool active = state == TriangleState::active;
    QPen pen(active ? c.now : c.ink3, active ? 2.0 : 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    if (!active) {
        pen.setDashPattern({2.4, 2.2});
    }
    painter.setPen(pen);
    painter.setBrush(active ? QBrush(c.now) : QBrush(Qt::NoBrush));
    painter.drawPath(triangleIn(inner, 1.2));
    paintTriangleLetter(painter, inner, letter, active ? c.onNow : c.ink2, active);
}

void paintCareSign(QPainter& painter, const QRectF& box) {
    const SavedPainter saved(painter);
    const ThemeColours& c = Theme::current().colours();
    const QRectF inner = triangleBox(box);
    // The fill alone would not stand out from a light panel.
    painter.setPen(QPen(c.warn, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(c.warnFill);
    painter.drawPath(triangleIn(inner, 1.0));
    const QColor mark = Theme::current().kind() == ThemeKind::light ? c.ink : c.canvas;
    const double x = inner.center().x();
    painter.setPen(QPen(mark, std::max(1.4, inner.height() * 0.12), Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(QPointF(x, inner.top() + inner.height() * 0.36), QPointF(x, inner.top() + inner.height() * 0.62));
    painter.drawPoint(QPointF(x, inner.top() + inner.height() * 0.80));
}

void paintStopSign(QPainter& painter, const QRectF& box) {
    const SavedPainter saved(painter);
    const ThemeColours& c = Theme::current().colours();
    const QRectF square = squareIn(box);
    const double r = square.width() / 2;
    QPolygonF octagon;
    for (int corner = 0; corner < 8; ++corner) {
        const double angle = std::numbers::pi / 8 + corner * std::numbers::pi / 4;
        octagon << square.center() + QPointF(r * std::cos(angle), r * std::sin(angle));
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.stop);
    painter.drawPolygon(octagon);
    painter.setPen(QPen(c.raised, std::max(1.6, r * 0.32), Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(square.center() - QPointF(r * 0.52, 0), square.center() + QPointF(r * 0.52, 0));
}

void paintNoteSign(QPainter& painter, const QRectF& box) {
    const SavedPainter saved(painter);
    const QRectF square = squareIn(box).adjusted(1, 1, -1, -1);
    painter.setPen(QPen(Theme::current().colours().ink2, line::icon - 0.4));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(square);
    const double reach = square.width() * 0.24;
    painter.drawLine(square.center() - QPointF(reach, 0), square.center() + QPointF(reach, 0));
}

void paintTick(QPainter& painter, const QRectF& box) {
    const SavedPainter saved(painter);
    const QRectF square = squareIn(box);
    strokeTick(painter, square, Theme::current().colours().ok, std::max(1.8, square.width() * 0.14));
}

void paintKnowledgeDot(QPainter& painter, const QPointF& centre, Knowledge knowledge) {
    const SavedPainter saved(painter);
    const ThemeColours& c = Theme::current().colours();
    const QRectF circle(centre.x() - dotRadius, centre.y() - dotRadius, 2 * dotRadius, 2 * dotRadius);
    if (knowledge == Knowledge::measured) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.measured);
        painter.drawEllipse(circle);
        return;
    }
    const QRectF ring = circle.adjusted(0.6, 0.6, -0.6, -0.6);
    if (knowledge == Knowledge::seen) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.stock);
        painter.drawPie(ring, 90 * 16, 180 * 16);
    }
    painter.setPen(QPen(c.stock, 1.2));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(ring);
}

void paintCheckBox(QPainter& painter, const QRectF& box, bool on, const QColor& fill, const QColor& mark) {
    const SavedPainter saved(painter);
    const ThemeColours& c = Theme::current().colours();
    const QRectF square = squareIn(box).adjusted(1, 1, -1, -1);
    painter.setPen(QPen(on ? fill : c.edge, 1.6));
    painter.setBrush(on ? fill : c.raised);
    painter.drawRoundedRect(square, 3, 3);
    if (on) {
        strokeTick(painter, square, mark, 2.2);
    }
}

void paintSelectionBrackets(QPainter& painter, const QRectF& box) {
    const SavedPainter saved(painter);
    painter.setPen(QPen(Theme::current().colours().ink, line::selection, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(Qt::NoBrush);
    const double arm = std::min({bracketArm, box.width() / 3, box.height() / 3});
    const auto corner = [&](const QPointF& at, double towardsX, double towardsY) {
        painter.drawPolyline(QPolygonF{at + QPointF(towardsX * arm, 0), at, at + QPointF(0, towardsY * arm)});
    };
    corner(box.topLeft(), 1, 1);
    corner(box.topRight(), -1, 1);
    corner(box.bottomRight(), -1, -1);
    corner(box.bottomLeft(), 1, -1);
}

qreal paintStruck(QPainter& painter, const QPointF& baseline, const QString& stock, Ground ground) {
    const SavedPainter saved(painter);
    const ThemeColours& c = Theme::current().colours();
    const QColor colour = ground == Ground::nowSoft ? c.stockOnSoft : c.stock;
    const QFontMetricsF metrics(painter.font(), painter.device());
    const double width = metrics.horizontalAdvance(stock);
    painter.setPen(colour);
    painter.drawText(baseline, stock);
    painter.setPen(QPen(colour, std::max(1.2, metrics.height() / 13.0), Qt::SolidLine, Qt::FlatCap));
    const double y = baseline.y() - metrics.capHeight() * 0.42;
    painter.drawLine(QPointF(baseline.x() - 1, y), QPointF(baseline.x() + width + 1, y));
    return width;
}

qreal paintStockToNow(QPainter& painter, const QPointF& baseline, const QString& stock, const QString& now,
                      Ground ground) {
    const SavedPainter saved(painter);
    double x = baseline.x();
    if (!stock.isEmpty()) {
        x += paintStruck(painter, baseline, stock, ground) +
             QFontMetricsF(painter.font(), painter.device()).horizontalAdvance(' ');
    }
    QFont bold = painter.font();
    bold.setBold(true);
    painter.setFont(bold);
    painter.setPen(Theme::current().colours().now);
    painter.drawText(QPointF(x, baseline.y()), now);
    return x + QFontMetricsF(bold, painter.device()).horizontalAdvance(now) - baseline.x();
}

}  // namespace ohmwright
