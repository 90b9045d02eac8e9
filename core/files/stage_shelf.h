/// The shelf of stage pieces: those of the house and the shop's own, and a unit joined of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/stage_file.h"
#include "core/plan/job.h"

#include <optional>
#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// A piece on the shelf.
struct ShelfStage {
    std::string id;                   ///< "soft-clip"; the file's name without its ending.
    bool isOfHouse = false;           ///< Comes with the program.
    std::filesystem::path path;       ///< Of the shop's own.
    std::optional<StagePiece> piece;  ///< Absent when the file cannot be read.
    std::string fault;                ///< Then: why.
};

/// All pieces of the house, ends and supplies among them, in the order of the shelf.
const std::vector<ShelfStage>& houseStages();
/// The piece of the house. REQUIRES: there is one of that id.
const StagePiece& houseStage(std::string_view id);

/// The shop's own, by name of file; a file that cannot be read has its fault.
std::vector<ShelfStage> readShopStages(const std::filesystem::path& shopFolder, const std::stop_token& stop = {});

/// What can stand between the source and the output: the house's stages, then the shop's own.
std::vector<ShelfStage> stagesToChoose(const std::filesystem::path& shopFolder);

/// The pieces with a source before them, an output behind them and the supply that they need: those among them, else
/// the house's.
/// Errors: of joinStages.
Result<Circuit> joinUnit(std::span<const StagePiece> pieces);

/// A new job around the circuit: its battery and next box as they are drawn, every knob halfway, the guitar's full up.
Job jobOfUnit(Circuit circuit, std::string_view name);

}  // namespace ohmwright
