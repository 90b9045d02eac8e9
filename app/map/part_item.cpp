// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_item.h"

#include "app/look/painters.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {
namespace {

constexpr double plusArm = 4.0;
constexpr double plusWidth = 1.8;
constexpr double ringRadius = 2.8;
constexpr double barWidth = 5.0;
constexpr double innerTextPixels = 13.0;
constexpr double largestInnerGrowth = 1.25;
constexpr double bracketGap = 3.0;
constexpr double changedBracketGap = 8.0;
constexpr double smallestBracket = 40.0;
constexpr double boundsMargin = 24.0;

}  // namespace

PartItem::PartItem(DrawnPart part, double textScale) : m_part(std::move(part)), m_textScale(textScale) {
    setZValue(layer::body);
    m_bounds = m_part.body;
    for (const QPointF& pin : m_part.pins) {
        m_bounds = m_bounds.united(QRectF(pin, QSizeF(1, 1)));
    }
    m_bounds.adjust(-boundsMargin, -boundsMargin, boundsMargin, boundsMargin);
}

void PartItem::setFaulty(bool faulty) {
    if (m_isFaulty != faulty) {
        m_isFaulty = faulty;
        update();
    }
}

void PartItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    painter->setRenderHint(QPainter::Antialiasing);
    paintSymbols(*painter);
    paintFittings(*painter);
    paintGaps(*painter);
    paintPlus(*painter);
    paintInnerText(*painter);
}

void PartItem::paintSymbols(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    for (const DrawnSymbol& drawn : m_part.symbols) {
        SymbolInk ink{colours.ink, colours.wire, colours.canvas, drawn.isPlanned};
        if (drawn.isPlanned) {
            ink.ink = colours.now;
        }
        if (m_isFaulty) {
            ink.ink = colours.stop;
        }
        painter.save();
        painter.setTransform(drawn.place, true);
        paintSymbol(painter, drawn.symbol, ink);
        painter.restore();
    }
}

void PartItem::paintFittings(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    painter.setPen(QPen(colours.now, line::wire));
    painter.drawLines(QList<QLineF>(m_part.fittedLeads.begin(), m_part.fittedLeads.end()));
    painter.drawLines(QList<QLineF>(m_part.bridgeLeads.begin(), m_part.bridgeLeads.end()));
    painter.setPen(QPen(colours.now, barWidth, Qt::SolidLine, Qt::RoundCap));
    painter.drawLines(QList<QLineF>(m_part.bridges.begin(), m_part.bridges.end()));
}

void PartItem::paintGaps(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    for (const QLineF& gap : m_part.gaps) {
        painter.setPen(QPen(colours.canvas, 2 * ringRadius, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(gap);
        painter.setPen(QPen(colours.now, line::body));
        painter.setBrush(colours.canvas);
        painter.drawEllipse(gap.p1(), ringRadius, ringRadius);
        painter.drawEllipse(gap.p2(), ringRadius, ringRadius);
    }
}

void PartItem::paintPlus(QPainter& painter) const {
    if (!m_part.plus) {
        return;
    }
    painter.setPen(QPen(Theme::current().colours().ink, plusWidth, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(*m_part.plus - QPointF(plusArm, 0), *m_part.plus + QPointF(plusArm, 0));
    painter.drawLine(*m_part.plus - QPointF(0, plusArm), *m_part.plus + QPointF(0, plusArm));
}

void PartItem::paintInnerText(QPainter& painter) const {
    if (m_part.innerText.isEmpty()) {
        return;
    }
    QFont font = Theme::current().font(TextRole::body, true);
    // The triangle's room does not grow with the text setting: so far its name may.
    font.setPixelSize(qRound(innerTextPixels * std::clamp(m_textScale, 1.0, largestInnerGrowth)));
    const QFontMetricsF metrics(font);
    // The centre of a triangle lies a third from its base; a little more keeps clear of plus and minus.
    const QPointF centre =
        m_part.symbols.front().place.map(m_part.symbols.front().symbol.bodyBox.center() - QPointF(0.5, 0));
    painter.setFont(font);
    painter.setPen(Theme::current().colours().ink);
    painter.drawText(centre + QPointF(-metrics.horizontalAdvance(m_part.innerText) / 2, metrics.capHeight() / 2),
                     m_part.innerText);
}

QRectF bracketBox(const DrawnPart& part) {
    // Across the part its words begin soon; along it only its own leads are near.
    // A coupling has no pins.
    const QPointF along =
        part.pins.empty() ? QPointF(part.body.width(), part.body.height()) : part.pins.back() - part.pins.front();
    const bool isUpright = std::abs(along.y()) > std::abs(along.x());
    const double across = part.view.swapped && isUpright ? changedBracketGap : bracketGap;
    const QRectF& body = part.body;
    const double shortSide = (isUpright ? body.width() : body.height()) + 2 * across;
    const double longSide = std::max((isUpright ? body.height() : body.width()) + 2 * bracketGap, smallestBracket);
    const QSizeF size = isUpright ? QSizeF(shortSide, longSide) : QSizeF(longSide, shortSide);
    return {body.center() - QPointF(size.width() / 2, size.height() / 2), size};
}

BracketItem::BracketItem() {
    setZValue(layer::bracket);
    setVisible(false);
}

void BracketItem::setPart(const DrawnPart& part) {
    prepareGeometryChange();
    m_box = bracketBox(part);
    update();
}

void BracketItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    paintSelectionBrackets(*painter, m_box);
}

}  // namespace ohmwright
