/// The response before and after as a vector drawing with its table: stock long dash, after solid, both in black ink.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/figures.h"

#include <QRectF>

class QPainter;

namespace ohmwright {

/// What a curve says at a frequency, between its points on a log scale; nothing outside them.
std::optional<double> gainDbAt(const ResponseCurve& curve, double hz);

/// The lowest and highest line of a plot in 6 dB steps that holds both curves from 20 Hz to 6 kHz.
struct DecibelRange {
    double lowest = -30.0;
    double highest = 12.0;
};
DecibelRange rangeOf(const ResponseCurve& stock, const ResponseCurve& now);

/// Curves with string ticks and corner diamonds on the left, the table at five frequencies on the right.
void paintBeforeAndAfter(QPainter& painter, const QRectF& box, const LinearState& stock, const LinearState& now);

}  // namespace ohmwright
