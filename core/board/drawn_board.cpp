// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/drawn_board.h"

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

constexpr double margin = 48.0;
constexpr double labelRoom = 20.0;
constexpr double gap = 18.0;
constexpr double wantedShape = 1.25;  ///< Width over height.
constexpr double leastSide = 220.0;

/// A body about its own centre, with the room that it takes there.
struct Piece {
    DrawnBody drawn;
    double left = 0.0, right = 0.0, up = 0.0, down = 0.0;  ///< From the centre, label and legs in it.
    int column = 0;                                        ///< On the drawing's grid.
    int row = 0;

    [[nodiscard]] double width() const { return left + right; }
    [[nodiscard]] double height() const { return up + down; }
};

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

void setBody(Piece& piece, double width, double height) {
    piece.drawn.body = {-width / 2.0, -height / 2.0, width, height};
    piece.drawn.label = {0.0, -height / 2.0 - 5.0};
}

void addLeg(Piece& piece, const Part& part, int pin, BoardPoint at) {
    piece.drawn.legs.push_back({{part.id, pin}, at});
}

/// So many legs side by side at that height, in the order of the kind's pins.
void addRow(Piece& piece, const Part& part, int count, double step, double y) {
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
void addNumbered(Piece& piece, const Circuit& circuit, const std::vector<const Part*>& parts, int pins, Place place) {
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

void layOutLegs(Piece& piece, const Circuit& circuit, const std::vector<const Part*>& parts) {
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

void measure(Piece& piece) {
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

Piece pieceOf(const Circuit& circuit, const std::vector<const Part*>& parts) {
    constexpr int nowhere = std::numeric_limits<int>::max();
    Piece piece;
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

/// Halves of a chip are one body.
std::vector<Piece> piecesOf(const Circuit& circuit) {
    std::vector<Piece> pieces;
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
                     [](const Piece& one, const Piece& other) { return one.column < other.column; });
    return pieces;
}

struct Column {
    std::vector<Piece> pieces;
    double width = 0.0;
    double height = 0.0;  ///< Gaps in it.
};

/// Filled one after another up to about the same height, each from top to bottom as on the drawing.
std::vector<Column> columnsOf(const std::vector<Piece>& pieces, std::size_t count) {
    double all = 0.0;
    for (const Piece& piece : pieces) {
        all += piece.height() + gap;
    }
    std::vector<Column> columns(1);
    double filledTo = 0.0;
    for (const Piece& piece : pieces) {
        const double end = all * static_cast<double>(columns.size()) / static_cast<double>(count);
        if (filledTo + piece.height() / 2.0 > end && !columns.back().pieces.empty()) {
            columns.emplace_back();
        }
        Column& column = columns.back();
        column.height += piece.height() + (column.pieces.empty() ? 0.0 : gap);
        column.width = std::max(column.width, piece.width());
        column.pieces.push_back(piece);
        filledTo += piece.height() + gap;
    }
    for (Column& column : columns) {
        std::stable_sort(column.pieces.begin(), column.pieces.end(),
                         [](const Piece& one, const Piece& other) { return one.row < other.row; });
    }
    return columns;
}

double widthOf(const std::vector<Column>& columns) {
    double width = 0.0;
    for (const Column& column : columns) {
        width += column.width + (width > 0.0 ? 2.0 * gap : 0.0);
    }
    return width;
}

double heightOf(const std::vector<Column>& columns) {
    double height = 0.0;
    for (const Column& column : columns) {
        height = std::max(height, column.height);
    }
    return height;
}

/// As many columns as give a board of the usual shape, the pots' row under them.
std::vector<Column> bestColumns(const std::vector<Piece>& pieces, double potsWidth, double potsHeight) {
    std::vector<Column> best;
    double bestMiss = std::numeric_limits<double>::max();
    for (std::size_t count = 1; count <= pieces.size(); ++count) {
        std::vector<Column> columns = columnsOf(pieces, count);
        const double width = std::max(widthOf(columns), potsWidth) + 2.0 * margin;
        const double height = heightOf(columns) + potsHeight + 2.0 * margin;
        const double miss = std::abs(std::log(width / height / wantedShape));
        if (miss < bestMiss) {
            bestMiss = miss;
            best = std::move(columns);
        }
    }
    return best;
}

void put(DrawnBoard& board, const Piece& piece, double x, double y) {
    DrawnBody drawn = piece.drawn;
    drawn.body.left += x;
    drawn.body.top += y;
    drawn.label = {drawn.label.x + x, drawn.label.y + y};
    for (LegMark& leg : drawn.legs) {
        leg.at = {leg.at.x + x, leg.at.y + y};
    }
    for (BoardPoint& at : drawn.free) {
        at = {at.x + x, at.y + y};
    }
    board.bodies.push_back(std::move(drawn));
}

/// From top to bottom over the whole height, what is left of it between the bodies.
void putColumn(DrawnBoard& board, const Column& column, double left, double height) {
    const auto count = static_cast<double>(column.pieces.size());
    const double more = (height - column.height) / count;
    double y = margin + more / 2.0;
    for (const Piece& piece : column.pieces) {
        const double spare = column.width - piece.width();
        put(board, piece, left + spare / 2.0 + piece.left, y + piece.up);
        y += piece.height() + gap + more;
    }
}

void putPots(DrawnBoard& board, const std::vector<Piece>& pots, double potsWidth) {
    const double more = (board.width - 2.0 * margin - potsWidth) / static_cast<double>(pots.size());
    double x = margin + more / 2.0;
    for (const Piece& pot : pots) {
        put(board, pot, x + pot.left, board.height - margin - pot.down);
        x += pot.width() + 2.0 * gap + more;
    }
}

}  // namespace

DrawnBoard drawBoard(const Circuit& circuit) {
    std::vector<Piece> pieces = piecesOf(circuit);
    const auto firstPot = std::stable_partition(pieces.begin(), pieces.end(),
                                                [](const Piece& piece) { return piece.drawn.shape != BodyShape::pot; });
    const std::vector<Piece> pots(firstPot, pieces.end());
    pieces.erase(firstPot, pieces.end());
    double potsWidth = 0.0, potsHeight = 0.0;
    for (const Piece& pot : pots) {
        potsWidth += pot.width() + (potsWidth > 0.0 ? 2.0 * gap : 0.0);
        potsHeight = std::max(potsHeight, pot.height() + gap);
    }
    DrawnBoard board;
    if (pieces.empty() && pots.empty()) {
        return board;
    }
    const std::vector<Column> columns = bestColumns(pieces, potsWidth, potsHeight);
    const double width = widthOf(columns);
    const double height = heightOf(columns);
    board.width = std::max(std::max(width, potsWidth) + 2.0 * margin, leastSide);
    board.height = std::max(height + potsHeight + 2.0 * margin, leastSide);
    const double more = (board.width - 2.0 * margin - width) / std::max<double>(1.0, double(columns.size()));
    double left = margin + more / 2.0;
    for (const Column& column : columns) {
        putColumn(board, column, left, board.height - potsHeight - 2.0 * margin);
        left += column.width + 2.0 * gap + more;
    }
    if (!pots.empty()) {
        putPots(board, pots, potsWidth);
    }
    return board;
}

DrawnBoard mirrored(const DrawnBoard& board) {
    DrawnBoard other = board;
    const auto turn = [&board](BoardPoint& at) { at.x = board.width - at.x; };
    for (DrawnBody& body : other.bodies) {
        body.body.left = board.width - body.body.right();
        turn(body.label);
        for (LegMark& leg : body.legs) {
            turn(leg.at);
        }
        std::for_each(body.free.begin(), body.free.end(), turn);
    }
    return other;
}

}  // namespace ohmwright
