/// The unit's board as it was photographed: a photo a side, and the legs that were marked on them.
///
/// A mark binds a leg of the drawing to a point of a photo. The photo itself lies beside the job file; the job knows
/// its name, what it held and how large it is.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <array>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

namespace ohmwright {

enum class BoardSide { part, solder };
inline constexpr std::array boardSides{BoardSide::part, BoardSide::solder};

/// "part side", "solder side", in the language of this process.
std::string sideWords(BoardSide side);
constexpr BoardSide otherSide(BoardSide side) {
    return side == BoardSide::part ? BoardSide::solder : BoardSide::part;
}

/// Pixels of a photo as it is seen upright; x to the right, y downwards, parts of a pixel too.
struct BoardPoint {
    double x = 0.0;
    double y = 0.0;

    friend bool operator==(const BoardPoint&, const BoardPoint&) = default;
};

struct BoardPhoto {
    std::string file;  ///< A name without folders: it lies beside the job file.
    std::string hash;  ///< Sixteen hex digits of its bytes (core/files/photo_file.h): another file is noticed.
    int width = 0;     ///< [px] as it is seen upright.
    int height = 0;

    friend bool operator==(const BoardPhoto&, const BoardPhoto&) = default;
};

/// A leg of a part; a pin that both halves of a chip share is the first half's (core/board/board_legs.h).
struct Leg {
    PartId part;
    int pin = 0;  ///< From 0, in the order of the part's kind.

    friend bool operator==(const Leg&, const Leg&) = default;
    friend bool operator<(const Leg& a, const Leg& b) { return std::tie(a.part, a.pin) < std::tie(b.part, b.pin); }
};

struct LegMark {
    Leg leg;
    BoardPoint at;

    friend bool operator==(const LegMark&, const LegMark&) = default;
};

/// One side: marks have no meaning without their photo, and go with it.
struct BoardFace {
    std::optional<BoardPhoto> photo;
    std::vector<LegMark> marks;  ///< Each leg once, in the order of marking.

    friend bool operator==(const BoardFace&, const BoardFace&) = default;
};

/// Empty for a unit that nobody photographed.
struct Board {
    BoardFace partSide;
    BoardFace solderSide;

    [[nodiscard]] const BoardFace& face(BoardSide side) const {
        return side == BoardSide::part ? partSide : solderSide;
    }
    [[nodiscard]] BoardFace& face(BoardSide side) { return side == BoardSide::part ? partSide : solderSide; }

    friend bool operator==(const Board&, const Board&) = default;
};

/// The mark of a leg, or null.
const LegMark* findMark(const BoardFace& face, const Leg& leg);

}  // namespace ohmwright
