/// Stage pieces as files: bytes to a StagePiece and back, and the shop folder's `stages/`. The format is described in
/// resources/shop-file-formats.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int stageFileVersion = 1;
/// Of the shop folder.
inline constexpr std::string_view stagesFolderName = "stages";

/// A circuit's piece with what is said of it on the shelf.
struct StagePiece {
    std::string name;  ///< "Soft clip"
    std::string does;  ///< In one line: "op-amp with diodes in its feedback".
    Circuit circuit;   ///< As core/drawing/stage_piece.h has it.

    friend bool operator==(const StagePiece&, const StagePiece&) = default;
};

/// The canonical text: UTF-8, two spaces, keys in a fixed order, numbers that read back exactly.
/// `readStagePiece(writeStagePiece(piece))` gives a piece equal to `piece`.
std::string writeStagePiece(const StagePiece& piece);

/// Errors: fileDamaged naming line and key (an unknown key, a circuit that cannot be joined: checkPiece); fileNewer
/// when `version` is above stageFileVersion.
Result<StagePiece> readStagePiece(std::string_view text);

/// Errors: fileUnreadable naming the path and the system's reason; as readStagePiece with the path in the message.
Result<StagePiece> loadStagePiece(const std::filesystem::path& path);

/// Writes into the shop's folder under the piece's own name; one of that name that is there is kept as an earlier
/// version, another piece's file and one that cannot be read are left alone. Makes the folder when it is not there.
/// @return the file.
/// Errors: invalidInput without a shop folder or a name, and of checkPiece; fileUnreadable of the system.
Result<std::filesystem::path> saveStagePiece(const StagePiece& piece, const std::filesystem::path& shopFolder);

}  // namespace ohmwright
