// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/side_map.h"

#include "core/base/number_text.h"
#include "core/base/said.h"

#include <vector>

namespace ohmwright {

namespace {

std::vector<PointPair> markedOnBoth(const Board& board) {
    std::vector<PointPair> pairs;
    for (const LegMark& mark : board.partSide.marks) {
        if (const LegMark* other = findMark(board.solderSide, mark.leg)) {
            pairs.push_back({mark.at, other->at});
        }
    }
    return pairs;
}

AffineMap mirroredOutline(const BoardPhoto& part, const BoardPhoto& solder) {
    AffineMap map;
    map.xx = -static_cast<double>(solder.width) / part.width;
    map.x0 = solder.width;
    map.yy = static_cast<double>(solder.height) / part.height;
    return map;
}

}  // namespace

std::optional<SideMap> sideMap(const Board& board) {
    if (!board.partSide.photo || !board.solderSide.photo) {
        return std::nullopt;
    }
    const std::vector<PointPair> pairs = markedOnBoth(board);
    SideMap sides;
    sides.legs = static_cast<int>(pairs.size());
    if (const auto fitted = fitAffine(pairs); fitted && fitted->map.isMirror()) {
        sides.kind = SideMap::Kind::affine;
        sides.toSolder = fitted->map;
        sides.residual = fitted->residual;
    } else if (const auto turned = fitMirrored(pairs); !fitted && turned) {
        sides.kind = SideMap::Kind::turned;
        sides.toSolder = turned->map;
        sides.residual = turned->residual;
    } else {
        sides.toSolder = mirroredOutline(*board.partSide.photo, *board.solderSide.photo);
    }
    return sides;
}

std::string sideMapWords(const SideMap& map) {
    constexpr int enough = 3;
    const std::string legs = std::to_string(map.legs);
    switch (map.kind) {
        case SideMap::Kind::affine:
            return said("The sides agree within %1 px: %2 legs are marked on both.",
                        {formatFigure(map.residual), legs});
        case SideMap::Kind::turned:
            return said(
                "%1 legs are marked on both sides: mark a third, away from their line, so that the photos "
                "may be aslant.",
                {legs});
        case SideMap::Kind::outline:
            return map.legs >= enough
                       ? said(
                             "%1 legs are marked on both sides, but they do not turn the board over: legs are mixed "
                             "up. Places are carried over by the outline alone.",
                             {legs})
                       : said("Places are carried over by the outline alone: mark three legs on both sides.");
    }
    return {};
}

}  // namespace ohmwright
