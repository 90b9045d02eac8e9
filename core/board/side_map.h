/// Where a place of the part side lies on the solder side, and back.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/board/affine_map.h"

#include <optional>
#include <string>

namespace ohmwright {

struct SideMap {
    enum class Kind {
        outline,  ///< Left and right changed, the outlines laid over each other: a guess.
        turned,   ///< From two legs, or some on a line: turned, scaled, shifted, mirrored.
        affine,   ///< From three legs or more.
    } kind = Kind::outline;
    AffineMap toSolder;     ///< From part-side pixels.
    int legs = 0;           ///< Marked on both sides.
    double residual = 0.0;  ///< Root mean square [px of the solder side's photo]; of two legs it is none.

    [[nodiscard]] BoardPoint across(BoardSide from, const BoardPoint& at) const {
        return from == BoardSide::part ? toSolder.at(at) : toSolder.inverse().at(at);
    }
};

/// Nothing unless both sides have a photo. A fit that does not turn the picture over is none: legs were mixed up, and
/// the outline is taken instead.
std::optional<SideMap> sideMap(const Board& board);

/// "The sides agree within 2.1 px: 6 legs are marked on both.", or what to mark so that they do.
std::string sideMapWords(const SideMap& map);

}  // namespace ohmwright
