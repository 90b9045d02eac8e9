// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/body_pieces.h"

#include "core/bench/net_words.h"
#include "core/board/board_legs.h"
#include "core/plan/board_walk.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <numbers>

namespace ohmwright {

namespace {

constexpr double labelRoom = 20.0;

int printedNumber(const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    int number = 0;
    if (index < part.pins.size()) {
        std::from_chars(part.pins[index].data(), part.pins[index].data() + part.pins[index].size(), number);
    }
    return number;
}

BodyShape shapeOf(const Part& part) {
    switch (part.kind) {
        case PartKind::diode:
            return BodyShape::diode;
        case PartKind::capacitor:
            return isPolarised(part) ? BodyShape::can : BodyShape::box;
        case PartKind::switchContact:
            return BodyShape::box;
        case PartKind::potentiometer:
            return BodyShape::pot;
        case PartKind::opamp:
            return BodyShape::chip;
        case PartKind::triode:
        case PartKind::pentode:
            return BodyShape::valve;
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
            return BodyShape::halfDisc;
        default:
            return BodyShape::axial;
    }
}

void setBody(BodyPiece& piece, double width, double height) {
    piece.drawn.body = {-width / 2.0, -height / 2.0, width, height};
    piece.drawn.label = {0.0, -height / 2.0 - 5.0};
}

void addLeg(BodyPiece& piece, const Part& part, int pin, BoardPoint at) {
    piece.drawn.legs.push_back({{part.id, pin}, at});
}

/// So many legs side by side at that height, in the order of the kind's pins.
void addRow(BodyPiece& piece, const Part& part, int count, double step, double y) {
    for (int pin = 0; pin < count; ++pin) {
        addLeg(piece, part, pin, {step * (pin - (count - 1) / 2.0), y});
    }
}

int chipPins(const std::vector<const Part*>& halves) {
    int highest = 0;
    for (const Part* half : halves) {
        for (int pin = 0; pin < static_cast<int>(half->nets.size()); ++pin) {
            highest = std::max(highest, printedNumber(*half, pin));
        }
    }
    return highest <= 8 ? 8 : highest <= 14 ? 14 : 16;
}

/// Counted against the clock from the notch, which is at the left: pin 1 is the left one of the lower row.
BoardPoint chipPin(int number, int pins) {
    constexpr double rowAway = 40.0;
    const int aRow = pins / 2;
    const double first = -drawnPitch * (aRow - 1) / 2.0;
    return number <= aRow ? BoardPoint{first + drawnPitch * (number - 1), rowAway}
                          : BoardPoint{first + drawnPitch * (pins - number), -rowAway};
}

/// Nine of ten places on a ring, against the clock as seen from the part side, the gap at the bottom.
BoardPoint valvePin(int number) {
    constexpr double ring = 40.0;
    constexpr double places = 10.0;
    const double angle = std::numbers::pi / 2.0 - 2.0 * std::numbers::pi * number / places;
    return {ring * std::cos(angle), ring * std::sin(angle)};
}

/// Legs by their printed numbers; those without a number take the first free places.
template <class Place>
void addNumbered(BodyPiece& piece, const Circuit& circuit, const std::vector<const Part*>& parts, int pins,
                 Place place) {
    std::vector<bool> taken(static_cast<std::size_t>(pins) + 1, false);
    std::vector<Leg> unnumbered;
    for (const Part* part : parts) {
        for (int pin = 0; pin < static_cast<int>(part->nets.size()); ++pin) {
            const int number = printedNumber(*part, pin);
            const Leg leg{part->id, pin};
            if (standingLeg(circuit, leg) != leg) {
                continue;
            }
            if (number >= 1 && number <= pins && !taken[static_cast<std::size_t>(number)]) {
                taken[static_cast<std::size_t>(number)] = true;
                addLeg(piece, *part, pin, place(number));
            } else {
                unnumbered.push_back(leg);
            }
        }
    }
    for (int number = 1; number <= pins; ++number) {
        if (taken[static_cast<std::size_t>(number)]) {
            continue;
        }
        if (unnumbered.empty()) {
            piece.drawn.free.push_back(place(number));
        } else {
            piece.drawn.legs.push_back({unnumbered.front(), place(number)});
            unnumbered.erase(unnumbered.begin());
        }
    }
}

void layOutLegs(BodyPiece& piece, const Circuit& circuit, const std::vector<const Part*>& parts) {
    const Part& part = *parts.front();
    const int legs = static_cast<int>(part.nets.size());
    switch (piece.drawn.shape) {
        case BodyShape::axial:
        case BodyShape::diode:
            setBody(piece, part.kind == PartKind::diode ? 44.0 : 48.0, part.kind == PartKind::diode ? 17.0 : 20.0);
            addRow(piece, part, legs, 78.0, 0.0);
            break;
        case BodyShape::box:
            setBody(piece, 58.0, 38.0);
            addRow(piece, part, legs, 2.0 * drawnPitch, 31.0);
            break;
        case BodyShape::can:
            setBody(piece, 60.0, 60.0);
            addRow(piece, part, legs, drawnPitch, 43.0);
            break;
        case BodyShape::halfDisc: {
            constexpr int legsOfBody = 3;
            setBody(piece, 56.0, 36.0);
            addRow(piece, part, std::min(legs, legsOfBody), drawnPitch, 34.0);
            if (legs > legsOfBody && standingLeg(circuit, {part.id, legsOfBody}) == Leg{part.id, legsOfBody} &&
                part.nets[2] != part.nets[legsOfBody]) {
                addLeg(piece, part, legsOfBody, {2.0 * drawnPitch, 34.0});
            }
            break;
        }
        case BodyShape::chip: {
            const int pins = chipPins(parts);
            setBody(piece, drawnPitch * pins / 2.0 + 8.0, 56.0);
            piece.drawn.label = {0.0, -54.0};
            addNumbered(piece, circuit, parts, pins, [pins](int number) { return chipPin(number, pins); });
            break;
        }
        case BodyShape::pot:
            setBody(piece, 104.0, 72.0);
            addRow(piece, part, legs, drawnPitch, -47.0);
            piece.drawn.label = {0.0, -61.0};
            break;
        case BodyShape::valve:
            constexpr int pinsOfNoval = 9;
            setBody(piece, 112.0, 112.0);
            addNumbered(piece, circuit, parts, pinsOfNoval, valvePin);
            break;
    }
}

void measure(BodyPiece& piece) {
    constexpr double pad = 11.0;
    constexpr double halfLabel = 38.0;
    const DrawnRect& body = piece.drawn.body;
    piece.left = std::max(halfLabel, -body.left);
    piece.right = std::max(halfLabel, body.right());
    piece.up = std::max(-body.top, -piece.drawn.label.y + labelRoom - 4.0);
    piece.down = body.bottom();
    const auto reach = [&piece](const BoardPoint& at) {
        piece.left = std::max(piece.left, -at.x + pad);
        piece.right = std::max(piece.right, at.x + pad);
        piece.up = std::max(piece.up, -at.y + pad);
        piece.down = std::max(piece.down, at.y + pad);
    };
    for (const LegMark& leg : piece.drawn.legs) {
        reach(leg.at);
    }
    for (const BoardPoint& at : piece.drawn.free) {
        reach(at);
    }
}

BodyPiece pieceOf(const Circuit& circuit, const std::vector<const Part*>& parts) {
    constexpr int nowhere = std::numeric_limits<int>::max();
    BodyPiece piece;
    const Part& part = *parts.front();
    piece.drawn.shape = shapeOf(part);
    for (const Part* each : parts) {
        piece.drawn.parts.push_back(each->id);
    }
    piece.column = part.placement ? part.placement->at.x : nowhere;
    piece.row = part.placement ? part.placement->at.y : nowhere;
    layOutLegs(piece, circuit, parts);
    measure(piece);
    return piece;
}

}  // namespace

std::vector<BodyPiece> bodyPieces(const Circuit& circuit) {
    std::vector<BodyPiece> pieces;
    std::vector<std::string> chips;
    const std::vector<PartId> order = walkOrder(circuit);
    for (const PartId& id : order) {
        const Part& part = *findPart(circuit, id);
        std::vector<const Part*> parts{&part};
        if (part.kind == PartKind::opamp) {
            if (std::find(chips.begin(), chips.end(), chipName(part)) != chips.end()) {
                continue;
            }
            chips.push_back(chipName(part));
            for (const PartId& other : order) {
                const Part& half = *findPart(circuit, other);
                if (other != id && half.kind == PartKind::opamp && chipName(half) == chipName(part)) {
                    parts.push_back(&half);
                }
            }
        }
        pieces.push_back(pieceOf(circuit, parts));
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const BodyPiece& one, const BodyPiece& other) { return one.column < other.column; });
    return pieces;
}

}  // namespace ohmwright
