/// The demo Harbour Lamp for the benchmarks; ends the program when it cannot be read.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_file.h"

#include <cstdio>
#include <cstdlib>

namespace ohmwright::benchmarks {

inline Job harbourLamp() {
    auto loaded = loadJob(OHMWRIGHT_SOURCE_DIR "/demo-projects/harbour-lamp/harbour-lamp.ohmjob");
    if (!loaded) {
        std::fprintf(stderr, "%s\n", loaded.error().message.c_str());
        std::exit(1);
    }
    return loaded->job;
}

}  // namespace ohmwright::benchmarks
