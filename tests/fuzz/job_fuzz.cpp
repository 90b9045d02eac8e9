// Any text as a job file: it is read, or refused in a sentence; what is read is written and read again to the same job.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/check.h"
#include "core/files/job_file.h"
#include "core/plan/apply.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ohmwright;
    const auto job = readJob(std::string_view(reinterpret_cast<const char*>(data), size));
    if (!job) {
        if (job.error().message.empty()) {
            std::abort();
        }
        return 0;
    }
    const auto again = readJob(writeJob(*job));
    if (!again || !(*again == *job)) {
        std::abort();
    }
    static_cast<void>(checkCircuit(job->stock));
    static_cast<void>(applyPlan(job->stock, job->plan));
    return 0;
}
