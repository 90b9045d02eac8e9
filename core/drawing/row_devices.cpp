// Devices in a row: which way round they stand, and what hangs at their pins.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/row_builder.h"

#include <algorithm>

namespace ohmwright {
namespace {

/// Pins of a device that stands upright: its control at the left, one end up and one down, at times one at the right.
struct UprightPins {
    std::size_t control, top, bottom;
    std::optional<std::size_t> side;
};

std::optional<UprightPins> uprightPins(PartKind kind) {
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::triode:
            return UprightPins{1, 0, 2, std::nullopt};
        case PartKind::mosfet:
            return UprightPins{1, 0, 2, 3};
        case PartKind::pentode:
            return UprightPins{2, 0, 3, 1};
        default:
            return std::nullopt;
    }
}

}  // namespace

RowCursor RowBuilder::passDevice(const SignalStep& step, RowCursor at) {
    const Part& part = m_input.circuit.parts[step.index];
    m_progress.parts[step.index] = true;
    if (part.kind == PartKind::opamp) {
        return passOpamp(step, at);
    }
    if (part.kind == PartKind::potentiometer) {
        return passPot(step, at);
    }
    if (uprightPins(part.kind)) {
        return passUpright(step, at);
    }
    return passControlled(step, at);
}

void RowBuilder::setPart(std::size_t index, GridPoint at, int quarterTurns, bool mirrored, int span, LabelSide label) {
    m_sketch.parts[index] = {at, quarterTurns, mirrored, span, label};
    Part part = m_input.circuit.parts[index];
    part.placement = m_sketch.parts[index];
    GridBox box = bodyBox(part);
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        const GridPoint point = pinPoint(part, pin);
        box = {std::min(box.left, point.x - 0.4), std::min(box.top, point.y - 0.4), std::max(box.right, point.x + 0.4),
               std::max(box.bottom, point.y + 0.4)};
    }
    m_sketch.taken.push_back(box);
}

void RowBuilder::sign(const NetName& net, GridPoint pin, int dx, int dy) {
    const bool isUp = m_input.rails.isAbove(net);
    GridPoint at = pin;
    if (!(isUp && dy < 0) && !(!isUp && dy > 0)) {
        at.x += dx != 0 ? dx : 1;
        m_sketch.wires.push_back({net, {pin, at}});
    }
    addSign(net, at, isUp);
}

void RowBuilder::addSign(const NetName& net, GridPoint at, bool isUp) {
    m_sketch.flags.push_back(
        {net == groundNet ? FlagKind::ground : FlagKind::supply, net, at, net == groundNet ? "" : signText(net)});
    m_sketch.taken.push_back(isUp ? GridBox{at.x - 0.9, at.y - 1.3, at.x + 0.9, double(at.y)}
                                  : GridBox{at.x - 0.6, double(at.y), at.x + 0.6, at.y + 1.0});
}

RowCursor RowBuilder::secondary(const NetName& net, GridPoint pin, int dx, int dy, int skipped) {
    if (m_input.rails.isRail(net)) {
        sign(net, pin, dx, dy);
        return {pin.x, pin.y, false, false};
    }
    return enter(net, {pin.x, pin.y, dy<0, dy> 0}, skipped);
}

int RowBuilder::upwards(const NetName& net) const {
    if (m_input.rails.isRail(net)) {
        return m_input.rails.isAbove(net) ? 3 : -3;
    }
    return std::min<int>(2, int(hanging(net, true).size())) - std::min<int>(2, int(hanging(net, false).size()));
}

RowCursor RowBuilder::passUpright(const SignalStep& step, RowCursor at) {
    const Part& part = m_input.circuit.parts[step.index];
    const UprightPins pins = *uprightPins(part.kind);
    const bool mirrored = upwards(part.nets[pins.bottom]) > upwards(part.nets[pins.top]);
    const NetName& top = part.nets[mirrored ? pins.bottom : pins.top];
    const NetName& bottom = part.nets[mirrored ? pins.top : pins.bottom];
    const NetName& control = part.nets[pins.control];
    GridPoint base{at.x, at.y};
    if (step.from == control) {
        base.x = std::max(at.x, m_clearOfDevice);
    } else {
        base.y = step.from == bottom ? at.y - 2 : at.y + 2;
        base.x = at.x + 2;
        if (m_input.rails.isRail(control)) {
            sign(control, base, -1, 0);
        } else {
            base.x = enter(control, {base.x, base.y, false, false}).x + 1;
        }
    }
    setPart(step.index, base, 0, mirrored, 3, part.kind == PartKind::bipolar ? LabelSide::automatic : LabelSide::right);
    const int column = base.x + 2;
    const int words = wordColumns(part);
    m_clearOfDevice = column + words;
    m_sketch.taken.push_back({column + 0.2, base.y - 1.6, column + words - 0.2, base.y + 0.6});
    const GridPoint upper{column, base.y - 2};
    const GridPoint lower{column, base.y + 2};
    m_up = m_down = column;
    if (pins.side) {
        passSide(part.nets[*pins.side], {base.x + (part.kind == PartKind::mosfet ? 3 : 4), base.y});
    }
    int right = column;
    if (step.to != bottom || step.from == bottom) {
        right = std::max(right, secondary(bottom, lower, 0, 1, step.to == top ? 1 : 0).x);
    }
    if (step.to != top || step.from == top) {
        m_up = std::max(m_up, column);
        right = std::max(right, secondary(top, upper, 0, -1, step.to == bottom ? -1 : 0).x);
    }
    if (step.to == top) {
        m_down = std::max({m_down, right, column + words - 1});
        return {column, upper.y, true, false};
    }
    m_up = std::max(m_up, column + words - 1);
    return {column, step.to == bottom ? lower.y : base.y, false, true};
}

void RowBuilder::passSide(const NetName& net, GridPoint pin) {
    if (m_input.rails.isRail(net)) {
        sign(net, pin, 1, 0);
    } else if (m_progress.nets.count(net) == 0 && (!hanging(net, true).empty() || !hanging(net, false).empty())) {
        m_up = m_down = pin.x;
        enter(net, {pin.x, pin.y, false, false});
    }
}

RowCursor RowBuilder::passOpamp(const SignalStep& step, const RowCursor& at) {
    const Part& part = m_input.circuit.parts[step.index];
    const bool isInverting = step.from == part.nets[1] && step.from != part.nets[0];
    const NetName& other = part.nets[isInverting ? 0 : 1];
    const int upperY = isInverting ? at.y - 2 : at.y;
    const int otherY = isInverting ? upperY : upperY + 2;
    int left = at.x + 1;
    const bool isSigned = m_input.rails.isRail(other);
    if (!isSigned) {
        m_down = std::max(m_down, left - 1);
        left = enter(other, {left, otherY, false, false}).x;
    }
    const std::vector<std::size_t> rows = feedbackRows(part);
    const int x = left + (rows.empty() && !isSigned ? 1 : 2);
    setPart(step.index, {x, upperY}, 0, false, 5);
    m_sketch.taken.push_back({x + 2.0, upperY - 1.6, x + 5.0, upperY + 0.0});
    if (isSigned) {
        sign(other, {x, otherY}, -1, 0);
    } else if (m_sketch.lines.count(other) > 0) {
        m_sketch.lines[other].right = x;
    }
    int right = x + 6;
    if (!rows.empty()) {
        const int top = upperY + 5;
        const int width = placeRows(rows, part.nets[1], {x, top}, 5);
        right = std::max(right, x + width + 1);
        m_down = right;
    }
    m_up = x + 4;
    m_down = std::max(m_down, x + 5);
    return {right, upperY + 1, false, false};
}

std::vector<std::size_t> RowBuilder::feedbackRows(const Part& part) const {
    std::vector<std::size_t> rows = between(part.nets[1], part.nets[2]);
    const std::vector<std::size_t> positive = between(part.nets[0], part.nets[2]);
    rows.insert(rows.end(), positive.begin(), positive.end());
    return rows;
}

RowCursor RowBuilder::passPot(const SignalStep& step, const RowCursor& at) {
    const Part& part = m_input.circuit.parts[step.index];
    if (step.to == part.nets[1]) {
        return passPotToWiper(step, at);
    }
    if (step.from == part.nets[1]) {
        return passPotFromWiper(step, at);
    }
    const bool reversed = step.from == part.nets[2];
    const int x = at.x + 1;
    constexpr int span = 4;
    setPart(step.index, {x + (reversed ? span : 0), at.y}, reversed ? 2 : 0, reversed, span, LabelSide::above);
    m_down = std::max(m_down, x);
    secondary(part.nets[1], {x + span / 2, at.y + 1}, 0, 1);
    return {x + span, at.y, false, false};
}

RowCursor RowBuilder::passPotToWiper(const SignalStep& step, const RowCursor& at) {
    const Part& part = m_input.circuit.parts[step.index];
    const bool reversed = step.from == part.nets[2];
    const NetName& far = part.nets[reversed ? 0 : 2];
    const int x = std::max(at.x + 1, m_down + std::min(wordColumns(part), wordsBelow));
    constexpr int span = 2;
    if (m_input.rails.isAbove(far)) {
        setPart(step.index, {x, reversed ? at.y - span : at.y}, reversed ? 1 : 3, reversed, span, LabelSide::left);
        sign(far, {x, at.y - span}, 0, -1);
        return {x + 1, at.y - 1, false, false};
    }
    setPart(step.index, {x, reversed ? at.y + span : at.y}, reversed ? 3 : 1, !reversed, span, LabelSide::left);
    m_sketch.taken.push_back({x - wordColumns(part) + 0.2, double(at.y), double(x), at.y + 2.0});
    m_down = x;
    secondary(far, {x, at.y + span}, 0, 1);
    m_down = std::max(m_down, x + 1);
    return {x + 1, at.y + 1, false, false};
}

RowCursor RowBuilder::passPotFromWiper(const SignalStep& step, const RowCursor& at) {
    const Part& part = m_input.circuit.parts[step.index];
    const bool reversed = step.to == part.nets[2];
    const NetName& far = part.nets[reversed ? 0 : 2];
    const int x = at.x + 2;
    constexpr int span = 2;
    const int top = at.y - 1;
    setPart(step.index, {x, reversed ? top + span : top}, reversed ? 3 : 1, reversed, span, LabelSide::right);
    m_sketch.taken.push_back({double(x), double(top), x + wordColumns(part) - 0.2, top + 2.0});
    m_down = x;
    secondary(far, {x, top + span}, 0, 1);
    m_down = std::max(m_down, x + wordColumns(part) - 1);
    return {x, top, true, false};
}

RowCursor RowBuilder::passControlled(const SignalStep& step, const RowCursor& at) {
    const Part& part = m_input.circuit.parts[step.index];
    constexpr int span = 3;
    const int x = at.x + 3;
    const bool isMinusControl = step.from == part.nets[3] && step.from != part.nets[2];
    const int top = isMinusControl ? at.y - span : at.y;
    setPart(step.index, {x, top}, 1, false, span, LabelSide::right);
    m_sketch.taken.push_back({double(x), double(top), x + wordColumns(part) - 0.2, top + 3.0});
    m_up = m_down = x;
    const bool isToMinus = step.to == part.nets[1] && step.to != part.nets[0];
    const std::size_t otherControl = isMinusControl ? 2 : 3;
    if (m_input.rails.isRail(part.nets[otherControl])) {
        sign(part.nets[otherControl], {x - 2, top + (isMinusControl ? 0 : span)}, 0, isMinusControl ? -1 : 1);
    }
    const int outY = isToMinus ? top + span : top;
    if (isToMinus) {
        secondary(part.nets[0], {x, top}, 0, -1);
    } else {
        secondary(part.nets[1], {x, top + span}, 0, 1);
    }
    m_down = std::max(m_down, x + wordColumns(part) - 1);
    return {x, outY, !isToMinus, false};
}

}  // namespace ohmwright
