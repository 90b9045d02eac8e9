// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/join.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/circuit/check.h"
#include "core/drawing/join_layout.h"
#include "core/drawing/joined_names.h"
#include "core/drawing/joint_coupling.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

/// The pieces by what they are.
struct Chain {
    std::vector<const Circuit*> path;  ///< Source, stages, output.
    const Circuit* supply = nullptr;
};

Error wrongChain(std::string sentence) {
    return {ErrorCode::invalidInput, std::move(sentence), ""};
}

Result<Chain> chainOf(std::span<const Circuit> pieces) {
    Chain chain;
    const Circuit* source = nullptr;
    const Circuit* output = nullptr;
    std::vector<const Circuit*> stages;
    const auto takeOne = [](const Circuit*& place, const Circuit& piece, const char* whenTwo) -> Result<void> {
        if (place != nullptr) {
            return wrongChain(said(whenTwo));
        }
        place = &piece;
        return {};
    };
    for (const Circuit& piece : pieces) {
        Result<void> taken = checkPiece(piece);
        switch (roleOf(piece)) {
            case PieceRole::source:
                taken = taken ? takeOne(source, piece, toSay("There are two source pieces. Leave one out.")) : taken;
                break;
            case PieceRole::output:
                taken = taken ? takeOne(output, piece, toSay("There are two output pieces. Leave one out.")) : taken;
                break;
            case PieceRole::supply:
                taken =
                    taken ? takeOne(chain.supply, piece, toSay("There are two supply pieces. Leave one out.")) : taken;
                break;
            case PieceRole::stage:
                stages.push_back(&piece);
                break;
        }
        if (!taken) {
            return taken.error();
        }
    }
    if (source == nullptr || output == nullptr || stages.empty()) {
        return wrongChain(source == nullptr   ? said("Nothing feeds the unit. Add a source.")
                          : output == nullptr ? said("The unit has no output. Add one.")
                                              : said("There is no stage to join. Choose one or more."));
    }
    chain.path.push_back(source);
    chain.path.insert(chain.path.end(), stages.begin(), stages.end());
    chain.path.push_back(output);
    return chain;
}

const Circuit* firstThatUses(const Chain& chain, std::string_view net) {
    const auto found = std::find_if(chain.path.begin(), chain.path.end(),
                                    [net](const Circuit* piece) { return usesNet(*piece, net); });
    return found == chain.path.end() ? nullptr : *found;
}

Result<void> checkRails(const Chain& chain) {
    const Circuit* high = firstThatUses(chain, highRail);
    for (const std::string_view low : {supplyRail, halfRail}) {
        if (const Circuit* piece = firstThatUses(chain, low); high != nullptr && piece != nullptr) {
            return wrongChain(
                said("“%1” works on some 250 V and “%2” on 9 V: a unit is joined around one supply, so "
                     "that the bench steps discharge all of it. Leave one of the two out.",
                     pieceName(*high), pieceName(*piece)));
        }
    }
    for (const std::string_view rail : rails) {
        const Circuit* piece = firstThatUses(chain, rail);
        if (piece != nullptr && (chain.supply == nullptr || !usesNet(*chain.supply, rail))) {
            return wrongChain(
                said("“%1” needs %2. Add a supply that gives it.", pieceName(*piece), said(railWords(rail))));
        }
    }
    return {};
}

// ---- Drawing ------------------------------------------------------------------------------------------------

GridPoint moved(GridPoint point, GridPoint by) {
    return {point.x + by.x, point.y + by.y};
}

/// What a piece draws beside its parts, moved; terminals stay at the jack and at the output alone.
void addDrawing(Circuit& joined, const Circuit& piece, const PieceNames& names, GridPoint by) {
    for (const Wire& wire : piece.drawing.wires) {
        Wire copy{names.net(wire.net), wire.corners};
        for (GridPoint& corner : copy.corners) {
            corner = moved(corner, by);
        }
        joined.drawing.wires.push_back(std::move(copy));
    }
    for (const Flag& flag : piece.drawing.flags) {
        if (flag.kind != FlagKind::terminal || roleOf(piece) != PieceRole::stage) {
            joined.drawing.flags.push_back({flag.kind, names.net(flag.net), moved(flag.at, by), flag.text});
        }
    }
    for (const Field& field : piece.drawing.fields) {
        joined.drawing.fields.push_back(
            {field.name, field.note, moved(field.topLeft, by), moved(field.bottomRight, by)});
    }
}

void addParts(Circuit& joined, const Circuit& piece, const PieceNames& names, GridPoint by) {
    for (const Part& part : piece.parts) {
        Part copy = names.renamed(part);
        if (copy.placement) {
            copy.placement->at = moved(copy.placement->at, by);
        }
        joined.parts.push_back(std::move(copy));
    }
    for (const NetName& open : piece.openNets) {
        joined.openNets.push_back(names.net(open));
    }
}

void addJoint(Circuit& joined, const Circuit& from, GridPoint fromAt, const Circuit& to, GridPoint toAt,
              const NetName& net) {
    const std::vector<GridPoint> corners =
        jointCorners(moved(*outputPoint(from), fromAt), moved(*inputPoint(to), toAt));
    if (!corners.empty()) {
        joined.drawing.wires.push_back({net, corners});
    }
}

/// Which pins of the chips the rails go to: they have no place on the drawing.
void noteChips(Circuit& joined, const std::vector<std::string>& chips) {
    if (chips.empty() || joined.drawing.fields.empty() || !joined.drawing.fields.back().note.empty()) {
        return;
    }
    std::string& note = joined.drawing.fields.back().note;
    for (const std::string& chip : chips) {
        note.append(note.empty() ? "" : ", ").append(chip);
    }
    note.append(" pin 8: 9 V, pin 4: ground");
}

// ---- Direct voltages ----------------------------------------------------------------------------------------

/// Pieces that stand at another voltage than what comes before get a coupling capacitor.
/// @param changed  holds them; it must not move any more once the chain points there.
void coupleWhereNeeded(Chain& chain, std::vector<Circuit>& changed) {
    changed.reserve(chain.path.size());
    const bool isHigh = firstThatUses(chain, highRail) != nullptr;
    DcHold before = dcHoldAt(*chain.path.front(), outputOf(*chain.path.front()));
    for (std::size_t i = 1; i < chain.path.size(); ++i) {
        const Circuit* piece = chain.path[i];
        if (needsCoupling(before, dcHoldAt(*piece, inputOf(*piece)))) {
            changed.push_back(coupled(*piece, *chain.path[i - 1], isHigh));
            chain.path[i] = &changed.back();
            before = DcHold::nothing;
        }
        before = dcHoldAt(*piece, outputOf(*piece), before);
    }
}

// ---- The whole ----------------------------------------------------------------------------------------------

bool hasDiodes(const Circuit& piece) {
    return std::any_of(piece.parts.begin(), piece.parts.end(),
                       [](const Part& part) { return part.kind == PartKind::diode; });
}

/// The piece where clipping is looked at; null when none says a place.
const Circuit* clippingPiece(const Chain& chain) {
    const Circuit* chosen = nullptr;
    for (const Circuit* piece : chain.path) {
        const bool isBetter = chosen == nullptr || hasDiodes(*piece) || !hasDiodes(*chosen);
        if (!piece->ports.clipNode.empty() && isBetter) {
            chosen = piece;
        }
    }
    return chosen;
}

void addStages(Circuit& joined, const Circuit& piece, const PieceNames& names, const PiecePlace& place) {
    for (std::size_t i = 0; i < piece.stages.size(); ++i) {
        Stage stage = names.renamed(piece.stages[i], i);
        stage.firstColumn = i == 0 ? place.zoneLeft : stage.firstColumn + place.origin.x;
        joined.stages.push_back(std::move(stage));
    }
}

/// The guitar's knob stands last in the row, as it is no knob of the unit.
void addKnobs(Circuit& joined, const Chain& chain, const std::vector<PieceNames>& names) {
    for (std::size_t i = 1; i <= chain.path.size(); ++i) {
        const std::size_t piece = i % chain.path.size();
        for (const Knob& knob : chain.path[piece]->knobs) {
            joined.knobs.push_back(names[piece].renamed(knob));
        }
    }
}

Ports portsOf(const Chain& chain, const std::vector<PieceNames>& names, const PieceNames* supplyNames) {
    const Circuit& source = *chain.path.front();
    const Circuit& output = *chain.path.back();
    Ports ports;
    ports.source = names.front().part(source.ports.source);
    ports.jack = names.front().net(source.ports.jack);
    ports.output = names.back().net(output.ports.output);
    ports.load = names.back().part(output.ports.load);
    if (supplyNames != nullptr) {
        ports.battery = supplyNames->part(chain.supply->ports.battery);
    }
    ports.clipNode = ports.output;
    if (const Circuit* piece = clippingPiece(chain)) {
        const auto at = std::find(chain.path.begin(), chain.path.end(), piece) - chain.path.begin();
        ports.clipNode = names[static_cast<std::size_t>(at)].net(piece->ports.clipNode);
    }
    return ports;
}

}  // namespace

Result<Circuit> joinStages(std::span<const Circuit> pieces) {
    Result<Chain> chain = chainOf(pieces);
    if (!chain) {
        return chain.error();
    }
    if (const Result<void> sound = checkRails(*chain); !sound) {
        return sound.error();
    }
    std::vector<Circuit> changed;
    coupleWhereNeeded(*chain, changed);
    Circuit joined;
    Namer namer(*chain->path.back());
    std::vector<PieceNames> names;
    NetName input;
    for (const Circuit* piece : chain->path) {
        names.push_back(namer.namesFor(*piece, input));
        input = names.back().net(outputOf(*piece));
    }
    const JoinLayout layout = layoutOfJoined(chain->path, chain->supply);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const PiecePlace& place = layout.places[i];
        addParts(joined, *chain->path[i], names[i], place.origin);
        addDrawing(joined, *chain->path[i], names[i], place.origin);
        addStages(joined, *chain->path[i], names[i], place);
        if (i > 0) {
            addJoint(joined, *chain->path[i - 1], layout.places[i - 1].origin, *chain->path[i], place.origin,
                     names[i].net(inputOf(*chain->path[i])));
        }
    }
    addKnobs(joined, *chain, names);
    std::optional<PieceNames> supplyNames;
    if (chain->supply != nullptr) {
        supplyNames = namer.namesFor(*chain->supply, {});
        addParts(joined, *chain->supply, *supplyNames, layout.supply);
        addDrawing(joined, *chain->supply, *supplyNames, layout.supply);
    }
    joined.ports = portsOf(*chain, names, supplyNames ? &*supplyNames : nullptr);
    joined.models = namer.models();
    for (Part& spare : namer.spareHalves()) {
        joined.parts.push_back(std::move(spare));
    }
    noteChips(joined, namer.chips());
    joined.drawing.size = layout.size;
    for (const Fault& fault : checkCircuit(joined)) {
        if (fault.severity == Severity::wrong) {
            return Error{ErrorCode::unsolvable, fault.message, fault.part.empty() ? fault.net : fault.part};
        }
    }
    return joined;
}

}  // namespace ohmwright
