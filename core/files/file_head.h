/// The two keys that every file of ours begins with: what it is and in which version.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/files/json_reader.h"

#include <filesystem>
#include <string_view>

namespace ohmwright {

JsonNode writeHead(std::string_view format, int version);

/// Whether the file says that it is what is wanted, in a version that is known.
/// Errors: fileDamaged; fileNewer above `newestVersion`.
Result<void> requireHead(JsonReader& reader, ReadingState& state, std::string_view format, int newestVersion);

/// The error with the file's path in front of its sentence.
Error errorInFile(Error error, const std::filesystem::path& path);

}  // namespace ohmwright
