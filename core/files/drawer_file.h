/// The shop's drawer as a file (drawer.json in the shop folder): bytes to a Drawer and back.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/parts/drawer.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int drawerFileVersion = 1;
/// Its name in the shop folder.
inline constexpr std::string_view drawerFileName = "drawer.json";

/// The canonical text: UTF-8, two spaces, keys in a fixed order, what is not stated left out.
/// `readDrawer(writeDrawer(drawer))` gives a drawer equal to `drawer`.
std::string writeDrawer(const Drawer& drawer);

/// Errors: fileDamaged naming line and key, or the first fault of parts/drawer.h's faultsOf; fileNewer when `version`
/// is above drawerFileVersion.
Result<Drawer> readDrawer(std::string_view text);

/// Errors: fileUnreadable naming the path and the system's reason; as readDrawer with the path in the message.
Result<Drawer> loadDrawer(const std::filesystem::path& path);

/// Replaced in one step (atomic_file.h). Errors: invalidInput when the drawer has a fault, fileUnreadable; the file on
/// disk is as before then.
Result<void> saveDrawer(const Drawer& drawer, const std::filesystem::path& path);

}  // namespace ohmwright
