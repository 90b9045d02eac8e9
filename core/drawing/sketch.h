/// A drawing in the making: parts with their places, signs, and what room they take.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/branches.h"
#include "core/drawing/outline.h"

#include <map>
#include <vector>

namespace ohmwright {

/// The level line of a net, where things stand on it.
struct NetLine {
    int y = 0;
    int left = 0;
    int right = 0;
};

/// A group of placed parts, movable as one. Coordinates in grid steps; they may be negative until the sheet is made.
struct Sketch {
    std::map<std::size_t, Placement> parts;  ///< By index into Circuit::parts.
    std::vector<Flag> flags;
    std::vector<Wire> wires;     ///< Those whose way is fixed by what stands there; the router draws the others.
    std::vector<GridBox> taken;  ///< Bodies with leads, words and signs.
    std::map<NetName, NetLine> lines;
    std::vector<int> zones;  ///< Columns where a stage begins: no part stands across one.

    void move(int dx, int dy);
    void add(const Sketch& other);
    /// Whether anything of `other`, moved by dx and dy, would stand on something here.
    [[nodiscard]] bool meets(const Sketch& other, int dx, int dy) const;
    /// The lowest edge of what is taken between two columns, or `otherwise`.
    [[nodiscard]] double lowestBetween(double left, double right, double otherwise) const;
    [[nodiscard]] GridBox bounds() const;
};

/// Columns that the words beside an upright part take: reference and function in one line, value in the other. The
/// widths of the words are those of the look at text size 100 %, rounded up.
int wordColumns(const Part& part);

/// Steps between the ends of a two-pin part, or between an upright pot's ends: 2 where it is tight, else 3.
int usualSpan(const Part& part, bool isTight);

/// A part of two ends from `at` to the right, or downwards when `upright`. @return the placement.
Placement placementAlong(const Part& part, GridPoint at, int span, bool upright, bool reversed);

/// What a supply sign says.
std::string signText(const NetName& net);

}  // namespace ohmwright
