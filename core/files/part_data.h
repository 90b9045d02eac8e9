/// Part data files (resources/part-data): device types with their parameters and sources.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/parts/part_library.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int partDataVersion = 1;

/// Errors: fileDamaged naming line and key (no JSON, another kind of file, a key missing, a name twice, a kind
/// that has no types, no source, no parameters); fileNewer when `version` is above partDataVersion.
Result<PartLibrary> readModels(std::string_view text);
/// The canonical text; `readModels(writeModels(library))` gives a library equal to `library`.
std::string writeModels(const PartLibrary& library);

/// Errors: fileUnreadable; as readModels with the path in the message.
Result<PartLibrary> loadModels(const std::filesystem::path& path);

/// The types that come with the program (resources/part-data/models.json).
const PartLibrary& houseLibrary();

}  // namespace ohmwright
