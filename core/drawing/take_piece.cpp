// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/take_piece.h"

#include "core/base/said.h"
#include "core/drawing/cut_net.h"
#include "core/drawing/lead.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

/// Room on the piece's sheet for words beside parts [grid steps].
constexpr int roomLeft = 3;
constexpr int roomRight = 3;
constexpr int roomAbove = 1;
constexpr int roomBelow = 2;

Error cannotKeep(std::string sentence, std::string where = {}) {
    return {ErrorCode::invalidInput, std::move(sentence), std::move(where)};
}

// ---- The piece ----------------------------------------------------------------------------------------------

Part bare(const Part& part) {
    Part copy = part;
    copy.printed.clear();
    copy.boardNote.clear();
    copy.knowledge = Knowledge::drawn;
    copy.measured.reset();
    copy.call.clear();
    return copy;
}

/// Parts, types and knobs; nets as in the circuit.
Result<Circuit> cutParts(const Circuit& circuit, const std::set<PartId>& chosen) {
    Circuit piece;
    std::set<std::string> types;
    for (const Part& part : circuit.parts) {
        if (chosen.count(part.id) == 0) {
            continue;
        }
        const bool isWordsOnly = part.kind == PartKind::currentSource || part.kind == PartKind::coupling;
        if (!part.placement && !isWordsOnly) {
            return cannotKeep(
                said("%1 has no place on the drawing. Place it first, or leave it out.", displayName(part)), part.id);
        }
        for (const PartId& control : part.controls) {
            if (chosen.count(control) == 0) {
                return cannotKeep(
                    said("%1 works with %2, which is not chosen. Choose both.", displayName(part), control), part.id);
            }
        }
        piece.parts.push_back(bare(part));
        types.insert(part.model);
    }
    std::copy_if(circuit.models.begin(), circuit.models.end(), std::back_inserter(piece.models),
                 [&types](const Model& model) { return types.count(model.name) > 0; });
    std::copy_if(circuit.knobs.begin(), circuit.knobs.end(), std::back_inserter(piece.knobs),
                 [&chosen](const Knob& knob) { return chosen.count(knob.part) > 0; });
    std::copy_if(circuit.openNets.begin(), circuit.openNets.end(), std::back_inserter(piece.openNets),
                 [&piece](const NetName& net) { return usesNet(piece, net); });
    return piece;
}

/// The words of a rail's signs: one name a rail, so that signs of joined pieces belong together.
std::string signText(std::string_view net) {
    return net == supplyRail ? "9 V" : net == halfRail ? "Vb" : net == highRail ? "250 V" : "";
}

/// A sign where a cut rail has none: ground below, a supply above.
Flag newSign(const JoinedPoints& group, const NetName& net) {
    const bool isGround = net == groundNet;
    const auto place = std::max_element(group.points.begin(), group.points.end(),
                                        [&](GridPoint a, GridPoint b) { return isGround ? a.y < b.y : a.y > b.y; });
    return {isGround ? FlagKind::ground : FlagKind::supply, net, *place, signText(net)};
}

/// What is drawn of the chosen parts' nets, each net by its own name still.
void cutDrawing(const Circuit& circuit, const std::set<PartId>& chosen, const std::set<NetName>& walls,
                Circuit& piece) {
    std::set<NetName> nets;
    for (const Part& part : piece.parts) {
        nets.insert(part.nets.begin(), part.nets.end());
    }
    for (const NetName& net : nets) {
        const bool hasSigns = walls.count(net) > 0;
        for (JoinedPoints& group : cutNet(circuit, net, chosen, hasSigns)) {
            piece.drawing.wires.insert(piece.drawing.wires.end(), group.wires.begin(), group.wires.end());
            if (hasSigns && group.flags.empty()) {
                group.flags.push_back(newSign(group, net));
            }
            piece.drawing.flags.insert(piece.drawing.flags.end(), group.flags.begin(), group.flags.end());
        }
    }
}

void renameNet(Circuit& piece, const NetName& from, const NetName& to) {
    const auto rename = [&](NetName& net) { net = net == from ? to : net; };
    for (Part& part : piece.parts) {
        std::for_each(part.nets.begin(), part.nets.end(), rename);
    }
    for (Wire& wire : piece.drawing.wires) {
        rename(wire.net);
    }
    for (Flag& flag : piece.drawing.flags) {
        rename(flag.net);
    }
    std::for_each(piece.openNets.begin(), piece.openNets.end(), rename);
    rename(piece.ports.clipNode);
    for (Stage& stage : piece.stages) {
        rename(stage.input);
        rename(stage.output);
    }
}

/// Rails under their fixed names; another net that has such a name gives way.
void nameRails(Circuit& piece, const PieceEnds& ends) {
    const std::array<std::pair<NetName, NetName>, 3> named{
        {{ends.supply, NetName(supplyRail)}, {ends.half, NetName(halfRail)}, {ends.high, NetName(highRail)}}};
    for (const auto& [own, fixed] : named) {
        if (own != fixed) {
            renameNet(piece, fixed, newNetName(piece));
        }
    }
    for (const auto& [own, fixed] : named) {
        if (!own.empty() && own != PieceEnds::none && own != fixed) {
            renameNet(piece, own, fixed);
        }
    }
    for (Flag& flag : piece.drawing.flags) {
        flag.text = flag.kind == FlagKind::supply ? signText(flag.net) : flag.text;
    }
}

/// Everything moved so that it begins at the sheet's upper left, with room for words.
void fitSheet(Circuit& piece) {
    GridBox box{1e9, 1e9, -1e9, -1e9};
    const auto take = [&box](double x, double y) {
        box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x), std::max(box.bottom, y)};
    };
    for (const Part& part : piece.parts) {
        if (part.placement) {
            const GridBox body = bodyBox(part);
            take(body.left, body.top);
            take(body.right, body.bottom);
            for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
                take(pinPoint(part, pin).x, pinPoint(part, pin).y);
            }
        }
    }
    for (const Wire& wire : piece.drawing.wires) {
        for (const GridPoint& corner : wire.corners) {
            take(corner.x, corner.y);
        }
    }
    for (const Flag& flag : piece.drawing.flags) {
        take(flag.at.x, flag.at.y);
    }
    const GridPoint by{roomLeft - static_cast<int>(std::floor(box.left)),
                       roomAbove - static_cast<int>(std::floor(box.top))};
    const auto shift = [by](GridPoint& point) { point = {point.x + by.x, point.y + by.y}; };
    for (Part& part : piece.parts) {
        if (part.placement) {
            shift(part.placement->at);
        }
    }
    for (Wire& wire : piece.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), shift);
    }
    for (Flag& flag : piece.drawing.flags) {
        shift(flag.at);
    }
    piece.drawing.size = {static_cast<int>(std::ceil(box.right)) + by.x + roomRight,
                          static_cast<int>(std::ceil(box.bottom)) + by.y + roomBelow};
}

/// Draws an end up to its edge; its groups first to each other.
Result<void> leadOut(Circuit& piece, const NetName& net, int column) {
    std::set<PartId> all;
    for (const Part& part : piece.parts) {
        all.insert(part.id);
    }
    for (;;) {
        const std::vector<JoinedPoints> groups = cutNet(piece, net, all, false);
        const bool isWhole = groups.size() < 2;
        const auto isThere = [&](GridPoint point) {
            return isWhole
                       ? point.x == column
                       : std::find(groups[1].points.begin(), groups[1].points.end(), point) != groups[1].points.end();
        };
        const std::vector<GridPoint> lead =
            groups.empty() ? std::vector<GridPoint>() : findLead(piece, net, groups.front().points, isThere);
        if (lead.empty()) {
            return cannotKeep(
                said("No wire can be drawn from %1 to the edge: the parts stand too close. Move them apart.", net),
                net);
        }
        if (lead.size() > 1) {
            piece.drawing.wires.push_back({net, lead});
        }
        if (isWhole) {
            return {};
        }
    }
}

/// Whether the drawing says what the parts' nets say.
Result<void> checkDrawn(const Circuit& piece) {
    const Circuit drawn = rejoin(piece).circuit;
    for (std::size_t i = 0; i < piece.parts.size(); ++i) {
        if (drawn.parts[i].nets != piece.parts[i].nets) {
            return cannotKeep(said("%1 cannot be drawn apart from the rest: its wires lead elsewhere. Choose the parts "
                                   "between as well.",
                                   displayName(piece.parts[i])),
                              piece.parts[i].id);
        }
    }
    return {};
}

}  // namespace

Result<Circuit> takePiece(const Circuit& circuit, std::span<const PartId> parts, const std::string& name,
                          const PieceEnds& asked) {
    if (name.empty()) {
        return cannotKeep(said("The stage has no name: give it one."));
    }
    const Result<PieceEnds> ends = findEnds(circuit, parts, asked);
    if (!ends) {
        return ends.error();
    }
    const std::set<PartId> chosen(parts.begin(), parts.end());
    Result<Circuit> cut = cutParts(circuit, chosen);
    if (!cut) {
        return cut.error();
    }
    Circuit piece = *std::move(cut);
    std::vector<PartId> ids;
    for (const Part& part : piece.parts) {
        ids.push_back(part.id);
    }
    piece.stages.push_back({name, ends->input, ends->output, ids, 0});
    piece.ports.clipNode = usesNet(piece, circuit.ports.clipNode) ? circuit.ports.clipNode : NetName();
    cutDrawing(circuit, chosen, {NetName(groundNet), ends->supply, ends->half, ends->high}, piece);
    nameRails(piece, *ends);
    fitSheet(piece);
    for (const auto& [net, column] : {std::pair{inputOf(piece), 0}, std::pair{outputOf(piece), piece.drawing.size.x}}) {
        if (const Result<void> led = leadOut(piece, net, column); !led) {
            return led.error();
        }
    }
    if (const Result<void> drawn = checkDrawn(piece); !drawn) {
        return drawn.error();
    }
    if (const Result<void> sound = checkPiece(piece); !sound) {
        return sound.error();
    }
    return piece;
}

}  // namespace ohmwright
