/// What the curves say at one frequency, as numbers and as words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/curve_table.h"
#include "core/plan/compare.h"

#include <QString>

#include <optional>
#include <vector>

namespace ohmwright {

/// Ends of the frequency axis [Hz].
inline constexpr double lowestHz = 20.0;
inline constexpr double highestHz = 20000.0;

/// Gain [dB] at `hz`, straight between the two nearest points over log frequency; absent outside the curve and
/// where the curve has no finite value.
std::optional<double> gainAt(const ResponseCurve& curve, double hz);

/// `curve` less `stock` [dB] at each frequency of `curve`; NaN where either has no value.
std::vector<double> differenceDb(const ResponseCurve& curve, const ResponseCurve& stock);

/// The cursor's read-out [dB]; absent values are not there to be read.
struct CursorReading {
    double hz = 110.0;
    std::optional<double> stockDb;
    std::optional<double> nowDb;
    std::optional<double> ghostDb;
    bool hasGhost = false;
    bool holdsStock = false;

    friend bool operator==(const CursorReading&, const CursorReading&) = default;
};
CursorReading readAt(const LinearAnswer* answer, double hz);

/// "open A, 110 Hz: stock −8.27 dB, now −2.37 dB, change +5.89 dB": what a screen reader says.
QString readingSentence(const CursorReading& reading);

/// "dB, string to output, small signal, drive 5.0, level 5.0": what a kind's read-out holds for. The unit's own
/// knobs are named always, those of the source only when they are not fully open.
QString conditionsText(CurveKind kind, const Job& job);

}  // namespace ohmwright
