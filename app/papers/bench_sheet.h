/// Sheets for the bench: the work and its proof, and the way back to stock.
///
/// Vector, monochrome safe, no text under 9 pt; pages are counted before the first is drawn, and each carries serial,
/// visit and plan state hash. Needs the program's typeface (Theme::install()) or takes the next best.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/step_photos.h"
#include "app/papers/paper_frame.h"
#include "core/bench/paper_answers.h"

namespace ohmwright {

/// What was asked and agreed, before and after, parts to fit, cautions, order of work with what is signed of it.
/// REQUIRES: answers of a bench sheet.
Paper benchSheet(const PaperAnswers& answers, PaperSize size, const StepPhotos& photos = {});

/// The mods in the reverse order of fitting, what has no exact way back, cautions, and the steps to stock with stock's
/// readings. REQUIRES: answers of a way-back sheet.
Paper wayBackSheet(const PaperAnswers& answers, PaperSize size, const StepPhotos& photos = {});

}  // namespace ohmwright
