/// The demo jobs as they lie in demo-projects; needs ohmwright_core_files.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_file.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace ohmwright::test {

/// Every file with this extension in the folder and below, in the order of their names.
inline std::vector<std::filesystem::path> filesBelow(const std::filesystem::path& folder, const char* extension) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().extension() == extension) {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

inline std::vector<std::filesystem::path> demoJobPaths() {
    return filesBelow(OHMWRIGHT_SOURCE_DIR "/demo-projects", ".ohmjob");
}

/// "quarry-bell"
inline std::filesystem::path demoJobPath(const std::string& demo) {
    return std::filesystem::path(OHMWRIGHT_SOURCE_DIR) / "demo-projects" / demo / (demo + ".ohmjob");
}

inline Job jobIn(const std::filesystem::path& path) {
    const Result<LoadedJob> loaded = loadJob(path);
    if (!loaded) {
        ADD_FAILURE() << loaded.error().message;
        return {};
    }
    return loaded->job;
}

inline std::string harbourLampPath() {
    return OHMWRIGHT_SOURCE_DIR "/demo-projects/harbour-lamp/harbour-lamp.ohmjob";
}

inline Job harbourLamp() {
    return jobIn(harbourLampPath());
}

}  // namespace ohmwright::test
