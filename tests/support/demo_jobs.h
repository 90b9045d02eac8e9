/// Any of the demo jobs as it lies in demo-projects, with chosen mods on; needs ohmwright_core_files.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_file.h"

#include <gtest/gtest.h>

#include <string>

namespace ohmwright::test {

/// @param letters  of the mods that are on, "AB"; all others are off.
inline Job demoJob(const std::string& name, const std::string& letters = "") {
    const auto loaded = loadJob(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/" + name + "/" + name + ".ohmjob");
    if (!loaded) {
        ADD_FAILURE() << loaded.error().message;
        return {};
    }
    Job job = loaded->job;
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

}  // namespace ohmwright::test
