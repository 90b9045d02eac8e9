// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/outline.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <utility>

namespace ohmwright {
namespace {

/// Whole numbers, so that pins stay exactly on the grid: the images of (1,0) and (0,1) after clockwise quarter turns.
struct Turn {
    int xx, xy, yx, yy;
};
constexpr std::array<Turn, 4> turns{{{1, 0, 0, 1}, {0, 1, -1, 0}, {-1, 0, 0, -1}, {0, -1, 1, 0}}};

template <class Number>
std::pair<Number, Number> turned(const Placement& placement, Number x, Number y) {
    const Turn& turn = turns[static_cast<std::size_t>(placement.quarterTurns & 3)];
    const Number across = placement.mirrored ? -y : y;
    return {x * turn.xx + across * turn.yx, x * turn.xy + across * turn.yy};
}

int spanOf(const Part& part) {
    return std::max(1, part.placement ? part.placement->span : Placement{}.span);
}

/// A body along the axis of a two-pin part, centred; shorter where the pins are near.
GridBox centred(double span, double length, double halfHeight) {
    const double body = std::min(length, span - 0.4);
    return {(span - body) / 2, -halfHeight, (span + body) / 2, halfHeight};
}

GridBox round(double span, double radius) {
    const double r = std::min(radius, span / 2 - 0.2);
    return {span / 2 - r, -r, span / 2 + r, r};
}

/// Sizes of the symbols in grid steps of 20 px; tests/app/look/symbols_test.cpp holds both to each other.
GridBox bodyInOwnFrame(const Part& part) {
    const double span = spanOf(part);
    const bool isBattery = part.kind == PartKind::voltageSource && part.acAmplitude == 0.0;
    switch (isBattery ? PartKind::capacitor : part.kind) {  // a battery has two plates as well
        case PartKind::resistor:
        case PartKind::potentiometer:
            return centred(span, 1.6, 0.325);
        case PartKind::capacitor:
            return {span / 2 - 0.2, -0.6, span / 2 + 0.2, 0.6};
        case PartKind::inductor: {
            const double body = std::min(2.0, span - 0.4);
            return {(span - body) / 2, -body / 8, (span + body) / 2, body / 8};
        }
        case PartKind::link:
            return centred(span, span - 0.8, 0.2);
        case PartKind::diode:
            return {span / 2 - 0.45, -0.45, span / 2 + 0.45, 0.45};
        case PartKind::bipolar:
            return {1.0, -1.15, 2.0, 1.15};
        case PartKind::opamp:
            return {0.75, -0.9, 4.25, 2.9};
        case PartKind::voltageSource:
        case PartKind::currentSource:
            return round(span, 0.7);
        case PartKind::jfet:
            return {1.0, -1.0, 2.0, 1.0};
        case PartKind::mosfet:
            return {0.7, -1.0, 2.0, 1.0};
        case PartKind::triode:
            return {0.9, -1.1, 3.1, 1.1};
        case PartKind::pentode:
            return {0.75, -1.25, 3.25, 1.25};
        case PartKind::switchContact:
            return {span / 2 - 0.7, -0.65, span / 2 + 0.7, 0.15};
        case PartKind::coupling:
            return {span / 2 - 0.25, -0.7, span / 2 + 0.25, 0.7};
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
        case PartKind::currentControlledCurrent:
        case PartKind::currentControlledVoltage:
            return round(span, 0.8);
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
            return round(span, 0.7);
    }
    return {};
}

}  // namespace

int drawnPinCount(PartKind kind) {
    return kind == PartKind::opamp ? 3 : pinCount(kind);
}

bool isUpright(const Placement& placement) {
    return (placement.quarterTurns & 1) != 0;
}

GridPoint onDrawing(const Placement& placement, GridPoint inOwnFrame) {
    const auto [x, y] = turned(placement, inOwnFrame.x, inOwnFrame.y);
    return {placement.at.x + x, placement.at.y + y};
}

GridPoint pinInOwnFrame(PartKind kind, int span, int pin) {
    const int length = std::max(span, 1);
    const auto chosen = [pin](std::initializer_list<GridPoint> points) {
        const auto last = static_cast<int>(points.size()) - 1;
        return *(points.begin() + std::clamp(pin, 0, last));
    };
    switch (kind) {
        case PartKind::potentiometer:
            return chosen({{0, 0}, {length / 2, 1}, {length, 0}});
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::triode:
            return chosen({{2, -2}, {0, 0}, {2, 2}});
        case PartKind::opamp:
            return chosen({{0, 0}, {0, 2}, {5, 1}, {2, -1}, {2, 3}});
        case PartKind::mosfet:
            return chosen({{2, -2}, {0, 0}, {2, 2}, {3, 0}});
        case PartKind::pentode:
            return chosen({{2, -2}, {4, 0}, {0, 0}, {2, 2}});
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
            return chosen({{0, 0}, {length, 0}, {0, 2}, {length, 2}});
        default:
            return chosen({{0, 0}, {length, 0}});
    }
}

GridPoint pinPoint(const Part& part, int pin) {
    return onDrawing(part.placement.value_or(Placement{}), pinInOwnFrame(part.kind, spanOf(part), pin));
}

std::optional<DrawnPin> pinAt(const Circuit& circuit, GridPoint point) {
    for (const Part& part : circuit.parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            if (pinPoint(part, pin) == point) {
                return DrawnPin{&part, pin};
            }
        }
    }
    return std::nullopt;
}

GridBox bodyBox(const Part& part) {
    const Placement placement = part.placement.value_or(Placement{});
    const GridBox own = bodyInOwnFrame(part);
    const auto [ax, ay] = turned(placement, own.left, own.top);
    const auto [bx, by] = turned(placement, own.right, own.bottom);
    return {placement.at.x + std::min(ax, bx), placement.at.y + std::min(ay, by), placement.at.x + std::max(ax, bx),
            placement.at.y + std::max(ay, by)};
}

}  // namespace ohmwright
