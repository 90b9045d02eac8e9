// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/net_item.h"

#include "app/look/flags.h"
#include "app/look/painters.h"
#include "app/look/theme.h"
#include "app/map/part_item.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace ohmwright {
namespace {

constexpr double pointedWidth = 3.0;
constexpr double junctionRadius = 3.4;  // tokens map.junctionRadius
constexpr double terminalRadius = 4.5;  // tokens map.terminalRadius
constexpr double boundsMargin = 22.0;
constexpr double octagonSide = 18.0;
constexpr double sentenceWidth = 400.0;
constexpr double sentenceMargin = 6.0;
constexpr double faultGap = 12.0;
constexpr double hiddenPerPixelAway = 8.0;

double distance(const QLineF& line, const QPointF& point) {
    const QPointF along = line.p2() - line.p1();
    const double lengthSquared = QPointF::dotProduct(along, along);
    const double share =
        lengthSquared > 0.0 ? std::clamp(QPointF::dotProduct(point - line.p1(), along) / lengthSquared, 0.0, 1.0) : 0.0;
    return QLineF(point, line.p1() + along * share).length();
}

double distanceFrom(const QRectF& box, const QPointF& point) {
    const QPointF nearest(std::clamp(point.x(), box.left(), box.right()),
                          std::clamp(point.y(), box.top(), box.bottom()));
    return QLineF(point, nearest).length();
}

/// Moves a box of this size into the sheet, starting right below the pointer.
QRectF nearby(const QPointF& place, const QSizeF& size, const QRectF& sheet, double gap) {
    QRectF box(place + QPointF(gap, gap), size);
    if (box.right() > sheet.right()) {
        box.moveRight(place.x() - gap);
    }
    if (box.bottom() > sheet.bottom()) {
        box.moveBottom(place.y() - gap);
    }
    box.moveLeft(std::max(box.left(), sheet.left()));
    box.moveTop(std::max(box.top(), sheet.top()));
    return box;
}

}  // namespace

NetItem::NetItem(DrawnNet net) : m_net(std::move(net)) {
    setZValue(layer::wire);
    const auto include = [this](const QPointF& point) { m_bounds = m_bounds.united(QRectF(point, QSizeF(1, 1))); };
    for (const QPolygonF& wire : m_net.wires) {
        std::for_each(wire.begin(), wire.end(), include);
    }
    std::for_each(m_net.grounds.begin(), m_net.grounds.end(), include);
    std::for_each(m_net.terminals.begin(), m_net.terminals.end(), include);
    std::for_each(m_net.junctions.begin(), m_net.junctions.end(), include);
    for (const QLineF& sign : m_net.signs) {
        include(sign.p1());
        include(sign.p2());
    }
    m_bounds.adjust(-boundsMargin, -boundsMargin, boundsMargin, boundsMargin);
}

double NetItem::distanceTo(const QPointF& point) const {
    double nearest = std::numeric_limits<double>::infinity();
    for (const QPolygonF& wire : m_net.wires) {
        for (qsizetype i = 1; i < wire.size(); ++i) {
            nearest = std::min(nearest, distance({wire.at(i - 1), wire.at(i)}, point));
        }
    }
    for (const QLineF& sign : m_net.signs) {
        nearest = std::min(nearest, distance(sign, point));
    }
    return nearest;
}

std::optional<QPointF> NetItem::anchor() const {
    if (!m_net.junctions.empty()) {
        return m_net.junctions.front();
    }
    if (!m_net.wires.empty() && m_net.wires.front().size() > 1) {
        return QLineF(m_net.wires.front().at(0), m_net.wires.front().at(1)).center();
    }
    if (!m_net.signs.empty()) {
        return m_net.signs.front().p1();
    }
    return std::nullopt;
}

void NetItem::setPointedAt(bool pointedAt) {
    if (m_isPointedAt != pointedAt) {
        m_isPointedAt = pointedAt;
        update();
    }
}

void NetItem::setFaulty(bool faulty) {
    if (m_isFaulty != faulty) {
        m_isFaulty = faulty;
        update();
    }
}

void NetItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    const ThemeColours& colours = Theme::current().colours();
    const QColor ink = m_isFaulty ? colours.stop : colours.wire;
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(ink, m_isPointedAt || m_isFaulty ? pointedWidth : line::wire, Qt::SolidLine, Qt::SquareCap,
                         Qt::MiterJoin));
    painter->setBrush(Qt::NoBrush);
    for (const QPolygonF& wire : m_net.wires) {
        painter->drawPolyline(wire);
    }
    painter->setPen(QPen(ink, line::body, Qt::SolidLine, Qt::FlatCap));
    painter->drawLines(QList<QLineF>(m_net.signs.begin(), m_net.signs.end()));
    for (const QPointF& ground : m_net.grounds) {
        paintFlag(*painter, FlagKind::ground, ground);
    }
}

JointItem::JointItem(const DrawnNet& net) : m_junctions(net.junctions), m_terminals(net.terminals) {
    setZValue(layer::joint);
    const QPointF reach(terminalRadius + 2, terminalRadius + 2);
    for (const std::vector<QPointF>* points : {&m_junctions, &m_terminals}) {
        for (const QPointF& point : *points) {
            m_bounds = m_bounds.united(QRectF(point - reach, point + reach));
        }
    }
}

void JointItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    const ThemeColours& colours = Theme::current().colours();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(Qt::NoPen);
    painter->setBrush(colours.wire);
    for (const QPointF& junction : m_junctions) {
        painter->drawEllipse(junction, junctionRadius, junctionRadius);
    }
    painter->setPen(QPen(colours.wire, line::body));
    painter->setBrush(colours.canvas);
    for (const QPointF& terminal : m_terminals) {
        paintFlag(*painter, FlagKind::terminal, terminal);
    }
}

NetNameItem::NetNameItem() {
    setZValue(layer::bracket);
    setVisible(false);
}

void NetNameItem::show(const QString& name, const QPointF& pointer, const QRectF& sheet, double scale) {
    prepareGeometryChange();
    m_name = name;
    m_font = Theme::current().font(TextRole::caption, true);
    m_font.setPixelSize(qRound(m_font.pixelSize() * scale / Theme::current().textScale()));
    const QFontMetricsF metrics(m_font);
    m_box = nearby(pointer, {metrics.horizontalAdvance(name) + 8, metrics.height() + 4}, sheet, 10.0);
    setVisible(true);
    update();
}

void NetNameItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    const ThemeColours& colours = Theme::current().colours();
    painter->fillRect(m_box, colours.canvas);
    painter->setFont(m_font);
    painter->setPen(colours.ink);
    painter->drawText(m_box, Qt::AlignCenter, m_name);
}

FaultItem::FaultItem() {
    setZValue(layer::bracket);
    setVisible(false);
}

void FaultItem::show(const QString& sentence, std::optional<QPointF> place, const Obstacles& drawn) {
    prepareGeometryChange();
    m_sentence = sentence;
    const QRectF& sheet = drawn.sheet;
    const QFontMetricsF metrics(Theme::current().font(TextRole::body, true));
    const QRectF words =
        metrics.boundingRect(QRectF(0, 0, sentenceWidth, sheet.height()), Qt::TextWordWrap | Qt::AlignLeft, sentence);
    const QSizeF size(octagonSide + words.width() + 3 * sentenceMargin + 1,
                      std::max(octagonSide, words.height()) + 2 * sentenceMargin);
    // On empty ground if there is some near: farther off is worse, and so is what it hides.
    const QPointF wanted = place.value_or(QPointF(sheet.center().x(), sheet.top()));
    m_box = nearby(wanted, size, sheet, faultGap);
    double least = std::numeric_limits<double>::infinity();
    for (double x = sheet.left(); x + size.width() <= sheet.right(); x += space::mapPitch) {
        for (double y = sheet.top(); y + size.height() <= sheet.bottom(); y += space::mapPitch) {
            const QRectF box({x + faultGap / 2, y + faultGap / 2}, size);
            const double cost = drawn.covered(box, least) + hiddenPerPixelAway * distanceFrom(box, wanted);
            if (cost < least) {
                m_box = box;
                least = cost;
            }
        }
    }
    setVisible(true);
    update();
}

void FaultItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    const ThemeColours& colours = Theme::current().colours();
    painter->setRenderHint(QPainter::Antialiasing, false);
    painter->setPen(QPen(colours.stop, line::wire));
    painter->setBrush(colours.stopSoft);
    painter->drawRect(m_box);
    const QPointF sign = m_box.topLeft() + QPointF(sentenceMargin, sentenceMargin);
    paintStopSign(*painter, {sign, QSizeF(octagonSide, octagonSide)});
    painter->setPen(colours.stop);
    painter->setFont(Theme::current().font(TextRole::body, true));
    const QRectF words = m_box.adjusted(octagonSide + 2 * sentenceMargin, sentenceMargin, -sentenceMargin, 0);
    painter->drawText(words, Qt::TextWordWrap | Qt::AlignLeft, m_sentence);
}

}  // namespace ohmwright
