// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/stage_file.h"

#include "core/base/said.h"
#include "core/drawing/stage_piece.h"
#include "core/files/circuit_format.h"
#include "core/files/file_head.h"
#include "core/files/file_stem.h"
#include "core/files/named_file.h"

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view stageFormat = "ohmwright-stage";

StagePiece readMembers(JsonReader& reader) {
    StagePiece piece;
    piece.name = reader.text("name");
    piece.does = reader.text("does");
    piece.circuit = readCircuitNode(reader.member("circuit"));
    if (!reader.failed()) {
        if (const Result<void> sound = checkPiece(piece.circuit); !sound) {
            reader.fail(sound.error().message);
        }
    }
    reader.refuseUnknown();
    return piece;
}

}  // namespace

std::string writeStagePiece(const StagePiece& piece) {
    JsonNode root = writeHead(stageFormat, stageFileVersion);
    root.add("name", JsonNode::ofText(piece.name));
    root.add("does", JsonNode::ofText(piece.does));
    root.add("circuit", writeCircuitNode(piece.circuit));
    return printJson(root);
}

Result<StagePiece> readStagePiece(std::string_view text) {
    return readOfKind(text, stageFormat, stageFileVersion, readMembers, UnknownKeys::refused);
}

Result<StagePiece> loadStagePiece(const fs::path& path) {
    return loadBy(path, readStagePiece);
}

Result<fs::path> saveStagePiece(const StagePiece& piece, const fs::path& shopFolder) {
    if (shopFolder.empty()) {
        return Error{ErrorCode::invalidInput,
                     said("There is no shop folder yet: choose one, and stages are kept there.")};
    }
    if (piece.name.empty()) {
        return Error{ErrorCode::invalidInput, said("The stage has no name: give it one.")};
    }
    if (const Result<void> sound = checkPiece(piece.circuit); !sound) {
        return sound.error();
    }
    return keepByName(shopFolder / stagesFolderName, fileStem(piece.name, "stage"), writeStagePiece(piece),
                      [&piece](const fs::path& path) {
                          const Result<StagePiece> there = loadStagePiece(path);
                          return there && there->name == piece.name;
                      });
}

}  // namespace ohmwright
