/// What a file held before: the last ten versions, numbered, in a folder beside it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <filesystem>
#include <string_view>
#include <vector>

namespace ohmwright {

inline constexpr int mostEarlierVersions = 10;
/// The folder beside the file: "earlier/drawer.json.1" is what stood there before the last replacement.
inline constexpr std::string_view earlierVersionsFolder = "earlier";

/// Each keeps the time at which it was written as the file. As replaceFile, after the bytes that stood there were put
/// aside as version 1; the tenth before goes. Bytes that are there already change nothing. The version is on the disk
/// before the file is touched. Errors: as readWholeFile and replaceFile; the file is as before then.
Result<void> replaceKeepingEarlier(const std::filesystem::path& path, std::string_view bytes);

/// Those that are there, newest first.
std::vector<std::filesystem::path> earlierVersionsOf(const std::filesystem::path& path);

}  // namespace ohmwright
