/// Ticks of the response's axes: frequencies 1-2-5, decibels in steps that leave room for their words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/plot_frame.h"
#include "app/curves/plot_range.h"
#include "core/base/number_text.h"

namespace ohmwright {

/// 1-2-5 when there is room for ten labels over `pixels`, else the decades.
AxisMarks frequencyMarks(double pixels);

/// Lines every `gridStep` dB, words every `labelled`.
AxisMarks decibelMarks(const PlotRange& range, double gridStep, double labelled, Sign sign);

}  // namespace ohmwright
