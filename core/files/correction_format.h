/// Corrections of the stock drawing as they stand in a job file; see resources/job-file-format.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_reader.h"
#include "core/plan/correction.h"

#include <vector>

namespace ohmwright {

/// Under "corrections"; nothing where there is none.
void addCorrections(JsonNode& node, const std::vector<Correction>& corrections);
/// Empty where there is no such key.
std::vector<Correction> readCorrections(JsonReader& reader);

}  // namespace ohmwright
