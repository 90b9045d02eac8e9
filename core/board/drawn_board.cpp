// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/drawn_board.h"

#include "core/board/body_pieces.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr double margin = 48.0;
constexpr double gap = 18.0;
constexpr double wantedShape = 1.25;  ///< Width over height.
constexpr double leastSide = 220.0;

struct Column {
    std::vector<BodyPiece> pieces;
    double width = 0.0;
    double height = 0.0;  ///< Gaps in it.
};

/// Filled one after another up to about the same height, each from top to bottom as on the drawing.
std::vector<Column> columnsOf(const std::vector<BodyPiece>& pieces, std::size_t count) {
    double all = 0.0;
    for (const BodyPiece& piece : pieces) {
        all += piece.height() + gap;
    }
    std::vector<Column> columns(1);
    double filledTo = 0.0;
    for (const BodyPiece& piece : pieces) {
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
                         [](const BodyPiece& one, const BodyPiece& other) { return one.row < other.row; });
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
std::vector<Column> bestColumns(const std::vector<BodyPiece>& pieces, double potsWidth, double potsHeight) {
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

void put(DrawnBoard& board, const BodyPiece& piece, double x, double y) {
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
    for (const BodyPiece& piece : column.pieces) {
        const double spare = column.width - piece.width();
        put(board, piece, left + spare / 2.0 + piece.left, y + piece.up);
        y += piece.height() + gap + more;
    }
}

void putPots(DrawnBoard& board, const std::vector<BodyPiece>& pots, double potsWidth) {
    const double more = (board.width - 2.0 * margin - potsWidth) / static_cast<double>(pots.size());
    double x = margin + more / 2.0;
    for (const BodyPiece& pot : pots) {
        put(board, pot, x + pot.left, board.height - margin - pot.down);
        x += pot.width() + 2.0 * gap + more;
    }
}

}  // namespace

DrawnBoard drawBoard(const Circuit& circuit) {
    std::vector<BodyPiece> pieces = bodyPieces(circuit);
    const auto firstPot = std::stable_partition(
        pieces.begin(), pieces.end(), [](const BodyPiece& piece) { return piece.drawn.shape != BodyShape::pot; });
    const std::vector<BodyPiece> pots(firstPot, pieces.end());
    pieces.erase(firstPot, pieces.end());
    double potsWidth = 0.0, potsHeight = 0.0;
    for (const BodyPiece& pot : pots) {
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
