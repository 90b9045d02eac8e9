// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/stage_shelf.h"

#include "core/drawing/join.h"
#include "core/files/house_stages.h"
#include "core/plan/stock_setting.h"

#include <algorithm>
#include <cassert>
#include <system_error>
#include <utility>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

constexpr double fullUp = 10.0;

std::vector<ShelfStage> readHouseStages() {
    std::vector<ShelfStage> stages;
    for (const HouseStageText& text : houseStageTexts()) {
        Result<StagePiece> piece = readStagePiece(text.text);
        ShelfStage& stage = stages.emplace_back();
        stage.id = text.id;
        stage.isOfHouse = true;
        if (piece) {
            stage.piece = *std::move(piece);
        } else {
            stage.fault = piece.error().message;
        }
    }
    return stages;
}

bool hasRole(std::span<const StagePiece> pieces, PieceRole role) {
    return std::any_of(pieces.begin(), pieces.end(),
                       [role](const StagePiece& piece) { return roleOf(piece.circuit) == role; });
}

/// The house's supply with the rails that are used; the smallest that gives them.
std::string_view supplyFor(std::span<const StagePiece> pieces) {
    const auto isUsed = [pieces](std::string_view rail) {
        return std::any_of(pieces.begin(), pieces.end(),
                           [rail](const StagePiece& piece) { return usesNet(piece.circuit, rail); });
    };
    return isUsed(highRail) ? "supply-250v" : isUsed(halfRail) ? "supply-half" : isUsed(supplyRail) ? "supply-9v" : "";
}

/// Of the pot that works on the source: the guitar's own.
bool isOfSource(const Circuit& circuit, const Knob& knob) {
    const Stage* stage = stageOfPart(circuit, knob.part);
    return stage != nullptr && stage->output == circuit.ports.jack;
}

}  // namespace

const std::vector<ShelfStage>& houseStages() {
    static const std::vector<ShelfStage> stages = readHouseStages();
    return stages;
}

const StagePiece& houseStage(std::string_view id) {
    const auto& stages = houseStages();
    const auto found =
        std::find_if(stages.begin(), stages.end(), [id](const ShelfStage& stage) { return stage.id == id; });
    assert(found != stages.end() && found->piece);
    return *found->piece;
}

std::vector<ShelfStage> readShopStages(const fs::path& shopFolder, const std::stop_token& stop) {
    std::vector<fs::path> paths;
    std::error_code trouble;
    for (fs::directory_iterator entry(shopFolder / stagesFolderName, trouble), end; !trouble && entry != end;
         entry.increment(trouble)) {
        std::error_code none;
        if (entry->path().extension() == ".json" && entry->is_regular_file(none)) {
            paths.push_back(entry->path());
        }
    }
    std::sort(paths.begin(), paths.end());
    std::vector<ShelfStage> stages;
    for (const fs::path& path : paths) {
        if (stop.stop_requested()) {
            break;
        }
        Result<StagePiece> piece = loadStagePiece(path);
        ShelfStage& stage = stages.emplace_back();
        stage.id = path.stem().string();
        stage.path = path;
        if (piece) {
            stage.piece = *std::move(piece);
        } else {
            stage.fault = piece.error().message;
        }
    }
    return stages;
}

std::vector<ShelfStage> stagesToChoose(const fs::path& shopFolder) {
    std::vector<ShelfStage> stages;
    for (const ShelfStage& stage : houseStages()) {
        if (stage.piece && roleOf(stage.piece->circuit) == PieceRole::stage) {
            stages.push_back(stage);
        }
    }
    if (!shopFolder.empty()) {
        for (ShelfStage& stage : readShopStages(shopFolder)) {
            stages.push_back(std::move(stage));
        }
    }
    return stages;
}

Result<Circuit> joinUnit(std::span<const StagePiece> pieces) {
    std::vector<Circuit> all;
    if (!hasRole(pieces, PieceRole::source)) {
        all.push_back(houseStage("source").circuit);
    }
    for (const StagePiece& piece : pieces) {
        all.push_back(piece.circuit);
    }
    if (!hasRole(pieces, PieceRole::output)) {
        all.push_back(houseStage("output").circuit);
    }
    if (const std::string_view supply = supplyFor(pieces); !supply.empty() && !hasRole(pieces, PieceRole::supply)) {
        all.push_back(houseStage(supply).circuit);
    }
    return joinStages(all);
}

Job jobOfUnit(Circuit circuit, std::string_view name) {
    Job job;
    job.unit.name = name;
    job.stock = std::move(circuit);
    takeUpDrawnEnds(job.stock, job.setting);
    for (const Knob& knob : job.stock.knobs) {
        if (isOfSource(job.stock, knob)) {
            job.setting.knobs[knob.id] = fullUp;
        }
    }
    return job;
}

}  // namespace ohmwright
