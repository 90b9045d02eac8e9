// Verbs of the stage shelf: what is on it, and a new unit joined of its pieces.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/drawing/take_piece.h"
#include "core/files/job_file.h"
#include "core/files/stage_shelf.h"

#include <algorithm>
#include <filesystem>

namespace ohmwright {

namespace {

std::string knobNames(const StagePiece& piece) {
    std::string names;
    for (const Knob& knob : piece.circuit.knobs) names += (names.empty() ? "" : ", ") + knob.name;
    return names;
}

Result<std::filesystem::path> shopFolder(const Request& request) {
    std::error_code none;
    if (!request.shop.empty() && !std::filesystem::is_directory(request.shop, none))
        return refuseOption("--shop", request.shop + " is no folder: name the one with the shop's files.");
    return std::filesystem::path(request.shop);
}

/// Of the shop before the house's: an own one may go by the name of one that comes with the program.
Result<StagePiece> pieceNamed(const std::string& name, const std::vector<ShelfStage>& shelf) {
    if (name.ends_with(".json")) {
        Result<StagePiece> piece = loadStagePiece(name);
        if (!piece) return Error{ErrorCode::fileUnreadable, piece.error().message, name};
        return piece;
    }
    const auto found =
        std::find_if(shelf.rbegin(), shelf.rend(), [&name](const ShelfStage& stage) { return stage.id == name; });
    if (found == shelf.rend())
        return refuseOption("STAGE", "there is no stage “" + name + "”: the verb stages lists them.");
    if (!found->piece) return Error{ErrorCode::fileUnreadable, found->fault, found->path.string()};
    return *found->piece;
}

/// Of the stage as it is drawn, or those that are named.
Result<std::vector<PartId>> partsAsked(const Circuit& circuit, const Request& request) {
    std::vector<PartId> parts;
    if (!request.parts.empty()) {
        for (const std::string& name : splitAtCommas(request.parts)) {
            const auto part = partNamed(circuit, "--parts", name);
            if (!part) return part.error();
            parts.push_back((*part)->id);
        }
        return parts;
    }
    if (request.stage.empty()) return refuseOption("--stage", "name a stage of the drawing, or parts with --parts.");
    std::string names;
    for (std::size_t i = 0; i < circuit.stages.size(); ++i) {
        if (circuit.stages[i].name == request.stage) return partsToKeep(circuit, i);
        names += (names.empty() ? "" : ", ") + circuit.stages[i].name;
    }
    return refuseOption("--stage", "no stage is called “" + request.stage + "”" +
                                       (names.empty() ? ": the circuit has none." : ": choose from " + names + "."));
}

}  // namespace

Result<Answer> answerStages(const Request& request) {
    const auto folder = shopFolder(request);
    if (!folder) return folder.error();
    Table stages{{"stage", "from", "name", "does", "knobs", "fault"}, {}};
    for (const ShelfStage& stage : stagesToChoose(*folder)) {
        const StagePiece piece = stage.piece.value_or(StagePiece());
        stages.rows.push_back({stage.id, std::string(stage.isOfHouse ? "house" : "shop"), piece.name, piece.does,
                               knobNames(piece), stage.fault});
    }
    return Answer{{stages}, {}, {}};
}

Result<WrittenFile> writeKeptStage(const Job& job, const Request& request, const std::stop_token&) {
    const auto folder = shopFolder(request);
    if (!folder) return folder.error();
    const auto parts = partsAsked(job.stock, request);
    if (!parts) return parts.error();
    StagePiece piece{request.name.empty() ? request.stage : request.name, request.does, {}};
    const PieceEnds ends{request.input, request.output, request.supply, request.half, {}};
    Result<Circuit> circuit = takePiece(job.stock, *parts, piece.name, ends);
    if (!circuit) return circuit.error();
    piece.circuit = *std::move(circuit);
    WrittenFile written{writeStagePiece(piece), {}};
    if (!folder->empty()) {
        const auto path = saveStagePiece(piece, *folder);
        if (!path) return path.error();
        written.notes.push_back("“" + piece.name + "” is kept as " + path->string() + ".");
    }
    return written;
}

Result<WrittenFile> writeJoined(const Request& request) {
    const auto folder = shopFolder(request);
    if (!folder) return folder.error();
    std::vector<ShelfStage> shelf = houseStages();
    if (!folder->empty())
        for (ShelfStage& stage : readShopStages(*folder)) shelf.push_back(std::move(stage));
    std::vector<StagePiece> pieces;
    for (const std::string& name : request.stages) {
        Result<StagePiece> piece = pieceNamed(name, shelf);
        if (!piece) return piece.error();
        pieces.push_back(*std::move(piece));
    }
    Result<Circuit> circuit = joinUnit(pieces);
    if (!circuit) return circuit.error();
    return WrittenFile{writeJob(jobOfUnit(*std::move(circuit), request.name.empty() ? "New unit" : request.name)), {}};
}

}  // namespace ohmwright
