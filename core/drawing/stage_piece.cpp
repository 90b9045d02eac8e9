// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/stage_piece.h"

#include "core/base/said.h"
#include "core/drawing/outline.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

Error cannotJoin(const Circuit& piece, const std::string& why) {
    return {ErrorCode::invalidInput, said("“%1” cannot be joined: %2", pieceName(piece), why), pieceName(piece)};
}

/// The uppermost wire corner or pin of a net in a column.
std::optional<GridPoint> pointInColumn(const Circuit& piece, const NetName& net, int column) {
    std::optional<GridPoint> found;
    const auto take = [&](GridPoint point) {
        if (point.x == column && (!found || point.y < found->y)) {
            found = point;
        }
    };
    for (const Wire& wire : piece.drawing.wires) {
        for (const GridPoint& corner : wire.corners) {
            if (wire.net == net) {
                take(corner);
            }
        }
    }
    for (const Part& part : piece.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            if (part.nets[static_cast<std::size_t>(pin)] == net) {
                take(pinPoint(part, pin));
            }
        }
    }
    return found;
}

bool isRail(std::string_view net) {
    return net == groundNet || std::find(rails.begin(), rails.end(), net) != rails.end();
}

Result<void> checkParts(const Circuit& piece) {
    if (piece.parts.empty()) {
        return cannotJoin(piece, said("it has no parts. Choose some."));
    }
    for (const Part& part : piece.parts) {
        if (part.nets.size() != static_cast<std::size_t>(pinCount(part.kind))) {
            return cannotJoin(piece, said("%1 has not one net a pin. Correct its nets.", part.reference));
        }
        if (!part.law.empty()) {
            return cannotJoin(piece, said("%1 works by a formula that names nets. Leave it out.", part.reference));
        }
    }
    return {};
}

/// What may be wrong with an end.
struct EndWords {
    const char* noPart;
    const char* isRail;
    const char* isNotDrawn;
};

constexpr EndWords inputWords{
    toSay("no part stands at its input. Name the net that is its input."),
    toSay("its input is ground or a supply. Name the net that carries the signal."),
    toSay("its input is not drawn up to the edge. Draw a wire of it there."),
};
constexpr EndWords outputWords{
    toSay("no part stands at its output. Name the net that is its output."),
    toSay("its output is ground or a supply. Name the net that carries the signal."),
    toSay("its output is not drawn up to the edge. Draw a wire of it there."),
};

/// An end that every piece but the outermost has.
Result<void> checkEnd(const Circuit& piece, const NetName& net, const EndWords& words,
                      const std::optional<GridPoint>& point) {
    if (net.empty() || !usesNet(piece, net)) {
        return cannotJoin(piece, said(words.noPart));
    }
    if (isRail(net)) {
        return cannotJoin(piece, said(words.isRail));
    }
    if (!point) {
        return cannotJoin(piece, said(words.isNotDrawn));
    }
    return {};
}

}  // namespace

std::string_view railWords(std::string_view rail) {
    return rail == halfRail   ? toSay("the half supply Vb")
           : rail == highRail ? toSay("the 250 V supply")
                              : toSay("the 9 V supply");
}

PieceRole roleOf(const Circuit& piece) {
    if (!piece.ports.source.empty()) {
        return PieceRole::source;
    }
    if (!piece.ports.load.empty()) {
        return PieceRole::output;
    }
    return piece.ports.battery.empty() ? PieceRole::stage : PieceRole::supply;
}

std::string pieceName(const Circuit& piece) {
    if (!piece.stages.empty()) {
        return piece.stages.front().name;
    }
    return piece.drawing.fields.empty() ? said("a piece without a name") : piece.drawing.fields.front().name;
}

NetName inputOf(const Circuit& piece) {
    const PieceRole role = roleOf(piece);
    const bool hasInput = role == PieceRole::stage || role == PieceRole::output;
    return hasInput && !piece.stages.empty() ? piece.stages.front().input : NetName();
}

NetName outputOf(const Circuit& piece) {
    switch (roleOf(piece)) {
        case PieceRole::source:
            return piece.ports.jack;
        case PieceRole::stage:
            return piece.stages.empty() ? NetName() : piece.stages.back().output;
        default:
            return {};
    }
}

std::optional<GridPoint> inputPoint(const Circuit& piece) {
    return pointInColumn(piece, inputOf(piece), 0);
}

std::optional<GridPoint> outputPoint(const Circuit& piece) {
    return pointInColumn(piece, outputOf(piece), piece.drawing.size.x);
}

bool usesNet(const Circuit& piece, std::string_view net) {
    return std::any_of(piece.parts.begin(), piece.parts.end(), [net](const Part& part) {
        return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
    });
}

Result<void> checkPiece(const Circuit& piece) {
    if (Result<void> parts = checkParts(piece); !parts) {
        return parts;
    }
    const PieceRole role = roleOf(piece);
    if (role == PieceRole::supply) {
        return piece.stages.empty()
                   ? Result<void>()
                   : cannotJoin(piece, said("a supply has no stage of the signal. Take the stage out."));
    }
    if (piece.stages.empty()) {
        return cannotJoin(piece, said("it names no stage. Name one with its input and output."));
    }
    if (role != PieceRole::source) {
        if (Result<void> input = checkEnd(piece, inputOf(piece), inputWords, inputPoint(piece)); !input) {
            return input;
        }
    }
    if (role != PieceRole::output) {
        if (Result<void> output = checkEnd(piece, outputOf(piece), outputWords, outputPoint(piece)); !output) {
            return output;
        }
    }
    if (role == PieceRole::stage && inputOf(piece) == outputOf(piece)) {
        return cannotJoin(piece, said("its input and output are one net. Name two."));
    }
    return {};
}

}  // namespace ohmwright
