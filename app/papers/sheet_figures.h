/// Before and after on the bench sheet: the response, and the figures of the large signal under it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/page_flow.h"
#include "core/bench/paper_answers.h"

namespace ohmwright {

/// REQUIRES: answers of a bench sheet.
void addBeforeAndAfter(PageFlow& flow, const PaperAnswers& answers);

}  // namespace ohmwright
