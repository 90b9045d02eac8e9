/// A demo job with chosen mods on, as circuits; needs ohmwright_core_files.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/apply.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <string>

namespace ohmwright::test {

/// The demo Harbour Lamp with exactly the mods of `letters` ("ABC") on.
inline Job harbourLampWith(const std::string& letters) {
    Job job = harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

/// Stock with the plan's mods that are on.
inline Circuit nowOf(const Job& job) {
    Result<Circuit> now = applyPlan(job.stock, job.plan);
    if (!now) {
        ADD_FAILURE() << now.error().message;
        return {};
    }
    return *std::move(now);
}

}  // namespace ohmwright::test
