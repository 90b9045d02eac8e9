// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/earlier_versions.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"

#include <string>
#include <system_error>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

fs::path versionOf(const fs::path& path, int number) {
    return path.parent_path() / earlierVersionsFolder / (path.filename().string() + "." + std::to_string(number));
}

Error cannotKeep(const fs::path& path, const std::error_code& reason) {
    return {ErrorCode::fileUnreadable,
            said("The earlier version of %1 cannot be put aside: %2; nothing was overwritten.", path.string(),
                 reason.message()),
            path.string()};
}

/// 9 becomes 10, 8 becomes 9 ...: number 1 is free then.
std::error_code moveUp(const fs::path& path) {
    std::error_code trouble;
    for (int number = mostEarlierVersions - 1; number >= 1 && !trouble; --number) {
        std::error_code ignored;
        if (fs::exists(versionOf(path, number), ignored)) {
            fs::rename(versionOf(path, number), versionOf(path, number + 1), trouble);
        }
    }
    return trouble;
}

}  // namespace

Result<void> replaceKeepingEarlier(const fs::path& path, std::string_view bytes) {
    std::error_code trouble;
    if (fs::exists(path, trouble)) {
        const Result<std::string> present = readWholeFile(path);
        if (!present) {
            return present.error();
        }
        if (*present == bytes) {
            return {};
        }
        fs::create_directories(versionOf(path, 1).parent_path(), trouble);
        trouble = trouble ? trouble : moveUp(path);
        if (trouble) {
            return cannotKeep(path, trouble);
        }
        const fs::file_time_type written = fs::last_write_time(path, trouble);
        if (Result<void> kept = replaceFile(versionOf(path, 1), *present); !kept) {
            return kept;
        }
        if (!trouble) {
            fs::last_write_time(versionOf(path, 1), written, trouble);
        }
    }
    return replaceFile(path, bytes);
}

std::vector<fs::path> earlierVersionsOf(const fs::path& path) {
    std::vector<fs::path> versions;
    for (int number = 1; number <= mostEarlierVersions; ++number) {
        std::error_code ignored;
        if (fs::exists(versionOf(path, number), ignored)) {
            versions.push_back(versionOf(path, number));
        }
    }
    return versions;
}

}  // namespace ohmwright
