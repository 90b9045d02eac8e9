/// Sums in words, for window and papers alike: the figure, its values, the solved figure beside it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/claims.h"
#include "core/plan/sums.h"

#include <string>
#include <string_view>

namespace ohmwright {

/// One digit more than figures elsewhere, because sums are checked by hand: "728.7 Hz", "3.851 kHz", "23.80 dB",
/// "0.359 V", "37k5", "11.2 %", "19.9 nV/√Hz".
std::string sumValueText(const Sum& sum, double value);
/// "1/(2π·3k9·56n) = 728.7 Hz"
std::string workedText(const Sum& sum);
/// "solved 679.4 Hz: the sum is 7.3 % high", "solved 23.73 dB: the sum is 0.07 dB high"; empty where nothing was
/// solved.
std::string solvedText(const Sum& sum);

/// "now − stock = −4.71 − (−10.49) = +5.78 dB; yes from +3.00 dB, partly from +1.50 dB" of a figure that a word is held
/// against; of one that is held against by itself, "now 0.23; yes to 0.33, partly to 0.67".
std::string claimFigureText(const ClaimFigure& figure);
/// "Spread of stock there: 1.96·√(Σ(S·t)²/3) = ±1.19 dB, S each part's influence, t its tolerance."; empty without one.
std::string claimSpreadText(const ClaimFigure& figure);

/// The sum of this figure, or null.
const Sum* findSum(const std::vector<Sum>& sums, std::string_view figure);

}  // namespace ohmwright
