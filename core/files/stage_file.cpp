// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/stage_file.h"

#include "core/drawing/stage_piece.h"
#include "core/files/atomic_file.h"
#include "core/files/circuit_format.h"
#include "core/files/earlier_versions.h"
#include "core/files/file_head.h"
#include "core/files/file_stem.h"

#include <system_error>

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

/// The file of that piece, or the first that is free.
fs::path fileFor(const StagePiece& piece, const fs::path& folder) {
    const std::string stem = fileStem(piece.name, "stage");
    for (int number = 1;; ++number) {
        std::string name = stem;
        name.append(number > 1 ? "-" + std::to_string(number) : std::string()).append(".json");
        fs::path path = folder / name;
        std::error_code none;
        if (!fs::exists(path, none)) {
            return path;
        }
        const Result<StagePiece> there = loadStagePiece(path);
        if (there && there->name == piece.name) {
            return path;
        }
    }
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
    const Result<JsonNode> root = parseJson(text);
    if (!root) {
        return root.error();
    }
    ReadingState state;
    JsonReader reader(*root, state);
    if (const Result<void> head = requireHead(reader, state, stageFormat, stageFileVersion); !head) {
        return head.error();
    }
    StagePiece piece = readMembers(reader);
    if (state.error) {
        return *state.error;
    }
    if (!state.unknown.empty()) {
        const std::string& path = state.unknown.front().path;
        return Error{ErrorCode::fileDamaged, path + " is no key that is known here. Take it out, or correct its name.",
                     path};
    }
    return piece;
}

Result<StagePiece> loadStagePiece(const fs::path& path) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    Result<StagePiece> piece = readStagePiece(*text);
    if (!piece) {
        return errorInFile(piece.error(), path);
    }
    return piece;
}

Result<fs::path> saveStagePiece(const StagePiece& piece, const fs::path& shopFolder) {
    if (shopFolder.empty()) {
        return Error{ErrorCode::invalidInput, "There is no shop folder yet: choose one, and stages are kept there."};
    }
    if (piece.name.empty()) {
        return Error{ErrorCode::invalidInput, "The stage has no name: give it one."};
    }
    if (const Result<void> sound = checkPiece(piece.circuit); !sound) {
        return sound.error();
    }
    const fs::path folder = shopFolder / stagesFolderName;
    std::error_code trouble;
    fs::create_directories(folder, trouble);
    if (trouble) {
        return Error{ErrorCode::fileUnreadable,
                     "The folder " + folder.string() + " cannot be made: " + trouble.message() + ".", folder.string()};
    }
    fs::path path = fileFor(piece, folder);
    if (const Result<void> written = replaceKeepingEarlier(path, writeStagePiece(piece)); !written) {
        return written.error();
    }
    return path;
}

}  // namespace ohmwright
