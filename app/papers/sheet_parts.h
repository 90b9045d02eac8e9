/// Parts to fit on the bench sheet: what leaves the unit, what comes in, where it lies.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/page_flow.h"
#include "core/bench/paper_answers.h"

namespace ohmwright {

/// REQUIRES: answers of a bench sheet.
void addParts(PageFlow& flow, const PaperAnswers& answers);

}  // namespace ohmwright
