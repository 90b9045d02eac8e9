// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/sheet.h"

#include "core/drawing/outline.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

/// Room at the sheet's edges, in grid steps: for words, and for wires along the rim.
constexpr int rightMargin = 1;
constexpr int bottomMargin = 1;

void shift(Circuit& drawn, int dx, int dy) {
    const auto move = [dx, dy](GridPoint& point) {
        point.x += dx;
        point.y += dy;
    };
    for (Part& part : drawn.parts) {
        if (part.placement) {
            move(part.placement->at);
        }
    }
    for (Wire& wire : drawn.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), move);
    }
    for (Flag& flag : drawn.drawing.flags) {
        move(flag.at);
    }
    for (Stage& stage : drawn.stages) {
        stage.firstColumn += stage.firstColumn > 0 ? dx : 0;
    }
    for (Field& field : drawn.drawing.fields) {
        move(field.topLeft);
        move(field.bottomRight);
    }
}

}  // namespace

int fitSheet(Circuit& drawn, int top) {
    GridPoint low{std::numeric_limits<int>::max(), std::numeric_limits<int>::max()};
    GridPoint high{0, 0};
    const auto reach = [&](GridPoint point) {
        low = {std::min(low.x, point.x), std::min(low.y, point.y)};
        high = {std::max(high.x, point.x), std::max(high.y, point.y)};
    };
    for (const Wire& wire : drawn.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), reach);
    }
    for (const Flag& flag : drawn.drawing.flags) {
        reach(flag.at);
    }
    for (const Field& field : drawn.drawing.fields) {
        reach(field.topLeft);
        reach(field.bottomRight);
    }
    for (const Part& part : drawn.parts) {
        if (part.placement) {
            const GridBox box = bodyBox(part);
            reach({static_cast<int>(std::floor(box.left)), static_cast<int>(std::floor(box.top))});
            reach({static_cast<int>(std::ceil(box.right)), static_cast<int>(std::ceil(box.bottom))});
        }
    }
    const int dx = std::max(0, -low.x);
    const int dy = std::max(0, top - low.y);
    shift(drawn, dx, dy);
    drawn.drawing.size = {high.x + dx + rightMargin, high.y + dy + bottomMargin};
    return dx;
}

}  // namespace ohmwright
