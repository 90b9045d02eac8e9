/// The demo Harbour Lamp as it lies in demo-projects; needs ohmwright_core_files.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_file.h"

#include <gtest/gtest.h>

#include <string>

namespace ohmwright::test {

inline std::string harbourLampPath() {
    return OHMWRIGHT_SOURCE_DIR "/demo-projects/harbour-lamp/harbour-lamp.ohmjob";
}

inline Job harbourLamp() {
    const Result<LoadedJob> loaded = loadJob(harbourLampPath());
    if (!loaded) {
        ADD_FAILURE() << loaded.error().message;
        return {};
    }
    return loaded->job;
}

}  // namespace ohmwright::test
