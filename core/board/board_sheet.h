/// What a side of the board shows: its photo, the other side's seen through the board, or the drawn board; and where
/// every leg lies on it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/board/drawn_board.h"
#include "core/plan/board.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace ohmwright {

enum class LegPlace {
    marked,   ///< On this photo, by hand.
    carried,  ///< On the other side's photo, carried over by the map between the sides.
    drawn,    ///< On the drawn board.
    unknown,  ///< Nobody marked it.
};

struct PlacedLeg {
    Leg leg;
    NetName net;
    LegPlace place = LegPlace::unknown;
    BoardPoint at;  ///< On the sheet as it is shown [px of the photo, drawn px].

    friend bool operator==(const PlacedLeg&, const PlacedLeg&) = default;
};

struct BoardSheet {
    enum class Ground {
        photo,
        photoThrough,  ///< Of the other side, left and right changed.
        drawn,
    } ground = Ground::drawn;
    BoardSide side = BoardSide::part;  ///< That is looked at.
    BoardSide face = BoardSide::part;  ///< Whose photo lies there; a mark on it is that side's.
    double width = 0.0;                ///< [px of the photo, drawn px]
    double height = 0.0;
    DrawnBoard drawn;             ///< Of a drawn sheet, as seen from the side.
    std::vector<PlacedLeg> legs;  ///< In the order of legsOnBoard.

    [[nodiscard]] const PlacedLeg* find(const Leg& leg) const;
    /// The point of the photo that lies there, and the other way round.
    [[nodiscard]] BoardPoint turned(const BoardPoint& at) const {
        return ground == Ground::photoThrough ? BoardPoint{width - at.x, at.y} : at;
    }
    [[nodiscard]] bool mayMark() const { return ground != Ground::drawn; }
    [[nodiscard]] int unknown() const;
};

/// @param circuit  that is on the board: stock, or now.
BoardSheet boardSheet(const Board& board, const Circuit& circuit, BoardSide side);

/// "Drawn from the circuit, not your board.", "Part side seen through the board: the solder side has no photo."; empty
/// of a photo.
std::string sheetWords(const BoardSheet& sheet);
/// "12 of 86 legs are not marked." Empty when all are.
std::string unmarkedWords(const BoardSheet& sheet);

/// The first leg without a place from `after` on, round to the beginning; those of `part` first.
std::optional<Leg> nextUnmarked(const BoardSheet& sheet, const PartId& part, const std::optional<Leg>& after);

/// The leg nearest to a point, not farther than `reach` [units of the sheet].
std::optional<Leg> legNear(const BoardSheet& sheet, const BoardPoint& at, double reach);

/// Where a leg is on its body, as seen on this sheet: "second from the notch, lower row", "the left one". Empty where
/// nothing is known of it.
std::string placeOnBody(const Circuit& circuit, const BoardSheet& sheet, const Leg& leg);
/// "U1 pin 2 is second from the notch, lower row." Of a leg without a place what to do, and where the drawing has it.
std::string whereWords(const Circuit& circuit, const BoardSheet& sheet, const Leg& leg);

/// The part of a sheet that shows these legs with their surroundings, inside the sheet; nothing where none has a place.
std::optional<DrawnRect> cropAround(const BoardSheet& sheet, std::span<const Leg> legs);

}  // namespace ohmwright
