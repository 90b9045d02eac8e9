/// A paper of any kind, laid out from its answers.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/step_photos.h"
#include "app/papers/paper_frame.h"
#include "core/bench/paper_answers.h"

namespace ohmwright {

/// Some milliseconds; nothing is solved here.
Paper layOut(const PaperAnswers& answers, PaperSize size, const StepPhotos& photos = {});

}  // namespace ohmwright
