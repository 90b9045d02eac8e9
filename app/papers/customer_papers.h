/// Papers that leave with the unit or go to its owner: customer sheet, label for inside the lid, quote.
///
/// Plain words, few figures. Vector, monochrome safe, no text under 9 pt; each carries serial, visit and plan state
/// hash. What is not proven yet is told as planned, never as done.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"
#include "core/bench/paper_answers.h"

namespace ohmwright {

/// What was asked and done, before and after in a few figures, where the knobs stand now and what was kept equal, the
/// customer's words held against the figures, what cannot be undone. REQUIRES: answers of a customer sheet.
Paper customerSheet(const PaperAnswers& answers, PaperSize size);

/// To be cut out: 100 mm wide, a line for each mod that is on. REQUIRES: answers of a label.
Paper lidLabel(const PaperAnswers& answers, PaperSize size);

/// Lines of work and parts with their prices, what is to be ordered, and what the customer must agree to in writing.
/// REQUIRES: answers of a quote.
Paper quoteSheet(const PaperAnswers& answers, PaperSize size);

}  // namespace ohmwright
