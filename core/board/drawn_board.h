/// A board that nobody photographed, worked out from the circuit: a tidy place for every body, with its legs.
///
/// It is no picture of the unit's board: who shows it says so. What holds on any board is the order of legs on a body.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/board.h"

#include <string>
#include <vector>

namespace ohmwright {

/// Between two pins of a chip in a row [drawn px]; 2.54 mm on a board.
inline constexpr double drawnPitch = 27.0;

struct DrawnRect {
    double left = 0.0, top = 0.0, width = 0.0, height = 0.0;

    [[nodiscard]] double right() const { return left + width; }
    [[nodiscard]] double bottom() const { return top + height; }
    [[nodiscard]] BoardPoint centre() const { return {left + width / 2.0, top + height / 2.0}; }
    friend bool operator==(const DrawnRect&, const DrawnRect&) = default;
};

/// What a body looks like.
enum class BodyShape {
    axial,     ///< Resistor, coil, wire bridge: a lead at each end.
    diode,     ///< The same, with a ring at one end.
    box,       ///< Film or ceramic capacitor, switch: legs below.
    can,       ///< Electrolytic: seen from above, the minus striped.
    halfDisc,  ///< Transistor: flat side down.
    chip,      ///< Two rows of legs, the notch at the left.
    pot,       ///< Three legs above.
    valve,     ///< Nine legs in a ring, a gap at the bottom.
};

struct DrawnBody {
    BodyShape shape = BodyShape::axial;
    std::vector<PartId> parts;     ///< Of a chip its halves, else one.
    DrawnRect body;                ///< Without the legs.
    std::vector<LegMark> legs;     ///< Those that the circuit knows.
    std::vector<BoardPoint> free;  ///< Legs of a chip or valve that the drawing does not speak of.
    BoardPoint label;              ///< Middle of the words' lower edge.

    friend bool operator==(const DrawnBody&, const DrawnBody&) = default;
};

struct DrawnBoard {
    double width = 0.0;  ///< [drawn px]; zero without a part.
    double height = 0.0;
    std::vector<DrawnBody> bodies;

    friend bool operator==(const DrawnBoard&, const DrawnBoard&) = default;
};

/// Seen from the part side. In columns from left to right as the signal goes through the drawing; pots at the lower
/// edge. The same circuit is always drawn the same.
DrawnBoard drawBoard(const Circuit& circuit);

/// Seen from the other side: left and right changed.
DrawnBoard mirrored(const DrawnBoard& board);

}  // namespace ohmwright
