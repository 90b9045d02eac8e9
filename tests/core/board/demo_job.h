/// A demo job, read from its file.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_file.h"

#include <gtest/gtest.h>

#include <string>

namespace ohmwright::test {

inline Job demoJob(const std::string& name = "harbour-lamp") {
    const std::string root = std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/";
    const auto loaded = loadJob(root + name + "/" + name + ".ohmjob");
    EXPECT_TRUE(loaded) << loaded.error().message;
    return loaded ? loaded->job : Job();
}

inline Leg legNamed(const Circuit& circuit, const char* reference, int pin) {
    const Part* part = findPartByReference(circuit, reference);
    EXPECT_NE(part, nullptr) << reference;
    return part != nullptr ? Leg{part->id, pin} : Leg();
}

}  // namespace ohmwright::test
