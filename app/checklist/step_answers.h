/// What a step asks and what its two answers say, in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/bench_step.h"

#include <QString>

namespace ohmwright {

struct StepWords {
    QString title;  ///< "Must beep", "Fit", "Do not power yet"
    QString sub;    ///< "meter on beep, power off, supply out"
    QString pass;   ///< "Beeps"
    QString fail;   ///< "Silent"
};
StepWords stepWordsOf(const BenchStep& step);

/// Whether digits begin a reading here.
bool takesFigure(const BenchStep& step);

}  // namespace ohmwright
