/// Cautions: part of the kind of unit and of the work, on every sheet for the bench; nobody can leave them out.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/page_flow.h"
#include "core/bench/paper_answers.h"

namespace ohmwright {

void addCautions(PageFlow& flow, const PaperAnswers& answers);

}  // namespace ohmwright
