/// The straight map between two pictures of one board, by least squares from legs that are marked on both.
///
/// Photos are taken by hand: turned, at another distance, a little aslant. An affine map takes up all of that but the
/// perspective; what it leaves is said as a residual.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/board.h"

#include <optional>
#include <span>

namespace ohmwright {

/// x' = xx x + xy y + x0, y' = yx x + yy y + y0.
struct AffineMap {
    double xx = 1.0, xy = 0.0, x0 = 0.0;
    double yx = 0.0, yy = 1.0, y0 = 0.0;

    [[nodiscard]] BoardPoint at(const BoardPoint& point) const {
        return {xx * point.x + xy * point.y + x0, yx * point.x + yy * point.y + y0};
    }
    /// REQUIRES: it folds nothing flat (xx yy is not xy yx).
    [[nodiscard]] AffineMap inverse() const;
    /// Whether it turns the picture over, as the other side of a board does.
    [[nodiscard]] bool isMirror() const { return xx * yy - xy * yx < 0.0; }
};

struct PointPair {
    BoardPoint from;
    BoardPoint to;
};

struct FittedMap {
    AffineMap map;
    double residual = 0.0;  ///< Root mean square of the distances that are left [px of `to`].
};

/// The affine map of least squared distances. Nothing with fewer than three pairs, or with points that lie on a line.
std::optional<FittedMap> fitAffine(std::span<const PointPair> pairs);

/// The best of those that only turn, scale, shift and mirror: what two pairs are enough for. Nothing with fewer, or
/// where all points are one.
std::optional<FittedMap> fitMirrored(std::span<const PointPair> pairs);

}  // namespace ohmwright
