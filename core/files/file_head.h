/// The two keys that every file of ours begins with: what it is and in which version.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/base/said.h"
#include "core/files/json_reader.h"

#include <filesystem>
#include <string_view>
#include <utility>

namespace ohmwright {

JsonNode writeHead(std::string_view format, int version);

/// Whether the file says that it is what is wanted, in a version that is known.
/// Errors: fileDamaged; fileNewer above `newestVersion`.
Result<void> requireHead(JsonReader& reader, ReadingState& state, std::string_view format, int newestVersion);

/// What becomes of keys further down that `read` did not ask for: in a file that people write by hand, a mistyped one
/// must not pass for one that was left out.
enum class UnknownKeys { kept, refused };

/// A whole file of one kind: what `read` (JsonReader& -> T) takes out of it.
/// Errors: as parseJson and requireHead; the first thing that `read` found wrong; fileDamaged at a key that is refused.
template <class Read>
auto readOfKind(std::string_view text, std::string_view format, int newestVersion, const Read& read,
                UnknownKeys unknown = UnknownKeys::kept) -> Result<decltype(read(std::declval<JsonReader&>()))> {
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
    if (unknown == UnknownKeys::refused && !state.unknown.empty()) {
        const std::string& path = state.unknown.front().path;
        return Error{ErrorCode::fileDamaged,
                     said("%1 is no key that is known here. Take it out, or correct its name.", path), path};
    }
    return found;
}

/// The error with the file's path in front of its sentence.
Error errorInFile(Error error, const std::filesystem::path& path);

}  // namespace ohmwright
