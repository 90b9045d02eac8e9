/// Whole files: read, and replaced in one step.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

/// Errors: fileUnreadable with the system's reason (missing, no permission, a folder, over 64 MiB).
Result<std::string> readWholeFile(const std::filesystem::path& path);

/// Writes aside in the same folder, flushes file and folder, renames. The target is never half written.
/// Errors: fileUnreadable with the system's reason; nothing is left behind.
Result<void> replaceFile(const std::filesystem::path& path, std::string_view bytes);

}  // namespace ohmwright
