/// The two keys that every file of ours begins with: what it is and in which version.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/files/json_reader.h"

#include <filesystem>
#include <string_view>
#include <utility>

namespace ohmwright {

JsonNode writeHead(std::string_view format, int version);

/// Whether the file says that it is what is wanted, in a version that is known.
/// Errors: fileDamaged; fileNewer above `newestVersion`.
Result<void> requireHead(JsonReader& reader, ReadingState& state, std::string_view format, int newestVersion);

/// A whole file of one kind: what `read` (JsonReader& -> T) takes out of it.
/// Errors: as parseJson and requireHead; the first thing that `read` found wrong.
template <class Read>
auto readOfKind(std::string_view text, std::string_view format, int newestVersion, const Read& read)
    -> Result<decltype(read(std::declval<JsonReader&>()))> {
    const Result<JsonNode> root = parseJson(text);
    if (!root) {
        return root.error();
    }
    ReadingState state;
    JsonReader reader(*root, state);
    if (const Result<void> head = requireHead(reader, state, format, newestVersion); !head) {
        return head.error();
    }
    auto found = read(reader);
    if (state.error) {
        return *state.error;
    }
    return found;
}

/// The error with the file's path in front of its sentence.
Error errorInFile(Error error, const std::filesystem::path& path);

}  // namespace ohmwright
