/// The order of work on paper: a block a step, with its boxes, blanks and the picture of the part; the probe card of
/// each power-up; what a failed check means.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/page_flow.h"
#include "app/papers/work_steps.h"

#include <vector>

namespace ohmwright {

void addWork(PageFlow& flow, const std::vector<PrintedStep>& steps);

/// Nothing where no check can fail.
void addFailures(PageFlow& flow, const std::vector<PrintedFailure>& failures);

}  // namespace ohmwright
