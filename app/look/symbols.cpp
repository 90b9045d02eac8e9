// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/symbols.h"

#include "app/look/theme.h"

#include <QPainter>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
// Sizes from tokens.json `map` [px].
constexpr double resistorLength = 32.0;
constexpr double resistorHeight = 13.0;
constexpr double plateGap = 8.0;
constexpr double plateLength = 24.0;
constexpr double diodeSide = 18.0;
constexpr double opampWidth = 70.0;
constexpr double opampHeight = 76.0;
constexpr double sourceRadius = 14.0;

void addLine(QPainterPath& path, const QPointF& from, const QPointF& to) {
    path.moveTo(from);
    path.lineTo(to);
}

/// Leads from both pins to a body that is `bodyLength` long and centred.
void addLeads(Symbol& symbol, double length, double bodyLength) {
    addLine(symbol.leads, {0, 0}, {(length - bodyLength) / 2, 0});
    addLine(symbol.leads, {(length + bodyLength) / 2, 0}, {length, 0});
}

/// A body shorter than its pins are apart, whatever the span.
double fitted(double wanted, double length) {
    return std::min(wanted, length - 8.0);
}

/// Filled arrow head with its point at `tip`, pointing along `direction` (a unit vector).
void addArrowHead(QPainterPath& path, const QPointF& tip, const QPointF& direction, double size) {
    const QPointF across(-direction.y(), direction.x());
    const QPointF back = tip - direction * size;
    path.moveTo(tip);
    path.lineTo(back + across * (size * 0.48));
    path.lineTo(back - across * (size * 0.48));
    path.closeSubpath();
}

void addZigzag(Symbol& symbol, double length, double bodyLength) {
    const double start = (length - bodyLength) / 2;
    const double step = bodyLength / 12;
    symbol.body.moveTo(start, 0);
    for (int peak = 0; peak < 6; ++peak) {
        symbol.body.lineTo(start + step * (2 * peak + 1), peak % 2 == 0 ? -resistorHeight / 2 : resistorHeight / 2);
    }
    symbol.body.lineTo(start + bodyLength, 0);
}

Symbol resistorSymbol(double length, SymbolStandard standard) {
    Symbol symbol;
    const double body = fitted(resistorLength, length);
    symbol.bodyBox = {(length - body) / 2, -resistorHeight / 2, body, resistorHeight};
    if (standard == SymbolStandard::ieee315) {
        addZigzag(symbol, length, body);
    } else {
        symbol.outline.addRect(symbol.bodyBox);
    }
    addLeads(symbol, length, body);
    return symbol;
}

Symbol potentiometerSymbol(double length, SymbolStandard standard) {
    Symbol symbol = resistorSymbol(length, standard);
    const double tip = resistorHeight / 2 + line::body / 2;
    addArrowHead(symbol.solid, {length / 2, tip}, {0, -1}, 8);
    addLine(symbol.leads, {length / 2, pitch}, {length / 2, tip + 7});
    return symbol;
}

Symbol capacitorSymbol(double length) {
    Symbol symbol;
    for (const double side : {-0.5, 0.5}) {
        const double x = length / 2 + side * plateGap;
        addLine(symbol.plates, {x, -plateLength / 2}, {x, plateLength / 2});
    }
    symbol.bodyBox = {(length - plateGap) / 2, -plateLength / 2, plateGap, plateLength};
    addLeads(symbol, length, plateGap);
    return symbol;
}

Symbol inductorSymbol(double length) {
    Symbol symbol;
    const double body = fitted(40.0, length);
    const double turn = body / 4;
    double x = (length - body) / 2;
    symbol.body.moveTo(x, 0);
    for (int arc = 0; arc < 4; ++arc, x += turn) {
        symbol.body.arcTo(QRectF(x, -turn / 2, turn, turn), 180, -180);
    }
    symbol.bodyBox = {(length - body) / 2, -turn / 2, body, turn};
    addLeads(symbol, length, body);
    return symbol;
}

Symbol linkSymbol(double length) {
    Symbol symbol;
    const double body = fitted(length - 16.0, length);
    addLine(symbol.plates, {(length - body) / 2, 0}, {(length + body) / 2, 0});
    symbol.bodyBox = {(length - body) / 2, -4, body, 8};
    addLeads(symbol, length, body);
    return symbol;
}

Symbol diodeSymbol(double length) {
    Symbol symbol;
    const double left = (length - diodeSide) / 2;
    const double right = left + diodeSide;
    symbol.outline.moveTo(left, -diodeSide / 2);
    symbol.outline.lineTo(right, 0);
    symbol.outline.lineTo(left, diodeSide / 2);
    symbol.outline.closeSubpath();
    addLine(symbol.plates, {right, -diodeSide / 2}, {right, diodeSide / 2});
    symbol.bodyBox = {left, -diodeSide / 2, diodeSide, diodeSide};
    addLeads(symbol, length, diodeSide);
    return symbol;
}

Symbol bipolarSymbol(bool pnp) {
    Symbol symbol;
    constexpr double barX = 20.0;
    addLine(symbol.leads, {0, 0}, {barX, 0});
    addLine(symbol.leads, {40, -23}, {40, -40});
    addLine(symbol.leads, {40, 23}, {40, 40});
    addLine(symbol.plates, {barX, -16}, {barX, 16});
    const QPointF inner(barX, 7);
    const QPointF outer(40, 23);
    addLine(symbol.body, {barX, -7}, {40, -23});
    addLine(symbol.body, inner, outer);
    const QPointF along = (outer - inner) / 25.612;  // length of the emitter leg
    if (pnp) {
        addArrowHead(symbol.solid, inner + along * 3, -along, 10);
    } else {
        addArrowHead(symbol.solid, outer - along * 2, along, 10);
    }
    symbol.bodyBox = {barX, -23, 20, 46};
    return symbol;
}

Symbol opampSymbol() {
    Symbol symbol;
    constexpr double left = 15.0;
    constexpr double middle = 20.0;
    symbol.outline.moveTo(left, middle - opampHeight / 2);
    symbol.outline.lineTo(left + opampWidth, middle);
    symbol.outline.lineTo(left, middle + opampHeight / 2);
    symbol.outline.closeSubpath();
    constexpr double markX = left + 13.0;
    constexpr double arm = 4.5;
    addLine(symbol.body, {markX - arm, 0}, {markX + arm, 0});
    addLine(symbol.body, {markX, -arm}, {markX, arm});
    addLine(symbol.body, {markX - arm, 40}, {markX + arm, 40});
    addLine(symbol.leads, {0, 0}, {left, 0});
    addLine(symbol.leads, {0, 40}, {left, 40});
    addLine(symbol.leads, {left + opampWidth, middle}, {100, middle});
    symbol.bodyBox = {left, middle - opampHeight / 2, opampWidth, opampHeight};
    return symbol;
}

Symbol roundSource(double length) {
    Symbol symbol;
    const double r = std::min(sourceRadius, length / 2 - 4);
    symbol.outline.addEllipse(QPointF(length / 2, 0), r, r);
    symbol.bodyBox = {length / 2 - r, -r, 2 * r, 2 * r};
    addLeads(symbol, length, 2 * r);
    return symbol;
}

Symbol signalSourceSymbol(double length) {
    Symbol symbol = roundSource(length);
    // The wave runs across the leads, so that it lies level in the usual upright source.
    const double x = length / 2;
    symbol.body.moveTo(x, -8);
    symbol.body.cubicTo({x + 8, -5.5}, {x + 8, -2}, {x, 0});
    symbol.body.cubicTo({x - 8, 2}, {x - 8, 5.5}, {x, 8});
    return symbol;
}

Symbol currentSourceSymbol(double length) {
    Symbol symbol = roundSource(length);
    const double x = length / 2;
    addLine(symbol.body, {x - 9, 0}, {x + 3, 0});
    addArrowHead(symbol.solid, {x + 10, 0}, {1, 0}, 9);
    return symbol;
}

Symbol batterySymbol(double length) {
    Symbol symbol;
    const double plus = (length - plateGap) / 2;
    const double minus = plus + plateGap;
    addLine(symbol.body, {plus, -plateLength / 2}, {plus, plateLength / 2});
    symbol.solid.addRect(minus - 2, -plateLength / 4, 4, plateLength / 2);
    // Plus sign beside the long plate, on the side of pin 1.
    addLine(symbol.body, {plus - 9, -10.5}, {plus - 3, -10.5});
    addLine(symbol.body, {plus - 6, -13.5}, {plus - 6, -7.5});
    symbol.bodyBox = {plus, -plateLength / 2, plateGap, plateLength};
    addLeads(symbol, length, plateGap);
    return symbol;
}

Symbol makeSymbol(PartKind kind, int span, SymbolStandard standard, bool pnp, bool battery) {
    const double length = std::max(span, 1) * pitch;
    switch (kind) {
        case PartKind::resistor:
            return resistorSymbol(length, standard);
        case PartKind::capacitor:
            return capacitorSymbol(length);
        case PartKind::inductor:
            return inductorSymbol(length);
        case PartKind::potentiometer:
            return potentiometerSymbol(length, standard);
        case PartKind::link:
            return linkSymbol(length);
        case PartKind::diode:
            return diodeSymbol(length);
        case PartKind::bipolar:
            return bipolarSymbol(pnp);
        case PartKind::opamp:
            return opampSymbol();
        case PartKind::voltageSource:
            return battery ? batterySymbol(length) : signalSourceSymbol(length);
        case PartKind::currentSource:
            return currentSourceSymbol(length);
    }
    return {};
}

QPointF pinInOwnFrame(PartKind kind, int span, int pin) {
    const double length = std::max(span, 1) * pitch;
    const auto chosen = [pin](std::initializer_list<QPointF> points) {
        const auto last = static_cast<int>(points.size()) - 1;
        return *(points.begin() + std::clamp(pin, 0, last));
    };
    switch (kind) {
        case PartKind::potentiometer:
            return chosen({{0, 0}, {length / 2, pitch}, {length, 0}});
        case PartKind::bipolar:
            return chosen({{40, -40}, {0, 0}, {40, 40}});
        case PartKind::opamp:
            return chosen({{0, 0}, {0, 40}, {100, 20}, {40, -20}, {40, 60}});
        default:
            return chosen({{0, 0}, {length, 0}});
    }
}

}  // namespace

Symbol symbolOf(PartKind kind, int span) {
    return makeSymbol(kind, span, SymbolStandard::iec60617, false, false);
}

Symbol symbolOf(const Part& part, SymbolStandard standard, bool pnp) {
    const int span = part.placement ? part.placement->span : Placement{}.span;
    const bool battery = part.kind == PartKind::voltageSource && part.acAmplitude == 0.0;
    return makeSymbol(part.kind, span, standard, pnp, battery);
}

QTransform placementTransform(const Placement& placement) {
    // Whole numbers, so that pins stay exactly on the grid.
    constexpr std::array<std::array<double, 4>, 4> turns{{{1, 0, 0, 1}, {0, 1, -1, 0}, {-1, 0, 0, -1}, {0, -1, 1, 0}}};
    const auto& turn = turns[static_cast<std::size_t>(placement.quarterTurns & 3)];
    const QTransform mirror(1, 0, 0, placement.mirrored ? -1 : 1, 0, 0);
    return mirror * QTransform(turn[0], turn[1], turn[2], turn[3], placement.at.x * pitch, placement.at.y * pitch);
}

QPointF pinPosition(const Part& part, int pin) {
    const Placement placement = part.placement.value_or(Placement{});
    return placementTransform(placement).map(pinInOwnFrame(part.kind, placement.span, pin));
}

void paintSymbol(QPainter& painter, const Symbol& symbol, const SymbolInk& ink) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const auto pen = [](const QColor& colour, double width) {
        return QPen(colour, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
    };
    painter.setBrush(Qt::NoBrush);
    painter.setPen(pen(ink.leads, line::wire));
    painter.drawPath(symbol.leads);
    painter.setPen(pen(ink.ink, ink.changed ? line::bodyChanged : line::body));
    painter.setBrush(ink.fill);
    painter.drawPath(symbol.outline);
    painter.setBrush(Qt::NoBrush);
    QPen openPen = painter.pen();
    openPen.setJoinStyle(Qt::RoundJoin);  // no spikes between the arcs of a coil
    painter.setPen(openPen);
    painter.drawPath(symbol.body);
    painter.setPen(pen(ink.ink, ink.changed ? line::capPlateChanged : line::capPlate));
    painter.drawPath(symbol.plates);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink.ink);
    painter.drawPath(symbol.solid);
    painter.restore();
}

}  // namespace ohmwright
