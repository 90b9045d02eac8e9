// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/join_layout.h"

#include "core/drawing/stage_piece.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

/// A sheet of this shape fills the map; from and to which others are well seen.
constexpr double bestShape = 3.0;
constexpr double narrowestShape = 2.85;
constexpr double widestShape = 3.35;
/// What the path may be higher than its highest piece before a wire bends instead.
constexpr int spareRows = 3;
/// Columns that a bent joint takes.
constexpr int bendColumns = 2;
/// Between the field and what stands beside it.
constexpr int fieldGap = 1;

struct Rows {
    std::vector<int> tops;  ///< Of the pieces.
    int height = 0;
};

/// Each piece as high as makes its joint straight, the upmost at 0; where the path would get too high, as near as can
/// be.
Rows rowsOf(std::span<const Circuit* const> path) {
    int tallest = 0;
    for (const Circuit* piece : path) {
        tallest = std::max(tallest, piece->drawing.size.y);
    }
    Rows rows;
    int lowest = 0;
    int highest = 0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const int height = path[i]->drawing.size.y;
        int top = 0;
        if (i > 0) {
            const int wanted = rows.tops.back() + outputPoint(*path[i - 1])->y - inputPoint(*path[i])->y;
            const int most = tallest + spareRows;
            top = std::clamp(wanted, highest - most, lowest + most - height);
        }
        rows.tops.push_back(top);
        lowest = std::min(lowest, top);
        highest = std::max(highest, top + height);
    }
    for (int& top : rows.tops) {
        top -= lowest;
    }
    rows.height = highest - lowest;
    return rows;
}

/// Pieces from left to right, those that would lie on the field moved past it.
std::vector<PiecePlace> placesOver(std::span<const Circuit* const> path, const Rows& rows, int fieldTop,
                                   int fieldRight) {
    std::vector<PiecePlace> places;
    int right = 0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const GridPoint size = path[i]->drawing.size;
        PiecePlace place{right, {right, rows.tops[i]}};
        if (i > 0) {
            const int from = rows.tops[i - 1] + outputPoint(*path[i - 1])->y;
            const bool isBent = from != rows.tops[i] + inputPoint(*path[i])->y;
            place.origin.x += isBent ? bendColumns : 0;
            if (rows.tops[i] + size.y > fieldTop) {
                place.origin.x = std::max(place.origin.x, fieldRight + (isBent ? 1 : 0));
            }
        }
        right = place.origin.x + size.x;
        places.push_back(place);
    }
    return places;
}

GridPoint wellShaped(GridPoint size) {
    const double high = size.y;
    const double wide = size.x;
    if (wide < narrowestShape * high) {
        return {static_cast<int>(std::ceil(narrowestShape * high)), size.y};
    }
    if (wide > widestShape * high) {
        return {size.x, static_cast<int>(std::ceil(wide / widestShape))};
    }
    return size;
}

}  // namespace

JoinLayout layoutOfJoined(std::span<const Circuit* const> path, const Circuit* supply) {
    const Rows rows = rowsOf(path);
    const GridPoint field = supply != nullptr ? supply->drawing.size : GridPoint{0, 0};
    const auto widthOf = [&](const std::vector<PiecePlace>& places) {
        return places.back().origin.x + path.back()->drawing.size.x;
    };
    // The field as low as the deepest piece, or higher with the deep pieces beside it.
    JoinLayout best;
    double bestCost = std::numeric_limits<double>::infinity();
    for (int top = path.front()->drawing.size.y + rows.tops.front(); top <= rows.height; ++top) {
        const int fieldRight = supply != nullptr ? field.x + fieldGap : 0;
        std::vector<PiecePlace> places = placesOver(path, rows, top, fieldRight);
        const GridPoint size{std::max(widthOf(places), field.x), std::max(rows.height, top + field.y)};
        const double cost = std::max(static_cast<double>(size.x), bestShape * size.y);
        if (cost < bestCost) {
            bestCost = cost;
            best = {std::move(places), {0, top}, size};
        }
    }
    best.size = wellShaped(best.size);
    return best;
}

std::vector<GridPoint> jointCorners(GridPoint from, GridPoint to) {
    if (from == to) {
        return {};
    }
    if (from.y == to.y) {
        return {from, to};
    }
    const int bend = to.x - 1;
    return {from, {bend, from.y}, {bend, to.y}, to};
}

}  // namespace ohmwright
