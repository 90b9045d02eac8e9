/// The drawer that a call looks into.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/request.h"
#include "core/base/result.h"
#include "core/parts/combinations.h"
#include "core/parts/drawer.h"
#include "core/plan/job.h"

#include <string>
#include <vector>

namespace ohmwright {

struct JobDrawer {
    Drawer drawer;
    std::string path;  ///< Empty: none was found, stock is assumed.

    [[nodiscard]] bool isAssumed() const { return path.empty(); }
    [[nodiscard]] std::string note() const;
};

/// The one of --drawer (JSON, or CSV), else drawer.json in the job's folder or the one above, else an empty one.
/// Errors: of the file; a table with bad lines is refused with the first of them.
Result<JobDrawer> readJobDrawer(const Request& request);

/// What the job can take of a kind; preferred numbers (E24, of capacitors E12) without a drawer.
std::vector<ValueOnHand> valuesFor(const JobDrawer& drawer, PartKind kind, const Job& job);

}  // namespace ohmwright
