/// Files of the shop that are kept by the name of what is in them: recipes, stages.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/files/atomic_file.h"
#include "core/files/file_head.h"

#include <filesystem>
#include <functional>
#include <string>

namespace ohmwright {

/// A whole file read by `read` (std::string_view -> Result<T>).
/// Errors: of the system, and of `read` with the path in front.
template <class Read>
auto loadBy(const std::filesystem::path& path, const Read& read) -> decltype(read(std::string_view())) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    auto found = read(*text);
    if (!found) {
        return errorInFile(found.error(), path);
    }
    return found;
}

/// Writes `text` into the folder, which is made when it is not there: into the file that has that name in it, else into
/// the first that is free of STEM.json, STEM-2.json ...; an earlier version is kept.
/// @param hasName  whether what the file at that path holds has the name.
/// @return the path. Errors: fileUnreadable of the system.
Result<std::filesystem::path> keepByName(const std::filesystem::path& folder, const std::string& stem,
                                         const std::string& text,
                                         const std::function<bool(const std::filesystem::path&)>& hasName);

}  // namespace ohmwright
