// What lies over the drawing: cross, hand, wire, box, faults.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/painters.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "app/map/draw_canvas.h"
#include "app/map/draw_hand.h"
#include "app/map/map_geometry.h"
#include "app/map/map_scene.h"

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
constexpr double caretArm = 7.0;
constexpr double caretGap = 2.5;
/// So that the brackets stay clear of the words beside a part.
constexpr double bracketGap = 3.0;
constexpr double signSide = 15.0;
constexpr double openRing = 4.0;
constexpr double wordsWidth = 280.0;

QPolygonF lineThrough(const std::vector<GridPoint>& corners) {
    QPolygonF line;
    for (const GridPoint corner : corners) {
        line << scenePoint(corner);
    }
    return line;
}

/// What a part covers with its legs.
QRectF boundsOf(const Part& part) {
    QRectF bounds = placementTransform(*part.placement).mapRect(symbolOf(part).bodyBox);
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        bounds = bounds.united(QRectF(pinPosition(part, pin), QSizeF(1, 1)));
    }
    return bounds;
}

}  // namespace

void DrawCanvas::drawForeground(QPainter* painter, const QRectF& /*rect*/) {
    painter->setRenderHint(QPainter::Antialiasing);
    paintPicked(*painter);
    paintFaults(*painter);
    paintPen(*painter);
    paintHeld(*painter);
    paintPointer(*painter);
    paintCaret(*painter);
}

void DrawCanvas::paintPicked(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const MapLayout& layout = m_scene->layout();
    const Picked& picked = m_hand.picked();
    const GridPoint by = m_hand.dragged();
    const QPointF away = scenePoint(by);
    painter.save();
    painter.translate(away);
    for (const PartId& id : picked.parts) {
        if (const DrawnPart* part = layout.part(id)) {
            paintSelectionBrackets(painter, part->body.adjusted(-bracketGap, -bracketGap, bracketGap, bracketGap));
            if (by != GridPoint()) {
                for (const DrawnSymbol& symbol : part->symbols) {
                    painter.save();
                    painter.setTransform(symbol.place, true);
                    paintSymbol(painter, symbol.symbol, {colours.ink3, colours.ink3, colours.canvas, false});
                    painter.restore();
                }
            }
        }
    }
    painter.setPen(QPen(colours.ink, line::selection, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    const Drawing& drawing = layout.job ? layout.job->stock.drawing : Drawing();
    for (const std::size_t wire : picked.wires) {
        if (wire < drawing.wires.size()) {
            painter.drawPolyline(lineThrough(drawing.wires[wire].corners));
        }
    }
    for (const std::size_t flag : picked.flags) {
        if (flag < drawing.flags.size()) {
            paintPickedSign(painter, drawing.flags[flag]);
        }
    }
    painter.restore();
    if (m_hand.box()) {
        painter.setPen(QPen(colours.ink2, line::hair, Qt::DashLine));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(scenePoint(*m_hand.box()), scenePoint(m_hand.caret())).normalized());
    }
}

void DrawCanvas::paintPickedSign(QPainter& painter, const Flag& flag) const {
    const QPointF at = scenePoint(flag.at);
    constexpr QSizeF size(26, 20);
    if (flag.kind == FlagKind::terminal || flag.kind == FlagKind::note) {
        paintSelectionBrackets(painter, {at - QPointF(size.width(), size.height()) / 2, size});
    } else {
        const bool hangs = flag.kind == FlagKind::ground || hangsDown(m_scene->layout().job->stock, flag);
        paintSelectionBrackets(painter, {at + QPointF(-size.width() / 2, hangs ? 2 : -2 - size.height()), size});
    }
}

void DrawCanvas::paintHeld(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const std::optional<DrawHand::Held>& held = m_hand.held();
    if (!held) {
        return;
    }
    QRectF covered(scenePoint(m_hand.caret()) - QPointF(8, 8), QSizeF(16, 16));
    if (const std::optional<Part> part = m_hand.heldPart()) {
        painter.save();
        painter.setTransform(placementTransform(*part->placement), true);
        paintSymbol(painter, symbolOf(*part), {colours.ink2, colours.ink2, colours.canvas, false});
        painter.restore();
        painter.setPen(Qt::NoPen);
        painter.setBrush(colours.ink2);
        for (int pin = 0; pin < drawnPinCount(part->kind); ++pin) {
            painter.drawEllipse(pinPosition(*part, pin), 3, 3);
        }
        covered = boundsOf(*part);
    }
    const QString words = m_hand.heldWords();
    const QFont font = Theme::current().font(TextRole::figure, true);
    const QFontMetricsF metrics(font);
    // Beside it, so that neither body nor legs are covered.
    const QSizeF size(metrics.horizontalAdvance(words) + 10, metrics.height() + 4);
    const QRectF box(covered.topRight() + QPointF(10, -size.height() / 2), size);
    painter.setPen(QPen(colours.edge, line::hair));
    painter.setBrush(colours.raised);
    painter.drawRect(box);
    painter.setPen(colours.ink);
    painter.setFont(font);
    painter.drawText(box, Qt::AlignCenter, words);
}

void DrawCanvas::paintPen(QPainter& painter) const {
    if (m_hand.pen().empty()) {
        return;
    }
    std::vector<GridPoint> points = m_hand.pen();
    points.push_back(m_hand.caret());
    painter.setPen(QPen(Theme::current().colours().ink, line::wire, Qt::DashLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(lineThrough(rightAngled(points)));
}

/// Where a click would go; the cross stays where it is.
void DrawCanvas::paintPointer(QPainter& painter) const {
    if (!m_hand.pointer() || *m_hand.pointer() == m_hand.caret() || m_hand.held() || !m_hand.pen().empty()) {
        return;
    }
    painter.setPen(QPen(Theme::current().colours().ink3, line::wire));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(scenePoint(*m_hand.pointer()), caretGap, caretGap);
}

/// Four arms round the point, so that the caret never hides what it points at.
void DrawCanvas::paintCaret(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const QPointF at = scenePoint(m_hand.caret());
    painter.setPen(QPen(hasFocus() ? colours.ink : colours.edge, hasFocus() ? line::focus : line::wire));
    for (const QPointF& way : {QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)}) {
        painter.drawLine(at + way * caretGap, at + way * caretArm);
    }
}

void DrawCanvas::paintFaults(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const DrawFault* said = nullptr;
    std::set<std::pair<int, int>> marked;
    for (const DrawFault& fault : m_faults) {
        if (!fault.hasPlace) {
            continue;
        }
        if (marked.insert({fault.at.x, fault.at.y}).second) {
            paintMark(painter, fault);
        }
        said = !said && !fault.isOpenPin && fault.at == m_hand.caret() ? &fault : said;
    }
    if (!said || m_hand.held() || !m_hand.pen().empty()) {
        return;
    }
    const QFont font = Theme::current().font(TextRole::body);
    const QRectF words =
        QFontMetricsF(font).boundingRect(QRectF(0, 0, wordsWidth, 400), Qt::TextWordWrap, said->sentence);
    const QRectF box = freeBox(words.size() + QSizeF(14, 10), scenePoint(said->at));
    painter.setPen(QPen(said->severity == Severity::wrong ? colours.stop : colours.warn, line::wire));
    painter.setBrush(said->severity == Severity::wrong ? colours.stopSoft : colours.warnSoft);
    painter.drawRect(box);
    painter.setPen(colours.ink);
    painter.setFont(font);
    painter.drawText(box.adjusted(7, 5, -7, -5), Qt::TextWordWrap, said->sentence);
}

/// An open pin is a ring; anything else has the sign of its weight.
void DrawCanvas::paintMark(QPainter& painter, const DrawFault& fault) const {
    const QPointF at = scenePoint(fault.at);
    const QRectF box(at + QPointF(4, 4), QSizeF(signSide, signSide));
    if (fault.severity == Severity::wrong) {
        paintStopSign(painter, box);
    } else if (fault.isOpenPin) {
        painter.setPen(QPen(Theme::current().colours().ink2, line::wire));
        painter.setBrush(Theme::current().colours().canvas);
        painter.drawEllipse(at, openRing, openRing);
    } else {
        paintCareSign(painter, box);
    }
}

/// Where a box near a point hides least of the drawing.
QRectF DrawCanvas::freeBox(const QSizeF& size, const QPointF& wanted) const {
    const Obstacles& drawn = m_scene->layout().obstacles;
    constexpr int reach = 9;
    constexpr double perPixelAway = 0.5;
    QRectF best(wanted + QPointF(pitch, pitch), size);
    double least = std::numeric_limits<double>::infinity();
    for (int x = -reach - 6; x <= reach; ++x) {
        for (int y = -reach; y <= reach; ++y) {
            const QRectF box(wanted + QPointF(x * pitch + 8, y * pitch + 8), size);
            const QPointF nearestPoint(std::clamp(wanted.x(), box.left(), box.right()),
                                       std::clamp(wanted.y(), box.top(), box.bottom()));
            const double cost = drawn.covered(box, least) + perPixelAway * QLineF(wanted, nearestPoint).length() +
                                (box.contains(wanted) ? 1e4 : 0.0);
            if (cost < least) {
                best = box;
                least = cost;
            }
        }
    }
    return best;
}

}  // namespace ohmwright
