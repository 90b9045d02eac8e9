// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/string_ticks.h"

#include "app/curves/curve_reading.h"
#include "app/look/said_text.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// A string is named when the cursor shows its frequency to three digits.
constexpr double namedWithin = 1.002;

}  // namespace

const StringTick* stringNear(double hz, double reach) {
    const auto distance = [hz](const StringTick& tick) { return std::abs(std::log(hz / tick.hz)); };
    const auto nearest = std::min_element(stringTicks.begin(), stringTicks.end(),
                                          [&](const auto& a, const auto& b) { return distance(a) < distance(b); });
    return distance(*nearest) <= std::log(reach) ? &*nearest : nullptr;
}

double snappedToString(double hz, double reach) {
    const StringTick* tick = stringNear(hz, reach);
    return tick ? tick->hz : hz;
}

double steppedBySemitones(double hz, int steps) {
    const double quarterSemitone = std::exp2(0.25 / 12.0);
    const double stepped = std::clamp(hz * std::exp2(steps / 12.0), lowestHz, highestHz);
    return snappedToString(stepped, quarterSemitone);
}

QString cursorCaption(double hz) {
    const StringTick* tick = stringNear(hz, namedWithin);
    return tick ? QObject::tr("Cursor, %1").arg(saidText(tick->name)) : QObject::tr("Cursor");
}

}  // namespace ohmwright
