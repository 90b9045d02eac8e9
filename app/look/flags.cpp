// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/flags.h"

#include <QPainter>

#include <array>

namespace ohmwright {
namespace {

constexpr double stub = 6.0;
constexpr double supplyBar = 16.0;
constexpr std::array<double, 3> groundBars{18.0, 11.0, 4.0};
constexpr double groundBarGap = 4.0;
constexpr double terminalRadius = 4.5;  // tokens map.terminalRadius

void paintBar(QPainter& painter, const QPointF& middle, double width) {
    painter.drawLine(middle - QPointF(width / 2, 0), middle + QPointF(width / 2, 0));
}

}  // namespace

void paintFlag(QPainter& painter, FlagKind kind, const QPointF& at) {
    switch (kind) {
        case FlagKind::ground: {
            painter.drawLine(at, at + QPointF(0, stub));
            double down = stub;
            for (const double width : groundBars) {
                paintBar(painter, at + QPointF(0, down), width);
                down += groundBarGap;
            }
            break;
        }
        case FlagKind::supply:
            painter.drawLine(at, at - QPointF(0, stub));
            paintBar(painter, at - QPointF(0, stub), supplyBar);
            break;
        case FlagKind::terminal:
            painter.drawEllipse(at, terminalRadius, terminalRadius);
            break;
        case FlagKind::note:
            break;
    }
}

}  // namespace ohmwright
