/// The order of work of a job, and how its steps read.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/order_of_work.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace ohmwright::test {

/// Empty, and the test has failed, where the job has none.
inline WorkPlan workOf(const Job& job) {
    Result<WorkPlan> work = orderOfWork(job);
    if (!work) {
        ADD_FAILURE() << work.error().message;
        return {};
    }
    return *std::move(work);
}

inline std::vector<std::string> titlesOf(const WorkPlan& work) {
    std::vector<std::string> titles;
    for (const BenchStep& step : work.steps) {
        titles.push_back(step.title);
    }
    return titles;
}

}  // namespace ohmwright::test
