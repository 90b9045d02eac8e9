/// The response before and after as a vector drawing with its table: stock long dash, after solid, both in black ink.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/compare.h"

#include <QRectF>

#include <optional>

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

/// Curves with string ticks, corner diamonds and the band of 95 % of builds on the left, the table at five frequencies
/// on the right.
void paintBeforeAndAfter(QPainter& painter, const QRectF& box, const LinearAnswer& answer);

}  // namespace ohmwright
