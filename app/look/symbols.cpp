// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/symbols.h"

#include "app/look/theme.h"
#include "core/drawing/outline.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

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
    const double wiper = std::floor(length / 2 / pitch) * pitch;  // on the grid (core/drawing/outline.h)
    addArrowHead(symbol.solid, {wiper, tip}, {0, -1}, 8);
    addLine(symbol.leads, {wiper, pitch}, {wiper, tip + 7});
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

/// Gate at the middle of the channel; its arrow points at an n channel and away from a p channel.
Symbol jfetSymbol(bool pChannel) {
    Symbol symbol;
    constexpr double channelX = 20.0;
    constexpr double legY = 12.0;
    addLine(symbol.plates, {channelX, -18}, {channelX, 18});
    addLine(symbol.leads, {0, 0}, {channelX, 0});
    for (const double side : {-1.0, 1.0}) {
        addLine(symbol.body, {channelX, side * legY}, {40, side * legY});
        addLine(symbol.leads, {40, side * legY}, {40, side * 40});
    }
    if (pChannel) {
        addArrowHead(symbol.solid, {7, 0}, {-1, 0}, 10);
    } else {
        addArrowHead(symbol.solid, {17, 0}, {1, 0}, 10);
    }
    symbol.bodyBox = {channelX, -20, 20, 40};
    return symbol;
}

/// Channel of three pieces (enhancement), bulk at its middle with the arrow of the junction there.
Symbol mosfetSymbol(bool pChannel) {
    Symbol symbol;
    constexpr double gateX = 14.0;
    constexpr double channelX = 21.0;
    constexpr double legY = 14.0;
    addLine(symbol.leads, {0, 0}, {gateX, 0});
    addLine(symbol.body, {gateX, -legY}, {gateX, legY});
    for (const double y : {-legY, 0.0, legY}) {
        addLine(symbol.plates, {channelX, y - 5}, {channelX, y + 5});
    }
    for (const double side : {-1.0, 1.0}) {
        addLine(symbol.body, {channelX, side * legY}, {40, side * legY});
        addLine(symbol.leads, {40, side * legY}, {40, side * 40});
    }
    addLine(symbol.leads, {channelX, 0}, {60, 0});
    if (pChannel) {
        addArrowHead(symbol.solid, {36, 0}, {1, 0}, 10);
    } else {
        addArrowHead(symbol.solid, {channelX + 3, 0}, {-1, 0}, 10);
    }
    symbol.bodyBox = {gateX, -20, 26, 40};
    return symbol;
}

/// A grid is a row of dashes across the valve.
void addGrid(QPainterPath& path, double y) {
    for (const double x : {28.0, 37.0, 46.0}) {
        addLine(path, {x, y}, {x + 6, y});
    }
}

/// The bulb with anode above and cathode below; `anodeY` and `cathodeY` are where they stand in it. Leads inside the
/// bulb belong to the body, which is drawn over its filling.
Symbol valveSymbol(double radius, double anodeY, double cathodeY) {
    Symbol symbol;
    symbol.outline.addEllipse(QPointF(40, 0), radius, radius);
    addLine(symbol.plates, {30, anodeY}, {50, anodeY});
    addLine(symbol.leads, {40, -40}, {40, -radius});
    addLine(symbol.body, {40, -radius}, {40, anodeY});
    addLine(symbol.body, {31, cathodeY}, {49, cathodeY});
    addLine(symbol.body, {40, cathodeY}, {40, radius});
    addLine(symbol.leads, {40, radius}, {40, 40});
    symbol.bodyBox = {40 - radius, -radius, 2 * radius, 2 * radius};
    return symbol;
}

Symbol triodeSymbol() {
    Symbol symbol = valveSymbol(22, -11, 11);
    addGrid(symbol.body, 0);
    addLine(symbol.leads, {0, 0}, {18, 0});
    addLine(symbol.body, {18, 0}, {28, 0});
    return symbol;
}

/// Screen above the control grid, its lead from the right; the suppressor is joined to the cathode inside.
Symbol pentodeSymbol() {
    Symbol symbol = valveSymbol(25, -16, 15);
    addGrid(symbol.body, 6);
    addGrid(symbol.body, -2);
    addGrid(symbol.body, -9);
    addLine(symbol.leads, {0, 0}, {15, 0});
    symbol.body.moveTo(15, 0);
    symbol.body.lineTo(21, 0);
    symbol.body.lineTo(21, 6);
    symbol.body.lineTo(28, 6);
    addLine(symbol.leads, {65, 0}, {80, 0});
    symbol.body.moveTo(65, 0);
    symbol.body.lineTo(59, 0);
    symbol.body.lineTo(59, -2);
    symbol.body.lineTo(52, -2);
    return symbol;
}

Symbol switchSymbol(double length, bool closed) {
    Symbol symbol;
    constexpr double gap = 28.0;
    constexpr double dot = 2.5;
    const double left = (length - gap) / 2;
    const double right = left + gap;
    for (const double x : {left, right}) {
        symbol.solid.addEllipse(QPointF(x, 0), dot, dot);
    }
    addLine(symbol.body, {left, 0}, closed ? QPointF(right, 0) : QPointF(right - 3, -13));
    symbol.bodyBox = {left, -13, gap, 16};
    addLeads(symbol, length, gap);
    return symbol;
}

/// The core that two windings share: no pins, no leads.
Symbol couplingSymbol(double length) {
    Symbol symbol;
    for (const double side : {-3.0, 3.0}) {
        addLine(symbol.plates, {length / 2 + side, -14}, {length / 2 + side, 14});
    }
    symbol.bodyBox = {length / 2 - 5, -14, 10, 28};
    return symbol;
}

enum class SourceQuantity { voltage, current };

/// Plus and minus at the pins, or an arrow from the first pin to the second.
void addQuantity(Symbol& symbol, double x, double reach, SourceQuantity quantity) {
    if (quantity == SourceQuantity::current) {
        addLine(symbol.body, {x - reach, 0}, {x + reach - 6, 0});
        addArrowHead(symbol.solid, {x + reach + 1, 0}, {1, 0}, 9);
        return;
    }
    constexpr double arm = 3.0;
    const double plus = x - reach + arm;
    const double minus = x + reach - arm;
    addLine(symbol.body, {plus - arm, 0}, {plus + arm, 0});
    addLine(symbol.body, {plus, -arm}, {plus, arm});
    // Across the leads, so that it reads as a minus beside an upright source, too.
    addLine(symbol.body, {minus, -arm}, {minus, arm});
}

/// IEC 60617 draws a controlled source as a diamond. `sensed`: the pins that feel a voltage, without a lead between.
Symbol controlledSymbol(double length, SourceQuantity quantity, bool sensed) {
    Symbol symbol;
    const double r = std::min(16.0, length / 2 - 4);
    const double x = length / 2;
    symbol.outline.moveTo(x - r, 0);
    symbol.outline.lineTo(x, -r);
    symbol.outline.lineTo(x + r, 0);
    symbol.outline.lineTo(x, r);
    symbol.outline.closeSubpath();
    addQuantity(symbol, x, r - 6, quantity);
    addLeads(symbol, length, 2 * r);
    if (sensed) {
        for (const double end : {0.0, length}) {
            const double inwards = end == 0.0 ? 14.0 : -14.0;
            addLine(symbol.leads, {end, 2 * pitch}, {end + inwards, 2 * pitch});
            symbol.body.addEllipse(QPointF(end + inwards * 1.2, 2 * pitch), 2.5, 2.5);
        }
    }
    symbol.bodyBox = {x - r, -r, 2 * r, 2 * r};
    return symbol;
}

/// A square: a function of the circuit, as block diagrams draw one.
Symbol behaviouralSymbol(double length, SourceQuantity quantity) {
    Symbol symbol;
    const double r = std::min(14.0, length / 2 - 4);
    symbol.bodyBox = {length / 2 - r, -r, 2 * r, 2 * r};
    symbol.outline.addRect(symbol.bodyBox);
    addQuantity(symbol, length / 2, r - 4, quantity);
    addLeads(symbol, length, 2 * r);
    return symbol;
}

/// What a symbol says beyond its kind.
struct Detail {
    bool isMinus = false;    ///< pnp or a p channel
    bool isBattery = false;  ///< of a voltage source
    bool isClosed = false;   ///< of a switch
};

Symbol makeSymbol(PartKind kind, int span, SymbolStandard standard, const Detail& detail) {
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
            return bipolarSymbol(detail.isMinus);
        case PartKind::opamp:
            return opampSymbol();
        case PartKind::voltageSource:
            return detail.isBattery ? batterySymbol(length) : signalSourceSymbol(length);
        case PartKind::currentSource:
            return currentSourceSymbol(length);
        case PartKind::jfet:
            return jfetSymbol(detail.isMinus);
        case PartKind::mosfet:
            return mosfetSymbol(detail.isMinus);
        case PartKind::triode:
            return triodeSymbol();
        case PartKind::pentode:
            return pentodeSymbol();
        case PartKind::switchContact:
            return switchSymbol(length, detail.isClosed);
        case PartKind::coupling:
            return couplingSymbol(length);
        case PartKind::voltageControlledVoltage:
            return controlledSymbol(length, SourceQuantity::voltage, true);
        case PartKind::voltageControlledCurrent:
            return controlledSymbol(length, SourceQuantity::current, true);
        case PartKind::currentControlledCurrent:
            return controlledSymbol(length, SourceQuantity::current, false);
        case PartKind::currentControlledVoltage:
            return controlledSymbol(length, SourceQuantity::voltage, false);
        case PartKind::behaviouralVoltage:
            return behaviouralSymbol(length, SourceQuantity::voltage);
        case PartKind::behaviouralCurrent:
            return behaviouralSymbol(length, SourceQuantity::current);
    }
    return {};
}

SymbolStandard chosenStandard = SymbolStandard::iec60617;

}  // namespace

SymbolStandard symbolStandard() {
    return chosenStandard;
}

void setSymbolStandard(SymbolStandard standard) {
    chosenStandard = standard;
}

Symbol symbolOf(PartKind kind, int span) {
    return makeSymbol(kind, span, SymbolStandard::iec60617, {});
}

Symbol symbolOf(const Part& part, SymbolStandard standard, bool pnp) {
    const int span = part.placement ? part.placement->span : Placement{}.span;
    const bool battery = part.kind == PartKind::voltageSource && part.acAmplitude == 0.0;
    const bool closed = part.kind == PartKind::switchContact && part.value != 0.0;
    return makeSymbol(part.kind, span, standard, {pnp, battery, closed});
}

QTransform placementTransform(const Placement& placement) {
    // Whole numbers, so that pins stay exactly on the grid.
    constexpr std::array<std::array<double, 4>, 4> turns{{{1, 0, 0, 1}, {0, 1, -1, 0}, {-1, 0, 0, -1}, {0, -1, 1, 0}}};
    const auto& turn = turns[static_cast<std::size_t>(placement.quarterTurns & 3)];
    const QTransform mirror(1, 0, 0, placement.mirrored ? -1 : 1, 0, 0);
    return mirror * QTransform(turn[0], turn[1], turn[2], turn[3], placement.at.x * pitch, placement.at.y * pitch);
}

QPointF pinPosition(const Part& part, int pin) {
    const GridPoint at = pinPoint(part, pin);
    return {at.x * pitch, at.y * pitch};
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
