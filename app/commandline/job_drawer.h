/// The drawer that a call looks into.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/request.h"
#include "core/base/result.h"
#include "core/files/shop_folder.h"
#include "core/parts/combinations.h"
#include "core/parts/drawer.h"
#include "core/plan/job.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

struct JobDrawer {
    Drawer drawer;
    std::string path;  ///< Empty: none was found, stock is assumed.

    [[nodiscard]] bool isAssumed() const { return path.empty(); }
    [[nodiscard]] std::string note() const;
};

/// The shop of --shop, else the one whose folder the job lies in, else the house's figures.
/// Errors: fileUnreadable naming the first file of it that cannot be used; a --shop that is no folder.
Result<Shop> readCallShop(const Request& request);

/// The one of --drawer (JSON, or CSV), else that of readCallShop, with what the open jobs of a --shop have reserved;
/// else an empty one.
/// Errors: of the file; a table with bad lines is refused with the first of them.
Result<JobDrawer> readJobDrawer(const Request& request);

/// The part of that reference, or of that id where the reference is none. Errors: invalidInput naming the option.
Result<const Part*> partNamed(const Circuit& circuit, std::string_view option, const std::string& name);

/// What the job can take of a kind; preferred numbers (E24, of capacitors E12) without a drawer.
std::vector<ValueOnHand> valuesFor(const JobDrawer& drawer, PartKind kind, const Job& job);

}  // namespace ohmwright
